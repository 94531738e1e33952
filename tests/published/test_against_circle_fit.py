"""Circles through points by the library `circle_fit`, by an optimiser of `scipy` and by least squares of `numpy`."""

from math import cos, hypot, pi, radians, sin

import circle_fit
import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import least_squares

from calc import setting_out as o


def radii(centre_x, centre_y, radius, count, bumps):
    """Radii from a peg to a circle whose centre lies off it, with bumps."""
    found = []
    for k in range(count):
        angle = 2 * pi * k / count
        along = centre_x * cos(angle) + centre_y * sin(angle)
        found.append(along + (radius**2 - (centre_x**2 + centre_y**2 - along**2)) ** 0.5 + bumps[k % len(bumps)])
    return found


BUMPS = st.lists(st.floats(-0.01, 0.01), min_size=12, max_size=12)


@given(st.floats(-0.03, 0.03), st.floats(-0.03, 0.03), st.floats(1, 2.5), st.integers(6, 12), BUMPS)
def test_a_circle_agrees_with_circle_fits_and_an_optimiser(east, north, radius, count, bumps):
    read = radii(east, north, radius, count, bumps)
    found = o.circle(read)
    points = [(r * cos(2 * pi * k / count), r * sin(2 * pi * k / count)) for k, r in enumerate(read)]
    xc, yc, rc, _ = circle_fit.taubinSVD(numpy.array(points))
    assert found.radius_m == pytest.approx(rc, abs=0.001)
    assert found.off_centre_m == pytest.approx(hypot(xc, yc), abs=0.001)
    best = least_squares(lambda p: [hypot(x - p[0], y - p[1]) - p[2] for x, y in points], [0, 0, radius]).x
    assert found.radius_m == pytest.approx(best[2], abs=0.001)
    assert found.off_centre_m == pytest.approx(hypot(best[0], best[1]), abs=0.001)
    errors = [hypot(x - best[0], y - best[1]) - best[2] for x, y in points]
    assert found.out_of_round_m == pytest.approx(max(errors) - min(errors), abs=0.001)


def test_the_centre_is_told_towards_its_reading():
    assert o.circle(radii(0.02, 0, 1.5, 8, [0])).towards_deg == pytest.approx(0, abs=0.1)
    assert o.circle(radii(0, 0.02, 1.5, 8, [0])).towards_deg == pytest.approx(90, abs=0.1)


def test_unequal_bearings_are_fitted_too():
    angles = [0, 30, 80, 150, 200, 290, 330]
    read = [1.5 + 0.015 * cos(radians(a)) - 0.01 * sin(radians(a)) for a in angles]
    found = o.circle(read, angles)
    assert (found.radius_m, found.off_centre_m) == (pytest.approx(1.5), pytest.approx(hypot(0.015, 0.01)))
    assert found.out_of_round_m == pytest.approx(0, abs=1e-9)


FITS = [circle_fit.taubinSVD, circle_fit.prattSVD, circle_fit.hyperSVD, circle_fit.least_squares_circle]


@pytest.mark.parametrize("fit", FITS, ids=lambda fit: fit.__name__)
@pytest.mark.parametrize(
    ("read", "bearings"),
    [
        ([1.520, 1.512, 1.500, 1.488, 1.480, 1.486, 1.498, 1.515], None),
        ([1.350, 1.362, 1.355, 1.341, 1.349, 1.358], None),
        ([1.30, 1.31, 1.32, 1.31, 1.29, 1.28, 1.29, 1.30], [0, 40, 85, 130, 190, 230, 280, 320]),
        ([1.5 + 0.02 * cos(3 * pi * k / 4) for k in range(8)], None),
    ],
    ids=["off centre", "out of round", "unequal bearings", "three lobes"],
)
def test_radii_as_read_with_a_tape(fit, read, bearings):
    found = o.circle(read, bearings)
    ways = [radians(each) for each in bearings or [360 * k / len(read) for k in range(len(read))]]
    east, north, radius, _ = fit(numpy.array([(r * cos(way), r * sin(way)) for r, way in zip(read, ways, strict=True)]))
    assert found.radius_m == pytest.approx(radius, abs=0.001)
    assert (found.off_centre_m * cos(radians(found.towards_deg)), found.off_centre_m * sin(radians(found.towards_deg))) == pytest.approx(
        (east, north), abs=0.001
    )
    errors = [hypot(r * cos(way) - east, r * sin(way) - north) - radius for r, way in zip(read, ways, strict=True)]
    assert found.out_of_round_m == pytest.approx(max(errors) - min(errors), abs=0.001)


@given(st.lists(st.floats(1.47, 1.53), min_size=6, max_size=16))
def test_the_three_numbers_are_the_least_squares_of_numpy(read):
    ways = [2 * pi * k / len(read) for k in range(len(read))]
    rows = numpy.array([(1.0, cos(way), sin(way)) for way in ways])
    (radius, east, north), *_ = numpy.linalg.lstsq(rows, numpy.array(read), rcond=None)
    found = o.circle(read)
    assert found.radius_m == pytest.approx(radius)
    assert found.off_centre_m == pytest.approx(hypot(east, north), abs=1e-9)
    left = numpy.array(read) - rows @ numpy.array([radius, east, north])
    assert found.out_of_round_m == pytest.approx(numpy.ptp(left), abs=1e-9)
