"""Soil round a plant and water under it: what is stored, what a reading ends, and that nothing calls an empty plant held."""

import re
from datetime import timedelta

import pytest

from tests.conftest import NOON

MAY_NOT = re.compile(r"\b(safe|may empty|can empty|no danger|will not lift|cannot lift)\b", re.IGNORECASE)


@pytest.mark.parametrize("depth", ["5 cm", "30 cm", "42 cm", "43 cm", "1.4 m", "3 ft", "14 m"])
def test_however_deep_the_water_a_plant_in_use_is_never_said_to_stay_down_when_emptied(send, depth):
    went = send("fatuma", f"ground water {depth} down")
    assert "GROUND WATER" in went.reply
    assert "Never empty the plant in wet ground: an engineer decides." in went.reply
    assert not MAY_NOT.search(went.reply)


@pytest.mark.parametrize(
    ("depth", "alerted"), [("41 cm", True), ("1.56 m", True), ("1.60 m", True), ("1.66 m", True), ("1.70 m", False)]
)  # its floor lies 1.82 m down and holds 20 cm, and water in a hole is known to 5 cm
def test_the_supervisor_hears_where_the_empty_plant_would_crack_or_lift(send, depth, alerted):
    went = send("fatuma", f"ground water {depth} down")
    assert any("Empty, the plant can crack or lift" in row.text for row in went.rows) is alerted


def test_water_on_a_limit_is_to_be_measured_again_and_kept_as_not_enough(send, book):
    said = {depth: send("fatuma", f"ground water {depth} down").reply for depth in ("1.60 m", "1.65 m", "1.56 m", "1.70 m")}
    assert ["measure again" in said[depth] for depth in said] == [True, True, False, False]
    with book.page() as page:
        assert [entry.verdict for entry in page.site("BD09").log] == ["not_enough", "not_enough", "outside", None]


@pytest.mark.parametrize(
    ("depth", "told"),
    [("1.74 m", "under water"), ("1.80 m", "measure again"), ("1.84 m", "measure again"), ("1.90 m", "only 10 cm"),
     ("2.74 m", "only 94 cm"), ("2.80 m", "on the limit of 1.00 m: measure again"), ("2.90 m", "ends 1.10 m over it. Dig")],
)  # fmt: skip
def test_a_pit_of_1_80_m_and_water_under_it(send, depth, told):
    assert told in send("mason", f"ground water {depth} down").reply


def test_soil_over_the_crown_that_nobody_measured_holds_nothing_down(send):
    """BD09 was loaded in use: without a cover on record its water limit is that of a bare crown."""
    before = send("fatuma", "ground water 50 cm down").reply
    assert "it can lift now" in before
    send("seydou", "bd09 cover 65 cm over dome")
    assert "it can lift now" not in send("fatuma", "ground water 50 cm down").reply


@pytest.mark.parametrize(
    ("text", "told", "verdict"),
    [
        ("backfill layer 25 cm", "Within", "within"),
        ("backfill layer 30 cm", "On the limit of", "not_enough"),
        ("backfill layer 15 cm", "On the limit of", "not_enough"),
        ("backfill layer 31 cm", "Outside, too thick", "outside"),
        ("backfill layer 14 cm", "Outside, too thin", "outside"),
        ("backfill left 60 right 55 front 50 cm", "apart: within", "within"),
        ("backfill left 60 right 30 front 50 cm", "apart: on the limit of 1 ft, measure again. Fill at reading 2 first", "not_enough"),
        ("backfill left 62 right 30 front 50 cm", "apart: outside", "outside"),
    ],
)
def test_a_fill_at_its_limits(send, book, text, told, verdict):
    assert told in send("seydou", f"bd03 {text}").reply
    with book.page() as page:
        assert page.site("BD03").log[-1].verdict == verdict


def test_a_cover_of_nothing_closes_no_pit(send):
    send("seydou", "bd09 cover 0 cm over dome")
    assert "STOP. Pit 1.2 m or deeper" in send("seydou", "bd09 backfill layer 20 cm").reply
    send("seydou", "bd09 cover 65 cm over dome")
    assert "STOP" not in send("seydou", "bd09 backfill layer 20 cm").reply


def test_ground_water_over_the_floor_of_a_dug_pit_ends_the_release_of_its_sides(send):
    send("mason", "pit deep 1.82 m wide 3.10 3.12 3.11 m ladder 100 cm watcher yes nobody in pit heap 2 m")
    send("supervisor", "release tb07 support 1.82 m")
    assert "no longer counts" not in send("mason", "pit wide 3.10 3.12 3.11 m nobody in pit").reply
    went = send("mason", "ground water 1.5 m down")
    assert "STOP" in went.reply
    assert "will lie 30 cm under water" in went.reply
    assert "no longer counts: water" in went.reply


def test_ground_water_below_the_dug_depth_is_no_water_in_the_pit(send):
    send("mason", "pit deep 0.90 m wide 3.10 3.12 3.11 m heap 2 m nobody in pit")
    went = send("mason", "ground water 1.2 m down")
    assert "STOP" not in went.reply
    assert "will lie 60 cm under water" in went.reply


def test_soil_behind_a_wall_of_today_is_warned_of(send):
    send("zuberi", "kv03 wall high 100 cm")
    send("zuberi", "kv03 ladder 100 cm nobody in pit heap 3 m")
    went = send("zuberi", "kv03 backfill left 60 right 55 front 58 back 60 cm")
    assert "only when the mortar is hard" in went.reply


def test_a_side_that_nobody_measured_counts_as_open_to_the_bottom(send):
    send("zuberi", "kv03 wall high 100 cm")
    send("zuberi", "kv03 ladder 100 cm nobody in pit heap 3 m")
    assert "STOP. 1.5 m or deeper" in send("zuberi", "kv03 backfill left 100 cm").reply


def test_one_side_alone_says_nothing_of_how_even_it_is(send):
    went = send("zuberi", "kv03 backfill left 60 cm")
    assert "Send the other sides too" in went.reply


def test_a_corrected_cover_is_judged_anew(send):
    assert "outside" in send("seydou", "bd03 cover 55 cm over dome").reply
    send("seydou", "bd03 65 not 55")
    went = send("seydou", "yes")
    assert "0.65 m" in went.reply
    assert "within plan" in went.reply


def test_soil_on_a_dome_before_the_log_waits_full_days(send):
    went = send("seydou", "bd09 cover 65 cm over dome", NOON + timedelta(days=1))
    assert "No date for the dome on record" in went.reply


def test_a_plant_without_a_plan_is_given_no_figure(send):
    went = send("zuberi", "kv12 cover 65 cm over dome")
    assert "no plan yet" in went.reply
    went = send("zuberi", "kv12 slab list")
    assert "no plan yet" in went.reply


def test_slabs_over_two_metres_are_for_an_engineer(send):
    send("supervisor", "fix kv12 6 m3 gas")
    went = send("zuberi", "kv12 slab list")
    assert "an engineer draws it" in went.reply
    assert "Too heavy for 3" in went.reply


def test_a_plan_whose_dome_wants_more_soil_tells_the_supervisor_why(send):
    went = send("supervisor", "fix tb11 2 m3 gas ferrocement")
    assert "Soil over the crown 61 cm, not 60 cm" in went.reply
    assert "Mesh 0.8 % of the skin, 3.5 % asked for liquids" in went.reply
    assert "LOOK AT" not in send("supervisor", "fix tb11 2 m3 gas brick").reply
