"""Money: whole packs at dated prices, unknown never nothing, sums exact."""

from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction
from math import ceil, inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import cost as c
from calc.bill import Row, bill
from calc.designs import for_gas
from calc.errors import Missing, OutOfRange, Unknown
from calc.labour import labour
from calc.takeoff import ITEMS

TODAY = date(2026, 11, 25)
PLANT = bill(for_gas(2.0))


def seen(item, price, pack=1, currency="KES", days=0, source="a shop"):
    return c.Price(item, Decimal(price) if isinstance(price, str) else price, pack, currency, TODAY - timedelta(days=days), source)


def row(stage, item, quantity, pack):
    return Row(stage, item, quantity, "kg", ceil(quantity / pack), float(pack))


HAND = (
    row("base", "cement_kg", 120.0, 50),
    row("base", "bricks", 100.0, 50),
    row("wall", "cement_kg", 70.0, 50),
    row("pipe", "valve", 1.0, 1),
)
BOOK = {"cement_kg": seen("cement_kg", "750", 50), "bricks": seen("bricks", "14.5", 1)}


def test_the_newest_price_of_an_item_holds_in_any_order():
    older, newer = seen("bricks", "14", days=30), seen("bricks", "15", days=2)
    assert c.price_list([older, newer], TODAY) == c.price_list([newer, older], TODAY) == {"bricks": newer}


def test_of_two_prices_of_one_day_the_later_line_holds():
    first, second = seen("bricks", "14", source="a"), seen("bricks", "15", source="b")
    assert c.price_list([first, second], TODAY)["bricks"].source == "b"


@pytest.mark.parametrize(
    ("price", "error"),
    [
        (seen("bricks", "0"), OutOfRange),
        (seen("bricks", "-14"), OutOfRange),
        (seen("bricks", "NaN"), OutOfRange),
        (seen("bricks", "Infinity"), OutOfRange),
        (seen("bricks", 14.0), OutOfRange),
        (seen("bricks", 14), OutOfRange),
        (seen("bricks", "1000000000001"), OutOfRange),
        (seen("bricks", None), Missing),
        (seen("bricks", "14", source=""), Missing),
        (seen("bricks", "14", source=None), Missing),
        (seen("bricks", "14", pack=0), OutOfRange),
        (seen("bricks", "14", pack=-1), OutOfRange),
        (seen("bricks", "14", pack=nan), OutOfRange),
        (seen("bricks", "14", pack=inf), OutOfRange),
        (seen("bricks", "14", pack=None), Missing),
        (seen("bricks", "14", days=-1), OutOfRange),
        (seen("gold", "14"), Unknown),
        (c.Price("bricks", Decimal(14), 1, "KES", None, "a shop"), Missing),
    ],
)
def test_a_price_that_is_none_is_refused(price, error):
    with pytest.raises(error):
        c.price_list([price], TODAY)


def test_the_smallest_price_the_greatest_and_one_of_today_stand():
    for price in ("0.01", "1000000000000"):
        assert c.price_list([seen("bricks", price)], TODAY)["bricks"].price == Decimal(price)


def test_two_currencies_are_not_added():
    with pytest.raises(OutOfRange, match="KES, UGX"):
        c.price_list([seen("bricks", "14"), seen("sand_m3", "4200", currency="UGX")], TODAY)


@pytest.mark.parametrize(
    ("price", "packs", "currency", "wanted"),
    [
        ("0.125", 1, "KES", "0.12"),  # half to even, by hand: down
        ("0.135", 1, "KES", "0.14"),  # and up
        ("0.375", 3, "KES", "1.12"),  # 1.125
        ("2.5", 1, "UGX", "2"),  # no smaller coin
        ("2.5", 3, "UGX", "8"),  # 7.5
        ("750", 0, "KES", "0.00"),
        ("0.1", 3, "KES", "0.30"),
    ],
)
def test_money_is_rounded_half_to_even_once_a_line(price, packs, currency, wanted):
    assert c.money(seen("bricks", price, currency=currency), packs) == Decimal(wanted)


def test_packs_below_zero_cost_nothing_at_all():
    with pytest.raises(OutOfRange):
        c.money(seen("bricks", "14"), -1)


