"""A reading against its plan: within, outside (by how much, which way), or not enough to say."""

from dataclasses import dataclass

from calc.errors import Missing, require

WITHIN, OUTSIDE, NOT_ENOUGH = "within", "outside", "not_enough"


@dataclass(frozen=True)
class Limits:
    """What a reading is held against [m or the reading's own SI unit].

    `plan` is the target, `below` and `above` how far a reading may lie from it, `uncertainty` how well it can be
    measured, `least` how many readings are wanted.
    """

    plan: float
    below: float
    above: float
    uncertainty: float
    least: int = 1
    source: str = ""

    @property
    def low(self):
        """The lowest reading within plan."""
        return self.plan - self.below

    @property
    def high(self):
        """The highest reading within plan."""
        return self.plan + self.above


@dataclass(frozen=True)
class Verdict:
    """How readings stand: `by` is how far the worst lies past its limit (below zero: too small), 0 within."""

    stands: str
    limits: Limits
    by: float = 0.0
    worst: float | None = None
    missing: int = 0


def judge(readings, limits):
    """Return the Verdict on one or more readings of the same thing.

    Parameters
    ----------
    readings : sequence of float
        Readings in the SI unit of the limits.
    limits : Limits
        Plan, tolerances, measuring uncertainty, readings wanted.

    Returns
    -------
    Verdict
        "outside" if a reading lies past a limit by more than its uncertainty; "not_enough" if one lies so near a
        limit, on either side, that the tape cannot tell, or if readings are missing; else "within".

    Raises
    ------
    Missing
        If there is no reading.
    OutOfRange
        If a reading is not a number.

    Notes
    -----
    The worst reading decides, never the mean: one thin place leaks. The band at the limits is a guard band of one
    measuring uncertainty on either side.

    References
    ----------
    JCGM 106:2012, guard bands in conformity assessment (the idea; the width is a setting).

    Examples
    --------
    >>> plan = Limits(1.80, 0.0, 0.05, 0.005)
    >>> judge([1.83], plan).stands, judge([1.802], plan).stands, round(judge([1.90], plan).by, 2)
    ('within', 'not_enough', 0.05)
    """
    if not readings:
        raise Missing("readings")
    past = []
    for reading in readings:
        require("reading", reading, low=0)
        past.append((max(limits.low - reading, reading - limits.high), reading))
    worst, reading = max(past)
    signed = -worst if reading < limits.low else worst
    if worst > limits.uncertainty + 1e-9:
        return Verdict(OUTSIDE, limits, signed, reading)
    missing = max(limits.least - len(readings), 0)
    if worst > -limits.uncertainty + 1e-9:
        return Verdict(NOT_ENOUGH, limits, 0.0, reading, missing)
    return Verdict(NOT_ENOUGH if missing else WITHIN, limits, 0.0, None if missing else reading, missing)


def spread(readings):
    """Return how far readings of one thing lie apart [same unit].

    Notes
    -----
    Of diameters it does not show roundness: a body of constant width has equal diameters and is not round. Ask for
    radii from the centre peg.

    Examples
    --------
    >>> round(spread([3.12, 3.08, 3.10]), 2)
    0.04
    """
    if not readings:
        raise Missing("readings")
    for reading in readings:
        require("reading", reading)
    return max(readings) - min(readings)
