"""Lists of materials of three countries against our take-off, item by item.

GGC 2047 brick plants (Nepal, 1994) and hemisphere-on-bowl plants (India): from memory, to be confirmed in print.
Chinese plants of brick and concrete (rural guidance notes): 8 m3 takes 1000 kg cement, 2 m3 sand, 0.6 m3 stone, 600 bricks;
6 m3 a tenth less, 10 m3 a tenth more, of cement, bricks and sand.

A list is a plant somebody built, with his thickness of wall and his mortar, not a law. So GGC is taken off twice:
lean, as such plants are built there (wall 23 cm, mortar 1:6, floor not concreted, dome, slab and outlet floor 1:2:4 of
7.5 cm, plaster 1:4 of 12 mm, one coat), and as this house builds (wall half-brick 1:4, floor concreted, dome 1:1.5:3, three
tight coats and four washes). Ours over the list, without and with waste:

    size m3                    4     6     8    10    15    20
    lean, cement             0.89  0.91  0.88  0.82  0.75  0.74
    lean, bricks             0.79  0.82  0.82  0.71  0.79  0.77
    house, cement            1.5   1.6   1.6   1.5   1.4   1.4
    house, bricks            0.5   0.5   0.5   0.5   0.5   0.5
    house, sand              0.8   0.9   0.9   0.9   1.0   1.1
    house, gravel            1.3   1.4   1.5   1.4   1.5   1.6

Lean cement lies within -25/+10 % of the list up to 10 m3 and a hair under it at 15 and 20. The rich house plant takes 35 to
65 % more cement than the list and half its bricks, its wall being half as thick. Hemisphere-on-bowl of equal radius: cement
1.4 to 1.55 times, bricks 0.6 to 0.8, sand 0.7 to 0.9, chips 0.8 to 1.3 times the list. Nothing was tuned to come nearer.
Only the lean -25/+10 % comes from outside. All other bands are our own ratios widened: they hold the take-off in place and
prove nothing about it.
"""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import geometry as g
from calc import sources as s
from calc.amounts import concrete_materials, mortar_materials, plaster_volume
from calc.bill import bill, needed
from calc.designs import drawing, for_volume
from calc.masonry import Brick, single_leaf, solid
from calc.vessel import Vessel, shape

GGC_PLANTS = {  # size: radius, wall, crown over floor, outlet floor, outlet long, wide, deep [m]
    4: (1.02, 0.86, 1.51, 1.12, 1.40, 1.20, 0.50),
    6: (1.22, 0.92, 1.60, 1.16, 1.50, 1.20, 0.60),
    8: (1.35, 1.05, 1.75, 1.27, 1.70, 1.30, 0.65),
    10: (1.54, 0.94, 1.71, 1.24, 1.80, 1.25, 0.68),
    15: (1.75, 1.15, 1.93, 1.32, 2.48, 1.25, 0.84),
    20: (1.99, 1.15, 2.03, 1.37, 2.64, 1.76, 0.86),
}
GGC_LIST = {  # size: bricks, bags of sand and of gravel (30 l), bags of cement (50 kg), kg of 6 to 8 mm bars
    4: (1200, 60, 30, 11, 15),
    6: (1400, 70, 35, 13, 15),
    8: (1700, 80, 40, 16, 16),
    10: (2000, 90, 50, 19, 18),
    15: (2400, 110, 60, 27, 20),
    20: (2800, 120, 70, 34, 20),
}
BOWL_LIST = {  # m3 of gas a day: inside radius [m, by similarity from 1.275 of size 2], bricks, bags of cement, cft of chips, of sand
    1: (1.012, 700, 9, 30, 60),
    2: (1.275, 1000, 14, 40, 80),
    3: (1.460, 1300, 17, 50, 100),
    4: (1.606, 1600, 22, 60, 120),
    6: (1.839, 2200, 29, 80, 160),
}
SAND_BAG_M3 = 0.030
CFT_M3 = 0.0283168
BRICK = Brick(*s.BRICK_M)


def house(size):
    radius_m, wall_m, crown_m, floor_m, long_m, wide_m, deep_m = GGC_PLANTS[size]
    vessel = Vessel(radius_m, crown_m - wall_m, wall_m, "flat")
    return needed(bill(drawing(vessel, floor_m, (long_m, wide_m, deep_m), dome="concrete", form="cylinder_cap")))


def lean(size):
    """(bags of cement, bricks) of a plant as they are built there, without waste; manhole shaft of three sides, inlet tank 0.6 m."""
    radius_m, wall_m, crown_m, floor_m, long_m, wide_m, deep_m = GGC_PLANTS[size]
    rise_m, leaf_m = crown_m - wall_m, BRICK.breadth_m
    thick = solid(pi * ((radius_m + 0.23) ** 2 - radius_m**2) * wall_m, BRICK)
    outlet_m2 = 2 * (long_m + wide_m + 2 * leaf_m) * deep_m + 3 * (0.60 + leaf_m) * floor_m
    tank_m2 = pi * (0.60 + leaf_m) * 0.60
    thin = single_leaf(outlet_m2 + tank_m2, BRICK)
    slab_m3 = (long_m + 2 * leaf_m) * (wide_m + 2 * leaf_m) * 0.075
    inside_m2 = 2 * pi * radius_m * wall_m + g.cap_area(radius_m, rise_m) + outlet_m2 + tank_m2 + long_m * wide_m
    cement_kg = (
        mortar_materials(thick.mortar_to_buy_m3 + thin.mortar_to_buy_m3, 6).cement_kg
        + concrete_materials(g.shell_volume(radius_m, rise_m, 0.075) + 2 * slab_m3, 2, 4).cement_kg
        + mortar_materials(plaster_volume(inside_m2, 0.012, "brick"), 4).cement_kg
    )
    return cement_kg / 50, thick.bricks + thin.bricks


