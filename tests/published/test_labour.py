"""Work by hand: an Indian sheet of labour constants, a handbook's output, and planning rate lists (UK)."""

import pytest

from calc import earth


def test_labour_constant_half_a_day_for_a_cubic_metre_to_1_5_m():
    assert earth.person_days(1, "ordinary", 1.5) == pytest.approx(0.50)


def test_labour_constant_hard_soil_is_not_undercut():
    assert earth.person_days(1, "hard", 1.5) >= 0.62


def test_labour_constant_filling_and_ramming():
    assert earth.fill_person_days(1) == 0.25


def test_handbook_two_cubic_metres_a_day_in_ordinary_soil():
    assert 6 / earth.person_days(6, "ordinary") == 2.0


@pytest.mark.parametrize(("shallow", "deep"), [(0.43, 0.29), (0.35, 0.24)], ids=["firm sand", "heavy clay"])
def test_planning_rates_below_1_5_m(shallow, deep):
    # 3 m deep: half of the volume lies below 1.5 m
    slower = 2 * earth.person_days(6, "ordinary", 3.0) / earth.person_days(6, "ordinary") - 1
    assert 1 / slower == pytest.approx(deep / shallow, abs=0.02)


def test_planning_rates_output_of_this_house_is_lower():
    assert 1 / earth.person_days(1, "soft") < 8 * 0.43
    assert 1 / earth.person_days(1, "hard") < 8 * 0.35


def test_difference_soft_soil_goes_faster_here_than_by_the_labour_constant():
    assert earth.person_days(1, "soft", 1.5) == pytest.approx(0.40) != pytest.approx(0.50)
