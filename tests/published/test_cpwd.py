"""CPWD, Delhi Schedule of Rates 2018, vol. II, "Coefficients for cement consumption" (read in reproduction),
and a site sheet of coefficients derived from its items 3.6 and 6.1.2."""

import pytest

from calc import masonry, mix

BRICK = masonry.Brick(0.23, 0.11, 0.07)


@pytest.mark.parametrize(
    ("item", "sand", "quintals"),
    [("3.1", 1, 10.20), ("3.2", 2, 6.80), ("3.3", 3, 5.10), ("3.4", 4, 3.80), ("3.5", 5, 3.10), ("3.6", 6, 2.50)],
)
def test_cement_in_mortar(item, sand, quintals):
    # the rule follows all six from one figure of sand, so it is held to 3 % and not to the rounding of the print
    assert mix.mortar_materials(1, sand).cement_kg == pytest.approx(100 * quintals, rel=0.03)


@pytest.mark.parametrize(("item", "sand", "stone", "quintals"), [("4.1.2", 1.5, 3, 4.00), ("5.1.3", 2, 4, 3.20)])
def test_cement_in_concrete(item, sand, stone, quintals):
    assert mix.concrete_materials(1, sand, stone, factor=1.54).cement_kg == pytest.approx(100 * quintals, rel=0.015)


@pytest.mark.parametrize(("item", "sand", "stone", "quintals"), [("4.1.2", 1.5, 3, 4.00), ("5.1.3", 2, 4, 3.20)])
def test_cement_to_buy_is_never_under_the_schedule(item, sand, stone, quintals):
    assert mix.buying_cement_kg_m3(sand, stone) >= 100 * quintals


def test_site_sheet_bricks_in_a_cubic_metre():
    assert round(masonry.bricks_per_m3(BRICK, 0.010)) == 434


def test_site_sheet_volume_of_434_bricks():
    assert masonry.bricks_per_m3(BRICK, 0.010) * BRICK.volume_m3 == pytest.approx(0.769, abs=0.0005)


def test_item_6_1_2_cement_in_a_quarter_cubic_metre_of_1_to_6():
    assert mix.mortar_materials(0.25, 6).cement_kg == pytest.approx(62.5, rel=0.03)


@pytest.mark.parametrize(("sand", "stone", "bags", "bought_kg"), [(4, 8, 3.4, 3.5 * 50), (5, 10, 2.6, 1440 * 1.57 / 16)])
def test_lean_concrete_is_bought_a_little_over_the_list(sand, stone, bags, bought_kg):
    # 1:4:8 by the 3.5 bags of another schedule (CSR 2010), 1:5:10 by the dry volume, 141.3 kg for 130
    assert mix.buying_cement_kg_m3(sand, stone) == pytest.approx(bought_kg)
    assert 50 * bags < bought_kg < 1.10 * 50 * bags
