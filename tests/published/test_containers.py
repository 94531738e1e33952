"""Measuring boxes for a bag of cement (India), the US sack, and buckets in school books (frustum of a cone)."""

import pytest

from calc import mix
from calc.units import si


@pytest.mark.parametrize(
    ("box_l", "printed_l"),
    [(si(0.25 * 0.35 * 0.40, "m3") * 1000, 35.0), (si(12, "in") * si(12, "in") * si(15, "in") * 1000, 35.4)],
    ids=["25 x 35 x 40 cm", "12 x 12 x 15 in"],
)
def test_a_box_for_one_bag_holds_no_less_than_the_bag(box_l, printed_l):
    assert box_l == pytest.approx(printed_l, abs=0.05)
    assert mix.bag_volume_l(50) <= box_l <= 1.025 * mix.bag_volume_l(50)


def test_a_sack_of_94_lb_in_one_cubic_foot_is_believed():
    sack_kg, cubic_foot_l = si(94, "lb"), si(1, "ft3") * 1000
    assert mix.cement_per_measure_kg(sack_kg, 1, cubic_foot_l) == pytest.approx(42.64, abs=0.005)


@pytest.mark.parametrize(
    ("top_m", "bottom_m", "depth_m", "litres", "rounding"),
    [
        (0.42, 0.28, 0.24, 23.408, 0.0005),  # pi taken as 22/7, 0.04 % over
        (0.56, 0.42, 0.15, 28.490, 0.0005),
        (0.40, 0.16, 0.16, 10.459, 0.0005),
        (0.30, 0.10, 0.24, 8.164, 0.0008),  # pi taken as 3.14, 0.05 % under
    ],
)
def test_buckets(top_m, bottom_m, depth_m, litres, rounding):
    assert mix.measure_l_from_rod(top_m, bottom_m, depth_m) == pytest.approx(litres, rel=rounding)
