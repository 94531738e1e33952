"""A written conversation held over SMS: each line comes as the gateway brings it, each answer is what the gateway was given.

What is between is the running bot: its HTTP side on a port, its delivery, the gateway's reports. Only the clock is set.
"""

import asyncio
import re
import socket
import urllib.request
from concurrent.futures import ThreadPoolExecutor
from contextlib import asynccontextmanager
from pathlib import Path
from types import SimpleNamespace
from urllib.parse import urlencode

import gsm0338  # noqa: F401 - registers the codec
import pytest
import sqlalchemy as sa
import uvicorn

from bot import engine, programme, talk
from bot.channels import terminal
from bot.config import Settings
from bot.inbox import take
from bot.logbook import Book
from bot.reading.words import vocabulary
from bot.serve import Bot
from bot.tables import outgoing
from tests.conftest import DEMO, NOON
from tests.wires.running import KEY, until
from tests.wires.sendsms import sendsms

ZONE = "Africa/Nairobi"  # of the demo programme
TALKS = Path(__file__).parents[1] / "talks"
STRANGER = "+254799000000"
CONFIRM = re.compile(r"To confirm send: confirm (\d{6})")


class Phones:
    """The people of a programme with their phones, and the gateway's side of every line."""

    def __init__(self, book, desk, port):
        self._book, self._desk, self._base, self._reports = book, desk, f"http://127.0.0.1:{port}", ThreadPoolExecutor(1)
        self.now = NOON
        desk.accepted = lambda query: self._reports.submit(self._report, query["dlr-url"])

    def clock(self):
        return self.now

    def close(self):
        self._reports.shutdown()

    def sent(self, number, text, book, words, now, wire_id):
        """One message over the air, in as many pieces as a phone makes of it; the texts that go out for it."""
        self.now, before = now, len(self._desk.got)
        pieces = _pieces(text)
        for at, (body, charset) in enumerate(pieces, 1):
            udh = bytes([5, 0, 3, len(text) % 256, len(pieces), at]) if len(pieces) > 1 else b""
            last = f"{wire_id}-{at}"
            query = {"key": KEY, "id": last, "from": number, "to": "+2020", "ts": int(now.timestamp()), "charset": charset}
            assert _get(f"{self._base}/sms/mo?{urlencode(query | {'udh': udh, 'text': body})}") == "ACCEPTED"
        until(lambda: self._over(last), lambda: f"the answers to {text}")
        texts = [SimpleNamespace(to=got["to"], text=got["text"]) for got in self._desk.got[before:]]
        codes = [found[1] for out in texts if out.to == number and (found := CONFIRM.search(out.text))]
        if codes:  # a decision by SMS counts once its code comes back; in the terminal at once
            return self.sent(number, f"confirm {codes[0]}", book, words, now, f"{wire_id}-code")
        return texts

    def _over(self, wire_id):
        with self._book.engine.connect() as connection:
            states = connection.execute(sa.select(outgoing.c.state).where(outgoing.c.wire_id == wire_id)).scalars()
            return set(states) <= {"delivered"}

    def _report(self, url):
        for status in ("8", "1"):
            _get(url.replace("%d", status).replace("%F", "f-1"))


def _get(url):
    with urllib.request.urlopen(url, timeout=20) as answer:
        return answer.read().decode()


def _pieces(text):
    """(bytes, charset as the gateway names it) of each short message: 160 letters or 153 a piece, in UCS-2 70 or 67."""
    try:
        count = len(text.encode("gsm03.38"))
    except UnicodeEncodeError:
        raw = text.encode("utf-16-be")
        size = 140 if len(raw) <= 140 else 134
        return [(raw[at : at + size], "UTF-16BE") for at in range(0, max(len(raw), 1), size)]
    size = 160 if count <= 160 else 153
    return [(text[at : at + size].encode(), "UTF-8") for at in range(0, max(len(text), 1), size)]


@asynccontextmanager
async def _serving(book):
    """Phones of a running bot on a book."""
    with sendsms() as (desk, url), socket.create_server(("127.0.0.1", 0)) as here, pytest.MonkeyPatch.context() as patch:
        patch.setattr(engine, "LANES", {"now": (200, 0.02), "later": (5, 0.5)})  # a test does not wait for the next look
        port = here.getsockname()[1]
        phones = Phones(book, desk, port)
        bot = Bot(book, Settings(_env_file=None, sms_url=url, sms_key=KEY, sms_rate=1000, port=port), phones.clock)
        server = uvicorn.Server(uvicorn.Config(bot.app(), log_config=None, access_log=False))
        await bot.start()
        task = asyncio.create_task(server.serve(sockets=[here]))
        try:
            yield phones
        finally:
            await asyncio.to_thread(phones.close)
            server.should_exit = True
            await task
            await bot.stop(8)


def compared(path, folder):
    """Hold a conversation on both ways; return (faults, what went out for each line in the terminal, and over SMS)."""
    made, _ = programme.read(DEMO)
    numbers = {row.short: row.number for row in made.person} | {"stranger": STRANGER}
    script, results = path.read_text().replace("+000000000", STRANGER), []  # no network gives that number to anybody
    for held in (_in_terminal, _over_sms):
        book = Book(f"sqlite:///{folder}/{held.__name__}.sqlite")
        book.upgrade()
        with book.page() as page:
            programme.store(page, *programme.read(DEMO), NOON)
        results.append(held(script, book, numbers))
        book.engine.dispose()
    (faults, plain), (more, over) = results
    return [*faults, *more], plain, over


def _in_terminal(script, book, numbers):
    def sent(number, text, book, words, now, wire_id):
        take(terminal.inbound(number, text, now, wire_id), book, words, now)
        with book.page() as page:
            return list(terminal.outgoing(page, wire_id))

    return _run(script, book, numbers, sent)


def _over_sms(script, book, numbers):
    async def held():
        async with _serving(book) as phones:
            return await asyncio.to_thread(_run, script, book, numbers, phones.sent)

    return asyncio.run(held())


def _run(script, book, numbers, sent):
    went = []

    def heard(number, text, *more):
        texts = sent(number, text, *more)
        went.append((text, sorted((out.to, out.text) for out in texts)))
        return texts

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(talk, "_sent", heard)
        return [fault for _, fault in talk.run(script, book, vocabulary(), numbers, ZONE) if fault], went
