"""Maturity: ASTM C1074 (digest: datum 0 C for type I cement), GB 50204 appendix D (digest: 600 C d are 28 days), and
a practice note that works 3500 C h through."""

import pytest

from calc import maturity


def test_c1074_datum_of_the_temperature_time_factor_is_0_c():
    assert maturity.nurse_saul([10]) == 10
    assert maturity.nurse_saul([0]) == 0


def test_gb_50204_600_degree_days_take_30_days_at_20_c():
    assert maturity.nurse_saul([20] * 30) == pytest.approx(600)
    assert maturity.nurse_saul([21.4] * 28) == pytest.approx(600, abs=1)


def test_gb_50204_a_day_at_or_below_0_c_counts_nothing():
    assert maturity.nurse_saul([20, 0, -3]) == 20
    assert maturity.day_credit(-3) == 0


def test_note_3500_degree_hours_take_152_hours_at_23_c():
    assert maturity.nurse_saul([23] * 152, step_d=1 / 24) * 24 == pytest.approx(3500, abs=12)  # half an hour at 23 C


def test_note_3500_degree_hours_in_three_days_need_49_c():
    assert maturity.nurse_saul([49] * 3) * 24 == pytest.approx(3500, abs=36)  # half a degree over 72 h


@pytest.mark.parametrize("temp_c", [5, 10, 15])
def test_waits_here_are_not_shorter_than_by_the_standard_in_the_cold(temp_c):
    assert maturity.day_credit(temp_c) <= maturity.nurse_saul([temp_c]) / 20
