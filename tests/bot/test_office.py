"""The office: settings, how many texts a day, digest and list, reminders that are called off, releases that fall."""

from datetime import UTC, datetime, timedelta

import pytest
from pydantic import ValidationError

from bot import notices, programme, watch
from bot.cases import CASE
from bot.channels import terminal
from bot.duty import Duty, duty_of
from bot.items import HEADS, MOST, ORDER, Item, digest, pages, ranked
from bot.letters import segments
from bot.phrases import T_, Reader, word
from bot.reminders import AGAIN, OVER, QUIET, WET
from bot.timers import ring_due
from tests.conftest import DEMO, NOON

ZONE = "Africa/Nairobi"  # three hours before UTC: NOON is 12:00 there
HOUR, DAY = timedelta(hours=1), timedelta(days=1)
PIT = "pit 3.12 3.08 3.10 deep 1.83"


def at(hour, minute=0, day=2):
    """An hour of a day of March in Nairobi."""
    return datetime(2026, 3, day, hour, minute, tzinfo=UTC) - 3 * HOUR


def until(book, moment):
    """What goes out because its moment comes, as (number, text)."""
    ring_due(book, watch.RINGS, moment)
    with book.page() as page:
        return [(row.to, row.text) for row in terminal.unasked(page)]


def armed(book, kind, **by):
    with book.page() as page:
        return page.armed(kind, **by)


def texts(book, sent, name):
    with book.page() as page:
        number = page.person(short=name).number
    return [text for to, text in sent if to == number]


# ---- settings


def test_a_programme_that_says_nothing_has_what_the_demo_writes_out():
    made, _ = programme.read(DEMO)
    assert made.duty.model_copy(update={"payment": {}}) == Duty() == duty_of({})


@pytest.mark.parametrize(
    "told",
    [
        {"digest_at": ["21:00"]}, {"remind_at": "05:59"}, {"digest_at": []}, {"digest_at": ["6:30"]}, {"interrupts_a_day": 1},
        {"payment": {"wall": "a part"}}, {"repeat_h": 0}, {"over_plan": float("nan")}, {"nights": 1},
    ],
)  # fmt: skip
def test_what_cannot_be_does_not_load(told):
    with pytest.raises(ValidationError):
        Duty(**told)


@pytest.mark.parametrize(("hour", "minute", "quiet"), [(19, 59, False), (20, 0, True), (23, 59, True), (5, 59, True), (6, 0, False)])
def test_quiet_hours_run_over_midnight(hour, minute, quiet):
    assert Duty().quiet(at(hour, minute), ZONE) is quiet
    assert (Duty().by_day(at(hour, minute), ZONE) == at(hour, minute)) is not quiet


def test_a_text_of_the_night_waits_for_six():
    assert Duty().by_day(at(23), ZONE) == at(6, day=3)
    assert Duty().by_day(at(2), ZONE) == at(6)


def test_the_digests_follow_each_other():
    assert [Duty().next_digest(moment, ZONE) for moment in (at(6, 29), at(6, 30), at(18), at(23))] == [
        at(6, 30), at(18), at(6, 30, day=3), at(6, 30, day=3),
    ]  # fmt: skip
    assert [Duty().last_digest(moment, ZONE) for moment in (at(6, 30), at(6, 31), at(18, 1))] == [at(18, day=1), at(6, 30), at(18)]


def test_all_stands_for_every_site(book):
    with book.page() as page:
        assert page.person(short="deputy").sites == page.codes()
        assert [person.short for person in page.office("head")] == ["head"]


# ---- how many texts a day


def test_beyond_the_days_number_alarms_are_gathered_into_one_text_and_none_is_lost(book, send):
    places = (("mason", "TB07"), ("baraka", "TB11"), ("zuberi", "KV12"), ("zuberi", "KV03"), ("seydou", "BD03"))
    words = ("tractor near pit", "heap on the edge", "water up to knee in pit", "petrol pump in the pit")
    told = 0
    for minute, (who, code, text) in enumerate((who, code, text) for text in words for who, code in places):
        told += len([row for row in send(who, f"{code} {text}", at(9, minute)).rows if row.role == "supervisor"])
    most = Duty().interrupts_a_day - 1
    assert told == most
    folded = texts(book, until(book, at(10, 30)), "supervisor")
    assert len(folded) == 1
    count = int(folded[0].split()[0])
    assert f"{count} more, STOP among them, no text for each" in folded[0]
    assert segments(folded[0])[0] == 1
    reply = send("supervisor", "list", at(10, 40)).reply
    assert all(f"{row['site']} #{row['fields']['entry']} " in reply for row in armed(book, CASE)) or "LIST 1 of" in reply
    assert len(armed(book, CASE)) == told + count


def test_a_danger_to_life_is_never_held_back(book, send):
    for minute in range(15):
        rows = send("fatuma", "man fell in outlet", at(9, minute)).rows
        assert [row.text[:13] for row in rows if row.role == "supervisor"] == ["ALERT BD09 N2"]


