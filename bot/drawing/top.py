"""A plant seen from above: inlet, pit and outlet chamber in one line, with the widths."""

from math import hypot

from bot.drawing import outline
from bot.drawing.board import BLACK, LINE, PALE, ROW, THICK, THIN, WHITE, Board, wrapped
from bot.drawing.outline import View
from bot.drawing.section import HEAD, fitting, told
from bot.phrases import T_, word

ROOM = 24  # under the drawing, for the pit's width


def rows(made):
    """(letter, what, length [m])."""
    long_m, wide_m = made.chamber_length_m, made.chamber_width_m
    return [
        ("A", T_("inside wide"), 2 * made.vessel.radius_m),
        ("K", T_("pit wide"), made.pit_diameter_m),
        ("M", T_("chamber long"), long_m),
        ("O", T_("chamber wide"), wide_m),
        ("P", T_("its diagonal"), hypot(long_m, wide_m)),
        ("F", T_("wall thick"), made.wall_thickness_m),
    ]


def view_of(made, top):
    """(View, the y of its lower edge) of the plant from above."""
    half = max(made.pit_diameter_m, made.chamber_width_m) / 2 + 0.15
    left, right = outline.inlet(made)[0][0] - outline.TANK_M - 0.25, outline.chamber(made)[1] + made.wall_thickness_m + 0.25
    view = View(left, right, half, top)
    return view, view(0, -half)[1]


def picture(site, reader, now):
    """The Board of a site's plant from above."""
    made = site.design
    listed = told(rows(made), reader)
    columns = fitting(listed)
    view, bottom = view_of(made, HEAD)
    foot = wrapped(word(T_("Inlet, middle peg and outlet in one line."), reader))
    board = Board(
        bottom + ROOM + ROW * (-(-len(listed) // columns) + len(foot)) + 6, word(T_("%(site)s from above", site=site.code), reader)
    )
    draw(board, made, view)
    values = {letter: value for letter, _, value in listed}
    half, radius = made.pit_diameter_m / 2, made.vessel.radius_m
    left, right, *_ = outline.chamber(made)
    deep = made.chamber_width_m / 2
    for side in (-half, half):
        board.line([view(side, 0), (view(side, 0)[0], bottom + 10)], THIN)
    board.measure("K", (view(-half, 0)[0], bottom + 7), (view(half, 0)[0], bottom + 7), values["K"])
    board.measure("A", view(-radius, 0.35), view(radius, 0.35), values["A"])
    board.measure("M", view(left, -deep - made.wall_thickness_m - 0.22), view(right, -deep - made.wall_thickness_m - 0.22), values["M"])
    board.measure("O", view(left + 0.75 * (right - left), -deep), view(left + 0.75 * (right - left), deep))
    board.dashed(view(left, -deep), view(right, deep))
    board.mark("P", view(left + 0.3 * (right - left), -0.4 * deep))
    board.point("F", view(right + made.wall_thickness_m / 2, 0.6 * deep), (-4, -0.6 * deep * view.scale - 12))
    board.notes(board.key(bottom + ROOM, listed, columns), foot)
    return board


def draw(board, made, view):
    """Pit, dome, chamber, tank and pipe, and the line they stand in."""
    x, y = view(0, 0)
    board.circle(x, y, made.pit_diameter_m / 2 * view.scale, dashed=True)
    outside = made.vessel.radius_m + (made.wall_thickness_m if made.vessel.wall_height_m else made.shell_thickness_m)
    board.circle(x, y, outside * view.scale, THICK, PALE)
    board.circle(x, y, made.vessel.radius_m * view.scale, LINE, WHITE)
    left, right, *_ = outline.chamber(made)
    wall, deep = made.wall_thickness_m, made.chamber_width_m / 2
    for grown, fill in ((wall, PALE), (0.0, WHITE)):
        corners = [
            (left - grown, -deep - grown),
            (right + grown, -deep - grown),
            (right + grown, deep + grown),
            (left - grown, deep + grown),
        ]
        board.area(view.all(corners), fill)
    (inlet_x, _), (end_x, _) = outline.inlet(made)
    half = outline.PIPE_M / 2
    for side in (-half, half):
        board.line(view.all([(inlet_x, side), (end_x, side)]), LINE)
    tank = outline.TANK_M / 2
    board.circle(*view(inlet_x - tank, 0), tank * view.scale, THICK, WHITE)
    board.dashed(view(inlet_x - 2 * tank - 0.15, 0), view(right + wall + 0.15, 0), THIN, 9, 4)
    board.circle(x, y, 2.2, LINE, BLACK)
