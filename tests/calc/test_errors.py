"""What is said where there is no number to give."""

from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.errors import CalcError, Missing, OutOfRange, Unknown, require


@given(st.floats(-10, 10), st.floats(-10, 10), st.floats(-10, 10))
def test_a_value_is_given_back_exactly_where_it_lies_between_its_bounds(value, one, other):
    low, high = sorted((one, other))
    if low <= value <= high:
        assert require("depth_m", value, low, high, "m") is value
    else:
        with pytest.raises(OutOfRange):
            require("depth_m", value, low, high, "m")


@pytest.mark.parametrize("bounds", [(None, None), (0, None), (None, 5), (0, 5)])
def test_what_is_not_a_number_is_never_given_back(bounds):
    with pytest.raises(OutOfRange):
        require("depth_m", nan, *bounds)


@pytest.mark.parametrize(("bounds", "value"), [((0, None), -1e-12), ((None, 5), 5.0000001), ((0, 5), inf), ((0, 5), -inf)])
def test_one_bound_holds_without_the_other(bounds, value):
    with pytest.raises(OutOfRange):
        require("depth_m", value, *bounds)


@pytest.mark.parametrize("value", [0, 5])
def test_the_bounds_themselves_are_inside(value):
    assert require("depth_m", value, 0, 5) == value


def test_missing_is_not_zero():
    with pytest.raises(Missing) as error:
        require("depth_m", None, 0, 5)
    assert error.value.name == "depth_m"
    assert "depth_m" in str(error.value)


def test_an_error_carries_what_a_reply_needs():
    with pytest.raises(OutOfRange) as error:
        require("temp_c", 8, 12, None, "C", "a book")
    told = error.value
    assert (told.name, told.value, told.low, told.high, told.unit, told.source) == ("temp_c", 8, 12, None, "C", "a book")
    for word in ("temp_c", "8", "12", "C", "a book"):
        assert word in str(told)


def test_without_a_source_none_is_named():
    assert "(" not in str(OutOfRange("temp_c", 8, 12, 33, "C"))


def test_an_unknown_name_is_told_with_the_known_ones():
    told = Unknown("camel", ("cow", "pig"))
    assert told.known == ("cow", "pig")
    assert all(word in str(told) for word in ("camel", "cow", "pig"))


@pytest.mark.parametrize("error", [OutOfRange("a", 1), Missing("a"), Unknown("a")])
def test_each_can_be_caught_as_a_calculation_without_an_answer(error):
    assert isinstance(error, CalcError)
    assert isinstance(error, ValueError)
