"""Bodies as triangles, by the library `trimesh`: volumes, areas and weights of what is turned round its axis.

A turned outline is a many-sided prism, of 360 sides: its volume is 0.005 % under the round one, its wall 0.001 %.
"""

from math import acos, cos, pi, sin

import numpy
import pytest
import trimesh

from calc import earth, ground, measuring
from calc import geometry as g
from calc.stability import uplift_n
from calc.takeoff import tight_area_m2
from calc.vessel import Vessel, shape, vessel_of, volume_below
from tests import section
from tests.section import BOWL, CONE, LIGHT, PLANTS, ROUND


def turned_m3(outline):
    """Volume of the body that an outline of (radius, height), from the axis round to the axis, makes when turned."""
    return float(trimesh.creation.revolve(numpy.array(outline), sections=360).volume)


def arc(radius_m, rise_m, from_m, steps=200):
    """Points of a cap from its rim to its crown, its rim plane at a height."""
    sphere_m = (radius_m**2 + rise_m**2) / (2 * rise_m)
    angle = acos(1 - rise_m / sphere_m)
    ways = numpy.linspace(angle, 0, steps)
    return [(sphere_m * sin(way), from_m + sphere_m * cos(way) - (sphere_m - rise_m)) for way in ways]


def dished_m3(plant, height_m):
    """The upright column within the outer radius, from the dished underside to a height over its deepest point."""
    radius_m, depth_m = plant.outer_radius_m, plant.vessel.bottom_depth_m
    dish = []
    if plant.vessel.bottom == "cone":
        dish = [(0.0, 0.0)]
    elif plant.vessel.bottom == "bowl":
        dish = [(x, depth_m - z) for x, z in reversed(arc(radius_m, depth_m, 0.0))]
    else:
        dish = [(0.0, 0.0)]
    rim = [(radius_m, depth_m), (radius_m, height_m), (0.0, height_m)]
    return turned_m3([*dish, *rim] if plant.vessel.bottom != "bowl" else [*dish[:-1], *rim])


@pytest.mark.parametrize("plant", [CONE, BOWL], ids=["cone", "bowl"])
def test_a_dished_floor_takes_no_soil_back_by_turned_bodies(plant):
    """Everything over the edge of the floor, from the pit's side to the outside of wall and dome; the dish is the plant's."""
    vessel, pit_m, edge_m = plant.vessel, plant.pit_diameter_m / 2, plant.vessel.bottom_depth_m
    top_m = vessel.crown_m + plant.shell_thickness_m + plant.cover_m
    whole_m3 = turned_m3([(0, edge_m), (pit_m, edge_m), (pit_m, plant.ground_m), (0, max(top_m, plant.ground_m))])
    sphere_m, thick_m = vessel.sphere_radius_m, plant.shell_thickness_m
    foot_m = ((sphere_m + thick_m) ** 2 - (sphere_m - vessel.dome_rise_m) ** 2) ** 0.5
    dome_m3 = turned_m3([(0, 0), *arc(foot_m, vessel.dome_rise_m + thick_m, 0.0)])
    wall_m3 = pi * (vessel.radius_m + plant.wall_thickness_m) ** 2 * vessel.wall_height_m
    assert ground.fill(plant).rammed_m3 == pytest.approx(whole_m3 - dome_m3 - wall_m3, rel=2e-3)


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: f"{plant.dome} {plant.vessel.bottom}")
def test_the_height_is_where_the_water_pushed_aside_weighs_a_fifth_less_than_the_plant(plant):
    weight_n = sum(ground.weights_n(plant).values())
    height_m = ground.float_height_m(plant)
    assert height_m > plant.vessel.bottom_depth_m
    assert 1.2 * 9810 * dished_m3(plant, height_m) == pytest.approx(weight_n, rel=2e-4)


