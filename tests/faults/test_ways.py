"""Somebody with several ways: what one refuses or does not take goes by the next, before anybody is told that nothing reaches him."""

import asyncio

import pytest

from bot import delivery as module
from bot import outbox
from bot.channels import Inbound, Later, Refused, Sent
from bot.delivery import Delivery
from tests.conftest import NOON
from tests.faults.running import MASON, SUPERVISOR, Clock, say, states, until

CHAT = "tg:98765"
WHY = "Forbidden: bot was blocked by the user"


class Wire:
    """A wire by its name that always says the same."""

    rate, order_s = 1000.0, 0.0

    def __init__(self, name, says=Sent()):
        self.name, self.says, self.texts = name, says, []

    async def send(self, out):
        self.texts.append((out.to, out.text))
        return self.says


@pytest.fixture
def linked(book, monkeypatch):
    monkeypatch.setattr(module, "pause", lambda failures: 0.1)
    with book.page() as page:
        page.link(page.person(number=MASON).id, "telegram", CHAT, NOON)
    return book


def run(book, telegram, sms, story):
    async def spoken():
        clock = Clock()
        delivery = Delivery(book, [telegram, sms], clock)
        await delivery.start()
        try:
            await story(clock)
            await asyncio.sleep(0.5)
        finally:
            await delivery.stop(3)

    asyncio.run(spoken())


def to_chat(book, text, ref="a"):
    with book.page() as page:
        outbox.say(page, text, CHAT, page.person(number=MASON), "mason", Inbound("telegram", ref, CHAT, ""), NOON)


def test_what_a_blocked_chat_refuses_goes_by_sms_and_nobody_is_alarmed(linked):
    telegram, sms = Wire("telegram", Refused(WHY)), Wire("sms")

    async def story(clock):
        to_chat(linked, "TB07: pit released")
        await until(lambda: sms.texts)

    run(linked, telegram, sms, story)
    assert sms.texts == [(MASON, "TB07: pit released")]
    assert telegram.texts == [(CHAT, "TB07: pit released")]


def test_where_the_next_way_refuses_too_the_supervisor_hears_once(linked):
    telegram, sms = Wire("telegram", Refused(WHY)), Wire("sms", Refused("no such number"))

    async def story(clock):
        to_chat(linked, "one")
        await until(lambda: [to for to, _ in sms.texts] == [MASON, SUPERVISOR])

    run(linked, telegram, sms, story)
    assert "no text reaches Bholu: no such number" in sms.texts[1][1]


def test_after_24_hours_it_goes_by_the_next_way(linked):
    telegram, sms = Wire("telegram", Later("away")), Wire("sms")

    async def story(clock):
        to_chat(linked, "one")
        await until(lambda: telegram.texts)
        clock.add(hours=24, minutes=1)
        await until(lambda: sms.texts)

    run(linked, telegram, sms, story)
    assert sms.texts == [(MASON, "one")]


@pytest.mark.parametrize(
    "minutes, text, too", [(4, "STOP. Nobody in.", False), (6, "STOP. Nobody in.", True), (6, "TB07: pit released", False)]
)
def test_a_stop_that_is_not_taken_in_five_minutes_goes_by_the_next_way_as_well(minutes, text, too, linked):
    telegram, sms = Wire("telegram", Later("away")), Wire("sms")

    async def story(clock):
        to_chat(linked, "STATUS", "before")
        to_chat(linked, text)
        await until(lambda: telegram.texts)
        clock.add(minutes=minutes)
        before = len(telegram.texts)
        await until(lambda: len(telegram.texts) > before + 5)
        telegram.says = Sent()
        await until(lambda: telegram.texts[-1] == (CHAT, text))  # a copy of it that was sent may hide in the states that it waits

    run(linked, telegram, sms, story)
    assert sms.texts == [(MASON, text)] * too, "once, though the first text was tried again and again"
    assert telegram.texts[-1] == (CHAT, text)


def test_a_text_to_a_number_that_is_none_of_his_goes_nowhere_else(linked):
    """A group that put the bot out, a number that was unlinked meanwhile."""
    sms, telegram = Wire("sms", Refused("no such number")), Wire("telegram")

    async def story(clock):
        say(linked, "one", "+254711000000")
        await until(lambda: states(linked)["one"] == "refused")

    run(linked, telegram, sms, story)
    assert [text for _, text in telegram.texts] == []


def test_a_stop_on_a_phone_that_others_read_too_is_copied_once(linked):
    with linked.page() as page:  # on the next way the name goes in front of the text
        page.save_person(name="Zuberi", short="zuberi", number=MASON)
        page.give_role(page.person(short="zuberi").id, "TB07", "mason")
    telegram, sms = Wire("telegram", Later("busy")), Wire("sms")

    async def story(clock):
        to_chat(linked, "STOP. Nobody in.")
        await until(lambda: telegram.texts)
        clock.add(minutes=6)
        await until(lambda: sms.texts)
        tried = len(telegram.texts)
        await until(lambda: len(telegram.texts) > tried + 5)

    run(linked, telegram, sms, story)
    assert [text for _, text in sms.texts] == ["Bholu: STOP. Nobody in."]


def test_a_stop_behind_a_text_that_is_nobodys_by_name_is_seen(linked):
    """A question who writes is of no person, yet what stands behind it waits for it."""
    telegram, sms = Wire("telegram", Later("busy")), Wire("sms")

    async def story(clock):
        with linked.page() as page:
            outbox.say(page, "Who writes?", CHAT, None, "known", Inbound("telegram", "q", CHAT, ""), NOON)
        to_chat(linked, "STOP. Nobody in.", ref="b")
        await until(lambda: telegram.texts)
        clock.add(minutes=6)
        await until(lambda: sms.texts)

    run(linked, telegram, sms, story)
    assert sms.texts == [(MASON, "STOP. Nobody in.")]


@pytest.mark.parametrize("late", ["failed", "rejected"])
def test_of_a_text_that_was_taken_back_a_late_report_changes_nothing(linked, late):
    to_chat(linked, "TB07: pit released")
    with linked.page() as page:
        (row,) = page.withdraw(page.person(number=MASON).id, CHAT, but="another")
        assert page.receipt(row["id"], late, None, NOON)
        assert page.out(row["id"])["state"] == "withdrawn"
        assert not page.note(row["id"], "refused")
        assert page.out(row["id"])["state"] == "withdrawn"


def test_a_text_taken_off_while_it_is_in_the_air_alarms_nobody(linked):
    telegram, sms = Wire("telegram", Refused(WHY)), Wire("sms")
    send = telegram.send

    async def taken_off(out):
        with linked.page() as page:
            page.withdraw(page.person(number=MASON).id, CHAT, but="another")
        return await send(out)

    telegram.send = taken_off

    async def story(clock):
        to_chat(linked, "TB07: pit released")
        await until(lambda: telegram.texts)

    run(linked, telegram, sms, story)
    assert sms.texts == []
    assert states(linked) == {"TB07: pit released": "withdrawn"}
