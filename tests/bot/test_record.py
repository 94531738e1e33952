"""The record's inside volume: a range by string and rise, nothing before both are there, and no number where they do not fit."""

from datetime import UTC, datetime

from bot.kinds import record
from bot.phrases import Reader, word
from bot.site import Logged, Rules, Site

NOW = datetime(2026, 3, 2, tzinfo=UTC)
PLAN = {
    "radius_m": 1.5, "dome_rise_m": 1.5, "bottom": "flat", "zero_line_m": 1.0,
    "chamber_length_m": 1.5, "chamber_width_m": 1.2, "chamber_depth_m": 0.5,
}  # fmt: skip


def told(**fields):
    log = tuple(Logged(n, "dome", NOW, None, "", {name: value}) for n, (name, value) in enumerate(fields.items(), 1))
    answer = record.answer(None, Site("TB99", "Test", Rules(), PLAN, log=log), None, NOW)
    return " ".join(word(part, Reader()) for part in (answer.reply, answer.then))


def test_a_hemisphere_measured_as_planned_holds_two_thirds_of_pi_cubed_within_what_the_tape_can_tell():
    # 2/3 pi 1.5^3 = 7.069; string 10 mm and rise 5 mm over pi 1.5^2 = 7.069 m2 each: 0.0707 and 0.0353, by squares 0.079
    assert "Inside 6.99-7.15 m3, plan 7.07 m3." in told(dome_radius_m=[1.5], dome_height_m=[1.5])


def test_half_of_what_is_needed_tells_no_volume():
    assert "Inside" not in told(dome_radius_m=[1.5])
    assert "Inside" not in told(dome_height_m=[1.5])


def test_a_rise_that_the_string_cannot_make_tells_no_volume():
    found = told(dome_radius_m=[1.0], dome_height_m=[2.0])
    assert "String and rise do not fit: measure both again." in found
    assert "Inside" not in found
