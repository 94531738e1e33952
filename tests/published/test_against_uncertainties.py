"""Measuring errors through formulas, by the derivatives of the library `uncertainties`."""

from math import pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat, umath, wrap

from calc import geometry as g
from calc import setting_out as o
from calc import sources as s
from calc import watertight as w
from calc.as_built import Length, as_built, mean_length
from calc.designs import for_gas, for_volume
from calc.vessel import Vessel, shape

BOTTOMS = {"flat": 0.0, "bowl": 0.34, "cone": 0.25}
lengths = st.builds(Length, st.floats(1.0, 2.8), st.floats(1e-4, 0.05))
shares = st.floats(0.3, 1.2)
errors = st.floats(1e-4, 0.05)


def plan(bottom, wall_m=1.0):
    return Vessel(1.35, 0.7, wall_m, bottom, BOTTOMS[bottom])


@given(st.sampled_from(sorted(BOTTOMS)), lengths, shares, errors, st.floats(0.5, 1.5), errors)
def test_errors_are_carried_as_the_uncertainties_package_carries_them(bottom, string, share, of_rise, wall_m, of_wall):
    """Through the rim radius and the volumes of cap, cylinder, bowl and cone from it, by its own derivatives."""
    rise_m = share * string.value_m
    found = as_built(plan(bottom), string, Length(rise_m, of_rise), Length(wall_m, of_wall))
    big_r, h, w = ufloat(string.value_m, string.uncertainty_m), ufloat(rise_m, of_rise), ufloat(wall_m, of_wall)
    rim = umath.sqrt(big_r**2 - (big_r - h) ** 2)
    depth = BOTTOMS[bottom]
    below = {"flat": 0.0, "bowl": pi * depth * (3 * rim**2 + depth**2) / 6, "cone": pi * rim**2 * depth / 3}[bottom]
    volume = pi * h * (3 * rim**2 + h**2) / 6 + pi * rim**2 * w + below
    assert found.inside_m3 == pytest.approx(volume.nominal_value)
    assert found.uncertainty_m3 == pytest.approx(volume.std_dev, rel=1e-6, abs=1e-12)


def test_an_error_of_the_tape_goes_into_the_volume_by_its_slopes():
    rim, rise, tape = 1.35, 0.70, 0.005
    found = wrap(g.cap_volume)(ufloat(rim, tape), ufloat(rise, tape))
    by_rim, by_rise = pi * rise * rim, pi * (rim**2 + rise**2) / 2  # dV/da and dV/dh of pi h (3 a^2 + h^2) / 6
    assert found.std_dev == pytest.approx(tape * sqrt(by_rim**2 + by_rise**2), rel=1e-4)


@pytest.mark.parametrize(("apart_m", "tape_m"), [(0.024, 0.005), (0.001, 0.005), (0.006, 0.004)])
def test_a_mean_length_adds_half_its_spread_and_the_tape_by_squares(apart_m, tape_m):
    found = mean_length([1.3 - apart_m / 2, 1.3 + apart_m / 2], tape_m)
    told = ufloat(1.3, tape_m) + ufloat(0, apart_m / 2)
    assert (found.value_m, found.uncertainty_m) == (pytest.approx(told.nominal_value), pytest.approx(told.std_dev))


@pytest.mark.parametrize("tape_m", [0.002, 0.005, 0.010])
def test_a_volume_from_mean_lengths_is_as_unsure_as_the_library_carries_it_through_both_steps(tape_m):
    strings, rises = [1.640, 1.652, 1.661], [0.695, 0.706]
    found = as_built(plan("flat", 0.0), mean_length(strings, tape_m), mean_length(rises, tape_m))
    string = ufloat(sum(strings) / 3, tape_m) + ufloat(0, 0.021 / 2)
    rise = ufloat(sum(rises) / 2, tape_m) + ufloat(0, 0.011 / 2)
    volume = pi * rise**2 * (3 * string - rise) / 3  # a cap by its sphere and its rise
    assert found.inside_m3 == pytest.approx(volume.nominal_value)
    assert found.uncertainty_m3 == pytest.approx(volume.std_dev)


@pytest.mark.parametrize("plant", [for_gas(2.0), for_volume(8.0, 24, form=shape("cylinder_cap", "flat"))], ids=["bowl", "flat"])
@pytest.mark.parametrize("hours", [12, 24, 48])
def test_the_share_of_a_water_day_is_as_unsure_as_two_millimetres_of_its_fall(plant, hours):
    # near the zero line the area hardly changes in 2 mm: linear to a hundredth
    day = wrap(lambda drop_m: w.water_day(plant, drop_m, hours))(ufloat(0.001, 0.002))
    assert w.unsure(plant, hours) == pytest.approx(day.std_dev, rel=0.01)


@pytest.mark.parametrize("set_ups", [1, 2, 4, 9])
def test_a_loop_may_be_off_by_what_its_set_ups_add_up_to_by_squares(set_ups):
    allowed_m = sum(ufloat(0.0, s.LOOP_M) for _ in range(set_ups)).std_dev
    assert o.closes([allowed_m - 1e-6] + [0.0] * (set_ups - 1))[1]
    assert not o.closes([allowed_m + 1e-6] + [0.0] * (set_ups - 1))[1]


@pytest.mark.parametrize("off_deg", [-0.5, 0.3])
def test_the_skew_of_a_rectangle_moves_by_its_diagonals_as_the_library_says(off_deg):
    # sine (d1^2 - d2^2) / (4 l w); 5 mm on both: root 2 x 2 x 5 x 0.005 / 48 = 1.473 mrad = 0.0844 degrees
    across, up = 3 * umath.sin(off_deg * pi / 180), 3 * umath.cos(off_deg * pi / 180)
    first_m, second_m = ((4 + across) ** 2 + up**2) ** 0.5, ((4 - across) ** 2 + up**2) ** 0.5
    skew = wrap(lambda one, two: o.rectangle(4, 3, one, two).skew_deg)(ufloat(first_m, 0.005), ufloat(second_m, 0.005))
    first, second = ufloat(first_m, 0.005), ufloat(second_m, 0.005)
    by_hand = umath.asin((first**2 - second**2) / 48) * 180 / pi
    assert skew.nominal_value == pytest.approx(off_deg)
    assert skew.std_dev == pytest.approx(by_hand.std_dev, rel=1e-4)
    assert skew.std_dev == pytest.approx(0.0844, rel=0.01)
