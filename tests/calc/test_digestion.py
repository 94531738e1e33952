"""Gas from dung: the table between its cells and never beyond, the retention of each climate, three estimates."""

from itertools import pairwise
from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import RegularGridInterpolator

from calc import digestion, sizing
from calc import sources as s
from calc.errors import Missing, OutOfRange

TEMP = st.floats(15, 33)
DAYS = st.floats(30, 100)
CLIMATE = st.floats(15, 33)
between = RegularGridInterpolator((s.YIELD_TEMPS_C, s.YIELD_DAYS), s.YIELD_L_KG)


@given(TEMP, DAYS)
def test_the_yield_is_never_outside_the_corners_of_its_table(temp_c, days):
    assert s.YIELD_L_KG[0][0] <= digestion.yield_l_kg(temp_c, days) <= s.YIELD_L_KG[-1][-1]


@given(TEMP, DAYS, st.floats(0, 1))
def test_warmer_or_longer_never_gives_less(temp_c, days, part):
    found = digestion.yield_l_kg(temp_c, days)
    assert digestion.yield_l_kg(temp_c + part * (33 - temp_c), days) >= found - 1e-9
    assert digestion.yield_l_kg(temp_c, days + part * (100 - days)) >= found - 1e-9


@pytest.mark.parametrize("row", range(len(s.YIELD_TEMPS_C)))
@pytest.mark.parametrize("column", range(len(s.YIELD_DAYS)))
def test_a_cell_is_read_as_it_stands(row, column):
    assert digestion.yield_l_kg(s.YIELD_TEMPS_C[row], s.YIELD_DAYS[column]) == s.YIELD_L_KG[row][column]


def test_half_way_between_four_cells_is_their_mean():
    assert digestion.yield_l_kg(22.5, 35) == pytest.approx((15 + 18 + 22 + 26) / 4)


def test_the_table_rises_to_every_side():
    for row in s.YIELD_L_KG:
        assert all(less < more for less, more in pairwise(row))
    for column in zip(*s.YIELD_L_KG, strict=True):
        assert all(less < more for less, more in pairwise(column))


@pytest.mark.parametrize(("temp_c", "days"), [(14.9, 50), (33.1, 50), (25, 29.9), (25, 100.1), (nan, 50), (25, nan)])
def test_nothing_is_carried_beyond_the_table(temp_c, days):
    with pytest.raises(OutOfRange):
        digestion.yield_l_kg(temp_c, days)


@pytest.mark.parametrize(("temp_c", "days"), [(None, 50), (25, None)])
def test_without_temperature_or_retention_there_is_no_yield(temp_c, days):
    with pytest.raises(Missing):
        digestion.yield_l_kg(temp_c, days)


@pytest.mark.parametrize(
    ("temp_c", "days"),
    [(33, 40), (25.01, 40), (25, 50), (22, 50), (20.01, 50), (20, 60), (17, 60), (15, 80), (13, 80), (12, 80)],
)
def test_the_colder_the_place_the_longer_the_retention(temp_c, days):
    assert digestion.retention_d(temp_c) == days


@pytest.mark.parametrize("temp_c", [11.99, 0, -5, nan])
def test_a_cold_place_needs_an_engineer(temp_c):
    with pytest.raises(OutOfRange):
        digestion.retention_d(temp_c)


def test_a_place_between_twelve_and_fifteen_degrees_has_a_retention_but_no_yield():
    assert digestion.retention_d(13) == 80
    with pytest.raises(OutOfRange):
        digestion.yield_l_kg(13, 80)


FEEDS = st.one_of(
    st.builds(sizing.feed_from_dung, st.floats(1, 300), st.sampled_from(["cattle", "pig", "hen"])),
    st.builds(lambda cows, calves: sizing.feed_from_animals({"cow": cows, "calf": calves}), st.integers(1, 20), st.integers(0, 5)),
)


@given(FEEDS, TEMP, DAYS)
def test_the_lowest_estimate_is_not_over_the_others(feed, temp_c, days):
    found = digestion.gas_estimates(feed, temp_c, days)
    known = [each for each in (found.by_dung, found.by_solids, found.by_animal) if each is not None]
    assert 0 < found.low <= found.high
    assert found.low == min(known)
    assert found.high == max(known)


@given(st.floats(1, 300), TEMP, DAYS, st.floats(1.1, 3))
def test_more_dung_gives_more_gas_in_proportion(kg, temp_c, days, times):
    one, more = (digestion.gas_estimates(sizing.feed_from_dung(each), temp_c, days) for each in (kg, times * kg))
    assert more.low == pytest.approx(times * one.low)
    assert more.by_dung == pytest.approx(times * one.by_dung)


@given(st.floats(1, 300), CLIMATE)
def test_by_dung_is_the_yield_of_the_table(kg, temp_c):
    days = digestion.retention_d(temp_c)
    found = digestion.gas_estimates(sizing.feed_from_dung(kg), temp_c, days)
    assert found.by_dung == pytest.approx(kg * float(between((temp_c, days))) / 1000)


def test_by_animal_needs_a_count_of_grown_cattle():
    assert digestion.gas_estimates(sizing.feed_from_dung(60), 25, 60).by_animal is None
    counted = sizing.feed_from_animals({"cow": 4})
    assert digestion.gas_estimates(counted, 25, 60).by_animal == pytest.approx(4 * 0.35)


def test_a_cold_short_digester_gives_less_by_every_estimate():
    feed = sizing.feed_from_animals({"cow": 4})
    warm, cold = (digestion.gas_estimates(feed, *where) for where in ((30, 80), (20, 40)))
    assert (cold.by_dung, cold.by_solids, cold.by_animal) == pytest.approx(
        (warm.by_dung * 18 / 46, warm.by_solids * 18 / 46, warm.by_animal * 18 / 46)
    )


def test_pig_dung_counts_one_and_a_half_times():
    cattle, pig = (digestion.gas_estimates(sizing.feed_from_dung(20, animal), 27, 50) for animal in ("cattle", "pig"))
    assert pig.by_dung == pytest.approx(1.5 * cattle.by_dung)  # 60 l a kg against 40
