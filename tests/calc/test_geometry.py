"""Caps, cones, cylinders and shells: triangles done by hand, there and back, what grows with what, and what has no answer."""

import inspect
from math import asin, cos, nan, pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import geometry as g
from calc.errors import OutOfRange
from calc.units import si

LENGTH = st.floats(0.05, 5)
SHARE = st.floats(0.01, 1.99)  # of a sphere's radius: from a flat cap to nearly the whole sphere
ARGUMENTS = {
    "cap_sphere_radius": (1.2, 0.6),
    "cap_volume": (1.2, 0.6),
    "cap_area": (1.2, 0.6),
    "cap_slant": (1.2, 0.6),
    "cap_rise_at": (1.2, 0.6, 0.3),
    "cap_rim_radius": (1.2, 0.6),
    "sphere_depth": (1.2, 0.6),
    "sphere_cap_volume": (1.2, 0.6),
    "cylinder_volume": (1.2, 0.6),
    "cylinder_wall_area": (1.2, 0.6),
    "cone_volume": (1.2, 0.6),
    "cone_area": (1.2, 0.6),
    "frustum_volume": (1.2, 0.9, 0.6),
    "shell_volume": (1.2, 0.6, 0.07),
    "ring_volume": (1.2, 0.11, 0.6),
}


# ---- a sphere of 5 m cut 3 m from its axis, 4 m from its centre


def test_the_flat_cap_of_three_four_five():
    assert g.cap_sphere_radius(3, 1) == 5
    assert g.cap_volume(3, 1) == pytest.approx(14 * pi / 3)  # pi/6 (27 + 1)
    assert g.cap_area(3, 1) == pytest.approx(10 * pi)  # 2 pi 5 x 1
    assert g.cap_slant(3, 1) == pytest.approx(5 * asin(3 / 5))
    assert g.cap_rim_radius(5, 1) == 3


def test_the_rest_of_that_sphere_is_a_cap_of_more_than_a_hemisphere():
    assert g.cap_sphere_radius(3, 9) == 5
    assert g.cap_volume(3, 9) == pytest.approx(500 * pi / 3 - 14 * pi / 3)
    assert g.cap_area(3, 9) == pytest.approx(100 * pi - 10 * pi)
    assert g.cap_slant(3, 9) == pytest.approx(5 * (pi - asin(3 / 5)))
    assert g.cap_rim_radius(5, 9) == pytest.approx(3)


def test_a_hemisphere():
    assert g.cap_volume(2, 2) == pytest.approx(2 / 3 * pi * 8)
    assert g.cap_area(2, 2) == pytest.approx(2 * pi * 4)
    assert g.cap_slant(2, 2) == pytest.approx(pi)


def test_a_whole_sphere():
    assert g.sphere_cap_volume(3, 6) == pytest.approx(36 * pi)
    assert g.sphere_depth(3, 36 * pi) == pytest.approx(6, abs=1e-6)


def test_cones_and_frusta_of_three_four_five():
    assert g.cone_volume(3, 4) == pytest.approx(12 * pi)
    assert g.cone_area(3, 4) == pytest.approx(15 * pi)
    assert g.frustum_volume(1, 2, 3) == pytest.approx(7 * pi)  # a cone of 2 on 6 less one of 1 on 3: 8 pi - pi
    assert g.cylinder_volume(3, 4) == pytest.approx(36 * pi)
    assert g.cylinder_wall_area(3, 4) == pytest.approx(24 * pi)
    assert g.ring_volume(3, 1, 2) == pytest.approx(14 * pi)  # 2 (16 - 9)


# ---- against others


@given(LENGTH, st.floats(0.1, 1))
def test_the_slant_is_longer_than_the_chord_and_shorter_than_round_the_corner(rim, flatness):
    rise = flatness * rim
    assert sqrt(rim**2 + rise**2) < g.cap_slant(rim, rise) < rim + rise


