"""Pits: their volume, what is left to dig, the soil that comes out of them, and the people and days it takes."""

from dataclasses import dataclass

from calc import geometry as g
from calc import sources as s
from calc.errors import Missing, Unknown, require

_RINGS = 500


def pit_volume(radius_m, depth_m, dish_m=0, slope=0):
    """Return the volume of a round pit [m3].

    Parameters
    ----------
    radius_m : float
        Radius of the floor [m].
    depth_m : float
        Depth at the edge of the floor [m].
    dish_m : float
        Depth of a dish below that, a spherical cap over the whole floor [m].
    slope : float
        How far the side goes back for each metre of depth; 0 for an upright side.

    Raises
    ------
    OutOfRange
        If radius or depth is not above zero, or dish or slope is negative.

    Notes
    -----
    Cylinder pi r^2 h, or with slope z the cone frustum pi h (r1^2 + r1 r2 + r2^2) / 3 with r2 = r1 + z h; and the
    cap pi t (3 r^2 + t^2) / 6.

    Examples
    --------
    1.5 m and 2 m deep upright, and with 0.75 to 1, which makes the top 3 m:

    >>> round(pit_volume(1.5, 2.0), 2), round(pit_volume(1.5, 2.0, slope=0.75), 2)
    (14.14, 32.99)
    """
    require("dish_m", dish_m, low=0, unit="m")
    require("slope", slope, low=0)
    dish = g.cap_volume(radius_m, dish_m) if dish_m else 0 * radius_m**3
    return g.frustum_volume(radius_m, radius_m + slope * depth_m, depth_m) + dish


def rectangle_pit_volume(length_m, width_m, depth_m, slope=0):
    """Return the volume of a rectangular pit [m3] from the sides of its floor, its depth [m] and its slope.

    Raises
    ------
    OutOfRange
        If a length is not above zero or the slope is negative.

    Notes
    -----
    L W h + z h^2 (L + W) + 4/3 z^2 h^3, the same as the prismoidal rule h/6 (A1 + 4 Am + A2).

    Examples
    --------
    2 x 1.5 m and 2 m deep, upright and at 0.75 to 1:

    >>> rectangle_pit_volume(2.0, 1.5, 2.0), rectangle_pit_volume(2.0, 1.5, 2.0, 0.75)
    (6.0, 22.5)
    """
    require("slope", slope, low=0)
    for name, length in {"length_m": length_m, "width_m": width_m, "depth_m": depth_m}.items():
        require(name, length, low=1e-9, unit="m")
    back = slope * depth_m
    return depth_m * (length_m * width_m + back * (length_m + width_m) + 4 * back**2 / 3)


@dataclass(frozen=True)
class Pit:
    """A round pit as drawn or as measured: floor radius, depth at its edge, dish below that [m], slope of the side."""

    radius_m: float
    depth_m: float
    dish_m: float = 0.0
    slope: float = 0.0

    @property
    def volume_m3(self):
        """Volume of the pit [m3]."""
        return pit_volume(self.radius_m, self.depth_m, self.dish_m, self.slope)

    @property
    def top_radius_m(self):
        """Radius at the ground [m]."""
        return self.radius_m + self.slope * self.depth_m

    def depth_at(self, distance_m):
        """Return the depth of the pit [m] at a distance from its axis [m]; 0 outside it."""
        if distance_m <= self.radius_m:
            return self.depth_m + (g.cap_rise_at(self.radius_m, self.dish_m, distance_m) if self.dish_m else 0.0)
        if distance_m < self.top_radius_m:
            return (self.top_radius_m - distance_m) / self.slope
        return 0.0


def overdig(plan, measured):
    """Return by how much the measured Pit is larger than the plan [m3]; below zero where it is smaller.

    A pit too wide and too shallow may come out even: see `left_to_dig`.

    Examples
    --------
    >>> round(overdig(Pit(1.0, 1.0), Pit(1.0, 0.9)), 3)
    -0.314
    """
    return measured.volume_m3 - plan.volume_m3


def left_to_dig(plan, measured):
    """Return the soil that is in the plan's pit and not yet out of the measured one [m3].

    Notes
    -----
    Sum over rings of what the plan is deeper there; soil dug outside the plan does not count against it.

    Examples
    --------
    A pit of the right volume that is 20 cm too wide and not deep enough still has its lower part to go:

    >>> round(left_to_dig(Pit(1.0, 1.44), Pit(1.2, 1.0)), 2)
    1.38
    """
    outer_m = plan.top_radius_m
    ring_m = outer_m / _RINGS
    middles = ((k + 0.5) * ring_m for k in range(_RINGS))
    short = ((at, plan.depth_at(at) - measured.depth_at(at)) for at in middles)
    return sum(2 * g.pi * at * ring_m * missing for at, missing in short if missing > 0)


