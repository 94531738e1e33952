"""Texts give way to messages that come in: one begins when nothing is on the road, or when it has waited so long."""

import asyncio
import threading

from bot import delivery, serve
from bot.channels import Inbound
from bot.config import Settings
from bot.inbox import Taken
from tests.faults.gateway import Gateway
from tests.faults.running import STRANGER, Clock, Wire, running, say, states, until

HELD_S = 1.0  # several looks of the engine


def test_a_text_waits_while_a_message_is_on_the_road(book, monkeypatch):
    monkeypatch.setattr(delivery, "GIVE_WAY_S", 60.0)
    through = threading.Event()
    monkeypatch.setattr(serve.inbox, "take", lambda *message: through.wait() and Taken(True))

    async def spoken(url):
        bot = serve.Bot(book, Settings(_env_file=None, sms_url=url, sms_key="key", sms_order_s=0), Clock())
        await bot.start()
        coming = asyncio.create_task(bot.take(Inbound("sms", "m", STRANGER, "hello")))
        say(book, "one")
        await asyncio.sleep(HELD_S)
        held = states(book)
        through.set()
        await coming
        await until(lambda: states(book)["one"] == "sent")
        await bot.stop(3)
        return held

    with Gateway() as gateway:
        assert asyncio.run(spoken(gateway.url)) == {"one": "queued"}


def test_a_text_begins_at_last_however_much_comes_in(book):
    async def spoken():
        wire = Wire()
        async with running(book, wire) as running_:
            with running_.given_way():
                for n in range(5):
                    say(book, f"text {n}", ref=f"m{n}")
                await until(lambda: set(states(book).values()) == {"sent"})
        return wire.texts

    assert [text for _, text in asyncio.run(spoken())] == [f"text {n}" for n in range(5)]
