"""What is worth a look in a log: each flag at its limit, one step before it, and what raises none; lots that can be drawn again."""

import json
from dataclasses import replace
from datetime import datetime, timedelta
from math import comb
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from bot import draw
from bot.oddness import at_least, digits, flags, readings
from bot.site import Logged, Rules, Site
from calc import sources as s
from calc.bill import bill, needed
from calc.hazards import STOP

PLAN = {
    "radius_m": 1.30, "wall_height_m": 1.10, "dome_rise_m": 0.55, "bottom": "flat", "zero_line_m": 1.22, "chamber_length_m": 1.65,
    "chamber_width_m": 1.25, "chamber_depth_m": 0.53, "pit_diameter_m": 3.05, "pit_depth_m": 1.80,
}  # fmt: skip
NAIROBI = ZoneInfo("Africa/Nairobi")
NINE = datetime(2026, 3, 2, 9, 0, tzinfo=NAIROBI)
H, DAY = timedelta(hours=1), timedelta(days=1)


def site(*entries, started_at="pit", plan=PLAN, **rules):
    """A site whose log holds (kind, when, fields, verdict)."""
    log = tuple(
        Logged(n, kind, at, 1, "Bholu", fields, next(iter(verdict), None)) for n, (kind, at, fields, *verdict) in enumerate(entries, 1)
    )
    return Site("TB07", "Kamla", Rules(zone="Africa/Nairobi", **rules), plan, "Asha", started_at, log)


def names(made):
    return [flag.name for flag in flags(made)]


def pit(*widths, at=NINE, verdict="within"):
    return ("pit", at, {"pit_dia_m": list(widths)}, verdict)


def done(stage, at, **more):
    return ("stage", at, {"stage": stage, "state": "done", **more}, "recorded")


def test_a_log_without_anything_odd_raises_nothing():
    assert flags(site(pit(3.11, 3.08, 3.12), done("pit", NINE + H), ("base", NINE + DAY, {"base_thick_m": [0.105, 0.11, 0.108]}))) == ()
    assert flags(site()) == () and flags(site(plan=None)) == ()


@pytest.mark.parametrize(
    "widths, found", [((3.11, 3.11, 3.11), ["same"]), ((3.11, 3.11), []), ((3.11, 3.11, 3.12), []), ((3.05, 3.05, 3.05), ["as_plan"])]
)
def test_points_that_are_the_same_to_the_centimetre(widths, found):
    made = site(pit(*widths))
    assert names(made) == found
    assert all(flag.entries == (1,) and flag.seen["count"] == len(widths) for flag in flags(made))


# ---- last digits


@given(st.integers(0, 30), st.integers(0, 30))
def test_the_sum_of_chances_is_the_binomial_one(n, k):
    assert at_least(k, [0.2] * n) == pytest.approx(stats.binom.sf(k - 1, n, 0.2), abs=1e-12)
    assert at_least(k, [0.2] * n) == pytest.approx(sum(comb(n, i) * 0.2**i * 0.8 ** (n - i) for i in range(k, n + 1)), abs=1e-12)


@given(st.lists(st.floats(0.05, 0.95), min_size=1, max_size=12), st.integers(0, 12))
def test_unequal_chances_lie_between_their_extremes(chances, k):
    low, high = (stats.binom.sf(k - 1, len(chances), chance) for chance in (min(chances), max(chances)))
    assert low - 1e-9 <= at_least(k, chances) <= high + 1e-9


def widths_over(round_, others):
    """A log of pit widths of which so many end in 0 or 5; plan 3.05 to 3.25 m: 5 of its 21 whole centimetres are round."""
    values = [3.10, 3.15] * round_
    points = [*values[:round_], *([3.11, 3.13, 3.17] * others)[:others]]
    return site(*(pit(value, at=NINE + n * DAY) for n, value in enumerate(points)), started_at="pit")


def test_the_bound_of_round_readings_is_one_in_a_thousand():
    """Ten readings with 5/21 each: the exact tail says from how many round ones on they are looked at."""
    tail = {k: stats.binom.sf(k - 1, 10, 5 / 21) for k in range(11)}
    least = next(k for k in range(11) if tail[k] < 0.001)
    assert least == 8 and [flag.name for flag in digits(readings(widths_over(least, 10 - least)))] == ["digits"]
    assert list(digits(readings(widths_over(least - 1, 11 - least)))) == []


def test_few_readings_say_nothing_of_their_digits():
    assert list(digits(readings(widths_over(9, 0)))) == []
    (flag,) = digits(readings(widths_over(10, 0)))
    assert (flag.seen["count"], flag.seen["all"]) == (10, 10)


def test_a_narrow_plan_makes_round_readings_by_itself():
    """Wall 1.10 m, a centimetre each way: three whole centimetres."""
    assert readings(site(("wall", NINE, {"wall_height_m": [1.10] * 12}, "within"), started_at="wall")) == []


def test_the_point_asked_for_later_counts_once():
    made = site(pit(3.10, 3.11, 3.12), ("pit", NINE + H, {"pit_dia_m": [3.10, 3.11, 3.12, 3.15], "extra": "pit_dia_m"}, "within"))
    assert [reading.round for reading in readings(made)] == [True, False, False, True]


