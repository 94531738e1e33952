"""Readings of a backfill against their limits: the thickness of its layers, how even it stands round the plant."""

from math import inf, sqrt

from calc import sources as s
from calc.checks import Limits, judge, spread


def layers_stand(layers_m, tape_m=s.TAPE_M):
    """Return the Verdict on the thickness of layers [m] under a hand rammer.

    Parameters
    ----------
    layers_m : sequence of float
        Each layer [m].
    tape_m : float
        How well it was measured [m].

    Raises
    ------
    Missing
        If there is none.

    Examples
    --------
    >>> layers_stand([0.20]).stands, layers_stand([0.20, 0.30]).stands, layers_stand([0.45]).stands
    ('within', 'not_enough', 'outside')
    """
    low_m, high_m = map(float, s.LAYER_M)
    return judge(layers_m, Limits(low_m, 0.0, high_m - low_m, float(tape_m)))


def levels_stand(levels_m, tape_m=s.TAPE_M):
    """Return the Verdict on how far the levels of a fill [m] lie apart round a fresh wall.

    Parameters
    ----------
    levels_m : sequence of float
        Height on each side [m].
    tape_m : float
        How well one of them was measured [m].

    Notes
    -----
    A difference of two readings is as uncertain as the root of two of them: 7 mm by tape.

    Examples
    --------
    >>> levels_stand([0.6, 0.5]).stands, levels_stand([0.8, 0.5]).stands, levels_stand([0.9, 0.5]).stands
    ('within', 'not_enough', 'outside')
    """
    return judge([spread(levels_m)], Limits(0.0, inf, float(s.BACKFILL_STEP_M), float(tape_m) * sqrt(2)))
