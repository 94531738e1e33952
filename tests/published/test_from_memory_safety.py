"""Danger limits from memory, to be confirmed in print before release; each names the book it is to be read in."""

import pytest

from calc.facts import Facts
from calc.hazards import judge
from calc.sources import LIFT_ONE_KG, SLAB_KG_M3


def levels(**facts):
    return {hazard.rule: hazard.level for hazard in judge(Facts(**facts))}


def test_is_3764_sides_held_from_1_5_m():
    assert levels(depth_m=1.5, soil="A")["E3"] == "stop"


def test_cpwd_safety_code_ladder_from_1_2_m_and_heap_1_5_m_or_half_the_depth():
    assert levels(depth_m=1.2, soil="A", people_in_pit=1)["E1"] == "stop"
    assert levels(depth_m=1.2, spoil_edge_m=1.49)["E10"] == "note"
    assert "E10" not in levels(depth_m=1.2, spoil_edge_m=1.5)
    assert levels(depth_m=3.4, spoil_edge_m=1.69)["E10"] == "note"


@pytest.mark.parametrize(("lifters", "guide_kg"), [(1, 25), (2, 33), (3, 37)])
def test_hse_l23_team_lifting_two_thirds_and_one_half_of_the_sum(lifters, guide_kg):
    assert LIFT_ONE_KG == 25
    assert "C4" not in levels(load_kg=guide_kg, lifters=lifters)
    assert "C4" in levels(load_kg=guide_kg + 1, lifters=lifters)


def test_is_875_1_reinforced_concrete_25_kn_m3():
    assert pytest.approx(25_000, rel=0.02) == SLAB_KG_M3 * 10


def test_is_7861_no_casting_under_5_c_or_from_40_c():
    assert levels(casting=True, least_temp_c=4, air_c=10)["D2"] == "stop"
    assert "D3" in levels(casting=True, least_temp_c=25, air_c=40)


def test_ilo_construction_code_1992_rail_from_2_m():
    assert levels(platform_h_m=2.0)["W1"] == "stop"


def test_ilo_c182_r190_dangerous_work_from_18_years():
    assert levels(worker_age_y=17, tasks=frozenset({"height"}))["E19"] == "stop"
    assert "E19" not in levels(worker_age_y=18, tasks=frozenset({"height"}))


def test_29_cfr_1926_651_g_1_bad_air_near_an_old_pit():
    assert levels(smell_in_pit=True)["P2"] == "stop"
