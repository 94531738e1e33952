"""The bill of quantities: what to buy for each stage, in packs; what is still to buy with what has come."""

from math import ceil
from typing import NamedTuple

from calc import sources as s
from calc.errors import Unknown, require
from calc.masonry import Brick
from calc.takeoff import ITEMS, takeoff

_GUARD = 1e-9  # 6.0000000001 packs are six
_PACKS = {item: float(s.PACKS[item]) for item in ITEMS}
_WASTE = {item: float(s.WASTE.get(item, 1.0)) for item in ITEMS}


class Row(NamedTuple):
    """One item of one stage: `quantity` in `unit` with waste, and whole packs of `pack` units each."""

    stage: str
    item: str
    quantity: float
    unit: str
    packs: int
    pack: float


def bill(design, packs=None, brick=Brick(*map(float, s.BRICK_M)), taken=None):
    """Return the bill of quantities of a Design, one Row for each item of each stage.

    Parameters
    ----------
    design : Design
        The plant.
    packs : mapping, optional
        Item -> size of a pack in the item's unit; the usual packs for those not named.
    brick : Brick
        Its bricks.
    taken : dict, optional
        The take-off of this design and brick where it is at hand; reckoned if not given.

    Returns
    -------
    tuple of Row
        In the order of the work.

    Raises
    ------
    Unknown
        If a pack is given for an item that no bill has.
    OutOfRange
        If a pack is not above zero.

    Notes
    -----
    Waste is added once to the sum of a stage's item, then whole packs are counted up: never short of what is
    needed, never a whole pack over.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> row = bill(for_gas(2.0))[0]
    >>> row.stage, row.item, row.unit, row.packs * row.pack >= row.quantity > (row.packs - 1) * row.pack
    ('base', 'cement_kg', 'kg', True)
    """
    sizes = dict(_PACKS)
    for item, size in (packs or {}).items():
        if item not in ITEMS:
            raise Unknown(item, ITEMS)
        sizes[item] = float(require(f"pack of {item}", size, low=_GUARD))
    rows = []
    for stage, items in (takeoff(design, brick) if taken is None else taken).items():
        for item in ITEMS:
            if item in items:
                quantity, pack = items[item] * _WASTE[item], sizes[item]
                rows.append(Row(stage, item, quantity, _UNITS[item], ceil(quantity / pack - _GUARD), pack))
    return tuple(rows)


def in_packs(quantity, pack):
    """Return the whole packs that hold a quantity, rounded up.

    Examples
    --------
    >>> in_packs(300, 50), in_packs(300.1, 50), in_packs(300.00000001, 50)
    (6, 7, 6)
    """
    require("quantity", quantity, low=0)
    require("pack", pack, low=_GUARD)
    return ceil(quantity / pack - _GUARD)


def unit_of(item):
    """Return the unit at the end of an item's name, or "piece".

    Examples
    --------
    >>> unit_of("sand_m3"), unit_of("bricks")
    ('m3', 'piece')
    """
    tail = item.rpartition("_")[2]
    return tail if tail in ("kg", "m3", "m2", "m", "l") else "piece"


_UNITS = {item: unit_of(item) for item in ITEMS}


def needed(rows, item=None, stages=None):
    """Return {item: quantity} over a bill, of one item or all, for the stages named or all.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> sorted(needed(bill(for_gas(2.0)), stages=["pipe"]))
    ['gas_pipe', 'valve']
    """
    total = {}
    for row in rows:
        if item in (None, row.item) and (stages is None or row.stage in stages):
            total[row.item] = total.get(row.item, 0.0) + row.quantity
    return total


def to_buy(wanted, come):
    """Return {item: quantity} still to buy: what is wanted less what has come, nothing where more has come.

    Parameters
    ----------
    wanted, come : mapping
        Item -> quantity in the same unit.

    Examples
    --------
    >>> to_buy({"bricks": 900.0, "cement_kg": 600.0}, {"bricks": 1000.0, "cement_kg": 250.0})
    {'bricks': 0.0, 'cement_kg': 350.0}
    """
    return {item: quantity - min(come.get(item, 0.0), quantity) for item, quantity in wanted.items()}
