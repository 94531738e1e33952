"""Whole plants of several books: inside volumes, levels, and whether a bill of quantities makes sense.

Volumes not printed are worked here from printed dimensions; the bound on cement is derived, not printed: lists of brick
plants of 5.5 to 20 m3 lie between 1.7 and 2.5 bags of 50 kg for each m3 inside, and 1.5 to 3.5 leaves room for lean and
rich mixes. Plants under 6 m3 lie above it, having more shell for what they hold.
"""

from math import pi

import pytest
from fluids.geometry import V_partial_sphere
from scipy.optimize import brentq

from calc.bill import bill, needed
from calc.designs import design, drawing, for_gas
from calc.geometry import cap_area, cap_slant
from calc.levels import solve
from calc.sizing import feed_from_dung
from calc.vessel import Shape, Vessel, shape, vessel_of, volume_below

# ---- a hemisphere of 1.275 m on a bowl of a sphere of 2.015 m (Fulford)


def test_hemisphere_on_a_bowl():
    found = shape().vessel(1.275)
    deep = 2.015 - (2.015**2 - 1.275**2) ** 0.5  # 0.4547
    assert found.bottom_depth_m == pytest.approx(deep)
    assert found.dome_m3 == pytest.approx(2 / 3 * pi * 1.275**3)  # 4.341
    assert found.bottom_m3 == pytest.approx(pi * deep**2 * (3 * 2.015 - deep) / 3)  # 1.210
    assert found.inside_m3 == pytest.approx(5.551, abs=0.0005)
    assert found.inside_m3 == pytest.approx(V_partial_sphere(2.55, 1.275) + V_partial_sphere(4.03, deep))


def test_the_surfaces_of_its_bowl_and_dome():
    found = shape().vessel(1.275)
    assert cap_area(1.275, found.bottom_depth_m) == pytest.approx(2 * pi * 2.015 * found.bottom_depth_m)  # 5.757
    assert cap_slant(1.275, 1.275) == pytest.approx(pi / 2 * 1.275)  # 2.003: the string over the dome


# ---- cylinders


@pytest.mark.parametrize(("across_m", "inside_m3"), [(2.7, 8.340), (3.0, 10.655)])
def test_chinese_round_digesters_of_the_radii_printed(across_m, inside_m3):
    # pi/4 D^2 x 1 m; caps of D/5 and D/8: pi/6 [(3/4 + 1/25)/5 + (3/4 + 1/64)/8] D^3 = 0.13284 D^3
    by_hand = pi / 4 * across_m**2 + pi / 6 * (0.79 / 5 + 0.765625 / 8) * across_m**3
    assert shape("cylinder_cap").vessel(across_m / 2).inside_m3 == pytest.approx(by_hand)
    assert by_hand == pytest.approx(inside_m3, abs=0.0005)


def test_concrete_dome_of_four_cubic_metres():
    found = Vessel(1.020, 0.650, 0.860, "flat")
    # pi 1.0404 x 0.86 = 2.811; pi 0.65 (3.1212 + 0.4225) / 6 = 1.206
    assert found.inside_m3 == pytest.approx(2.811 + 1.206, abs=0.001)


# ---- a hemisphere of 4.68 m3 on a flat floor (ter Heegde, size 1): 3.0 m3 of slurry, 0.9 m3 of gas, 0.78 m3 dead


def test_levels_in_the_hemisphere_of_size_1():
    tank = vessel_of(4.68, Shape("hemisphere", 1.0, 0.0, "flat", 0.0))
    radius = (4.68 * 3 / (2 * pi)) ** (1 / 3)
    assert tank.radius_m == pytest.approx(radius)
    lowest, zero = (radius - brentq(lambda h, v=v: V_partial_sphere(2 * radius, h) - v, 0, radius) for v in (1.68, 0.78))
    found = solve(tank, zero, 2.0, 0.45)  # 0.9 m3 in the chamber
    assert found.lowest_m == pytest.approx(lowest, abs=1e-6)
    assert volume_below(tank, found.lowest_m) == pytest.approx(3.0)
    assert volume_below(tank, found.zero_line_m) == pytest.approx(3.9)
    assert found.zero_line_m - found.lowest_m == pytest.approx(0.242, abs=0.001)


# ---- bills


def fed(inside_m3, store_m3, dung_kg, form=None):
    return design(inside_m3, store_m3, form, feed=feed_from_dung(dung_kg))


ROUND = shape("cylinder_cap")
BOTTOMS = [shape("cylinder_cap", bottom) for bottom in ("bowl", "flat", "cone")]
BRICK_PLANTS = {
    **{f"hemisphere on a bowl, {gas} m3 a day, a third stored": fed(2.7755 * gas, gas / 3, 25 * gas) for gas in (2, 3, 4, 6)},
    **{f"Chinese round, {inside} m3": fed(inside, 0.1 * inside, 40, ROUND) for inside in (6.36, 8.34, 10.655, 12.395)},
    **{f"hemisphere on a bowl, {gas} m3 a day": for_gas(gas) for gas in (2, 3, 4, 6, 8)},
    **{f"cylinder on a {form.bottom}, {gas} m3 a day": for_gas(gas, form=form) for form in BOTTOMS for gas in (2, 4, 8)},
}


@pytest.mark.parametrize("plant", BRICK_PLANTS.values(), ids=BRICK_PLANTS)
def test_cement_of_a_brick_plant_is_one_and_a_half_to_three_and_a_half_bags_for_each_cubic_metre_inside(plant):
    bags = needed(bill(plant))["cement_kg"] / 50
    assert 1.5 <= bags / plant.vessel.inside_m3 <= 3.5


@pytest.mark.parametrize("form", [shape(), ROUND], ids=["hemisphere on a bowl", "cylinder"])
def test_the_larger_the_plant_the_less_cement_for_each_cubic_metre(form):
    plants = [for_gas(gas, form=form) for gas in (1, 2, 4, 8)]
    shares = [needed(bill(plant))["cement_kg"] / plant.vessel.inside_m3 for plant in plants]
    assert shares == sorted(shares, reverse=True)


@pytest.mark.parametrize("plant", BRICK_PLANTS.values(), ids=BRICK_PLANTS)
def test_bricks_of_a_plant_cover_its_dome_and_wall(plant):
    # each brick of 230 x 110 mm laid flat with its joint covers 0.0288 m2 of dome, standing 0.0192 m2 of wall
    tank = plant.vessel
    least = cap_area(tank.radius_m, tank.dome_rise_m) / 0.0288 + 2 * pi * tank.radius_m * tank.wall_height_m / 0.0192
    bricks = needed(bill(plant), "bricks", ["dome", "wall"])["bricks"]
    assert bricks == pytest.approx(1.10 * least)


def test_a_drawn_plant_is_bought_like_a_calculated_one():
    made = for_gas(4, form=ROUND)
    chamber = made.chamber_length_m, made.chamber_width_m, made.levels.overflow_m - made.levels.zero_line_m
    drawn = drawing(made.vessel, made.levels.zero_line_m, chamber, feed=made.feed)
    assert needed(bill(drawn)) == pytest.approx(needed(bill(made)))
