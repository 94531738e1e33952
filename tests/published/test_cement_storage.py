"""Strength of stored cement: pages of Indian engineers (100, 80, 70, 60, 50 %), and the retest after three months."""

import pytest

from calc import curing


@pytest.mark.parametrize(("months", "percent"), [(0, 100), (3, 80), (6, 70), (12, 60), (24, 50)])
def test_strength_kept(months, percent):
    assert 100 * curing.cement_retention(months) == pytest.approx(percent)


def test_cement_older_than_three_months_goes_into_no_tight_layer():
    assert curing.cement_usable(3, True)
    assert not curing.cement_usable(3.1, True)


def test_a_study_of_ordinary_storage_lost_more_than_the_table():
    # Libyan study: 46 % lost in 4 months, 25 % when sealed; the table is for dry stores
    assert 1 - curing.cement_retention(4) < 0.25 < 0.46
    assert not curing.cement_usable(4, True)
