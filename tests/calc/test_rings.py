"""Courses of a brick dome and their bricks: against the sphere, the circle and the whole dome's number of bricks."""

from math import cos, hypot, nan, pi

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import rings, strings
from calc import sources as s
from calc.errors import Missing, OutOfRange
from calc.masonry import Brick, dome_shell
from calc.vessel import Vessel

BRICK = Brick(0.23, 0.11, 0.07)
HALF_SPHERE = Vessel(1.5, 1.5, 0.0, "bowl", 0.4)
FLAT = Vessel(1.30, 0.55, 1.10, "flat")


@given(st.floats(1, 2.2), st.floats(0.35, 1.0), st.floats(0.005, 0.015))
def test_courses_lie_on_the_sphere_and_climb_to_the_crown(radius_m, share, joint_m):
    vessel = Vessel(radius_m, share * radius_m, 0.0 if share == 1 else 0.8, "bowl", 0.3)
    found = rings.courses(vessel, BRICK, joint_m)
    centre = strings.dome_centre_m(vessel)
    assert all(hypot(ring.radius_m, ring.height_m - centre) == pytest.approx(vessel.sphere_radius_m) for ring in found)
    heights = [0.0, *(ring.height_m for ring in found)]
    assert heights == sorted(heights)
    slant = vessel.sphere_radius_m * 2 * numpy.arctan2(vessel.dome_rise_m, radius_m)
    assert len(found) == int(slant / (0.11 + joint_m) + 1e-9)  # the breadth of the brick goes up the curve
    assert vessel.dome_rise_m - found[-1].height_m < 0.11 + joint_m


def test_no_courses_with_less_than_no_joint():
    with pytest.raises(OutOfRange):
        rings.courses(FLAT, BRICK, -0.001)


def test_the_first_course_of_a_half_sphere_by_hand():
    # 120 mm up a circle of 1.5 m: 1.5 cos(0.08) = 1.49520 m, 9.39464 m round; 39 x 0.240 = 9.36 m
    found = rings.ring(HALF_SPHERE, 1, BRICK)
    assert found.bricks == 39
    assert found.inside_joint_m == pytest.approx(2 * pi * 1.5 * cos(0.08) / 39 - 0.230)
    # the lower edge outside is 1.5 + 0.07 from the axis
    assert found.outside_joint_m == pytest.approx(2 * pi * 1.57 / 39 - 0.230)
    assert found.cut  # 22.9 mm


@given(st.floats(1.0, 2.2), st.floats(0.4, 1.0), st.integers(1, 6), st.booleans())
def test_bricks_and_joints_close_the_ring_and_no_joint_is_thinner_than_laid(radius_m, share, number, halves):
    vessel = Vessel(radius_m, share * radius_m, 0.8, "flat")
    found, course = rings.ring(vessel, number, BRICK, halves=halves), rings.courses(vessel, BRICK)[number - 1]
    face_m = 0.110 if halves else 0.230
    assert found.bricks * (face_m + found.inside_joint_m) == pytest.approx(2 * pi * course.radius_m)
    assert found.bricks * (face_m + 0.010) <= 2 * pi * course.radius_m < (found.bricks + 1) * (face_m + 0.010)
    assert 0.010 - 1e-9 <= found.inside_joint_m < found.outside_joint_m
    assert found.cut is (found.outside_joint_m > 0.020)


@given(st.floats(1.2, 2.2), st.floats(0.5, 1.0))
def test_all_rings_take_little_less_than_the_area_of_the_dome_does(radius_m, share):
    # whole bricks at the upper edge of each course, which is the shorter one: up to one brick and a wedge a course less
    vessel = Vessel(radius_m, share * radius_m, 0.8, "flat")
    laid = [rings.ring(vessel, course.number, BRICK).bricks for course in rings.courses(vessel, BRICK)[:-1]]
    whole = dome_shell(radius_m, share * radius_m, BRICK).bricks
    assert 0.80 * whole < sum(laid) < whole


