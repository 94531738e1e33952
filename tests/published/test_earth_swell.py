"""Swell and shrinkage: an engineering table of swell, pages with worked hauls, and a construction-estimating text
(examples 9-2, 9-3); a sloped pit in an exercise on footings."""

from math import ceil

import pytest

from calc import earth


@pytest.mark.parametrize(("soil", "percent"), [("sand", 12), ("earth", 25), ("clay", 40), ("rock", 65)])
def test_table_of_swell(soil, percent):
    assert earth.loose_volume(100, soil) == pytest.approx(100 + percent)


def test_200_cubic_yards_that_swell_40_percent_are_280_to_carry():
    assert earth.loose_volume(200, "clay") == pytest.approx(280)


def test_200_cubic_metres_of_dry_clay_are_300_in_the_heap():
    assert earth.loose_volume(200, swell=0.50) == 300


def test_10_cubic_yards_become_13_with_a_swell_of_30_percent():
    assert earth.loose_volume(10, swell=0.30) == pytest.approx(13)


def test_90_cubic_yards_of_fill_keep_100_in_the_bank_and_carry_140():
    bank = earth.bank_needed(90, "earth")
    assert bank == pytest.approx(100)
    assert earth.loose_volume(200 - bank, "clay") == pytest.approx(140)


def test_example_9_2_loads_of_7_cubic_yards():
    loose = earth.loose_volume(1000, swell=0.30)
    assert loose == pytest.approx(1300)
    assert ceil(loose / 7) == 186


def test_exercise_frustum_from_one_metre_square_to_three_in_0_75_m():
    assert earth.rectangle_pit_volume(1.0, 1.0, 0.75, slope=1 / 0.75) == pytest.approx(3.25)
