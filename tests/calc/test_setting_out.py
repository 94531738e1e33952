"""Setting out: right angles, heights, limits of a circle; string tables against the sphere."""

from math import cos, hypot, inf, nan, pi, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import setting_out as o
from calc import strings
from calc.designs import for_gas, for_volume
from calc.errors import Missing, OutOfRange, Unknown
from calc.vessel import Vessel, shape

PLANTS = [for_gas(2.0), for_volume(8.0, 24, form=shape("cylinder_cap", "flat")), for_volume(6.0, 24, form=shape("cylinder_cap", "cone"))]


@given(st.floats(1, 8), st.floats(1, 8), st.floats(-10, 10))
def test_the_skew_of_a_parallelogram_comes_back(length_m, width_m, skew_deg):
    across = width_m * sin(radians(skew_deg))
    up = width_m * cos(radians(skew_deg))
    found = o.rectangle(length_m, width_m, hypot(length_m + across, up), hypot(length_m - across, up))
    assert found.skew_deg == pytest.approx(skew_deg, abs=1e-6)
    assert found.wanted_m == pytest.approx(hypot(length_m, width_m))


@pytest.mark.parametrize(("second_m", "within"), [(5.0, True), (4.99, True), (4.989, False), (5.01, True)])
def test_diagonals_may_differ_by_a_centimetre(second_m, within):
    assert o.rectangle(4, 3, 5.0, second_m).within is within


def test_of_a_long_side_they_may_differ_by_more():
    assert o.rectangle(8, 3, 8.544, 8.530).within
    assert not o.rectangle(4, 3, 5.007, 4.993).within


@pytest.mark.parametrize("said", [(0, 3, 5, 5), (4, -3, 5, 5), (4, 3, nan, 5), (4, 3, 9, 1), (4, 3, 5, inf)])
def test_a_rectangle_that_cannot_be_is_refused(said):
    with pytest.raises(OutOfRange):
        o.rectangle(*said)


@given(st.floats(0.3, 3))
def test_3_4_5_holds_at_any_scale(scale):
    off, right = o.right_angle(3 * scale, 4 * scale, 5 * scale)
    assert right and off == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(("across_m", "right"), [(5.01, True), (5.011, False), (4.989, False), (4.99, True)])
def test_a_right_angle_is_off_by_a_centimetre_at_most(across_m, right):
    assert o.right_angle(3, 4, across_m)[1] is right


def test_a_tube_gives_the_mean_of_its_set_ups():
    assert o.tube_level([(0.5, 0.4)]) == pytest.approx(0.1)
    assert o.tube_level([(0.5, 0.4), (0.306, 0.2)]) == pytest.approx(0.103)


@pytest.mark.parametrize("readings", [[(0.5, 0.4), (0.3, 0.1935)], [(nan, 0.1)]])
def test_a_tube_with_a_bubble_is_refused(readings):
    with pytest.raises(OutOfRange):
        o.tube_level(readings)


def test_without_a_reading_there_is_no_height():
    with pytest.raises(Missing):
        o.tube_level([])
    with pytest.raises(Missing):
        o.closes([])


@pytest.mark.parametrize(
    ("rises_m", "closed"), [([0.1, -0.09], False), ([0.1, -0.093], True), ([0.1, -0.05, -0.042, 0.002], True), ([0.006], False)]
)
def test_a_loop_closes_by_the_root_of_its_set_ups(rises_m, closed):
    error, found = o.closes(rises_m)
    assert error == pytest.approx(sum(rises_m))
    assert found is closed


def test_diameters_alone_cannot_see_three_lobes():
    lobes = [1.5 + 0.02 * cos(3 * pi * k / 4) for k in range(8)]
    widths = {round(lobes[k] + lobes[k + 4], 9) for k in range(4)}
    assert widths == {3.0}
    assert o.circle(lobes).out_of_round_m == pytest.approx(0.04, abs=0.002)
    assert not o.round_enough(o.circle(lobes))[1]


@pytest.mark.parametrize("read", [[], [1.5] * 5])
def test_few_radii_are_not_enough(read):
    with pytest.raises(Missing):
        o.circle(read)


@pytest.mark.parametrize("read", [[1.5] * 5 + [0], [1.5] * 5 + [nan], [1.5, 1.6, 1.7, 1.6, 1.4, 1.2], [inf] * 6])
def test_radii_that_cannot_be_are_refused(read):
    with pytest.raises(OutOfRange):
        o.circle(read)


def test_bearings_all_alike_tell_nothing():
    with pytest.raises(OutOfRange):
        o.circle([1.5] * 6, [10] * 6)


@pytest.mark.parametrize(("off_m", "round_m", "told"), [(0.010, 0.020, (True, True)), (0.0101, 0.0201, (False, False))])
def test_limits_of_a_circle(off_m, round_m, told):
    assert o.round_enough(o.Circle(1.5, off_m, 0, round_m)) == told


