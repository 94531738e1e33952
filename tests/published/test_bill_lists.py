"""Lists of materials of three countries against our take-off, item by item.

GGC 2047 brick plants (Nepal, 1994) and hemisphere-on-bowl plants (India): from memory, to be confirmed in print.
Chinese plants of brick and concrete (rural guidance notes): 8 m3 takes 1000 kg cement, 2 m3 sand, 0.6 m3 stone, 600 bricks;
6 m3 a tenth less, 10 m3 a tenth more, of cement, bricks and sand.

A list is a plant somebody built, with his thickness of wall and his mortar, not a law. So GGC is taken off twice:
lean, as such plants are built there (wall 23 cm, mortar 1:6, floor not concreted, dome, slab and outlet floor 1:2:4 of
7.5 cm, plaster 1:4 of 12 mm, one coat), and as this house builds (wall half-brick 1:4, floor concreted, dome 1:1.5:3, three
tight coats and four washes). Ours over the list, without waste (lean) and with it (house):

    size m3                    4     6     8    10    15    20
    lean, cement             0.89  0.91  0.88  0.82  0.75  0.74
    lean, bricks             0.79  0.82  0.82  0.71  0.79  0.77
    house, cement            1.5   1.6   1.6   1.5   1.4   1.4
    house without its floor  1.2   1.2   1.2   1.1   1.1   1.1
    house, bricks            0.5   0.5   0.5   0.5   0.5   0.5
    house, sand              0.8   0.9   0.9   0.9   1.0   1.1
    house, gravel            1.3   1.4   1.5   1.4   1.5   1.6
    house, bars              0.9 to 1.7, of 20 m3 2.4: many narrow slabs that people can lift

Hemisphere-on-bowl of equal radius: cement 1.4 to 1.55 times, bricks 0.64 to 0.79, sand 0.7 to 0.9, chips 0.85 to 1.25 times
the list. These ratios are told, not checked. Checked is what the lists themselves say:

- how far apart they are for plants that hold alike: nobody's list is nearer to the truth than that;
- what they leave out: no list has a concrete floor and three tight coats, so ours is under it without both, over it with both;
- how they change with size.
"""

from itertools import combinations
from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import geometry as g
from calc import sources as s
from calc.amounts import concrete_materials, mortar_materials, plaster_volume
from calc.bill import bill, needed
from calc.designs import drawing, for_volume
from calc.masonry import Brick, bricks_per_m3, single_leaf
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


def indian_inside_m3(gas_m3):
    return shape().vessel(BOWL_LIST[gas_m3][0]).inside_m3


# inside volume [m3] -> cement [kg], bricks, sand [m3] of the whole plant
NEPAL = {size: (50 * bags, bricks, SAND_BAG_M3 * sand) for size, (bricks, sand, _, bags, _) in GGC_LIST.items()}
INDIA = {indian_inside_m3(gas): (50 * bags, bricks, CFT_M3 * sand) for gas, (_, bricks, bags, _, sand) in BOWL_LIST.items()}
CHINA = {6.36: (900, 540, 1.8), 8.34: (1000, 600, 2.0), 10.655: (1100, 660, 2.2)}
ITEMS = {"cement_kg": 0, "bricks": 1, "sand_m3": 2}


def apart(item, lists):
    """The greatest ratio between two lists for plants that hold alike, where both have sizes."""
    place, found = ITEMS[item], 1.0
    for one, other in combinations(lists, 2):
        low, high = max(min(one), min(other)), min(max(one), max(other))
        for inside_m3 in np.linspace(low, high, 50):
            both = [np.interp(inside_m3, list(each), [row[place] for row in each.values()]) for each in (one, other)]
            found = max(found, max(both) / min(both))
    return float(found)


CEMENT_APART, SAND_APART = (apart(item, (NEPAL, INDIA, CHINA)) for item in ("cement_kg", "sand_m3"))
BRICKS_APART = apart("bricks", (NEPAL, INDIA))  # a Chinese plant is half of concrete


def test_the_lists_for_plants_that_hold_alike_are_a_third_to_a_half_apart():
    # 6.36 m3: Nepal 107, India 119, China 142 kg of cement for each cubic metre
    assert pytest.approx(142 / 107, abs=0.02) == CEMENT_APART
    # 4 m3: Nepal 1200, India 832 bricks, between 700 for 2.78 and 1000 for 5.55; 10 m3: India 3.2, China 2.1 m3 of sand
    assert pytest.approx(1200 / 832, abs=0.01) == BRICKS_APART
    assert pytest.approx(0.320 / 0.216, abs=0.05) == SAND_APART


