"""Setting out by hand and from memory, to be confirmed: right angles and circles as surveyors' books work them; the domes of
GGC 2047 (Nepal, 1994, dimensions from memory) and Fulford's hemisphere on a bowl (design notes, 2017-18).
"""

from math import hypot, sqrt

import pytest

from calc import setting_out as o
from calc import strings
from calc.designs import drawing
from calc.vessel import Vessel

GGC8 = drawing(Vessel(1.35, 0.70, 1.05, "flat"), 1.27, (1.7, 1.3, 0.65), form="cylinder_cap")
SIZES = {  # inside radius, rise [m]
    4: (1.02, 0.65),
    6: (1.22, 0.68),
    8: (1.35, 0.70),
    10: (1.54, 0.77),
    15: (1.75, 0.78),
    20: (1.99, 0.88),
}


@pytest.mark.parametrize(
    ("short_m", "long_m", "across_m", "right"), [(3, 4, 5, True), (1.5, 2.0, 2.5, True), (0.9, 1.2, 1.5, True), (3, 4, 5.05, False)]
)
def test_right_angles(short_m, long_m, across_m, right):
    assert o.right_angle(short_m, long_m, across_m)[1] is right


def test_a_rectangle_four_by_three():
    # sin = (5.02^2 - 4.98^2) / (4 x 4 x 3) = 0.4 / 48
    assert o.rectangle(4, 3, 5.02, 4.98).skew_deg == pytest.approx(0.4775, abs=0.0005)


def test_eight_radii():
    found = o.circle([1.500, 1.515, 1.520, 1.512, 1.498, 1.486, 1.480, 1.488])
    # mean 11.999 / 8; a = 2/8 x (1.500 - 1.498 + 0.70711 x (1.515 - 1.512 - 1.486 + 1.488)) and so for b
    assert found.radius_m == pytest.approx(11.999 / 8, abs=1e-9)
    east = 0.25 * (1.500 - 1.498 + sqrt(0.5) * (1.515 - 1.512 - 1.486 + 1.488))
    north = 0.25 * (1.520 - 1.480 + sqrt(0.5) * (1.515 + 1.512 - 1.486 - 1.488))
    assert (east, north) == (pytest.approx(0.00138, abs=1e-5), pytest.approx(0.01937, abs=1e-5))
    assert found.off_centre_m == pytest.approx(hypot(east, north), abs=1e-9)
    assert found.out_of_round_m == pytest.approx(0.0021, abs=0.0001)


def test_ggc_4_profile():
    vessel = Vessel(1.02, 0.65, 0.86, "flat")
    assert vessel.sphere_radius_m == pytest.approx(1.130, rel=0.005)  # Fulford prints 1.130
    profile = dict(strings.dome_table(vessel, 0.2))
    for x, rise in ((0.0, 0.650), (0.4, 0.577), (0.8, 0.316), (1.0, 0.041)):
        by_hand = sqrt(1.1253**2 - x**2) - (1.1253 - 0.65)
        assert by_hand == pytest.approx(rise, abs=0.001)
        assert profile[x] == pytest.approx(rise, abs=0.001)


@pytest.mark.parametrize(("x", "depth"), [(0.5, 0.392), (0.75, 0.310), (1.0, 0.189)])
def test_the_bowl_of_a_hemisphere_on_a_bowl(x, depth):
    vessel = Vessel(1.275, 1.275, 0.0, "bowl", 0.4547)
    assert sqrt(2.015**2 - x**2) - (2.015 - 0.4547) == pytest.approx(depth, abs=0.001)
    assert dict(strings.bowl_table(vessel, 0.25))[x] == pytest.approx(depth, abs=0.001)


@pytest.mark.parametrize(("size", "radius_m", "rise_m"), [(size, *row) for size, row in SIZES.items()])
def test_the_string_centre_of_a_low_dome_lies_inside_the_digester(size, radius_m, rise_m):
    vessel = Vessel(radius_m, rise_m, 1.0, "flat")
    assert strings.dome_centre_m(vessel) == pytest.approx(rise_m - (radius_m**2 + rise_m**2) / (2 * rise_m))
    assert strings.dome_centre_m(vessel) < 0


@pytest.mark.parametrize(
    ("said", "head_m", "store_m3"),
    [
        ({"overflow_off_m": 0.05}, 0.997, 0.1105),
        ({"floor_off_m": -0.05}, 0.986, 0.1105),
        ({"floor_off_m": 0.05}, 0.873, -0.1105),
    ],
)
def test_what_a_level_error_does_to_ggc_8(said, head_m, store_m3):
    """50 mm of 1.7 x 1.3 m are 0.1105 m3."""
    built = strings.as_built(GGC8, **said)
    assert built.store_m3 - GGC8.levels.store_m3 == pytest.approx(store_m3, abs=1e-9)
    assert built.greatest_head_m == pytest.approx(head_m, abs=0.001)
