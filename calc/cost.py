"""What a plant costs: whole packs at dated prices, by stage; what a sum of money buys in the order of the work.

Money is Decimal throughout, rounded half to even to the smallest coin, once for each line; totals are sums of lines.
A thing without a price is named and never counted as nothing.
"""

from dataclasses import dataclass, replace
from datetime import date
from decimal import ROUND_HALF_EVEN, Decimal

from calc import sources as s
from calc.bill import Row, in_packs
from calc.errors import Missing, OutOfRange, Unknown, require
from calc.takeoff import ITEMS

LABOUR = ("mason_d", "labourer_d")
CEMENT = "cement_kg"


@dataclass(frozen=True)
class Price:
    """What one pack of an item cost on a day, by whose word; `pack` in the item's unit."""

    item: str
    price: Decimal
    pack: float
    currency: str
    seen_on: date
    source: str


@dataclass(frozen=True)
class Line:
    """What one stage still takes of an item: `quantity` in `unit`, and the whole packs to buy for it."""

    stage: str
    item: str
    quantity: float
    unit: str
    packs: int
    pack: float
    price: Price | None

    @property
    def money(self):
        """What its packs cost, None where no price is known."""
        return None if self.price is None else money(self.price, self.packs)


@dataclass(frozen=True)
class Total:
    """The sum of what has a price, and the items that have none, in the order of the work."""

    known: Decimal
    unknown: tuple = ()


@dataclass(frozen=True)
class Spent:
    """What a sum buys: lines now, lines whose money is kept until later, what is left, which stages it covers.

    `missing` is the first line it does not cover, or None where it covers all.
    """

    bought: tuple
    kept: tuple
    left: Decimal
    covered: tuple
    missing: Line | None


def price_list(prices, today):
    """Return {item: its newest Price}, every price checked.

    Parameters
    ----------
    prices : iterable of Price
        In any order; of several for one item the last seen holds.
    today : date
        The day it is.

    Raises
    ------
    Unknown
        If an item is in no bill and is no labour.
    Missing
        If a price, its day or its source is not given.
    OutOfRange
        If a price is not a Decimal above zero, a pack is not above zero, a price was seen after today, or the
        currencies differ.

    Examples
    --------
    >>> seen = Price("bricks", Decimal("14"), 1, "KES", date(2026, 10, 20), "a kiln")
    >>> price_list([seen], date(2026, 11, 2))["bricks"].price
    Decimal('14')
    """
    found = {}
    for row in prices:
        _checked(row, today)
        if row.item not in found or row.seen_on >= found[row.item].seen_on:
            found[row.item] = row
    currencies = sorted({row.currency for row in found.values()})
    if len(currencies) > 1:
        raise OutOfRange("currencies", ", ".join(currencies))
    return found


def _checked(row, today):
    if row.item not in ITEMS + LABOUR:
        raise Unknown(row.item, ITEMS + LABOUR)
    name = f"price of {row.item}"
    for what, value in ((name, row.price), (f"day of {name}", row.seen_on), (f"source of {name}", row.source)):
        if value is None or value == "":
            raise Missing(what)
    exact = isinstance(row.price, Decimal) and row.price.is_finite()
    if not (exact and 0 < row.price <= s.MOST_MONEY):
        raise OutOfRange(name, row.price, 0, int(s.MOST_MONEY), row.currency)
    if row.seen_on > today:
        raise OutOfRange(f"day of {name}", row.seen_on, None, today)
    if not require(f"pack of {row.item}", row.pack, low=0):
        raise OutOfRange(f"pack of {row.item}", row.pack, 0)


def money(price, packs):
    """Return what so many packs cost, to the smallest coin of the currency.

    Parameters
    ----------
    price : Price
        Of one pack.
    packs : int
        Whole packs.

    Notes
    -----
    Half to even, so that many small lines do not add up to one side.

    Examples
    --------
    >>> seen = Price("bricks", Decimal("0.125"), 1, "KES", date(2026, 10, 20), "a kiln")
    >>> money(seen, 1), money(seen, 3)
    (Decimal('0.12'), Decimal('0.38'))
    """
    require("packs", packs, low=0)
    digits = s.COIN_DIGITS.get(price.currency, s.USUAL_COIN_DIGITS)
    return (price.price * packs).quantize(Decimal(1).scaleb(-int(digits)), ROUND_HALF_EVEN)


def lines(rows, prices, come=None):
    """Return what each stage still takes, in whole packs with their money, as Lines.

    Parameters
    ----------
    rows : sequence of Row
        Of a bill or of labour, in the order of the work.
    prices : mapping
        Item -> Price, see `price_list`.
    come : mapping, optional
        Item -> what has come already, in the item's unit; it serves the first stages first.

    Notes
    -----
    Packs are those the price is for, else the row's. What is left of an opened pack goes to the next stage: no
    stage runs short, and the packs of all stages together are the whole packs of their sum.

    Examples
    --------
    >>> rows = [Row("base", "cement_kg", 120.0, "kg", 3, 50.0), Row("wall", "cement_kg", 70.0, "kg", 2, 50.0)]
    >>> [line.packs for line in lines(rows, {})], [line.packs for line in lines(rows, {}, {"cement_kg": 100.0})]
    ([3, 1], [1, 1])
    """
    come, spare, found = dict(come or {}), {}, []
    for row in rows:
        had = min(require(f"come of {row.item}", come.get(row.item, 0.0)), row.quantity)
        come[row.item] = come.get(row.item, 0.0) - had
        need, price = row.quantity - had, prices.get(row.item)
        pack = row.pack if price is None else float(price.pack)
        rest = spare.get(row.item, 0.0)
        packs = in_packs(need - min(rest, need), pack)
        spare[row.item] = rest + packs * pack - need
        found.append(Line(row.stage, row.item, need, row.unit, packs, pack, price))
    return tuple(found)


