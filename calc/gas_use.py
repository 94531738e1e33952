"""The gas of a day: what a family burns when, what the plant stores meanwhile, what is lost and what is missing.

Hours are hours of the day, 0 to 24. Gas is counted as it stands without pressure: under its pressure a full plant
holds up to a tenth more, which is left out, so that a store judged large enough is.
"""

from dataclasses import dataclass
from itertools import pairwise

from calc.errors import Missing, require
from calc.gas_pipe import loss_pa
from calc.levels import displaced

DAY_H = 24.0
CLOSE_M3 = 1e-9  # a millionth of a litre: less is rounding


@dataclass(frozen=True)
class Session:
    """Gas burnt every day from `start_h` for `hours_h` at `rate_m3_h`; it may run past midnight."""

    start_h: float
    hours_h: float
    rate_m3_h: float

    def __post_init__(self):
        """Refuse a session that no day holds."""
        require("start_h", self.start_h, 0, DAY_H, "h")
        require("hours_h", self.hours_h, 1e-9, DAY_H, "h")
        require("rate_m3_h", self.rate_m3_h, low=0, unit="m3/h")

    def burns_at(self, hour_h):
        """True at an hour of the day within the session."""
        return (hour_h - self.start_h) % DAY_H < self.hours_h


@dataclass(frozen=True)
class Use:
    """What became of the gas over some days [m3], and the pressure at the stove [Pa].

    Attributes
    ----------
    produced_m3, asked_m3, burnt_m3, short_m3, lost_m3 : float
        Gas made, wanted, burnt, wanted but not there, and lost past the full store.
    smallest_m3, largest_m3, end_m3 : float
        Gas stored at the least, at the most and at the end.
    stove_pa : float or None
        Lowest pressure at the stove while it burns; below zero the pipe takes more than the plant has. None where
        nothing burns.
    """

    produced_m3: float
    asked_m3: float
    burnt_m3: float
    short_m3: float
    lost_m3: float
    smallest_m3: float
    largest_m3: float
    end_m3: float
    stove_pa: float | None


def pieces(sessions):
    """Return the day as [(hours [h], rate [m3/h]), ...] from midnight on, the rate steady within each.

    Examples
    --------
    >>> pieces([Session(23, 2, 0.3)])
    [(1.0, 0.3), (22.0, 0), (1.0, 0.3)]
    """
    ends = {(session.start_h + session.hours_h) % DAY_H for session in sessions}
    marks = sorted({0.0, DAY_H} | {session.start_h for session in sessions} | ends)
    return [(b - a, sum(each.rate_m3_h for each in sessions if each.burns_at((a + b) / 2))) for a, b in pairwise(marks)]


def asked_m3(sessions):
    """Return the gas a day's sessions ask for [m3].

    Examples
    --------
    >>> round(asked_m3([Session(6, 2, 0.3), Session(18, 1, 0.6)]), 9)
    1.2
    """
    return sum(hours * rate for hours, rate in pieces(sessions))


def run(store_m3, gas_m3_per_day, sessions, start_m3=0.0, days=7):
    """Yield (hours [h], rate burnt for [m3/h], gas before, gas after, lost, missing [m3]) piece by piece.

    Parameters
    ----------
    store_m3 : float
        Gas the plant stores between its lowest and highest slurry level [m3].
    gas_m3_per_day : float
        Gas made, evenly over the day [m3/d].
    sessions : sequence of Session
        What is burnt every day.
    start_m3 : float
        Gas stored at the first midnight [m3].
    days : int
        How many days.

    Raises
    ------
    OutOfRange
        If a value is negative or the start is more than the store.

    Notes
    -----
    Production and burning are steady within a piece, so the sums are exact. What passes the full store bubbles out
    at the passage or runs slurry over; what is asked of an empty one is missing.

    Examples
    --------
    >>> [step[3:] for step in run(1.0, 3.0, [Session(12, 12, 0.25)], days=1)]
    [(1.0, 0.5, 0.0), (0.0, 0.0, 0.5)]
    """
    require("store_m3", store_m3, low=1e-9, unit="m3")
    require("gas_m3_per_day", gas_m3_per_day, low=0, unit="m3/d")
    require("start_m3", start_m3, 0, store_m3, "m3")
    require("days", days, 1, 366, "d")
    before_m3, per_hour = start_m3, gas_m3_per_day / DAY_H
    for hours, rate in pieces(sessions) * days:
        would_be = before_m3 + (per_hour - rate) * hours
        after_m3 = min(max(would_be, 0.0), store_m3)
        yield hours, rate, before_m3, after_m3, max(would_be - store_m3, 0.0), max(-would_be, 0.0)
        before_m3 = after_m3


