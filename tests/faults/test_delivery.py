"""What becomes of a queued text: gateways that refuse, fall silent or are away, stops in between, a book that cannot be had."""

import asyncio
import logging
from contextlib import suppress
from datetime import timedelta

import sqlalchemy as sa

from bot import delivery as module
from bot import engine, outbox
from bot.channels import Inbound, Later, Refused, Sent, Unsure
from bot.logbook import Unavailable
from bot.tables import outgoing
from tests.faults.running import MASON, STRANGER, SUPERVISOR, Clock, Wire, row, running, say, states, until


def quick(monkeypatch):
    monkeypatch.setattr(module, "pause", lambda failures: 0.05)
    monkeypatch.setattr(engine, "pause", lambda failures: 0.05)


def test_texts_of_one_person_arrive_in_order_while_the_gateway_refuses(book, monkeypatch):
    quick(monkeypatch)

    async def spoken():
        wire = Wire(Later("down"), Later("down"), OSError("broken"))
        async with running(book, wire):
            for n in range(12):
                say(book, f"text {n}", ref=f"m{n}")
            await until(lambda: set(states(book).values()) == {"sent"})
        return wire

    wire = asyncio.run(spoken())
    assert list(dict.fromkeys(wire.to(MASON))) == [f"text {n}" for n in range(12)]
    assert len(wire.texts) == 15, "three tries that failed"


def test_what_is_undone_goes_to_no_gateway(book):
    async def spoken():
        wire = Wire()
        async with running(book, wire):
            with suppress(KeyError), book.page() as page:
                outbox.say(page, "undone", MASON, page.person(number=MASON), "mason", Inbound("sms", "u", MASON, ""), Clock()())
                raise KeyError
            say(book, "done")
            await until(lambda: states(book) == {"done": "sent"})
            await asyncio.sleep(0.5)
        return wire

    assert asyncio.run(spoken()).texts == [(MASON, "done")]


def test_one_person_who_cannot_be_reached_keeps_nobody_waiting(book, monkeypatch):
    monkeypatch.setattr(module, "pause", lambda failures: 60.0)

    async def spoken():
        wire = Wire(Later("his phone is off"))
        async with running(book, wire):
            say(book, "one", MASON, ref="a")
            await until(lambda: states(book)["one"] == "trying")
            say(book, "two", MASON, ref="b")
            say(book, "three", SUPERVISOR, ref="c")
            await until(lambda: states(book)["three"] == "sent")
            await asyncio.sleep(0.6)
        return wire

    wire = asyncio.run(spoken())
    assert states(book) == {"one": "trying", "two": "queued", "three": "sent"}
    assert wire.to(MASON) == ["one"]


def test_a_refused_text_is_told_to_the_supervisor_once_a_day(book):
    async def spoken():
        wire = Wire(Refused("no such number"), Refused("no such number"))
        async with running(book, wire):
            say(book, "one", ref="a")
            await until(lambda: states(book)["one"] == "refused")
            say(book, "two", ref="b")
            await until(lambda: states(book)["two"] == "refused")
            await until(lambda: len(wire.to(SUPERVISOR)) == 1)
            await asyncio.sleep(0.5)
        return wire

    (told,) = asyncio.run(spoken()).to(SUPERVISOR)
    assert "no text reaches" in told
    assert "no such number" in told


def test_after_24_hours_a_text_is_given_up_and_the_supervisor_told(book, monkeypatch):
    quick(monkeypatch)

    async def spoken():
        clock, wire = Clock(), Wire(Later("down"))
        clock.add(hours=23, minutes=59)
        async with running(book, wire, clock):
            late = say(book, "late")
            await until(lambda: states(book)["late"] == "sent")
            clock.add(minutes=2)
            lost = say(book, "lost", ref="z")
            await until(lambda: row(book, lost)["state"] == "gave_up")
            await until(lambda: wire.to(SUPERVISOR))
        return wire, late

    wire, late = asyncio.run(spoken())
    assert "lost" not in wire.to(MASON)
    assert row(book, late)["state"] == "sent"
    assert "not sent in 24 hours" in wire.to(SUPERVISOR)[0]


def test_a_lost_answer_is_settled_by_the_receipt_and_not_sent_again(book):
    async def spoken():
        wire = Wire(Unsure("answer lost"))
        async with running(book, wire, unsure_s=5.0):
            text_id = say(book, "one")
            await until(lambda: row(book, text_id)["state"] == "unknown")
            with book.page() as page:
                page.receipt(text_id, "delivered", "g1", Clock()())
            say(book, "two", ref="b")
            await until(lambda: states(book)["two"] == "sent")
        return wire

    assert asyncio.run(spoken()).to(MASON) == ["one", "two"]
    assert states(book) == {"one": "delivered", "two": "sent"}


def test_a_lost_answer_without_a_receipt_is_sent_again(book):
    async def spoken():
        wire = Wire(Unsure("answer lost"))
        async with running(book, wire, unsure_s=0.2):
            say(book, "one")
            await until(lambda: states(book)["one"] == "sent")
        return wire

    assert asyncio.run(spoken()).to(MASON) == ["one", "one"]


def test_a_stop_lets_what_is_in_the_air_land_and_begins_nothing(book):
    async def spoken():
        gate = asyncio.Event()

        async def slow():
            await gate.wait()
            return Sent()

        wire = Wire(slow)
        async with running(book, wire) as delivery:
            say(book, "one", MASON, ref="a")
            await until(lambda: wire.texts)
            delivery.close()
            say(book, "two", SUPERVISOR, ref="b")
            await asyncio.sleep(0.6)
            gate.set()
        again = Wire()
        async with running(book, again):
            await until(lambda: set(states(book).values()) == {"sent"})
            await asyncio.sleep(0.5)
        return wire, again

    wire, again = asyncio.run(spoken())
    assert wire.texts == [(MASON, "one")]
    assert again.texts == [(SUPERVISOR, "two")]


