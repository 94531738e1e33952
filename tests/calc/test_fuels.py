"""Fuels replaced: ranges that hold what energy alone would give, in proportion to the gas."""

from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import fuels
from calc import sources as s
from calc.errors import Missing, OutOfRange, Unknown

FUELS = sorted(s.REPLACED)


@given(st.sampled_from(FUELS), st.floats(0, 20))
def test_low_and_high_in_order_and_in_proportion(fuel, gas_m3):
    low, high = fuels.replaced(fuel, gas_m3)
    assert low <= high
    assert (low, high) == pytest.approx(tuple(gas_m3 * each for each in fuels.replaced(fuel, 1.0)))


@pytest.mark.parametrize(
    ("fuel", "heat_mj", "old_share"),  # heat of the fuel and share the old stove brings to the pot, from memory
    [("firewood", 16.0, 0.17), ("charcoal", 29.3, 0.25), ("kerosene", 35.3, 0.45), ("lpg", 46.0, 0.57)],
)
def test_energy_by_hand_lies_in_the_range(fuel, heat_mj, old_share):
    low, high = fuels.replaced(fuel, 1.0)
    by_energy = 20 * 0.55 / (heat_mj * old_share)  # 20 MJ in 1 m3 of biogas, 55 % to the pot
    assert low * 0.99 <= by_energy <= high * 1.01


@given(st.floats(0, 20), st.floats(0, 1))
def test_heat_is_in_proportion_to_gas_and_methane(gas_m3, share):
    assert fuels.heat_j(gas_m3, share) == pytest.approx(gas_m3 * share * 35.906e6)


@pytest.mark.parametrize("gas_m3", [-0.001, nan, inf])
def test_gas_that_cannot_be_is_refused(gas_m3):
    with pytest.raises(OutOfRange):
        fuels.replaced("lpg", gas_m3)
    with pytest.raises(OutOfRange):
        fuels.heat_j(gas_m3)


@pytest.mark.parametrize("share", [-0.01, 1.01, nan])
def test_a_share_that_is_none_is_refused(share):
    with pytest.raises(OutOfRange):
        fuels.heat_j(1.0, share)


def test_missing_is_not_zero_and_an_unknown_fuel_is_refused():
    with pytest.raises(Missing):
        fuels.replaced("lpg", None)
    with pytest.raises(Unknown):
        fuels.replaced("peat", 1.0)
