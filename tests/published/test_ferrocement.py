"""Ferrocement: "Principles of construction, material and design of ferrocement tank", appendix II, and a summary
page that prints 8-10 % of steel by volume beside 300-500 kg of steel in a cubic metre of mortar."""

import pytest

from calc import masonry, mix


def test_appendix_ii_greatest_water_and_leanest_mortar():
    recipe = mix.RECIPES["ferrocement"]
    assert recipe.water_cement <= 0.45
    assert 2 <= recipe.sand <= 3


def test_slip_eight_percent_of_steel_is_not_300_to_500_kg():
    spacing_m = 2 * 3.141592653589793 * 0.001**2 / (2 * 0.025 * 0.08)  # two layers of 1 mm wire that make 8 %
    found = masonry.ferrocement(1.0, 0.025, 2, 0.001, spacing_m)
    assert found.steel_share == pytest.approx(0.08)
    steel_kg_m3 = found.steel_share * 7850
    assert steel_kg_m3 == pytest.approx(628)
    assert not 300 <= steel_kg_m3 <= 500
