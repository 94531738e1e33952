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
