"""First charge, wait for gas, fillings let off, feed: limits, what is missing, what keeps its sum."""

from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import sources as s
from calc import startup
from calc.designs import for_feed, for_gas, for_volume
from calc.errors import OutOfRange, Unknown
from calc.sizing import feed_from_dung
from calc.startup import Charge
from calc.vessel import shape, volume_below


@given(st.floats(0.6, 8))
def test_the_first_charge_reaches_the_zero_line_half_and_half(gas_m3):
    plant = for_gas(gas_m3)
    charge = startup.first_charge(plant)
    assert charge.dung_kg == charge.water_l
    assert (charge.dung_kg + charge.water_l) / 1000 == pytest.approx(volume_below(plant.vessel, plant.levels.zero_line_m))


@given(st.sampled_from(sorted(s.INOCULUM_SHARE)))
def test_the_slower_a_dung_starts_the_more_of_another_plant_it_takes(dung):
    plant = for_volume(8.0, 24)
    cattle, other = startup.first_charge(plant), startup.first_charge(plant, dung)
    assert other.inoculum_l >= cattle.inoculum_l > 0


def test_an_unknown_dung_is_refused():
    with pytest.raises(Unknown):
        startup.first_charge(for_gas(2.0), "elephant")


def test_days_of_dung_are_the_charge_over_the_daily_feed():
    plant = for_feed(feed_from_dung(48), 27)
    charge = startup.first_charge(plant)
    assert charge.dung_days * 48 == pytest.approx(charge.dung_kg)


def test_without_a_feed_there_are_no_days():
    from calc.designs import design

    charge = startup.first_charge(design(6.0, 1.0, form=shape("cylinder_cap", "flat")))
    assert charge.dung_days is None and charge.dung_kg > 0


@given(st.floats(0, 5000), st.floats(0, 5000))
def test_dung_collected_and_dung_left_make_the_charge(need, have):
    left = startup.dung_left_kg(Charge(need, need, 0.0, None), have)
    assert left >= 0
    assert left + have == pytest.approx(need) if have <= need else left == 0


@pytest.mark.parametrize("have", [-1, nan, inf])
def test_dung_that_cannot_be_is_refused(have):
    with pytest.raises(OutOfRange):
        startup.dung_left_kg(Charge(1.0, 1.0, 0.0, None), have)


@pytest.mark.parametrize(("temp_c", "days"), [(20, (20, 40)), (24.9, (20, 40)), (25, (10, 20)), (30, (10, 20))])
def test_gas_comes_sooner_in_the_warm(temp_c, days):
    assert startup.first_gas_d(temp_c) == days


@pytest.mark.parametrize("temp_c", [19.9, 30.1, nan, inf, -inf])
def test_outside_the_figures_there_is_no_number_of_days(temp_c):
    with pytest.raises(OutOfRange):
        startup.first_gas_d(temp_c)


@pytest.mark.parametrize(
    ("heads_m", "left"),
    [
        ([], 2),
        ([None], 2),
        ([None, None, None], 2),
        ([0.49, 0.49], 2),
        ([0.50], 1),
        ([0.50, 0.50], 0),
        ([0.9, 0.2, None, 0.6], 0),
        ([1] * 5, 0),
    ],
)
def test_only_full_fillings_that_were_read_count(heads_m, left):
    assert startup.fillings_left(heads_m) == left


@given(st.lists(st.one_of(st.none(), st.floats(0, 2))), st.one_of(st.none(), st.floats(0, 2)))
def test_one_more_filling_never_adds_one_to_go(heads_m, more):
    assert startup.fillings_left([*heads_m, more]) in (startup.fillings_left(heads_m), startup.fillings_left(heads_m) - 1)


@pytest.mark.parametrize("head_m", [-0.01, nan, inf])
def test_a_head_that_cannot_be_is_refused(head_m):
    with pytest.raises(OutOfRange):
        startup.fillings_left([head_m])


@pytest.mark.parametrize(("dung_kg", "stands"), [(39.9, "under"), (40, "within"), (72, "within"), (72.1, "over")])
def test_a_feed_is_measured_by_the_inside(dung_kg, stands):
    load, found = startup.feed_load(dung_kg, 8.0)
    assert (load, found) == (pytest.approx(dung_kg / 8), stands)


@pytest.mark.parametrize(("dung_kg", "inside_m3"), [(0, 8), (-1, 8), (nan, 8), (40, 0), (40, inf)])
def test_a_feed_or_inside_that_cannot_be_is_refused(dung_kg, inside_m3):
    with pytest.raises(OutOfRange):
        startup.feed_load(dung_kg, inside_m3)


@pytest.mark.parametrize(("dung", "share"), [("cattle", 0.10), ("pig", 0.20), ("hen", 0.30), ("person", 0.30)])
def test_running_slurry_in_the_first_fill_is_a_share_of_its_volume(dung, share):
    charge = startup.first_charge(for_gas(2.0), dung)
    assert charge.inoculum_l == pytest.approx(share * (charge.dung_kg + charge.water_l))
