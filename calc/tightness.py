"""Gas tests of a plant and of its pipe: what was lost that no weather explains, and the verdict on it.

Verdicts: "within", "outside", "not_enough". The reason is a word of its own: what is missing, or what was found.
"""

from dataclasses import dataclass
from math import exp

from calc import sources as s
from calc.checks import NOT_ENOUGH, OUTSIDE, WITHIN
from calc.errors import OutOfRange, require
from calc.levels import under_pressure

DAY_H = 24


@dataclass(frozen=True)
class Found:
    """What a test shows: verdict, reason, and the share lost in a day [1] or the corrected fall [Pa] it stands on."""

    stands: str
    reason: str = ""
    share: float | None = None
    fall_pa: float | None = None


@dataclass(frozen=True)
class Air:
    """One reading of a gas test: gauge pressure [Pa], temperature of the gas [C] and barometer [Pa], None if not read."""

    pressure_pa: float
    temp_c: float | None = None
    barometer_pa: float | None = None

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
        return self.temp_c + s.ZERO_C_K


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
    require("temp_c", temp_c, 0, 60, "C")
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
        amounts.append(air.dry_pa * gas_m3 / (s.GAS_J_MOL_K * air.kelvin))
    return 1 - amounts[1] / amounts[0]


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
    temperature and barometer nothing is within; a fall of 2 kPa is outside whatever the weather.

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
    if start.pressure_pa - end.pressure_pa >= s.BLIND_FALL_PA:
        return Found(OUTSIDE, "falls", None, start.pressure_pa - end.pressure_pa)
    days = round(hours / DAY_H)
    if not days or abs(hours - days * DAY_H) > s.SAME_HOUR_H:
        return Found(NOT_ENOUGH, "same_hour")
    if start.pressure_pa < min(s.TEST_PRESSURE_PA, s.TEST_PRESSURE_SHARE * design.levels.greatest_pressure_pa) - 1e-6:
        return Found(NOT_ENOUGH, "low_pressure")
    if not (start.complete and end.complete):
        return Found(NOT_ENOUGH, "no_weather")
    fall_pa = sealed_fall_pa(start, end)
    lost = fall_pa / start.pressure_pa if sealed else seal_lost(design, start, end)
    share = lost / days
    most, bad = s.SEALED_DROP if sealed else s.SEAL_LOSS
    stands = WITHIN if share <= most else OUTSIDE if share > bad else NOT_ENOUGH
    return Found(stands, "" if stands == WITHIN else "find_leak" if stands == NOT_ENOUGH else "loses_gas", share, fall_pa)


def pipe_test(start_pa, end_pa, minutes, start_c=None, end_c=None, greatest_pa=None):
    """Return what the air test of a gas pipe shows.

    Parameters
    ----------
    start_pa, end_pa : float
        Gauge pressures [Pa].
    minutes : float
        Time between them [min].
    start_c, end_c : float, optional
        Temperatures of the pipe [C]; without both a pipe is never within.
    greatest_pa : float, optional
        Greatest gas pressure of the plant [Pa].

    Notes
    -----
    Air in a closed pipe: p1 T2 / T1 in absolute pressures, the barometer taken as one standard atmosphere.

    Examples
    --------
    >>> pipe_test(10000, 9950, 15, 25, 25).stands, pipe_test(10000, 9950, 15).reason
    ('within', 'no_temperature')
    """
    require("start_pa", start_pa, low=0, unit="Pa")
    require("end_pa", end_pa, low=0, unit="Pa")
    wanted = max(float(s.PIPE_TEST_PA), 1.5 * (greatest_pa or 0.0))
    if start_pa < wanted - 1e-6:
        return Found(NOT_ENOUGH, "low_pressure")
    require("minutes", minutes, low=0, unit="min")
    fall_pa = start_pa - end_pa
    if start_c is not None and end_c is not None:
        barometer_pa = s.ATMOSPHERE_PA
        fall_pa = (barometer_pa + start_pa) * (end_c + s.ZERO_C_K) / (start_c + s.ZERO_C_K) - barometer_pa - end_pa
    if fall_pa > s.PIPE_TEST_FALL_PA + 1e-6:
        return Found(OUTSIDE, "falls", None, fall_pa)
    if minutes < s.PIPE_TEST_MIN:
        return Found(NOT_ENOUGH, "too_short", None, fall_pa)
    if start_c is None or end_c is None:
        return Found(NOT_ENOUGH, "no_temperature", None, fall_pa)
    return Found(WITHIN, "", None, fall_pa)
