"""Formulas that say they take quantities: in feet and pounds each has the right dimension and the answer of SI floats."""

import inspect

import pint
import pytest

from calc import amounts, geometry, recipes
from calc.measuring import damp_volume
from calc.units import Quantity

FOOT, POUND = 0.3048, 0.45359237
SIZES = {  # how a value in SI is sent in feet and pounds
    "m": lambda value: Quantity(value / FOOT, "ft"),
    "m2": lambda value: Quantity(value / FOOT**2, "ft2"),
    "m3": lambda value: Quantity(value / FOOT**3, "ft3"),
    "kg": lambda value: Quantity(value / POUND, "lb"),
    "kg/m3": lambda value: Quantity(value / POUND * FOOT**3, "lb") / Quantity(1, "ft3"),
    "1": lambda value: value,
}
UNITS = {"m": {"[length]": 1}, "m2": {"[length]": 2}, "m3": {"[length]": 3}, "kg": {"[mass]": 1}}

GEOMETRY = {  # function -> (arguments in metres and cubic metres, unit of the answer)
    "cap_sphere_radius": ([(1.35, "m"), (0.70, "m")], "m"),
    "cap_volume": ([(1.35, "m"), (0.70, "m")], "m3"),
    "cap_area": ([(1.35, "m"), (0.70, "m")], "m2"),
    "cap_slant": ([(1.35, "m"), (0.70, "m")], "m"),
    "cap_rise_at": ([(1.35, "m"), (0.70, "m"), (0.5, "m")], "m"),
    "cap_rim_radius": ([(1.65, "m"), (0.70, "m")], "m"),
    "sphere_depth": ([(1.65, "m"), (2.1, "m3")], "m"),
    "sphere_cap_volume": ([(1.65, "m"), (0.70, "m")], "m3"),
    "cylinder_volume": ([(1.35, "m"), (1.05, "m")], "m3"),
    "cylinder_wall_area": ([(1.35, "m"), (1.05, "m")], "m2"),
    "cone_volume": ([(1.35, "m"), (0.15, "m")], "m3"),
    "cone_area": ([(1.35, "m"), (0.15, "m")], "m2"),
    "frustum_volume": ([(1.35, "m"), (2.0, "m"), (1.05, "m")], "m3"),
    "shell_volume": ([(1.35, "m"), (0.70, "m"), (0.075, "m")], "m3"),
    "ring_volume": ([(1.35, "m"), (0.11, "m"), (1.05, "m")], "m3"),
}
MATERIALS = {  # function -> (arguments, unit of each part of the answer)
    "concrete": (amounts.concrete_materials, [(0.5, "m3"), (2, "1"), (4, "1"), (1.54, "1"), (1440, "kg/m3")], ("kg", "m3", "m3")),
    "mortar": (amounts.mortar_materials, [(0.5, "m3"), (4, "1"), (None, "1"), (1440, "kg/m3")], ("kg", "m3", "m3")),
}
MASSES = {
    "yield": (
        recipes.yield_m3,
        [
            (50, "kg"),
            (96, "kg"),
            (187.5, "kg"),
            (27.5, "kg"),
            (0.02, "1"),
            (3150, "kg/m3"),
            (2650, "kg/m3"),
            (2700, "kg/m3"),
            (1000, "kg/m3"),
        ],
        "m3",
    ),
    "cement for the water": (recipes.cement_needed, [(186, "kg"), (0.5, "1")], "kg"),
    "damp sand": (damp_volume, [(0.07, "m3"), (0.2, "1")], "m3"),
}


def both(function, arguments):
    return function(*(value for value, _ in arguments)), function(*(SIZES[unit](value) for value, unit in arguments))


def same(in_si, in_feet, unit):
    assert dict(in_feet.dimensionality) == pytest.approx(UNITS[unit])
    assert in_feet.to(unit).magnitude == pytest.approx(in_si)


def test_every_public_function_of_geometry_is_called_below():
    public = {name for name, body in inspect.getmembers(geometry, inspect.isfunction) if body.__module__ == geometry.__name__}
    assert {name for name in public if not name.startswith("_")} == set(GEOMETRY)


@pytest.mark.parametrize("name", GEOMETRY)
def test_a_formula_of_geometry_in_feet(name):
    arguments, unit = GEOMETRY[name]
    same(*both(getattr(geometry, name), arguments), unit)


@pytest.mark.parametrize("name", GEOMETRY)
def test_a_formula_of_geometry_in_feet_and_inches_mixed(name):
    arguments, unit = GEOMETRY[name]
    function, mixed = getattr(geometry, name), [SIZES[kind](value) for value, kind in arguments]
    mixed[0] = mixed[0].to("in")
    same(function(*(value for value, _ in arguments)), function(*mixed), unit)


@pytest.mark.parametrize("name", GEOMETRY)
def test_a_formula_of_geometry_refuses_a_mass_for_a_length(name):
    arguments, unit = GEOMETRY[name]
    wrong = [SIZES[kind](value) for value, kind in arguments]
    wrong[1] = Quantity(1, "lb")
    with pytest.raises((pint.DimensionalityError, ValueError)):
        getattr(geometry, name)(*wrong).to(unit)


@pytest.mark.parametrize("name", MATERIALS)
def test_what_to_buy_in_cubic_feet_and_pounds(name):
    function, arguments, units = MATERIALS[name]
    in_si, in_feet = both(function, arguments)
    parts = [("cement_kg", units[0]), ("sand_m3", units[1])]
    if in_si.stone_m3:
        parts.append(("stone_m3", units[2]))
    for part, unit in parts:
        same(getattr(in_si, part), getattr(in_feet, part), unit)


@pytest.mark.parametrize("name", MASSES)
def test_masses_and_yields_in_cubic_feet_and_pounds(name):
    function, arguments, unit = MASSES[name]
    same(*both(function, arguments), unit)


def test_a_density_upside_down_is_found_out():
    light = Quantity(1, "ft3") / Quantity(90, "lb")
    found = amounts.concrete_materials(Quantity(10, "ft3"), 2, 4, cement_bulk=light)
    with pytest.raises(pint.DimensionalityError):
        found.cement_kg.to("kg")