def house(size):
    radius_m, wall_m, crown_m, floor_m, long_m, wide_m, deep_m = GGC_PLANTS[size]
    vessel = Vessel(radius_m, crown_m - wall_m, wall_m, "flat")
    return bill(drawing(vessel, floor_m, (long_m, wide_m, deep_m), dome="concrete", form="cylinder_cap"))


def indian(gas_m3):
    return bill(for_volume(indian_inside_m3(gas_m3)))


def without(rows, *stages):
    return needed(rows, stages={row.stage for row in rows} - set(stages))


def lean(size):
    """(bags of cement, bricks) of a plant as they are built there, without waste; manhole shaft of three sides, inlet tank 0.6 m."""
    radius_m, wall_m, crown_m, floor_m, long_m, wide_m, deep_m = GGC_PLANTS[size]
    rise_m, leaf_m = crown_m - wall_m, BRICK.breadth_m
    thick_m3 = pi * ((radius_m + 0.23) ** 2 - radius_m**2) * wall_m  # three tenths of it mortar, as rate analyses have
    outlet_m2 = 2 * (long_m + wide_m + 2 * leaf_m) * deep_m + 3 * (0.60 + leaf_m) * floor_m
    tank_m2 = pi * (0.60 + leaf_m) * 0.60
    thin = single_leaf(outlet_m2 + tank_m2, BRICK)
    slab_m3 = (long_m + 2 * leaf_m) * (wide_m + 2 * leaf_m) * 0.075
    inside_m2 = 2 * pi * radius_m * wall_m + g.cap_area(radius_m, rise_m) + outlet_m2 + tank_m2 + long_m * wide_m
    cement_kg = (
        mortar_materials(0.30 * thick_m3 + thin.mortar_to_buy_m3, 6).cement_kg
        + concrete_materials(g.shell_volume(radius_m, rise_m, 0.075) + 2 * slab_m3, 2, 4).cement_kg
        + mortar_materials(plaster_volume(inside_m2, 0.012, "brick"), 4).cement_kg
    )
    return cement_kg / 50, thick_m3 * bricks_per_m3(BRICK) + thin.bricks


@pytest.mark.parametrize("size", GGC_LIST)
def test_lean_cement_with_the_cement_that_is_spilt_is_no_farther_from_the_nepal_list_than_lists_from_each_other(size):
    assert 1 / CEMENT_APART <= 1.03 * lean(size)[0] / GGC_LIST[size][3] <= CEMENT_APART


@pytest.mark.parametrize("size", GGC_LIST)
def test_lean_bricks_bought_with_a_tenth_for_breakage_are_no_farther_from_it(size):
    assert 1 / BRICKS_APART <= 1.10 * lean(size)[1] / GGC_LIST[size][0] <= BRICKS_APART


PLANTS = [(house, size, GGC_LIST[size][3]) for size in GGC_LIST] + [(indian, gas, BOWL_LIST[gas][2]) for gas in BOWL_LIST]
listed = pytest.mark.parametrize(("made", "size", "bags"), PLANTS, ids=[f"{made.__name__} {size}" for made, size, _ in PLANTS])


@listed
def test_a_list_has_more_cement_than_ours_without_floor_and_tight_plaster_and_less_than_ours_with_them(made, size, bags):
    rows = made(size)
    assert without(rows, "base", "plaster")["cement_kg"] / 50 < bags < needed(rows)["cement_kg"] / 50


@listed
def test_without_its_concrete_floor_our_plant_takes_cement_like_the_lists(made, size, bags):
    assert 1 / CEMENT_APART <= without(made(size), "base")["cement_kg"] / 50 / bags <= CEMENT_APART


@pytest.mark.parametrize("size", GGC_LIST)
def test_our_wall_of_half_a_brick_takes_fewer_bricks_than_theirs_of_a_whole_one_and_no_fewer_than_half_of_lean(size):
    # dome and floor are of concrete in both; outlet and tank are alike, so that the wall alone is halved, with a tenth of waste
    bricks = needed(house(size))["bricks"]
    assert 0.5 * 1.10 * lean(size)[1] < bricks < 1.10 * lean(size)[1]
    assert bricks < GGC_LIST[size][0]


