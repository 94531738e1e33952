"""Gas and water tests: limits from both sides, what is missing, what weather explains; brute force beside the solver."""

from math import exp, inf, nan, pi

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from iapws import IAPWS97
from scipy.integrate import quad
from scipy.optimize import brentq

from calc import tightness as t
from calc import watertight as w
from calc.designs import for_gas, for_volume
from calc.errors import Missing, OutOfRange
from calc.levels import displaced, under_pressure
from calc.tightness import Air
from calc.vessel import shape, volume_below

PLANT = for_volume(8.0, 24, form=shape("cylinder_cap", "flat"))
DOME = for_gas(2.0)
TOP_PA = PLANT.levels.greatest_pressure_pa


@given(st.floats(1, 60))
def test_vapour_agrees_with_the_steam_tables(temp_c):
    assert t.vapour_pa(temp_c) == pytest.approx(IAPWS97(T=temp_c + 273.15, x=1).P * 1e6, rel=0.004)


@pytest.mark.parametrize("temp_c", [-0.1, 60.1, nan, inf])
def test_vapour_is_known_from_0_to_60(temp_c):
    with pytest.raises(OutOfRange):
        t.vapour_pa(temp_c)


# ---- levels under gas


def section_m(vessel, level_m):
    if level_m < vessel.spring_m:
        return vessel.radius_m
    sphere_m = (vessel.radius_m**2 + vessel.dome_rise_m**2) / (2 * vessel.dome_rise_m)
    centre_m = vessel.spring_m + vessel.dome_rise_m - sphere_m
    return max(sphere_m**2 - (level_m - centre_m) ** 2, 0) ** 0.5


@given(st.floats(0.01, 0.99))
def test_the_gas_over_the_slurry_is_the_sum_of_its_slices(part):
    stands = under_pressure(PLANT.vessel, PLANT.levels, part * TOP_PA)
    tank = PLANT.vessel
    edges = sorted({stands.inside_m, max(stands.inside_m, tank.spring_m), tank.crown_m})
    slices = sum(quad(lambda z: pi * section_m(tank, z) ** 2, low, high)[0] for low, high in zip(edges, edges[1:], strict=False))
    assert stands.gas_m3 == pytest.approx(slices, rel=1e-6)


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


# ---- water


@given(st.floats(0, 0.05))
def test_water_gone_is_the_sum_of_its_slices(drop_m):
    zero_m = DOME.levels.zero_line_m
    tank = DOME.vessel

    def area_m2(z):
        return pi * section_m(tank, z) ** 2 + 0.6**2

    gone = quad(area_m2, zero_m - drop_m, zero_m)[0]
    assert w.water_missing_m3(DOME, drop_m) == pytest.approx(gone, abs=1e-7)


def test_water_in_the_chamber_falls_over_its_whole_area():
    start_m = PLANT.levels.zero_line_m + 0.10
    inside_m3 = volume_below(PLANT.vessel, min(start_m, PLANT.vessel.crown_m)) - volume_below(
        PLANT.vessel, min(start_m - 0.02, PLANT.vessel.crown_m)
    )
    chamber_m3 = PLANT.chamber_length_m * PLANT.chamber_width_m * 0.02
    assert w.water_missing_m3(PLANT, 0.02, start_m) == pytest.approx(inside_m3 + chamber_m3)


@given(st.floats(0, 0.03), st.floats(0, 0.03))
def test_a_greater_fall_is_a_greater_loss(one, other):
    assume(one < other)
    assert w.water_missing_m3(DOME, one) < w.water_missing_m3(DOME, other) or other - one < 1e-12


def test_rain_adds_to_the_loss_and_the_pan_takes_from_it():
    bare = w.water_day(DOME, 0.01, 24)
    chamber_m2 = DOME.chamber_length_m * DOME.chamber_width_m
    rained = w.water_day(DOME, 0.01, 24, rain_m=0.005)
    dried = w.water_day(DOME, 0.01, 24, pan_m=0.005)
    assert rained - bare == pytest.approx(0.005 * chamber_m2 / DOME.vessel.inside_m3)
    assert bare - dried == pytest.approx(0.005 * 0.36 / DOME.vessel.inside_m3)
    risen = w.water_day(DOME, 0.01, 24, pan_m=0.005, start_m=DOME.levels.zero_line_m + 0.05)
    assert risen < w.water_day(DOME, 0.01, 24, start_m=DOME.levels.zero_line_m + 0.05)


def test_half_the_time_is_twice_the_rate():
    assert w.water_day(DOME, 0.01, 12) == pytest.approx(2 * w.water_day(DOME, 0.01, 24))


