"""Gas tests: limits from both sides, what is missing, what weather explains."""

from dataclasses import replace
from math import exp, inf, nan

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import brentq

from calc import tightness as t
from calc.designs import for_gas, for_volume
from calc.errors import Missing, OutOfRange
from calc.levels import displaced, under_pressure
from calc.tightness import Air
from calc.vessel import shape, volume_below

PLANT = for_volume(8.0, 24, form=shape("cylinder_cap", "flat"))
DOME = for_gas(2.0)
TOP_PA = PLANT.levels.greatest_pressure_pa


@pytest.mark.parametrize("temp_c", [-0.1, 60.1, nan, inf])
def test_vapour_is_known_from_0_to_60(temp_c):
    with pytest.raises(OutOfRange):
        t.vapour_pa(temp_c)


# ---- levels under gas


@given(st.floats(0, 1))
def test_what_leaves_the_inside_stands_in_the_chamber(part):
    pushed_m3 = part * PLANT.levels.store_m3
    stands = displaced(PLANT.vessel, PLANT.levels, pushed_m3)
    left = volume_below(PLANT.vessel, PLANT.levels.zero_line_m) - volume_below(PLANT.vessel, stands.inside_m)
    risen = (stands.outlet_m - PLANT.levels.zero_line_m) * PLANT.chamber_length_m * PLANT.chamber_width_m
    assert left == pytest.approx(pushed_m3, abs=1e-9)
    assert risen == pytest.approx(pushed_m3, abs=1e-9)
    assert stands.pressure_pa == pytest.approx(1000 * 9.80665 * (stands.outlet_m - stands.inside_m))


@given(st.floats(0, 1))
def test_the_pressure_comes_back_from_the_levels(part):
    assert under_pressure(PLANT.vessel, PLANT.levels, part * TOP_PA).pressure_pa == pytest.approx(part * TOP_PA, abs=0.01)


@pytest.mark.parametrize("pressure_pa", [-1, 1.0001 * TOP_PA, nan, inf])
def test_no_plant_stands_more_than_its_greatest_pressure(pressure_pa):
    with pytest.raises(OutOfRange):
        under_pressure(PLANT.vessel, PLANT.levels, pressure_pa)


# ---- gas


@pytest.mark.parametrize(("left_m", "right_m"), [(0.40, 0.445), (0.0, 0.02), (0.1, 0.9)])
def test_legs_that_do_not_move_alike_are_refused(left_m, right_m):
    with pytest.raises(OutOfRange):
        t.legs_head_m(left_m, right_m)


@pytest.mark.parametrize(("left_m", "right_m"), [(0.40, 0.44), (0.40, 0.40), (0.02, 0.03), (0.0, 0.0)])
def test_the_head_is_both_movements(left_m, right_m):
    assert t.legs_head_m(left_m, right_m) == left_m + right_m


@given(st.floats(4000, 9000), st.floats(10, 35), st.floats(10, 35), st.floats(95000, 103000), st.floats(95000, 103000))
def test_weather_alone_is_no_loss(pressure_pa, first_c, second_c, first_pa, second_pa):
    start = Air(pressure_pa, first_c, first_pa)
    dry_pa = start.dry_pa * (second_c + 273.15) / (first_c + 273.15)
    vapour_pa = 611.2 * exp(17.62 * second_c / (243.12 + second_c))
    assume(dry_pa + vapour_pa >= second_pa)
    end = Air(dry_pa + vapour_pa - second_pa, second_c, second_pa)
    assert t.sealed_fall_pa(start, end) == pytest.approx(0, abs=1e-6)
    assert t.sealed_lost(start, end) == pytest.approx(0, abs=1e-9)


def air(pressure_pa, temp_c=25.0, barometer_pa=100000.0):
    return Air(pressure_pa, temp_c, barometer_pa)


