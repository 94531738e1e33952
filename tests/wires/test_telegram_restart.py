"""Telegram where the bot or the network goes and comes: kill -9 between commit and offset, orders of several hands, logging in."""

import asyncio
import os
import signal
import socket
from concurrent.futures import ThreadPoolExecutor
from time import sleep

import pytest

from bot.channels import Inbound
from bot.channels.telegram import Telegram
from bot.channels.updates import NotYet
from bot.inbox import Taken
from bot.serve import Bot
from bot.tables import entry, inbound
from bot.tables import offset as offsets
from tests import warm
from tests.wires.botapi import TOKEN
from tests.wires.chats import DIG, SECRET, Office, hurry, private, settings, until

pytestmark = pytest.mark.asyncio


@pytest.fixture
def office(tmp_path, api, monkeypatch):
    hurry(monkeypatch)
    made = Office(tmp_path / "book.sqlite", api)
    yield made
    made.book.engine.dispose()


def process(office, entry_point=warm.ENTRY):
    """The bot as a process of its own."""
    with socket.create_server(("127.0.0.1", 0)) as free:
        port = free.getsockname()[1]
    told = {
        "DATABASE_URL": f"sqlite:///{office.path}",
        "TELEGRAM_TOKEN": TOKEN,
        "TELEGRAM_API": office.api.url,
        "PORT": str(port),
        "LOG_LEVEL": "WARNING",
    }
    environment = os.environ | {f"PEGLINE_{name}": value for name, value in told.items()}
    said = office.path.with_suffix(".said").open("w+b")
    return warm.Child(["serve"], environment, out=said, entry=entry_point), said


async def ended(child, said):
    code = await asyncio.to_thread(child.wait, 120)
    with said:
        said.seek(0)
        return code, said.read().decode()


async def test_killed_between_commit_and_offset_nothing_is_lost_and_nothing_answered_twice(office, api):
    for n in (1, 2, 3):
        office.say("mason", f"got {n} bricks")
    for _ in range(2):
        code, said = await ended(*process(office, "tests.wires.serve_and_die:main"))
        assert code == -signal.SIGKILL, said
        assert (office.count(inbound), office.count(entry), office.rows(offsets.c.value)) == (1, 1, [])
        assert len(api.pending) == 3, "the server keeps what no offset has confirmed"
    assert not office.texts("mason")
    child, said = process(office)
    try:
        await until(lambda: len(office.texts("mason")) >= 3)
        office.say("mason", "got 4 bricks")
        await until(lambda: len(office.texts("mason")) >= 4)
        await office.quiet()
    finally:
        child.send_signal(signal.SIGTERM)
        code, told = await ended(child, said)
    assert (code, told) == (0, "")
    assert [text.split(" On ")[0] for text in office.texts("mason")] == [f"TB07 #{n} STOCK: Came: {n} bricks." for n in (1, 2, 3, 4)]
    assert office.books == (4, 4, 4)
    assert office.rows(offsets.c.value) == [(5005,)]


async def test_a_webhook_left_from_before_is_taken_away_where_the_bot_polls(office, api):
    api.hook["url"] = "http://127.0.0.1:9/elsewhere"
    async with office.running():
        assert "TB07 #1" in await office.asked("mason", DIG)


async def test_a_network_that_goes_and_comes_loses_nothing_and_keeps_the_order(office, api):
    await asyncio.to_thread(api.stop)
    async with office.running():
        office.say("mason", "status")
        await asyncio.sleep(0.3)
        await asyncio.to_thread(api.start)
        await until(lambda: office.texts("mason"))
        api.fault(502, times=3)
        office.say("mason", "got 1 bricks")
        office.say("mason", "got 2 bricks")
        await until(lambda: office.count(inbound) == 3)
        await asyncio.to_thread(api.stop)
        office.say("mason", "got 3 bricks")
        await asyncio.sleep(0.3)
        await asyncio.to_thread(api.start)
        await until(lambda: len(office.texts("mason")) >= 4)
        await office.quiet()
        assert [text[:8] for text in office.texts("mason")[1:]] == ["TB07 #1 ", "TB07 #2 ", "TB07 #3 "]


async def test_a_menu_that_is_not_taken_keeps_nobody_from_work(office, api):
    api.fault(400, times=9, method="setmycommands")
    async with office.running():
        assert "TB07 #1" in await office.asked("mason", DIG)
    assert not api.commands


async def test_an_old_offset_is_not_used(office, api):
    """After a week without updates the server may count from anywhere, even lower: what is below the offset would be lost."""
    with office.book.page() as page:
        page.set_offset("telegram:42", 900_000, office.clock().replace(year=2025))
    async with office.running():
        assert "TB07 #1" in await office.asked("mason", DIG)
        await until(lambda: office.rows(offsets.c.value) == [(5002,)])


async def test_a_chat_and_a_person_are_each_taken_one_at_a_time_in_order(office, api, monkeypatch):
    running, most, seen = {}, {}, []

    def slow(message, *more):
        keys = {message.back, message.sender}
        for key in keys:
            running[key] = running.get(key, 0) + 1
            most[key] = max(most.get(key, 0), running[key])
        seen.append(message.wire_id)
        sleep(0.01)
        for key in keys:
            running[key] -= 1
        return Taken(True)

    monkeypatch.setattr("bot.serve.inbox.take", slow)
    bot = Bot(office.book, settings(api), office.clock)
    bot._hands = ThreadPoolExecutor(4)

    async def at(wire_id, chat, sender, seconds):
        await asyncio.sleep(seconds)
        await bot.take(Inbound("telegram", wire_id, sender, "", chat=chat))

    own = [at(f"a{n}", None, "tg:1", n * 0.007) for n in range(12)]
    group = [at(f"g{n}", "tg:-5", f"tg:{1 + n % 3}", n * 0.007) for n in range(12)]
    await asyncio.gather(*own, *group)
    bot._hands.shutdown()
    await bot.wires[0].close()
    assert set(most.values()) == {1} and set(most) == {"tg:1", "tg:2", "tg:3", "tg:-5"}
    assert [each for each in seen if each[0] == "a"] == [f"a{n}" for n in range(12)]
    assert [each for each in seen if each[0] == "g"] == [f"g{n}" for n in range(12)]
    assert not bot._order


async def test_before_the_bot_knows_its_name_nothing_of_a_group_is_let_go(api):
    wire = Telegram(settings(api, telegram_webhook="http://127.0.0.1:9", telegram_secret=SECRET))
    taken = []

    async def take(message):
        taken.append(message.text)

    said = private(5, "@pegline_bot status")
    with pytest.raises(NotYet):
        await wire._taken({"update_id": 1, "message": said | {"chat": {"id": -5, "type": "group"}}}, take)
    await wire._taken({"update_id": 2, "message": said}, take)
    await wire.start()
    await wire._taken({"update_id": 1, "message": said | {"chat": {"id": -5, "type": "group"}}}, take)
    await wire.close()
    assert taken == ["@pegline_bot status", "status"]
