"""The gas of a week: sums that are kept, a settled day, the smallest store by search, limits."""

from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import gas_use as u
from calc.designs import design, for_gas
from calc.errors import Missing, OutOfRange
from calc.gas_pipe import loss_pa
from calc.gas_use import Session
from calc.levels import displaced
from calc.vessel import shape

SESSIONS = st.lists(
    st.builds(Session, st.integers(0, 47).map(lambda half: half / 2), st.integers(1, 10).map(lambda half: half / 2), st.floats(0.05, 0.8)),
    max_size=4,
)
GAS = st.floats(0.1, 4.0)
STORES = st.floats(0.1, 3.0)
PLANT = for_gas(2.0)
DAY = (Session(6, 2, 0.3), Session(12, 1, 0.3), Session(18, 2, 0.6))


@given(SESSIONS, GAS, st.floats(0, 1))
def test_no_gas_appears_or_is_forgotten(sessions, gas_m3, filled):
    start = filled * PLANT.levels.store_m3
    found = u.week(PLANT, sessions, gas_m3, start_m3=start)
    assert start + found.produced_m3 == pytest.approx(found.end_m3 + found.burnt_m3 + found.lost_m3, abs=1e-9)
    assert found.asked_m3 == pytest.approx(found.burnt_m3 + found.short_m3, abs=1e-9)
    assert found.asked_m3 == pytest.approx(7 * sum(each.hours_h * each.rate_m3_h for each in sessions), abs=1e-9)
    assert 0 <= found.smallest_m3 <= found.end_m3 <= found.largest_m3 <= PLANT.levels.store_m3
    assert min(found.short_m3, found.lost_m3, found.burnt_m3) >= -1e-12


@given(SESSIONS, GAS, STORES)
def test_a_settled_day_ends_where_it_began(sessions, gas_m3, store_m3):
    start = u.settled_m3(store_m3, gas_m3, sessions)
    *_, last = u.run(store_m3, gas_m3, sessions, start, days=1)
    assert last[3] == pytest.approx(start, abs=1e-9)


@given(SESSIONS, GAS, STORES)
def test_whatever_it_starts_with_a_plant_comes_near_its_settled_day(sessions, gas_m3, store_m3):
    start, spare = u.settled_m3(store_m3, gas_m3, sessions), gas_m3 - u.asked_m3(sessions)
    if abs(spare) < 0.05:
        return  # months to settle
    *_, last = u.run(store_m3, gas_m3, sessions, store_m3 / 2, days=80)
    assert last[3] == pytest.approx(start, abs=1e-6)


def wasted(store_m3, gas_m3, sessions):
    """Gas missing on a settled day beyond what the plant makes too little [m3]."""
    steps = list(u.run(store_m3, gas_m3, sessions, u.settled_m3(store_m3, gas_m3, sessions), days=1))
    return sum(step[5] for step in steps) - max(u.asked_m3(sessions) - gas_m3, 0)


@given(SESSIONS, GAS)
def test_the_store_needed_is_the_smallest_with_which_nothing_is_wasted(sessions, gas_m3):
    needed = u.store_needed_m3(sessions, gas_m3)
    assert wasted(needed + 1e-6, gas_m3, sessions) == pytest.approx(0, abs=1e-8)
    assert u.large_enough(needed, sessions, gas_m3)
    if needed > 0.02:
        assert wasted(needed - 0.01, gas_m3, sessions) > 1e-3
        assert not u.large_enough(needed - 0.01, sessions, gas_m3)


@given(st.floats(0, 24), st.floats(0.5, 23), st.floats(0.1, 0.8))
def test_one_cooking_a_day_in_balance_needs_what_is_made_in_the_gap(start_h, hours_h, rate):
    cooking = (Session(start_h, hours_h, rate),)
    gas_m3 = u.asked_m3(cooking)
    assert u.store_needed_m3(cooking, gas_m3) == pytest.approx((24 - hours_h) * gas_m3 / 24)
    assert u.large_enough(hours_h * rate, cooking, gas_m3)


