"""What a purse buys: in the order of the work, whole things first, never more than it holds."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import cost as c
from calc.bill import Row
from calc.errors import OutOfRange
from calc.purse import spend
from calc.takeoff import ITEMS
from tests.calc.test_cost import BOOK, HAND, PLANT, row, seen


def test_a_purse_buys_in_the_order_of_the_work_with_cement_last_in_each_stage():
    """3000: two packs of 50 bricks 1450, then 2 of 3 bags 1500; 50 left; the third bag is missing."""
    spent = spend(c.lines(HAND, BOOK), Decimal(3000))
    assert [(line.item, line.packs) for line in spent.bought] == [("bricks", 2), ("cement_kg", 2)]
    assert (spent.left, spent.covered, spent.kept) == (Decimal(50), (), ())
    assert (spent.missing.stage, spent.missing.item, spent.missing.packs) == ("base", "cement_kg", 1)


@pytest.mark.parametrize(
    ("purse", "covered", "item"), [("3699.99", (), "cement_kg"), ("3700", ("base",), "cement_kg"), ("4450", ("base", "wall"), "valve")]
)
def test_a_stage_is_covered_by_its_last_coin(purse, covered, item):
    spent = spend(c.lines(HAND, BOOK), Decimal(purse))
    assert spent.covered == covered
    assert spent.missing.item == item


def test_what_the_purse_reaches_whole_is_bought_before_a_part_of_a_thing():
    """900: three bags at 750 are not reached, a pack of 50 bricks at 725 is."""
    rows = (row("base", "cement_kg", 150.0, 50), row("base", "bricks", 50.0, 50))
    spent = spend(c.lines(rows, BOOK), Decimal(900))
    assert [(line.item, line.packs) for line in spent.bought] == [("bricks", 1)]
    assert (spent.left, spent.missing.item) == (Decimal(175), "cement_kg")


def test_a_dear_thing_does_not_keep_a_cheap_one_from_being_bought():
    """4000 of sand at 4200 and gravel at 1400: the gravel."""
    rows = (Row("base", "sand_m3", 0.4, "m3", 1, 0.5), Row("base", "gravel_m3", 0.9, "m3", 2, 0.5), row("base", "cement_kg", 300.0, 50))
    book = BOOK | {"sand_m3": seen("sand_m3", "4200", 2.832), "gravel_m3": seen("gravel_m3", "1400", 0.5)}
    spent = spend(c.lines(rows, book), Decimal(4000))
    assert [(line.item, line.packs) for line in spent.bought] == [("gravel_m3", 2)]
    assert (spent.left, spent.missing.item, spent.covered) == (Decimal(1200), "sand_m3", ())


def test_bricks_are_bought_by_the_lot_they_are_sold_in():
    """49 bricks' money buys none of those that come by fifties; 50 bricks' money buys fifty."""
    found = c.lines([row("wall", "bricks", 515.0, 50)], BOOK)
    assert spend(found, Decimal("710.50")).bought == ()
    assert [line.packs * line.pack for line in spend(found, Decimal(725)).bought] == [50]


def test_a_purse_for_everything_lacks_nothing():
    spent = spend(c.lines(HAND[:3], BOOK), Decimal(5000))
    assert spent.missing is None
    assert (spent.covered, spent.left) == (("base", "wall"), Decimal(550))


def test_a_thing_without_a_price_ends_the_list_after_its_stage():
    rows = (row("base", "sand_m3", 1.0, 1), row("base", "cement_kg", 100.0, 50), row("wall", "cement_kg", 50.0, 50))
    spent = spend(c.lines(rows, BOOK), Decimal(10000))
    assert [(line.stage, line.packs) for line in spent.bought] == [("base", 2)]
    assert (spent.covered, spent.missing.item) == ((), "sand_m3")


def test_the_first_of_two_things_that_are_missing_is_told():
    rows = (row("base", "sand_m3", 1.0, 1), row("base", "cement_kg", 100.0, 50))
    assert spend(c.lines(rows, BOOK), Decimal(800)).missing.item == "sand_m3"


def test_cement_that_would_grow_old_is_paid_for_and_not_bought():
    spent = spend(c.lines(HAND, BOOK), Decimal(4450), later=("wall",))
    assert [(line.stage, line.packs) for line in spent.kept] == [("wall", 1)]
    assert all(line.stage == "base" for line in spent.bought)
    assert spent.left == 0


@given(st.integers(1, 10**8), st.dictionaries(st.sampled_from(ITEMS), st.integers(1, 10**6), min_size=5), st.sampled_from(["KES", "UGX"]))
def test_a_purse_is_never_overspent_and_never_spent_past_what_is_missing(cents, prices, currency):
    book = {item: seen(item, Decimal(each).scaleb(-2), currency=currency) for item, each in prices.items()}
    purse, found = Decimal(cents).scaleb(-2), c.lines(PLANT, book)
    spent = spend(found, purse, later=("plaster",))
    assert spent.left >= 0
    assert spent.left + sum(line.money for line in spent.bought + spent.kept) == purse
    stages = list(dict.fromkeys(line.stage for line in found))
    assert list(spent.covered) == stages[: len(spent.covered)]
    if spent.missing is not None:
        assert spent.missing.stage == stages[len(spent.covered)]
        assert {line.stage for line in spent.bought + spent.kept} <= set(stages[: len(spent.covered) + 1])
        assert spent.missing.price is None or spent.left < c.money(spent.missing.price, spent.missing.priced_packs)
    else:
        assert spent.covered == tuple(stages)


def test_a_line_is_bought_whole_where_the_purse_holds_what_it_costs():
    """Three of 1.50 cost 4.5, in coins 4."""
    spent = spend(c.lines([row("base", "bricks", 3.0, 1)], {"bricks": seen("bricks", "1.5", currency="UGX")}), Decimal(4))
    assert (spent.bought[0].packs, spent.left, spent.missing) == (3, 0, None)


def test_a_purse_finer_than_the_coin_is_not_overspent():
    """A piece of 1.50 costs 2 where there is no smaller coin: 1.50 does not buy it."""
    spent = spend(c.lines([row("base", "bricks", 3.0, 1)], {"bricks": seen("bricks", "1.5", currency="UGX")}), Decimal("1.5"))
    assert (spent.bought, spent.left) == ((), Decimal("1.5"))


@pytest.mark.parametrize("purse", [Decimal(0), Decimal(-1), Decimal("NaN"), Decimal("Infinity"), Decimal(10**12 + 1), 20000, 20000.0, None])
def test_a_purse_that_is_none_is_refused(purse):
    with pytest.raises(OutOfRange):
        spend(c.lines(HAND, BOOK), purse)
