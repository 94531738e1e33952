"""The days of a site: temperatures of its own before the programme's, wet days said one by one or as a number."""

from dataclasses import replace
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.days import DAY, kept_wet, mean_c, wait_days
from bot.forms import Entry
from bot.site import Rules, Site
from bot.stages import STAGES
from bot.standing import days_of, standing, wet_for
from bot.timeline import timeline
from calc.errors import OutOfRange

ZONE = "Africa/Nairobi"
START = datetime(2026, 3, 2, 10, tzinfo=ZoneInfo(ZONE))
MONTHLY = [23.0, 24.0, 10.0, 23.0, 22.0, 20.0, 18.0, 18.5, 20.5, 22.0, 22.5, 22.5]  # a March of 10 C
PLAN = {"gas_m3_per_day": 2.0, "dome": "brick"}


def site(*entries, plan=None, started_at="site", **rules):
    """A site with (days after START, kind, fields, verdict) in its log."""
    made = Site("XX01", "Test", Rules(zone=ZONE, cement="opc", **rules), plan, "Asha", started_at)
    for days, kind, fields, *verdict in entries:
        made = made.with_entries([Entry(kind, fields, *verdict)], START + days * DAY, None)
    return made


def temp(days, **readings):
    return days, "temp", {**readings, "date": (START + days * DAY).date().isoformat()}


def done(days, stage):
    return days, "stage", {"stage": stage, "state": "done"}, "recorded"


def wet(days, *stage):
    return days, "wet", {"wet": "yes", "date": (START + days * DAY).date().isoformat(), **({"stage": stage[0]} if stage else {})}


MARCH_2 = date(2026, 3, 2)


@pytest.mark.parametrize(
    ("readings", "mean"),
    [
        ([{"least_temp_c": 8, "most_temp_c": 22}], 15),  # half the sum
        ([{"least_temp_c": 8}, {"most_temp_c": 22}], 15),
        ([{"least_temp_c": 20, "most_temp_c": 34}], 27),  # both are known: as it was
        ([{"least_temp_c": 4}], 4),  # the night alone counts as the whole day
        ([{"temp_c": 12}], 12),
        ([{"temp_c": 12}, {"temp_c": 6}], 9),
        ([{"temp_c": 31}], 18),  # a warm hour makes no day warmer than usual
        ([{"most_temp_c": 31}], 18),
        ([{"most_temp_c": 16}], 16),
        ([{"least_temp_c": 9, "temp_c": 5, "most_temp_c": 15}], 10),
        ([], 18),
    ],
)
def test_the_mean_of_a_day_by_what_was_read(readings, mean):
    assert mean_c(MARCH_2, site(*(temp(0, **read) for read in readings), mean_temp_c=18.0)) == mean


def test_a_reading_is_of_its_own_day_only():
    made = site(temp(0, temp_c=5.0), mean_temp_c=18.0)
    assert mean_c(MARCH_2 + timedelta(days=1), made) == 18


def test_the_month_goes_before_the_year_and_none_is_none():
    assert mean_c(MARCH_2, site(mean_temp_c=18.0, monthly_mean_c=MONTHLY)) == 10
    assert mean_c(date(2026, 4, 1), site(mean_temp_c=18.0, monthly_mean_c=MONTHLY)) == 23
    assert mean_c(MARCH_2, site()) is None
    assert mean_c(MARCH_2, site(temp(0, temp_c=12.0))) == 12


@pytest.mark.parametrize(
    ("made", "days"),
    [
        (site(), 3),  # nothing is known: the clock alone
        (site(mean_temp_c=20.0), 3),
        (site(mean_temp_c=35.0), 3),  # heat saves nothing
        (site(mean_temp_c=10.0), 6),
        (site(monthly_mean_c=MONTHLY, mean_temp_c=20.0), 6),
        (site(temp(1, least_temp_c=0, most_temp_c=8), mean_temp_c=20.0), 4),  # 4 C counts nothing
        (site(temp(9, least_temp_c=0, most_temp_c=8), mean_temp_c=20.0), 3),  # after its end
        (site(temp(1, least_temp_c=22, most_temp_c=38), mean_temp_c=10.0), 5),  # 1/2 + 1 + 3 x 1/2
    ],
)
def test_three_days_of_wait_from_the_second_of_march(made, days):
    assert wait_days(3.0, made, START) == days


def test_a_wait_runs_into_the_next_month():
    late = START.replace(day=30)  # two days of March at 1/2, then April at 1: 1/2 + 1/2 + 1 + 1
    assert wait_days(3.0, site(monthly_mean_c=MONTHLY), late) == 4


@pytest.mark.parametrize(
    ("made", "days", "wait"),
    [
        (site(monthly_mean_c=MONTHLY), 0, 6),  # the 2nd of March: six days that count half
        (site(monthly_mean_c=MONTHLY), 31, 5),  # the 2nd of April: begun on the 29th, 3 x 1/2 and two days of April
        (site(monthly_mean_c=MONTHLY), 60, 3),  # May: all of March is over
        (site(mean_temp_c=10.0), 0, 6),
        (site(), 0, 3),
    ],
)
def test_without_a_beginning_the_longest_wait_that_may_still_run_counts(made, days, wait):
    assert wait_days(3.0, made, None, START + days * DAY) == wait


