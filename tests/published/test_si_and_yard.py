"""SI brochure, 9th edition 2019, and the international yard and pound agreement of 1959, with the conversion tables made
from them; common Indian tables for the brass."""

import pytest

from calc import sources as s
from calc.levels import solve
from calc.units import from_si, si
from calc.vessel import Vessel


@pytest.mark.parametrize(
    ("value", "unit", "expected", "rounding"),
    [
        (1, "ft", 0.3048, 1e-12),
        (1, "in", 0.0254, 1e-12),
        (1, "lb", 0.45359237, 1e-12),
        (1, "ft2", 0.09290304, 1e-12),
        (1, "ft3", 0.028316846592, 1e-13),
        (1, "brass", 2.8317, 0.00005),
        (0.5, "brass", 1.4158, 0.00005),
        (1, "d", 86400, 1e-9),
        (1, "t", 1000, 1e-9),
        (1, "mbar", 100, 1e-12),
        (1, "cmH2O", 98.0665, 1e-10),
    ],
)
def test_one_of_each_in_si(value, unit, expected, rounding):
    assert si(value, unit) == pytest.approx(expected, abs=rounding)


@pytest.mark.parametrize(
    ("value", "unit", "in_unit", "expected", "rounding"),
    [
        (1, "kPa", "cmH2O", 10.197, 0.0005),
        (1, "mbar", "cmH2O", 1.0197, 0.00005),
        (1, "m", "ft", 3.2808, 0.00005),
        (1, "m3", "ft3", 35.3147, 0.00005),
        (1, "kg", "lb", 2.20462, 0.000005),
        (1, "m2", "ft2", 10.7639, 0.00005),
    ],
)
def test_tables_of_conversion(value, unit, in_unit, expected, rounding):
    assert from_si(si(value, unit), in_unit) == pytest.approx(expected, abs=rounding)


def test_free_fall_of_the_third_general_conference():
    assert s.GRAVITY_M_S2 == 9.80665


def test_a_metre_of_water_between_two_levels():
    tank = Vessel(1.0, 1.0, 2.0, "flat")
    plant = solve(tank, 2.0, 3.141592653589793, 0.5)  # half a metre up in the chamber, half a metre down inside
    assert from_si(plant.greatest_pressure_pa, "cmH2O") == pytest.approx(100)