@pytest.mark.parametrize(
    ("start", "end", "hours", "stands", "reason"),
    [
        (air(7800), air(7800), 24, "within", ""),
        (air(7800), air(7800), 26.1, "not_enough", "same_hour"),
        (air(7800), air(7800), 26.0, "within", ""),
        (air(7800), air(7800), 10, "not_enough", "same_hour"),
        (air(7800), air(7800), 0, "not_enough", "same_hour"),
        (air(7800), air(7566), 24, "within", ""),
        (air(7800), air(7565), 24, "not_enough", "find_leak"),
        (air(7800), air(7488), 24, "not_enough", "find_leak"),
        (air(7800), air(7487), 24, "outside", "loses_gas"),
        (air(7800), air(7487), 48, "within", ""),
        (air(7800), air(5800), 1, "outside", "falls"),
        (air(7800), air(5801), 1, "not_enough", "same_hour"),
        (air(7800), air(5800, 19.0), 24, "within", ""),  # six degrees take 6 x (107800 - 3160) / 298.15 = 2.1 kPa and 0.96 of vapour
        (air(7800), air(7800, 33.0), 5, "outside", "falls"),  # eight degrees should have given 2.8 kPa
        (air(7800), air(7846), 24, "not_enough", "over_limit"),
        (air(7846), air(5000), 24, "not_enough", "over_limit"),
        (Air(7800), Air(5800), 24, "outside", "falls"),
        (Air(7800), Air(5801), 24, "not_enough", "no_weather"),
        (air(7800), Air(7800, 25), 24, "not_enough", "no_weather"),
        (Air(7800, None, 100000), air(7800), 24, "not_enough", "no_weather"),
        (air(7060), air(7060), 24, "not_enough", "low_pressure"),
        (air(7061), air(7061), 24, "within", ""),
    ],
)
def test_a_sealed_test(start, end, hours, stands, reason):
    found = t.gas_test(DOME, True, start, end, hours)
    assert (found.stands, found.reason) == (stands, reason)


@pytest.mark.parametrize(
    ("lost", "stands"), [(0.0, "within"), (0.0199, "within"), (0.0201, "not_enough"), (0.0399, "not_enough"), (0.0401, "outside")]
)
def test_a_water_seal_test(lost, stands):
    start = air(7600)
    moles = start.dry_pa * under_pressure(DOME.vessel, DOME.levels, 7600).gas_m3 * (1 - lost)
    end_pa = brentq(lambda p: air(p).dry_pa * under_pressure(DOME.vessel, DOME.levels, p).gas_m3 - moles, 10, 7700, xtol=1e-7)
    assert t.gas_test(DOME, False, start, air(end_pa), 24).stands == stands


@given(
    st.floats(7500, 7800), st.floats(5600, 7800), st.floats(0, 60), st.booleans(), st.sampled_from([(None, None), (25, None), (None, 1e5)])
)
def test_without_weather_nothing_is_ever_within(start_pa, end_pa, hours, sealed, weather):
    assert t.gas_test(DOME, sealed, Air(start_pa, *weather), Air(end_pa, *weather), hours).stands != "within"


@pytest.mark.parametrize("hours", [-1, nan, inf, None])
def test_hours_that_cannot_be_are_refused(hours):
    with pytest.raises((OutOfRange, Missing)):
        t.gas_test(DOME, True, air(7800), air(7800), hours)


@pytest.mark.parametrize(("height_pa", "wanted"), [(9000, 7500), (8333.4, 7500), (8333.2, 7499.9), (7000, 6300)])
def test_a_gas_test_starts_at_75_cm_or_a_tenth_below_what_the_plant_stands(height_pa, wanted):
    low_m = PLANT.levels.overflow_m - height_pa / 9806.65
    levels = replace(PLANT.levels, lowest_m=low_m)
    plant = replace(PLANT, levels=levels)
    assert t.least_pressure_pa(plant) == pytest.approx(wanted, abs=0.05)
    least_pa = t.least_pressure_pa(plant)
    assert [t.cannot_start(plant, pa) for pa in (least_pa - 0.1, least_pa, height_pa, height_pa + 0.1)] == [
        "low_pressure",
        "",
        "",
        "over_limit",
    ]


@pytest.mark.parametrize("said", [(-1,), (nan,), (7500, 60.1), (7500, nan), (7500, 25, 59999), (7500, 25, 106001), (7500, None, inf)])
def test_air_that_cannot_be_is_refused(said):
    with pytest.raises(OutOfRange):
        Air(*said)


@pytest.mark.parametrize("days", [1, 2, 3])
def test_both_shares_of_a_sealed_test_are_those_of_one_day(days):
    # 200 of 7800 Pa; of the dry gas, at 107800 - 3160 Pa, 0.19 %
    found = t.gas_test(DOME, True, air(7800), air(7600), 24 * days)
    assert found.share == pytest.approx(200 / 7800 / days)
    assert found.gas_share == pytest.approx(200 / (107800 - 3160) / days, rel=1e-3)
