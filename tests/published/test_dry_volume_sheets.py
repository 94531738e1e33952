"""Worked estimates by the dry-volume factor on Indian engineering pages, each with its own factor; and two slips."""

import pytest

from calc import mix

BRASS = 100 * 0.3048**3


def test_one_cubic_metre_of_1_2_4_at_1_54():
    found = mix.concrete_materials(1, 2, 4, factor=1.54)  # page on the ratio of dry to wet concrete
    assert found.cement_kg == pytest.approx(316.8, abs=0.05)
    assert found.cement_kg / 50 == pytest.approx(6.336, abs=0.0005)
    assert (found.sand_m3, found.stone_m3) == pytest.approx((0.44, 0.88), abs=0.005)


def test_sand_for_ten_cubic_metres_of_1_4_8_at_1_52():
    assert mix.concrete_materials(10, 4, 8, factor=1.52).sand_m3 == pytest.approx(4.676, abs=0.001)


def test_one_cubic_metre_of_1_2_4_at_1_50():
    found = mix.concrete_materials(1, 2, 4, factor=1.50)
    assert (found.sand_m3, found.stone_m3) == pytest.approx((0.428, 0.856), rel=0.0015)  # the page cuts 0.2143 to 0.214


def test_prices_of_1_4_8_at_1_52_in_the_rate_analysis_with_rubble_masonry():
    found = mix.concrete_materials(1, 4, 8, factor=1.52)
    assert 300 * found.cement_kg / 50 == pytest.approx(1010, abs=0.5)  # 300 a bag
    assert 5500 * found.sand_m3 / BRASS == pytest.approx(908, abs=0.5)  # 5500 a brass
    assert 2400 * found.stone_m3 / BRASS == pytest.approx(792, abs=1)  # 2400 a brass


def test_mortar_1_6_at_1_33():
    found = mix.mortar_materials(1, 6, factor=1.33)
    assert found.cement_kg == pytest.approx(273.6, abs=0.05)
    assert found.cement_kg / 50 == pytest.approx(5.472, abs=0.0005)
    assert found.sand_m3 == pytest.approx(1.14, abs=0.005)


def test_slip_20_m3_of_1_2_4_at_1_52_do_not_take_4_14_m3_of_cement():
    cement_m3 = mix.concrete_materials(20, 2, 4, factor=1.52).cement_kg / 1440
    assert cement_m3 == pytest.approx(4.34, abs=0.005)
    assert cement_m3 != pytest.approx(4.14, rel=0.02)


def test_slip_1_2_4_does_not_come_to_four_bags_without_the_factor():
    assert mix.concrete_materials(1, 2, 4, factor=1).cement_kg / 50 == pytest.approx(4.1, abs=0.05)
    assert mix.buying_cement_kg_m3(2, 4) / 50 > 1.5 * 4