@given(LENGTH, SHARE, st.floats(-1, 1))
def test_every_point_of_the_profile_lies_on_the_sphere(sphere, share, along):
    rise = share * sphere
    rim = g.cap_rim_radius(sphere, rise)
    height = g.cap_rise_at(rim, rise, along * rim)
    assert (along * rim) ** 2 + (height + sphere - rise) ** 2 == pytest.approx(sphere**2)


@given(LENGTH, st.floats(0.01, 1))
def test_the_profile_of_a_dome_ends_on_its_rim_and_starts_at_its_rise(rim, flatness):
    assert g.cap_rise_at(rim, flatness * rim, rim) == pytest.approx(0, abs=1e-6)
    assert g.cap_rise_at(rim, flatness * rim, 0) == pytest.approx(flatness * rim)


def test_beyond_the_rim_there_is_no_profile():
    with pytest.raises(OutOfRange):
        g.cap_rise_at(3, 1, 3.001)
    with pytest.raises(OutOfRange):
        g.cap_rise_at(3, 1, nan)


@given(LENGTH, LENGTH, st.floats(0.05, 3), st.floats(0.05, 0.95))
def test_a_frustum_cut_in_two_loses_nothing(lower, upper, height, at):
    middle = lower + (upper - lower) * at
    parts = g.frustum_volume(lower, middle, at * height) + g.frustum_volume(middle, upper, (1 - at) * height)
    assert g.frustum_volume(lower, upper, height) == pytest.approx(parts)


@given(LENGTH, LENGTH)
def test_a_frustum_lies_between_its_cone_and_its_cylinder(radius, height):
    assert g.frustum_volume(radius, radius, height) == pytest.approx(g.cylinder_volume(radius, height))
    assert g.frustum_volume(radius, 1e-9, height) == pytest.approx(g.cone_volume(radius, height))


@given(LENGTH, st.floats(0.1, 1.5))
def test_a_thin_shell_is_its_area_times_its_thickness(rim, flatness):
    thin = 1e-6 * rim
    # the foot of a flat dome stands flat, which adds a sliver of the rim
    assert g.shell_volume(rim, flatness * rim, thin) == pytest.approx(g.cap_area(rim, flatness * rim) * thin, rel=1e-4)


@given(LENGTH, st.floats(0.01, 0.5), LENGTH)
def test_a_ring_is_a_cylinder_less_the_hole(radius, thickness, height):
    hole = g.cylinder_volume(radius, height)
    assert g.ring_volume(radius, thickness, height) == pytest.approx(g.cylinder_volume(radius + thickness, height) - hole)


# ---- there and back


@given(LENGTH, SHARE)
def test_the_depth_in_a_sphere_comes_back_from_its_volume(sphere, share):
    depth = share * sphere
    assert g.sphere_depth(sphere, g.sphere_cap_volume(sphere, depth)) == pytest.approx(depth, abs=1e-9)


@given(LENGTH, SHARE)
def test_the_sphere_and_the_rim_come_back_from_each_other(sphere, share):
    rise = share * sphere
    assert g.cap_sphere_radius(g.cap_rim_radius(sphere, rise), rise) == pytest.approx(sphere)


# ---- everything grows with everything


LENGTHS = {"cap_sphere_radius", "cap_rise_at", "cap_rim_radius", "sphere_depth", "cap_slant"}  # lengths, not bodies


@pytest.mark.parametrize("name", sorted(set(ARGUMENTS) - LENGTHS))
@given(st.data())
def test_a_larger_measure_makes_a_larger_body(name, data):
    arguments = [each * data.draw(st.floats(0.8, 1.2)) for each in ARGUMENTS[name]]
    position = data.draw(st.integers(0, len(arguments) - 1))
    larger = list(arguments)
    larger[position] *= 1.01
    assert getattr(g, name)(*larger) > getattr(g, name)(*arguments)


# ---- what has no answer


