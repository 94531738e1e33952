"""Bulking of sand: jar tests and figures on engineering pages and in examination papers; CPWD Specifications,
appendix D to 3.1.3.5 for the test; a worked example of batching by volume."""

import pytest

from calc import mix
from calc.measuring import wettest_moisture
from calc.sources import BULKING_AT


@pytest.mark.parametrize(
    ("damp", "flooded", "percent"),
    [(15, 12, 25), (200, 160, 25), (320, 280, 14.29), (540, 430, 25.58), (100, 94, 6.38)],
)
def test_jar(damp, flooded, percent):
    assert 100 * mix.bulking_from_jar(damp, flooded) == pytest.approx(percent, abs=0.005)


@pytest.mark.parametrize(("moisture", "bulking"), [(0.02, 0.15), (0.04, 0.25), (0.05, 0.30)])
def test_bulking_at_a_moisture(moisture, bulking):
    assert dict(BULKING_AT)[moisture] == pytest.approx(bulking, abs=0.005)


def test_flooded_sand_takes_the_volume_of_dry_sand():
    assert dict(BULKING_AT)[0.20] == dict(BULKING_AT)[0] == 0
    assert wettest_moisture(0) == 0.20


def test_batching_one_bag_of_1_2_4_by_volume():
    # bag 35 l, sand 70 l and stone 140 l; w/c 0.6; 6 % and 1.5 % of water by volume; bulking 20 %
    assert mix.damp_volume(70, 0.20) == pytest.approx(84)
    water_l = 0.6 * 50 - mix.free_water_kg(70, 0.06) - mix.free_water_kg(140, 0.015)
    assert water_l == pytest.approx(23.7, abs=0.005)


def test_slip_sand_that_is_not_corrected_makes_a_richer_mix_and_not_a_leaner_one():
    # an examination answer says "lean and weak"; less sand in the measure is more cement in the concrete
    uncorrected = mix.weighed(50, 2 * 34.72 / 1.25 * 1.6, 4 * 34.72 * 1.5, 27.5)
    corrected = mix.weighed(50, 2 * 34.72 * 1.6, 4 * 34.72 * 1.5, 27.5)
    assert uncorrected.cement_kg_m3 > corrected.cement_kg_m3
    assert 1 - uncorrected.yield_m3 / corrected.yield_m3 == pytest.approx(0.05, abs=0.005)