# ---- changed, early, fast, night


@pytest.mark.parametrize("minutes, found", [(20, ["changed"]), (60, ["changed"]), (61, [])])
def test_a_reading_that_comes_within_at_once(minutes, found):
    made = site(pit(2.80, 2.85, 2.84, verdict="outside"), pit(3.10, 3.14, 3.12, at=NINE + timedelta(minutes=minutes)))
    assert names(made) == found


def test_the_same_reading_sent_again_or_another_field_is_no_change():
    again = pit(2.80, 2.85, 2.84, at=NINE + timedelta(minutes=5), verdict="outside")
    other = ("pit", NINE + timedelta(minutes=6), {"pit_depth_m": [1.82]}, "within")
    assert names(site(pit(2.80, 2.85, 2.84, verdict="outside"), again, other)) == []


def test_a_reading_under_a_stop_that_is_smaller_at_once():
    deep = Logged(1, "pit", NINE, 1, "Bholu", {"pit_depth_m": [1.83]}, "within", held_text=json.dumps([["E3", STOP, {}]]))
    less = Logged(2, "pit", NINE + timedelta(minutes=5), 1, "Bholu", {"pit_depth_m": [1.81]}, "within")
    made = replace(site(), log=(deep, less))
    assert names(made) == ["changed"]
    assert names(replace(made, log=(deep, replace(less, held_text=deep.held_text)))) == []


def test_a_stage_of_which_the_one_before_is_not_in_the_log():
    dome = ("dome", NINE, {"dome_height_m": [0.55]}, "within")
    assert [(flag.seen["stage"], flag.seen["before"]) for flag in flags(site(dome))] == [("dome", "wall")]
    assert names(site(dome, started_at="dome")) == []
    assert names(site(done("wall", NINE - 30 * DAY), dome, started_at="wall")) == []


def test_a_reading_while_the_stage_before_hardens():
    """Ordinary cement at 20 C: the dome waits for the wall."""
    wall = ("wall", NINE, {"wall_height_m": [1.10]}, "within")
    dome = ("dome", NINE + 2 * H, {"dome_height_m": [0.55]}, "within")
    found = [flag for flag in flags(site(wall, done("wall", NINE + H), dome, started_at="wall")) if flag.name == "in_wait"]
    assert [flag.entries for flag in found] == [(3,)] and found[0].seen["until"] > NINE + DAY


def test_more_wet_days_than_have_passed():
    told = ("curing", NINE + 2 * DAY, {"stage": "base", "curing_d": 3})
    assert names(site(done("base", NINE), told, started_at="base")) == []
    more = ("curing", NINE + 2 * DAY, {"stage": "base", "curing_d": 4})
    assert names(site(done("base", NINE), more, started_at="base")) == ["wet"]


def test_a_stage_told_back_in_time_after_its_reading():
    read = ("base", NINE, {"base_thick_m": [0.105, 0.11, 0.112]}, "within")
    assert names(site(read, done("base", NINE + H, ago_d=3), started_at="base")) == ["back"]
    assert names(site(read, done("base", NINE + H), started_at="base")) == []


def test_a_stage_done_faster_than_the_crew_works():
    crew = {"crew_masons": 1, "crew_labourers": 2}
    quick = site(done("base", NINE), done("wall", NINE + 2 * H), started_at="base", **crew)
    assert names(quick) == ["quick"] and flags(quick)[0].entries == (1, 2)
    assert names(site(done("base", NINE), done("wall", NINE + 9 * DAY), started_at="base", **crew)) == []
    assert names(site(done("base", NINE), done("wall", NINE + 2 * H), started_at="base")) == []  # no crew is known


@pytest.mark.parametrize("hour, minute, found", [(21, 59, []), (22, 0, ["night"]), (23, 59, ["night"]), (4, 59, ["night"]), (5, 0, [])])
def test_the_night_is_that_of_the_site(hour, minute, found):
    at = datetime(2026, 3, 2, hour, minute, tzinfo=NAIROBI)
    assert names(site(pit(3.11, 3.08, 3.12, at=at))) == found


# ---- what was used


def of_base(share):
    need = needed(bill(site().design), "cement_kg", ["base"])["cement_kg"]
    return ("stock", NINE, {"dir": "out", "cement_kg": share * need})


@pytest.mark.parametrize("share, found", [(0.74, ["used"]), (0.76, []), (1.0, []), (1.24, [])])
def test_cement_used_against_what_the_base_takes(share, found):
    """The wall that may be begun by then is counted among what may be used, not among what must."""
    assert names(site(of_base(share), done("base", NINE + H), started_at="base")) == found


def test_far_more_cement_than_base_wall_and_tanks_take():
    made = site(of_base(1.0), done("base", NINE + H), started_at="base")
    most = sum(needed(bill(made.design), "cement_kg", ["base", "wall", "inlet", "outlet"]).values())
    base = sum(needed(bill(made.design), "cement_kg", ["base"]).values())
    assert names(site(of_base(1.24 * most / base), done("base", NINE + H), started_at="base")) == []
    assert names(site(of_base(1.26 * most / base), done("base", NINE + H), started_at="base")) == ["used"]