def test_by_night_only_a_stop_goes_out(book, send):
    rows = send("supervisor", "refuse tb07 pit too narrow", at(22)).rows
    assert [row.role for row in rows] == ["supervisor"]
    assert [row.role for row in send("mason", "smell of gas in the kitchen", at(23)).rows] == ["mason", "supervisor"]
    assert "REFUSED: pit by Asha" in texts(book, until(book, at(6, 0, day=3)), "mason")[0]


# ---- digest and list


def items(count):
    """So many things open at as many sites, of every sort."""
    made = [
        Item(ORDER[n % len(ORDER)], n, f"AA{n % 100:02d}", T_("%(site)s", site=f"AA{n % 100:02d} water test 26 h")) for n in range(count)
    ]
    return ranked(made)


@pytest.mark.parametrize("language", ["en", "hi", "sw", "fr"])
@pytest.mark.parametrize("count", [0, 1, 7, 40, 600])
def test_a_digest_is_two_messages_whatever_is_open(count, language):
    text = digest(items(count), 300, 40, 30, NOON, Reader(language, zone=ZONE))
    assert segments(text)[0] <= 2
    assert "300" in text


def test_a_digest_begins_with_the_worst_and_counts_the_rest():
    made = items(600)
    text = digest(made, 300, 0, 0, NOON, Reader(zone=ZONE))
    shown = text.count("26 h")
    assert text.index("NO ANSWER") < text.index("HOLD waits over a day")
    assert f"And {len(made) - shown} more." in text
    assert shown <= MOST * len(HEADS)


@pytest.mark.parametrize("count", [1, 14, 300])
def test_the_pages_of_a_list_hold_everything_once(count):
    made = items(count)
    told = [word(page, Reader()) for page in pages(made, "", Reader())]
    assert all(segments(text)[0] <= 2 for text in told)
    assert sum(text.count("26 h") for text in told) == count
    assert all(("Next page: list" in text) is (number < len(told)) for number, text in enumerate(told, 1))


def test_the_morning_has_a_digest_always_and_the_evening_only_where_something_is_open(book):
    with book.page() as page:
        watch.begin(page, at(8))
        watch.begin(page, at(8))
    assert len(armed(book, "digest")) == 1
    assert until(book, at(20)) == []
    (text,) = texts(book, until(book, at(8, day=3)), "supervisor")
    assert text == "Tue 03 Mar 06:30: 6 sites, 6 with nothing open."


def test_what_looks_odd_is_told_to_the_supervisor_alone(book, send):
    with book.page() as page:
        watch.begin(page, at(8))
    send("mason", "pit 3.12 3.12 3.12 deep 1.83", at(9))
    for minute in range(3):
        send("baraka", "got 2 bag cement", at(10, minute))
    for minute in range(3):
        send("baraka", "undo", at(11, minute))
    sent = until(book, at(18))
    (text,) = texts(book, sent, "supervisor")[-1:]
    assert "Taken back in a row: TB11 3." in text
    assert "All readings alike: TB07 #1." in text
    assert texts(book, sent, "mason") == texts(book, sent, "baraka") == []


def test_cement_beyond_the_bill_is_told(book, send):
    send("mason", "got 40 bag cement", at(9))
    send("mason", "used 24 bag cement", at(10))
    assert "Cement" not in send("supervisor", "list", at(11)).reply
    send("mason", "used 3 bag cement", at(12))  # the bill of this plan is 23 bags: see test_months' neighbours in test_filed
    assert "Cement over plan: TB07 +" in send("supervisor", "list", at(13)).reply


def test_list_of_a_page_that_is_none(send):
    send("mason", PIT, at(9))
    assert send("supervisor", "list 4", at(10)).reply == "LIST has 1 pages. Send: list, or list and the page."
    assert "TB07 BUY" in send("mason", "list", at(10)).reply


# ---- reminders


def test_keep_wet_comes_each_morning_until_it_is_said_or_over(book, send):
    send("baraka", "base 11 11.2 10.8 cm", at(9))
    send("baraka", "base done", at(10))
    assert len(armed(book, WET, site="TB11")) == 1
    told = [texts(book, until(book, at(7, 1, day=3)), "baraka"), texts(book, until(book, at(20, day=3)), "baraka")]
    assert ["keep wet today, 3 times, shade it: base 0 of 7 days" in text for text in told[0]] == [True]
    assert told[1] == []
    send("baraka", "wet today", at(6, 30, day=4))
    assert texts(book, until(book, at(8, day=4)), "baraka") == []
    sent = [texts(book, until(book, at(8, day=day)), "baraka") for day in range(5, 20)]
    assert sum(len([text for text in each if "keep wet" in text]) for each in sent) < 9
    assert not armed(book, WET)


def test_the_second_reading_is_asked_for_at_its_hour_and_not_where_the_start_was_taken_back(book, send):
    _at_water_test(book)
    send("mason", "water filled to zero line", at(9))
    (row,) = armed(book, AGAIN)
    assert row["due"] == at(8, 45, day=3)
    send("mason", "undo", at(9, 5))
    assert not armed(book, AGAIN)
    send("mason", "water filled to zero line", at(10))
    assert any("read the water test of #3 again at 10:00" in text for text in texts(book, until(book, at(9, 50, day=3)), "mason"))
    send("mason", "water fell 1 cm in 24 hours", at(10, day=3))
    assert armed(book, AGAIN)[0]["due"] == at(9, 45, day=4)