def loose_volume(bank_m3, soil=None, swell=None):
    """Return the volume of dug soil as it lies in the heap [m3].

    Parameters
    ----------
    bank_m3 : float
        Volume in the ground [m3].
    soil : {"sand", "earth", "clay", "rock"}, optional
        What it is.
    swell : float, optional
        Swell measured on site [share of the volume in the ground]; goes before the table.

    Raises
    ------
    Missing
        If neither soil nor swell is given.

    Examples
    --------
    >>> loose_volume(10.0, "earth")
    12.5
    """
    require("bank_m3", bank_m3, low=0, unit="m3")
    if swell is None:
        swell = _figure("soil", soil, s.SWELL)
    return bank_m3 * (1 + require("swell", swell, 0, 1))


def compacted(bank_m3, soil):
    """Return the backfill that a volume in the ground [m3] makes when rammed [m3]; rock makes none.

    Examples
    --------
    >>> compacted(10.0, "earth")
    9.0
    """
    require("bank_m3", bank_m3, low=0, unit="m3")
    return bank_m3 * (1 - _figure("soil", soil, s.SHRINK))


def bank_needed(backfill_m3, soil):
    """Return the volume in the ground [m3] that makes this much rammed backfill [m3].

    Examples
    --------
    >>> round(bank_needed(9.0, "earth"), 6)
    10.0
    """
    require("backfill_m3", backfill_m3, low=0, unit="m3")
    return backfill_m3 / (1 - _figure("soil", soil, s.SHRINK))


def person_days(volume_m3, soil, depth_m=None, wet=False):
    """Return the work of digging a pit by hand [person-days]; for its duration, not for its price.

    Parameters
    ----------
    volume_m3 : float
        Volume in the ground [m3].
    soil : {"soft", "ordinary", "hard", "very_hard", "soft_rock"}
        How hard it digs.
    depth_m : float, optional
        Depth of the pit [m]: the part below 1.5 m goes at 0.67 of the rate. Not given, all goes at the full rate.
    wet : bool
        Water in the pit: all goes at half the rate.

    Notes
    -----
    The volume is taken as even over the depth.

    Examples
    --------
    6 m3 at 2 m3 a day, and 3 m deep: half at 2 and half at 1.34:

    >>> person_days(6.0, "ordinary"), round(person_days(6.0, "ordinary", 3.0), 2)
    (3.0, 3.74)
    """
    require("volume_m3", volume_m3, low=0, unit="m3")
    rate = _figure("soil", soil, s.DIG_M3_D) * (s.WET_SHARE if wet else 1)
    days = volume_m3 / rate
    if depth_m is None or require("depth_m", depth_m, low=1e-9, unit="m") <= s.DEEP_M:
        return float(days)
    deep = 1 - s.DEEP_M / depth_m
    return days * (1 - deep + deep / s.DEEP_SHARE)


def fill_person_days(backfill_m3):
    """Return the work of filling and ramming [person-days] a volume of backfill [m3].

    Examples
    --------
    >>> fill_person_days(8.0)
    2.0
    """
    return require("backfill_m3", backfill_m3, low=0, unit="m3") * s.FILL_D_M3


def slope_run(soil, depth_m, wet=False):
    """Return how far the side of a pit goes back from the edge of its floor [m].

    Parameters
    ----------
    soil : {"rock", "A", "B", "C", "unknown"}
        Class of the soil, from a competent person; not known counts as the weakest.
    depth_m : float
        Depth of the pit at its deepest [m].
    wet : bool
        Water, rain or cracks: any soil but rock counts as the weakest.

    Raises
    ------
    OutOfRange
        If the pit is deeper than 6.1 m, where the table ends.

    References
    ----------
    29 CFR 1926 subpart P, appendix B, table B-1.

    Examples
    --------
    >>> slope_run("A", 2.0), slope_run("unknown", 2.0), slope_run("A", 2.0, wet=True)
    (1.5, 3.0, 3.0)
    """
    require("depth_m", depth_m, 0, s.SLOPE_DEPTH_M, "m", s.SLOPE_DEPTH_M.source)
    known = {**s.SLOPE_RUN, "unknown": s.SLOPE_RUN["C"]}
    run = _figure("soil", soil, known)
    return float(depth_m * (known["C"] if wet and soil != "rock" else run))


def spoil_distance(depth_m):
    """Return how far from the edge the heap is to lie [m]: 1.5 m or half the depth, whichever is more.

    Examples
    --------
    >>> spoil_distance(2.0), spoil_distance(4.0)
    (1.5, 2.0)
    """
    require("depth_m", depth_m, low=0, unit="m")
    return max(float(s.HEAP_TARGET_M), depth_m * s.HEAP_TARGET_SHARE)


def _figure(name, key, table):
    if key is None:
        raise Missing(name)
    if key not in table:
        raise Unknown(key, table)
    return table[key]
