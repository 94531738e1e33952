"""The lines of a plant as points [m]: x from its axis, y above the inside floor at its centre."""

from math import radians, sqrt, tan

from bot.drawing.board import MARGIN, WIDTH
from calc import geometry as g
from calc import sources as s

STEPS = 24
TANK_M = 0.60  # the mixing tank is drawn so wide: its size is no part of a plan
PIPE_M = 0.11
SHAFT_M = 0.5  # the outlet passage likewise


def inside(vessel):
    """The inside of floor, wall and dome, once round: from the floor's middle over the right side to the crown and back."""
    right = _right(vessel)
    return right + [(-x, y) for x, y in reversed(right)]


def _right(vessel):
    radius = vessel.radius_m
    low = [(radius * step / STEPS, floor(vessel, radius * step / STEPS)) for step in range(STEPS + 1)]
    rise = [vessel.dome_rise_m * (1 - (1 - step / STEPS) ** 2) for step in range(STEPS + 1)]  # closer where it is flat
    return low + [(dome_x(vessel, each), vessel.spring_m + each) for each in rise]


def floor(vessel, x):
    if not vessel.bottom_depth_m:
        return 0.0
    if vessel.bottom == "cone":
        return vessel.bottom_depth_m * x / vessel.radius_m
    return vessel.bottom_depth_m - g.cap_rise_at(vessel.radius_m, vessel.bottom_depth_m, x)


def dome_x(vessel, rise_m, out_m=0.0):
    """How far from the axis the dome is at a height over its start [m]; `out_m` outside it."""
    sphere = vessel.sphere_radius_m
    centre = vessel.dome_rise_m - sphere
    return sqrt(max((sphere + out_m) ** 2 - (rise_m - centre) ** 2, 0.0))


def wall_x(vessel, level_m):
    """How far from the axis the inside of the wall, dome or floor is at a level [m]."""
    if level_m >= vessel.spring_m:
        return dome_x(vessel, level_m - vessel.spring_m)
    return vessel.radius_m


def shell(made):
    """The outside of wall and dome, over the crown from right to left, down to the base."""
    vessel, out = made.vessel, made.shell_thickness_m
    sphere = vessel.sphere_radius_m + out
    centre_m = vessel.crown_m - vessel.sphere_radius_m
    top, foot = vessel.crown_m + out, vessel.spring_m
    levels = [foot + (top - foot) * (1 - (1 - step / STEPS) ** 2) for step in range(STEPS + 1)]
    right = [(sqrt(max(sphere**2 - (level - centre_m) ** 2, 0.0)), level) for level in levels]
    if vessel.wall_height_m:
        wide = vessel.radius_m + made.wall_thickness_m
        right = [(wide, vessel.bottom_depth_m), (wide, vessel.spring_m), *right]
    return right + [(-x, y) for x, y in reversed(right)]


def base(made):
    """The concrete under floor and wall, as wide as the pit."""
    half, thick = made.pit_diameter_m / 2, made.base_thickness_m
    vessel = made.vessel
    top = [(x, _base_top(vessel, abs(x))) for x in (half * (step / STEPS - 1) for step in range(2 * STEPS + 1))]
    return top + [(x, y - thick) for x, y in reversed(top)]


def _base_top(vessel, x):
    return floor(vessel, x) if x <= vessel.radius_m else vessel.bottom_depth_m


def inlet(made):
    """(upper end, lower end) of the axis of the inlet pipe, at the slope that is preferred."""
    vessel = made.vessel
    low = vessel.bottom_depth_m + s.INLET_END_M
    high = made.levels.overflow_m + s.INLET_ABOVE_OVERFLOW_M
    x = wall_x(vessel, low)
    return (-(x + (high - low) / tan(radians(s.INLET_SLOPE_DEG[1]))), float(high)), (-x, float(low))


def chamber(made):
    """(left, right, floor, overflow) of the inside of the outlet chamber, drawn right outside the pit."""
    left = made.pit_diameter_m / 2 + made.wall_thickness_m
    return left, left + made.chamber_length_m, made.levels.zero_line_m, made.levels.overflow_m


class View:
    """How metres of a drawing become points of a board."""

    def __init__(self, left_m, right_m, top_m, top, side=MARGIN):
        self.scale = (WIDTH - 2 * side) / (right_m - left_m)
        self._left_m, self._top_m, self._top, self._side = left_m, top_m, top, side

    def __call__(self, x_m, y_m):
        return self._side + (x_m - self._left_m) * self.scale, self._top + (self._top_m - y_m) * self.scale

    def all(self, points):
        """Many points."""
        return [self(*point) for point in points]
