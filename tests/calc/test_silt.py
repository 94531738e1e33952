"""Silt in the bottle: a share of the sand, judged with the rule it was measured with."""

from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.errors import OutOfRange
from calc.measuring import half_place, silt_share, silt_stands


@given(st.floats(0.01, 1000), st.floats(0, 1), st.floats(0.001, 1000))
def test_silt_is_the_same_share_in_any_unit(sand, part, unit):
    assert silt_share(part * sand * unit, sand * unit) == pytest.approx(silt_share(part * sand, sand))


@pytest.mark.parametrize(("silt", "sand"), [(-0.1, 100), (101, 100), (4, 0), (nan, 100), (4, nan)])
def test_heights_that_cannot_be(silt, sand):
    with pytest.raises(OutOfRange):
        silt_share(silt, sand)


def test_heights_at_their_limits():
    assert silt_share(0, 100) == 0
    assert silt_share(100, 100) == 1


@pytest.mark.parametrize(
    ("share", "uncertainty", "stands"),
    [
        (0, 0, "within"),
        (0.03, 0, "within"),
        (0.031, 0, "outside"),
        (1, 0, "outside"),
        (0, 0.01, "within"),
        (0.0199, 0.01, "within"),
        (0.021, 0.01, "not_enough"),
        (0.04, 0.01, "not_enough"),
        (0.0401, 0.01, "outside"),
        (0, 0.04, "not_enough"),
    ],
)
def test_silt_against_three_percent(share, uncertainty, stands):
    assert silt_stands(share, uncertainty) == stands


@pytest.mark.parametrize(("share", "uncertainty"), [(-0.01, 0), (1.01, 0), (nan, 0), (0.02, -0.01), (0.02, nan)])
def test_shares_that_cannot_be(share, uncertainty):
    with pytest.raises(OutOfRange):
        silt_stands(share, uncertainty)


@pytest.mark.parametrize(
    ("number", "half"), [(0, 0.5), (3, 0.5), (100, 0.5), (3.0, 0.5), (1.5, 0.05), (0.3, 0.05), (2.75, 0.005), (-3, 0.5), (120.5, 0.05)]
)
def test_a_number_is_known_to_half_of_its_last_place(number, half):
    assert half_place(number) == pytest.approx(half)


@pytest.mark.parametrize("bad", [nan, inf])
def test_what_is_no_number_has_no_places(bad):
    with pytest.raises(OutOfRange):
        half_place(bad)
