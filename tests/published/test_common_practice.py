"""What masons who build these plants do: common practice, no source. The figures here must agree with it."""

import pytest

from calc import curing, earth, geometry, mix
from calc.units import si

RADIUS_M, DEPTH_M, DISH_M = si(8, "ft") / 2, si(4, "ft"), si(2, "ft")
WEIGHED = {"cement_kg": 60, "sand_kg": 200, "stone_kg": 150, "water_l": 20, "additive_ml": 250}


def pits_m3():
    outlet_m3 = earth.rectangle_pit_volume(si(2, "ft") + si(5, "in"), si(1, "ft"), si(4, "ft"))
    return earth.pit_volume(RADIUS_M, DEPTH_M, DISH_M) + outlet_m3


def test_a_base_over_a_pit_eight_feet_across_and_dished_two_feet():
    area_m2 = geometry.cap_area(RADIUS_M, DISH_M)
    assert area_m2 == pytest.approx(5.8, abs=0.05)
    assert area_m2 * si(3, "in") == pytest.approx(0.45, abs=0.01)


def test_the_two_pits_are_seven_and_a_half_cubic_metres():
    assert pits_m3() == pytest.approx(7.5, abs=0.05)


@pytest.mark.parametrize(("people", "days"), [(2, 2), (3, 1)])
def test_labourers_dig_them_at_one_and_a_half_to_two_and_a_half_cubic_metres_a_day(people, days):
    output = pits_m3() / (people * days)
    assert output == pytest.approx({4: 1.9, 3: 2.5}[people * days], abs=0.05)
    assert 1.5 <= output <= 2.51  # the handbook's range for ordinary soil


def test_the_work_reckoned_for_them_lies_between_the_two_crews():
    deepest_m = DEPTH_M + DISH_M
    assert 3 <= earth.person_days(pits_m3(), "ordinary") <= 4
    assert 3 <= earth.person_days(pits_m3(), "ordinary", deepest_m) <= 4.1


def test_one_weighed_mix_yields_less_than_a_fifth_of_a_cubic_metre():
    made = mix.weighed(**WEIGHED)
    assert 0.15 < made.yield_m3 < 0.2
    assert 2150 <= made.density_kg_m3 <= 2600


@pytest.mark.parametrize("waste", [0, 0.05, 0.10])
def test_that_base_takes_three_of_them(waste):
    base_m3 = geometry.cap_area(RADIUS_M, DISH_M) * si(3, "in")
    assert mix.batches_needed(base_m3, mix.weighed(**WEIGHED), waste) == 3


def test_its_waterproofer_is_within_the_range():
    assert mix.additive_in_range(WEIGHED["additive_ml"], WEIGHED["cement_kg"])
    assert mix.weighed(**WEIGHED).additive_ml_per_bag == pytest.approx(208, abs=0.5)


def test_it_is_rich_enough_and_dry_enough_for_tight_concrete():
    made = mix.weighed(**WEIGHED)
    assert made.water_cement <= mix.RECIPES["concrete"].water_cement
    assert made.cement_kg_m3 >= 320


def test_twelve_hours_are_shorter_than_our_wait_before_walking_on_the_base():
    assert curing.wait_d("walk on base", "opc") == 1.0 > 12 / 24
