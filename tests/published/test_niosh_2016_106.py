"""NIOSH 2016-106, heat: section 8.1 (limits from the metabolic rate in W) and table 5-1."""

from math import log10

import pytest

from calc.facts import Facts
from calc.hazards import judge
from calc.sources import WBGT_C

WATTS = {"light": 180, "moderate": 300, "heavy": 415, "very_heavy": 520}


@pytest.mark.parametrize(("work", "limit_c"), [("light", 30), ("moderate", 28), ("heavy", 26), ("very_heavy", 25)])
def test_table_5_1_limit_for_workers_used_to_heat(work, limit_c):
    at_limit = {h.rule: h.values for h in judge(Facts(wbgt_c=limit_c, work=work, acclimatised_d=7))}
    assert at_limit["V1"]["wbgt_limit_c"] == limit_c
    assert "V1" not in {h.rule for h in judge(Facts(wbgt_c=limit_c - 0.1, work=work, acclimatised_d=7))}


@pytest.mark.parametrize(("work", "limit_c"), [("light", 28), ("moderate", 25), ("heavy", 23)])
def test_limit_for_workers_new_to_heat(work, limit_c):
    assert WBGT_C[work][1] == limit_c


@pytest.mark.parametrize(("work", "watts"), WATTS.items())
def test_8_1_formulas_stand_less_than_a_degree_over_the_table(work, watts):
    used, new = WBGT_C[work]
    assert -0.05 <= 56.7 - 11.5 * log10(watts) - used < 1
    assert -0.05 <= 59.9 - 14.1 * log10(watts) - new < 1
