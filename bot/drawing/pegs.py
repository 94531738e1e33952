"""The setting-out sheet: pegs, strings, diagonals, and every level below the peg string."""

from math import hypot

from bot.drawing import outline
from bot.drawing.board import BLACK, LINE, ROW, THICK, THIN, Board, wrapped
from bot.drawing.section import HEAD, fitting, told
from bot.drawing.top import view_of
from bot.kinds.layout import PLACES
from bot.phrases import T_, Size, word
from bot.tape import Bound, Fine
from calc.setting_out import diagonals_allowed_m
from calc.strings import below_string

ROOM = 8


def rows(made):
    """(letter, what, length [m]) of what is pegged."""
    long_m, wide_m = made.chamber_length_m, made.chamber_width_m
    return [
        ("A", T_("string, pit edge"), made.pit_diameter_m / 2),
        ("B", T_("string, inside"), made.vessel.radius_m),
        ("C", T_("chamber long"), long_m),
        ("D", T_("chamber wide"), wide_m),
        ("E", T_("both diagonals"), hypot(long_m, wide_m)),
    ]


def levels(site):
    """(height of the peg string over the ground [m] or None, [(place, how far below it or else below the ground [m])])."""
    string_m, _ = site.reading("string_m")
    return string_m, list(below_string(site.design, string_m or 0.0).items())


def picture(site, reader, now):
    """The Board of a site's pegs."""
    made = site.design
    string_m, below = levels(site)
    sizes = told(rows(made), reader, Fine)
    marks = told([("", PLACES[name], value_m) for name, value_m in below], reader, Fine)
    columns = fitting(sizes + marks)
    view, bottom = view_of(made, HEAD)
    most = T_("Diagonals may differ by %(most)s.", most=Bound(diagonals_allowed_m(made.chamber_length_m)))
    said = (most, T_("Square corner: 3 - 4 - 5. All pegs in one line."), _over(string_m))
    notes = [line for text in said for line in wrapped(word(text, reader))]
    lines = sum(-(-len(each) // columns) for each in (sizes, marks)) + len(notes)
    board = Board(bottom + ROOM + ROW * lines + 8, word(T_("%(site)s setting out", site=site.code), reader))
    draw(board, made, view)
    board.key(board.notes(board.key(bottom + ROOM, sizes, columns), notes), marks, columns)
    return board


def _over(string_m):
    if string_m is None:
        return T_("Below the ground (- is over it), peg string not told:")
    return T_("Below the peg string, %(high)s over the ground:", high=Size(string_m))


def draw(board, made, view):
    """The circles, the line through all pegs, the corners of the chamber."""
    x, y = view(0, 0)
    pit, inside = made.pit_diameter_m / 2, made.vessel.radius_m
    board.circle(x, y, pit * view.scale, THICK)
    board.circle(x, y, inside * view.scale, THIN, dashed=True)
    left, right, *_ = outline.chamber(made)
    deep, start = made.chamber_width_m / 2, outline.inlet(made)[0][0] - outline.TANK_M
    board.dashed(view(start - 0.2, 0), view(right + made.wall_thickness_m + 0.2, 0), THIN, 9, 4)
    corners = [(left, -deep), (right, -deep), (right, deep), (left, deep)]
    board.line(view.all([*corners, corners[0]]), LINE)
    for one, other in ((0, 2), (1, 3)):
        board.dashed(view(*corners[one]), view(*corners[other]))
    for spot in (*corners, (0, 0), (start, 0), (right + made.wall_thickness_m + 0.1, 0), (-pit, 0), (pit, 0)):
        peg(board, *view(*spot))
    for letter, length, turn in (("A", pit, (-0.6, 0.8)), ("B", inside, (0.6, 0.8))):
        end = view(length * turn[0], length * turn[1])
        board.arrow((x, y), end)
        board.label([(x + (end[0] - x) * part, y + (end[1] - y) * part, "m") for part in (0.6, 0.5, 0.7)], [letter])
    board.measure("C", view(left, -deep - 0.3), view(right, -deep - 0.3))
    board.measure("D", view(right + 0.22, -deep), view(right + 0.22, deep))
    board.mark("E", view(left + 0.25 * (right - left), -0.5 * deep))


def peg(board, x, y):
    """A peg, seen from above."""
    board.area([(x - 2.4, y - 2.4), (x + 2.4, y - 2.4), (x + 2.4, y + 2.4), (x - 2.4, y + 2.4)], BLACK, 0)
