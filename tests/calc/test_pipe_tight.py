"""The air test of a gas pipe: limits from both sides, what is missing, what its warmth explains at any height above the sea."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.errors import OutOfRange
from calc.pipe_tight import pipe_pressure_pa, pipe_test


@pytest.mark.parametrize(
    ("said", "stands", "reason"),
    [
        ((10000, 9900, 15, 25, 25), "within", ""),
        ((10000, 9899, 15, 25, 25), "outside", "falls"),
        ((10000, 10000, 14.9, 25, 25), "not_enough", "too_short"),
        ((9999, 9999, 15, 25, 25), "not_enough", "low_pressure"),
        ((10000, 10000, 15), "not_enough", "no_temperature"),
        ((10000, 10000, 15, 25), "not_enough", "no_temperature"),
        ((10000, 9800, 5), "outside", "falls"),
        ((10000, 9640, 15, 25, 24), "not_enough", "no_barometer"),  # 110 / 298.15 = 0.369 kPa at the sea, 0.235 at 60 kPa
        ((10000, 9640, 15, 25, 24, None, 100000), "within", ""),
        ((10000, 9640, 15, 25, 24, None, 60000), "outside", "falls"),
        ((10000, 9666, 15, 25, 24), "within", ""),
        ((10000, 9665, 15, 25, 24), "not_enough", "no_barometer"),
        ((10000, 10000, 15, 25, 25.3), "not_enough", "no_barometer"),
        ((10000, 10000, 15, 25, 26), "outside", "falls"),
        ((11000, 11000, 15, 25, 25, 8000), "not_enough", "low_pressure"),
        ((12000, 12000, 15, 25, 25, 8000), "within", ""),
    ],
)
def test_a_pipe(said, stands, reason):
    found = pipe_test(*said)
    assert (found.stands, found.reason) == (stands, reason)


@pytest.mark.parametrize(
    "said", [(-1, 0, 15), (10000, -1, 15), (10000, 9990, -1), (nan, 9990, 15), (10000, 9990, 15, 61, 25), (10000, 9990, 15, 25, 25, -1)]
)
def test_a_pipe_reading_that_cannot_be_is_refused(said):
    with pytest.raises(OutOfRange):
        pipe_test(*said)


@given(st.floats(10000, 15000), st.floats(5, 45), st.floats(-5, 5), st.floats(60000, 106000))
def test_a_tight_pipe_is_never_outside_for_its_warmth(start_pa, start_c, warmer_c, barometer_pa):
    end_pa = (barometer_pa + start_pa) * (start_c + warmer_c + 273.15) / (start_c + 273.15) - barometer_pa
    assert pipe_test(start_pa, end_pa, 15, start_c, start_c + warmer_c, None, barometer_pa).stands == "within"
    assert pipe_test(start_pa, end_pa, 15, start_c, start_c + warmer_c).stands != "outside"


@pytest.mark.parametrize(("greatest_pa", "wanted_pa"), [(None, 10000), (6666, 10000), (6667, 10000.5), (9000, 13500)])
def test_a_pipe_is_pressed_half_as_much_again_as_its_plant(greatest_pa, wanted_pa):
    assert pipe_pressure_pa(greatest_pa) == pytest.approx(wanted_pa)