def test_a_second_reading_of_the_night_is_asked_for_before_it(book, send):
    _at_water_test(book)
    send("mason", "water filled to zero line", at(21))
    assert armed(book, AGAIN)[0]["due"] == at(19, 45, day=3)


def _at_water_test(book):
    import sqlalchemy as sa

    with book.engine.begin() as connection:
        connection.execute(sa.text("UPDATE site SET started_at = 'water_test' WHERE code = 'TB07'"))


def test_a_wait_that_is_over_is_said_once(book, send):
    send("baraka", "base 11 11.2 10.8 cm", at(9))
    send("baraka", "base done", at(10))
    assert armed(book, OVER)
    sent = [text for day in range(3, 12) for text in texts(book, until(book, at(8, day=day)), "baraka")]
    assert len([text for text in sent if "the wait before" in text]) == 1
    assert not armed(book, OVER)


def test_a_quiet_site_is_asked_once_and_then_stands_in_the_digest(book, send):
    with book.page() as page:
        watch.begin(page, at(8))
    send("mason", PIT, at(9))
    sent = until(book, at(19, day=8))
    assert len([text for text in texts(book, sent, "mason") if "nothing heard for 3 days" in text]) == 1
    assert "Silent: TB07 6 days" in texts(book, sent, "supervisor")[-1]
    send("mason", "no work 10 days", at(20, day=8))
    assert len(armed(book, QUIET)) == 1
    assert texts(book, until(book, at(9, day=15)), "mason") == []


# ---- releases


def released(book, send):
    send("mason", PIT, at(9))
    send("supervisor", "release tb07 support 1.83 m", at(9, 5))
    send("mason", "pit done", at(9, 10))
    return send("supervisor", "release tb07 pit", at(9, 20))


def test_a_release_is_bound_to_its_readings_and_falls_with_one_that_is_taken_back(book, send):
    released(book, send)
    with book.page() as page:
        given = page.site("TB07").last("release")
    assert given.fields["readings"] == {"pit_depth_m": 1, "pit_dia_m": 1}
    assert "pit #4 Asha" in send("supervisor", "releases tb07", at(9, 30)).reply
    send("mason", "undo #1", at(9, 40))
    assert "RELEASED: nothing yet" in send("supervisor", "releases tb07", at(9, 50)).reply


@pytest.mark.parametrize(("told", "falls"), [("crack in the side of the pit", True), ("crack in the dome", False)])
def test_a_crack_in_the_pit_ends_its_release_until_the_base_is_cast(told, falls, book, send):
    released(book, send)
    send("mason", told, at(10))
    assert ("nothing yet" in send("supervisor", "releases tb07", at(10, 5)).reply) is falls


def test_a_release_answers_the_alarm_of_the_sides_and_says_so_in_the_log(book, send):
    send("mason", PIT, at(9))
    assert len(armed(book, CASE)) == 1
    send("supervisor", "release tb07 support 1.83 m", at(9, 5))
    with book.page() as page:
        assert page.site("TB07").last("release").fields["answers"] == [1]
    assert not armed(book, CASE)


def test_releases_within_a_minute_are_counted_and_shown(book, send):
    released(book, send)
    reply = send("supervisor", "release tb07 support 1.83 m", at(9, 20) + timedelta(seconds=30)).reply
    assert "Your 2. release within a minute: that is on record." in reply
    assert "Released in a rush: TB07 Asha 2." in send("supervisor", "list", at(10)).reply
    assert "1 within a minute of another release" in send("supervisor", "releases tb07", at(10)).reply


def test_a_reading_outside_is_an_alarm_once_it_was_measured_again(book, send):
    assert not [row for row in send("zuberi", "kv03 dome string 190 190.5 190 cm high 56 cm", at(9)).rows if "outside, sent" in row.text]
    again = send("zuberi", "kv03 dome string 190 190.4 190 cm high 56 cm", at(9, 30))
    assert [row.text for row in again.rows if row.role == "supervisor"][-1:] == [
        "ALERT KV03 #2 dome: outside, sent 09:30 by Zuberi. It was measured again and stays so. Call the site. "
        "Then send: closed KV03 #2, and what was done."
    ]


def test_a_payment_step_waits_for_its_release(book, send):
    assert "Payment steps that wait: first part for pit" in send("supervisor", "releases tb07", at(8)).reply
    released(book, send)
    assert "Payment steps released: first part by pit #4." in send("supervisor", "releases tb07", at(10)).reply
    assert "Payment steps released: 1 of 4." in " ".join(send("supervisor", "tb07 record", at(10)).replies)


def test_every_ring_has_its_kind():
    assert {notices.LATER, notices.TALLY, notices.FOLD, CASE, WET, AGAIN, OVER, QUIET, "digest"} == set(watch.RINGS)
