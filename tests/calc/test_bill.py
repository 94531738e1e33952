"""The bill of quantities: packs never short and never one too many, what is needed, what is still to buy."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import bill as b
from calc import sources as s
from calc.designs import for_gas
from calc.errors import Missing, OutOfRange, Unknown
from calc.masonry import Brick
from calc.takeoff import ITEMS, takeoff
from calc.vessel import shape

BRICK_PLANT = for_gas(2.0, form=shape("cylinder_cap"))
FERRO_PLANT = for_gas(2.0, dome="ferrocement")
ROWS = b.bill(BRICK_PLANT)
PACK = st.floats(0.01, 100)


@given(st.floats(0, 1e5), PACK)
def test_packs_hold_what_is_needed_and_one_less_would_not(quantity, pack):
    packs = b.in_packs(quantity, pack)
    assert packs * pack >= quantity - 1e-8 * pack
    assert (packs - 1) * pack < quantity or packs == 0


@pytest.mark.parametrize(
    ("quantity", "pack", "packs"), [(0, 50, 0), (0.001, 50, 1), (50, 50, 1), (50.001, 50, 2), (3 * 0.1, 0.1, 3), (860.7, 50, 18)]
)
def test_packs_counted_on_the_fingers(quantity, pack, packs):
    assert b.in_packs(quantity, pack) == packs


@pytest.mark.parametrize(
    ("quantity", "pack", "error"),
    [(-1, 50, OutOfRange), (nan, 50, OutOfRange), (None, 50, Missing), (10, 0, OutOfRange), (10, nan, OutOfRange)],
)
def test_nothing_is_bought_without_a_number(quantity, pack, error):
    with pytest.raises(error):
        b.in_packs(quantity, pack)


@given(st.floats(0.5, 7), st.sampled_from(["brick", "ferrocement", "concrete"]), st.sampled_from(["cap_on_bowl", "cylinder_cap"]))
def test_every_row_buys_enough_and_less_than_a_pack_too_much(gas_m3_per_day, dome, name):
    for row in b.bill(for_gas(gas_m3_per_day, form=shape(name), dome=dome)):
        assert row.quantity > 0
        assert row.quantity * (1 - 1e-9) <= row.packs * row.pack < row.quantity + row.pack


def test_a_row_is_what_the_stage_takes_and_its_waste_once():
    taken = takeoff(BRICK_PLANT)
    waste = {"cement_kg": 1.03, "sand_m3": 1.10, "gravel_m3": 1.05, "bricks": 1.10, "bar_m": 1.05}
    for row in ROWS:
        assert row.quantity == pytest.approx(taken[row.stage][row.item] * waste.get(row.item, 1.0))
    assert {(row.stage, row.item) for row in ROWS} == {(stage, item) for stage, items in taken.items() for item in items}


def test_the_rows_come_in_the_order_of_the_work():
    stages = list(dict.fromkeys(row.stage for row in ROWS))
    assert stages == ["base", "wall", "dome", "inlet", "outlet", "plaster", "covers", "pipe"]


@pytest.mark.parametrize(
    ("item", "unit"), [("cement_kg", "kg"), ("sand_m3", "m3"), ("mesh_m2", "m2"), ("bar_m", "m"), ("waterproofer_l", "l")]
)
def test_the_unit_stands_at_the_end_of_the_name(item, unit):
    assert b.unit_of(item) == unit
    assert item in ITEMS


@pytest.mark.parametrize("item", ["bricks", "gas_pipe", "valve"])
def test_what_has_no_unit_is_counted(item):
    assert b.unit_of(item) == "piece"


def test_every_item_has_a_usual_pack():
    assert set(s.PACKS) == set(ITEMS)
    assert {row.item: row.pack for row in ROWS}["cement_kg"] == 50


def test_a_programme_may_buy_in_other_packs():
    rows = b.bill(BRICK_PLANT, packs={"cement_kg": 42.5})
    usual = {(row.stage, row.item): row for row in ROWS}
    for row in rows:
        assert row.quantity == usual[row.stage, row.item].quantity
        assert row.pack == (42.5 if row.item == "cement_kg" else usual[row.stage, row.item].pack)


def test_other_bricks_change_the_count_of_bricks():
    small = b.bill(BRICK_PLANT, brick=Brick(0.190, 0.090, 0.090))
    assert b.needed(small, "bricks")["bricks"] > b.needed(ROWS, "bricks")["bricks"]


@pytest.mark.parametrize(("packs", "error"), [({"gold_kg": 1}, Unknown), ({"cement_kg": 0}, OutOfRange), ({"cement_kg": nan}, OutOfRange)])
def test_a_pack_that_nobody_sells_is_refused(packs, error):
    with pytest.raises(error):
        b.bill(BRICK_PLANT, packs=packs)


def test_what_is_needed_is_the_sum_of_the_stages():
    whole = b.needed(ROWS)
    for item, quantity in whole.items():
        assert quantity == pytest.approx(sum(row.quantity for row in ROWS if row.item == item))
    assert b.needed(ROWS, "bricks") == {"bricks": whole["bricks"]}
    walls = b.needed(ROWS, "bricks", ["wall", "outlet"])["bricks"]
    assert 0 < walls < whole["bricks"]
    assert walls == pytest.approx(whole["bricks"] - b.needed(ROWS, "bricks", ["dome", "inlet"])["bricks"])


def test_a_stage_without_an_item_needs_none_of_it():
    assert b.needed(ROWS, "bricks", ["base"]) == {}
    assert "mesh_m2" not in b.needed(ROWS)
    assert b.needed(b.bill(FERRO_PLANT))["mesh_m2"] > 0


QUANTITIES = st.dictionaries(st.sampled_from(ITEMS), st.floats(0, 1000), min_size=1)


@given(QUANTITIES, QUANTITIES)
def test_what_has_come_and_what_is_to_buy_are_what_was_wanted(wanted, come):
    left = b.to_buy(wanted, come)
    assert set(left) == set(wanted)
    for item, quantity in wanted.items():
        assert left[item] >= 0
        if come.get(item, 0) <= quantity:
            assert left[item] + come.get(item, 0) == pytest.approx(quantity)
        else:
            assert left[item] == 0


def test_nothing_has_come_yet():
    assert b.to_buy({"bricks": 900.0}, {}) == {"bricks": 900.0}


@pytest.mark.parametrize(
    ("item", "pack"),
    [("cement_kg", 50), ("sand_m3", 0.5), ("gravel_m3", 0.5), ("bricks", 50), ("bar_m", 12), ("pipe_m", 3), ("gas_pipe", 1), ("valve", 1)],
)
def test_the_packs_of_this_house(item, pack):
    assert s.PACKS[item] == pack
