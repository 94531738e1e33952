"""The inside of a digester: levels and volumes there and back, where its parts meet, shapes, and what no vessel can be."""

from math import nan, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import vessel as v
from calc.errors import Missing, OutOfRange, Unknown
from calc.geometry import cap_sphere_radius
from calc.units import si
from calc.vessel import Vessel

RADIUS = st.floats(0.6, 2.2)
RISE = st.floats(0.3, 1.2)  # of the radius
WALL = st.one_of(st.just(0.0), st.floats(0.2, 1.5))


@st.composite
def tanks(draw):
    radius = draw(RADIUS)
    bottom = draw(st.sampled_from(v.BOTTOMS))
    depth = 0.0 if bottom == "flat" else draw(st.floats(0.05, 0.6)) * radius
    return Vessel(radius, draw(RISE) * radius, draw(WALL), bottom, depth)


@given(tanks(), st.floats(0.001, 0.999))
def test_the_level_comes_back_from_the_volume_below_it(tank, part):
    level_m = part * tank.crown_m
    assert v.level_of(tank, v.volume_below(tank, level_m)) == pytest.approx(level_m, abs=1e-9)


@given(tanks(), st.floats(0.001, 0.999))
def test_the_volume_comes_back_from_its_level(tank, part):
    volume_m3 = part * tank.inside_m3
    assert v.volume_below(tank, v.level_of(tank, volume_m3)) == pytest.approx(volume_m3, abs=1e-9)


@given(tanks())
def test_an_empty_vessel_stands_at_its_floor_and_a_full_one_at_its_crown(tank):
    assert v.volume_below(tank, 0) == pytest.approx(0, abs=1e-12)
    assert v.level_of(tank, 0) == 0
    assert v.volume_below(tank, tank.crown_m) == pytest.approx(tank.inside_m3)
    assert v.level_of(tank, tank.inside_m3) == tank.crown_m


@given(tanks())
def test_the_parts_meet_where_they_join(tank):
    below_dome = tank.bottom_m3 + tank.wall_m3
    assert v.volume_below(tank, tank.spring_m) == pytest.approx(below_dome)
    assert v.volume_below(tank, tank.bottom_depth_m) == pytest.approx(tank.bottom_m3)
    assert tank.inside_m3 - below_dome == pytest.approx(tank.dome_m3)


@given(tanks(), st.floats(0, 0.99), st.floats(0.001, 0.01))
def test_a_higher_level_is_more_volume(tank, part, more):
    assert v.volume_below(tank, (part + more) * tank.crown_m) > v.volume_below(tank, part * tank.crown_m)


@given(tanks(), st.sampled_from(["radius_m", "dome_rise_m", "wall_height_m", "bottom_depth_m"]))
def test_every_larger_dimension_holds_more(tank, name):
    sizes = {each: getattr(tank, each) for each in ("radius_m", "dome_rise_m", "wall_height_m", "bottom_depth_m")}
    bottom = "bowl" if name == "bottom_depth_m" and tank.bottom == "flat" else tank.bottom
    larger = Vessel(bottom=bottom, **{**sizes, name: sizes[name] + 0.01})
    assert larger.inside_m3 > tank.inside_m3


def test_levels_and_volumes_of_a_plain_tank():
    tank = Vessel(1.0, 1.0, 2.0, "flat")
    assert (tank.spring_m, tank.crown_m, tank.sphere_radius_m) == (2.0, 3.0, 1.0)
    assert tank.inside_m3 == pytest.approx(2 * pi + 2 / 3 * pi)
    assert v.volume_below(tank, 1.5) == pytest.approx(1.5 * pi)
    assert v.volume_below(tank, 2.5) == pytest.approx(2 * pi + 0.5 * pi - pi * 0.125 / 3)  # pi (t - t^3 / 3)


def test_half_way_up_a_cone_is_an_eighth_of_it():
    tank = Vessel(1.2, 0.5, 1.0, "cone", 0.4)
    assert v.volume_below(tank, 0.2) == pytest.approx(tank.bottom_m3 / 8)
    assert v.level_of(tank, tank.bottom_m3 / 8) == pytest.approx(0.2)


def test_one_centimetre_of_radius_is_one_and_a_half_percent_of_volume():
    # r 1.35, wall 1.05, rise 0.70: (2 pi 1.35 x 1.05 + pi 0.70 x 1.35) x 0.01 = 0.1188 m3 of 8.195
    as_drawn, as_built = Vessel(1.35, 0.70, 1.05, "flat"), Vessel(1.36, 0.70, 1.05, "flat")
    assert as_built.inside_m3 / as_drawn.inside_m3 - 1 == pytest.approx(0.0145, abs=0.0002)


@pytest.mark.parametrize(
    ("sizes", "error"),
    [
        ((0, 1.0, 1.0, "flat"), OutOfRange),
        ((1.0, 0, 1.0, "flat"), OutOfRange),
        ((1.0, nan, 1.0, "flat"), OutOfRange),
        ((1.0, None, 1.0, "flat"), Missing),
        ((1.0, 1.0, -0.1, "flat"), OutOfRange),
        ((1.0, 1.0, nan, "flat"), OutOfRange),
        ((1.0, 1.0, 1.0, "bowl", 0), OutOfRange),
        ((1.0, 1.0, 1.0, "cone", -0.1), OutOfRange),
        ((1.0, 1.0, 1.0, "flat", 0.3), OutOfRange),
        ((1.0, 1.0, 1.0, "pointed", 0.3), Unknown),
    ],
)
def test_a_vessel_that_cannot_be_built_is_none(sizes, error):
    with pytest.raises(error):
        Vessel(*sizes)


