"""Rate analyses of brickwork: modular bricks of 190 x 90 x 90 mm (three pages), a build-up of rates for bricks of
215 x 102.5 x 65 mm, and a slip."""

import pytest

from calc import masonry, mix
from calc.masonry import Brick

MODULAR = Brick(0.190, 0.090, 0.090)
BRITISH = Brick(0.215, 0.1025, 0.065)


def mortar_share(brick):
    """What the bricks leave of a volume, with joints of 10 mm."""
    return 1 - masonry.bricks_per_m3(brick, 0.010) * brick.volume_m3


def test_modular_bricks_and_mortar_in_a_cubic_metre():
    assert round(masonry.bricks_per_m3(MODULAR, 0.010)) == 500
    assert mortar_share(MODULAR) == pytest.approx(0.2305, abs=0.00005)


def test_modular_bricks_in_five_cubic_metres():
    assert round(5 * masonry.bricks_per_m3(MODULAR, 0.010)) == 2500
    assert 5 * mortar_share(MODULAR) == pytest.approx(1.15, abs=0.005)


@pytest.mark.parametrize(
    ("sand", "cement_m3", "cement_kg", "bags", "sand_m3"),
    [(6, 0.0438, 63.07, 1.261, 0.2628), (5, 0.0511, 73.58, 1.47, 0.2554)],
)
def test_cement_and_sand_in_the_mortar_by_the_rule_of_1_33(sand, cement_m3, cement_kg, bags, sand_m3):
    found = mix.mortar_materials(0.2305, sand, factor=1.33)
    assert found.cement_kg / 1440 == pytest.approx(cement_m3, abs=0.00005)
    assert found.cement_kg == pytest.approx(cement_kg, abs=0.05)
    assert found.cement_kg / 50 == pytest.approx(bags, abs=0.002)
    assert found.sand_m3 == pytest.approx(sand_m3, abs=0.0003)


def test_half_brick_wall_of_british_bricks():
    found = masonry.single_leaf(1, BRITISH, "half", 0.010)
    assert found.bricks == pytest.approx(59.26, abs=0.005)


def test_mortar_to_buy_for_a_square_metre_of_half_brick_is_not_under_the_build_up_of_rates():
    assert 0.025 <= masonry.single_leaf(1, BRITISH, "half", 0.010).mortar_to_buy_m3 <= 1.35 * 0.025


def test_slip_bricks_of_230_x_100_x_75_are_not_500_to_a_cubic_metre_and_0_85_of_it_is_not_mortar():
    brick = Brick(0.230, 0.100, 0.075)
    assert masonry.bricks_per_m3(brick, 0.010) == pytest.approx(446, abs=0.5)
    assert masonry.bricks_per_m3(brick, 0.010) != pytest.approx(500, rel=0.05)
    assert mortar_share(brick) < 0.25