@pytest.mark.parametrize("size", [4, 6, 8, 10])
def test_lean_cement_lies_within_a_quarter_under_and_a_tenth_over_the_nepal_list(size):
    assert 0.75 <= lean(size)[0] / GGC_LIST[size][3] <= 1.10


@pytest.mark.parametrize("size", [15, 20])
def test_lean_cement_of_the_largest_lies_on_the_edge_of_that(size):
    assert 0.70 <= lean(size)[0] / GGC_LIST[size][3] <= 0.80


@pytest.mark.parametrize("size", GGC_LIST)
def test_lean_bricks_are_a_sixth_to_a_third_under_the_list_which_is_bought_with_waste(size):
    assert 0.67 <= lean(size)[1] / GGC_LIST[size][0] <= 0.84


@pytest.mark.parametrize("size", GGC_LIST)
def test_the_house_plant_takes_a_third_to_three_quarters_more_cement_and_half_the_bricks(size):
    bricks, _, _, bags, _ = GGC_LIST[size]
    taken = house(size)
    assert 1.35 <= taken["cement_kg"] / 50 / bags <= 1.75
    assert 0.45 <= taken["bricks"] / bricks <= 0.60


@pytest.mark.parametrize("size", GGC_LIST)
def test_sand_gravel_and_steel_of_the_house_plant(size):
    _, sand, gravel, _, bars_kg = GGC_LIST[size]
    taken = house(size)
    assert 0.75 <= taken["sand_m3"] / (sand * SAND_BAG_M3) <= 1.20
    assert 1.25 <= taken["gravel_m3"] / (gravel * SAND_BAG_M3) <= 1.75  # its floor is concreted
    # 8 mm weigh 0.395 kg/m; the chamber of 20 m3 is wide, and its slabs that people can lift are many and narrow
    assert 0.85 <= taken["bar_m"] * 0.395 / bars_kg <= (2.40 if size == 20 else 1.75)


@pytest.mark.parametrize("gas_m3", BOWL_LIST)
def test_hemisphere_on_a_bowl_of_the_radius_of_the_indian_plants(gas_m3):
    radius_m, bricks, bags, chips, sand = BOWL_LIST[gas_m3]
    taken = needed(bill(for_volume(shape().vessel(radius_m).inside_m3)))
    assert 1.30 <= taken["cement_kg"] / 50 / bags <= 1.65
    assert 0.60 <= taken["bricks"] / bricks <= 0.85
    assert 0.70 <= taken["sand_m3"] / (sand * CFT_M3) <= 0.95
    assert 0.80 <= taken["gravel_m3"] / (chips * CFT_M3) <= 1.35


def chinese(inside_m3, dome):
    return needed(bill(for_volume(inside_m3, form=shape("cylinder_cap"), dome=dome)))


@pytest.mark.parametrize("dome", ["brick", "concrete"])
def test_chinese_list_of_eight_cubic_metres_is_under_ours_by_item(dome):
    """Ours over 1000 kg, 2 m3, 600 bricks; with our three tight coats, outlet chamber, mixing tank, and waste."""
    taken = chinese(8.34, dome)
    assert 1.1 <= taken["cement_kg"] / 1000 <= 1.5
    assert 1.0 <= taken["sand_m3"] / 2.0 <= 1.35
    assert 1.5 <= taken["bricks"] / 600 <= 2.2


@pytest.mark.parametrize(("inside_m3", "step"), [(6.36, -0.10), (10.655, 0.10)])
@pytest.mark.parametrize("item", ["cement_kg", "sand_m3", "bricks"])
def test_six_and_ten_cubic_metres_take_about_a_tenth_less_and_more(inside_m3, step, item):
    """Their inside volumes differ by a quarter, 0.24 and 0.28: a rule of a tenth holds to within as much again."""
    ratio = chinese(inside_m3, "brick")[item] / chinese(8.34, "brick")[item]
    assert 0 < (ratio - 1) / step < 2.0


def bags_a_m3(plant):
    return needed(bill(plant))["cement_kg"] / 50 / plant.vessel.inside_m3


@given(st.floats(8, 24.9), st.sampled_from(["cap_on_bowl", "cylinder_cap"]), st.sampled_from(["brick", "ferrocement"]))
def test_cement_of_plants_from_8_m3_is_one_and_a_half_to_three_and_a_half_bags_a_cubic_metre(inside_m3, name, dome):
    assert 1.5 <= bags_a_m3(for_volume(inside_m3, form=shape(name), dome=dome)) <= 3.5


@given(st.floats(12, 24.9), st.sampled_from(["cap_on_bowl", "cylinder_cap"]))
def test_a_plant_under_a_concrete_dome_comes_into_that_from_12_m3(inside_m3, name):
    assert 1.5 <= bags_a_m3(for_volume(inside_m3, form=shape(name), dome="concrete")) <= 3.5


@given(st.floats(1.01, 5), st.sampled_from(["cap_on_bowl", "cylinder_cap"]), st.sampled_from(["brick", "ferrocement", "concrete"]))
def test_a_small_plant_takes_more_than_that_its_shell_being_large_for_what_it_holds(inside_m3, name, dome):
    assert 3.5 < bags_a_m3(for_volume(inside_m3, form=shape(name), dome=dome)) < 9.0
