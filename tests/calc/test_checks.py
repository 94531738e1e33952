"""Readings against a plan: the worst decides, and near a limit the tape cannot tell."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.checks import NOT_ENOUGH, OUTSIDE, WITHIN, Limits, judge, spread
from calc.errors import Missing, OutOfRange

DEPTH = Limits(plan=1.80, below=0.0, above=0.05, uncertainty=0.005)
RADIUS = Limits(plan=1.30, below=0.01, above=0.01, uncertainty=0.002, least=3)


@pytest.mark.parametrize(
    ("reading_m", "stands", "by_m"),
    [
        (1.790, OUTSIDE, -0.010),
        (1.794, OUTSIDE, -0.006),
        (1.795, NOT_ENOUGH, 0),
        (1.800, NOT_ENOUGH, 0),
        (1.804, NOT_ENOUGH, 0),
        (1.805, WITHIN, 0),
        (1.825, WITHIN, 0),
        (1.845, WITHIN, 0),
        (1.846, NOT_ENOUGH, 0),
        (1.855, NOT_ENOUGH, 0),
        (1.856, OUTSIDE, 0.006),
        (1.900, OUTSIDE, 0.050),
    ],
)
def test_a_depth_of_1_80_m_to_1_85_m_measured_to_5_mm(reading_m, stands, by_m):
    found = judge([reading_m], DEPTH)
    assert found.stands == stands
    assert found.by == pytest.approx(by_m, abs=1e-9)


def test_the_worst_reading_decides_and_not_the_mean():
    found = judge([1.30, 1.30, 1.33, 1.27], RADIUS)  # the mean is the plan
    assert found.stands == OUTSIDE
    assert abs(found.by) == pytest.approx(0.02)


def test_of_two_bad_readings_the_worse_is_told():
    found = judge([1.33, 1.30, 1.25], RADIUS)
    assert (found.worst, found.by) == (1.25, pytest.approx(-0.04))


@pytest.mark.parametrize(("readings", "missing"), [([1.30], 2), ([1.30, 1.301], 1)])
def test_too_few_readings_are_not_enough(readings, missing):
    found = judge(readings, RADIUS)
    assert (found.stands, found.missing, found.worst) == (NOT_ENOUGH, missing, None)


def test_one_bad_reading_is_outside_however_few_there_are():
    found = judge([1.35], RADIUS)
    assert (found.stands, found.by) == (OUTSIDE, pytest.approx(0.04))


def test_enough_good_readings_are_within():
    found = judge([1.299, 1.30, 1.302], RADIUS)
    assert (found.stands, found.missing, found.worst) == (WITHIN, 0, 1.302)


LIMITS = st.builds(Limits, st.floats(0.5, 3), st.floats(0, 0.1), st.floats(0, 0.1), st.floats(0.001, 0.02), st.integers(1, 4))
READINGS = st.lists(st.floats(0.3, 3.2), min_size=1, max_size=6)


@given(READINGS, LIMITS)
def test_within_means_every_reading_and_its_uncertainty_between_the_limits(readings, limits):
    found = judge(readings, limits)
    if found.stands == WITHIN:
        for each in readings:
            assert limits.low <= each - limits.uncertainty + 1e-8
            assert each + limits.uncertainty - 1e-8 <= limits.high
        assert len(readings) >= limits.least


@given(READINGS, LIMITS)
def test_outside_means_that_a_reading_lies_past_a_limit_by_more_than_its_uncertainty(readings, limits):
    past = max(max(limits.low - each, each - limits.high) for each in readings)
    found = judge(readings, limits)
    assert (found.stands == OUTSIDE) == (past > limits.uncertainty + 1e-9)
    if found.stands == OUTSIDE:
        assert abs(found.by) == pytest.approx(past)
        assert (found.by < 0) == (found.worst < limits.low)


@given(READINGS, LIMITS, st.floats(0.3, 3.2))
def test_one_more_reading_never_mends_a_bad_one(readings, limits, more):
    if judge(readings, limits).stands == OUTSIDE:
        assert judge([*readings, more], limits).stands == OUTSIDE


@given(READINGS, LIMITS)
def test_the_order_of_the_readings_does_not_matter(readings, limits):
    there, back = judge(readings, limits), judge(readings[::-1], limits)
    assert (there.stands, abs(there.by), there.missing) == (back.stands, abs(back.by), back.missing)


@given(LIMITS)
def test_a_tape_coarser_than_the_tolerance_never_says_within(limits):
    coarse = Limits(limits.plan, limits.below, limits.above, (limits.below + limits.above) / 2 + 0.001)
    middle = (coarse.low + coarse.high) / 2
    assert judge([middle], coarse).stands == NOT_ENOUGH


@pytest.mark.parametrize("readings", [[], ()])
def test_no_reading_is_missing(readings):
    with pytest.raises(Missing):
        judge(readings, DEPTH)
    with pytest.raises(Missing):
        spread(readings)


@pytest.mark.parametrize(("readings", "error"), [([nan], OutOfRange), ([1.82, nan], OutOfRange), ([-1.82], OutOfRange), ([None], Missing)])
def test_what_is_not_a_length_is_no_reading(readings, error):
    with pytest.raises(error):
        judge(readings, DEPTH)


@given(READINGS, st.floats(-0.2, 0.2))
def test_a_spread_does_not_depend_on_where_the_tape_starts(readings, shift):
    assert spread([each + shift for each in readings]) == pytest.approx(spread(readings), abs=1e-9)
    assert spread(readings) >= 0


@pytest.mark.parametrize("readings", [[nan, 3.10], [3.10, nan], [3.10, nan, 3.12]])
def test_a_reading_that_is_not_a_number_is_not_hidden_in_a_spread(readings):
    with pytest.raises(OutOfRange):
        spread(readings)
