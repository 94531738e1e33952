"""Pits, soil and the work of digging, each against arithmetic a reader can repeat."""

from math import nan, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import earth
from calc import sources as s
from calc.earth import Pit
from calc.errors import Missing, OutOfRange, Unknown

RADIUS = st.floats(0.5, 3)
DEPTH = st.floats(0.3, 3)
DISH = st.just(0.0) | st.floats(0.02, 0.5)  # flat, or a dish one can measure
SLOPE = st.just(0.0) | st.floats(0.05, 1.5)
PIT = st.builds(Pit, RADIUS, DEPTH, DISH, SLOPE)


@given(RADIUS, DEPTH, DISH, SLOPE)
def test_a_pit_grows_with_every_measure(radius_m, depth_m, dish_m, slope):
    found = earth.pit_volume(radius_m, depth_m, dish_m, slope)
    assert found < earth.pit_volume(radius_m + 0.1, depth_m, dish_m, slope)
    assert found < earth.pit_volume(radius_m, depth_m + 0.1, dish_m, slope)
    assert found < earth.pit_volume(radius_m, depth_m, dish_m + 0.1, slope)
    assert found < earth.pit_volume(radius_m, depth_m, dish_m, slope + 0.1)


@given(st.floats(0.5, 4), st.floats(0.5, 4), DEPTH, st.floats(0, 1.5))
def test_a_rectangular_pit_by_the_prismoidal_rule(length_m, width_m, depth_m, slope):
    def area(height_m):
        return (length_m + 2 * slope * height_m) * (width_m + 2 * slope * height_m)

    prismoid = depth_m / 6 * (area(0) + 4 * area(depth_m / 2) + area(depth_m))
    assert earth.rectangle_pit_volume(length_m, width_m, depth_m, slope) == pytest.approx(prismoid)


@given(RADIUS, DEPTH, st.floats(0, 1.5))
def test_a_round_pit_by_the_prismoidal_rule(radius_m, depth_m, slope):
    def area(height_m):
        return pi * (radius_m + slope * height_m) ** 2

    prismoid = depth_m / 6 * (area(0) + 4 * area(depth_m / 2) + area(depth_m))
    assert earth.pit_volume(radius_m, depth_m, 0, slope) == pytest.approx(prismoid)


@given(PIT)
def test_the_depths_of_a_pit_add_up_to_its_volume(pit):
    rings = 500
    ring_m = pit.top_radius_m / rings
    total = sum(2 * pi * (k + 0.5) * ring_m**2 * pit.depth_at((k + 0.5) * ring_m) for k in range(rings))
    assert total == pytest.approx(pit.volume_m3, rel=5e-3)


def test_pits_worked_by_hand():
    assert earth.pit_volume(1.70, 1.75) == pytest.approx(15.889, abs=0.001)  # pi x 2.89 x 1.75
    assert earth.pit_volume(1.70, 2.0, slope=0.5) == pytest.approx(30.934, abs=0.001)  # pi x 2/3 x (2.89+4.59+7.29)
    assert Pit(1.70, 2.0, slope=0.5).top_radius_m == 2.70


@pytest.mark.parametrize("bad", [(0, 1), (1, 0), (nan, 1), (1, 1, -0.1), (1, 1, 0, -0.5)])
def test_a_pit_without_a_measure_has_no_volume(bad):
    with pytest.raises(OutOfRange):
        earth.pit_volume(*bad)


@pytest.mark.parametrize("bad", [(0, 1, 1), (1, -1, 1), (1, 1, nan), (1, 1, 1, -1)])
def test_a_rectangle_without_a_measure_has_no_volume(bad):
    with pytest.raises(OutOfRange):
        earth.rectangle_pit_volume(*bad)


# ---- plan and pit


@given(PIT, PIT)
def test_what_is_left_and_what_is_too_much_make_the_difference(plan, measured):
    left = earth.left_to_dig(plan, measured)
    beyond = earth.left_to_dig(measured, plan)
    assert beyond - left == pytest.approx(earth.overdig(plan, measured), abs=0.01 * (plan.volume_m3 + measured.volume_m3))
    assert left >= 0


@given(PIT)
def test_a_finished_pit_has_nothing_left_and_nothing_too_much(pit):
    assert earth.left_to_dig(pit, pit) == 0
    assert earth.overdig(pit, pit) == 0


@given(RADIUS, st.floats(0.5, 3), DISH, st.floats(0.01, 0.4))
def test_the_last_layer_is_its_depth_over_the_floor(radius_m, depth_m, dish_m, missing_m):
    plan, shallow = Pit(radius_m, depth_m, dish_m), Pit(radius_m, depth_m - missing_m, dish_m)
    assert earth.left_to_dig(plan, shallow) == pytest.approx(pi * radius_m**2 * missing_m, rel=1e-6)


