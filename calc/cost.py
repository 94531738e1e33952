"""What a plant costs: whole packs at dated prices, by stage.

Money is Decimal throughout, rounded half to even to the smallest coin, once for each line; totals are sums of lines.
A thing without a price is named and never counted as nothing.
"""

from dataclasses import dataclass
from datetime import date
from decimal import ROUND_HALF_EVEN, Decimal

from calc import sources as s
from calc.bill import Row, in_packs
from calc.errors import Missing, OutOfRange, Unknown, require
from calc.takeoff import ITEMS

LABOUR = ("mason_d", "labourer_d")
CEMENT = "cement_kg"
_ALIKE = 1e-9


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
    def priced_packs(self):
        """How many of the packs that the price is for make one of its own."""
        return 1 if self.price is None else round(self.pack / self.price.pack)

    @property
    def money(self):
        """What its packs cost, None where no price is known."""
        return None if self.price is None else money(self.price, self.packs * self.priced_packs)


@dataclass(frozen=True)
class Total:
    """The sum of what has a price, and the items that have none, in the order of the work."""

    known: Decimal
    unknown: tuple = ()


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
    Packs are those of `pack_bought`. What is left of an opened pack goes to the next stage: no stage runs short, and
    the packs of all stages together are the whole packs of their sum.

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
        pack = pack_bought(row.pack, price)
        rest = spare.get(row.item, 0.0)
        packs = in_packs(need - min(rest, need), pack)
        spare[row.item] = rest + packs * pack - need
        found.append(Line(row.stage, row.item, need, row.unit, packs, pack, price))
    return tuple(found)


def pack_bought(pack, price):
    """Return the size in which a thing is bought: as it is sold at the place, where its price can be counted for that.

    Parameters
    ----------
    pack : float
        As it is sold, in the item's unit.
    price : Price or None
        Of a pack that may be another: of one brick where bricks come by fifties, of a whole trolley of sand.

    Examples
    --------
    >>> brick = Price("bricks", Decimal(14), 1, "KES", date(2026, 10, 20), "a kiln")
    >>> sand = Price("sand_m3", Decimal(4200), 2.8, "KES", date(2026, 10, 20), "a lorry")
    >>> pack_bought(50.0, brick), pack_bought(0.5, sand), pack_bought(0.5, None)
    (50.0, 2.8, 0.5)
    """
    if price is None:
        return float(pack)
    count = round(pack / price.pack)
    return float(pack if count and abs(pack - count * price.pack) <= _ALIKE * pack else price.pack)


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
