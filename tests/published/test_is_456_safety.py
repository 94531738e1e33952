"""IS 456:2000: 11.3.1, props to arches up to 6 m 14 days at 15 C or more; 13.5.1, days of moist curing."""

import pytest

from calc.facts import Facts
from calc.hazards import judge


def levels(**facts):
    return {hazard.rule: hazard.level for hazard in judge(Facts(**facts))}


def test_11_3_1_arch_form_stays_14_days():
    warm = {"strip_asked": True, "least_temp_c": 15, "cured_d": 14}
    assert levels(cast_h=14 * 24 - 1, **warm)["D1"] == "stop"
    assert "D1" not in levels(cast_h=14 * 24, **warm)


def test_11_3_1_table_holds_from_15_c():
    assert "D2" in levels(strip_asked=True, cast_h=400, least_temp_c=14)
    assert "D2" not in levels(strip_asked=True, cast_h=400, least_temp_c=15)


@pytest.mark.parametrize(
    ("cement", "hot_dry", "days"),
    [("opc", False, 7), ("blended", False, 10), ("opc", True, 10), ("blended", True, 14)],
)
def test_13_5_1_days_of_moist_curing(cement, hot_dry, days):
    assert "D3" in levels(cement=cement, hot_dry=hot_dry, cured_d=days - 1)
    assert "D3" not in levels(cement=cement, hot_dry=hot_dry, cured_d=days)
