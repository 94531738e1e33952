"""Gas tests of a plant: what was lost that no weather explains, and the verdict on it.

Verdicts: "within", "outside", "not_enough". The reason is a word of its own: what is missing, or what was found.
"""

from dataclasses import dataclass
from math import exp

from calc import sources as s
from calc.checks import NOT_ENOUGH, OUTSIDE, WITHIN
from calc.errors import OutOfRange, require
from calc.levels import under_pressure

DAY_H = 24
WARMTH_C = (0, 60)  # where the formula of the vapour was made to hold


@dataclass(frozen=True)
class Found:
    """What a test shows: verdict, reason, and the share lost in a day [1] or the corrected fall [Pa] it stands on.

    `gas_share` is the share of the gas itself that left in a day [1], where that is not what the test is judged by.
    """

    stands: str
    reason: str = ""
    share: float | None = None
    fall_pa: float | None = None
    gas_share: float | None = None


@dataclass(frozen=True)
class Air:
    """One reading of a gas test: gauge pressure [Pa], temperature of the gas [C] and barometer [Pa], None if not read."""

    pressure_pa: float
    temp_c: float | None = None
    barometer_pa: float | None = None

    def __post_init__(self):
        require("pressure_pa", self.pressure_pa, low=0, unit="Pa")
        if self.temp_c is not None:
            require("temp_c", self.temp_c, *WARMTH_C, "C")
        if self.barometer_pa is not None:
            require("barometer_pa", self.barometer_pa, *s.BAROMETERS_PA, "Pa")

    @property
    def complete(self):
        """True where temperature and barometer were read."""
        return self.temp_c is not None and self.barometer_pa is not None

    @property
    def dry_pa(self):
        """Absolute pressure of the gas without its water vapour [Pa]."""
        return self.barometer_pa + self.pressure_pa - vapour_pa(self.temp_c)

    @property
    def kelvin(self):
        """Absolute temperature [K]."""
        return self.temp_c + s.KELVIN_C


def vapour_pa(temp_c):
    """Return the pressure of saturated water vapour [Pa].

    Raises
    ------
    OutOfRange
        If the temperature is not between 0 and 60 C.

    Notes
    -----
    Magnus formula over water, 611.2 exp(17.62 t / (243.12 + t)), from memory.

    Examples
    --------
    >>> round(vapour_pa(20)), round(vapour_pa(30))
    (2333, 4234)
    """
    require("temp_c", temp_c, *WARMTH_C, "C")
    return s.VAPOUR_PA * exp(s.VAPOUR_RISE * temp_c / (s.VAPOUR_C + temp_c))


def legs_head_m(left_m, right_m):
    """Return the head of a U-tube [m] from how far each leg moved from rest.

    Raises
    ------
    OutOfRange
        If a leg did not move, or both did not move alike: one of them was read wrongly.

    Notes
    -----
    The head is the distance between both levels. One leg alone has moved by half of it.

    Examples
    --------
    >>> round(legs_head_m(0.40, 0.41), 3)
    0.81
    """
    require("left_m", left_m, low=0, unit="m")
    require("right_m", right_m, low=0, unit="m")
    apart = max(float(s.LEGS_APART_M), s.LEGS_APART * (left_m + right_m) / 2)
    if abs(left_m - right_m) > apart + 1e-9:
        raise OutOfRange("legs_apart_m", abs(left_m - right_m), 0, apart, "m")
    return left_m + right_m


def sealed_fall_pa(start, end):
    """Return the fall of pressure of a sealed plant that no weather explains [Pa]; below zero it rose.

    Parameters
    ----------
    start, end : Air
        Complete readings.

    Notes
    -----
    Volume constant: the dry gas would stand at p1 T2 / T1; its vapour and the barometer are counted apart.

    Examples
    --------
    >>> round(sealed_fall_pa(Air(8000, 25, 100000), Air(7800, 25, 99500)))
    700
    """
    expected_pa = start.dry_pa * end.kelvin / start.kelvin + vapour_pa(end.temp_c) - end.barometer_pa
    return expected_pa - end.pressure_pa