def labour_rows(work):
    """Return the Rows of masons' and labourers' days [d] for work by stage, see `labour.labour`.

    Examples
    --------
    >>> [(row.item, row.packs) for row in labour_rows({"pit": (0.0, 7.1), "base": (0.4, 0.9)})]
    [('labourer_d', 8), ('mason_d', 1), ('labourer_d', 1)]
    """
    pairs = [(stage, item, days) for stage, each in work.items() for item, days in zip(LABOUR, each, strict=True)]
    return tuple(Row(stage, item, days, "d", in_packs(days, 1), 1.0) for stage, item, days in pairs if days)


def total(found, stage=None):
    """Return the Total of Lines, of one stage or of all.

    Examples
    --------
    >>> rows = [Row("base", "cement_kg", 120.0, "kg", 3, 50.0), Row("base", "sand_m3", 0.4, "m3", 1, 0.5)]
    >>> seen = Price("cement_kg", Decimal(750), 50, "KES", date(2026, 11, 2), "a shop")
    >>> total(lines(rows, {"cement_kg": seen}))
    Total(known=Decimal('2250.00'), unknown=('sand_m3',))
    """
    counted = [line for line in found if line.packs and stage in (None, line.stage)]
    known = sum((line.money for line in counted if line.money is not None), Decimal(0))
    return Total(known, tuple(dict.fromkeys(line.item for line in counted if line.money is None)))


def by_stage(found):
    """Return {stage: Total} of Lines, in the order of the work.

    Examples
    --------
    >>> by_stage(lines([Row("pipe", "valve", 1.0, "piece", 1, 1.0)], {}))
    {'pipe': Total(known=Decimal('0'), unknown=('valve',))}
    """
    return {stage: total(found, stage) for stage in dict.fromkeys(line.stage for line in found)}


def old(prices, today, most_d=s.PRICE_OLD_D):
    """Return the items whose price was seen more than `most_d` days [d] before today.

    Examples
    --------
    >>> seen = Price("bricks", Decimal(14), 1, "KES", date(2026, 10, 20), "a kiln")
    >>> old({"bricks": seen}, date(2026, 11, 19), 30), old({"bricks": seen}, date(2026, 11, 20), 30)
    ((), ('bricks',))
    """
    require("most_d", most_d, low=0, unit="d")
    return tuple(item for item, price in prices.items() if (today - price.seen_on).days > most_d)


def spend(found, purse, later=()):
    """Return what a sum of money buys of Lines, as Spent.

    Parameters
    ----------
    found : sequence of Line
        In the order of the work.
    purse : Decimal
        The money.
    later : collection of str
        Stages whose cement would grow too old if it came today: its money is kept, see `orders.orders`.

    Raises
    ------
    OutOfRange
        If the sum is not a Decimal above zero.

    Notes
    -----
    Stage by stage, cement last in each. Of the first line that the money does not reach as many whole packs as it
    does reach are taken, and there it ends. A line without a price cannot be counted: the stage is not covered, and
    with it the list ends.

    Examples
    --------
    >>> rows = [Row("base", "cement_kg", 120.0, "kg", 3, 50.0), Row("pipe", "valve", 1.0, "piece", 1, 1.0)]
    >>> seen = Price("cement_kg", Decimal(750), 50, "KES", date(2026, 11, 2), "a shop")
    >>> spent = spend(lines(rows, {"cement_kg": seen}), Decimal(2000))
    >>> [line.packs for line in spent.bought], spent.left, spent.covered, spent.missing.packs
    ([2], Decimal('500.00'), (), 1)
    """
    if not (isinstance(purse, Decimal) and purse.is_finite() and 0 < purse <= s.MOST_MONEY):
        raise OutOfRange("money", purse, 0, int(s.MOST_MONEY))
    bought, kept, covered, missing = [], [], [], None
    for stage in dict.fromkeys(line.stage for line in found):
        wanted = sorted((line for line in found if line.stage == stage and line.packs), key=lambda line: line.item == CEMENT)
        for line in wanted:
            if line.money is None:
                missing = missing or line
                continue
            taken, rest = _reach(line, purse)
            if taken:
                (kept if line.item == CEMENT and stage in later else bought).append(taken)
                purse -= taken.money
            if rest:
                missing = missing or rest
                break
        if missing:
            break
        covered.append(stage)
    return Spent(tuple(bought), tuple(kept), purse, tuple(covered), missing)


def _reach(line, purse):
    """(what the money buys of a line, what it does not), each a Line or None."""
    packs = line.packs if line.money <= purse else min(line.packs, int(purse // line.price.price))
    while money(line.price, packs) > purse:  # a sum finer than the coin
        packs -= 1
    taken, rest = replace(line, packs=packs), replace(line, packs=line.packs - packs)
    return taken if taken.packs else None, rest if rest.packs else None
