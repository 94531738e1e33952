"""Timers: they ring once, at their moment, or not at all where they were called off; and what uses them."""

import asyncio
import logging
from contextlib import suppress
from datetime import timedelta
from threading import Barrier, Thread

import pytest
import sqlalchemy as sa

from bot import delivery, engine, inbox, outbox, watch
from bot.channels import Inbound, Part
from bot.engine import Handover
from bot.reading.words import vocabulary
from bot.tables import inbound, timer
from bot.timers import Timers
from tests.conftest import NOON
from tests.faults.running import MASON, Clock, Wire, running, states, until

SECOND = timedelta(seconds=1)


def timers(book):
    with book.engine.connect() as connection:
        return connection.execute(sa.select(timer).where(timer.c.kind != "retention").order_by(timer.c.id)).mappings().all()


def arm(book, due, about=None, kind="bell"):
    with book.page() as page:
        return outbox.arm(page, kind, None, page.person(number=MASON), due, {"text": "ring"}, about)


def bell(page, row, now):
    """Says the text of the timer; three times where it is to repeat."""
    outbox.say(
        page, f"{row['fields']['text']} {row['gen']}", MASON, page.person(number=MASON), "mason", Inbound("sms", "t", MASON, ""), now
    )
    return now if row["about"] == "repeats" and row["gen"] < 3 else None


def heard(book, work, rings=(("bell", bell),), clock=None, wire=None):
    """Run a delivery with timers while `work` goes on; what went out."""
    wire = wire or Wire()

    async def spoken():
        async with running(book, wire, clock or Clock(), rings=rings):
            await work()

    asyncio.run(spoken())
    return wire.to(MASON)


def test_a_timer_rings_once_at_its_moment_and_one_called_off_never(book):
    async def work():
        arm(book, NOON + SECOND, "off")
        arm(book, NOON, "rings")
        with book.page() as page:
            assert outbox.disarm(page, "bell", about="off") == 1
        await until(lambda: states(book) == {"ring 1": "sent"})
        await asyncio.sleep(2.5)

    assert heard(book, work) == ["ring 1"]
    assert [row["state"] for row in timers(book)] == ["cancelled", "fired"]


def test_a_timer_of_what_is_undone_is_undone(book):
    async def work():
        with suppress(KeyError), book.page() as page:
            outbox.arm(page, "bell", None, None, NOON, {"text": "undone"})
            raise KeyError
        await asyncio.sleep(2.0)

    assert heard(book, work) == []
    assert not timers(book)


def test_one_that_repeats_is_the_same_row_under_its_next_generation(book):
    async def work():
        arm(book, NOON, "repeats")
        await until(lambda: len(states(book)) == 3 and set(states(book).values()) == {"sent"})

    assert heard(book, work) == ["ring 1", "ring 2", "ring 3"]
    (row,) = timers(book)
    assert (row["state"], row["gen"]) == ("fired", 3)


def test_rung_by_two_at_once_it_says_its_text_once(book):
    book.post = None
    timer_id = arm(book, NOON)
    with book.page() as page:
        page.rearm(timer_id, 1, NOON)
    both, ready = Timers(book, Clock(), {"bell": bell}, {}), Barrier(4)
    found = []

    def ring():
        ready.wait()
        found.append(both.ring(timer_id, 1))

    rung = [Thread(target=ring) for _ in range(4)]
    for each in rung:
        each.start()
    for each in rung:
        each.join()
    assert sorted(found) == ["fired", "over", "over", "over"]
    assert list(states(book)) == ["ring 1"]


@pytest.mark.parametrize("turn", range(6))
def test_called_off_at_the_moment_it_rings_it_either_rang_or_was_called_off(book, turn):
    timer_id = arm(book, NOON, "x")
    with book.page() as page:
        page.rearm(timer_id, 1, NOON)
    timed, ready, found = Timers(book, Clock(), {"bell": bell}, {}), Barrier(2), []

    def call_off():
        ready.wait()
        with book.page() as page:
            found.append(outbox.disarm(page, "bell", about="x"))

    other = Thread(target=call_off)
    other.start()
    ready.wait()
    rang = timed.ring(timer_id, 1) == "fired"
    other.join()
    assert rang == (found == [0])
    assert len(states(book)) == rang


def test_where_the_clock_was_set_back_it_waits_for_its_moment(book):
    clock = Clock()

    async def work():
        timer_id = arm(book, NOON + SECOND)
        clock.add(hours=-1)
        await until(lambda: timers(book)[0]["gen"] == 2)
        assert not states(book)
        clock.add(hours=2)
        with book.page() as page:  # the alarm of the second generation is an hour away: set it to now
            page.rearm(timer_id, 3, NOON)
            page.post.alarm(page, timer_id, 3, NOON)
        await until(lambda: states(book) == {"ring 3": "sent"})

    assert heard(book, work, clock=clock) == ["ring 3"]


