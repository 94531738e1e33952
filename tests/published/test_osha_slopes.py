"""29 CFR 1926 subpart P, appendix B, table B-1: greatest slopes for excavations to 20 feet."""

from math import atan2, degrees

import pytest

from calc import earth
from calc.errors import OutOfRange
from calc.units import si


@pytest.mark.parametrize(("soil", "run", "angle"), [("A", 0.75, 53), ("B", 1.0, 45), ("C", 1.5, 34)])
def test_table_b_1(soil, run, angle):
    assert earth.slope_run(soil, 2.0) / 2.0 == run
    assert degrees(atan2(2.0, earth.slope_run(soil, 2.0))) == pytest.approx(angle, abs=0.5)


def test_table_b_1_stable_rock_stands_upright():
    assert earth.slope_run("rock", 3.0) == 0


def test_652_b_1_a_soil_that_is_not_classed_goes_34_degrees():
    assert degrees(atan2(1.0, earth.slope_run("unknown", 1.0))) == pytest.approx(34, abs=0.5)


def test_table_b_1_ends_at_20_feet():
    assert earth.slope_run("C", si(20, "ft")) == pytest.approx(si(30, "ft"))
    with pytest.raises(OutOfRange):
        earth.slope_run("C", si(20.1, "ft"))


def test_651_j_2_spoil_lies_farther_than_two_feet():
    assert earth.spoil_distance(1.0) > si(2, "ft")
