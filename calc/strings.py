"""String and tape tables for the mason: depth and rise over the floor, levels below the peg string."""

from math import ceil

from calc import geometry as g
from calc import sources as s
from calc.errors import OutOfRange, Unknown, require
from calc.levels import solve


def bowl_table(vessel, step_m=0.20):
    """Return [(x, depth below the rim)] of the bowl or cone [m], from the axis to the rim.

    Parameters
    ----------
    vessel : Vessel
        The digester.
    step_m : float
        Step along the radius [m].

    Raises
    ------
    OutOfRange
        If the floor is flat, or the step is not above zero.

    Examples
    --------
    >>> from calc.vessel import Vessel
    >>> [(x, round(depth, 3)) for x, depth in bowl_table(Vessel(1.275, 1.275, 0.0, "bowl", 0.4547), 0.5)]
    [(0.0, 0.455), (0.5, 0.392), (1.0, 0.189), (1.275, 0.0)]
    """
    require("bottom_depth_m", vessel.bottom_depth_m, low=1e-6, unit="m")
    return [(x, _depth(vessel, x)) for x in _steps(vessel.radius_m, step_m)]


def _depth(vessel, x):
    if vessel.bottom == "cone":
        return vessel.bottom_depth_m * (1 - x / vessel.radius_m)
    return g.cap_rise_at(vessel.radius_m, vessel.bottom_depth_m, x)


def dome_table(vessel, step_m=0.20):
    """Return [(x, rise over the spring)] of the dome [m], from the axis to the rim.

    Raises
    ------
    OutOfRange
        If the step is not above zero.

    Examples
    --------
    >>> from calc.vessel import Vessel
    >>> [(x, round(rise, 3)) for x, rise in dome_table(Vessel(1.02, 0.65, 0.86, "flat"), 0.4)]
    [(0.0, 0.65), (0.4, 0.577), (0.8, 0.316), (1.02, 0.0)]
    """
    return [(x, g.cap_rise_at(vessel.radius_m, vessel.dome_rise_m, x)) for x in _steps(vessel.radius_m, step_m)]


def _steps(radius_m, step_m):
    require("step_m", step_m, 1e-3, None, "m")
    whole = [round(k * step_m, 9) for k in range(ceil(radius_m / step_m - 1e-9))]
    return [*whole, radius_m]


def dome_centre_m(vessel):
    """Return the height of the dome's string centre over the spring [m]; below zero it lies under it.

    Examples
    --------
    >>> from calc.vessel import Vessel
    >>> round(dome_centre_m(Vessel(1.35, 0.70, 1.05, "flat")), 3), dome_centre_m(Vessel(1.2, 1.2, 0.0, "bowl", 0.4))
    (-0.952, 0.0)
    """
    return vessel.dome_rise_m - vessel.sphere_radius_m


def below_string(design, string_m):
    """Return {place: how far below the peg string [m]} for every level a mason sets.

    Parameters
    ----------
    design : Design
        The plant.
    string_m : float
        Height of the peg string over finished ground [m].

    Notes
    -----
    Levels of the design are metres over the inside floor at its centre; ground lies just under the overflow.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> plant = for_gas(2.0)
    >>> below = below_string(plant, 0.30)
    >>> round(below["overflow"], 2), round(below["floor_middle"] - below["crown"], 2) == round(plant.vessel.crown_m, 2)
    (0.25, True)
    """
    require("string_m", string_m, 0, 2, "m")
    datum_m, levels, vessel = design.ground_m + string_m, design.levels, design.vessel
    at = {
        "inlet_floor": levels.overflow_m + s.INLET_ABOVE_OVERFLOW_M,
        "overflow": levels.overflow_m,
        "outlet_floor": levels.zero_line_m,
        "crown": vessel.crown_m,
        "spring": vessel.spring_m,
        "inlet_end": _inlet_end_m(vessel),
        "passage_top": design.passage_top_m,
        "floor_edge": vessel.bottom_depth_m,
        "floor_middle": 0.0,
        "pit_edge": vessel.bottom_depth_m - design.base_thickness_m,
    }
    return {place: datum_m - level_m for place, level_m in at.items()}


def _inlet_end_m(vessel):
    """The inlet pipe ends over the floor below it, which is near the edge."""
    return vessel.bottom_depth_m + s.INLET_END_M


def level_verdict(place, off_m):
    """Return "within", "outside" or "rebuild" of a level that lies so much too high (or, below zero, too low) [m].

    Raises
    ------
    Unknown
        If the place has no limit.

    Examples
    --------
    >>> level_verdict("overflow", 0.005), level_verdict("outlet_floor", -0.012)
    ('within', 'rebuild')
    """
    if place not in ("overflow", "outlet_floor"):
        raise Unknown(place, ("overflow", "outlet_floor"))
    require("off_m", off_m)
    fine, rebuild = s.OUTLET_LEVEL_M
    return "within" if abs(off_m) <= fine + 1e-9 else "rebuild" if abs(off_m) > rebuild + 1e-9 else "outside"


def as_built(design, overflow_off_m=0.0, floor_off_m=0.0):
    """Return the Levels of a plant whose overflow or outlet floor lies higher (or, below zero, lower) than drawn.

    Raises
    ------
    OutOfRange
        If the chamber has no depth left, or takes more than the plant holds.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> plant = for_gas(2.0)
    >>> as_built(plant, overflow_off_m=0.05).store_m3 > plant.levels.store_m3
    True
    """
    levels = design.levels
    floor_m, overflow_m = (
        levels.zero_line_m + require("floor_off_m", floor_off_m),
        levels.overflow_m + require("overflow_off_m", overflow_off_m),
    )
    if not overflow_m > floor_m:
        raise OutOfRange("chamber_depth_m", overflow_m - floor_m, 0, None, "m")
    return solve(design.vessel, floor_m, design.chamber_length_m * design.chamber_width_m, overflow_m - floor_m)


def inlet_pipe(end_over_floor_m, slope_deg, design):
    """Return what is wrong with an inlet pipe: a tuple of "low", "high", "dry", "flat", "shallow", empty where nothing is.

    Parameters
    ----------
    end_over_floor_m : float
        Lower end over the floor under it [m].
    slope_deg : float
        Slope from the level [deg].
    design : Design
        The plant: the end must lie under its lowest slurry level, else gas leaves by the inlet.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> inlet_pipe(0.40, 60, for_gas(2.0)), inlet_pipe(0.20, 45, for_gas(2.0))
    ((), ('low', 'shallow'))
    """
    require("end_over_floor_m", end_over_floor_m, low=0, unit="m")
    require("slope_deg", slope_deg, 0, 90, "deg")
    low_m, high_m = s.INLET_END_RANGE_M
    least, preferred = s.INLET_SLOPE_DEG
    end_m = design.vessel.bottom_depth_m + end_over_floor_m
    wrong = {
        "low": end_over_floor_m < low_m - 1e-9,
        "high": end_over_floor_m > high_m + 1e-9,
        "dry": end_m > design.levels.lowest_m - s.SEAL_M + 1e-9,
        "flat": slope_deg < least,
        "shallow": least <= slope_deg < preferred,
    }
    return tuple(name for name, found in wrong.items() if found)
