"""Norway, Regulations concerning the performance of work, 21-5; Quebec, Safety Code for construction, 3.15.4."""

from calc.facts import Facts
from calc.hazards import judge


def levels(**facts):
    return {hazard.rule: hazard.level for hazard in judge(Facts(**facts))}


def test_norway_21_5_heap_1_0_m_from_the_edge():
    assert levels(depth_m=1.0, spoil_edge_m=0.99)["E10"] == "warn"
    assert levels(depth_m=1.0, spoil_edge_m=1.0)["E10"] == "note"


def test_norway_21_4_upright_side_deeper_than_2_0_m_is_held():
    assert levels(depth_m=2.0, soil="A")["E3"] == "stop"


def test_quebec_3_15_4_ladder_1_m_above_ground():
    assert "E2" in levels(ladder=True, ladder_above_edge_m=0.99)
    assert "E2" not in levels(ladder=True, ladder_above_edge_m=1.0)


def test_quebec_3_15_4_somebody_stays_at_the_edge():
    assert levels(depth_m=2.0, people_in_pit=1, watcher=False)["E17"] == "warn"