def test_one_armed_by_a_process_without_an_engine_rings_at_the_next_start(book):
    arm(book, NOON)
    assert timers(book)[0]["gen"] == 0

    async def work():
        await until(lambda: states(book) == {"ring 1": "sent"})

    assert heard(book, work) == ["ring 1"]


def test_work_that_fails_is_undone_and_tried_again_for_a_day(book, monkeypatch, caplog):
    monkeypatch.setattr(engine, "pause", lambda failures: 0.05)
    clock, faults = Clock(), [RuntimeError("broken")] * 2

    def breaks(page, row, now):
        bell(page, row, now)
        if faults:
            raise faults.pop()

    def never(page, row, now):
        raise RuntimeError("always")

    async def work():
        arm(book, NOON)
        await until(lambda: states(book) == {"ring 1": "sent"})
        arm(book, NOON, kind="never")
        await until(lambda: "always" in caplog.text)
        assert timers(book)[1]["state"] == "armed"
        clock.add(hours=25)
        await until(lambda: timers(book)[1]["state"] == "failed")

    with caplog.at_level(logging.ERROR):
        assert heard(book, work, (("bell", breaks), ("never", never)), clock) == ["ring 1"]


# ---- pieces of long texts


def piece(place, ref=7, total=2, sender=MASON):
    texts = {1: "pit 3.12 3.08 3.10 ", 2: "deep 1.83"}
    return Inbound("sms", f"w-{ref}-{place}", sender, texts[place], part=Part("10100", ref, total, place))


def take(book, message, now=NOON):
    return inbox.take(message, book, vocabulary(), now)


# ---- once a night


def test_every_night_what_the_engine_keeps_of_ended_works_is_thrown_away_and_our_own_rows_stay(book, monkeypatch):
    clock = Clock()

    async def work():
        take(book, Inbound("sms", "w-1", MASON, "status"))
        await until(lambda: _ended(book) == 1)
        with book.page() as page:
            (night,) = page.armed("retention")
        assert night["due"].isoformat() == "2026-03-02T23:00:00+00:00", "two at night in Nairobi"
        assert Handover(book).open().forget(clock() - delivery.KEPT) == 0, "the clock of the tests is in the past"
        monkeypatch.setattr(delivery, "KEPT", timedelta(days=-100000))
        clock.now = night["due"]
        with book.page() as page:
            page.rearm(night["id"], 2, night["due"])
            page.post.alarm(page, night["id"], 2, night["due"])
        await until(lambda: _ended(book) == 0)
        with book.page() as page:
            (again,) = await until(lambda: page.armed("retention"))
        assert again["due"] - night["due"] in (timedelta(0), timedelta(days=1))

    heard(book, work, (), clock)
    with book.engine.connect() as connection:
        assert connection.scalars(sa.select(inbound.c.wire_id)).all() == ["w-1"]
    assert set(states(book).values()) == {"sent"}


def _ended(book):
    table = sa.table(
        "workflow_status", sa.column("status"), sa.column("name"), schema=None if book.engine.dialect.name == "sqlite" else "dbos"
    )
    with book.engine.connect() as connection:
        query = sa.select(sa.func.count()).select_from(table).where(table.c.status == "SUCCESS", table.c.name == "deliver")
        return connection.scalar(query)


# ---- the office over a restart


def test_what_became_due_while_nothing_ran_rings_once_over_two_starts_and_the_digest_goes_on(book):
    clock = Clock()
    with book.page() as page:
        watch.begin(page, clock())
    take(book, Inbound("sms", "w-1", MASON, "pit 3.12 3.08 3.10 deep 1.83"))

    clock.add(hours=4, minutes=1)  # while nothing ran the repeat has become due

    async def work():
        for _ in range(2):
            async with running(book, Wire(), clock, rings=watch.RINGS):
                await until(lambda: sum("NO ANSWER yet" in text for text in states(book)) == 1)
                await asyncio.sleep(0.5)
            book.post = None

    asyncio.run(work())
    assert sum("NO ANSWER yet" in text for text in states(book)) == 1
    with book.page() as page:
        (case,), (digest,) = page.armed("case"), page.armed("digest")
    assert (case["fields"]["step"], digest["due"].isoformat()) == (1, "2026-03-02T15:00:00+00:00")
