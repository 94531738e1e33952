"""The section of a plant: inlet, pipe, digester, passage, outlet chamber, levels; letters in it, their numbers in a list below."""

from bot.drawing import outline
from bot.drawing.board import BLACK, LINE, MARGIN, PALE, ROW, THICK, THIN, WHITE, WIDTH, Board, width_of, wrapped
from bot.drawing.outline import View
from bot.phrases import T_, Size, show, word
from calc import sources as s

HEAD = 30  # where the drawing begins, under the title
ROOM = 16  # under it, for the pit's width


def rows(made):
    """(letter, what, length or level from the ground [m]) of everything that has a number."""
    vessel, levels, ground_m = made.vessel, made.levels, made.ground_m
    dish = [("D", T_("dish deep"), vessel.bottom_depth_m)] if vessel.bottom_depth_m else []
    wall = [("B", T_("wall high"), vessel.wall_height_m), ("F", T_("wall thick"), made.wall_thickness_m)] if vessel.wall_height_m else []
    return [
        ("A", T_("inside wide"), 2 * vessel.radius_m),
        *wall[:1],
        ("C", T_("dome rise"), vessel.dome_rise_m),
        *dish,
        ("E", T_("dome string"), vessel.sphere_radius_m),
        *wall[1:],
        ("G", T_("dome thick"), made.shell_thickness_m),
        ("H", T_("base thick"), made.base_thickness_m),
        ("J", T_("soil cover"), made.cover_m),
        ("K", T_("pit wide"), made.pit_diameter_m),
        ("L", T_("pit deep"), made.pit_depth_m),
        ("M", T_("chamber long"), made.chamber_length_m),
        ("", T_("chamber wide"), made.chamber_width_m),
        ("N", T_("chamber deep"), levels.overflow_m - levels.zero_line_m),
    ], [
        ("1", T_("inlet floor"), levels.overflow_m + s.INLET_ABOVE_OVERFLOW_M - ground_m),
        ("2", T_("overflow"), levels.overflow_m - ground_m),
        ("3", T_("zero line"), levels.zero_line_m - ground_m),
        ("4", T_("lowest slurry"), levels.lowest_m - ground_m),
        ("5", T_("crown inside"), vessel.crown_m - ground_m),
        ("6", T_("dome start"), vessel.spring_m - ground_m),
        ("7", T_("passage top"), made.passage_top_m - ground_m),
        ("8", T_("inlet pipe end"), vessel.bottom_depth_m + s.INLET_END_M - ground_m),
        ("9", T_("floor middle"), -ground_m),
    ]  # fmt: skip


def told(listed, reader, printed=Size):
    """The rows of a list as they are printed."""
    return [(letter, word(title, reader), show(printed(value_m), reader)) for letter, title, value_m in listed]


def fitting(listed):
    """How many columns of a list fit side by side."""
    half = WIDTH / 2 - 3 * MARGIN - 22
    return 2 if all(width_of(title) + width_of(value) < half for _, title, value in listed) else 1


