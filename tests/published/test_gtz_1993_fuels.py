"""Criteria for the Dissemination of Biogas Plants, GTZ 1993, section 3: what a cubic metre of biogas replaces."""

import pytest

from calc import fuels


@pytest.mark.parametrize(("fuel", "a_cubic_metre"), [("firewood", 5.0), ("charcoal", 2.0), ("kerosene", 0.5), ("lpg", 0.4)])
def test_the_printed_value_is_an_end_of_the_range(fuel, a_cubic_metre):
    # printed: 1 kg firewood = 0.2 m3, 1 kg charcoal = 0.5 m3, 1 l kerosene = 2.0 m3, 1 kg LPG = 2.5 m3
    assert a_cubic_metre in fuels.replaced(fuel, 1.0)


@pytest.mark.parametrize("fuel", ["firewood", "charcoal", "kerosene", "lpg"])
def test_the_low_end_is_the_smaller_saving(fuel):
    low, high = fuels.replaced(fuel, 1.0)
    assert low < high
