"""The library `numpy`: tables read between their entries, gas added up minute by minute."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import cement
from calc import gas_use as u
from calc import sources as s
from calc.designs import for_gas
from calc.gas_use import Session
from calc.tables import read_off

POINTS = [(0, 1.0), (3, 0.8), (6, 0.7), (12, 0.6)]
PLANT = for_gas(2.0)
DAY = (Session(6, 2, 0.3), Session(12, 1, 0.3), Session(18, 2, 0.6))


@given(st.floats(0, 12))
def test_between_entries_it_is_what_numpy_reads(value):
    assert read_off(POINTS, value, "months") == pytest.approx(float(np.interp(value, *zip(*POINTS, strict=True))))


@given(st.floats(0, 1))
def test_the_strength_that_cement_keeps_is_read_so_too(part):
    months, keeps = zip(*s.CEMENT_KEEPS, strict=True)
    assert cement.cement_retention(part * months[-1]) == pytest.approx(np.interp(part * months[-1], months, keeps))


def by_minutes(store_m3, gas_m3_per_day, sessions, start_m3, days):
    """(gas at the end, missing, lost, least, most) [m3] by adding up minutes."""
    minute = (np.arange(days * 1440) + 0.5) / 60 % 24
    rate = sum((((minute - each.start_h) % 24 < each.hours_h) * each.rate_m3_h for each in sessions), np.zeros(minute.size))
    held, short, lost, least, most = start_m3, 0.0, 0.0, start_m3, start_m3
    for change in (gas_m3_per_day / 24 - rate) / 60:
        held += change
        if held < 0:
            short, held = short - held, 0.0
        elif held > store_m3:
            lost, held = lost + held - store_m3, store_m3
        least, most = min(least, held), max(most, held)
    return held, short, lost, least, most


@pytest.mark.parametrize("gas_m3", [0.9, 1.8, 3.0])
@pytest.mark.parametrize("sessions", [DAY, (Session(22.5, 3, 0.7),), (Session(0, 24, 0.05), Session(11, 2, 0.8))])
def test_minute_by_minute_comes_to_the_same(sessions, gas_m3):
    store = PLANT.levels.store_m3
    found = u.week(PLANT, sessions, gas_m3, start_m3=0.4, days=3)
    end, short, lost, least, most = by_minutes(store, gas_m3, sessions, 0.4, 3)
    ours = (found.end_m3, found.short_m3, found.lost_m3, found.smallest_m3, found.largest_m3)
    assert ours == pytest.approx((end, short, lost, least, most), abs=1e-6)