@pytest.mark.parametrize("plant", [CONE, BOWL, LIGHT], ids=lambda plant: f"{plant.dome} {plant.vessel.bottom}")
def test_a_base_alone_lifts_while_the_water_stands_within_its_dish(plant):
    height_m, depth_m, radius_m = ground.float_height_m(plant, ("base",)), plant.vessel.bottom_depth_m, plant.outer_radius_m
    held_m3 = ground.weights_n(plant)["base"] / (1.2 * 9810)
    if plant.vessel.bottom == "cone":
        radius_at = radius_m * height_m / depth_m
        wet_m3 = pi * radius_at**2 * height_m / 3 if height_m <= depth_m else None
    else:
        sphere_m = (radius_m**2 + depth_m**2) / (2 * depth_m)
        wet_m3 = pi * height_m**2 * (3 * sphere_m - height_m) / 3 if height_m <= depth_m else None
    if wet_m3 is None:  # a shallow dish is drowned before its base lifts
        wet_m3 = dished_m3(plant, height_m)
    assert wet_m3 == pytest.approx(held_m3, rel=2e-4)


def test_the_weights_of_a_flat_plant_by_turned_bodies():
    weights = ground.weights_n(ROUND)
    outer_m = 1.35 + 0.11 + 0.015
    assert weights["base"] == pytest.approx(24_000 * pi * outer_m**2 * 0.10)
    assert weights["wall"] == pytest.approx(18_000 * pi * (1.46**2 - 1.35**2) * 1.05)
    sphere_m = (1.35**2 + 0.70**2) / 1.40
    inside = [(x, z) for x, z in arc(1.35, 0.70, 0.0)]
    foot_m = ((sphere_m + 0.075) ** 2 - (sphere_m - 0.70) ** 2) ** 0.5
    outside = [(x, z) for x, z in arc(foot_m, 0.775, 0.0)]
    shell_m3 = turned_m3([(0, 0), *outside]) - turned_m3([(0, 0), *inside])
    assert weights["dome"] == pytest.approx(24_000 * shell_m3, rel=1e-3)
    mound_m = 1.75 + 0.075 + ROUND.cover_m - ROUND.ground_m
    column_m3 = turned_m3([(0, 1.05), (outer_m, 1.05), (outer_m, ROUND.ground_m), (0, ROUND.ground_m + mound_m)])
    soil_m3 = column_m3 - turned_m3([(0, 0), *outside])
    assert weights["soil"] == pytest.approx(15_000 * soil_m3, rel=1e-3)


@pytest.mark.parametrize(
    "tank",
    [
        Vessel(1.275, 1.275, 0.0, "bowl", 0.4547),
        Vessel(1.35, 0.70, 1.05, "flat"),
        Vessel(1.35, 0.54, 1.0, "bowl", 0.3375),
        Vessel(1.2, 0.5, 0.8, "cone", 0.3),
        Vessel(1.143, 1.2192, 0.0, "bowl", 0.6096),
    ],
    ids=["hemisphere on a bowl", "cylinder on a flat floor", "cylinder on a bowl", "cylinder on a cone", "more than a hemisphere"],
)
def test_the_section_turned_round_its_axis_encloses_the_inside_volume(tank):
    around = 120
    many_sided = sin(2 * pi / around) / (2 * pi / around)  # a regular polygon against its circle
    heights = numpy.linspace(0, tank.crown_m, 401)
    profile = [(0.0, 0.0), *((section.radius_m(tank, z), z) for z in heights[:-1] if z > 0 or tank.bottom == "flat"), (0.0, tank.crown_m)]
    turned = trimesh.creation.revolve(numpy.array(profile), sections=around)
    assert turned.is_watertight
    assert tank.inside_m3 == pytest.approx(turned.volume / many_sided, rel=2e-4)


# ---- the bodies of solid geometry, turned or made ready by the library


def turned(outline):
    """The closed mesh of an outline of (radius, height) turned round its axis in 360 sides."""
    made = trimesh.creation.revolve(numpy.array(outline), sections=360)
    assert made.is_watertight
    return made


def curved_m2(mesh):
    """The area of a turned mesh without the faces that lie flat."""
    return float(mesh.area_faces[abs(mesh.face_normals[:, 2]) < 0.999999].sum())