def test_nothing_told_as_used_is_not_nothing_used():
    assert names(site(done("base", NINE + H), started_at="base")) == []


# ---- lots


def test_a_lot_hangs_on_seed_and_what_it_is_for_alone():
    assert draw.lot("seed", "TB07", "pit") == draw.lot("seed", "TB07", "pit")
    assert len({draw.lot("seed", "TB07", "pit"), draw.lot("other", "TB07", "pit"), draw.lot("seed", "TB07p", "it")}) == 3


def test_lots_are_spread_evenly():
    lots = [draw.lot("seed", n) for n in range(2000)]
    assert stats.kstest(lots, "uniform").pvalue > 0.01 and min(lots) > 0 and max(lots) < 1


def test_a_site_with_more_to_look_at_is_drawn_more_often():
    """One of two, weights 3 and 1: the first in three of four draws; the binomial says how far off 2000 draws may be."""
    first = sum(draw.sample(f"seed {n}", {"TB07": 3, "KV03": 1}, 1) == ["TB07"] for n in range(2000))
    assert stats.binomtest(first, 2000, 0.75).pvalue > 0.01


def test_a_sample_is_the_same_whatever_the_order():
    weights = {f"TB{n:02}": 1 + n % 3 for n in range(40)}
    assert draw.sample("x", weights, 4) == draw.sample("x", dict(reversed(weights.items())), 4)
    assert len(set(draw.sample("x", weights, 4))) == 4


# ---- on the road


def test_flags_reach_nobody_but_supervisors(send):
    for _ in range(3):
        send("mason", "pit wide 311 311 311 cm")
    assert "at all 3 points" in send("supervisor", "odd tb07").reply
    for name in ("mason", "farmer", "zuberi"):
        for text in ("odd", "odd tb07", "audit"):
            assert "points" not in send(name, text).reply and "TB07 (" not in send(name, text).reply


def test_the_share_of_audits_is_rounded_up_and_a_second_draw_writes_nothing(send, book, monkeypatch, capsys):
    from bot.__main__ import main

    with book.page() as page:
        for n in range(19):
            page.save_site(code=f"ZZ{n:02}", name="Otto", plan=None, planned_by=None, started_at="use", rules={})
    monkeypatch.setenv("PEGLINE_DATABASE_URL", book.url.render_as_string())
    assert main(["audit"]) == 0
    told = capsys.readouterr().out
    assert "2 of 20 finished sites" in told  # 7 % of 20 is 1.4
    assert main(["audit"]) == 0 and capsys.readouterr().out == told
    with book.page() as page:
        entries = [entry for code in page.codes() for entry in page.site(code).log]
    assert [entry.kind for entry in entries] == ["audit", "audit"] and {entry.fields["of"] for entry in entries} == {20}


def test_what_was_drawn_this_month_stays_and_more_are_drawn_as_sites_finish(send, book):
    send("supervisor", "audit")
    with book.page() as page:
        for n in range(20):
            page.save_site(code=f"ZZ{n:02}", name="Otto", plan=None, planned_by=None, started_at="use", rules={})
            page.give_role(page.person(short="supervisor").id, f"ZZ{n:02}", "supervisor")
    told = send("supervisor", "audit").reply
    assert "BD09 (0)" in told and "2 of 21 finished sites" in told
    assert send("supervisor", "audit").reply == told


def test_a_point_asked_for_stays_open_where_the_readings_before_it_were_taken_back(send, book):
    """On this day the lot of the demo falls on the pit of TB07."""
    at = datetime(2026, 3, 16, 9, 0, tzinfo=NAIROBI)
    ready = "pit wide 310 313 312 cm deep 1.82 m soil rock slope 2 m ladder 100 cm watcher yes heap 2 m"
    assert "once more" in send("mason", ready, at).reply
    send("mason", "undo", at)
    assert "send 2 more" in send("mason", "pit wide 311 cm", at).reply
    send("mason", ready, at)
    assert "recorded" in send("mason", "pit done", at).reply


def test_without_a_seed_nothing_is_drawn(send, book, monkeypatch, capsys):
    from bot.__main__ import main

    with book.page() as page:
        page.save_programme("other", {name: value for name, value in page.rules().items() if name != "draw_seed"}, NINE)
    assert "No draw_seed" in send("supervisor", "audit").reply
    monkeypatch.setenv("PEGLINE_DATABASE_URL", book.url.render_as_string())
    assert main(["audit"]) == 2 and "no draw_seed" in capsys.readouterr().err


def test_one_more_point_is_asked_of_about_the_share(book):
    """Over 400 days at a share of 0.1: the binomial says how many may be drawn."""
    drawn = sum(draw.lot("seed", "TB07", "pit", (NINE + n * DAY).date()) < s.EXTRA_SHARE for n in range(400))
    assert stats.binomtest(drawn, 400, 0.1).pvalue > 0.01
