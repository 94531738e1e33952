"""Waiting: never shorter when the cement is slower or not known, or when a layer must be tight; wet days by the log."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import curing
from calc import sources as s
from calc.errors import Missing, OutOfRange, Unknown

CEMENT = st.sampled_from(curing.CEMENTS)
EVENT = st.sampled_from(list(curing.WAITS))


@pytest.mark.parametrize("event", curing.WAITS)
def test_no_wait_is_shorter_with_blended_or_unknown_cement(event):
    assert curing.wait_d(event, "opc") <= curing.wait_d(event, "blended") == curing.wait_d(event, "unknown")


@given(CEMENT, st.booleans(), st.booleans())
def test_a_tight_layer_a_slow_cement_and_hot_dry_air_never_shorten_the_wetting(cement, tight, hot_dry):
    days = curing.wet_days(cement, tight, hot_dry)
    assert curing.wet_days(cement, True, hot_dry) >= days
    assert curing.wet_days(cement, tight, True) >= days
    assert curing.wet_days("unknown", tight, hot_dry) >= days


@pytest.mark.parametrize(
    ("cement", "tight", "hot_dry", "days"),
    [
        ("opc", False, False, 7),
        ("opc", False, True, 10),
        ("blended", False, False, 10),
        ("unknown", False, True, 14),
        ("opc", True, False, 14),
        ("blended", True, True, 14),
    ],
)
def test_days_kept_wet(cement, tight, hot_dry, days):
    assert curing.wet_days(cement, tight, hot_dry) == days


def test_what_is_not_said_is_missing():
    with pytest.raises(Missing):
        curing.wet_days("opc", None, False)
    with pytest.raises(Missing):
        curing.wet_days("opc", False, None)
    with pytest.raises(Unknown):
        curing.wet_days("grey", False, False)
    with pytest.raises(Unknown):
        curing.wait_d("walk on base", None)
    with pytest.raises(Unknown):
        curing.wait_d("dance on dome", "opc")


@pytest.mark.parametrize(
    ("event", "opc", "other"),
    [
        ("walk on base", 1, 2),
        ("wall on base", 3, 5),  # ours: 3 x 10/7, up to whole days
        ("dome on wall", 3, 5),
        ("backfill wall", 7, 10),
        ("strip dome", 14, 20),
        ("cover dome", 14, 20),
        ("water test", 14, 14),
        ("handle cover", 7, 10),
        ("use cover", 14, 20),
    ],
)
def test_the_waits_of_this_house(event, opc, other):
    assert (curing.wait_d(event, "opc"), curing.wait_d(event, "unknown")) == (opc, other)


def test_a_dome_is_not_stripped_before_it_may_be_covered_or_loaded():
    for cement in curing.CEMENTS:
        assert curing.wait_d("strip dome", cement) <= curing.wait_d("cover dome", cement)
        assert curing.wait_d("walk on base", cement) < curing.wait_d("wall on base", cement) < curing.wait_d("load base", cement)
        assert curing.wait_d("handle cover", cement) < curing.wait_d("use cover", cement) < curing.wait_d("load cover", cement)


def test_the_wait_under_a_dome_agrees_with_the_limit_on_danger():
    assert curing.wait_d("strip dome", "opc") == s.FORM_D


def test_a_dome_wider_than_six_metres_waits_as_a_wide_arch():
    assert curing.strip_dome_d("opc", span_m=6.0) == 14
    assert curing.strip_dome_d("opc", span_m=6.001) == 21
    assert curing.strip_dome_d("unknown", span_m=6.0) == 20
    assert curing.strip_dome_d("opc", 7, span_m=6.001) == 7


def test_a_released_design_may_ask_less_under_a_dome_but_never_under_a_week():
    assert curing.strip_dome_d("unknown") == 20
    assert curing.strip_dome_d("unknown", 7) == 7
    with pytest.raises(OutOfRange):
        curing.strip_dome_d("opc", 6.9)
    with pytest.raises(OutOfRange):
        curing.strip_dome_d("opc", nan)


@given(st.sampled_from(["slab props", "beam props", "arch props"]), st.floats(0.1, 20), st.floats(0.1, 20))
def test_props_stay_no_shorter_under_a_longer_span(element, one, other):
    shorter, longer = sorted((one, other))
    assert curing.strip_days(element, shorter) <= curing.strip_days(element, longer)


def test_props_need_their_span():
    assert curing.strip_days("vertical") == 1  # the side of a wall has none
    with pytest.raises(Missing):
        curing.strip_days("arch props")
    with pytest.raises(OutOfRange):
        curing.strip_days("slab props", nan)
    with pytest.raises(Unknown):
        curing.strip_days("tent", 2)


DAYS = st.lists(st.integers(0, 30), max_size=20)
COUNTS = st.lists(st.tuples(st.integers(0, 30), st.integers(0, 31)), max_size=4)


@given(DAYS, COUNTS)
def test_a_day_said_again_is_no_more_days(days, counts):
    assert curing.days_kept_wet(days + days, counts + counts) == curing.days_kept_wet(days, counts)


@given(DAYS, COUNTS, st.integers(0, 30))
def test_a_day_more_adds_one_day_at_most(days, counts, day):
    before = curing.days_kept_wet(days, counts)
    assert before <= curing.days_kept_wet([*days, day], counts) <= before + 1


@given(DAYS)
def test_days_said_one_by_one_or_as_a_number_are_the_same(days):
    assert curing.days_kept_wet(days, [(30, len(set(days)))]) == curing.days_kept_wet(days)


@pytest.mark.parametrize(
    ("logged", "counts", "days"),
    [
        ([], [], 0),
        ([1, 2, 2, 3], [], 3),
        ([], [(5, 5)], 5),
        ([5], [(5, 5)], 5),  # today is in today's number
        ([6], [(5, 5)], 6),
        ([1, 2, 3, 4], [(4, 2)], 4),  # a smaller number takes nothing back
        ([8], [(3, 3), (7, 5)], 6),
    ],
)
def test_wet_days_by_the_log(logged, counts, days):
    assert curing.days_kept_wet(logged, counts) == days
