"""Indian rate analyses of cement plaster, and a worked example of 12 mm in 1:6 without joints."""

import pytest

from calc import mix


@pytest.mark.parametrize(("thickness_m", "mortar_m3"), [(0.012, 1.44), (0.020, 2.24)])
def test_mortar_for_100_square_metres_of_brick(thickness_m, mortar_m3):
    assert mix.plaster_volume(100, thickness_m, "brick") == pytest.approx(mortar_m3, abs=0.005)


def test_cement_in_a_square_metre_of_12_mm_without_joints_by_the_rule_of_1_33():
    assert mix.mortar_materials(mix.plaster_volume(1, 0.012, "smooth"), 6, factor=1.33).cement_kg == pytest.approx(3.28, abs=0.005)


def test_three_square_metres_of_20_mm_without_joints():
    assert mix.plaster_volume(2 * 1.5, 0.020, "smooth") == pytest.approx(0.06)
