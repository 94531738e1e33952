"""Rate analyses of random rubble masonry by two authors: 157.5 cubic feet in 1:6, and a cubic metre in 1:6."""

import pytest

from calc import masonry, mix
from calc.units import Quantity, si

WALL_M3 = si(157.5, "ft3")


def test_stone_for_157_5_cubic_feet():
    assert masonry.rubble(WALL_M3).stone_m3 / si(1, "ft3") == pytest.approx(196.875, abs=0.005)


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


def test_mortar_of_this_house_lies_between_the_two_authors():
    assert 0.40 <= masonry.rubble(1).mortar_m3 <= 0.45