MAY_BE_ZERO = {("cap_rise_at", 2), ("sphere_cap_volume", 1)}


def test_no_function_is_left_out_below():
    public = {n for n, f in inspect.getmembers(g, inspect.isfunction) if not n.startswith("_") and f.__module__ == g.__name__}
    assert public == set(ARGUMENTS)


@pytest.mark.parametrize(("name", "position"), [(n, p) for n, arguments in ARGUMENTS.items() for p in range(len(arguments))])
def test_a_length_that_is_none_is_no_length(name, position):
    bad_values = [nan] if (name, position) in MAY_BE_ZERO else [0, -0.5, nan]
    for bad in bad_values:
        arguments = list(ARGUMENTS[name])
        arguments[position] = bad
        with pytest.raises(OutOfRange):
            getattr(g, name)(*arguments)


@pytest.mark.parametrize(
    ("name", "arguments"),
    [
        ("cap_rim_radius", (1.0, 2.001)),
        ("sphere_depth", (1.0, 4.19)),  # 4/3 pi is 4.1888
        ("sphere_cap_volume", (1.0, 2.001)),
        ("sphere_cap_volume", (1.0, -0.001)),
    ],
)
def test_no_sphere_holds_more_than_itself(name, arguments):
    with pytest.raises(OutOfRange):
        getattr(g, name)(*arguments)


@pytest.mark.parametrize(
    ("name", "arguments", "bounds"),
    [
        ("cap_volume", (-1.0, 0.5), (0, None)),
        ("cap_rise_at", (1.2, 0.5, 1.3), (0, 1.2)),
        ("cap_rim_radius", (1.5, 3.1), (0, 3.0)),
        ("sphere_depth", (1.5, 14.2), (0, 4.5 * pi)),
        ("sphere_cap_volume", (1.5, 3.1), (0, 3.0)),
    ],
)
def test_the_error_tells_what_would_be_possible(name, arguments, bounds):
    with pytest.raises(OutOfRange) as error:
        getattr(g, name)(*arguments)
    assert (error.value.low, error.value.high) == (bounds[0], pytest.approx(bounds[1]) if bounds[1] else None)


def test_the_ends_of_a_sphere_are_still_of_it():
    assert g.cap_rim_radius(1.5, 3.0) == 0
    assert g.sphere_cap_volume(1.5, 0) == 0
    assert g.sphere_cap_volume(1.5, 3.0) == pytest.approx(4.5 * pi)


# ---- measured with a tape


@given(st.integers(2, 12), st.integers(0, 11), st.integers(1, 4), st.integers(0, 11))
def test_feet_and_inches_give_the_volume_of_the_same_metres(rim_ft, rim_in, rise_ft, rise_in):
    rim_m, rise_m = si(rim_ft, "ft") + si(rim_in, "in"), si(rise_ft, "ft") + si(rise_in, "in")
    inches = pi * (12 * rise_ft + rise_in) * (3 * (12 * rim_ft + rim_in) ** 2 + (12 * rise_ft + rise_in) ** 2) / 6
    assert g.cap_volume(rim_m, rise_m) == pytest.approx(inches * 0.0254**3)


def test_the_gauge_string_of_a_flat_dome():
    # rim 1.02 m, rise 0.65 m: R = (1.0404 + 0.4225) / 1.3 = 1.12531; 0.4 m out sqrt(R^2 - 0.16) - 0.47531 = 0.57651
    assert g.cap_rise_at(1.02, 0.65, 0.4) == pytest.approx(0.5765, abs=0.0001)
    assert g.cap_rise_at(1.02, 0.65, 0.8) == pytest.approx(sqrt(1.12531**2 - 0.64) - 0.47531, abs=0.0001)


def test_half_a_sphere_ends_at_its_equator():
    assert g.sphere_depth(2, 16 * pi / 3) == pytest.approx(2)
    assert g.cap_rise_at(2, 2, 1) == pytest.approx(2 * cos(asin(0.5)))
