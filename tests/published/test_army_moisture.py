"""US Army course EN5466, concrete: correcting a mix for the water in its aggregates."""

import pytest

from calc import mix

GALLON_LB = 8.33


def test_free_water_in_a_cubic_yard():
    free = mix.free_water_kg(1768, 0.02) + mix.free_water_kg(1083, 0.06)
    assert mix.free_water_kg(1768, 0.02) == pytest.approx(35.36, abs=0.005)
    assert mix.free_water_kg(1083, 0.06) == pytest.approx(64.98, abs=0.005)
    assert free == pytest.approx(100.34, abs=0.005)


def test_water_left_to_add():
    free = mix.free_water_kg(1768, 0.02) + mix.free_water_kg(1083, 0.06)
    assert 38.6 - free / GALLON_LB == pytest.approx(26.6, abs=0.06)
