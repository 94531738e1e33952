"""Water and steam of IAPWS-97, by the library `iapws`: vapour pressure, density of water, the weight of a head of it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from iapws import IAPWS97

from calc import sources as s
from calc import tightness as t
from calc.units import si


@given(st.floats(1, 60))
def test_vapour_agrees_with_the_steam_tables(temp_c):
    assert t.vapour_pa(temp_c) == pytest.approx(IAPWS97(T=temp_c + 273.15, x=1).P * 1e6, rel=0.004)


@pytest.mark.parametrize("temp_c", [0.01, 5, 10, 15, 20, 25, 30, 35, 40, 50, 60])
def test_vapour_over_the_whole_range_from_the_triple_point(temp_c):
    assert t.vapour_pa(temp_c) == pytest.approx(IAPWS97(T=temp_c + 273.15, x=0).P * 1e6, rel=0.004)


def test_moist_air_counts_as_dry_by_the_saturated_vapour_of_the_tables():
    # 30 C: 4.25 kPa of vapour in 107.8 kPa of gas
    vapour_pa = IAPWS97(T=303.15, x=1).P * 1e6
    assert t.Air(7800, 30, 100000).dry_pa == pytest.approx(107800 - vapour_pa, rel=2e-4)


@given(st.floats(4, 40))
def test_water_of_a_thousand_kilograms_is_never_too_light_and_at_most_eight_in_a_thousand_too_heavy(temp_c):
    density_kg_m3 = IAPWS97(T=temp_c + 273.15, P=0.101325).rho
    assert 0.992 * s.WATER_KG_M3 <= density_kg_m3 <= 1.0001 * s.WATER_KG_M3


@pytest.mark.parametrize("temp_c", [4, 20, 30])
def test_a_metre_of_water_presses_as_the_tables_and_gravity_say(temp_c):
    # a manometer in centimetres of water is read as if it stood at 4 C: at 30 C it tells 0.4 % too much
    pressed_pa = IAPWS97(T=temp_c + 273.15, P=0.101325).rho * 9.80665
    assert si(100, "cmH2O") == pytest.approx(pressed_pa, rel=0.005)
    assert si(100, "cmH2O") >= pressed_pa


@pytest.mark.parametrize(("first_c", "second_c"), [(20, 26), (26, 20), (25, 33)])
def test_a_sealed_plant_that_warms_rises_by_gas_and_vapour(first_c, second_c):
    def vapour_pa(temp_c):
        return IAPWS97(T=temp_c + 273.15, x=1).P * 1e6

    dry_pa = (107000 - vapour_pa(first_c)) * (second_c + 273.15) / (first_c + 273.15)
    end = t.Air(dry_pa + vapour_pa(second_c) - 100000, second_c, 100000)
    start = t.Air(7000, first_c, 100000)
    assert t.sealed_fall_pa(start, end) == pytest.approx(0, abs=8)  # our vapour is known to 0.4 % of some kPa
    assert t.sealed_lost(start, end) == pytest.approx(0, abs=1e-4)