@given(SESSIONS)
def test_the_pieces_of_a_day_are_a_day(sessions):
    assert sum(hours for hours, _ in u.pieces(sessions)) == pytest.approx(24)
    assert all(hours > 0 for hours, _ in u.pieces(sessions))


def test_a_plant_that_makes_no_gas_is_short_of_all_of_it():
    found = u.week(PLANT, DAY, 0.0, start_m3=0.0)
    assert found.short_m3 == pytest.approx(7 * 2.1) and found.burnt_m3 == pytest.approx(0)


def test_a_day_without_fire_fills_the_store_and_loses_the_rest():
    found = u.week(PLANT, (), 2.0, start_m3=0.0)
    store = PLANT.levels.store_m3
    assert (found.largest_m3, found.lost_m3, found.stove_pa) == (store, pytest.approx(14 - store), None)
    assert u.store_needed_m3((), 2.0) == 0


def test_the_lowest_pressure_is_that_of_the_least_gas_while_it_burns_less_the_pipe():
    found = u.week(PLANT, (Session(12, 1, 0.4),), 2.0, start_m3=1.0, days=1)
    # full well before noon; 0.4 burnt and 2/24 made in the hour
    left = PLANT.levels.store_m3 - 0.4 + 2.0 / 24
    at_plant = displaced(PLANT.vessel, PLANT.levels, left).pressure_pa
    assert found.stove_pa == pytest.approx(at_plant)
    piped = u.week(PLANT, (Session(12, 1, 0.4),), 2.0, (60, "1/2"), 1.0, 1)
    assert piped.stove_pa == pytest.approx(at_plant - loss_pa(0.4, 60, "1/2"))


def test_a_plant_run_empty_has_less_than_no_pressure_behind_its_pipe():
    found = u.week(PLANT, (Session(0, 24, 0.4),), 1.0, (30, "3/4"))
    assert found.stove_pa == pytest.approx(-loss_pa(0.4, 30, "3/4"))


def test_the_plan_says_the_gas_unless_it_is_given():
    assert u.week(PLANT, DAY).produced_m3 == pytest.approx(14.0)
    silent = design(6.0, 1.0, form=shape("cylinder_cap", "flat"))
    with pytest.raises(Missing):
        u.week(silent, DAY)
    assert u.week(silent, DAY, 1.5).produced_m3 == pytest.approx(10.5)


@pytest.mark.parametrize(
    "wrong",
    [
        (-0.1, 1, 0.3),
        (24.1, 1, 0.3),
        (6, 0, 0.3),
        (6, 24.1, 0.3),
        (6, 1, -0.1),
        (nan, 1, 0.3),
        (6, nan, 0.3),
        (6, 1, nan),
        (6, inf, 0.3),
        (6, 1, inf),
    ],
)
def test_a_session_no_day_holds_is_refused(wrong):
    with pytest.raises(OutOfRange):
        Session(*wrong)


@pytest.mark.parametrize("edge", [(0, 24, 0), (24, 1e-9, 0.3)])
def test_a_session_at_the_edge_is_one(edge):
    assert Session(*edge).hours_h == edge[1]


@pytest.mark.parametrize(
    "wrong", [{"start_m3": -0.1}, {"start_m3": 99}, {"days": 0}, {"days": 367}, {"gas_m3_per_day": -1}, {"gas_m3_per_day": nan}]
)
def test_a_week_that_cannot_be_is_refused(wrong):
    with pytest.raises(OutOfRange):
        u.week(PLANT, DAY, **wrong)


@pytest.mark.parametrize("gas_m3", [-0.1, nan, inf])
def test_gas_that_cannot_be_needs_no_store(gas_m3):
    with pytest.raises(OutOfRange):
        u.store_needed_m3(DAY, gas_m3)
    with pytest.raises(OutOfRange):
        u.large_enough(gas_m3, DAY, 1.0)


def test_more_at_once_than_the_pipe_tables_hold_is_refused():
    with pytest.raises(OutOfRange):
        u.week(PLANT, (Session(6, 1, 2.1),), pipe=(30, "1"))


def test_without_a_figure_of_gas_no_store_is_told():
    with pytest.raises(Missing):
        u.store_needed_m3(DAY, None)
