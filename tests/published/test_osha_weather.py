"""OSHA, Using the heat index (91, 103, 115 F); OSHA/NOAA FS-3863, lightning (30 minutes after the last thunder)."""

import pytest

from calc.facts import Facts
from calc.hazards import judge
from calc.sources import HEAT_INDEX_C


def levels(**facts):
    return {hazard.rule: hazard.level for hazard in judge(Facts(**facts))}


@pytest.mark.parametrize(("grade", "fahrenheit"), [(0, 91), (1, 103), (2, 115)])
def test_heat_index_steps_in_whole_degrees(grade, fahrenheit):
    assert HEAT_INDEX_C[grade] == round((fahrenheit - 32) * 5 / 9)


@pytest.mark.parametrize(("celsius", "level"), [(33, "note"), (39.5, "warn"), (46.2, "stop")])
def test_heat_index_levels(celsius, level):
    assert levels(heat_index_c=celsius)["V2"] == level


def test_lightning_wait_30_minutes():
    assert levels(thunder_min=29)["V4"] == "stop"
    assert "V4" not in levels(thunder_min=30)
