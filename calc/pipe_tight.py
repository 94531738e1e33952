"""The air test of a gas pipe: what its pressure fell that no warmth explains, and the verdict on it."""

from calc import sources as s
from calc.checks import NOT_ENOUGH, OUTSIDE, WITHIN
from calc.errors import require
from calc.tightness import Air, Found


def pipe_pressure_pa(greatest_pa=None):
    """Return the least pressure of the air test of a gas pipe [Pa], from the greatest of its plant where that is known.

    Examples
    --------
    >>> pipe_pressure_pa(), pipe_pressure_pa(6000), pipe_pressure_pa(8000)
    (10000.0, 10000.0, 12000.0)
    """
    if greatest_pa is None:
        return float(s.PIPE_TEST_PA)
    require("greatest_pa", greatest_pa, low=0, unit="Pa")
    return max(float(s.PIPE_TEST_PA), s.PIPE_TEST_SHARE * greatest_pa)


def pipe_test(start_pa, end_pa, minutes, start_c=None, end_c=None, greatest_pa=None, barometer_pa=None):
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
    barometer_pa : float, optional
        Pressure of the air outside [Pa].

    Notes
    -----
    Air in a closed pipe: p1 T2 / T1 in absolute pressures. Where the barometer was not read, what holds at every
    height above the sea is the verdict, and else it must be read.

    Examples
    --------
    >>> pipe_test(10000, 9950, 15, 25, 25).stands, pipe_test(10000, 9950, 15).reason
    ('within', 'no_temperature')
    >>> pipe_test(10000, 9300, 15, 25, 23).reason, pipe_test(10000, 9300, 15, 25, 23, None, 101000).stands
    ('no_barometer', 'within')
    """
    require("minutes", minutes, low=0, unit="min")
    start, end = Air(start_pa, start_c, barometer_pa), Air(end_pa, end_c, barometer_pa)
    if start_pa < pipe_pressure_pa(greatest_pa) - 1e-6:
        return Found(NOT_ENOUGH, "low_pressure")
    falls_pa = [start_pa - end_pa]
    warmth = start_c is not None and end_c is not None
    if warmth:
        outside_pa = s.BAROMETERS_PA if barometer_pa is None else (barometer_pa,)
        falls_pa = [(air_pa + start_pa) * end.kelvin / start.kelvin - air_pa - end_pa for air_pa in outside_pa]
    most_pa = s.PIPE_TEST_FALL_PA + 1e-6
    if min(falls_pa) > most_pa:
        return Found(OUTSIDE, "falls", None, min(falls_pa))
    if minutes < s.PIPE_TEST_MIN:
        return Found(NOT_ENOUGH, "too_short", None, max(falls_pa))
    if not warmth:
        return Found(NOT_ENOUGH, "no_temperature", None, max(falls_pa))
    within = max(falls_pa) <= most_pa
    return Found(WITHIN if within else NOT_ENOUGH, "" if within else "no_barometer", None, max(falls_pa))
