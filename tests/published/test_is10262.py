"""IS 10262 (2009, 2019) as quoted in mix-design notes: water for 50 mm slump, 3 % for each 25 mm, cement by w/c."""

import pytest

from calc import mix


@pytest.mark.parametrize(("stone_m", "water_kg"), [(0.010, 208), (0.020, 186), (0.040, 165)])
def test_table_4_water_for_50_mm_slump(stone_m, water_kg):
    assert mix.water_needed(stone_m) == water_kg


def test_water_for_75_mm_slump():
    assert mix.water_needed(0.020, 0.075) == pytest.approx(191.58, abs=0.005)


@pytest.mark.parametrize(("water_cement", "cement_kg"), [(0.50, 372), (0.55, 338)])
def test_cement_for_186_kg_of_water(water_cement, cement_kg):
    assert mix.cement_needed(186, water_cement) == pytest.approx(cement_kg, abs=0.5)
