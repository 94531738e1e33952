"""The works of a site: each stage as it was planned, and when it was reported done."""

from dataclasses import replace
from datetime import timedelta

from bot.days import DAY
from bot.drawing.board import BLACK, LINE, MARGIN, PALE, ROW, SMALL, THICK, THIN, WIDTH, Board, width_of
from bot.phrases import T_, Day, show, word
from bot.stages import STAGES
from bot.standing import applies, done_at, finished
from bot.timeline import timeline

TOP, LEFT = 46, 88  # of the bars
BAR = 4.0  # half its height
SETTLES = ("fix", "crew")  # entries that say what is planned, not what was done


def planned(site, now):
    """(the moment the log begins, the Timeline as it stood then): the plan in force and the crew, nothing else reported."""
    begun = site.log[0].at if site.log else now
    return begun, timeline(replace(site, log=tuple(entry for entry in site.log if entry.kind in SETTLES)), begun)


def rows(site, now):
    """(stage, planned start, planned end, moment reported done or None, end as it stands now) of what is not over before the log."""
    begun, before = planned(site, now)
    stands = timeline(site, now)
    for name, stage in STAGES.items():
        if not applies(stage, site) or _long_ago(name, site):
            continue
        slot = before.slots[name]
        done = done_at(name, site) if finished(name, site) else None
        yield stage, begun + slot.start_d * DAY, begun + slot.finish_d * DAY, done, now + stands.slots[name].finish_d * DAY


def _long_ago(name, site):
    """True for a stage that was over when the log began."""
    names = list(STAGES)
    return site.started_at == "use" or names.index(name) < names.index(site.started_at)


def picture(site, reader, now):
    """The Board of a site's works."""
    held = list(rows(site, now))
    board = Board(TOP + ROW * len(held) + 44, word(T_("%(site)s works", site=site.code), reader))
    start = min([now, *(each[1] for each in held), *(each[3] for each in held if each[3])])
    end = max([now + timedelta(days=1), *(each[2] for each in held), *(each[4] for each in held)])

    def x(moment):
        return LEFT + (moment - start) / (end - start) * (WIDTH - MARGIN - 4 - LEFT)

    low = TOP + ROW * len(held)
    for at, row in enumerate(held):
        _row(board, TOP + ROW * (at + 0.5), row, x, reader)
    board.dashed((x(now), TOP - 3), (x(now), low + 3), LINE)
    _dates(board, start, end, x, reader)
    _legend(board, low + 13, now, reader)
    return board


def _row(board, y, row, x, reader):
    """One stage: its planned time as an open bar, the day it was done as a full mark, else how long it takes as things stand."""
    stage, begins, ends, done, stands = row
    board.text(MARGIN, y, word(stage.title, reader), SMALL)
    board.line([(LEFT, y + ROW / 2), (WIDTH - MARGIN, y + ROW / 2)], THIN, PALE)
    left, right = x(begins), max(x(ends), x(begins) + 2)
    board.area([(left, y - BAR), (right, y - BAR), (right, y + BAR), (left, y + BAR)], 255, LINE)
    if done:
        mark(board, x(done), y)
    else:
        board.line([(x(stands), y - BAR - 2), (x(stands), y + BAR + 2)], THICK)


def mark(board, x, y):
    """A full square on its corner."""
    board.area([(x - 5, y), (x, y - 5), (x + 5, y), (x, y + 5)], BLACK, 0)


def _dates(board, start, end, x, reader):
    """The first and the last day over the bars."""
    for moment, share in ((start, 0), (end, 1)):
        text = show(Day(moment), reader)
        board.text(x(moment) - share * width_of(text, SMALL), TOP - 10, text, SMALL)


def _legend(board, y, now, reader):
    """What the marks mean."""
    board.area([(MARGIN, y - BAR), (MARGIN + 16, y - BAR), (MARGIN + 16, y + BAR), (MARGIN, y + BAR)], 255, LINE)
    board.text(MARGIN + 21, y, word(T_("planned at first"), reader), SMALL)
    mark(board, 140, y)
    board.text(150, y, word(T_("reported done"), reader), SMALL)
    board.line([(260, y - BAR - 2), (260, y + BAR + 2)], THICK)
    board.text(266, y, word(T_("end as it stands"), reader), SMALL)
    board.text(MARGIN, y + ROW, word(T_("Dashed line: today, %(day)s.", day=Day(now)), reader), SMALL)