CAPS = [(1.35, 0.70), (1.275, 1.275), (1.143, 1.2192), (0.9, 1.6), (1.5, 0.375)]  # flat, a hemisphere, more than one, a dish


@pytest.mark.parametrize(("rim_m", "rise_m"), CAPS)
def test_a_cap_by_triangles(rim_m, rise_m):
    body = turned([(0.0, 0.0), *arc(rim_m, rise_m, 0.0)])
    assert g.cap_volume(rim_m, rise_m) == pytest.approx(body.volume, rel=2e-4)
    assert g.cap_area(rim_m, rise_m) == pytest.approx(curved_m2(body), rel=2e-4)
    slant_m = sum(numpy.hypot(*(numpy.diff(numpy.array(arc(rim_m, rise_m, 0.0)), axis=0).T)))
    assert g.cap_slant(rim_m, rise_m) == pytest.approx(slant_m, rel=1e-5)


@pytest.mark.parametrize(("inside_m", "thick_m", "high_m"), [(1.35, 0.11, 1.05), (0.3, 0.07, 0.6)])
def test_a_ring_wall_and_its_hole_are_the_annulus_and_the_cylinder_of_the_library(inside_m, thick_m, high_m):
    wall = trimesh.creation.annulus(r_min=inside_m, r_max=inside_m + thick_m, height=high_m, sections=360)
    hole = trimesh.creation.cylinder(radius=inside_m, height=high_m, sections=360)
    assert g.ring_volume(inside_m, thick_m, high_m) == pytest.approx(wall.volume, rel=2e-4)
    assert g.cylinder_volume(inside_m, high_m) == pytest.approx(hole.volume, rel=2e-4)
    assert g.cylinder_wall_area(inside_m, high_m) == pytest.approx(curved_m2(hole), rel=2e-4)


@pytest.mark.parametrize(("rim_m", "deep_m"), [(1.2, 0.3), (1.0, 1.0), (0.15, 0.25)])
def test_a_cone_is_the_cone_of_the_library(rim_m, deep_m):
    body = trimesh.creation.cone(radius=rim_m, height=deep_m, sections=360)
    assert g.cone_volume(rim_m, deep_m) == pytest.approx(body.volume, rel=2e-4)
    assert g.cone_area(rim_m, deep_m) == pytest.approx(curved_m2(body), rel=2e-4)


@pytest.mark.parametrize(("lower_m", "upper_m", "high_m"), [(1.1, 1.6, 1.8), (0.11, 0.15, 0.25), (1.6, 1.1, 0.5)])
def test_a_frustum_by_triangles_as_a_pit_and_as_a_bucket(lower_m, upper_m, high_m):
    body = turned([(0.0, 0.0), (lower_m, 0.0), (upper_m, high_m), (0.0, high_m)])
    assert g.frustum_volume(lower_m, upper_m, high_m) == pytest.approx(body.volume, rel=2e-4)
    assert measuring.measure_l_from_rod(2 * upper_m, 2 * lower_m, high_m) == pytest.approx(1000 * body.volume, rel=2e-4)


@pytest.mark.parametrize(("rim_m", "rise_m"), CAPS)
def test_a_shell_is_the_outer_cap_less_the_inner_one(rim_m, rise_m):
    sphere_m = (rim_m**2 + rise_m**2) / (2 * rise_m)
    foot_m = ((sphere_m + 0.07) ** 2 - (sphere_m - rise_m) ** 2) ** 0.5
    outer, inner = (turned([(0.0, 0.0), *arc(*cap, 0.0, 200)]).volume for cap in ((foot_m, rise_m + 0.07), (rim_m, rise_m)))
    assert g.shell_volume(rim_m, rise_m, 0.07) == pytest.approx(outer - inner, rel=1e-3)


# ---- pits and whole vessels


@pytest.mark.parametrize(("dish_m", "slope"), [(0.0, 0.0), (0.4, 0.0), (0.0, 0.5), (0.4, 0.75)])
def test_a_round_pit_with_its_dish_and_its_slope_by_triangles(dish_m, slope):
    top = [(1.6 + slope * 1.8, 1.8), (0.0, 1.8)]
    dish = [(x, -z) for x, z in reversed(arc(1.6, dish_m, 0.0))] if dish_m else [(0.0, 0.0), (1.6, 0.0)]
    assert earth.pit_volume(1.6, 1.8, dish_m, slope) == pytest.approx(turned([*dish, *top]).volume, rel=2e-4)