def picture(site, reader, now):
    """The Board of a site's plant."""
    made = site.design
    sizes, levels = (told(each, reader) for each in rows(made))
    columns = fitting(sizes + levels)
    view, bottom = _view(made)
    head = wrapped(word(T_("Levels from the ground, - is under it:"), reader))
    foot = wrapped(word(T_("To scale; tank and passage sketched. 7: no higher."), reader))
    lines = sum(-(-len(each) // columns) for each in (sizes, levels)) + len(head) + len(foot)
    board = Board(bottom + ROW * lines + 14, word(T_("%(site)s section", site=site.code), reader))
    draw(board, made, view)
    _letters(board, made, view, {letter: value for letter, _, value in sizes})
    end = board.notes(board.key(bottom + 6, sizes, columns) + 2, head)
    board.notes(board.key(end, levels, columns), foot)
    return board


def sketch(site, reader):
    """The Board of the plant alone, with its letters, where the list stands beside it."""
    made = site.design
    view, bottom = _view(made)
    board = Board(bottom)
    draw(board, made, view)
    _letters(board, made, view, {letter: value for letter, _, value in told(rows(made)[0], reader)})
    return board


def _view(made):
    """(View, where the drawing ends) that shows the whole plant."""
    (inlet_x, inlet_y), _ = outline.inlet(made)
    top_m = max(_mound_m(made), inlet_y + 0.35) + 0.22
    view = View(inlet_x - outline.TANK_M - 0.25, outline.chamber(made)[1] + made.wall_thickness_m + 0.28, top_m, HEAD)
    return view, view(0, -made.base_thickness_m)[1] + ROOM + 8


def _mound_m(made):
    return made.vessel.crown_m + made.shell_thickness_m + made.cover_m


def draw(board, made, view):
    """Everything but letters and numbers."""
    _ground(board, made, view)
    board.area(view.all(outline.base(made)), PALE)
    board.area(view.all(outline.shell(made)), PALE)
    _outlet(board, made, view)
    board.area(view.all(outline.inside(made.vessel)), WHITE)
    _opening(board, made, view)
    _slurry(board, made, view)
    _inlet(board, made, view)
    crown = made.vessel.crown_m
    pipe = [(0, crown), (0, _mound_m(made) + 0.12), (0.45, _mound_m(made) + 0.12)]
    board.line(view.all(pipe), THICK)


def _ground(board, made, view):
    """The pit, the ground beside it and the soil over the dome."""
    half, ground = made.pit_diameter_m / 2, made.ground_m
    low = made.ground_m - made.pit_depth_m
    left, right = outline.inlet(made)[0][0] - outline.TANK_M - 0.2, outline.chamber(made)[1] + made.wall_thickness_m + 0.25
    for ends in ((left, -half), (half, right)):
        (x, y), (end, _) = (view(each, ground) for each in ends)
        board.line([(x, y), (end, y)], LINE)
        board.hatch(x, y, end, y + 5)
    for side in (-half, half):
        board.dashed(view(side, ground), view(side, low))
    top = _mound_m(made)
    if top > ground:
        board.line(view.all([(-half, ground), (-0.6 * half, top), (0.6 * half, top), (half, ground)]), LINE)


def _outlet(board, made, view):
    """The outlet chamber with its walls, and the passage down to the digester."""
    left, right, floor, overflow = outline.chamber(made)
    wall, rim = made.wall_thickness_m, overflow + 0.15
    board.area(view.all([(left - wall, floor - 0.08), (right + wall, floor - 0.08), (right + wall, rim), (left - wall, rim)]), PALE)
    board.area(view.all([(left, floor), (right, floor), (right, rim), (left, rim)]), WHITE)
    board.area(
        view.all([(right - 0.02, overflow), (right + wall + 0.02, overflow), (right + wall + 0.02, rim), (right - 0.02, rim)]), WHITE, 0
    )
    low, high = made.vessel.bottom_depth_m, made.passage_top_m
    foot, head = outline.wall_x(made.vessel, low), outline.wall_x(made.vessel, high)
    shaft = [(foot - 0.01, low), (left + outline.SHAFT_M, floor), (left, floor), (head - 0.01, high)]
    board.area(view.all(shaft), WHITE)
    board.line(view.all([(left + 0.03, floor), (left + outline.SHAFT_M - 0.03, floor)]), 2 * THICK, WHITE)


def _opening(board, made, view):
    """No wall where the passage begins."""
    low, high = made.vessel.bottom_depth_m, made.passage_top_m
    ends = [(outline.wall_x(made.vessel, level), level) for level in (low + 0.02, (low + high) / 2, high - 0.02)]
    board.line(view.all(ends), 2 * THICK, WHITE)


def _slurry(board, made, view):
    """The slurry as it stands with the store full, and the zero line over it."""
    vessel, levels = made.vessel, made.levels
    right = [point for point in outline.inside(vessel)[: 2 * outline.STEPS + 2] if point[1] < levels.lowest_m]
    half = [*right, (outline.wall_x(vessel, levels.lowest_m), levels.lowest_m)]
    inner = [(x * 0.985, y + 0.015) for x, y in half] + [(-x * 0.985, y + 0.015) for x, y in reversed(half)]
    board.area(view.all(inner), 235, 0)
    for level, width in ((levels.lowest_m, LINE), (levels.zero_line_m, THIN)):
        wide = outline.wall_x(vessel, level)
        board.dashed(view(-wide, level), view(wide, level), width)
    left, chamber_right, _, overflow = outline.chamber(made)
    board.dashed(view(left, overflow), view(chamber_right + made.wall_thickness_m, overflow), LINE)


def _inlet(board, made, view):
    """The mixing tank and the pipe into the digester."""
    (x, y), (end, low) = outline.inlet(made)
    half = outline.PIPE_M / 2
    along = ((x - half, y), (end - half, low + 0.02), (end + half, low + 0.02), (x + half, y))
    board.area(view.all(along), WHITE)
    tank, rim = outline.TANK_M, y + 0.3
    board.area(view.all([(x - tank, y - 0.08), (x + half + 0.05, y - 0.08), (x + half + 0.05, y), (x - tank, y)]), PALE)
    for side in (x - tank, x + half + 0.05):
        board.line(view.all([(side, y - 0.08), (side, rim)]), THICK)


# ---- letters


def _letters(board, made, view, values):
    """Dimension lines with their letters, then the levels with their figures."""
    _inner(board, made, view, values)
    _outer(board, made, view, values)
    _levels(board, made, view)


def _inner(board, made, view, values):
    vessel, levels = made.vessel, made.levels
    radius, spring, foot = vessel.radius_m, vessel.spring_m, vessel.bottom_depth_m
    across = foot + 0.28 * (levels.lowest_m - foot) if vessel.wall_height_m else spring
    if vessel.wall_height_m:
        board.measure("B", view(-0.62 * radius, foot), view(-0.62 * radius, spring))
        board.point("F", view(-(radius + made.wall_thickness_m / 2), foot + 0.6 * vessel.wall_height_m), (-18, -8))
    board.measure("C", view(-0.12 * radius, spring), view(-0.12 * radius, vessel.crown_m))
    if foot:
        board.measure("D", view(-0.12 * radius, 0), view(-0.12 * radius, foot))
    _string(board, vessel, view)
    board.measure("A", view(-radius, across), view(radius, across), values["A"])
    rise = 0.72 * vessel.dome_rise_m
    board.point("G", view(-outline.dome_x(vessel, rise, made.shell_thickness_m / 2), spring + rise), (-12, -14))


def _outer(board, made, view, values):
    vessel, ground, half = made.vessel, made.ground_m, made.pit_diameter_m / 2
    left, right, floor, overflow = outline.chamber(made)
    low, down = ground - made.pit_depth_m, view(0, -made.base_thickness_m)[1] + 9
    for side in (-half, half):
        x, y = view(side, low)
        board.line([(x, y), (x, down + 3)], THIN)
    board.measure("K", (view(-half, 0)[0], down), (view(half, 0)[0], down), values["K"])
    board.point("H", view(half - 0.12, vessel.bottom_depth_m - made.base_thickness_m / 2), (14, 8))
    board.measure("J", view(0.3 * vessel.radius_m, vessel.crown_m + made.shell_thickness_m), view(0.3 * vessel.radius_m, _mound_m(made)))
    board.measure("L", view(-half + 0.06, low), view(-half + 0.06, ground))
    board.measure("M", view(left, overflow + 0.30), view(right, overflow + 0.30), values["M"])
    deep = left + 0.72 * (right - left)
    board.measure("N", view(deep, floor), view(deep, overflow))


def _levels(board, made, view):
    vessel, levels = made.vessel, made.levels
    (inlet_x, inlet_y), (end_x, end_y) = outline.inlet(made)
    left, right, floor, overflow = outline.chamber(made)
    spots = (
        ("1", view(inlet_x - outline.TANK_M, inlet_y), (-7, 0)),
        ("2", view(right + made.wall_thickness_m, overflow), (8, 0)),
        ("3", view(0.45 * vessel.radius_m, levels.zero_line_m), (0, 0)),
        ("3", view(left + 0.45 * (right - left), floor), (0, 9)),
        ("4", view(0.6 * vessel.radius_m, levels.lowest_m), (0, 0)),
        ("5", view(0, vessel.crown_m), (12, 12)),
        ("6", view(vessel.radius_m, vessel.spring_m), (12, 0)),
        ("7", view(outline.wall_x(vessel, made.passage_top_m), made.passage_top_m), (-9, 0)),
        ("8", view(end_x, end_y), (11, 0)),
        ("9", view(0, 0), (0, -8)),
    )
    for figure, (x, y), (right_by, down_by) in spots:
        board.mark(figure, (x + right_by, y + down_by))


def _string(board, vessel, view):
    """The dome's string, from its centre as far as the drawing shows it."""
    centre_m = vessel.crown_m - vessel.sphere_radius_m
    rise = 0.55 * vessel.dome_rise_m
    end = (outline.dome_x(vessel, rise), vessel.spring_m + rise)
    low = max(centre_m, 0.06)
    start, (x, y) = view(end[0] * (low - centre_m) / (end[1] - centre_m), low), view(*end)
    board.arrow(start, (x, y))
    if centre_m > 0.06:
        board.circle(*start, 2, LINE, BLACK)
    board.label([(x + (start[0] - x) * part, y + (start[1] - y) * part, "m") for part in (0.35, 0.5, 0.25, 0.65, 0.75)], ["E"])
