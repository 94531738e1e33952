"""Mass of reinforcing bars: IS 1786:2008 table 1 (digest), site lists by d^2/162, and one bar schedule of a slab."""

import pytest

from calc import masonry


@pytest.mark.parametrize(
    ("mm", "kg_m", "rounding"),
    [
        (6, 0.222, 0.0005),
        (8, 0.395, 0.0005),
        (10, 0.617, 0.0005),
        (12, 0.888, 0.0005),
        (16, 1.578, 0.0005),
        (20, 2.466, 0.0005),
        (25, 3.852, 0.0015),  # other lists have 3.853
        (28, 4.834, 0.0005),
        (32, 6.313, 0.0005),
        (36, 7.99, 0.005),
        (40, 9.864, 0.0015),  # other lists have 9.865
    ],
)
def test_table_1(mm, kg_m, rounding):
    assert masonry.bar_mass_kg_m(mm / 1000) == pytest.approx(kg_m, abs=rounding)


@pytest.mark.parametrize(
    ("mm", "kg_m"),
    [(6, 0.222), (8, 0.395), (10, 0.617), (12, 0.889), (16, 1.580), (20, 2.469), (25, 3.858), (32, 6.321)],
)
def test_list_by_d_squared_over_162(mm, kg_m):
    assert masonry.bar_mass_kg_m(mm / 1000) == pytest.approx(kg_m, rel=0.002)


def test_schedule_of_a_slab_of_6_0_by_2_5_m_with_8_mm_bars_each_150():
    found = masonry.slab_bars(6.0, 2.5, 0.150, 0.025, 0.008)
    assert (found.across, found.along) == (41, 18)
    assert found.length_m == pytest.approx(18 * 5.95 + 41 * 2.45)


@pytest.mark.parametrize(("mm", "kg"), [(6, 2.664), (8, 4.741), (10, 7.404), (12, 10.67)])
def test_list_of_whole_bars_of_12_m(mm, kg):
    assert 12 * masonry.bar_mass_kg_m(mm / 1000) == pytest.approx(kg, rel=0.002)
