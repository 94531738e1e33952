"""Layers and levels of a fill: near a limit the tape cannot tell, and the worst place decides."""

from math import nan, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from calc.backfill import layers_stand, levels_stand
from calc.errors import Missing, OutOfRange


# 15 to 30 cm, by a tape that knows 5 mm
@pytest.mark.parametrize(
    ("layer_m", "stands"),
    [
        (0.144, "outside"), (0.145, "not_enough"), (0.150, "not_enough"), (0.154, "not_enough"), (0.155, "within"),
        (0.295, "within"), (0.296, "not_enough"), (0.300, "not_enough"), (0.305, "not_enough"), (0.306, "outside"),
    ],
)  # fmt: skip
def test_a_layer_of_15_to_30_cm(layer_m, stands):
    assert layers_stand([layer_m]).stands == stands
    assert layers_stand([0.20, layer_m, 0.25]).stands == stands


# at most 30 cm; two readings of 5 mm are 7 mm apart
@pytest.mark.parametrize(("apart_m", "stands"), [(0.0, "within"), (0.292, "within"), (0.294, "not_enough"), (0.300, "not_enough"),
                                                 (0.307, "not_enough"), (0.308, "outside")])  # fmt: skip
def test_sides_at_most_30_cm_apart(apart_m, stands):
    assert levels_stand([0.50 + apart_m, 0.50, 0.50 + apart_m / 2]).stands == stands


def test_a_difference_of_two_readings_is_as_uncertain_as_a_library_says():
    difference = ufloat(0.80, 0.005) - ufloat(0.50, 0.005)
    assert levels_stand([0.80, 0.50]).limits.uncertainty == pytest.approx(difference.std_dev) == pytest.approx(0.005 * sqrt(2))


@given(st.floats(0.16, 0.29), st.floats(0.001, 0.02))
def test_a_better_tape_tells_more(layer_m, tape_m):
    if layers_stand([layer_m], tape_m).stands == "within":
        assert layers_stand([layer_m], tape_m / 2).stands == "within"


@pytest.mark.parametrize("stand", [layers_stand, levels_stand])
def test_no_reading_stands_nowhere(stand):
    with pytest.raises(Missing):
        stand([])
    with pytest.raises(OutOfRange):
        stand([0.2, nan])
