"""29 CFR 1926 subpart P: depths, distances and slopes as printed, in feet with the printed metres.

Where the house is stricter than the print, the print's own value must already be called out.
"""

from math import atan, degrees

import pytest

from calc.facts import Facts
from calc.hazards import judge
from calc.sources import SLOPE_RUN
from calc.units import si

PIT = {"stage": "pit", "people_in_pit": 1, "watcher": True, "check_h": 1, "spoil_edge_m": 5.0, "services_checked": True}


def levels(**facts):
    return {hazard.rule: hazard.level for hazard in judge(Facts(**{**PIT, **facts}))}


def test_651_c_2_way_out_from_4_ft_within_25_ft():
    assert levels(depth_m=si(4, "ft"), soil="A")["E1"] == "stop"
    assert levels(depth_m=1.22, soil="A")["E1"] == "stop"
    assert "E2" in levels(depth_m=1.22, ladder=True, ladder_above_edge_m=1.0, ladder_travel_m=si(25, "ft") + 0.01)
    assert "E2" not in levels(depth_m=1.22, ladder=True, ladder_above_edge_m=1.0, ladder_travel_m=7.6)


def test_652_a_1_protection_from_5_ft_but_not_in_stable_rock():
    assert levels(depth_m=si(5, "ft"), soil="A")["E3"] == "stop"
    assert levels(depth_m=1.52, soil="A")["E3"] == "stop"
    assert "E3" not in levels(depth_m=1.52, soil="rock")


@pytest.mark.parametrize(("soil", "across", "down", "angle"), [("A", 3, 4, 53), ("B", 1, 1, 45), ("C", 1.5, 1, 34)])
def test_appendix_b_table_b_1_slopes(soil, across, down, angle):
    assert SLOPE_RUN[soil] == pytest.approx(across / down, abs=1e-9)
    assert round(degrees(atan(1 / SLOPE_RUN[soil]))) == angle
    depth_m = 2.0
    run_m = depth_m * across / down
    assert "E4" not in levels(depth_m=depth_m, soil=soil, slope_run_m=run_m)
    assert levels(depth_m=depth_m, soil=soil, slope_run_m=run_m - 0.01)["E4"] == "stop"


def test_appendix_b_table_b_1_stable_rock_stands_vertical():
    assert SLOPE_RUN["rock"] == 0
    assert "E4" not in levels(depth_m=2.0, soil="rock", slope_run_m=0)


@pytest.mark.parametrize(
    ("soil", "sign", "counts_as"),
    [("A", "fissured", "B"), ("A", "vibration", "B"), ("A", "disturbed", "B"), ("A", "seepage", "C"),
     ("B", "seepage", "C"), ("B", "submerged", "C"), ("A", "layers_dip_in", "C"), ("B", "layers_dip_in", "C")],
)  # fmt: skip
def test_appendix_a_b_no_soil_keeps_its_type_with_these_signs(soil, sign, counts_as):
    (found,) = (h for h in judge(Facts(**{**PIT, "depth_m": 1.0, "soil": soil, sign: True})) if h.rule == "E6")
    assert found.values["soil_class"] == counts_as


def test_651_j_2_heap_nearer_than_2_ft_is_called_out():
    assert levels(depth_m=1.0, soil="A", spoil_edge_m=si(2, "ft") - 0.02)["E10"] == "stop"
    # 2 ft are 0.61 m; we stop at 0.60 m, and of the last centimetre we warn
    assert levels(depth_m=1.0, soil="A", spoil_edge_m=0.599)["E10"] == "stop"
    assert levels(depth_m=1.0, soil="A", spoil_edge_m=0.61 - 0.001)["E10"] == "warn"


@pytest.mark.parametrize("event", ["rain_since_check", "new_shift"])
def test_651_k_1_look_again_before_each_shift_and_after_rain(event):
    assert levels(depth_m=1.0, soil="A", **{event: True})["E9"] == "stop"


def test_1053_b_1_ladder_3_ft_above_the_edge():
    assert "E2" in levels(depth_m=1.3, ladder=True, ladder_above_edge_m=si(3, "ft") - 0.01)


def test_1053_b_5_i_ladder_foot_a_quarter_of_its_height_out():
    ladder = {"depth_m": 1.3, "ladder": True, "ladder_above_edge_m": 1.0}
    assert "E2" not in levels(**ladder, ladder_height_m=4.0, ladder_foot_out_m=1.0)
    assert "E2" in levels(**ladder, ladder_height_m=4.0, ladder_foot_out_m=0.5)
    assert "E2" in levels(**ladder, ladder_height_m=4.0, ladder_foot_out_m=2.0)


def test_appendix_f_deeper_than_20_ft_is_an_engineers():
    assert levels(depth_m=si(20, "ft"))["E15"] == "stop"
