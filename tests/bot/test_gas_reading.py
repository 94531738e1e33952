"""Hours of cooking and pipes as they are written: read back exactly, or asked about."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from bot.forms import Answer, Ask, Form, Sender, Understood
from bot.kinds import BY_NAME, KINDS
from bot.letters import segments
from bot.phrases import Reader, word
from bot.reading.read import read
from bot.reading.words import vocabulary
from bot.site import Rules, Site
from tests.conftest import NOON


def sessions(quarters):
    """(from, to) of each two, shorter than half a day."""
    return [(start, end) for start, end in zip(quarters[::2], quarters[1::2], strict=False) if end - start < 48]


QUARTERS = (
    st.lists(st.integers(0, 95), min_size=2, max_size=8, unique=True).map(sorted).filter(lambda held: sessions(held))
)  # quarters of an hour, in order


def understood(text):
    return read(text, KINDS, vocabulary())


def times(text):
    """((start, hours), ...) [h] of a text, or None where it asks."""
    outcome = understood(text)
    if not isinstance(outcome, Understood):
        assert isinstance(outcome, Ask) and outcome.kind == "use", outcome
        return None
    (form,) = outcome.forms
    assert form.kind == "use"
    return tuple(zip(form.get("start_h"), form.get("hours_h"), strict=True))


def clock(quarter):
    return f"{quarter // 4:02d}:{quarter % 4 * 15:02d}"


def half_day(quarter):
    hour, minute = quarter // 4, quarter % 4 * 15
    return f"{(hour + 11) % 12 + 1}{f':{minute}' if minute else ''} {'am' if hour < 12 else 'pm'}"


@given(QUARTERS, st.sampled_from([" to ", "-", " till "]))
def test_the_24_hour_clock_is_read_back(quarters, between):
    pairs = sessions(quarters)
    assume(any(start // 4 < 10 or end // 4 > 12 for start, end in pairs))  # 10:00 to 12:00 alone may be of the evening, and is asked
    text = "cook " + " and ".join(f"{clock(start)}{between}{clock(end)}" for start, end in pairs) + ", 2 stoves"
    found = times(text)
    assert found is not None and len(found) == len(pairs)
    for (start_h, hours_h), (start, end) in zip(found, pairs, strict=True):
        assert (start_h, hours_h) == pytest.approx((start / 4, (end - start) / 4))


@given(QUARTERS)
def test_am_and_pm_are_read_back(quarters):
    pairs = sessions(quarters)
    found = times("we cook " + ", ".join(f"{half_day(start)} to {half_day(end)}" for start, end in pairs) + " 1 stove")
    assert found is not None and len(found) == len(pairs)
    for (start_h, hours_h), (start, end) in zip(found, pairs, strict=True):
        assert (start_h, hours_h) == pytest.approx((start / 4, (end - start) / 4))


@given(QUARTERS)
def test_am_or_pm_with_hours_is_read_back(quarters):
    pairs = sessions(quarters)
    found = times("cooking " + ", ".join(f"{half_day(start)} {(end - start) / 4:g} h" for start, end in pairs) + " 1 stove")
    assert found is not None and len(found) == len(pairs)
    for (start_h, hours_h), (start, end) in zip(found, pairs, strict=True):
        assert (start_h, hours_h) == pytest.approx((start / 4, (end - start) / 4))


@given(st.lists(st.integers(1, 11), min_size=4, max_size=6))
def test_hours_that_may_be_morning_or_evening_are_asked_about(hours):
    pairs = list(zip(hours[::2], hours[1::2], strict=False))
    assert times("cook " + ", ".join(f"{start} to {end}" for start, end in pairs) + " 1 stove") is None


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("cook 6 to 8", ((6, 2),)),  # once a day it is all one whether morning or evening
        ("cook 11 to 1 pm", ((11, 2),)),
        ("cook 6 to 8 pm and 6 to 7 am", ((18, 2), (6, 1))),
        ("cook 5am 2h 12 1h 6pm 2h", ((5, 2), (12, 1), (18, 2))),
        ("cook 0600 to 0730 and 1800 to 1930", ((6, 1.5), (18, 1.5))),
        ("cook 6 am for 2 h, 7 pm for 1 h", ((6, 2), (19, 1))),
        ("cook in the morning 6 to 7, at noon 12 to 1, in the evening 6 to 8", ((6, 1), (12, 1), (18, 2))),
        ("cook 10 pm to 2 am", ((22, 4),)),
        ("cook 00:15 to 12:00", ((0.25, 11.75),)),
        ("cook 18 to 8 pm", ((18, 2),)),
        ("cook 06:00 to 18:00", ((6, 12),)),
    ],
)
def test_times_that_have_one_reading(text, wanted):
    assert times(text) == wanted


@pytest.mark.parametrize(
    "text",
    [
        "cook 6",
        "cook 6 8",
        "cook 6 to",
        "cook to 8 from 6",
        "cook 6 to 6",
        "cook 13 am to 2 pm",
        "cook 18 pm to 20 pm",
        "cook 6:75 to 8",
        "cook 00:00 to 12:15",
        "cook 18:00 to 8:00",
        "cook 6 to 8:61",
        "cook 25 to 26",
        "cook 6,30 to 8",
        "cook 6.5 to 8",
        "cook 1/2 to 8",
        "cook -6 to 8",
        "cook 6:30:10 to 8",
        "cook morning 6 to 8, 18 to 20 evening",
        "cook morning 6 to 8, 18 to 20",
        "cook evening 2 to 3 morning 1 to 2",
        "cook 18 to 20, 6 to 8, 1 stove",
        "cook 18:00 to 20:00, 19:00 to 21:00",
        "cook 18:00 to 20:00 and 18:00 to 20:00",
        "cook 20:00 to 08:00, 06:00 to 07:00",
        "cook 2 h and 3 h",
        "cook 6am 30 h",
        "cook 1:00 to 2:00, 13:00 to 14:00, 15:00 to 16:00, 17:00 to 18:00, 19:00 to 20:00",
        "cook 6 to 8 kg",
        "dont cook 18:00 to 20:00",
        "cook 18:00 or 19:00 to 20:00",
        "cook 18:00 to 20:00 lamp",
        "cook 2 stoves 1 stove 18:00 to 20:00",
        "cook 18:00 to 19:00 2 stoves 20:00 to 21:00 lamps 2 22:00 to 23:00",
    ],
)
def test_what_has_more_than_one_reading_or_none_is_asked_about(text):
    assert times(text) is None


@given(st.integers(1, 6), st.integers(1, 6), st.integers(1, 99), st.sampled_from(["1/2", "3/4", "1"]))
def test_a_pipe_is_read_in_any_order(stoves, lamps, length_m, size):
    wanted = {"pipe_length_m": length_m, "pipe_size": size, "stoves": stoves, "lamps": lamps}
    for text in (
        f"pipe {length_m} m {size} inch {stoves} stoves {lamps} lamps",
        f"{stoves} stoves {lamps} lamps gas pipe {size} inch {length_m} m",
        f"stoves {stoves} lamps {lamps} pipe {length_m} m {size} inch",
    ):
        (form,) = understood(text).forms
        assert form.kind == "pipe" and form.fields == wanted, text


def replied(kind, fields, **site):
    answer = BY_NAME[kind].answer(Form(kind, fields), Site("KV03", "Wanjiru", Rules(), **site), Sender(None, "+1"), NOON)
    assert isinstance(answer, Answer)
    return word(answer.reply, Reader())


LONG = {"start_h": (0.25, 6.25, 12.25, 18.25), "hours_h": (1.5, 1.5, 1.5, 1.5)}


@pytest.mark.parametrize("gas_m3", [0.8, 1.7, 2.4, 3.0, 4.0, 6.0])
@pytest.mark.parametrize("counts", [{}, {"stoves": (2, 1, 1, 2)}, {"stoves": (1, 1, 1, 1), "lamps": (0, 0, 0, 2)}])
def test_the_longest_answer_about_cooking_goes_in_two_messages(gas_m3, counts):
    text = replied("use", LONG | counts, plan={"gas_m3_per_day": gas_m3}, planned_by="Asha")
    assert segments(text)[0] <= 2, f"{len(text)}: {text}"


def test_without_a_name_behind_the_plan_there_is_no_pressure():
    one = {"start_h": (18.0,), "hours_h": (1.0,)}
    assert "cm water" in replied("use", one, plan={"gas_m3_per_day": 2.0}, planned_by="Asha")
    assert "cm water" not in replied("use", one, plan={"gas_m3_per_day": 2.0})
    assert "Water trap: its depth follows" in replied("pipe", {"pipe_length_m": 30.0, "stoves": 1}, plan={"gas_m3_per_day": 2.0})


def test_a_low_plant_behind_a_long_pipe_has_a_weak_flame():
    flat = {"radius_m": 1.5, "wall_height_m": 1.0, "dome_rise_m": 0.6, "zero_line_m": 1.1, "gas_m3_per_day": 1.0}
    flat |= {"chamber_length_m": 2.0, "chamber_width_m": 1.5, "chamber_depth_m": 0.05}
    text = replied("pipe", {"pipe_length_m": 60.0, "stoves": 1}, plan=flat, planned_by="Asha")
    assert "With half the gas only" in text and "flame weak" in text
    text = replied("use", {"start_h": (18.0,), "hours_h": (0.25,)}, plan=flat, planned_by="Asha")
    assert "Weak flame." in text


def test_a_plant_whose_gas_is_all_burnt_has_no_pressure_left_at_the_end():
    # 1 stove 5 h at 0.4 are the 2 m3 of a day, and no gas is over from the day before
    text = replied("use", {"start_h": (6.0, 12.0, 18.0), "hours_h": (2.0, 1.0, 2.0)}, plan={"gas_m3_per_day": 2.0}, planned_by="Asha")
    assert "Enough gas." in text and "At the end no pressure is left at the stove." in text


def test_a_store_too_small_for_one_long_cooking_says_what_it_needs():
    # 2 m3 in a day, 0.8 an hour for 2 h: 1.6 burnt, 2 x 2/24 made meanwhile
    text = replied("use", {"start_h": (18.0,), "hours_h": (2.0,), "stoves": (2,)}, plan={"gas_m3_per_day": 2.0}, planned_by="Asha")
    assert "Store 1.2 m3 is too small, needs 1.43 m3" in text
