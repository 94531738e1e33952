"""What a sum of money buys of what a plant still takes, in the order of the work."""

from dataclasses import dataclass, replace
from decimal import Decimal

from calc import sources as s
from calc.cost import CEMENT, Line, money
from calc.errors import OutOfRange


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
    Stage by stage, cement last in each. What a stage takes of a thing is bought whole where the money reaches; then of
    the first that it does not reach as many whole packs as it does, and there it ends. A line without a price cannot
    be counted: the stage is not covered, and with it the list ends.

    Examples
    --------
    >>> from datetime import date
    >>> from calc.bill import Row
    >>> from calc.cost import Price, lines
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
        takes, rests, purse = _of_stage(wanted, purse)
        for taken in takes:
            (kept if taken.item == CEMENT and stage in later else bought).append(taken)
        if rests:
            missing = rests[0]
            break
        covered.append(stage)
    return Spent(tuple(bought), tuple(kept), purse, tuple(covered), missing)


def _of_stage(wanted, purse):
    """(what is bought of the lines of a stage, what is not, the money left): whole lines, then a part of one."""
    takes, rests = [], []
    for line in wanted:
        if line.money is not None and line.money <= purse:
            takes.append(line)
            purse -= line.money
        else:
            rests.append(line)
    part = next((at for at, line in enumerate(rests) if line.money is not None), None)
    if part is not None:
        taken, rests[part] = _reach(rests[part], purse)
        if taken:
            takes.append(taken)
            purse -= taken.money
    return takes, rests, purse


def _reach(line, purse):
    """(what the money buys of a line that it does not reach whole or None, what it does not), each a Line."""
    packs = min(line.packs - 1, int(purse // (line.price.price * line.priced_packs)))
    while money(line.price, packs * line.priced_packs) > purse:  # a sum finer than the coin
        packs -= 1
    taken, rest = replace(line, packs=packs), replace(line, packs=line.packs - packs)
    return taken if taken.packs else None, rest
