"""What each stage takes: one drawn plant counted by hand, and the areas of every shape by integration."""

from dataclasses import replace
from math import ceil, pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import sizing
from calc import sources as s
from calc.designs import drawing, for_gas
from calc.errors import OutOfRange
from calc.levels import solve
from calc.masonry import Brick
from calc.takeoff import ITEMS, first_fill, takeoff, tight_area_m2
from calc.vessel import BOTTOMS, Vessel, shape

# A wall of 1.05 m on a flat floor in a pit 3.40 m wide; chamber 1.70 x 1.30 x 0.65 m from 1.27 m; slurry falls to 0.992 m
TANK = Vessel(1.35, 0.70, 1.05, "flat")
ROUND = drawing(TANK, 1.27, (1.70, 1.30, 0.65), dome="concrete", pit_diameter_m=3.40, feed=sizing.feed_from_dung(48))
TAKEN = takeoff(ROUND)

# dry volumes: concrete 1.57, mortar 1.07 (1 + 1/n) but at most 1.42; cement 1440 kg/m3
CEMENT_BASE, CEMENT_TIGHT = 1440 * 1.57 / 7, 1440 * 1.57 / 5.5  # kg/m3 of 1:2:4 and of 1:1.5:3
CEMENT_1_4, CEMENT_1_3, CEMENT_1_2 = 1440 * 1.3375 / 5, 1440 * 1.42 / 4, 1440 * 1.42 / 3


def test_the_base_covers_the_pit_and_a_tenth_goes_into_the_soil():
    volume_m3 = pi * 1.7**2 * 0.10 * 1.10  # 0.9987 m3
    assert TAKEN["base"]["cement_kg"] == pytest.approx(volume_m3 * CEMENT_BASE)
    assert TAKEN["base"]["sand_m3"] == pytest.approx(volume_m3 * 1.57 * 2 / 7)
    assert TAKEN["base"]["gravel_m3"] == pytest.approx(volume_m3 * 1.57 * 4 / 7)


def leaf_mortar_m3(volume_m3, bricks):
    return 1.5 * (volume_m3 - bricks * 0.230 * 0.110 * 0.070)


def test_the_wall_is_half_a_brick_of_one_to_four():
    bricks = 2 * pi * 1.35 * 1.05 / (0.24 * 0.08)  # 463.9
    mortar_m3 = leaf_mortar_m3(pi * (1.46**2 - 1.35**2) * 1.05, bricks)
    assert TAKEN["wall"]["bricks"] == pytest.approx(bricks)
    assert TAKEN["wall"]["cement_kg"] == pytest.approx(mortar_m3 * CEMENT_1_4)
    assert TAKEN["wall"]["sand_m3"] == pytest.approx(mortar_m3 * 1.07)


def test_the_concrete_dome_is_its_shell():
    sphere = (1.35**2 + 0.70**2) / 1.40
    outer, inner = (pi * h**2 * (3 * r - h) / 3 for r, h in ((sphere + 0.075, 0.775), (sphere, 0.70)))
    assert TAKEN["dome"]["cement_kg"] == pytest.approx((outer - inner) * CEMENT_TIGHT)
    assert TAKEN["dome"]["gravel_m3"] == pytest.approx((outer - inner) * 1.57 * 3 / 5.5)
    assert "bricks" not in TAKEN["dome"]


def test_the_brick_dome_is_laid_flat_in_one_to_three_and_plastered_outside():
    dome = takeoff(replace(ROUND, dome="brick", shell_thickness_m=0.070))["dome"]
    sphere, inside_m2 = (1.35**2 + 0.70**2) / 1.40, pi * (1.35**2 + 0.70**2)
    bricks = inside_m2 / (0.24 * 0.12)
    outer, inner = (pi * h**2 * (3 * r - h) / 3 for r, h in ((sphere + 0.07, 0.77), (sphere, 0.70)))
    outside_m2 = 2 * pi * (sphere + 0.07) * 0.77
    plaster_m3 = outside_m2 * (0.015 + 0.0024)  # what the joints take on raw brick
    assert dome["bricks"] == pytest.approx(bricks)
    cement = leaf_mortar_m3(outer - inner, bricks) * CEMENT_1_3 + plaster_m3 * CEMENT_1_4
    assert dome["cement_kg"] == pytest.approx(cement)


