"""ILAC-G8:09/2019, Guidelines on decision rules, table 1: a guard band of one expanded uncertainty U leaves a chance under
2.5 % that what was accepted is outside, one of 1.5 U under 0.16 %; without a guard band up to 50 %. The idea is that of
JCGM 106:2012. U is twice the standard uncertainty."""

import pytest
from scipy.stats import norm

from calc.checks import NOT_ENOUGH, OUTSIDE, WITHIN, Limits, judge

DEPTH = Limits(plan=1.80, below=0.0, above=1.0, uncertainty=0.010)  # only the lower limit is near


def chance_outside(reading_m):
    return norm.cdf(DEPTH.low, loc=reading_m, scale=DEPTH.uncertainty / 2)


def nearest_within():
    return next(DEPTH.low + step * 1e-5 for step in range(5000) if judge([DEPTH.low + step * 1e-5], DEPTH).stands == WITHIN)


def test_table_1_guard_band_of_one_u():
    assert chance_outside(nearest_within()) < 0.025


def test_table_1_guard_band_of_one_and_a_half_u():
    reading_m = DEPTH.low + 1.5 * DEPTH.uncertainty
    assert judge([reading_m], DEPTH).stands == WITHIN
    assert chance_outside(reading_m) < 0.0016


def test_table_1_simple_acceptance_is_not_ours():
    assert chance_outside(DEPTH.low) == pytest.approx(0.5)
    assert judge([DEPTH.low], DEPTH).stands == NOT_ENOUGH


def test_table_1_rejection_past_one_u_is_as_sure():
    reading_m = DEPTH.low - DEPTH.uncertainty - 1e-5
    assert judge([reading_m], DEPTH).stands == OUTSIDE
    assert 1 - chance_outside(reading_m) < 0.025
