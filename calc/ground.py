"""The plant in its pit: when ground water lifts it empty, and the soil that goes back round and over it."""

from dataclasses import dataclass
from math import inf, pi

from calc import geometry as g
from calc import sources as s
from calc.checks import Limits, judge
from calc.earth import bank_needed, loose_volume, pit_volume, rectangle_pit_volume
from calc.errors import Missing, Unknown, require
from calc.stability import uplift_n

PARTS = ("base", "wall", "dome", "soil")


def weights_n(design, cover_m=None):
    """Return what stands on the ground below an empty plant, as {part: weight [N]} in the order it is built.

    Parameters
    ----------
    design : Design
        The plant.
    cover_m : float, optional
        Soil over the crown [m], 0 for a bare crown; None is the cover of the design, which nobody has measured.

    Notes
    -----
    Counted within the outer radius only: base, wall, dome, and the soil upright over them, up to finished ground with
    a cone to the cover over the crown. Left out, all on the heavy side of the truth: plaster, the base's edge with
    the soil on it, the outlet, friction of the soil, water in its pores.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> found = weights_n(for_gas(2.0))
    >>> list(found), found["wall"], 10_000 < found["base"] < 20_000
    (['base', 'wall', 'dome', 'soil'], 0.0, True)
    """
    cover_m = require("cover_m", design.cover_m if cover_m is None else cover_m, low=0, unit="m")
    vessel, radius_m, thick_m = design.vessel, design.outer_radius_m, design.shell_thickness_m
    floor_m2 = _dish_area(radius_m, vessel)
    height_m = vessel.wall_height_m
    wall_m3 = g.ring_volume(vessel.radius_m, design.wall_thickness_m, height_m) if height_m else 0.0
    shell_m3 = g.shell_volume(vessel.radius_m, vessel.dome_rise_m, thick_m)
    return {
        "base": float(s.SHELL_N_M3 * floor_m2 * design.base_thickness_m),
        "wall": float(s.BRICKWORK_N_M3 * wall_m3),
        "dome": float(design.shell_n_m3 * shell_m3),
        "soil": float(s.SOIL_LOOSE_N_M3 * max(_soil_m3(design, cover_m, vessel.dome_m3 + shell_m3), 0.0)),
    }


def _soil_m3(design, cover_m, dome_m3):
    radius_m, vessel = design.outer_radius_m, design.vessel
    beside_m3 = pi * radius_m**2 * (design.ground_m - vessel.spring_m)
    return beside_m3 + pi * radius_m**2 * _mound_m(design, cover_m) / 3 - dome_m3


def _mound_m(design, cover_m):
    """How far the cover over the crown stands above finished ground [m]."""
    return max(design.vessel.crown_m + design.shell_thickness_m + cover_m - design.ground_m, 0.0)


def _dish_area(radius_m, vessel):
    if vessel.bottom == "flat":
        return pi * radius_m**2
    return {"bowl": g.cap_area, "cone": g.cone_area}[vessel.bottom](radius_m, vessel.bottom_depth_m)


def _dish_m3(radius_m, vessel):
    if vessel.bottom == "flat":
        return 0.0
    return {"bowl": g.cap_volume, "cone": g.cone_volume}[vessel.bottom](radius_m, vessel.bottom_depth_m)


def float_height_m(design, parts=PARTS, cover_m=None):
    """Return how high ground water may stand over the deepest underside of the base [m] before it can lift the empty plant.

    Parameters
    ----------
    design : Design
        The plant.
    parts : iterable of {"base", "wall", "dome", "soil"}
        What is built; without its soil a plant lifts sooner.
    cover_m : float, optional
        Soil over the crown [m], as for `weights_n`.

    Raises
    ------
    Missing
        If there is no base.
    Unknown
        If there is no such part.

    Notes
    -----
    Weight = 1.2 x uplift, of the upright column within the outer radius: the water pushes up under its whole area,
    also where soil stands on it, so that soil below the water counts with 15 - 1.2 x 9.81 = 3.2 kN/m3 only. Water
    above the ground is not covered. An engineer decides, the height is for knowing when to ask.

    Examples
    --------
    Less soil, lower water:

    >>> from calc.designs import for_gas
    >>> plant = for_gas(2.0)
    >>> float_height_m(plant, ("base", "dome")) < float_height_m(plant, cover_m=0.3) < float_height_m(plant)
    True
    """
    parts = tuple(parts)
    for part in parts:
        if part not in PARTS:
            raise Unknown(part, PARTS)
    if "base" not in parts:
        raise Missing("base")
    weights = weights_n(design, cover_m)
    held_m3 = sum(weights[part] for part in parts) / (s.UPLIFT_FACTOR * s.WATER_N_M3)
    radius_m, vessel = design.outer_radius_m, design.vessel
    over_m3 = held_m3 - _dish_m3(radius_m, vessel)
    if over_m3 >= 0:
        metre_n = uplift_n(radius_m, 1.0)
        return float(vessel.bottom_depth_m + over_m3 * s.WATER_N_M3 / metre_n)
    if vessel.bottom == "cone":
        return float(vessel.bottom_depth_m * (held_m3 / _dish_m3(radius_m, vessel)) ** (1 / 3))
    return float(g.sphere_depth(g.cap_sphere_radius(radius_m, vessel.bottom_depth_m), held_m3))


def float_depth_m(design, parts=PARTS, cover_m=None):
    """Return the same as a depth of the ground water below finished ground [m]: nearer than this it can lift the plant.

    Below zero where it stands also with water up to the ground, by this sum.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> plant = for_gas(2.0)
    >>> round(float_depth_m(plant) + float_height_m(plant), 3) == round(plant.ground_m + plant.base_thickness_m, 3)
    True
    """
    return float(design.ground_m + design.base_thickness_m - float_height_m(design, parts, cover_m))


