"""Slurry levels, gas store and pressure in a digester with an outlet chamber.

Levels are metres above the inside floor at its centre. At the zero line the slurry stands level everywhere and
the chamber is empty; with the store full the chamber stands at its overflow and the slurry inside is lowest.
"""

from dataclasses import dataclass

from calc import sources as s
from calc.errors import OutOfRange, require
from calc.vessel import level_of, volume_below


@dataclass(frozen=True)
class Levels:
    """The levels of a plant [m above the inside floor at its centre] and what follows from them."""

    lowest_m: float
    zero_line_m: float
    overflow_m: float
    store_m3: float

    @property
    def greatest_head_m(self):
        """Difference of slurry levels with the store full [m of slurry]."""
        return self.overflow_m - self.lowest_m

    @property
    def greatest_pressure_pa(self):
        """Gas pressure with the store full [Pa], slurry counted as water."""
        return s.WATER_KG_M3 * s.GRAVITY_M_S2 * self.greatest_head_m


@dataclass(frozen=True)
class Standing:
    """Where the slurry stands under some gas: levels inside and in the outlet [m], gas [m3], its pressure [Pa]."""

    inside_m: float
    outlet_m: float
    gas_m3: float
    pressure_pa: float


def displaced(vessel, levels, pushed_m3):
    """Return the Standing of a plant whose gas has pushed so much slurry into the outlet chamber.

    Parameters
    ----------
    vessel : Vessel
        The digester.
    levels : Levels
        Its levels.
    pushed_m3 : float
        Slurry pushed out [m3], from 0 at the zero line to the whole store.

    Raises
    ------
    OutOfRange
        If less than nothing or more than the store is pushed out.

    Examples
    --------
    >>> from calc.vessel import Vessel
    >>> tank = Vessel(1.35, 0.70, 1.05, "flat")
    >>> found = solve(tank, 1.27, 1.7 * 1.3, 0.65)
    >>> round(displaced(tank, found, 0.0).pressure_pa, 6), round(displaced(tank, found, found.store_m3).inside_m, 3)
    (0.0, 0.992)
    """
    require("pushed_m3", pushed_m3, 0, levels.store_m3, "m3")
    inside_m = level_of(vessel, volume_below(vessel, levels.zero_line_m) - pushed_m3)
    depth_m = levels.overflow_m - levels.zero_line_m
    outlet_m = levels.zero_line_m + depth_m * pushed_m3 / levels.store_m3
    gas_m3 = vessel.inside_m3 - volume_below(vessel, inside_m)
    return Standing(inside_m, outlet_m, gas_m3, s.WATER_KG_M3 * s.GRAVITY_M_S2 * (outlet_m - inside_m))


def under_pressure(vessel, levels, pressure_pa):
    """Return the Standing of a plant under a gas pressure.

    Raises
    ------
    OutOfRange
        If the pressure is below zero or above the greatest the plant can stand: slurry would run over.

    Notes
    -----
    The pressure rises with every litre pushed out, so halving the interval finds it, to a millionth of a litre.

    Examples
    --------
    >>> from calc.vessel import Vessel
    >>> tank = Vessel(1.35, 0.70, 1.05, "flat")
    >>> found = under_pressure(tank, solve(tank, 1.27, 1.7 * 1.3, 0.65), 8000)
    >>> round(found.inside_m, 3), round(found.outlet_m, 3), round(found.gas_m3, 3)
    (1.023, 1.839, 2.337)
    """
    require("pressure_pa", pressure_pa, 0, displaced(vessel, levels, levels.store_m3).pressure_pa, "Pa")
    low_m3, high_m3 = 0.0, levels.store_m3
    while high_m3 - low_m3 > 1e-9:
        middle_m3 = (low_m3 + high_m3) / 2
        if displaced(vessel, levels, middle_m3).pressure_pa < pressure_pa:
            low_m3 = middle_m3
        else:
            high_m3 = middle_m3
    return displaced(vessel, levels, high_m3)


def solve(vessel, zero_line_m, chamber_area_m2, chamber_depth_m):
    """Return the Levels of a plant whose outlet chamber begins at the zero line.

    Parameters
    ----------
    vessel : Vessel
        The digester.
    zero_line_m : float
        Floor of the outlet chamber [m above the inside floor]: the slurry level without gas.
    chamber_area_m2, chamber_depth_m : float
        Plan area [m2] of the chamber, and its depth from floor to overflow [m].

    Returns
    -------
    Levels
        Lowest slurry level, zero line, overflow [m] and the gas stored [m3].

    Raises
    ------
    OutOfRange
        If the zero line is above the crown, or the chamber takes more than stands above the floor.

    Notes
    -----
    What the gas pushes out of the digester fills the chamber: store = area x depth, and
    V(zero line) - V(lowest) = store. The shaft stays full below the zero line. What rises in the inlet pipe is left
    out: in a 110 mm pipe it lowers the lowest level by about 1 mm.

    Examples
    --------
    >>> from calc.vessel import Vessel
    >>> found = solve(Vessel(1.35, 0.70, 1.05, "flat"), 1.27, 1.7 * 1.3, 0.65)
    >>> round(found.lowest_m, 3), round(found.greatest_head_m, 3)
    (0.992, 0.928)
    """
    require("chamber_area_m2", chamber_area_m2, low=1e-9, unit="m2")
    require("chamber_depth_m", chamber_depth_m, low=1e-9, unit="m")
    store = chamber_area_m2 * chamber_depth_m
    at_zero = volume_below(vessel, zero_line_m)
    if not store <= at_zero:
        raise OutOfRange("store_m3", store, 0, at_zero, "m3")
    return Levels(level_of(vessel, at_zero - store), zero_line_m, zero_line_m + chamber_depth_m, store)