def sealed_lost(start, end):
    """Return the share of the gas that left a sealed plant [1].

    Examples
    --------
    >>> round(sealed_lost(Air(8000, 25, 100000), Air(7760, 25, 100000)), 4)
    0.0023
    """
    return 1 - (end.dry_pa / end.kelvin) / (start.dry_pa / start.kelvin)


def seal_lost(design, start, end):
    """Return the share of the gas that left a plant closed by its slurry or water [1]; volume and pressure both change.

    Raises
    ------
    OutOfRange
        If a pressure is above the greatest of the plant.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> plant = for_gas(2.0)
    >>> seal_lost(plant, Air(7500, 25, 100000), Air(7500, 25, 100000))
    0.0
    """
    amounts = []
    for air in (start, end):
        gas_m3 = under_pressure(design.vessel, design.levels, air.pressure_pa).gas_m3
        amounts.append(air.dry_pa * gas_m3 / (s.GAS_CONSTANT_J_MOL_K * air.kelvin))
    return 1 - amounts[1] / amounts[0]


def least_pressure_pa(design):
    """Return the least pressure a gas test of a plant starts at [Pa].

    Notes
    -----
    A plant that stands little is tested a tenth below its greatest: over that the seal blows or slurry runs over.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> round(least_pressure_pa(for_gas(2.0)))
    7061
    """
    return min(float(s.TEST_PRESSURE_PA), s.TEST_PRESSURE_SHARE * design.levels.greatest_pressure_pa)


def cannot_start(design, pressure_pa):
    """Return why no gas test starts at a pressure, "low_pressure" or "over_limit"; an empty word where one may.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> [cannot_start(for_gas(2.0), pressure_pa) for pressure_pa in (7000, 7500, 8000)]
    ['low_pressure', '', 'over_limit']
    """
    require("pressure_pa", pressure_pa, low=0, unit="Pa")
    if pressure_pa > design.levels.greatest_pressure_pa + 1e-6:
        return "over_limit"
    return "low_pressure" if pressure_pa < least_pressure_pa(design) - 1e-6 else ""


def gas_test(design, sealed, start, end, hours):
    """Return what a gas test shows.

    Parameters
    ----------
    design : Design
        The plant.
    sealed : bool
        True with inlet and outlet plugged, False with the water seal open.
    start, end : Air
        Both readings.
    hours : float
        Time between them [h].

    Notes
    -----
    Sealed: corrected fall against the pressure at the start. Water seal: share of the gas lost in a day. Without
    temperature and barometer nothing is within, and a fall of 2 kPa is outside; so is one that the weather leaves.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> plant = for_gas(2.0)
    >>> gas_test(plant, True, Air(7800, 25, 100000), Air(7600, 25, 100000), 24).stands
    'within'
    >>> gas_test(plant, True, Air(7800), Air(7600), 24).reason
    'no_weather'
    """
    require("hours", hours, low=0, unit="h")
    faults = [cannot_start(design, air.pressure_pa) for air in (start, end)]
    if "over_limit" in faults:
        return Found(NOT_ENOUGH, "over_limit")
    complete = start.complete and end.complete
    fall_pa = sealed_fall_pa(start, end) if sealed and complete else start.pressure_pa - end.pressure_pa
    if fall_pa >= s.BLIND_FALL_PA:
        return Found(OUTSIDE, "falls", None, fall_pa)
    days = round(hours / DAY_H)
    if not days or abs(hours - days * DAY_H) > s.SAME_HOUR_H:
        return Found(NOT_ENOUGH, "same_hour")
    if faults[0]:
        return Found(NOT_ENOUGH, faults[0])
    if not complete:
        return Found(NOT_ENOUGH, "no_weather")
    if sealed:
        return _judged(fall_pa / start.pressure_pa / days, s.SEALED_DROP, fall_pa, sealed_lost(start, end) / days)
    return _judged(seal_lost(design, start, end) / days, s.SEAL_LOSS, fall_pa)


def _judged(share, limits, *found):
    most, bad = limits
    if share <= most:
        return Found(WITHIN, "", share, *found)
    return Found(OUTSIDE, "loses_gas", share, *found) if share > bad else Found(NOT_ENOUGH, "find_leak", share, *found)
