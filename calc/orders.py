"""Orders of what does not keep: as few as serve every stage within the time it keeps."""

from dataclasses import dataclass
from math import ceil

from calc.bill import in_packs
from calc.errors import require

_SAME_D = 1e-9  # days nearer than this are the same


@dataclass(frozen=True)
class Need:
    """What a stage takes, from the day it starts to the day it ends [d]."""

    stage: str
    from_d: float
    to_d: float
    quantity: float


@dataclass(frozen=True)
class Order:
    """Whole packs to be on site on a day [d], for stages; the last of it is used on `until_d` [d]."""

    on_d: float
    until_d: float
    stages: tuple
    quantity: float
    packs: int


def orders(needs, pack, keeps_d):
    """Return the Orders of something that keeps `keeps_d` days, the fewest and each as late as its first use allows.

    Parameters
    ----------
    needs : iterable of Need
        In any order.
    pack : float
        Size of a pack, in the unit of the quantities.
    keeps_d : float
        Days between coming and last use [d].

    Raises
    ------
    OutOfRange
        If a need ends before it starts, a quantity is below zero, or pack or keeping time are not above zero.
    Missing
        If a number is not given.

    Notes
    -----
    An order of day t serves a need if it comes by its start and keeps to its end: to_d - keeps_d <= t <= from_d.
    Taking the earliest start among what is left, and with it everything that this order still serves, gives the
    fewest orders. A stage longer than the keeping time takes its material in equal parts. Packs are whole for each
    order: what is left of an opened pack is not kept for the next.

    Examples
    --------
    >>> needs = [Need("base", 0, 1, 300.0), Need("dome", 10, 20, 400.0), Need("plaster", 35, 38, 250.0)]
    >>> [(order.on_d, order.stages, order.packs) for order in orders(needs, 50, 30)]
    [(0.0, ('base', 'dome'), 14), (35.0, ('plaster',), 5)]
    """
    require("keeps_d", keeps_d, low=1, unit="d")
    left = sorted((part for need in needs for part in _parts(need, keeps_d)), key=lambda part: part.from_d)
    found = []
    while left:
        on_d = left[0].from_d
        served = [part for part in left if part.to_d - keeps_d <= on_d + _SAME_D]
        left = [part for part in left if part not in served]
        quantity = sum(part.quantity for part in served)
        stages = tuple(dict.fromkeys(part.stage for part in served))
        found.append(Order(on_d, max(part.to_d for part in served), stages, quantity, in_packs(quantity, pack)))
    return tuple(found)


def _parts(need, keeps_d):
    """A need in as many equal parts as its time has keeping times; none where nothing is needed."""
    require("from_d", need.from_d, unit="d")
    require("to_d", need.to_d, low=need.from_d, unit="d")
    require("quantity", need.quantity, low=0)
    if not need.quantity:
        return
    count = max(1, ceil((need.to_d - need.from_d) / keeps_d - _SAME_D))
    step = (need.to_d - need.from_d) / count
    for part in range(count):
        yield Need(need.stage, need.from_d + part * step, need.from_d + (part + 1) * step, need.quantity / count)
