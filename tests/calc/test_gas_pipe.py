"""Gas pipe: losses that grow, smallest bore, trap; limits and what is not covered."""

from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import gas_pipe as g
from calc.errors import Missing, OutOfRange, Unknown

FLOWS = st.floats(0.01, 2.0)
LENGTHS = st.floats(1, 100)
SIZES = st.sampled_from(g.SIZES)


@given(FLOWS, LENGTHS, SIZES)
def test_the_loss_is_never_less_than_formula_or_table(flow_m3_h, length_m, size):
    loss = g.loss_pa(flow_m3_h, length_m, size)
    bore = {"1/2": 0.0161, "3/4": 0.0217, "1": 0.0273}[size]
    assert loss >= g.loss_in_bore_pa(flow_m3_h, length_m, bore)
    assert loss >= g.loss_by_table_pa(flow_m3_h, length_m, size)


@given(FLOWS, LENGTHS, SIZES, st.floats(1.01, 3))
def test_more_gas_loses_more_and_a_longer_pipe_in_proportion(flow_m3_h, length_m, size, times):
    loss = g.loss_pa(flow_m3_h, length_m, size)
    if flow_m3_h * times <= 2:
        assert g.loss_pa(flow_m3_h * times, length_m, size) > loss
    if length_m * times <= 100:
        assert g.loss_pa(flow_m3_h, length_m * times, size) == pytest.approx(times * loss)


@given(FLOWS, LENGTHS)
def test_a_wider_pipe_loses_less(flow_m3_h, length_m):
    half, three_quarters, one = (g.loss_pa(flow_m3_h, length_m, size) for size in g.SIZES)
    assert half > three_quarters > one


@given(FLOWS, LENGTHS)
def test_the_smallest_size_stays_within_five_millibar_and_the_next_smaller_does_not(flow_m3_h, length_m):
    size = g.smallest_size(flow_m3_h, length_m)
    assert g.loss_pa(flow_m3_h, length_m, size) <= 500
    smaller = g.SIZES[: g.SIZES.index(size)]
    assert all(g.loss_pa(flow_m3_h, length_m, other) > 500 for other in smaller)


def test_one_inch_is_enough_at_the_end_of_the_tables():
    assert g.loss_pa(2.0, 100, "1") < 500


def test_slow_flow_in_a_pipe_of_water_shape_by_hand():
    # Hagen-Poiseuille: 128 mu L Q / (pi d^4) = 128 x 1.27e-5 x 10 x (0.05/3600) / (pi x 0.0161^4) = 1.070 Pa
    assert g.loss_in_bore_pa(0.05, 10, 0.0161, fittings=1) == pytest.approx(1.070, abs=0.001)


def test_no_flow_no_loss():
    assert g.loss_pa(0, 30, "1/2") == 0


@pytest.mark.parametrize(
    ("flow_m3_h", "length_m"), [(2.001, 10), (-0.001, 10), (1, 100.1), (1, 0), (nan, 10), (1, inf), (inf, 10), (1, nan)]
)
def test_beyond_the_tables_there_is_no_loss(flow_m3_h, length_m):
    for loss in (g.loss_pa, g.loss_by_table_pa):
        with pytest.raises(OutOfRange):
            loss(flow_m3_h, length_m, "1/2")
    with pytest.raises(OutOfRange):
        g.smallest_size(flow_m3_h, length_m)


def test_the_ends_of_the_tables_are_covered():
    assert g.loss_pa(2.0, 100, "1/2") > g.loss_pa(2.0, 99.9, "1/2")
    assert g.smallest_size(1e-9, 100) == "1/2"


def test_nothing_burning_needs_no_size():
    with pytest.raises(OutOfRange):
        g.smallest_size(0, 30)


@pytest.mark.parametrize("size", ["2", "0.5", None, 0.0127])
def test_a_size_of_no_table_is_refused(size):
    with pytest.raises(Unknown):
        g.loss_pa(1, 10, size)
    with pytest.raises(Unknown):
        g.loss_by_table_pa(1, 10, size)


@pytest.mark.parametrize("reynolds", [0, -1, nan, inf, 1.1e5])
def test_friction_outside_its_range_is_refused(reynolds):
    with pytest.raises(OutOfRange):
        g.friction_factor(reynolds)


@pytest.mark.parametrize(("bore_m", "fittings"), [(0.0049, 1), (0.0501, 1), (nan, 1), (0.01, 0.99)])
def test_a_bore_or_fittings_that_cannot_be_are_refused(bore_m, fittings):
    with pytest.raises(OutOfRange):
        g.loss_in_bore_pa(1, 10, bore_m, fittings)


def test_missing_is_not_zero():
    with pytest.raises(Missing):
        g.loss_pa(None, 10, "1/2")
    with pytest.raises(Missing):
        g.smallest_size(1, None)
    with pytest.raises(Missing):
        g.design_flow_m3_h(None)
    with pytest.raises(Missing):
        g.trap_leg_m(None)


@given(st.integers(0, 5), st.integers(0, 5))
def test_what_burns_together_adds_up(stoves, lamps):
    assert g.design_flow_m3_h(stoves, lamps) == pytest.approx(0.4 * stoves + 0.15 * lamps)


@pytest.mark.parametrize(("stoves", "lamps"), [(-1, 0), (1, -1), (nan, 0)])
def test_a_count_below_nothing_is_refused(stoves, lamps):
    with pytest.raises(OutOfRange):
        g.design_flow_m3_h(stoves, lamps)


@given(st.floats(0, 12000))
def test_the_trap_stands_the_greatest_pressure_and_ten_centimetres(pressure_pa):
    assert 1000 * 9.80665 * (g.trap_leg_m(pressure_pa) - 0.10) == pytest.approx(pressure_pa, abs=1e-6)


@pytest.mark.parametrize("pressure_pa", [-1, 12001, nan, inf])
def test_a_pressure_no_plant_has_gives_no_trap(pressure_pa):
    with pytest.raises(OutOfRange):
        g.trap_leg_m(pressure_pa)


@pytest.mark.parametrize(("flow_m3_h", "size", "wider"), [(1.0, "1/2", "3/4"), (2.0, "3/4", "1")])
def test_a_size_serves_up_to_five_millibar_and_not_a_hundredth_farther(flow_m3_h, size, wider):
    longest_m = 500 / g.loss_pa(flow_m3_h, 1.0, size)
    assert g.smallest_size(flow_m3_h, 0.999 * longest_m) == size
    assert g.smallest_size(flow_m3_h, 1.001 * longest_m) == wider