def floor_depth_m(design):
    """Return the depth of ground water below finished ground [m] from which on it lifts the empty floor by itself: it can crack.

    Notes
    -----
    1.2 x water pressure at the deepest underside = weight of the floor. A dished floor stands more, as a dome does;
    that is not counted.

    Examples
    --------
    100 mm of concrete, 2.4 kPa, are held by 0.204 m of water:

    >>> from calc.designs import for_gas
    >>> plant = for_gas(2.0)
    >>> round(plant.ground_m + plant.base_thickness_m - floor_depth_m(plant), 3)
    0.204
    """
    held_m = s.SHELL_N_M3 * design.base_thickness_m / (s.UPLIFT_FACTOR * s.WATER_N_M3)
    return float(design.ground_m + design.base_thickness_m - held_m)


def water_stands(depth_m, least_m, measured_m=s.GROUND_WATER_M):
    """Return the Verdict on ground water `depth_m` below the ground [m] that should stand no nearer than `least_m` [m].

    Examples
    --------
    >>> [water_stands(depth_m, 1.60).stands for depth_m in (1.50, 1.62, 1.70)]
    ['outside', 'not_enough', 'within']
    """
    return judge([depth_m], Limits(float(least_m), 0.0, inf, float(measured_m)))


@dataclass(frozen=True)
class Fill:
    """The soil of a plant [m3]: dug out of its pits, rammed back, dug soil that takes, and what is left of it, loose.

    The last is below zero where soil must be brought, in loose cubic metres too.
    """

    dug_m3: float
    rammed_m3: float
    taken_m3: float
    left_loose_m3: float


def outlet_pit_m(design):
    """Return length, width and depth [m] of the pit of the outlet chamber: walls and working space round it, its floor under it.

    Examples
    --------
    >>> from calc.designs import drawing
    >>> from calc.vessel import Vessel
    >>> plant = drawing(Vessel(1.30, 0.55, 1.10, "flat"), 1.22, (1.65, 1.25, 0.53))
    >>> [round(side, 3) for side in outlet_pit_m(plant)]
    [2.07, 1.67, 0.555]
    """
    round_m = 2 * (design.wall_thickness_m + design.working_space_m)
    depth_m = design.ground_m - design.levels.zero_line_m + s.SLAB_THICK_M
    return float(design.chamber_length_m + round_m), float(design.chamber_width_m + round_m), float(depth_m)


def outlet_pit_m3(design):
    """Return the volume of that pit [m3].

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> plant = for_gas(2.0)
    >>> outlet_pit_m3(plant) > plant.chamber_length_m * plant.chamber_width_m * (plant.ground_m - plant.levels.zero_line_m)
    True
    """
    return float(rectangle_pit_volume(*outlet_pit_m(design)))


def fill(design, soil="earth", slope=0.0):
    """Return the Fill of a plant whose pit goes back `slope` for each metre of depth.

    Parameters
    ----------
    design : Design
        The plant.
    soil : {"sand", "earth", "clay"}
        What was dug; rock is no backfill.
    slope : float
        How far the side of the main pit goes back for each metre of depth.

    Raises
    ------
    Unknown
        If the soil is none that is filled with.
    OutOfRange
        If the plant does not fit into its pit.

    Notes
    -----
    Rammed = pit over the edge of the floor + cone to the cover over the crown, as wide as the pit - wall and dome with
    their inside. Base and dish fill what lies below. The outlet's pit counts as dug; nothing is filled round its chamber.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> found = fill(for_gas(2.0))
    >>> round(found.taken_m3 * 0.90, 6) == round(found.rammed_m3, 6), found.dug_m3 > found.taken_m3
    (True, True)
    """
    radius_m, vessel = design.pit_diameter_m / 2, design.vessel
    pit_m3 = pit_volume(radius_m, design.pit_depth_m, slope=slope)
    rammed_m3 = _rammed_m3(design, pit_m3)
    taken_m3 = bank_needed(rammed_m3, soil)
    dug_m3 = pit_m3 + _dish_m3(radius_m, vessel) + outlet_pit_m3(design)
    left_m3 = dug_m3 - taken_m3
    loose_m3 = loose_volume(abs(left_m3), soil)
    return Fill(float(dug_m3), float(rammed_m3), float(taken_m3), float(loose_m3 if left_m3 >= 0 else -loose_m3))


def rammed_m3(design):
    """Return the soil rammed round and over a plant in an upright pit [m3], as `fill` has it.

    Raises
    ------
    OutOfRange
        If the plant does not fit into its pit.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> plant = for_gas(2.0)
    >>> abs(rammed_m3(plant) - fill(plant).rammed_m3) < 1e-9
    True
    """
    return float(_rammed_m3(design, pi * (design.pit_diameter_m / 2) ** 2 * design.pit_depth_m))


def _rammed_m3(design, pit_m3):
    """What fills a pit of a volume over the edge of the floor [m3]: all but base, wall and dome, and the cone on top."""
    area_m2, vessel = pi * (design.pit_diameter_m / 2) ** 2, design.vessel
    wall_m3 = pi * (vessel.radius_m + design.wall_thickness_m) ** 2 * vessel.wall_height_m
    dome_m3 = vessel.dome_m3 + g.shell_volume(vessel.radius_m, vessel.dome_rise_m, design.shell_thickness_m)
    over_base_m3 = pit_m3 - area_m2 * design.base_thickness_m
    filled_m3 = over_base_m3 + area_m2 * _mound_m(design, design.cover_m) / 3 - wall_m3 - dome_m3
    return require("rammed_m3", filled_m3, low=0, unit="m3")