def test_soil_dug_outside_the_plan_does_not_count():
    plan, wide = Pit(1.0, 2.0), Pit(1.5, 1.0)
    assert earth.overdig(plan, wide) == pytest.approx(pi * (2.25 - 2.0))  # even a little more in all
    assert earth.left_to_dig(plan, wide) == pytest.approx(pi)  # and the lower metre still to go


def test_a_pit_dug_too_little_is_below_zero():
    assert earth.overdig(Pit(1.0, 2.0), Pit(1.0, 1.5)) == pytest.approx(-pi / 2)


# ---- soil and work


@given(st.floats(0.1, 50), st.sampled_from(["sand", "earth", "clay"]))
def test_soil_lies_looser_in_the_heap_and_tighter_in_the_fill(bank_m3, soil):
    assert earth.compacted(bank_m3, soil) < bank_m3 < earth.loose_volume(bank_m3, soil)
    assert earth.bank_needed(earth.compacted(bank_m3, soil), soil) == pytest.approx(bank_m3)


def test_rock_is_no_backfill():
    with pytest.raises(Unknown):
        earth.compacted(1.0, "rock")
    assert earth.loose_volume(1.0, "rock") == 1.65


def test_a_swell_measured_on_site_goes_before_the_table():
    assert earth.loose_volume(10, "earth", swell=0.5) == 15
    with pytest.raises(OutOfRange):
        earth.loose_volume(10, swell=nan)


def test_soil_that_is_not_named_is_missing():
    for work in (
        earth.loose_volume,
        lambda volume: earth.compacted(volume, None),
        lambda volume: earth.person_days(volume, None),
    ):
        with pytest.raises(Missing):
            work(10)
    with pytest.raises(Unknown):
        earth.person_days(10, "mud")


@given(st.floats(0.1, 40), st.sampled_from(list(s.DIG_M3_D)), st.floats(0.5, 4), st.floats(0.01, 1))
def test_deeper_or_wet_never_digs_faster(volume_m3, soil, depth_m, more_m):
    days = earth.person_days(volume_m3, soil, depth_m)
    assert days <= earth.person_days(volume_m3, soil, depth_m + more_m)
    assert earth.person_days(volume_m3, soil, depth_m, wet=True) == pytest.approx(2 * days)
    assert days >= earth.person_days(volume_m3, soil)


def test_harder_soil_takes_longer():
    days = [earth.person_days(6, soil) for soil in ("soft", "ordinary", "hard", "very_hard", "soft_rock")]
    assert days == sorted(days) == pytest.approx([2.4, 3, 4, 6, 12])


def test_the_round_pit_of_thirty_three_cubic_metres():
    bank_m3 = earth.pit_volume(1.5, 2.0, slope=0.75)
    assert earth.loose_volume(bank_m3, "earth") == pytest.approx(41.23, abs=0.01)
    assert earth.person_days(bank_m3, "ordinary") == pytest.approx(16.5, abs=0.01)


def test_backfill_round_a_cylinder():
    gap_m3 = earth.pit_volume(1.75, 2.0, slope=0.5) - earth.pit_volume(1.6, 2.0)
    assert gap_m3 == pytest.approx(16.25, abs=0.01)  # 2 pi/3 (1.75^2 + 1.75 x 2.75 + 2.75^2) - pi 1.6^2 2
    assert earth.bank_needed(gap_m3, "earth") == pytest.approx(18.05, abs=0.01)
    left_over = earth.pit_volume(1.75, 2.0, slope=0.5) - earth.bank_needed(gap_m3, "earth")
    assert earth.loose_volume(left_over, "earth") == pytest.approx(17.85, abs=0.02)


@given(st.floats(0, 6), st.sampled_from(["A", "B", "C"]))
def test_unknown_or_wet_soil_goes_back_as_far_as_the_weakest(depth_m, soil):
    assert earth.slope_run(soil, depth_m) <= earth.slope_run("unknown", depth_m)
    assert earth.slope_run(soil, depth_m, wet=True) == earth.slope_run("C", depth_m)


def test_slopes_are_not_continued_below_the_table():
    with pytest.raises(OutOfRange):
        earth.slope_run("A", 6.2)
    with pytest.raises(OutOfRange):
        earth.slope_run("A", nan)
    with pytest.raises(Unknown):
        earth.slope_run("loam", 2)
    with pytest.raises(Missing):
        earth.slope_run(None, 2)


@given(st.floats(0, 10))
def test_the_heap_lies_never_nearer_than_a_metre_and_a_half(depth_m):
    assert earth.spoil_distance(depth_m) >= 1.5
    assert earth.spoil_distance(depth_m) >= depth_m / 2


@pytest.mark.parametrize("depth_m", [None, nan, -1])
def test_a_heap_beside_a_pit_of_no_depth_has_no_place(depth_m):
    with pytest.raises(Missing if depth_m is None else OutOfRange):
        earth.spoil_distance(depth_m)