# ---- strings


@given(st.floats(0.8, 2.2), st.floats(0.3, 1.0), st.floats(0.05, 0.5))
def test_a_dome_table_lies_on_the_sphere_of_its_string(radius_m, share, step_m):
    vessel = Vessel(radius_m, share * radius_m, 0.8, "flat")
    table = strings.dome_table(vessel, step_m)
    centre = strings.dome_centre_m(vessel)
    assert table[0] == (0.0, pytest.approx(vessel.dome_rise_m))
    assert table[-1] == (radius_m, pytest.approx(0, abs=1e-6))
    for x, rise in table:
        assert hypot(x, rise - centre) == pytest.approx(vessel.sphere_radius_m)


def test_the_rim_of_a_half_sphere_has_no_rise_whatever_its_rounding():
    assert strings.dome_table(Vessel(1.5662606015733957, 1.5662606015733957, 0.0, "bowl", 0.4), 0.5)[-1][1] == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("bottom", ["bowl", "cone"])
def test_a_floor_table_goes_from_the_middle_to_the_rim(bottom):
    vessel = Vessel(1.2, 0.5, 0.8, bottom, 0.4)
    table = strings.bowl_table(vessel, 0.3)
    assert [x for x, _ in table] == [0.0, 0.3, 0.6, 0.9, 1.2]
    assert table[0][1] == pytest.approx(0.4)
    assert table[-1][1] == pytest.approx(0, abs=1e-9)
    assert [depth for _, depth in table] == sorted((depth for _, depth in table), reverse=True)


def test_a_flat_floor_has_no_table():
    with pytest.raises(OutOfRange):
        strings.bowl_table(Vessel(1.2, 0.5, 0.8, "flat"))


@pytest.mark.parametrize("step_m", [0, -0.1, nan])
def test_a_step_that_cannot_be_is_refused(step_m):
    with pytest.raises(OutOfRange):
        strings.dome_table(PLANTS[0].vessel, step_m)


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: f"{plant.shape} {plant.vessel.bottom}")
def test_levels_below_the_string_differ_as_the_levels_do(plant):
    below = strings.below_string(plant, 0.30)
    levels, vessel = plant.levels, plant.vessel
    assert below["outlet_floor"] - below["overflow"] == pytest.approx(levels.overflow_m - levels.zero_line_m)
    assert below["floor_middle"] - below["crown"] == pytest.approx(vessel.crown_m)
    assert below["floor_middle"] - below["floor_edge"] == pytest.approx(vessel.bottom_depth_m)
    assert below["overflow"] - below["inlet_floor"] == pytest.approx(0.15)
    assert below["pit_edge"] == pytest.approx(0.30 + plant.pit_depth_m)
    assert below["spring"] - below["crown"] == pytest.approx(vessel.dome_rise_m)
    higher = strings.below_string(plant, 0.50)
    assert all(higher[place] - below[place] == pytest.approx(0.20) for place in below)


@pytest.mark.parametrize("string_m", [-0.1, 2.1, nan])
def test_a_string_that_cannot_be_is_refused(string_m):
    with pytest.raises(OutOfRange):
        strings.below_string(PLANTS[0], string_m)


@pytest.mark.parametrize(
    ("off_m", "found"), [(0, "within"), (0.005, "within"), (-0.0051, "outside"), (0.010, "outside"), (-0.0101, "rebuild")]
)
def test_levels_of_the_outlet(off_m, found):
    assert strings.level_verdict("overflow", off_m) == found == strings.level_verdict("outlet_floor", -off_m)


def test_a_level_without_a_limit_is_refused():
    with pytest.raises(Unknown):
        strings.level_verdict("crown", 0.0)
    with pytest.raises(OutOfRange):
        strings.level_verdict("overflow", nan)


def test_a_chamber_without_depth_is_refused():
    with pytest.raises(OutOfRange):
        strings.as_built(PLANTS[0], overflow_off_m=-5)


@pytest.mark.parametrize(
    ("end_m", "slope_deg", "wrong"),
    [
        (0.40, 60, ()),
        (0.30, 60, ()),
        (0.29, 60, ("low",)),
        (0.50, 60, ()),
        (0.51, 60, ("high",)),
        (0.40, 59, ("shallow",)),
        (0.40, 30, ("shallow",)),
        (0.40, 29, ("flat",)),
        (1.20, 20, ("high", "dry", "flat")),
    ],
)
def test_an_inlet_pipe(end_m, slope_deg, wrong):
    assert strings.inlet_pipe(end_m, slope_deg, PLANTS[1]) == wrong


@pytest.mark.parametrize(("end_m", "slope_deg"), [(-0.1, 60), (0.4, 91), (nan, 60)])
def test_an_inlet_pipe_that_cannot_be_is_refused(end_m, slope_deg):
    with pytest.raises(OutOfRange):
        strings.inlet_pipe(end_m, slope_deg, PLANTS[1])
