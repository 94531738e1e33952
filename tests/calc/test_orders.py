"""Orders of what does not keep: each need served in time, none older than it keeps, and no order too many."""

from itertools import combinations
from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.errors import Missing, OutOfRange
from calc.orders import Need, orders

SPAN = st.tuples(st.integers(0, 120), st.integers(0, 20), st.integers(1, 900))


def needs(spans):
    return [Need(f"s{at}", start, start + days, float(kg)) for at, (start, days, kg) in enumerate(spans)]


def fewest(wanted, keeps_d):
    """By trying: the fewest days of coming, of all starts, that serve every need."""
    starts = sorted({need.from_d for need in wanted})
    for count in range(1, len(starts) + 1):
        for days in combinations(starts, count):
            if all(any(need.to_d - keeps_d <= day <= need.from_d for day in days) for need in wanted):
                return count
    raise AssertionError


@given(st.lists(SPAN, min_size=1, max_size=6), st.integers(20, 60))
def test_all_is_served_in_time_with_the_fewest_orders(spans, keeps_d):
    wanted = needs(spans)
    found = orders(wanted, 50, keeps_d)
    assert sum(order.quantity for order in found) == pytest.approx(sum(need.quantity for need in wanted))
    served = {stage: order for order in found for stage in order.stages}
    for need in wanted:
        order = served[need.stage]
        assert order.on_d <= need.from_d
        assert need.to_d <= order.until_d <= order.on_d + keeps_d
    assert len(found) == fewest(wanted, keeps_d)


@given(st.lists(SPAN, min_size=1, max_size=6), st.floats(5, 60))
def test_each_order_holds_its_stages_and_less_than_a_pack_more(spans, pack):
    for order in orders(needs(spans), pack, 30):
        assert order.quantity - 1e-6 <= order.packs * pack < order.quantity + pack


@pytest.mark.parametrize(("end", "count"), [(29, 1), (30, 1), (31, 2)])
def test_an_order_ends_where_its_time_ends(end, count):
    assert len(orders([Need("base", 0, 1, 100.0), Need("plaster", end - 1, end, 100.0)], 50, 30)) == count


def test_a_stage_longer_than_it_keeps_takes_equal_parts():
    """60 days and 300 kg, kept 25 days: three parts of 20 days and 100 kg."""
    found = orders([Need("dome", 5, 65, 300.0)], 50, 25)
    assert [(order.on_d, order.until_d, order.quantity, order.packs) for order in found] == [
        (5, 25, 100, 2),
        (25, 45, 100, 2),
        (45, 65, 100, 2),
    ]


def test_nothing_is_ordered_for_nothing():
    assert orders([Need("base", 0, 1, 0.0)], 50, 30) == ()
    assert orders([], 50, 30) == ()


def test_two_stages_alike_are_both_served():
    assert orders([Need("inlet", 0, 1, 60.0), Need("inlet", 0, 1, 60.0)], 50, 30)[0].packs == 3


@pytest.mark.parametrize(
    ("need", "pack", "keeps_d", "error"),
    [
        (Need("base", 2, 1, 10.0), 50, 30, OutOfRange),
        (Need("base", nan, 1, 10.0), 50, 30, OutOfRange),
        (Need("base", 0, inf, 10.0), 50, 30, OutOfRange),
        (Need("base", 0, 1, -10.0), 50, 30, OutOfRange),
        (Need("base", 0, 1, nan), 50, 30, OutOfRange),
        (Need("base", None, 1, 10.0), 50, 30, Missing),
        (Need("base", 0, 1, None), 50, 30, Missing),
        (Need("base", 0, 1, 10.0), 0, 30, OutOfRange),
        (Need("base", 0, 1, 10.0), 50, 0.99, OutOfRange),
        (Need("base", 0, 1, 10.0), 50, nan, OutOfRange),
        (Need("base", 0, 1, 10.0), 50, None, Missing),
    ],
)
def test_what_is_no_need_is_refused(need, pack, keeps_d, error):
    with pytest.raises(error):
        orders([need], pack, keeps_d)


def test_a_day_is_the_shortest_time_to_keep():
    assert len(orders([Need("base", 0, 1, 10.0)], 50, 1)) == 1
