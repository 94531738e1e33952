"""Cement in store never gets better; a mixing is never used longer in heat, or for a tight coat."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import cement
from calc import sources as s
from calc.errors import Missing, OutOfRange, Unknown


@given(st.floats(0, 24), st.floats(0, 24))
def test_cement_never_gets_better_in_store(one, other):
    younger, older = sorted((one, other))
    assert cement.cement_retention(younger) >= cement.cement_retention(older)


@pytest.mark.parametrize(("months", "share"), [(1, 0.9333), (4.5, 0.75), (9, 0.65), (18, 0.55)])
def test_strength_kept_between_the_printed_months(months, share):
    assert cement.cement_retention(months) == pytest.approx(share, abs=0.0001)


@pytest.mark.parametrize("months", [-1, 25, nan])
def test_an_age_outside_the_table_is_not_reckoned(months):
    with pytest.raises(OutOfRange):
        cement.cement_retention(months)


@given(st.floats(0, 30))
def test_cement_good_enough_for_a_tight_layer_is_good_enough_for_the_rest(months):
    assert cement.cement_usable(months, False) or not cement.cement_usable(months, True)


def test_the_age_of_cement_must_be_known():
    with pytest.raises(Missing):
        cement.cement_usable(None, True)
    with pytest.raises(Missing):
        cement.cement_usable(2, None)
    with pytest.raises(OutOfRange):
        cement.cement_usable(nan, False)
    with pytest.raises(OutOfRange):
        cement.cement_usable(-0.1, False)
    with pytest.raises(Missing):
        cement.cement_usable(2, True, None)


@pytest.mark.parametrize(
    ("months", "tight", "good"),
    [
        (0, True, True),
        (2.99, True, True),
        (3, True, False),
        (3.01, True, False),
        (5.99, False, True),
        (6, False, False),
        (30, False, False),
    ],
)
def test_the_ages_at_their_limits(months, tight, good):
    assert cement.cement_usable(months, tight) is good


@given(st.floats(0, 30), st.booleans())
def test_cement_with_lumps_is_of_no_use(months, tight):
    assert not cement.cement_usable(months, tight, lumps=True)


@pytest.mark.parametrize("mixing", cement.MIXINGS)
def test_heat_never_gives_more_time(mixing):
    assert cement.use_within_min(mixing, True) <= cement.use_within_min(mixing, False)
    assert cement.use_within_min("tight", True) <= cement.use_within_min(mixing, True)
    assert cement.use_within_min("tight", False) <= cement.use_within_min(mixing, False)


@pytest.mark.parametrize(
    ("mixing", "hot", "minutes"),
    [
        ("concrete", False, 60),
        ("concrete", True, 45),
        ("mortar", False, 90),
        ("mortar", True, 60),
        ("tight", False, 45),
        ("tight", True, 45),
    ],
)
def test_the_times_of_this_house(mixing, hot, minutes):
    assert cement.use_within_min(mixing, hot) == minutes


def test_the_mixing_and_the_heat_must_be_known():
    with pytest.raises(Unknown):
        cement.use_within_min("plaster", True)
    with pytest.raises(Missing):
        cement.use_within_min("mortar", None)


def test_no_time_is_shorter_than_cement_needs_to_begin_to_set():
    assert all(minutes >= 30 for minutes in s.USE_WITHIN_MIN.values())
