"""The works of a site: each stage as it was planned, and when it was reported done."""

from dataclasses import replace
from datetime import datetime, timedelta
from functools import partial
from typing import NamedTuple

from bot.days import DAY
from bot.drawing.board import BLACK, LINE, MARGIN, PALE, ROW, SMALL, THICK, THIN, WHITE, WIDTH, Board, flowing, width_of
from bot.phrases import T_, Day, show, word
from bot.stages import STAGES, Stage
from bot.standing import applies, done_at, finished
from bot.timeline import timeline

TOP = 46  # of the bars
BAR = 4.0  # half its height
SETTLES = ("fix", "crew")  # entries that say what is planned, not what was done


class Row(NamedTuple):
    """A stage: planned from and to, when it was reported done or None, when it ends as things stand."""

    stage: Stage
    begins: datetime
    ends: datetime
    done: datetime | None
    stands: datetime


def planned(site, now):
    """(the moment the log begins, the Timeline as it stood then): the plan in force and the crew, nothing else reported."""
    begun = site.log[0].at if site.log else now
    return begun, timeline(replace(site, log=tuple(entry for entry in site.log if entry.kind in SETTLES)), begun)


def rows(site, now):
    """Yield the Row of each stage that was not over before the log."""
    begun, before = planned(site, now)
    stands = timeline(site, now)
    for name, stage in STAGES.items():
        if not applies(stage, site) or _long_ago(name, site):
            continue
        slot = before.slots[name]
        done = done_at(name, site) if finished(name, site) else None
        end = now + stands.slots[name].finish_d * DAY
        yield Row(stage, begun + slot.start_d * DAY, begun + slot.finish_d * DAY, done, end)


def _long_ago(name, site):
    """True for a stage that was over when the log began."""
    names = list(STAGES)
    return site.started_at == "use" or names.index(name) < names.index(site.started_at)


def picture(site, reader, now):
    """The Board of a site's works."""
    held = list(rows(site, now))
    signs = _signs(now, reader)
    lines = len(held) + 1 + flowing([text for _, text in signs])[-1][1]
    left = 2 * MARGIN + max(width_of(word(row.stage.title, reader), SMALL) for row in held)
    board = Board(TOP + ROW * lines + 14, word(T_("%(site)s works", site=site.code), reader))
    start = min([now, *(row.begins for row in held), *(row.done for row in held if row.done)])
    end = max([now + timedelta(days=1), *(max(row.ends, row.stands) for row in held)])

    def x(moment):
        return left + (moment - start) / (end - start) * (WIDTH - 2 * MARGIN - left)

    low = TOP + ROW * len(held)
    for at, row in enumerate(held):
        _row(board, TOP + ROW * (at + 0.5), row, x, reader)
    board.dashed((x(now), TOP - 3), (x(now), low + 3), LINE)
    first, last = (show(Day(moment), reader) for moment in (start, end))
    board.text(left, TOP - 10, first, SMALL)
    board.text(WIDTH - MARGIN, TOP - 10, last, SMALL, "r")
    board.legend(low + 6, [(partial(draw, board), text) for draw, text in signs])
    return board


def _row(board, y, row, x, reader):
    """One stage: its planned time as an open bar, the day it was done as a full mark, else its end as things stand."""
    board.text(MARGIN, y, word(row.stage.title, reader), SMALL)
    board.line([(MARGIN, y + ROW / 2), (WIDTH - MARGIN, y + ROW / 2)], THIN, PALE)
    bar(board, x(row.begins), y, max(x(row.ends) - x(row.begins), 2))
    if row.done:
        mark(board, x(row.done), y)
    else:
        tick(board, x(row.stands), y)


def bar(board, x, y, wide):
    """An open bar."""
    board.area([(x, y - BAR), (x + wide, y - BAR), (x + wide, y + BAR), (x, y + BAR)], WHITE, LINE)


def tick(board, x, y):
    """An upright stroke."""
    board.line([(x, y - BAR - 2), (x, y + BAR + 2)], THICK)


def mark(board, x, y):
    """A full square on its corner."""
    board.area([(x - 5, y), (x, y - 5), (x + 5, y), (x, y + 5)], BLACK, 0)


def _signs(now, reader):
    """What the marks mean: (how one is drawn on a board at a place, its text)."""
    return (
        (lambda board, x, y: bar(board, x, y, 15), word(T_("planned at first"), reader)),
        (lambda board, x, y: mark(board, x + 8, y), word(T_("reported done"), reader)),
        (lambda board, x, y: tick(board, x + 8, y), word(T_("end as it stands"), reader)),
        (lambda board, x, y: board.dashed((x + 8, y - 7), (x + 8, y + 7), LINE), word(T_("today, %(day)s", day=Day(now)), reader)),
    )