def test_lines_by_hand():
    """120 kg take 3 bags, 30 kg stay for the wall: 40 kg more, one bag. Bricks come by fifties, priced by the piece: 2 x 50 x 14.50."""
    found = c.lines(HAND, BOOK)
    assert [(line.stage, line.item, line.packs, line.money) for line in found] == [
        ("base", "cement_kg", 3, Decimal(2250)),
        ("base", "bricks", 2, Decimal(1450)),
        ("wall", "cement_kg", 1, Decimal(750)),
        ("pipe", "valve", 1, None),
    ]
    assert c.total(found) == c.Total(Decimal(4450), ("valve",))
    assert c.by_stage(found) == {
        "base": c.Total(Decimal(3700)),
        "wall": c.Total(Decimal(750)),
        "pipe": c.Total(Decimal(0), ("valve",)),
    }


def test_what_has_come_serves_the_first_stage_first():
    """130 kg came: the base has its 120, the wall 10 of its 70."""
    found = c.lines(HAND, BOOK, {"cement_kg": 130.0})
    assert [(line.quantity, line.packs) for line in found if line.item == "cement_kg"] == [(0.0, 0), (60.0, 2)]


def test_more_than_needed_costs_nothing_more():
    assert c.total(c.lines(HAND, BOOK, {"cement_kg": 1e6, "bricks": 1e6, "valve": 1})) == c.Total(Decimal(0))


def test_what_has_come_is_a_number():
    with pytest.raises(OutOfRange):
        c.lines(HAND, BOOK, {"cement_kg": nan})


@given(
    st.lists(st.tuples(st.sampled_from(["base", "wall", "dome"]), st.floats(0, 5000)), min_size=1, max_size=8),
    st.floats(0.1, 100),
    st.floats(0, 9000),
)
def test_no_stage_runs_short_and_no_whole_pack_is_too_much(needs, pack, came):
    found = c.lines([Row(stage, "cement_kg", quantity, "kg", 0, pack) for stage, quantity in needs], {}, {"cement_kg": came})
    bought, used = 0.0, 0.0
    for line in found:
        bought, used = bought + line.packs * pack, used + line.quantity
        assert used - 1e-6 <= bought < used + pack + 1e-6
    assert used == pytest.approx(max(sum(quantity for _, quantity in needs) - came, 0), abs=1e-6)


@given(st.dictionaries(st.sampled_from(ITEMS), st.integers(1, 10**7), max_size=len(ITEMS)))
def test_totals_are_the_sums_of_lines_and_every_thing_is_priced_or_named(cents):
    """By fractions, which do not round."""
    book = {item: seen(item, Decimal(each).scaleb(-2)) for item, each in cents.items()}
    found = c.lines(PLANT, book)
    exact = sum(Fraction(cents[line.item], 100) * line.packs * round(line.pack) for line in found if line.item in cents)
    whole = c.total(found)
    assert Fraction(whole.known) == exact == sum(Fraction(each.known) for each in c.by_stage(found).values())
    assert set(whole.unknown) == {line.item for line in found} - set(cents)


def test_without_any_price_nothing_is_known_and_all_is_named():
    whole = c.total(c.lines(PLANT, {}))
    assert whole.known == 0
    assert set(whole.unknown) == {row.item for row in PLANT}


def test_days_are_paid_whole_and_once():
    """0.4 and 0.5 mason days on two stages are one day paid, not two."""
    rows = c.labour_rows({"base": (0.4, 2.0), "wall": (0.5, 0.0)})
    found = c.lines(rows, {"mason_d": seen("mason_d", "1500")})
    assert [(line.stage, line.item, line.packs) for line in found] == [
        ("base", "mason_d", 1),
        ("base", "labourer_d", 2),
        ("wall", "mason_d", 0),
    ]
    assert c.total(found) == c.Total(Decimal(1500), ("labourer_d",))


def test_labour_of_a_plant_is_paid_for_the_whole_days_of_its_sum():
    work = labour(for_gas(2.0))
    found = c.lines(c.labour_rows(work), {item: seen(item, "1") for item in c.LABOUR})
    assert c.total(found).known == ceil(sum(each[0] for each in work.values())) + ceil(sum(each[1] for each in work.values()))


@pytest.mark.parametrize(("days", "named"), [(29, ()), (30, ()), (31, ("bricks",))])
def test_a_price_is_old_the_day_after_its_time(days, named):
    assert c.old({"bricks": seen("bricks", "14", days=days)}, TODAY, 30) == named


@pytest.mark.parametrize(("days", "named"), [(60, ()), (61, ("bricks",))])
def test_the_house_calls_a_price_old_after_60_days(days, named):
    assert c.old({"bricks": seen("bricks", "14", days=days)}, TODAY) == named


@pytest.mark.parametrize(("most", "error"), [(-1, OutOfRange), (nan, OutOfRange), (None, Missing)])
def test_old_needs_a_number_of_days(most, error):
    with pytest.raises(error):
        c.old({}, TODAY, most)
