"""The cover slabs of an outlet chamber: so many that people can lift each, their size, mass and bars."""

from math import ceil
from typing import NamedTuple

from calc import sources as s
from calc.errors import require
from calc.needs import team_lift_kg
from calc.stability import slab_mass_kg
from calc.steel import Bars, slab_bars

NARROWEST_M = float(s.COVER_WIDTH_LEAST_M)
BARS = tuple(map(float, (s.SLAB_SPACING_M, s.SLAB_COVER_M, s.SLAB_BAR_M)))  # spacing, cover, diameter [m]


class Slabs(NamedTuple):
    """Slabs side by side: how many, each one's length, width and thickness [m] and mass [kg], its Bars [m, kg].

    `guide_kg` is the load guideline of the people who lift one [kg].
    """

    count: int
    length_m: float
    width_m: float
    thickness_m: float
    mass_kg: float
    guide_kg: float
    bars: Bars

    @property
    def by_hand(self):
        """Whether so many people may lift one; else planks, bars and rollers."""
        return self.mass_kg <= self.guide_kg + 1e-9


def lifters_needed(mass_kg):
    """Return how many people may lift a load [kg]: 1, 2 or 3; None where it is for planks, bars and rollers.

    Examples
    --------
    25 kg for one, two thirds of twice that for two, half of three times that for three:

    >>> [lifters_needed(mass_kg) for mass_kg in (25, 33, 37, 68)]
    [1, 2, 3, None]
    """
    require("mass_kg", mass_kg, low=0, unit="kg")
    return next((people for people in (1, 2, 3) if mass_kg <= team_lift_kg(people) + 1e-9), None)


def cover_slabs(design, lifters, thickness_m=float(s.SLAB_THICK_M)):
    """Return the Slabs that cover the outlet chamber of a Design.

    Parameters
    ----------
    design : Design
        The plant.
    lifters : int
        People who lift one slab, 1 or more; the guideline counts three at most.
    thickness_m : float
        Thickness of the slabs [m].

    Raises
    ------
    OutOfRange
        If nobody lifts, or the thickness is under 60 mm or over 150 mm.

    Notes
    -----
    They lie across the shorter side and on both walls. Number = length over the greatest width whose mass is within
    the guideline, rounded up; no slab is narrower than 100 mm, and `by_hand` is False where that is too heavy.
    Whether the slab carries is not reckoned here.

    Examples
    --------
    A chamber of 1.65 x 1.25 m with walls of 110 mm: 1.47 m of slab, 75 mm thick, weigh 276 kg on each metre of
    width, so that three people lift 136 mm:

    >>> from calc.designs import drawing
    >>> from calc.vessel import Vessel
    >>> plant = drawing(Vessel(1.30, 0.55, 1.10, "flat"), 1.22, (1.65, 1.25, 0.53))
    >>> found = cover_slabs(plant, 3)
    >>> found.count, round(found.width_m, 3), round(found.mass_kg, 1), found.by_hand
    (14, 0.134, 36.8, True)
    """
    require("lifters", lifters, low=1)
    require("thickness_m", thickness_m, *s.COVER_THICK_M, "m")
    across_m, along_m = sorted(side + 2 * design.wall_thickness_m for side in (design.chamber_width_m, design.chamber_length_m))
    guide_kg = team_lift_kg(lifters)
    one_m_kg = slab_mass_kg(across_m, 1.0, thickness_m)
    widest_m = max(guide_kg / one_m_kg, NARROWEST_M)
    count = max(ceil(along_m / widest_m - 1e-9), 1)
    if along_m / count < NARROWEST_M:
        count -= 1
    width_m = along_m / count
    bars = slab_bars(across_m, width_m, *BARS)
    return Slabs(count, across_m, width_m, float(thickness_m), one_m_kg * width_m, guide_kg, bars)