@given(st.floats(1.2, 2.2), st.floats(0.5, 1.0))
def test_halves_open_less_than_whole_bricks(radius_m, share):
    vessel = Vessel(radius_m, share * radius_m, 0.8, "flat")
    whole, halves = rings.ring(vessel, 2, BRICK), rings.ring(vessel, 2, BRICK, halves=True)
    assert whole.bricks < halves.bricks <= 2 * whole.bricks + 2
    assert halves.outside_joint_m < whole.outside_joint_m


def test_two_whole_bricks_less_their_joint_are_a_brick_in_the_wall_of_a_wide_ring():
    # 4.8 m of radius: the ring hardly tapers, and no brick is cut
    wide = Vessel(2.5, 2.5, 0.0, "bowl", 0.5)
    assert not rings.ring(wide, 1, BRICK, halves=True).cut


def test_more_than_half_a_sphere_first_widens():
    vessel = Vessel(1.2, 1.8, 0.5, "flat")
    first, course = rings.ring(vessel, 1, BRICK), rings.courses(vessel, BRICK)[0]
    assert course.radius_m > 1.2
    assert first.bricks * (0.230 + first.inside_joint_m) == pytest.approx(2 * pi * 1.2)


@pytest.mark.parametrize("number", [0, -1, nan, 13])
def test_no_course_outside_the_dome(number):
    assert len(rings.courses(FLAT, BRICK)) == 12
    with pytest.raises(OutOfRange):
        rings.ring(FLAT, number, BRICK)


def test_no_course_without_its_number():
    with pytest.raises(Missing):
        rings.ring(FLAT, None, BRICK)


def test_the_crown_is_closed_with_no_ring_of_bricks():
    assert rings.ring(FLAT, 11, BRICK).bricks == 3
    with pytest.raises(OutOfRange) as error:
        rings.ring(FLAT, 12, BRICK)
    assert error.value.name == "bricks"


def test_a_weak_ring_without_cement_is_nothing():
    assert set(rings.weak_ring_m3(0).values()) == {0.0}
    for bad in (-1, nan):
        with pytest.raises(OutOfRange):
            rings.weak_ring_m3(bad)
    with pytest.raises(Missing):
        rings.weak_ring_m3(None)


@given(st.floats(1.2, 2.2), st.floats(0.4, 1.0), st.integers(1, 4), st.booleans())
def test_wedges_close_both_edges_with_one_joint_and_none_is_longer_than_a_brick(radius_m, share, number, halves):
    vessel = Vessel(radius_m, share * radius_m, 0.8, "flat")
    cut, laid = rings.wedges(vessel, number, BRICK, halves=halves), rings.courses(vessel, BRICK)
    lower_m = radius_m if number == 1 else laid[number - 2].radius_m
    outer = (vessel.sphere_radius_m + 0.07) / vessel.sphere_radius_m
    assert cut.bricks * (cut.inside_m + 0.010) == pytest.approx(2 * pi * laid[number - 1].radius_m)
    assert cut.bricks * (cut.outside_m + 0.010) == pytest.approx(2 * pi * lower_m * outer)
    assert cut.inside_m < cut.outside_m <= (0.110 if halves else 0.230) + 1e-9


def test_the_last_courses_under_the_crown_take_no_wedges():
    last = len(rings.courses(FLAT, BRICK))
    with pytest.raises(OutOfRange, match="inside_m"):
        rings.wedges(FLAT, last, BRICK, halves=True)
    with pytest.raises(OutOfRange, match="number"):
        rings.wedges(FLAT, last + 1, BRICK)
    with pytest.raises(OutOfRange, match="number"):
        rings.wedges(FLAT, 0, BRICK)


def test_both_rings_are_records_of_one_shape():
    assert {name: sorted(ring) for name, ring in s.RINGS.items()} == {
        "weak": ["cement", "lime", "sand"],
        "strong": ["bars", "rows", "width"],
    }
    assert all(isinstance(part, s.Figure) and part.book == "BD2" for ring in s.RINGS.values() for part in ring.values())


@pytest.mark.parametrize(("shell_m", "error"), [(-0.001, OutOfRange), (nan, OutOfRange), (None, Missing)])
def test_no_strong_ring_on_a_dome_without_a_thickness(shell_m, error):
    with pytest.raises(error):
        rings.strong_ring_width_m(shell_m)