def settled_m3(store_m3, gas_m3_per_day, sessions):
    """Return the gas stored at midnight once every day goes like the day before [m3].

    Notes
    -----
    A day shifts the gas and cuts it at empty and at full. With gas to spare the midnight level therefore rises to
    what a full plant has left after one day, else it falls to what an empty one has gained.

    Examples
    --------
    >>> round(settled_m3(1.0, 2.4, [Session(18, 2, 0.5)]), 9)
    0.6
    """
    spare = gas_m3_per_day > asked_m3(sessions)
    *_, last = run(store_m3, gas_m3_per_day, sessions, store_m3 if spare else 0.0, days=1)
    return last[3]


def week(design, sessions, gas_m3_per_day=None, pipe=None, start_m3=None, days=7):
    """Return the Use of a plant's gas over a week.

    Parameters
    ----------
    design : Design
        The plant: its store, its levels, and its gas a day where `gas_m3_per_day` is None.
    sessions : sequence of Session
        What is burnt every day.
    gas_m3_per_day : float, optional
        Gas made [m3/d].
    pipe : (float, str), optional
        Length [m] and nominal size of the gas pipe; without it the pressure is that at the plant.
    start_m3 : float, optional
        Gas stored at the first midnight [m3]; that of a settled week unless given.
    days : int
        How many days.

    Raises
    ------
    Missing
        If neither the plan nor the call says how much gas is made.
    OutOfRange
        If more is burnt at once than the tables of pipes cover.

    Notes
    -----
    The pressure falls with the gas, so within a piece it is lowest at one of its ends.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> found = week(for_gas(2.0), [Session(6, 2, 0.3), Session(18, 2, 0.3)])
    >>> round(found.burnt_m3, 3), round(found.short_m3, 3), round(found.lost_m3, 3)
    (8.4, 0.0, 5.6)
    """
    made_m3 = gas_m3_per_day if gas_m3_per_day is not None else design.gas_m3_per_day
    if made_m3 is None:
        raise Missing("gas_m3_per_day")
    store_m3 = design.levels.store_m3
    start_m3 = settled_m3(store_m3, made_m3, sessions) if start_m3 is None else start_m3
    steps = list(run(store_m3, made_m3, sessions, start_m3, days))
    asked, short = sum(hours * rate for hours, rate, *_ in steps), sum(step[5] for step in steps)
    held = [start_m3] + [step[3] for step in steps]
    stove_pa = [_stove_pa(design, rate, min(before, after), pipe) for _, rate, before, after, *_ in steps if rate]
    return Use(
        produced_m3=made_m3 * days,
        asked_m3=asked,
        burnt_m3=asked - short,
        short_m3=short,
        lost_m3=sum(step[4] for step in steps),
        smallest_m3=min(held),
        largest_m3=max(held),
        end_m3=held[-1],
        stove_pa=min(stove_pa, default=None),
    )


def _stove_pa(design, rate_m3_h, gas_m3, pipe):
    lost_pa = loss_pa(rate_m3_h, *pipe) if pipe else 0.0
    return displaced(design.vessel, design.levels, gas_m3).pressure_pa - lost_pa


def store_needed_m3(sessions, gas_m3_per_day):
    """Return the smallest store with which no gas is missing or lost that a larger one would save [m3].

    Parameters
    ----------
    sessions : sequence of Session
        What is burnt every day.
    gas_m3_per_day : float
        Gas made, evenly over the day [m3/d].

    Raises
    ------
    OutOfRange
        If the gas is negative.

    Notes
    -----
    With gas to spare the greatest sum burnt beyond what is made in any stretch of hours, else the greatest sum made
    beyond what is burnt. Two days in a row hold every such stretch.

    Examples
    --------
    >>> round(store_needed_m3([Session(18, 2, 0.6)], 1.2), 9)
    1.1
    """
    require("gas_m3_per_day", gas_m3_per_day, low=0, unit="m3/d")
    per_hour = gas_m3_per_day / DAY_H
    sign = 1 if gas_m3_per_day > asked_m3(sessions) else -1
    best_m3 = sum_m3 = 0.0
    for hours, rate in pieces(sessions) * 2:
        sum_m3 = max(sum_m3 + sign * (rate - per_hour) * hours, 0.0)
        best_m3 = max(best_m3, sum_m3)
    return best_m3


def large_enough(store_m3, sessions, gas_m3_per_day):
    """True where a larger store [m3] would neither save gas nor give more of it.

    Examples
    --------
    >>> large_enough(1.1, [Session(18, 2, 0.6)], 1.2), large_enough(1.0, [Session(18, 2, 0.6)], 1.2)
    (True, False)
    """
    require("store_m3", store_m3, low=0, unit="m3")
    return store_m3 + CLOSE_M3 >= store_needed_m3(sessions, gas_m3_per_day)
