"""A contractor's "Consumption norms", dated 8.6.05: bags of cement and cubic feet of sand in 1 m3, without waste."""

import pytest

from calc import mix

FT3 = 0.3048**3
RICH = [
    ((1, 2), 11.19),
    ((1.5, 3), 8.02),
    ((5 / 3, 10 / 3), 7.42),
    ((2, 4), 6.21),
    ((2.5, 5), 5.30),
    ((3, 6), 4.41),
    ((4, 8), 3.39),
]
LEAN = [((3, 4), 5.37), ((5, 10), 2.58), ((6, 12), 2.19)]


@pytest.mark.parametrize(("parts", "bags"), RICH)
def test_bags_of_cement(parts, bags):
    assert mix.concrete_materials(1, *parts, factor=1.54).cement_kg / 50 == pytest.approx(bags, rel=0.025)


@pytest.mark.parametrize(("parts", "bags"), RICH + LEAN)
def test_cement_to_buy_is_never_under_the_norm(parts, bags):
    assert mix.buying_cement_kg_m3(*parts) >= 50 * bags


@pytest.mark.parametrize(("parts", "sand_ft3"), [((1, 2), 13.99), ((1.5, 3), 15.03), ((2, 4), 15.54), ((3, 6), 16.55), ((4, 8), 16.95)])
def test_sand(parts, sand_ft3):
    assert mix.concrete_materials(1, *parts, factor=1.54).sand_m3 / FT3 == pytest.approx(sand_ft3, rel=0.03)
