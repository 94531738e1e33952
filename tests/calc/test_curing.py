"""Waiting: never shorter when it is colder, when the cement is slower or not known, or when a layer must be tight."""

from math import exp, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import curing
from calc import sources as s
from calc.errors import Missing, OutOfRange, Unknown

TEMP_C = st.floats(-30, 50)
CEMENT = st.sampled_from(curing.CEMENTS)
EVENT = st.sampled_from(list(curing.WAITS))


@given(TEMP_C, TEMP_C)
def test_a_colder_day_never_counts_more(one, other):
    colder, warmer = sorted((one, other))
    assert curing.day_credit(colder) <= curing.day_credit(warmer)


@given(TEMP_C)
def test_a_day_never_counts_more_than_a_day(temp_c):
    assert 0 <= curing.day_credit(temp_c) <= 1
    assert (curing.day_credit(temp_c) == 1) == (temp_c >= 20)


@given(st.floats(5, 20))
def test_a_day_counts_no_more_than_any_of_the_three_rules(temp_c):
    credit = curing.day_credit(temp_c)
    assert credit <= temp_c / 20 * (1 + 1e-12)
    assert credit <= (temp_c + 10) / 30 * (1 + 1e-12)
    assert credit <= exp(-41500 / 8.314 * (1 / (temp_c + 273.15) - 1 / 293.15)) * (1 + 1e-12)


@given(EVENT, CEMENT, st.floats(5, 50), st.floats(5, 50))
def test_no_wait_is_shorter_when_it_is_colder(event, cement, one, other):
    colder, warmer = sorted((one, other))
    wait = curing.wait_d(event, cement)
    assert curing.days_needed(wait, colder) >= curing.days_needed(wait, warmer) >= wait - 1e-9


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
    with pytest.raises(Missing):
        curing.day_credit(None)


def test_three_days_of_falling_temperature():
    # 30, 24, 18 C: 72 degree days; the slowest rule for 18 C is Arrhenius' 0.890
    assert curing.equivalent_days([30, 24, 18]) == pytest.approx(2.890, abs=0.001)
    assert curing.nurse_saul([30, 24, 18]) * 24 == 1728
    assert curing.arrhenius([30, 24, 18]) == pytest.approx(1.754 + 1.257 + 0.890, abs=0.005)
    assert curing.arrhenius([30, 24, 18], 5000 * 8.314) == pytest.approx(3.903, abs=0.002)


def test_a_night_below_the_datum_takes_nothing_back():
    assert curing.nurse_saul([20, -15]) == 20
    assert curing.nurse_saul([20, -15], -10) == 30


def test_hours_may_be_logged_too():
    assert curing.nurse_saul([20, 10], step_d=0.5) == 15
    assert curing.arrhenius([20] * 24, step_d=1 / 24) == pytest.approx(1)


def test_a_week_takes_two_at_ten_degrees_and_never_ends_in_frost():
    assert curing.days_needed(7, 10) == 14
    assert curing.days_needed(7, 40) == 7
    with pytest.raises(OutOfRange):
        curing.days_needed(7, 4.9)


@pytest.mark.parametrize("temp_c", [68, -41, nan])
def test_a_temperature_that_cannot_be_celsius_counts_nothing_and_says_so(temp_c):
    with pytest.raises(OutOfRange):
        curing.day_credit(temp_c)


@pytest.mark.parametrize(
    ("event", "opc", "other"),
    [
        ("walk on base", 1, 2),
        ("wall on base", 3, 4),
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
    with pytest.raises(Missing):
        curing.strip_days("arch props")
    with pytest.raises(OutOfRange):
        curing.strip_days("slab props", nan)
    with pytest.raises(Unknown):
        curing.strip_days("tent", 2)


@given(st.floats(0, 24), st.floats(0, 24))
def test_cement_never_gets_better_in_store(one, other):
    younger, older = sorted((one, other))
    assert curing.cement_retention(younger) >= curing.cement_retention(older)


@pytest.mark.parametrize(("months", "share"), [(1, 0.9333), (4.5, 0.75), (9, 0.65), (18, 0.55)])
def test_strength_kept_between_the_printed_months(months, share):
    assert curing.cement_retention(months) == pytest.approx(share, abs=0.0001)


@pytest.mark.parametrize("months", [-1, 25, nan])
def test_an_age_outside_the_table_is_not_reckoned(months):
    with pytest.raises(OutOfRange):
        curing.cement_retention(months)


@given(st.floats(0, 30))
def test_cement_good_enough_for_a_tight_layer_is_good_enough_for_the_rest(months):
    assert curing.cement_usable(months, False) or not curing.cement_usable(months, True)


def test_the_age_of_cement_must_be_known():
    with pytest.raises(Missing):
        curing.cement_usable(None, True)
    with pytest.raises(Missing):
        curing.cement_usable(2, None)
    with pytest.raises(OutOfRange):
        curing.cement_usable(nan, False)
