"""The course of the works: when each task can start, which are critical, when all is finished."""

from collections.abc import Mapping
from graphlib import CycleError, TopologicalSorter
from math import inf
from types import MappingProxyType
from typing import NamedTuple

from calc.errors import OutOfRange, Unknown, require

DAYS_A_WEEK = 7


class Task(NamedTuple):
    """A task: calendar days it takes [d], the tasks before it, and waits: {task: days to wait after it [d]}."""

    name: str
    days: float
    after: tuple = ()
    waits: Mapping = MappingProxyType({})


class Slot(NamedTuple):
    """When a task starts and finishes [d from the first day], how long it may slip [d], and what holds its start.

    `held_by` is the task before it that ends last, `waiting` the days it waits after that; both empty at the beginning.
    """

    start_d: float
    finish_d: float
    slack_d: float
    held_by: str | None = None
    waiting_d: float = 0.0

    @property
    def critical(self):
        """True where any delay moves the end."""
        return self.slack_d < 1e-9


def schedule(tasks, done=None, today_d=0.0):
    """Return {task: Slot} of all tasks, the earliest way.

    Parameters
    ----------
    tasks : sequence of Task
        In any order.
    done : mapping, optional
        Task -> day it was finished [d]; it stands there whatever comes before it.
    today_d : float
        The day it is [d]: what is not done starts no earlier.

    Raises
    ------
    Unknown
        If a task comes after one that is not there.
    OutOfRange
        If the tasks run in a circle, or a time cannot be.

    Notes
    -----
    Forward pass for the start, backward pass for the slack. A wait runs on the calendar from the end of its task.

    Examples
    --------
    >>> found = schedule([Task("base", 1), Task("wall", 3, ("base",), {"base": 3}), Task("tank", 2, ("base",))])
    >>> found["wall"].start_d, found["wall"].critical, found["tank"].slack_d
    (4.0, True, 4.0)
    """
    links, takes, in_order, done = {}, {}, True, done or {}
    for name, days, after, waits in tasks:
        links[name] = befores = {**dict.fromkeys(after, 0.0), **waits} if after else waits
        if not 0 <= days < inf:
            require("days", days, 0, None, "d")
        for before, wait in befores.items():
            in_order = in_order and before in takes
            if not 0 <= wait < inf:
                require("wait_d", wait, 0, None, "d")
        takes[name] = days
    order = list(links) if in_order else _order(links)
    today_d = float(require("today_d", today_d))
    starts, finishes = {}, {}
    for name in order:
        if name in done:
            finishes[name] = float(done[name])
            starts[name] = finishes[name] - takes[name], None, 0.0
            continue
        start, held, waiting = today_d, None, 0.0
        for before, wait in links[name].items():
            free = finishes[before] + wait
            if free >= start:
                start, held, waiting = free, before, wait
        starts[name] = start, held, float(waiting)
        finishes[name] = start + takes[name]
    latest = _latest(links, order, takes, finishes, done)
    slots = {}
    for name, (start, held, waiting) in starts.items():
        finish, slack = finishes[name], latest[name] - finishes[name]
        slots[name] = Slot(start, finish, slack if slack > 0 else 0.0, held, waiting)
    return slots


def _order(links):
    """The tasks one after the other, each behind those before it."""
    for befores in links.values():
        for before in befores:
            if before not in links:
                raise Unknown(before, links)
    try:
        return list(TopologicalSorter({name: befores.keys() for name, befores in links.items()}).static_order())
    except CycleError as circle:
        raise OutOfRange("order of tasks", ", ".join(circle.args[1]), None, None) from None


def _latest(links, order, takes, finishes, done):
    """The latest finish of each task that does not move the end."""
    latest = dict.fromkeys(order, max(finishes.values()))
    for name in reversed(order):
        if name in done:
            continue
        begun = latest[name] - takes[name]
        for before, wait in links[name].items():
            if begun - wait < latest[before]:
                latest[before] = begun - wait
    return latest


def finish_d(slots):
    """Return the day everything is finished [d].

    Examples
    --------
    >>> finish_d(schedule([Task("a", 2), Task("b", 1, ("a",))]))
    3.0
    """
    return max(slot.finish_d for slot in slots.values())


def critical_path(slots):
    """Return the names of the critical tasks in the order of their start.

    Examples
    --------
    >>> critical_path(schedule([Task("a", 2), Task("b", 1, ("a",)), Task("c", 1)]))
    ['a', 'b']
    """
    return sorted((name for name, slot in slots.items() if slot.critical), key=lambda name: (slots[name].start_d, slots[name].finish_d))


def calendar_days(working_days, days_a_week):
    """Return the calendar days that so many working days take [d].

    Examples
    --------
    >>> calendar_days(6, 6), calendar_days(3, 7)
    (7.0, 3.0)
    """
    if not 0 <= working_days < inf:
        require("working_days", working_days, 0, None, "d")
    if not 1 <= days_a_week <= DAYS_A_WEEK:
        require("days_a_week", days_a_week, 1, DAYS_A_WEEK, "d")
    return working_days * DAYS_A_WEEK / days_a_week
