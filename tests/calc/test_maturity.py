"""Maturity: a day never counts more than a day, a colder one never more than a warmer; when a wait is over."""

from itertools import repeat
from math import ceil, exp, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import curing, maturity
from calc import sources as s
from calc.errors import Missing, OutOfRange

TEMP_C = st.floats(-30, 50)
WARM_C = st.floats(5, 50)
CEMENT = st.sampled_from(curing.CEMENTS)
EVENT = st.sampled_from(list(curing.WAITS))


@given(TEMP_C, TEMP_C)
def test_a_colder_day_never_counts_more(one, other):
    colder, warmer = sorted((one, other))
    assert maturity.day_credit(colder) <= maturity.day_credit(warmer)


@given(TEMP_C)
def test_a_day_never_counts_more_than_a_day(temp_c):
    assert 0 <= maturity.day_credit(temp_c) <= 1
    assert (maturity.day_credit(temp_c) == 1) == (temp_c >= 20)


@given(st.floats(5, 20))
def test_a_day_counts_no_more_than_any_of_the_three_rules(temp_c):
    credit = maturity.day_credit(temp_c)
    assert credit <= temp_c / 20 * (1 + 1e-12)
    assert credit <= (temp_c + 10) / 30 * (1 + 1e-12)
    assert credit <= exp(-41500 / 8.314 * (1 / (temp_c + 273.15) - 1 / 293.15)) * (1 + 1e-12)


@given(EVENT, CEMENT, st.floats(5, 50), st.floats(5, 50))
def test_no_wait_is_shorter_when_it_is_colder(event, cement, one, other):
    colder, warmer = sorted((one, other))
    wait = curing.wait_d(event, cement)
    assert maturity.days_needed(wait, repeat(colder)) >= maturity.days_needed(wait, repeat(warmer)) >= wait - 1e-9


def test_three_days_of_falling_temperature():
    # 30, 24, 18 C: 72 degree days; the slowest rule for 18 C is Arrhenius' 0.890
    assert sum(map(maturity.day_credit, [30, 24, 18])) == pytest.approx(2.890, abs=0.001)
    assert maturity.nurse_saul([30, 24, 18]) * 24 == 1728
    assert maturity.arrhenius([30, 24, 18]) == pytest.approx(1.754 + 1.257 + 0.890, abs=0.005)
    assert maturity.arrhenius([30, 24, 18], 5000 * 8.314) == pytest.approx(3.903, abs=0.002)


def test_a_night_below_the_datum_takes_nothing_back():
    assert maturity.nurse_saul([20, -15]) == 20
    assert maturity.nurse_saul([20, -15], -10) == 30


def test_hours_may_be_logged_too():
    assert maturity.nurse_saul([20, 10], step_d=0.5) == 15
    assert maturity.arrhenius([20] * 24, step_d=1 / 24) == pytest.approx(1)


def test_a_week_takes_two_at_ten_degrees_and_never_ends_in_frost():
    assert maturity.days_needed(7, repeat(10)) == 14
    assert maturity.days_needed(7, repeat(40)) == 7
    with pytest.raises(OutOfRange):
        maturity.days_needed(7, repeat(4.9))


@pytest.mark.parametrize("temp_c", [68, -41, nan])
def test_a_temperature_that_cannot_be_celsius_counts_nothing_and_says_so(temp_c):
    with pytest.raises(OutOfRange):
        maturity.day_credit(temp_c)


@given(st.integers(0, 20), st.lists(WARM_C, min_size=100, max_size=100))
def test_a_wait_is_over_when_clock_and_credit_both_are(wait_d, temps_c):
    days = maturity.days_needed(wait_d, temps_c)
    assert days >= wait_d
    assert sum(map(maturity.day_credit, temps_c[:days])) >= wait_d - 1e-6
    assert days == 0 or sum(map(maturity.day_credit, temps_c[: days - 1])) < wait_d


@given(st.integers(1, 10), st.integers(0, 9))
def test_a_cold_day_in_a_warm_wait_moves_its_end(wait_d, at):
    temps_c = [20.0] * 30
    assert maturity.days_needed(wait_d, temps_c) == wait_d
    temps_c[at] = 4.9  # counts nothing
    assert maturity.days_needed(wait_d, temps_c) == wait_d + (at < wait_d)


@given(st.integers(0, 2800), WARM_C)
def test_a_steady_temperature_divides_the_wait(hundredths, temp_c):
    wait_d = hundredths / 100
    assert maturity.days_needed(wait_d, repeat(temp_c)) == ceil(wait_d / maturity.day_credit(temp_c) - 1e-6)


def test_a_wait_by_hand_through_a_cold_week():
    # 20, 10, 4, 10, 20 C count 1, 1/2, 0, 1/2, 1: three days of wait take five
    assert maturity.days_needed(3, [20, 10, 4, 10, 20]) == 5
    assert maturity.days_needed(2, [20, 10, 4, 10, 20]) == 4


def test_the_temperatures_must_reach_to_the_end_of_the_wait():
    with pytest.raises(Missing):
        maturity.days_needed(3, [20, 20])
    assert maturity.days_needed(2, [20, 20]) == 2
    with pytest.raises(OutOfRange):
        maturity.days_needed(nan, [20, 20])
    with pytest.raises(OutOfRange):
        maturity.days_needed(1, repeat(4.9))
    with pytest.raises(Missing):
        maturity.day_credit(None)


def test_a_wait_is_followed_four_hundred_days():
    assert s.LONGEST_WAIT_D == 400
    assert maturity.days_needed(100, repeat(5)) == 400  # a quarter of a day each
    with pytest.raises(OutOfRange):
        maturity.days_needed(100.1, repeat(5))


@given(st.floats(-30, 50), st.floats(-30, 50))
def test_the_mean_of_a_day_lies_between_its_extremes(one, other):
    least, most = sorted((one, other))
    assert least <= maturity.day_mean(least, most) <= most


@pytest.mark.parametrize(("least_c", "most_c"), [(10.1, 10), (-40.1, 10), (10, 50.1), (nan, 10), (10, nan)])
def test_extremes_that_cannot_be(least_c, most_c):
    with pytest.raises(OutOfRange):
        maturity.day_mean(least_c, most_c)


def test_extremes_at_their_limits():
    assert maturity.day_mean(10, 10) == 10
    assert maturity.day_mean(-40, 50) == 5