def test_a_text_cut_off_by_the_stop_waits_for_its_receipt_at_the_next_start(book, monkeypatch):
    async def never():
        await asyncio.sleep(3600)

    async def spoken():
        wire, again = Wire(never), Wire()
        delivery = module.Delivery(book, [wire], Clock())
        await delivery.start()
        text_id = say(book, "one")
        await until(lambda: wire.texts)
        await delivery.stop(0.1)
        assert row(book, text_id)["state"] == "unknown"
        async with running(book, again, unsure_s=3.0):
            await asyncio.sleep(1.0)
            with book.page() as page:
                page.receipt(text_id, "delivered", None, Clock()())
            say(book, "two", ref="b")
            await until(lambda: states(book)["two"] == "sent")
        return again

    again = asyncio.run(spoken())
    # on PostgreSQL the text still belongs to the process that is gone, until the reaper gives it to this one
    assert "one" not in again.to(MASON)
    assert states(book)["one"] == "delivered"


def test_a_process_that_starts_again_and_again_waits_for_a_receipt_no_longer_than_one_that_runs_on(book):
    async def never():
        await asyncio.sleep(3600)

    async def spoken():
        clock, wire, again = Clock(), Wire(never), Wire()
        delivery = module.Delivery(book, [wire], clock)
        await delivery.start()
        text_id = say(book, "one")
        await until(lambda: wire.texts)
        await delivery.stop(0.1)
        assert row(book, text_id)["state"] == "unknown"
        clock.add(seconds=60)
        async with running(book, again, clock, unsure_s=60.0):
            await until(lambda: states(book)["one"] == "sent")
        return again

    assert asyncio.run(spoken()).to(MASON) == ["one"]


def test_a_book_that_cannot_be_had_after_a_send_makes_no_second_send(book, monkeypatch, caplog):
    quick(monkeypatch)
    mark, faults = module.Delivery._mark, [Unavailable("locked"), Unavailable("locked"), RuntimeError("broken")]

    def hard(self, *args, **more):
        if faults:
            raise faults.pop()
        return mark(self, *args, **more)

    monkeypatch.setattr(module.Delivery, "_mark", hard)

    async def spoken():
        wire = Wire()
        async with running(book, wire):
            say(book, "one")
            await until(lambda: states(book)["one"] == "sent")
        return wire

    with caplog.at_level(logging.ERROR):
        assert asyncio.run(spoken()).to(MASON) == ["one"]
    assert not faults
    assert "tried again" in caplog.text


def test_replies_do_not_wait_behind_many_that_have_time(book):
    async def spoken():
        wire = Wire()
        wire.rate = 50.0
        async with running(book, wire):
            for n in range(40):
                say(book, f"digest {n}", f"+2547990010{n:02}", "later", ref=f"d{n}")
            await until(lambda: wire.texts)
            say(book, "reply", MASON, ref="r")
            await until(lambda: wire.to(MASON))
            before = len(wire.texts)
            await until(lambda: len(wire.texts) == 41)
        return before

    assert asyncio.run(spoken()) < 35, "the reply overtook the digests"


def test_the_clock_set_back_loses_and_doubles_nothing(book, monkeypatch):
    quick(monkeypatch)

    async def spoken():
        clock, wire = Clock(), Wire(Later("down"), Later("down"))
        async with running(book, wire, clock):
            say(book, "one", now=clock(), ref="a")
            await until(lambda: wire.texts)
            clock.add(days=-400)
            say(book, "two", now=clock(), ref="b")
            say(book, "three", STRANGER, now=clock(), ref="c")
            await until(lambda: set(states(book).values()) == {"sent"})
        return wire

    wire = asyncio.run(spoken())
    assert list(dict.fromkeys(wire.to(MASON))) == ["one", "two"]
    with book.engine.connect() as connection:
        dues = connection.scalars(sa.select(outgoing.c.due).order_by(outgoing.c.id)).all()
    assert dues[0] - dues[1] == timedelta(days=400)


def test_what_waits_for_a_number_that_is_taken_off_goes_by_another(book, monkeypatch):
    monkeypatch.setattr(module, "pause", lambda failures: 0.3)
    new = "+254711222333"

    async def spoken():
        wire = Wire(*[Later("his phone is off")] * 100)
        async with running(book, wire):
            say(book, "one", ref="a")
            await until(lambda: states(book)["one"] == "trying")
            say(book, "two", ref="b")
            with book.page() as page:
                person, message = page.person(number=MASON), Inbound("sms", "c", SUPERVISOR, "")
                page.link(person.id, "sms", new, Clock()())
                page.unlink(person.id, MASON)
                assert outbox.moved(page, page.person(id=person.id), MASON, message, Clock()()) == 2
            await until(lambda: len(wire.to(new)) == 2)
            before = len(wire.to(MASON))
            await asyncio.sleep(0.8)
            assert len(wire.to(MASON)) <= before + 1, "one that was in the air"
        return wire

    assert asyncio.run(spoken()).to(new) == ["one", "two"]
    with book.engine.connect() as connection:
        rows = connection.execute(sa.select(outgoing.c.number, outgoing.c.state).order_by(outgoing.c.id)).all()
    assert rows == [(MASON, "withdrawn"), (MASON, "withdrawn"), (new, "sent"), (new, "sent")]
