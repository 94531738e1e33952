"""A day of gas: what the store holds hour by hour with the cooking last told, for small flames and big ones."""

from functools import partial

from bot.drawing.board import LINE, MARGIN, PALE, ROW, SMALL, THICK, THIN, WIDTH, Board, flowing
from bot.kinds.use import sessions
from bot.phrases import T_, Amount, Between, word
from calc import sources as s
from calc.gas_use import DAY_H, run, settled_m3, week

TOP, HIGH, LEFT, RIGHT = 48, 150, 34, 10
HOURS = (0, 6, 12, 18, 24)
DAYS = 7
FIELD = 225  # the grey of a time of cooking


def course(store_m3, made_m3, held):
    """[(hour [h], gas stored [m3])] of a settled day, with the hours at which the store becomes full or empty."""
    hour, points = 0.0, []
    for hours, rate, before, after, lost, short in run(store_m3, made_m3, held, settled_m3(store_m3, made_m3, held), 1):
        slope = made_m3 / DAY_H - rate
        points.append((hour, before))
        if (lost or short) and slope:
            points.append((hour + (after - before) / slope, after))
        hour += hours
        points.append((hour, after))
    return points


def picture(site, reader, now):
    """The Board of a site's gas."""
    made = site.design
    told = site.last("use").fields
    store_m3, made_m3 = made.levels.store_m3, made.gas_m3_per_day
    both = [sessions(told, rate) for rate in s.STOVE_GAS_M3_H]
    signs = (
        (_solid, word(T_("small flame"), reader)),
        (_broken, word(T_("big flame"), reader)),
        (_cooking, word(T_("cooking, hours of the day"), reader)),
    )
    lines = 1 + flowing([text for _, text in signs])[-1][1]
    board = Board(TOP + HIGH + 24 + (4 + lines) * ROW, word(T_("%(site)s gas of a day", site=site.code), reader))

    def spot(hour, gas_m3):
        return LEFT + hour / DAY_H * (WIDTH - LEFT - RIGHT), TOP + HIGH * (1 - gas_m3 / (1.12 * store_m3))

    _frame(board, spot, store_m3, both[0], reader)
    for held, draw in zip(both, (_solid, _broken), strict=True):
        draw(board, [spot(*point) for point in course(store_m3, made_m3, held)])
    small, big = (week(made, held, days=DAYS) for held in both)
    board.legend(TOP + HIGH + 14, [(partial(_sample, board, draw), text) for draw, text in signs])
    per_day = (
        (T_("made a day"), made_m3, made_m3),
        (T_("asked a day"), small.asked_m3 / DAYS, big.asked_m3 / DAYS),
        (T_("missing a day"), small.short_m3 / DAYS, big.short_m3 / DAYS),
        (T_("lost a day"), big.lost_m3 / DAYS, small.lost_m3 / DAYS),
    )
    board.key(
        TOP + HIGH + 18 + lines * ROW, [("", word(title, reader), Between(low, high, "m3", 2).show(reader)) for title, low, high in per_day]
    )
    return board


def _frame(board, spot, store_m3, held, reader):
    """The hours, the store, and when there is cooking."""
    for each in held:
        for start in (each.start_h, each.start_h - DAY_H):
            left, right = max(start, 0.0), min(start + each.hours_h, DAY_H)
            if right > left:
                board.area([spot(left, 0), spot(right, 0), spot(right, store_m3), spot(left, store_m3)], FIELD, 0)
    for hour in HOURS:
        board.line([spot(hour, 0), spot(hour, store_m3)], THIN, PALE)
        x, y = spot(hour, 0)
        board.text(min(max(x, MARGIN + 10), WIDTH - RIGHT - 2), y + 9, f"{hour}", SMALL, "m")
    board.line([spot(0, 0), spot(DAY_H, 0)], LINE)
    board.line([spot(0, 0), spot(0, store_m3)], LINE)
    board.dashed(spot(0, store_m3), spot(DAY_H, store_m3), LINE)
    board.text(LEFT, spot(0, store_m3)[1] - 9, word(T_("store full: %(store)s", store=Amount(store_m3, "m3", 2)), reader), SMALL)
    board.text(LEFT - 6, spot(0, 0)[1], "0", SMALL, "r")


def _solid(board, points):
    board.line(points, THICK)


def _broken(board, points):
    for start, end in zip(points, points[1:], strict=False):
        board.dashed(start, end, THICK, 6, 4)


def _cooking(board, points):
    """The field of a time of cooking."""
    (left, y), (right, _) = points
    board.area([(left, y - 5), (right, y - 5), (right, y + 5), (left, y + 5)], FIELD, 0)


def _sample(board, draw, x, y):
    draw(board, [(x, y), (x + 16, y)])
