"""The closed list of units: each against its definition, and nothing that is not written in units.txt."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import units
from calc.errors import Unknown

LINES = (Path(units.__file__).with_name("units.txt")).read_text().splitlines()
WRITTEN = [line.split("=") for line in LINES if line.strip() and not line.startswith("#") and "offset" not in line]
NAMES = [part.strip() for parts in WRITTEN for part in [parts[0], *parts[2:]]]

# one of each in SI, by definition: foot and pound of 1959, soot 1/8 inch, brass 100 cubic feet, a year of 365 1/4 days, water of 1000 kg/m3
BY_HAND = {
    "m": ("length", 1),
    "cm": ("length", 0.01),
    "mm": ("length", 0.001),
    "ft": ("length", 0.3048),
    "in": ("length", 0.3048 / 12),
    "soot": ("length", 0.3048 / 96),
    "m2": ("area", 1),
    "cm2": ("area", 1e-4),
    "ft2": ("area", 0.3048**2),
    "m3": ("volume", 1),
    "l": ("volume", 1e-3),
    "ml": ("volume", 1e-6),
    "ft3": ("volume", 0.3048**3),
    "brass": ("volume", 100 * 0.3048**3),
    "kg": ("mass", 1),
    "g": ("mass", 1e-3),
    "quintal": ("mass", 100),
    "t": ("mass", 1000),
    "lb": ("mass", 0.45359237),
    "s": ("time", 1),
    "min": ("time", 60),
    "h": ("time", 3600),
    "d": ("time", 24 * 3600),
    "month": ("time", 365.25 / 12 * 24 * 3600),
    "year": ("time", 365.25 * 24 * 3600),
    "Pa": ("pressure", 1),
    "kPa": ("pressure", 1000),
    "mbar": ("pressure", 100),
    "cmH2O": ("pressure", 0.01 * 1000 * 9.80665),
    "K": ("temperature", 1),
}


@pytest.mark.parametrize("unit", BY_HAND)
def test_one_of_each_unit(unit):
    measures, value = BY_HAND[unit]
    assert units.si(1, unit) == pytest.approx(value, rel=1e-12)
    assert units.from_si(value, unit) == pytest.approx(1, rel=1e-12)
    assert units.dimension(unit) == measures


def test_every_line_of_the_list_is_one_of_those():
    symbols = {part.strip() for parts in WRITTEN for part in (parts[0], parts[2] if len(parts) > 2 else parts[0])}
    short = symbols & set(BY_HAND)
    assert len(short) == len(WRITTEN) == len(BY_HAND)


@pytest.mark.parametrize("name", NAMES)
def test_every_name_and_symbol_written_is_known(name):
    assert units.si(1, name) > 0


@pytest.mark.parametrize(
    "name",
    ["feet", "M", "km", "psi", "degC", "dimensionless", "ins", "kgs", "lbs", "m2s", "2", "1e3", "2 m", "m*2", "m ", "", "m**2", None, 3],
)
def test_what_is_not_written_there_does_not_exist(name):
    with pytest.raises(Unknown):
        units.si(1, name)
    with pytest.raises(Unknown):
        units.from_si(1, name)
    with pytest.raises(Unknown):
        units.dimension(name)


@given(st.sampled_from(sorted(BY_HAND)), st.floats(1e-6, 1e6))
def test_there_and_back_again(unit, value):
    assert units.from_si(units.si(value, unit), unit) == pytest.approx(value, rel=1e-12)


@given(st.integers(0, 30), st.integers(0, 11), st.integers(0, 7))
def test_feet_inches_and_soot_are_the_same_length_in_metres(feet, inches, soot):
    in_eighths = (feet * 12 + inches) * 8 + soot
    length_m = units.si(feet, "ft") + units.si(inches, "in") + units.si(soot, "soot")
    assert length_m == pytest.approx(in_eighths * 0.0254 / 8, abs=1e-12)


@pytest.mark.parametrize(("fahrenheit", "degrees"), [(32.0, 0.0), (212.0, 100.0), (-40.0, -40.0), (77.0, 25.0)])  # (F - 32) / 1.8
def test_fahrenheit_by_the_freezing_and_boiling_of_water(fahrenheit, degrees):
    assert units.celsius(fahrenheit, "fahrenheit") == pytest.approx(degrees, abs=1e-9)
    assert units.celsius(degrees, "celsius") == pytest.approx(degrees, abs=1e-9)


@pytest.mark.parametrize("unit", ["K", "m", "F", ""])
def test_no_other_unit_is_such_a_scale(unit):
    with pytest.raises(Unknown):
        units.celsius(20.0, unit)


@pytest.mark.parametrize("unit", ["fahrenheit", "celsius"])
def test_a_scale_with_its_own_zero_has_no_factor(unit):
    with pytest.raises(Unknown):
        units.si(20.0, unit)