def test_the_ferrocement_dome_is_mortar_two_layers_of_mesh_and_a_skeleton():
    dome = takeoff(replace(ROUND, dome="ferrocement", shell_thickness_m=0.030))["dome"]
    area_m2 = pi * (1.35**2 + 0.70**2)  # 7.265 m2
    assert dome["mesh_m2"] == pytest.approx(2 * 1.15 * area_m2)
    assert dome["bar_m"] == pytest.approx(2 * area_m2 / 0.150)
    assert dome["cement_kg"] == pytest.approx(1.15 * 0.030 * area_m2 * CEMENT_1_2)


def test_the_mixing_tank_holds_two_days_feed_and_the_pipe_comes_down_at_sixty_degrees():
    radius_m = sqrt(2 * 0.096 / pi / 0.60)  # 0.192 m3 in 0.60 m of depth
    assert TAKEN["inlet"]["bricks"] == pytest.approx(2 * pi * radius_m * 0.60 / (0.24 * 0.08))
    assert TAKEN["inlet"]["pipe_m"] == pytest.approx((1.92 + 0.15 - 0.40) / sqrt(0.75), rel=1e-4)


def test_a_drawing_that_does_not_say_what_it_is_fed_has_a_pipe_and_no_tank():
    assert set(takeoff(replace(ROUND, feed=None))["inlet"]) == {"pipe_m"}


def test_the_outlet_is_a_chamber_on_a_shaft_of_three_walls():
    walls_m2 = 2 * (1.70 + 1.30 + 0.22) * 0.65 + 3 * 0.71 * 1.27  # 4.186 + 2.705
    assert TAKEN["outlet"]["bricks"] == pytest.approx(walls_m2 / (0.24 * 0.08))
    floor_m3 = 1.92 * 1.52 * 0.075
    inside_m2 = 2 * 3.0 * 0.65 + 1.70 * 1.30 + 4 * 0.60 * 1.27
    mortar_m3 = leaf_mortar_m3(walls_m2 * 0.11, TAKEN["outlet"]["bricks"])
    cement = mortar_m3 * CEMENT_1_4 + floor_m3 * CEMENT_BASE + inside_m2 * (0.012 + 0.0024) * CEMENT_1_3
    assert TAKEN["outlet"]["cement_kg"] == pytest.approx(cement)


def test_the_tight_plaster_is_three_coats_and_four_washes_and_below_it_lies_one_coat():
    tight_m2 = pi * (1.35**2 + 0.70**2) + 2 * pi * 1.35 * (1.05 - ROUND.levels.lowest_m + 0.10)
    below_m2 = 2 * pi * 1.35 * (ROUND.levels.lowest_m - 0.10) + pi * 1.35**2
    assert tight_area_m2(ROUND) == pytest.approx(tight_m2)
    tight_kg = tight_m2 * (3 * 0.010 * CEMENT_1_3 + 4 * 1.5)
    assert TAKEN["plaster"]["cement_kg"] == pytest.approx(tight_kg + below_m2 * (0.012 + 0.0024) * CEMENT_1_3)
    assert TAKEN["plaster"]["waterproofer_l"] == pytest.approx(tight_kg / 50 * 0.250)


def test_the_mixing_tank_stands_on_a_floor_as_wide_as_its_wall_of_the_concrete_of_the_chamber_floor():
    radius_m = sqrt(2 * ROUND.feed.slurry_m3_per_day / 0.60 / pi)
    floors_m2 = pi * (radius_m + 0.110) ** 2, 1.92 * 1.52
    assert TAKEN["inlet"]["gravel_m3"] / TAKEN["outlet"]["gravel_m3"] == pytest.approx(floors_m2[0] / floors_m2[1])


def test_on_raw_brick_the_first_tight_coat_also_fills_the_joints():
    smooth, brick = (takeoff(replace(ROUND, dome=dome))["plaster"]["cement_kg"] for dome in ("concrete", "brick"))
    assert brick - smooth == pytest.approx(tight_area_m2(ROUND) * 0.0024 * CEMENT_1_3)


