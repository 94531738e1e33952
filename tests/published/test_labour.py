"""Work by hand: an Indian sheet of labour constants, a handbook's output, and planning rate lists (UK)."""

from math import pi

import pytest

from calc import earth
from calc.designs import for_gas, for_volume
from calc.labour import labour
from calc.takeoff import takeoff, tight_area_m2
from calc.vessel import shape


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


WALLED = for_volume(8.0, 24, form=shape("cylinder_cap", "flat"))
BRICK_IN_PLACE_M3 = 0.24 * 0.12 * 0.08  # the common brick of 230 x 110 x 70 mm with its joints


@pytest.mark.parametrize("stage", ["wall", "dome", "outlet", "inlet"])
def test_labour_constant_brickwork_0_94_of_a_mason_1_80_and_0_20_of_labour(stage):
    laid_m3 = takeoff(WALLED)[stage]["bricks"] * BRICK_IN_PLACE_M3
    assert labour(WALLED)[stage] == pytest.approx((0.94 * laid_m3, (1.80 + 0.20) * laid_m3))


def test_labour_constant_reinforced_concrete_0_17_of_a_mason_2_00_and_0_90_of_labour():
    slabs_m3 = WALLED.chamber_length_m * WALLED.chamber_width_m * 0.075
    assert labour(WALLED)["covers"] == pytest.approx((0.17 * slabs_m3, (2.00 + 0.90) * slabs_m3))


def test_labour_constant_concrete_0_10_of_a_mason_1_63_and_0_70_of_labour():
    assert labour(WALLED)["base"] == pytest.approx((0.10 * WALLED.base_volume_m3, (1.63 + 0.70) * WALLED.base_volume_m3))


def test_moulds_ferrocement_and_plaster_by_the_day_are_times_of_this_house():
    # no source: 20 m2 of mould a mason's day, 4 a labourer's; 2.5 m2 of ferrocement; 10 m2 of each of three coats
    concrete, light = (for_gas(2.0, dome=dome) for dome in ("concrete", "ferrocement"))
    dome_m2 = 2 * pi * concrete.vessel.radius_m**2
    shell_m3 = 2 / 3 * pi * ((concrete.vessel.radius_m + 0.075) ** 3 - concrete.vessel.radius_m**3)
    assert labour(concrete)["dome"] == pytest.approx((dome_m2 / 20 + 0.10 * shell_m3, dome_m2 / 4 + 2.33 * shell_m3), rel=1e-3)
    assert labour(light)["dome"] == pytest.approx((dome_m2 / 20 + dome_m2 / 2.5, dome_m2 / 4 + dome_m2 / 2.5))
    coats_m2 = 3 * tight_area_m2(WALLED)
    assert labour(WALLED)["plaster"] == pytest.approx((coats_m2 / 10, coats_m2 / 10))
