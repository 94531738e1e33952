"""Worked mixes by absolute volume in courses and lectures: what they weigh out must fill what they set out to fill.

US Navy training course 14070/14071, pp. 17-6 and 17-7; two university lectures after ACI 211.1; a page on a mix
of 400 kg; mixes from M10 to M30 in a list of site data. Pounds, cubic feet and 62.4 lb in a cubic foot of water.
"""

import pytest

from calc import mix
from calc.errors import OutOfRange

WATER = 62.4


def cubic_feet(cement, sand, stone, water, air, sand_specific, stone_specific):
    return mix.yield_m3(cement, sand, stone, water, air, 3.15 * WATER, sand_specific * WATER, stone_specific * WATER, WATER)


@pytest.mark.parametrize(
    ("masses", "volume_ft3"),
    [((610, 0, 0, 0), 3.10), ((0, 0, 0, 305), 4.89), ((0, 0, 1735, 0), 10.69), ((0, 1152, 0, 0), 6.97)],
    ids=["cement", "water", "coarse aggregate", "fine aggregate"],
)
def test_navy_step_6_absolute_volumes(masses, volume_ft3):
    cement, sand, stone, water = masses
    assert cubic_feet(cement, sand, stone, water, 0, 2.65, 2.60) == pytest.approx(volume_ft3, abs=0.005)


def test_navy_step_7_the_mix_fills_a_cubic_yard():
    assert cubic_feet(610, 1152, 1735, 305, 0.05, 2.65, 2.60) == pytest.approx(27, abs=0.03)


def test_navy_step_4_cement_from_water():
    assert mix.cement_needed(305, 0.50) == 610


@pytest.mark.parametrize("air", [-0.001, 0.101])
def test_a_mix_with_more_than_a_tenth_of_air_is_none_of_these(air):
    assert cubic_feet(610, 1152, 1735, 305, 0.10, 2.65, 2.60) > cubic_feet(610, 1152, 1735, 305, 0.05, 2.65, 2.60)
    with pytest.raises(OutOfRange, match="air"):
        cubic_feet(610, 1152, 1735, 305, air, 2.65, 2.60)


def test_lecture_sample_problem_fills_a_cubic_yard():
    assert cubic_feet(700, 1195.55, 1701, 280, 0.06, 2.65, 2.70) == pytest.approx(27, abs=0.03)
    assert mix.cement_needed(280, 0.40) == pytest.approx(700)


def test_lecture_4000_psi_fills_a_cubic_yard():
    assert cubic_feet(675.4, 1516, 1251, 385, 0.03, 2.67, 2.68) == pytest.approx(27, abs=0.03)
    assert mix.cement_needed(385, 0.57) == pytest.approx(675.4, abs=0.05)


def test_quarter_quarter_half_cubic_metre_of_loose_materials_makes_0_712_m3():
    # 375 kg cement, 425 sand, 825 stone of 2.6, w/c 0.45 by volume, no air
    found = mix.yield_m3(375, 425, 825, 112.5, air=0, sand_solid=2600, stone_solid=2600)
    assert found == pytest.approx(0.712, abs=0.0005)


def test_m25_page_with_400_kg_fills_a_cubic_metre():
    # sand of 2.62, stone of 2.83, 2 % air; the page rounds 1/(0.65 x 2.83) to 0.54 and is 0.3 % over
    found = mix.yield_m3(400, 617.44, 1246.33, 180, sand_solid=2620, stone_solid=2830)
    assert found == pytest.approx(1, abs=0.005)


@pytest.mark.parametrize(
    ("grade", "cement", "sand", "stone", "water", "density"),
    [
        ("M10", 210, 823, 1180, 185, 2398),
        ("M20", 320, 794, 1138, 176, 2430),
        ("M25", 340, 775, 1112, 185, 2414),
        ("M30", 380, 760, 1090, 187, 2420),
    ],
)
def test_site_mixes_fill_a_cubic_metre_and_weigh_what_is_printed(grade, cement, sand, stone, water, density):
    made = mix.weighed(cement, sand, stone, water)
    assert made.yield_m3 == pytest.approx(1, abs=0.025)
    assert made.density_kg_m3 * made.yield_m3 == pytest.approx(density, abs=5)
