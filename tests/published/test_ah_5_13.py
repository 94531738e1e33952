"""Werner, Stoehr, Hees, Biogas Plants in Animal Husbandry, GATE/GTZ 1989, table 5.13: speeds and losses of gas in
galvanised pipe; and its two rules for the gas store (1.05 and 1.5 m3)."""

from math import pi, sqrt

import pytest

from calc import gas_pipe, gas_use
from calc.gas_use import Session
from calc.units import from_si

PRINTED = {  # m3/h: (speed m/s, loss in cm of water per 10 m) of 1/2, 3/4 and 1 inch
    0.1: ((0.35, 0.03), (0.16, 0.004), (0.09, 0.001)),
    0.2: ((0.71, 0.12), (0.32, 0.02), (0.18, 0.004)),
    0.4: ((1.4, 0.47), (0.64, 0.06), (0.36, 0.016)),
    0.6: ((2.1, 1.06), (0.94, 0.15), (0.53, 0.034)),
    0.8: ((2.8, 1.9), (1.3, 0.27), (0.72, 0.06)),
    1.0: ((3.5, 2.9), (1.6, 0.41), (0.88, 0.09)),
    1.5: ((5.3, 6.7), (2.3, 0.85), (1.33, 0.2)),
    2.0: ((7.0, 11.8), (3.2, 1.6), (1.8, 0.4)),
}
CELLS = [
    (flow_m3_h, size, speed_m_s, loss_cm)
    for flow_m3_h, row in PRINTED.items()
    for size, (speed_m_s, loss_cm) in zip(gas_pipe.SIZES, row, strict=True)
]


@pytest.mark.parametrize(("flow_m3_h", "size", "speed_m_s", "loss_cm"), CELLS)
def test_the_fit_gives_every_printed_loss(flow_m3_h, size, speed_m_s, loss_cm):
    ours_cm = from_si(gas_pipe.loss_by_table_pa(flow_m3_h, 10, size), "cmH2O")
    assert ours_cm == pytest.approx(loss_cm, rel=0.11, abs=0.004)


def implied_bore_m(flow_m3_h, speed_m_s):
    return sqrt(4 * flow_m3_h / 3600 / (pi * speed_m_s))


@pytest.mark.parametrize(("flow_m3_h", "size", "speed_m_s", "loss_cm"), CELLS)
def test_the_printed_speeds_belong_to_bores_of_10_15_and_20_mm(flow_m3_h, size, speed_m_s, loss_cm):
    meant_m = {"1/2": 0.010, "3/4": 0.015, "1": 0.020}[size]
    assert implied_bore_m(flow_m3_h, speed_m_s) == pytest.approx(meant_m, rel=0.025)


def test_half_inch_and_400_litres_an_hour_by_hand():
    # sqrt(4 x 0.4 / 3600 / (pi x 1.4)) = 0.01005 m
    assert implied_bore_m(0.4, 1.4) == pytest.approx(0.01005, rel=0.001)


@pytest.mark.parametrize(
    ("bore_m", "flow_m3_h", "printed_cm", "off"),
    [(0.015, 1.0, 0.41, 0.12), (0.010, 2.0, 11.8, 0.15), (0.020, 2.0, 0.4, 0.25), (0.010, 1.0, 2.9, 0.10)],
)
def test_the_formula_comes_near_the_table_where_the_flow_is_turbulent(bore_m, flow_m3_h, printed_cm, off):
    straight_cm = from_si(gas_pipe.loss_in_bore_pa(flow_m3_h, 10, bore_m, fittings=1), "cmH2O")
    assert straight_cm == pytest.approx(printed_cm, rel=off)


def test_at_little_flow_the_table_lies_far_below_the_formula():
    # laminar: 128 x 1.27e-5 x 10 x (0.1/3600) / (pi x 0.010^4) = 14.4 Pa = 0.147 cm, printed 0.03
    straight_cm = from_si(gas_pipe.loss_in_bore_pa(0.1, 10, 0.010, fittings=1), "cmH2O")
    assert straight_cm == pytest.approx(0.147, abs=0.001)
    assert straight_cm > 4 * PRINTED[0.1][0][1]


def test_the_handbooks_store_for_three_hours_on_two_burners_and_for_ten_hours_without_is_large_enough():
    # printed 0.175 x 2 x 3 = 1.05 m3 and 10 x 0.15 = 1.5 m3, the larger is the store; 3.6 m3 a day are 0.15 an hour
    day = (Session(6, 2, 2 * 0.175), Session(12, 3, 2 * 0.175), Session(19, 1, 2 * 0.175))
    assert gas_use.large_enough(1.5, day, 3.6)
    # burnt up, 2.1 m3 of 2.1, the longest cooking is the larger of the two; what fills in its three hours is spared
    assert gas_use.large_enough(1.05, day, 2.1)
    assert gas_use.store_needed_m3(day, 2.1) == pytest.approx(0.175 * 2 * 3 - (3 - 2) * 0.0875)
