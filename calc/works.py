"""The course of the works: when each task can start, which are critical, when all is finished."""

from dataclasses import dataclass, field
from graphlib import CycleError, TopologicalSorter

from calc.errors import OutOfRange, Unknown, require


@dataclass(frozen=True)
class Task:
    """A task: calendar days it takes [d], the tasks before it, and waits: {task: days to wait after it [d]}."""

    name: str
    days: float
    after: tuple = ()
    waits: dict = field(default_factory=dict)


@dataclass(frozen=True)
class Slot:
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
    by_name = {task.name: task for task in tasks}
    done = dict(done or {})
    order = _order(by_name)
    require("today_d", today_d)
    starts, finishes, holds = {}, {}, {}
    for name in order:
        task = by_name[name]
        require("days", task.days, low=0, unit="d")
        if name in done:
            finishes[name], starts[name], holds[name] = float(done[name]), float(done[name]) - task.days, (None, 0.0)
            continue
        starts[name], *held = max(_earliest(task, finishes), default=(today_d, None, 0.0))
        if starts[name] < today_d:
            starts[name], held = today_d, [None, 0.0]
        holds[name] = tuple(held)
        finishes[name] = float(starts[name] + task.days)
    latest = _latest(by_name, order, finishes, done)
    return {name: Slot(float(starts[name]), finishes[name], max(latest[name] - finishes[name], 0.0), *holds[name]) for name in order}


def _links(task):
    """{task before: days to wait after it} of a task."""
    return {**dict.fromkeys(task.after, 0.0), **task.waits}


def _order(by_name):
    graph = {}
    for name, task in by_name.items():
        for before, wait in _links(task).items():
            if before not in by_name:
                raise Unknown(before, by_name)
            require("wait_d", wait, low=0, unit="d")
        graph[name] = set(_links(task))
    try:
        return list(TopologicalSorter(graph).static_order())
    except CycleError as circle:
        raise OutOfRange("order of tasks", ", ".join(circle.args[1]), None, None) from None


def _earliest(task, finishes):
    return [(finishes[before] + wait, before, float(wait)) for before, wait in _links(task).items()]


def _latest(by_name, order, finishes, done):
    """The latest finish of each task that does not move the end."""
    end = max(finishes.values())
    latest = dict.fromkeys(order, end)
    for name in reversed(order):
        if name in done:
            continue
        for before, wait in _links(by_name[name]).items():
            latest[before] = min(latest[before], latest[name] - by_name[name].days - wait)
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
    require("working_days", working_days, low=0, unit="d")
    require("days_a_week", days_a_week, 1, 7, "d")
    return working_days * 7 / days_a_week
