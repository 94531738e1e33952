"""Soil over the dome, water under the plant, slabs to be lifted: each balance worked in a line."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import stability
from calc.errors import Missing, OutOfRange


@pytest.mark.parametrize(
    ("pressure_pa", "cover_m"),
    [(8000, 0.52), (9300, 0.624), (12000, 0.84)],  # (1.2 p - 24 000 x 0.075) / 15 000
)
def test_soil_over_a_concrete_dome(pressure_pa, cover_m):
    assert stability.soil_cover(pressure_pa, 0.075) == pytest.approx(cover_m)


@given(st.floats(1000, 12000), st.floats(0.02, 0.2))
def test_soil_and_shell_weigh_a_fifth_more_than_the_gas_lifts(pressure_pa, shell_m):
    cover_m = stability.soil_cover(pressure_pa, shell_m)
    assert 15_000 * cover_m + 24_000 * shell_m == pytest.approx(1.2 * pressure_pa)


@given(st.floats(1000, 11000), st.floats(0.02, 0.2))
def test_more_pressure_needs_more_soil_and_a_thicker_shell_less(pressure_pa, shell_m):
    cover_m = stability.soil_cover(pressure_pa, shell_m)
    assert stability.soil_cover(pressure_pa + 500, shell_m) > cover_m > stability.soil_cover(pressure_pa, shell_m + 0.01)


def test_slurry_heavier_than_water_is_covered_to_the_limit_of_a_design_and_no_further():
    assert stability.soil_cover(1.05 * 12000, 0.075) == pytest.approx((1.2 * 12600 - 1800) / 15000)
    with pytest.raises(OutOfRange):
        stability.soil_cover(12601, 0.075)


@pytest.mark.parametrize(("pressure_pa", "shell_m"), [(0, 0.075), (nan, 0.075), (8000, 0), (8000, nan)])
def test_no_cover_for_a_dome_without_a_number(pressure_pa, shell_m):
    with pytest.raises(OutOfRange):
        stability.soil_cover(pressure_pa, shell_m)


@pytest.mark.parametrize(("water_m", "kilonewtons"), [(0, 0), (0.5, 38.5), (1.0, 76.9), (1.5, 115.4)])
def test_ground_water_lifts_an_empty_plant_of_1_58_m(water_m, kilonewtons):
    # 9.81 pi 1.58^2 = 76.94 kN a metre
    assert stability.uplift_n(1.58, water_m) / 1000 == pytest.approx(kilonewtons, abs=0.05)


@given(st.floats(0.5, 3), st.floats(0.1, 3))
def test_a_wider_plant_or_higher_water_lifts_more(radius_m, water_m):
    uplift_n = stability.uplift_n(radius_m, water_m)
    assert stability.uplift_n(2 * radius_m, water_m) == pytest.approx(4 * uplift_n)
    assert stability.uplift_n(radius_m, 2 * water_m) == pytest.approx(2 * uplift_n)


@pytest.mark.parametrize(("radius_m", "water_m"), [(0, 1), (nan, 1), (1.5, -0.1), (1.5, nan)])
def test_no_uplift_without_a_number(radius_m, water_m):
    with pytest.raises(OutOfRange):
        stability.uplift_n(radius_m, water_m)


def test_a_water_level_that_is_not_known_is_missing():
    with pytest.raises(Missing):
        stability.uplift_n(1.5, None)


def test_the_mass_of_a_cover():
    assert stability.slab_mass_kg(1.0, 1.0, 0.1) == 250
    assert stability.slab_mass_kg(0.6, 1.53, 0.075) == pytest.approx(172.1, abs=0.05)  # 0.06885 m3


@pytest.mark.parametrize("position", range(3))
@pytest.mark.parametrize("bad", [0, -0.1, nan])
def test_no_mass_without_three_sides(position, bad):
    sides = [0.6, 0.6, 0.075]
    sides[position] = bad
    with pytest.raises(OutOfRange):
        stability.slab_mass_kg(*sides)


# ---- the dome as a membrane


def test_the_bare_dome_of_a_published_plant_under_its_own_pressure():
    # 9.1 kPa, sphere (1.35^2 + 0.70^2) / 1.40 = 1.6518 m, 75 mm: p R / (2 t) = 100 kPa, less what the shell weighs, 80 kPa
    sphere_m = (1.35**2 + 0.70**2) / 1.40
    assert stability.crown_tension_pa(9100, 0, sphere_m, 0.075, 1e-9) / 1000 == pytest.approx(100.2, abs=0.05)
    assert stability.crown_tension_pa(9100, 0, sphere_m, 0.075) / 1000 == pytest.approx((9.1 - 1.8) * sphere_m / 0.15)


@given(st.floats(500, 12_000), st.floats(0, 1), st.floats(1, 2.5), st.floats(0.02, 0.2))
def test_tension_only_while_the_gas_lifts_more_than_soil_and_shell_weigh(pressure_pa, cover_m, sphere_m, shell_m):
    tension_pa = stability.crown_tension_pa(pressure_pa, cover_m, sphere_m, shell_m)
    net_pa = pressure_pa - 15_000 * cover_m - 24_000 * shell_m
    # the tension round a parallel at the crown carries the net pressure on the circle within it
    assert tension_pa * 2 * shell_m / sphere_m == pytest.approx(max(net_pa, 0), abs=1e-6)
    assert stability.crown_tension_pa(pressure_pa, cover_m + 0.1, sphere_m, shell_m) <= tension_pa


@given(st.floats(2000, 12_000), st.floats(0.02, 0.075))
def test_under_the_cover_that_is_asked_for_nothing_is_pulled(pressure_pa, shell_m):
    cover_m = max(stability.soil_cover(pressure_pa, shell_m), 0)
    assert stability.crown_tension_pa(pressure_pa, cover_m, 1.5, shell_m) == 0


def test_brickwork_holds_down_less_than_concrete():
    assert stability.soil_cover(8000, 0.07, 18_000) - stability.soil_cover(8000, 0.07) == pytest.approx(6000 * 0.07 / 15_000)
    assert stability.crown_tension_pa(8000, 0, 1.5, 0.07, 18_000) > stability.crown_tension_pa(8000, 0, 1.5, 0.07)


GOOD = {"pressure_pa": 8000, "cover_m": 0.0, "sphere_radius_m": 1.5, "shell_thickness_m": 0.07, "shell_n_m3": 24_000}


@pytest.mark.parametrize(
    ("name", "value"),
    [("pressure_pa", 0), ("pressure_pa", 12_601), ("cover_m", -0.01), ("sphere_radius_m", 0), ("shell_thickness_m", 0), ("shell_n_m3", 0)],
)
def test_no_tension_of_a_dome_outside_what_is_covered(name, value):
    for bad in (value, nan):
        with pytest.raises(OutOfRange):
            stability.crown_tension_pa(**GOOD | {name: bad})
    with pytest.raises(Missing):
        stability.crown_tension_pa(**GOOD | {name: None})
