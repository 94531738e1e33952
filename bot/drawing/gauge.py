"""The string-gauge card: the string of the dome, and how high dome and floor stand at several places."""

from bot.drawing import outline
from bot.drawing.board import LINE, MARGIN, PALE, ROW, SMALL, THICK, THIN, USUAL, WIDTH, Board, wrapped
from bot.drawing.outline import View
from bot.drawing.section import HEAD
from bot.phrases import T_, word
from bot.tape import Fine, Mark, TapeUnit
from calc.strings import bowl_table, dome_centre_m, dome_table
from calc.units import si

MOST = 9
STEPS_M = (0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50)
STEPS_FEET_M = tuple(si(inches, "in") for inches in (4, 6, 8, 10, 12, 16, 20))
RIM_M = 0.01  # a row nearer to the rim is left out: both would print alike


def tables(vessel, reader):
    """(what, [(from the middle, over or below the rim [m])]) of the dome and, where it is no flat one, of the floor."""
    steps = STEPS_FEET_M if reader.units == "feet" else STEPS_M
    step_m = next(each for each in steps if vessel.radius_m / each <= MOST - 1)
    made = [(T_("dome over its start"), dome_table(vessel, step_m))]
    if vessel.bottom_depth_m:
        made.append((T_("floor below rim"), bowl_table(vessel, step_m)))
    return [(title, [row for row in table[:-1] if table[-1][0] - row[0] >= RIM_M] + table[-1:]) for title, table in made]


def picture(site, reader, now):
    """The Board of the strings of a site's plant."""
    vessel = site.design.vessel
    held = tables(vessel, reader)
    view = View(-vessel.radius_m - 0.15, vessel.radius_m + 0.15, vessel.dome_rise_m + 0.05, HEAD, 20)
    bottom = view(0, -vessel.bottom_depth_m)[1]
    said = (
        T_("String %(string)s to the inside of the dome.", string=Fine(vessel.sphere_radius_m)),
        _peg(vessel),
        T_("Places from the middle, %(unit)s:", unit=TapeUnit()),
    )
    notes = [line for text in said for line in wrapped(word(text, reader), USUAL)]
    rows = len(held[0][1]) + len(notes) + 1
    board = Board(bottom + 14 + ROW * rows, word(T_("%(site)s string card", site=site.code), reader))
    _profile(board, vessel, view, held)
    _table(board, board.notes(bottom + 8, notes, USUAL), held, reader)
    return board


def _table(board, top, held, reader):
    """Places down, dome and floor across."""
    ends = [WIDTH / 2 + 20, WIDTH - MARGIN] if len(held) > 1 else [WIDTH - MARGIN]
    y = top + ROW / 2
    for end, (title, _) in zip(ends, held, strict=True):
        board.text(end, y, word(title, reader), SMALL, "r")
    for row in zip(*(table for _, table in held), strict=True):
        y += ROW
        board.text(MARGIN, y, Mark(row[0][0]).show(reader))
        for end, (_, value_m) in zip(ends, row, strict=True):
            board.text(end, y, Mark(value_m).show(reader), anchor="r")
        board.line([(MARGIN, y + ROW / 2), (WIDTH - MARGIN, y + ROW / 2)], THIN, PALE)


def _peg(vessel):
    """Where the string is fixed."""
    centre_m = dome_centre_m(vessel)
    if centre_m >= -0.005:
        return T_("Peg in the middle, level with the dome start.")
    over_floor_m = vessel.spring_m + centre_m
    if over_floor_m < 0:
        return T_("Centre %(deep)s under the floor: cut a template.", deep=Fine(-over_floor_m))
    return T_("Peg in the middle, %(under)s under the dome start.", under=Fine(-centre_m))


def _profile(board, vessel, view, held):
    """Dome and floor in outline with a line at every place of the tables."""
    points = [(x, y - vessel.spring_m) for x, y in outline.inside(vessel)]
    deep = vessel.bottom_depth_m
    board.line(view.all([point for point in points if point[1] >= -1e-9]), THICK)
    board.dashed(view(-vessel.radius_m - 0.1, 0), view(vessel.radius_m + 0.1, 0))
    for x, rise in held[0][1]:
        board.line([view(x, 0), view(x, rise)], THIN)
    if deep:
        across = (vessel.radius_m * each / outline.STEPS for each in range(-outline.STEPS, outline.STEPS + 1))
        board.line(view.all([(x, outline.floor(vessel, abs(x)) - deep) for x in across]), THICK)
        for x, depth in held[1][1]:
            board.line([view(x, 0), view(x, -depth)], THIN)
    rise, centre = 0.7 * vessel.dome_rise_m, dome_centre_m(vessel)
    low, end = max(centre, -deep), (-outline.dome_x(vessel, 0.7 * vessel.dome_rise_m), rise)
    board.arrow(view(end[0] * (low - centre) / (rise - centre), low), view(*end), LINE)
