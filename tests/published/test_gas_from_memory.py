"""Gas in pipes and fuels from memory, to be confirmed: Pole's formula, the properties of biogas, its heat, the
Indian rule of fuels replaced."""

from math import sqrt

import pytest

from calc import fuels, gas_pipe
from calc import sources as s


def pole_m3_h(bore_mm, length_m, loss_mbar):
    """Pole's formula for low-pressure gas, Q = 0.0071 sqrt(d^5 h / (s l)), density 0.94 of air."""
    return 0.0071 * sqrt(bore_mm**5 * loss_mbar / (0.94 * length_m))


def test_pole_by_hand():
    # 16.1^5 = 1.0817e6; / (0.94 x 10) = 115 080; root 339.2; x 0.0071 = 2.41
    assert pole_m3_h(16.1, 10, 1) == pytest.approx(2.41, abs=0.005)


@pytest.mark.parametrize(("bore_mm", "length_m", "loss_mbar"), [(16.1, 20, 1), (16.1, 60, 3), (21.7, 100, 1), (10, 20, 3)])
def test_the_formula_loses_more_than_pole_and_less_than_double(bore_mm, length_m, loss_mbar):
    # Pole's constant is a friction factor of 0.026, that of Re = 20 000; here Re is 2 400 to 3 400, where it is 0.041 to 0.045
    flow_m3_h = pole_m3_h(bore_mm, length_m, loss_mbar)
    ours_mbar = gas_pipe.loss_in_bore_pa(flow_m3_h, length_m, bore_mm / 1000, fittings=1) / 100
    assert loss_mbar < ours_mbar < 2 * loss_mbar


def test_density_and_viscosity_by_the_mixture_of_60_and_40_in_100():
    # molar masses 16.04 and 44.01 g; ideal gas at 15 C: 101325 x 0.02723 / (8.314 x 288.15) = 1.152 kg/m3
    moles = 0.6, 0.4
    masses = 16.04, 44.01
    molar = sum(x * m for x, m in zip(moles, masses, strict=True)) / 1000
    assert float(s.GAS_KG_M3) == pytest.approx(101325 * molar / (8.314 * 288.15), rel=0.01)
    # Wilke's rule, 11.0 and 14.7 micropascal second at 20 C
    parts = 11.0, 14.7
    wilke = 0.0
    for x, mu, mass in zip(moles, parts, masses, strict=True):
        below = sum(
            y * (1 + sqrt(mu / nu) * (other / mass) ** 0.25) ** 2 / sqrt(8 * (1 + mass / other))
            for y, nu, other in zip(moles, parts, masses, strict=True)
        )
        wilke += x * mu / below
    assert float(s.GAS_VISCOSITY) * 1e6 == pytest.approx(wilke, rel=0.05)


def test_heat_of_sixty_in_a_hundred_methane():
    # 35.906 x 0.6 = 21.54 MJ; / 4.1868 = 5 146 kcal
    assert fuels.heat_j(1.0) / 1e6 == pytest.approx(21.54, abs=0.005)
    assert fuels.heat_j(1.0) / 4186.8 == pytest.approx(5146, abs=1)


@pytest.mark.parametrize(("fuel", "indian"), [("firewood", 3.5), ("charcoal", 1.46), ("kerosene", 0.62), ("lpg", 0.43)])
def test_the_indian_rule_lies_in_the_range(fuel, indian):
    low, high = fuels.replaced(fuel, 1.0)
    assert low <= indian <= high