@pytest.mark.parametrize("size", GGC_LIST)
def test_sand_as_the_lists_and_gravel_more_than_the_list_only_by_the_concrete_floor(size):
    _, sand, gravel, _, _ = GGC_LIST[size]
    rows = house(size)
    assert 1 / SAND_APART <= needed(rows)["sand_m3"] / (sand * SAND_BAG_M3) <= SAND_APART
    assert without(rows, "base")["gravel_m3"] < gravel * SAND_BAG_M3 < needed(rows)["gravel_m3"]


@pytest.mark.parametrize("gas_m3", BOWL_LIST)
def test_sand_of_the_indian_plants_as_the_lists_and_bricks_and_chips_without_floor_under_theirs(gas_m3):
    _, bricks, _, chips, sand = BOWL_LIST[gas_m3]
    rows = indian(gas_m3)
    assert 1 / SAND_APART <= needed(rows)["sand_m3"] / (sand * CFT_M3) <= SAND_APART
    assert without(rows, "base")["gravel_m3"] < chips * CFT_M3
    assert needed(rows)["bricks"] < bricks  # ours are a quarter of a brick in the dome; how thick theirs is, is not known


@pytest.mark.parametrize(("made", "smallest", "largest", "listed"), [(house, 4, 20, 34 / 11), (indian, 1, 6, 29 / 9)])
def test_from_the_smallest_to_the_largest_cement_grows_as_the_list_does(made, smallest, largest, listed):
    # 34 bags to 11, 29 to 9: whole bags, so that half a bag at either end is 7 % of the ratio; and as much again
    assert needed(made(largest))["cement_kg"] / needed(made(smallest))["cement_kg"] == pytest.approx(listed, rel=0.14)


def chinese(inside_m3, dome):
    return bill(for_volume(inside_m3, form=shape("cylinder_cap"), dome=dome))


@pytest.mark.parametrize("dome", ["brick", "concrete"])
@pytest.mark.parametrize("inside_m3", CHINA)
def test_cement_and_sand_of_the_chinese_sizes_are_no_farther_from_their_list_than_lists_from_each_other(inside_m3, dome):
    """Their floor is of concrete like ours, their plaster is not of three tight coats: that one is left out of the cement."""
    cement_kg, _, sand_m3 = CHINA[inside_m3]
    rows = chinese(inside_m3, dome)
    assert 1 / CEMENT_APART <= without(rows, "plaster")["cement_kg"] / cement_kg <= CEMENT_APART
    assert 1 / SAND_APART <= needed(rows)["sand_m3"] / sand_m3 <= SAND_APART


@pytest.mark.parametrize(("inside_m3", "step"), [(6.36, -0.10), (10.655, 0.10)])
@pytest.mark.parametrize("item", ["cement_kg", "sand_m3", "bricks"])
def test_six_and_ten_cubic_metres_take_about_a_tenth_less_and_more(inside_m3, step, item):
    """Their inside volumes differ by a quarter, 0.24 and 0.28: a rule of a tenth holds to within as much again."""
    ratio = needed(chinese(inside_m3, "brick"))[item] / needed(chinese(8.34, "brick"))[item]
    assert 0 < (ratio - 1) / step < 2.0


def bags_a_m3(plant):
    return needed(bill(plant))["cement_kg"] / 50 / plant.vessel.inside_m3


@given(st.floats(8, 24.9), st.sampled_from(["cap_on_bowl", "cylinder_cap"]), st.sampled_from(["brick", "ferrocement"]))
def test_cement_of_plants_from_8_m3_is_one_and_a_half_to_three_and_a_half_bags_a_cubic_metre(inside_m3, name, dome):
    assert 1.5 <= bags_a_m3(for_volume(inside_m3, form=shape(name), dome=dome)) <= 3.5


@given(st.floats(12, 24.9), st.sampled_from(["cap_on_bowl", "cylinder_cap"]))
def test_a_plant_under_a_concrete_dome_comes_into_that_from_12_m3(inside_m3, name):
    assert 1.5 <= bags_a_m3(for_volume(inside_m3, form=shape(name), dome="concrete")) <= 3.5
