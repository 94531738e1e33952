"""Days kept wet in other codes: GB 50204 (7, impermeable 14), UFGS 03 30 00 / 03301 section 3.5.1 (type I cement 7,
blended 14), plaster in a public-works bid document (7)."""

import pytest

from calc import curing


def test_gb_50204():
    assert curing.wet_days("opc", False, False) >= 7
    assert curing.wet_days("opc", True, False) >= 14


@pytest.mark.parametrize(("cement", "days"), [("opc", 7), ("blended", 14)])
def test_ufgs_3_5_1_tight_parts(cement, days):
    assert curing.wet_days(cement, True, False) >= days


def test_difference_ufgs_asks_14_days_of_blended_cement_where_is_456_asks_10():
    assert curing.wet_days("blended", False, False) == 10 != 14


def test_bid_document_last_coat_of_plaster():
    assert curing.wet_days("opc", True, False) >= 7
