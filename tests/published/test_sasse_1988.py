"""Sasse, Biogas Plants, GATE/GTZ 1988, chapter 4 (scaling): its examples of digester volume, retention and yield."""

import pytest

from calc import digestion, sizing
from calc.designs import drawing
from calc.vessel import level_of, shape, vessel_of


def test_4_2_thirty_litres_of_dung_and_thirty_of_water():
    feed = sizing.feed_from_dung(30)
    assert feed.slurry_m3_per_day == pytest.approx(0.060)
    assert sizing.volumes(feed.slurry_m3_per_day, 80, 1.0).digester_m3 == pytest.approx(4.8)


def test_4_2_the_retention_in_4800_litres_is_80_days():
    vessel = vessel_of(6.0, shape())
    plant = drawing(vessel, level_of(vessel, 4.8), (0.9, 0.8, 0.5), form="cap_on_bowl", feed=sizing.feed_from_dung(30))
    assert plant.retention_times_d[0] == pytest.approx(80)


@pytest.mark.parametrize(("days", "digester_m3"), [(30, 1.8), (45, 2.7), (60, 3.6), (90, 5.4)])
def test_4_5_digesters_for_sixty_litres_a_day(days, digester_m3):
    assert sizing.volumes(0.060, days, 1.0).digester_m3 == pytest.approx(digester_m3)


@pytest.mark.parametrize(("temp_c", "days", "litres"), [(20, 30, 15), (33, 100, 54)])
def test_4_3_a_kilogram_of_cattle_dung_cold_and_short_or_warm_and_long(temp_c, days, litres):
    assert digestion.yield_l_kg(temp_c, days) == litres
