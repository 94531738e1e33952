"""The water test: what a plant lost in a day, from how far its level fell, and the verdict on several days."""

from calc import sources as s
from calc.checks import NOT_ENOUGH, OUTSIDE, WITHIN
from calc.errors import require
from calc.tightness import DAY_H, Found
from calc.vessel import volume_below


def water_missing_m3(design, drop_m, start_m=None):
    """Return how much water is gone where its level fell [m3].

    Parameters
    ----------
    design : Design
        The plant.
    drop_m : float
        Fall of the level [m].
    start_m : float, optional
        Level at the start above the inside floor [m]; the zero line where it is not given.

    Raises
    ------
    OutOfRange
        If the level lay above the overflow, or fell below the floor or rose.

    Notes
    -----
    With the gas valve open the water falls inside, in the shaft and in the chamber alike: the volume between both
    levels, not an area times the drop.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> plant = for_gas(2.0)
    >>> 0 < water_missing_m3(plant, 0.01) < 0.06
    True
    """
    start_m = design.levels.zero_line_m if start_m is None else start_m
    require("start_m", start_m, 0, design.levels.overflow_m, "m")
    require("drop_m", drop_m, 0, start_m, "m")
    return _water_below(design, start_m) - _water_below(design, start_m - drop_m)


def _water_below(design, level_m):
    """Water inside, in the outlet shaft and in the chamber below one level everywhere [m3]."""
    floor_m = design.levels.zero_line_m
    chamber_m2 = design.levels.store_m3 / (design.levels.overflow_m - floor_m)
    inside_m3 = volume_below(design.vessel, min(level_m, design.vessel.crown_m))
    return inside_m3 + s.SHAFT_SIDE_M**2 * min(level_m, floor_m) + chamber_m2 * max(level_m - floor_m, 0.0)


def water_day(design, drop_m, hours, rain_m=0.0, pan_m=0.0, start_m=None):
    """Return the share of the inside volume lost in a day [1/d].

    Parameters
    ----------
    design : Design
        The plant.
    drop_m, hours : float
        Fall of the level [m] and the time it took [h].
    rain_m, pan_m : float
        Rain, and what went from a pan of water beside the plant [m].
    start_m : float, optional
        Level at the start [m]; the zero line where it is not given.

    Raises
    ------
    OutOfRange
        If the readings lie too near together in time, or a value cannot be.

    Notes
    -----
    Rain on the open chamber runs in and hides a loss; what the pan lost went from the open surface too, and is none.
    Rain on the mixing tank, a litre or so, is left out: its plug is in.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> plant = for_gas(2.0)
    >>> abs(water_day(plant, 0.01, 24) - water_missing_m3(plant, 0.01) / plant.vessel.inside_m3) < 1e-12
    True
    """
    require("hours", hours, s.WATER_TEST_H, None, "h", s.WATER_TEST_H.source)
    require("rain_m", rain_m, 0, None, "m")
    require("pan_m", pan_m, 0, None, "m")
    chamber_m2 = design.chamber_length_m * design.chamber_width_m
    begun_m = design.levels.zero_line_m if start_m is None else start_m
    open_m2 = chamber_m2 if begun_m > design.levels.zero_line_m else s.SHAFT_SIDE_M**2
    lost_m3 = water_missing_m3(design, drop_m, start_m) + rain_m * chamber_m2 - pan_m * open_m2
    return lost_m3 / design.vessel.inside_m3 * DAY_H / hours


def unsure(design, hours):
    """Return the measuring uncertainty of the share lost in a day [1/d].

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> 0.0005 < unsure(for_gas(2.0), 24) < 0.002
    True
    """
    require("hours", hours, s.WATER_TEST_H, None, "h", s.WATER_TEST_H.source)
    return water_missing_m3(design, float(s.WATER_FALL_M)) / design.vessel.inside_m3 * DAY_H / hours


def water_test(shares, about=0.0, stopped=False):
    """Return what the days of a water test show.

    Parameters
    ----------
    shares : sequence of float
        Shares of the inside volume lost in a day [1/d], the first day first.
    about : float
        Measuring uncertainty of a share [1/d].
    stopped : bool
        True where the level fell to a line on the last day and no further.

    Raises
    ------
    OutOfRange
        If a share is not a number.

    Notes
    -----
    The walls drink on the first day, so a second day must lose less than the first; between 1 and 2 % the test is
    repeated once. A level that falls to a line and stays has its leak at that line, whatever it lost until then.
    A loss that cannot be told from nothing need not fall, and one that cannot be told from the limit is no verdict.

    Examples
    --------
    >>> water_test([0.008]).reason, water_test([0.008, 0.004]).stands, water_test([0.03]).stands
    ('second_day', 'within', 'outside')
    >>> water_test([0.008, 0.008]).reason, water_test([0.009, 0.0195], about=0.001).reason
    ('not_falling', 'on_limit')
    """
    for share in (*shares, about):
        require("share", share)
    repeat, most = s.WATER_LOSS
    if not shares:
        return Found(NOT_ENOUGH, "no_day")
    last = shares[-1]
    if stopped and last > repeat:
        return Found(OUTSIDE, "stops", last)
    if last > most + about:
        return Found(OUTSIDE, "loses_water", last)
    if last > most - about and about:
        return Found(NOT_ENOUGH, "on_limit", last)
    return _after_days(shares, about, repeat)


def _after_days(shares, about, repeat):
    last = shares[-1]
    if len(shares) < 2:
        return Found(NOT_ENOUGH, "second_day", last)
    if last > about and last > shares[-2] + about:
        return Found(OUTSIDE, "loses_more", last)
    if last > about and last >= shares[-2]:
        return Found(NOT_ENOUGH, "not_falling", last)
    if last > repeat and len(shares) < 3:
        return Found(NOT_ENOUGH, "repeat", last)
    return Found(WITHIN, "", last)
