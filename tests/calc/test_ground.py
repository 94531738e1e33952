"""The empty plant in ground water and the soil round it: sums by hand, what holds it down longer, limits."""

from dataclasses import replace
from math import nan, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import ground
from calc.errors import Missing, OutOfRange, Unknown
from tests.section import BOWL, CONE, DRAWN, PLANTS, ROUND


def test_a_thin_base_in_a_deep_cone_lifts_within_the_cone():
    deep = replace(CONE, vessel=replace(CONE.vessel, bottom_depth_m=1.2), base_thickness_m=0.02)
    height_m = ground.float_height_m(deep, ("base",))
    assert height_m < 1.2
    wet_m3 = pi * (deep.outer_radius_m * height_m / 1.2) ** 2 * height_m / 3
    assert 1.2 * 9810 * wet_m3 == pytest.approx(ground.weights_n(deep)["base"])


def test_soil_under_water_counts_with_what_its_buoyancy_leaves():
    # one cubic metre of soil in a column lifts the water it stands against by 15 / (1.2 x 9.81) of a cubic metre
    thin, thick = ground.float_height_m(ROUND, cover_m=0.60), ground.float_height_m(ROUND, cover_m=0.90)
    area_m2 = pi * ROUND.outer_radius_m**2
    more_m3 = area_m2 * 0.30 / 3
    assert (thick - thin) * area_m2 == pytest.approx(more_m3 * 15 / (1.2 * 9.81))


@given(st.sampled_from(PLANTS), st.floats(0, 1.5), st.floats(0.01, 0.5))
def test_more_soil_never_lifts_sooner(plant, cover_m, more_m):
    assert ground.float_height_m(plant, cover_m=cover_m) <= ground.float_height_m(plant, cover_m=cover_m + more_m)


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: f"{plant.dome} {plant.vessel.bottom}")
def test_every_part_that_is_built_holds_it_down_longer(plant):
    heights = [ground.float_height_m(plant, ground.PARTS[:count]) for count in (1, 2, 3, 4)]
    assert heights == sorted(heights)
    assert heights[0] < heights[-1]
    depth_m = ground.float_depth_m(plant)
    assert depth_m + heights[-1] == pytest.approx(plant.deepest_m if "pit_depth_m" not in plant.drawn else plant.ground_m + 0.10)


def test_a_dome_that_stands_out_of_the_ground_has_no_less_than_no_soil():
    high = replace(DRAWN, levels=replace(DRAWN.levels, overflow_m=1.20))  # ground at 1.15 m, the dome begins at 1.10 m
    assert ground.weights_n(high, cover_m=0.0)["soil"] == 0


def test_a_fill_that_ends_below_the_ground_has_no_mound():
    deep = replace(DRAWN, levels=replace(DRAWN.levels, overflow_m=3.0))
    assert ground.weights_n(deep, cover_m=0.1) == ground.weights_n(deep, cover_m=0.6)


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: f"{plant.dome} {plant.vessel.bottom}")
def test_a_bare_crown_is_no_cover_and_a_cover_nobody_told_is_the_planned_one(plant):
    bare, planned = ground.weights_n(plant, cover_m=0.0)["soil"], ground.weights_n(plant, cover_m=plant.cover_m)["soil"]
    assert ground.weights_n(plant)["soil"] == ground.weights_n(plant, cover_m=None)["soil"] == planned
    assert bare < planned
    assert ground.float_height_m(plant, cover_m=0.0) < ground.float_height_m(plant, cover_m=None)


@pytest.mark.parametrize("cover_m", [-0.01, nan])
def test_no_weight_with_less_than_no_soil(cover_m):
    with pytest.raises(OutOfRange):
        ground.float_height_m(ROUND, cover_m=cover_m)


def test_a_part_nobody_builds_and_no_base():
    with pytest.raises(Unknown):
        ground.float_height_m(ROUND, ("base", "roof"))
    with pytest.raises(Missing):
        ground.float_height_m(ROUND, ("wall",))


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: f"{plant.dome} {plant.vessel.bottom}")
def test_a_thin_floor_cracks_before_the_whole_lifts(plant):
    # 0.10 m x 24 000 N/m3 = 2400 N/m2, a fifth more than 2000 N/m2, which 0.2039 m of water press
    assert ground.floor_depth_m(plant) == pytest.approx(plant.ground_m + 0.10 - 2000 / 9810)
    assert ground.floor_depth_m(plant) > ground.float_depth_m(plant)


def test_a_thicker_floor_stands_more_water():
    thick = replace(ROUND, base_thickness_m=0.20)
    assert thick.ground_m + 0.20 - ground.floor_depth_m(thick) == pytest.approx(2 * 2000 / 9810)