@pytest.mark.parametrize("slope", [0.0, 0.5, 1.5])
def test_a_pit_with_corners_is_the_hull_of_its_eight(slope):
    run_m = slope * 1.2
    low = [(x, y, 0.0) for x in (0, 2.1) for y in (0, 1.5)]
    high = [(x, y, 1.2) for x in (-run_m, 2.1 + run_m) for y in (-run_m, 1.5 + run_m)]
    body = trimesh.convex.convex_hull(numpy.array(low + high))
    assert earth.rectangle_pit_volume(2.1, 1.5, 1.2, slope) == pytest.approx(body.volume)


def up_to(tank, level_m, steps=240):
    """The mesh of what stands in a vessel up to a level."""
    heights = sorted({*numpy.linspace(0, level_m, steps), *(edge for edge in (tank.bottom_depth_m, tank.spring_m) if edge < level_m)})
    points = [(section.radius_m(tank, z), z) for z in heights]
    return turned([(0.0, 0.0), *(point for point in points if point[0] > 1e-6), (0.0, level_m)])


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: f"{plant.dome} {plant.vessel.bottom}")
def test_what_stands_below_the_levels_of_a_plant_by_triangles(plant):
    tank, levels = plant.vessel, plant.levels
    zero_m3, lowest_m3 = (up_to(tank, level_m).volume for level_m in (levels.zero_line_m, levels.lowest_m))
    assert volume_below(tank, levels.zero_line_m) == pytest.approx(zero_m3, rel=2e-4)
    assert volume_below(tank, levels.lowest_m) == pytest.approx(lowest_m3, rel=2e-4)
    assert levels.store_m3 == pytest.approx(zero_m3 - lowest_m3, rel=1e-3)


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: f"{plant.dome} {plant.vessel.bottom}")
def test_the_inside_of_a_plant_by_triangles(plant):
    assert plant.vessel.inside_m3 == pytest.approx(up_to(plant.vessel, plant.vessel.crown_m).volume, rel=2e-4)


@pytest.mark.parametrize("form", [shape(), shape("cylinder_cap"), shape("cylinder_cap", "cone")], ids=["bowl", "dish", "cone"])
@pytest.mark.parametrize("wanted_m3", [2.0, 8.0, 20.0])
def test_a_vessel_sized_for_a_volume_encloses_it(form, wanted_m3):
    tank = vessel_of(wanted_m3, form)
    assert up_to(tank, tank.crown_m).volume == pytest.approx(wanted_m3, rel=2e-4)


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: f"{plant.dome} {plant.vessel.bottom}")
def test_the_tight_plaster_covers_the_mesh_down_to_ten_centimetres_below_the_lowest_slurry(plant):
    body, down_m = up_to(plant.vessel, plant.vessel.crown_m), plant.levels.lowest_m - 0.10
    above = body.slice_plane((0, 0, down_m), (0, 0, 1))
    assert down_m > 0
    assert tight_area_m2(plant) == pytest.approx(above.area, rel=5e-4)


def test_the_water_that_a_cylinder_pushes_aside_weighs_as_much_as_it_lifts():
    body = trimesh.creation.cylinder(radius=1.45, height=0.8, sections=360)
    assert uplift_n(1.45, 0.8) == pytest.approx(9810 * body.volume, rel=2e-4)


def test_turned_bodies_are_known_to_a_five_thousandth():
    # a ball of 1.5 m, 4/3 pi 3.375 = 14.1372 m3, turned like the rest
    half = [(1.5 * sin(way), -1.5 * cos(way)) for way in numpy.linspace(0, pi, 400)]
    assert turned([(0.0, -1.5), *half[1:-1], (0.0, 1.5)]).volume == pytest.approx(14.1372, rel=2e-4)
