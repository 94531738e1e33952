"""Lengths off a tape: by the inch of 25.4 mm, worked by hand; what is not nothing prints no 0; a bound is never rounded past itself."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.kinds import layout
from bot.phrases import T_, Reader, Size, joined, show, word
from bot.tape import Bound, Far, FarBound, Fine, Mark, TapeUnit
from calc import strings
from calc.vessel import Vessel

METRIC, FEET, BRIEF = Reader(), Reader(units="feet"), Reader(units="feet", brief=True)


@pytest.mark.parametrize(
    ("value", "metric", "feet"),
    [
        (Fine(0.354), "35.4 cm", "1 ft 1 7/8 in"),  # 354 / 25.4 = 13.94 in
        (Fine(0.010, "mm"), "10 mm", "3/8 in"),  # 0.394 in
        (Fine(0.0004), "under 1 mm", "under 1/8 in"),
        (Fine(0.0), "0 cm", "0 in"),
        (Bound(0.010), "1 cm", "3/8 in"),  # 0.394 in
        (Bound(0.005), "0.5 cm", "1/8 in"),  # 0.197 in, and 1/4 would be 6.4 mm
        (Bound(0.003), "0.3 cm", "3 mm"),  # under an eighth
        (Far(32.004), "32 m", "32 m (105 ft)"),
        (Far(1.22), "1.22 m", "1.22 m (4 ft)"),
        (FarBound(30.0, True), "30 m", "99 ft"),  # 98.43 ft
        (FarBound(30.0, False), "30 m", "98 ft"),
        (Mark(1.27), "127", "50"),
        (Mark(0.0032), "0.3", "1/8"),
        (Mark(-0.05), "-5", "-2"),  # 1.97 in
        (Mark(0.4667), "46.7", "18 3/8"),  # 18.37 in
        (TapeUnit(), "cm", "inches"),
        (Size(0.0004), "under 1 mm", "under 1/8 in"),
        (Size(0.0), "0 cm", "0 in"),
    ],
)
def test_each_reader_has_his_own_units(value, metric, feet):
    assert (value.show(METRIC), value.show(FEET)) == (metric, feet)


def test_a_distance_is_told_in_feet_alone_where_room_is_short():
    assert Far(32.004).show(BRIEF) == "105 ft"


@given(st.floats(1e-7, 3.0), st.sampled_from([METRIC, FEET]), st.sampled_from([Size, Fine]))
def test_what_is_not_nothing_prints_no_nought(value_m, reader, form):
    assert not re.match(r"0(\.0)? ", form(value_m).show(reader))


@given(st.floats(0.0005, 0.25))
def test_a_bound_is_never_printed_wider_than_it_is(bound_m):
    assert float(Bound(bound_m).show(METRIC).removesuffix(" cm")) / 100 <= bound_m + 1e-6


@given(st.floats(0.8, 2.0), st.floats(0.35, 1.0), st.floats(0.15, 0.6), st.sampled_from([METRIC, FEET]))
def test_neighbours_in_a_string_table_print_two_numbers(radius_m, rise, dish, reader):
    vessel = Vessel(radius_m, rise * radius_m, 1.0, "bowl", dish * radius_m)
    step_m = layout._step(vessel, reader.units == "feet")
    for table in (strings.dome_table(vessel, step_m), strings.bowl_table(vessel, step_m)):
        told = show(layout._pairs(table), reader).split(", ")
        for side in (0, 1):
            numbers = [pair.split(": ")[side] for pair in told]
            assert all(one != other for one, other in zip(numbers, numbers[1:], strict=False))


def test_a_head_is_said_once_where_two_texts_go_as_one():
    head, first, second = T_("TB07 RECORD:"), T_("One."), T_("Two.")
    assert word(joined(head + first, head + second), METRIC) == "TB07 RECORD: One. Two."
    assert word(joined(first, second), METRIC) == "One. Two."
