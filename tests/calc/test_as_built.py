"""Inside volume as built: what was measured as planned, readings that make a length, what was not measured or cannot be."""

from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.as_built import Length, as_built, mean_length
from calc.errors import Missing, OutOfRange
from calc.vessel import Vessel

BOTTOMS = {"flat": 0.0, "bowl": 0.34, "cone": 0.25}
lengths = st.builds(Length, st.floats(1.0, 2.8), st.floats(1e-4, 0.05))
shares = st.floats(0.3, 1.2)
errors = st.floats(1e-4, 0.05)


def plan(bottom, wall_m=1.0):
    return Vessel(1.35, 0.7, wall_m, bottom, BOTTOMS[bottom])


@pytest.mark.parametrize("bottom", sorted(BOTTOMS))
def test_a_plant_measured_as_planned_has_the_planned_volume(bottom):
    made = plan(bottom)
    found = as_built(made, Length(made.sphere_radius_m, 0.01), Length(0.7, 0.005), Length(1.0, 0.005))
    assert found.inside_m3 == pytest.approx(made.inside_m3)
    assert found.vessel.radius_m == pytest.approx(1.35)
    assert 0 < found.uncertainty_m3 < 0.05 * found.inside_m3


def test_a_plant_without_a_wall_needs_none_and_leaves_one_out():
    made = plan("bowl", wall_m=0.0)
    bare = as_built(made, Length(1.65, 0.01), Length(0.7, 0.005))
    assert bare == as_built(made, Length(1.65, 0.01), Length(0.7, 0.005), Length(1.0, 0.005))
    assert bare.vessel.wall_height_m == 0


@given(st.lists(st.floats(1.0, 1.1), min_size=1, max_size=8), st.floats(0, 0.02))
def test_the_mean_lies_within_its_uncertainty_of_every_reading_less_their_own(readings_m, tape_m):
    found = mean_length(readings_m, tape_m)
    assert min(readings_m) - 1e-9 <= found.value_m <= max(readings_m) + 1e-9
    assert found.uncertainty_m >= tape_m
    assert found.uncertainty_m >= (max(readings_m) - min(readings_m)) / 2


def test_what_was_not_measured_is_missing():
    made = plan("flat")
    with pytest.raises(Missing, match="wall_height_m"):
        as_built(made, Length(1.65, 0.01), Length(0.7, 0.005))
    with pytest.raises(Missing):
        mean_length([], 0.005)
    with pytest.raises(Missing):
        mean_length([1.0], None)
    with pytest.raises(Missing):
        as_built(plan("flat", 0.0), Length(1.65, None), Length(0.7, 0.005))


@pytest.mark.parametrize("rise_m", [-0.1, 0.0, 3.3, 4.0, nan, inf])
def test_a_rise_that_the_string_cannot_make_is_refused(rise_m):
    with pytest.raises(OutOfRange, match="rise_m"):
        as_built(plan("flat"), Length(1.65, 0.01), Length(rise_m, 0.005), Length(1.0, 0.005))


@pytest.mark.parametrize("wall_m", [-1.0, 0.0, nan, inf])
def test_a_wall_that_is_none_is_refused(wall_m):
    with pytest.raises(OutOfRange, match="wall_height_m"):
        as_built(plan("flat"), Length(1.65, 0.01), Length(0.7, 0.005), Length(wall_m, 0.005))


@pytest.mark.parametrize("error_m", [-0.001, nan, inf])
def test_an_uncertainty_is_a_length(error_m):
    with pytest.raises(OutOfRange, match="uncertainty_m"):
        mean_length([1.0, 1.1], error_m)
    with pytest.raises(OutOfRange, match="uncertainty_m"):
        as_built(plan("flat"), Length(1.65, error_m), Length(0.7, 0.005), Length(1.0, 0.005))
    with pytest.raises(OutOfRange):
        mean_length([1.0, error_m if error_m != -0.001 else nan], 0.005)