@pytest.mark.parametrize(
    "said", [{"hours": 11.9}, {"hours": nan}, {"drop_m": -0.001}, {"drop_m": nan}, {"rain_m": -1}, {"pan_m": inf}, {"start_m": 9.0}]
)
def test_a_water_reading_that_cannot_be_is_refused(said):
    with pytest.raises(OutOfRange):
        w.water_day(DOME, **({"drop_m": 0.01, "hours": 24} | said))


@pytest.mark.parametrize(
    ("shares", "stands", "reason"),
    [
        ([], "not_enough", "no_day"),
        ([0.005], "not_enough", "second_day"),
        ([0.0201], "outside", "loses_water"),
        ([0.005, 0.005], "within", ""),
        ([0.005, 0.0051], "outside", "loses_more"),
        ([0.0, 0.0], "within", ""),
        ([0.02, 0.011], "not_enough", "repeat"),
        ([0.02, 0.01], "within", ""),
        ([0.02, 0.019, 0.018], "within", ""),
        ([0.03, 0.02], "not_enough", "repeat"),
        ([0.005, 0.03], "outside", "loses_water"),
        ([-0.001, -0.001], "within", ""),
    ],
)
def test_days_of_a_water_test(shares, stands, reason):
    found = w.water_test(shares)
    assert (found.stands, found.reason) == (stands, reason)


def test_a_share_that_is_no_number_is_refused():
    with pytest.raises(OutOfRange):
        w.water_test([nan])
    with pytest.raises(Missing):
        w.water_test([None])


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
    end = Air(dry_pa + vapour_pa - second_pa, second_c, second_pa)
    assert t.sealed_fall_pa(start, end) == pytest.approx(0, abs=1e-6)
    assert t.sealed_lost(start, end) == pytest.approx(0, abs=1e-9)


@given(st.floats(0.0, 0.08))
def test_gas_lost_through_a_seal_is_found_again(lost):
    start = Air(7600, 25, 100000)
    gas_m3 = under_pressure(DOME.vessel, DOME.levels, 7600).gas_m3
    moles = start.dry_pa * gas_m3 * (1 - lost)

    def too_much(pressure_pa):
        return Air(pressure_pa, 25, 100000).dry_pa * under_pressure(DOME.vessel, DOME.levels, pressure_pa).gas_m3 - moles

    end_pa = brentq(too_much, 10, 7700, xtol=1e-7)
    assert t.seal_lost(DOME, start, Air(end_pa, 25, 100000)) == pytest.approx(lost, abs=1e-7)


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
        (air(7800), air(7487), 24, "outside", "loses_gas"),
        (air(7800), air(7487), 48, "within", ""),
        (air(7800), air(5800), 1, "outside", "falls"),
        (Air(7800), Air(5800), 24, "outside", "falls"),
        (Air(7800), Air(5801), 24, "not_enough", "no_weather"),
        (air(7800), Air(7800, 25), 24, "not_enough", "no_weather"),
        (Air(7800, None, 100000), air(7800), 24, "not_enough", "no_weather"),
        (air(7400), air(7400), 24, "not_enough", "low_pressure"),
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


# ---- pipe


@pytest.mark.parametrize(
    ("said", "stands", "reason"),
    [
        ((10000, 9900, 15, 25, 25), "within", ""),
        ((10000, 9899, 15, 25, 25), "outside", "falls"),
        ((10000, 10000, 14.9, 25, 25), "not_enough", "too_short"),
        ((9999, 9999, 15, 25, 25), "not_enough", "low_pressure"),
        ((10000, 10000, 15), "not_enough", "no_temperature"),
        ((10000, 10000, 15, 25), "not_enough", "no_temperature"),
        ((10000, 9800, 5), "outside", "falls"),
        ((10000, 9640, 15, 25, 24), "within", ""),
        ((10000, 10000, 15, 25, 26), "outside", "falls"),
        ((11000, 11000, 15, 25, 25, 8000), "not_enough", "low_pressure"),
        ((12000, 12000, 15, 25, 25, 8000), "within", ""),
    ],
)
def test_a_pipe(said, stands, reason):
    found = t.pipe_test(*said)
    assert (found.stands, found.reason) == (stands, reason)


@pytest.mark.parametrize("said", [(-1, 0, 15), (10000, -1, 15), (10000, 9990, -1), (nan, 9990, 15)])
def test_a_pipe_reading_that_cannot_be_is_refused(said):
    with pytest.raises(OutOfRange):
        t.pipe_test(*said)