def test_the_covers_lie_on_the_walls_of_the_chamber():
    long_m, wide_m = 1.92, 1.52
    assert TAKEN["covers"]["cement_kg"] == pytest.approx(long_m * wide_m * 0.075 * CEMENT_TIGHT)
    # three people lift 37.5 kg: 132 mm of a slab of 285 kg a metre of width; 15 slabs of 128 mm, each with 2 bars of
    # 1.47 m and, every 15 cm, 11 of 78 mm
    slabs = ceil(long_m / (37.5 / (wide_m * 0.075 * 2500)))
    each_m = 2 * (wide_m - 0.05) + (ceil((wide_m - 0.05) / 0.15) + 1) * (long_m / slabs - 0.05)
    assert slabs == 15
    assert TAKEN["covers"]["bar_m"] == pytest.approx(slabs * each_m)


def test_one_gas_pipe_and_one_valve():
    assert TAKEN["pipe"] == {"gas_pipe": 1.0, "valve": 1.0}


# ---- every shape


FORMS = st.one_of(
    st.builds(lambda rise: shape(rise=rise), st.floats(0.5, 1.2)),
    st.builds(lambda bottom: shape("cylinder_cap", bottom), st.sampled_from(BOTTOMS)),
)
PLANTS = st.builds(
    lambda gas, form, dome: for_gas(gas, form=form, dome=dome),
    st.floats(0.5, 7),
    FORMS,
    st.sampled_from(["brick", "ferrocement", "concrete"]),
)


@given(PLANTS)
def test_every_stage_takes_something_and_every_item_has_a_name(plant):
    taken = takeoff(plant)
    assert set(taken) - {"wall"} == {"base", "dome", "inlet", "outlet", "plaster", "covers", "pipe"}
    assert ("wall" in taken) == (plant.vessel.wall_height_m > 0)
    for items in taken.values():
        assert set(items) <= set(ITEMS)
        assert all(quantity > 0 for quantity in items.values())


@given(st.floats(0.5, 6), FORMS, st.sampled_from(["brick", "ferrocement", "concrete"]))
def test_a_larger_plant_takes_more_of_every_material(gas_m3_per_day, form, dome):
    small, large = (takeoff(for_gas(each, form=form, dome=dome)) for each in (gas_m3_per_day, 1.1 * gas_m3_per_day))
    for stage, items in small.items():
        for item in items:
            if stage != "pipe" and item != "bar_m":  # bars are counted whole
                assert large[stage][item] > items[item]


def test_smaller_bricks_are_more_bricks():
    small = takeoff(ROUND, Brick(0.190, 0.090, 0.065))  # a face of 0.0150 m2 with its joints, against 0.0192
    assert small["wall"]["bricks"] == pytest.approx(TAKEN["wall"]["bricks"] * 0.0192 / 0.0150)


def test_where_the_slurry_falls_to_the_floor_the_whole_inside_is_tight():
    area_m2 = pi * 1.35**2
    plant = replace(ROUND, levels=solve(TANK, 0.85, area_m2, 0.80))  # down to 0.05 m
    inside_m2 = pi * (1.35**2 + 0.70**2) + 2 * pi * 1.35 * 1.05 + area_m2
    assert tight_area_m2(plant) == pytest.approx(inside_m2)
    assert takeoff(plant)["plaster"]["cement_kg"] == pytest.approx(inside_m2 * (0.03 * CEMENT_1_3 + 6))


@given(PLANTS)
def test_the_first_fill_is_half_dung_half_water_to_the_zero_line(plant):
    dung_kg, water_l = first_fill(plant)
    assert dung_kg == water_l
    assert (dung_kg + water_l) / 1000 == pytest.approx(plant.volume_to_zero_line_m3)


def test_a_brick_without_a_length_builds_nothing():
    with pytest.raises(OutOfRange):
        takeoff(ROUND, Brick(0, 0.110, 0.070))


def test_the_bricks_of_this_house_are_the_common_ones():
    assert takeoff(ROUND, Brick(*s.BRICK_M)) == TAKEN
