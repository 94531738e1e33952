"""Gutterer, Sasse, Criteria for the Dissemination of Biogas Plants for Agricultural Farm and Household Systems, GTZ 1993:
2.3 (dung and gas), 6 (criteria), 7.1 (gas demand)."""

import pytest

from calc import sizing
from calc import sources as s
from calc.errors import Unknown


def test_2_3_a_cubic_metre_takes_25_kilograms_of_cattle_dung():
    assert sizing.nominal_dung(1.0) == pytest.approx(25)


def test_2_3_or_17_kilograms_of_pig_dung():
    cattle_kg = sizing.feed_from_dung(17, "pig").gas_dung_kg  # as much gas as this of cattle dung
    assert round(cattle_kg * 0.040, 1) == 1.0
    assert round(sizing.nominal_dung(1.0) * 17 / cattle_kg) == 17


def test_2_3_a_zebu_crossed_with_a_friesian_on_java_gives_fifteen_kilograms():
    assert sizing.feed_from_animals({"cow": 1}).dung_kg_per_day == 15


def test_2_3_a_zebu_in_orissa_gives_five_kilograms_and_our_design_figure_is_more():
    assert s.DUNG["local_cow"][0] == 5
    assert sizing.feed_from_animals({"local_cow": 1}).dung_kg_per_day > 5


def test_2_3_half_of_the_dung_where_animals_graze_by_day():
    assert sizing.feed_from_animals({"cow": 4}, "night").dung_kg_per_day == pytest.approx(30)


def test_2_3_stock_that_only_grazes_is_not_considered():
    with pytest.raises(Unknown):
        sizing.feed_from_animals({"cow": 4}, "pasture")


def test_7_1_a_stove_takes_0_3_cubic_metres_an_hour():
    assert max(sizing.stove_hours(0.3)) == pytest.approx(1.0)


@pytest.mark.parametrize(("dung_kg", "enough"), [(19.9, False), (20, True), (30, True)])
def test_6_under_twenty_kilograms_a_day_no_plant(dung_kg, enough):
    assert (dung_kg >= s.LEAST_DUNG_KG_D) is enough