def test_without_a_beginning_a_frozen_winter_is_waited_out():
    """2 C until the end of March counts nothing: what was done on the 1st of January ends on the 3rd of April, 93 days."""
    frozen = site(monthly_mean_c=[2.0, 2.0, 2.0, *[20.0] * 8, 20.0])
    assert wait_days(3.0, frozen, None, START.replace(month=4, day=2)) == 93


def test_a_site_that_freezes_all_year_has_no_end_of_a_wait():
    with pytest.raises(OutOfRange):
        wait_days(3.0, site(mean_temp_c=2.0), None, START)


@given(st.lists(st.integers(-20, 45), min_size=1, max_size=6), st.integers(12, 30))
def test_no_reading_of_one_hour_makes_a_wait_shorter(values, mean):
    read = site(*(temp(n, temp_c=float(value)) for n, value in enumerate(values)), mean_temp_c=float(mean))
    assert wait_days(3.0, read, START) >= wait_days(3.0, site(mean_temp_c=float(mean)), START)


@pytest.mark.parametrize(
    ("entries", "days"),
    [
        ((), 0),
        ((wet(0), wet(0), wet(1, "base")), 2),
        ((wet(0, "dome"), wet(1)), 1),  # of another part
        ((wet(-1),), 0),  # before it was cast
        (((4, "curing", {"curing_d": 4, "stage": "base"}),), 4),
        (((4, "curing", {"curing_d": 4, "stage": "base"}), wet(4), wet(5)), 5),
        ((wet(0), wet(1), (1, "curing", {"curing_d": 2, "stage": "base"})), 2),
        (((1, "curing", {"curing_d": 4, "stage": "base"}),), 0),  # more than have passed
        (((4, "curing", {"curing_d": 4}),), 0),  # of nothing that was named
        (((4, "curing", {"curing_d": 4, "stage": "dome"}),), 0),
    ],
)
def test_wet_days_of_the_base(entries, days):
    assert kept_wet("base", site(done(0, "base"), *entries), START) == days


def standing_of_the_dome(*entries, now_d, **rules):
    made = site(done(0, "base"), *entries, plan=PLAN, started_at="base", **rules)
    return standing(STAGES["dome"], made, START + now_d * DAY)


def test_a_stage_waits_for_the_clock_and_for_wet_days_on_record():
    early = standing_of_the_dome(now_d=1)
    assert (early.until - START, early.cold_d, early.dry) == (3 * DAY, 0, (("base", 0, 3),))
    late = standing_of_the_dome(now_d=4)
    assert (late.until, late.dry) == (None, (("base", 0, 3),))
    kept = standing_of_the_dome(wet(0), wet(1), wet(2), now_d=4)
    assert (kept.until, kept.dry) == (None, ())


def test_the_cold_makes_the_wait_longer_and_says_so():
    cold = standing_of_the_dome(now_d=4, mean_temp_c=10.0)
    assert (cold.until - START, cold.cold_d, cold.dry) == (6 * DAY, 3, (("base", 0, 6),))
    assert wet_for("base", site(mean_temp_c=10.0), START) == 14


def test_a_wait_over_days_whose_temperature_nobody_knows_says_so():
    assert standing_of_the_dome(now_d=1).unread
    assert not standing_of_the_dome(now_d=1, mean_temp_c=20.0).unread
    assert standing_of_the_dome(temp(0, temp_c=22.0), now_d=1).unread  # of one day only


@pytest.mark.parametrize(
    ("cement", "temp_c", "days"),
    [("opc", None, 14), ("blended", None, 20), ("opc", 10.0, 28)],
)
def test_the_mould_of_a_dome_waits_for_cement_and_cold(cement, temp_c, days):
    made = replace(site(plan=PLAN), rules=Rules(zone=ZONE, cement=cement, mean_temp_c=temp_c))
    assert days_of("strip dome", made, START) == days


def test_the_finish_date_uses_the_same_days():
    def wait(*entries, now_d=1, **rules):
        made = site(done(0, "base"), *entries, plan=PLAN, started_at="base", crew_masons=2, crew_labourers=4, **rules)
        return timeline(made, START + now_d * DAY).slots["dome"].start_d

    assert wait(wet(0), wet(1), mean_temp_c=20.0) == pytest.approx(2)  # three days from the start, one is over
    assert wait(wet(0), wet(1), temp(1, least_temp_c=0, most_temp_c=8), mean_temp_c=20.0) == pytest.approx(3)
    assert wait(mean_temp_c=20.0) == pytest.approx(3)  # no wet day on record: three to come
    assert wait(wet(0), mean_temp_c=20.0, now_d=4) == pytest.approx(2)  # the clock is over, two wet days are missing
    assert wait(wet(0), wet(1), mean_temp_c=20.0, monthly_mean_c=MONTHLY) == pytest.approx(5)  # six days in a March of 10 C


def test_a_wait_to_come_is_as_long_as_its_own_month_is_cold():
    warm = [20.0] * 12
    late = [*warm[:3], 10.0, *warm[4:]]  # April is cold; the plaster waits there

    def finish(monthly):
        made = site(done(18, "base"), plan=PLAN, started_at="base", crew_masons=2, crew_labourers=4, monthly_mean_c=monthly)
        return timeline(made, START + 18 * DAY).finish

    assert days_of("water test", site(monthly_mean_c=late), START.replace(month=4, day=1)) == 28
    assert finish(late) > finish(warm)
