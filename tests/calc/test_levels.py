"""Levels, store and pressure: what the gas pushes out of the digester stands in the chamber, and nothing is lost."""

from math import nan, pi

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from calc.errors import Missing, OutOfRange
from calc.levels import solve
from calc.vessel import BOTTOMS, Vessel, volume_below


@st.composite
def plants(draw):
    radius = draw(st.floats(0.7, 2.2))
    bottom = draw(st.sampled_from(BOTTOMS))
    depth = 0.0 if bottom == "flat" else draw(st.floats(0.1, 0.6)) * radius
    tank = Vessel(radius, draw(st.floats(0.3, 1.2)) * radius, draw(st.sampled_from([0.0, 0.6, 1.0, 1.3])), bottom, depth)
    zero_m = draw(st.floats(0.3, 0.95)) * tank.crown_m
    area, deep = draw(st.floats(0.2, 4.0)), draw(st.floats(0.2, 0.9))
    assume(area * deep < 0.95 * volume_below(tank, zero_m))
    return tank, zero_m, area, deep


@given(plants())
def test_what_leaves_the_digester_stands_in_the_chamber(plant):
    tank, zero_m, area_m2, depth_m = plant
    found = solve(*plant)
    assert found.store_m3 == pytest.approx(area_m2 * depth_m)
    assert volume_below(tank, found.zero_line_m) - volume_below(tank, found.lowest_m) == pytest.approx(found.store_m3, abs=1e-9)
    assert (found.overflow_m - found.zero_line_m) * area_m2 == pytest.approx(found.store_m3, abs=1e-9)


@given(plants())
def test_the_levels_stand_in_their_order(plant):
    tank, zero_m, _, _ = plant
    found = solve(*plant)
    assert 0 < found.lowest_m < found.zero_line_m == zero_m < tank.crown_m
    assert found.overflow_m > found.zero_line_m


@given(plants())
def test_the_pressure_is_the_weight_of_the_slurry_between_the_levels(plant):
    found = solve(*plant)
    assert found.greatest_head_m == pytest.approx(found.overflow_m - found.lowest_m)
    assert found.greatest_pressure_pa == pytest.approx(1000 * 9.80665 * (found.overflow_m - found.lowest_m))


@given(plants(), st.floats(1.01, 1.04))
def test_a_larger_chamber_stores_more_and_presses_more(plant, more):
    tank, zero_m, area_m2, depth_m = plant
    found = solve(*plant)
    wider, deeper = solve(tank, zero_m, more * area_m2, depth_m), solve(tank, zero_m, area_m2, more * depth_m)
    assert wider.store_m3 == pytest.approx(deeper.store_m3)
    assert wider.store_m3 > found.store_m3
    assert wider.lowest_m < found.lowest_m
    assert found.greatest_head_m < wider.greatest_head_m < deeper.greatest_head_m


def test_in_an_upright_wall_the_level_falls_by_the_store_over_the_floor():
    # 1 m radius: pi m2; a chamber of pi/4 x 0.6 m takes 0.15 pi m3 and lowers the slurry by 0.15 m
    found = solve(Vessel(1.0, 1.0, 2.0, "flat"), 1.5, pi / 4, 0.6)
    assert (found.lowest_m, found.overflow_m) == (pytest.approx(1.35), pytest.approx(2.1))
    assert found.greatest_head_m == pytest.approx(0.75)
    assert found.greatest_pressure_pa == pytest.approx(7354.99, abs=0.01)


def test_an_overflow_fifty_millimetres_higher_adds_its_slab_to_the_store():
    tank = Vessel(1.35, 0.70, 1.05, "flat")
    as_drawn, as_built = solve(tank, 1.27, 2.21, 0.65), solve(tank, 1.27, 2.21, 0.70)
    assert as_built.store_m3 - as_drawn.store_m3 == pytest.approx(0.1105)  # 2.21 m2 x 0.05
    # the slurry inside falls by 0.1105 / (pi 1.35^2) = 0.0193 m more: head up by 0.0693 m
    assert as_built.greatest_head_m - as_drawn.greatest_head_m == pytest.approx(0.0693, abs=0.0001)


@pytest.mark.parametrize(
    ("zero_m", "area_m2", "depth_m"),
    [(3.1, 1, 0.5), (-0.1, 1, 0.5), (nan, 1, 0.5), (1.5, 0, 0.5), (1.5, nan, 0.5), (1.5, 1, 0), (1.5, 1, nan), (1.5, 10, 0.5)],
    ids=[
        "over the crown",
        "under the floor",
        "no level",
        "no chamber",
        "no area",
        "no depth",
        "no number",
        "takes more than the digester holds",
    ],
)
def test_levels_that_cannot_be_are_not_solved(zero_m, area_m2, depth_m):
    with pytest.raises(OutOfRange):
        solve(Vessel(1.0, 1.0, 2.0, "flat"), zero_m, area_m2, depth_m)


def test_a_plant_without_a_chamber_is_not_solved():
    with pytest.raises(Missing):
        solve(Vessel(1.0, 1.0, 2.0, "flat"), 1.5, None, 0.5)
