"""The water test: rain and pan, and what its days show."""

from math import inf, nan

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from calc import watertight as w
from calc.designs import for_gas, for_volume
from calc.errors import Missing, OutOfRange
from calc.vessel import shape, volume_below

PLANT = for_volume(8.0, 24, form=shape("cylinder_cap", "flat"))
DOME = for_gas(2.0)


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
        ([0.005, 0.0049], "within", ""),
        ([0.005, 0.005], "not_enough", "not_falling"),
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


@pytest.mark.parametrize(
    ("shares", "stands", "reason"),
    [
        ([0.0189], "not_enough", "second_day"),
        ([0.0191], "not_enough", "on_limit"),
        ([0.0209], "not_enough", "on_limit"),
        ([0.0211], "outside", "loses_water"),
        ([0.005, 0.0059], "not_enough", "not_falling"),
        ([0.005, 0.0061], "outside", "loses_more"),
        ([0.0009, 0.0009], "within", ""),
        ([0.0011, 0.0011], "not_enough", "not_falling"),
        ([0.0, 0.0011], "outside", "loses_more"),
    ],
)
def test_what_two_marks_on_a_wall_cannot_tell(shares, stands, reason):
    found = w.water_test(shares, about=0.001)
    assert (found.stands, found.reason) == (stands, reason)


@pytest.mark.parametrize(("share", "reason"), [(0.0101, "stops"), (0.01, "second_day"), (0.03, "stops")])
def test_a_level_that_stops_has_its_leak_at_the_line(share, reason):
    assert w.water_test([share], stopped=True).reason == reason


def test_a_share_that_is_no_number_is_refused():
    with pytest.raises(OutOfRange):
        w.water_test([0.01], about=nan)
    with pytest.raises(OutOfRange):
        w.water_test([nan])
    with pytest.raises(Missing):
        w.water_test([None])