@pytest.mark.parametrize("tank", [Vessel(1.0, 1.0, 2.0, "flat"), Vessel(1.0, 1.0, 1.7, "cone", 0.3), Vessel(1.0, 1.0, 1.7, "bowl", 0.3)])
@pytest.mark.parametrize("bad", [-0.001, 3.001, nan])
def test_there_is_no_level_below_the_floor_or_over_the_crown(tank, bad):
    with pytest.raises(OutOfRange) as error:
        v.volume_below(tank, bad)
    assert (error.value.name, error.value.high) == ("level_m", 3.0)


def test_a_vessel_has_no_wall_and_a_bowl_unless_said():
    tank = Vessel(1.0, 1.0, bottom_depth_m=0.3)
    assert (tank.wall_m3, tank.bottom, tank.crown_m) == (0, "bowl", 1.3)


@pytest.mark.parametrize("bad", [-0.001, 8.4, nan])  # 8 pi / 3 is 8.378
def test_a_vessel_holds_no_more_than_its_inside(bad):
    with pytest.raises(OutOfRange):
        v.level_of(Vessel(1.0, 1.0, 2.0, "flat"), bad)


# ---- shapes


def test_the_round_shape_and_the_strings_of_its_two_spheres():
    tank = v.shape("cylinder_cap").vessel(1.5)  # 3 m across: rise 3/5, wall 1 m, dish 3/8
    assert (tank.dome_rise_m, tank.wall_height_m, tank.bottom, tank.bottom_depth_m) == (pytest.approx(0.6), 1.0, "bowl", 0.375)
    assert tank.sphere_radius_m == pytest.approx(0.725 * 3)  # (1/4 + 1/25) / (2/5)
    assert cap_sphere_radius(1.5, tank.bottom_depth_m) == pytest.approx(1.0625 * 3)  # (1/4 + 1/64) / (1/4)


def test_a_hemisphere_on_a_bowl_unless_said():
    tank = v.shape().vessel(2.0)
    assert (tank.dome_rise_m, tank.wall_height_m, tank.bottom) == (2.0, 0.0, "bowl")
    assert v.shape(rise=0.8).vessel(2.0).dome_rise_m == 1.6


@pytest.mark.parametrize(("bottom", "deep"), [("bowl", True), ("cone", True), ("flat", False)])
def test_a_cylinder_stands_on_any_of_three_bottoms(bottom, deep):
    tank = v.shape("cylinder_cap", bottom).vessel(1.2)
    assert tank.bottom == bottom
    assert (tank.bottom_depth_m > 0) is deep


@pytest.mark.parametrize(
    ("how", "error"),
    [
        ({"name": "egg"}, Unknown),
        ({"name": "cap_on_bowl", "bottom": "flat"}, Unknown),
        ({"name": "cylinder_cap", "bottom": "pointed"}, Unknown),
        ({"rise": 0.29}, OutOfRange),
        ({"rise": 1.21}, OutOfRange),
        ({"rise": nan}, OutOfRange),
    ],
)
def test_a_shape_without_a_record_is_none(how, error):
    with pytest.raises(error):
        v.shape(**how).vessel(1.2)


SHAPES = st.one_of(
    st.builds(lambda rise: v.shape(rise=rise), RISE),
    st.builds(lambda bottom, rise: v.shape("cylinder_cap", bottom, rise), st.sampled_from(v.BOTTOMS), RISE),
)


@given(SHAPES, st.floats(1, 25))
def test_a_vessel_of_a_volume_holds_it_in_its_proportions(form, inside_m3):
    found = v.vessel_of(inside_m3, form)
    assert found.inside_m3 == pytest.approx(inside_m3, abs=1e-9)
    assert found.dome_rise_m / found.radius_m == pytest.approx(form.rise)
    assert found.wall_height_m == form.wall_m


@given(st.floats(1, 3), RISE)
def test_bodies_without_a_wall_grow_with_the_cube_of_their_radius(inside_m3, rise):
    small, large = (v.vessel_of(each, v.shape(rise=rise)) for each in (inside_m3, 8 * inside_m3))
    assert large.radius_m / small.radius_m == pytest.approx(2)


@pytest.mark.parametrize("inside_m3", [0.99, 25.01, nan])
def test_only_household_plants_are_sized(inside_m3):
    with pytest.raises(OutOfRange):
        v.vessel_of(inside_m3, v.shape())


@given(st.integers(2, 6), st.integers(0, 11), st.integers(1, 5), st.integers(0, 11))
def test_a_vessel_in_feet_and_inches_is_the_same_in_metres(radius_ft, radius_in, rise_ft, rise_in):
    feet = Vessel(si(radius_ft, "ft") + si(radius_in, "in"), si(rise_ft, "ft") + si(rise_in, "in"), si(3, "ft"), "flat")
    metres = Vessel((12 * radius_ft + radius_in) * 0.0254, (12 * rise_ft + rise_in) * 0.0254, 0.9144, "flat")
    assert feet.inside_m3 == pytest.approx(metres.inside_m3)
    assert v.level_of(feet, 1.0) == pytest.approx(v.level_of(metres, 1.0))