# water in a hole is known to 5 cm
@pytest.mark.parametrize(
    ("depth_m", "stands"),
    [
        (0, "outside"),
        (1.549, "outside"),
        (1.55, "not_enough"),
        (1.60, "not_enough"),
        (1.649, "not_enough"),
        (1.65, "within"),
        (9, "within"),
    ],
)
def test_ground_water_that_should_stand_1_60_m_down(depth_m, stands):
    assert ground.water_stands(depth_m, 1.60).stands == stands


def test_a_plant_that_stands_with_water_up_to_the_ground_has_no_limit_below_it():
    assert ground.water_stands(0.0, -0.30).stands == "within"


@pytest.mark.parametrize(("depth_m", "error"), [(-0.01, OutOfRange), (nan, OutOfRange), (None, Missing)])
def test_water_over_the_ground_is_not_covered(depth_m, error):
    with pytest.raises(error):
        ground.water_stands(depth_m, 1.60)


# ---- the soil that goes back


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: f"{plant.dome} {plant.vessel.bottom}")
@pytest.mark.parametrize(("soil", "shrink", "swell"), [("sand", 0.10, 0.12), ("earth", 0.10, 0.25), ("clay", 0.15, 0.40)])
def test_what_is_dug_is_rammed_back_or_left(plant, soil, shrink, swell):
    found = ground.fill(plant, soil)
    assert found.taken_m3 * (1 - shrink) == pytest.approx(found.rammed_m3)
    assert found.left_loose_m3 == pytest.approx((found.dug_m3 - found.taken_m3) * (1 + swell))
    assert 0 < found.rammed_m3 < found.dug_m3


def test_the_fill_round_a_flat_plant_by_hand():
    found = ground.fill(DRAWN)
    pit_m3 = pi * 1.525**2 * 1.80
    outlet_m3 = (1.65 + 0.42) * (1.25 + 0.42) * (1.70 - 1.22 + 0.075)  # 11 cm of wall and 10 cm of space all round
    assert found.dug_m3 == pytest.approx(pit_m3 + outlet_m3)
    body_m3 = pi * 1.525**2 * 0.10 + pi * 1.41**2 * 1.10
    sphere_m = (1.30**2 + 0.55**2) / 1.10 + 0.07
    dome_m3 = pi * 0.62**2 * (3 * sphere_m - 0.62) / 3
    mound_m3 = pi * 1.525**2 * (1.65 + 0.07 + 0.60 - 1.70) / 3
    assert found.rammed_m3 == pytest.approx(pit_m3 + mound_m3 - body_m3 - dome_m3)


def test_a_deeper_dish_is_dug_but_not_filled():
    levels = {name: getattr(BOWL.levels, name) + 0.1 for name in ("overflow_m", "zero_line_m", "lowest_m")}
    deep = replace(
        BOWL, vessel=replace(BOWL.vessel, bottom_depth_m=BOWL.vessel.bottom_depth_m + 0.1), levels=replace(BOWL.levels, **levels)
    )
    assert ground.fill(deep).rammed_m3 == pytest.approx(ground.fill(BOWL).rammed_m3)
    assert ground.fill(deep).dug_m3 > ground.fill(BOWL).dug_m3


def test_a_plant_that_is_wider_than_its_pit_has_no_fill():
    with pytest.raises(OutOfRange):
        ground.fill(replace(DRAWN, drawn={"pit_diameter_m": 2.0, "pit_depth_m": 1.80}))


@given(st.sampled_from(PLANTS), st.floats(0, 1.5))
def test_a_pit_that_slopes_back_takes_as_much_more_soil_as_it_gave(plant, slope):
    upright, sloped = ground.fill(plant), ground.fill(plant, slope=slope)
    assert sloped.dug_m3 - upright.dug_m3 == pytest.approx(sloped.rammed_m3 - upright.rammed_m3, abs=1e-9)


def test_where_the_plant_stands_high_soil_is_brought():
    high = replace(
        ROUND,
        drawn={"pit_depth_m": 0.80, "pit_diameter_m": 6.0},
        levels=replace(ROUND.levels, overflow_m=0.90, zero_line_m=0.80, lowest_m=0.30),
    )
    found = ground.fill(high, "earth")
    assert found.taken_m3 > found.dug_m3
    assert found.left_loose_m3 == pytest.approx(1.25 * (found.dug_m3 - found.taken_m3))
    assert found.left_loose_m3 < 0


def test_rock_is_no_backfill():
    with pytest.raises(Unknown):
        ground.fill(DRAWN, "rock")


@pytest.mark.parametrize("slope", [-0.1, nan])
def test_no_fill_of_a_pit_that_leans_over(slope):
    with pytest.raises(OutOfRange):
        ground.fill(DRAWN, slope=slope)
