"""Mortar 1:6 in rate analyses of random rubble masonry by two authors: of 157.5 cubic feet, and of a cubic metre."""

import pytest

from calc import mix
from calc.units import Quantity, si


def test_63_cubic_feet_of_dry_mortar_1_6():
    found = mix.mortar_materials(Quantity(63, "ft3"), 6, factor=1, cement_bulk=1)
    assert found.sand_m3.to("ft3").magnitude == pytest.approx(54)
    assert found.cement_kg.to("ft3").magnitude == pytest.approx(9)


def test_bags_in_63_cubic_feet_of_dry_mortar():
    found = mix.mortar_materials(si(63, "ft3"), 6, factor=1)
    assert found.cement_kg / 50 == pytest.approx(7.34, abs=0.01)


def test_price_of_cement_in_0_45_m3_of_mortar_by_the_second_author():
    found = mix.mortar_materials(0.45, 6, factor=1.52)
    assert 300 * found.cement_kg / 50 == pytest.approx(844, abs=0.5)
