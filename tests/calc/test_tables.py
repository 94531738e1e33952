"""A printed table at its entries, and nowhere beyond."""

from math import inf, nan

import pytest

from calc.errors import Missing, OutOfRange
from calc.tables import read_off

POINTS = [(0, 1.0), (3, 0.8), (6, 0.7), (12, 0.6)]


@pytest.mark.parametrize(("place", "entry"), POINTS)
def test_an_entry_is_read_as_it_stands(place, entry):
    assert read_off(POINTS, place, "months") == pytest.approx(entry, rel=1e-15)


@pytest.mark.parametrize("value", [-0.001, 12.001, -inf, inf, nan])
def test_a_table_is_not_continued(value):
    with pytest.raises(OutOfRange, match="months") as told:
        read_off(POINTS, value, "months", "months", "a book")
    assert (told.value.low, told.value.high, told.value.source) == (0, 12, "a book")


def test_nothing_to_read_is_missing():
    with pytest.raises(Missing, match="months"):
        read_off(POINTS, None, "months")
