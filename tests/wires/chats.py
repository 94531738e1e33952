"""A bot of the demo programme in the loop of a test, joined to the Bot API server of botapi.py."""

import asyncio
import shutil
import socket
import tempfile
from contextlib import asynccontextmanager
from datetime import timedelta
from functools import cache
from pathlib import Path

import pytest
import sqlalchemy as sa
import uvicorn

from bot import delivery, programme, talk
from bot.config import Settings
from bot.inbox import take
from bot.logbook import Book
from bot.reading.words import vocabulary
from bot.serve import Bot
from bot.shelf import Shelf
from bot.tables import entry, inbound, outgoing
from tests.conftest import DEMO, NOON
from tests.faults.running import until
from tests.wires.botapi import TOKEN, BotApi

SECRET = "a-shared_secret"
ZONE = "Africa/Nairobi"  # of the demo programme
TALKS = Path(__file__).parents[1] / "talks"
DIG = "pit 3.12 3.08 3.10 deep 1.83"
CHAT = 1000  # the account of person 1 is 1001, and so on


class Clock:
    """A clock that tells another moment each time, so that no two messages come at one."""

    def __init__(self, now=NOON, step=timedelta(seconds=1)):
        self.now, self.step = now, step

    def __call__(self):
        self.now += self.step
        return self.now


def _people(book):
    with book.page() as page:
        return page.people()


def settings(api, **more):
    return Settings(_env_file=None, telegram_token=TOKEN, telegram_api=api.url, telegram_rate=1000, **more)


@cache
def template():
    """The path of a book with the demo programme, everybody linked to an account; to be copied."""
    path = Path(tempfile.mkdtemp()) / "template.sqlite"
    book = Book(f"sqlite:///{path}")
    book.upgrade()
    with book.page() as page:
        programme.store(page, *programme.read(DEMO), NOON)
        for person in page.people():
            page.link(person.id, "telegram", f"tg:{CHAT + person.id}", NOON)
    book.engine.dispose()
    return path


class Office:
    """One book, its people, and the bot that runs on it."""

    def __init__(self, path, api):
        shutil.copyfile(template(), path)
        self.book, self.api, self.clock, self.path = Book(f"sqlite:///{path}"), api, Clock(), path
        with self.book.page() as page:
            self.chat = {person.short: CHAT + person.id for person in page.people()}
            self._read = {person.id: (person.language, person.units) for person in page.people()}
        self.first = 5001
        for chat in self.chat.values():
            api.meet(chat)

    @asynccontextmanager
    async def running(self, webhook=False):
        """The bot at work; with `webhook` it is told its updates under self.hook."""
        here = socket.create_server(("127.0.0.1", 0))
        url = f"http://127.0.0.1:{here.getsockname()[1]}"
        self.hook = f"{url}/telegram"
        more = {"telegram_webhook": url, "telegram_secret": SECRET} if webhook else {}
        self.bot = Bot(self.book, settings(self.api, **more), self.clock)
        server = uvicorn.Server(uvicorn.Config(self.bot.app(), log_config=None, timeout_graceful_shutdown=1))
        await self.bot.start()
        serving = asyncio.create_task(server.serve(sockets=[here]))
        try:
            await until(lambda: server.started and (not webhook or self.api.hook["url"]))
            yield self.bot
        finally:
            server.should_exit = True
            await serving
            await self.bot.stop(8)
            self.book.engine.dispose()

    def wipe(self):
        """The book and the chats as they were at first, under the running bot; the numbers of updates go on from self.first."""
        self.api.forget()
        self.book._shelf = Shelf()  # a log never loses entries but here
        with self.book.page() as page:
            for table in ("entry", "inbound", "outgoing", "workflow_status"):
                page.connection.exec_driver_sql(f"DELETE FROM {table}")
            page.connection.exec_driver_sql("DELETE FROM timer WHERE person_id IS NOT NULL OR site IS NOT NULL")
            known = ", ".join(map(str, self._read))
            page.connection.exec_driver_sql(f"DELETE FROM role WHERE person_id NOT IN ({known})")
            page.connection.exec_driver_sql(f"DELETE FROM person WHERE id NOT IN ({known})")
            for person_id, (language, units) in self._read.items():
                page.set_person(person_id, question=None, place=None, out_seq=0, language=language, units=units)
        self.first = self.api.next_update

    def say(self, name, text, **more):
        return self.api.say(self.chat[name], text, **more)

    async def asked(self, name, text, **more):
        """What the sender gets for a text once all of it has gone out."""
        seen = len(self.api.texts(self.chat[name]))
        self.say(name, text, **more)
        await self.quiet()
        return " ".join(self.api.texts(self.chat[name])[seen:])

    def texts(self, name):
        return self.api.texts(self.chat[name])

    async def speak(self, path, book, monkeypatch):
        """Hold a written conversation here, at the moments and with what `book` hears of it in the terminal; return both sides' texts."""
        said, wanted, sent = [], {name: [] for name in self.chat}, talk._sent
        numbers = {person.short: person.number for person in _people(book)}
        names = {number: name for name, number in numbers.items()}

        def heard(number, text, book, words, now, wire_id):
            said.append((names[number], text, now))
            went = sent(number, text, book, words, now, wire_id)
            for out in went:
                wanted[names[out.to]].append(out.text)
            return went

        monkeypatch.setattr(talk, "_sent", heard)
        monkeypatch.setattr(talk, "_rung", lambda book, now: [])  # what is due rings by the engine's clock, which does not jump
        faults = [fault for _, fault in talk.run(path.read_text(), book, vocabulary(), numbers, ZONE) if fault]
        assert not faults
        for done, (name, text, now) in enumerate(said):
            if now - self.clock.now > timedelta(hours=1):
                await self.quiet()  # what waited over a jump of the clock would be too old to be sent
            self.clock.now, self.clock.step = now, timedelta(0)
            self.say(name, text)
            await until(lambda done=done: self.count(inbound) == done + 1)
        await self.quiet()
        return wanted, {name: self.texts(name) for name in self.chat}

    async def quiet(self):
        """Wait until every update is settled and no text waits."""
        await until(lambda: not self.api.pending and not self._waiting())

    def _waiting(self):
        with self.book.engine.connect() as connection:
            ours = connection.exec_driver_sql("SELECT count(*) FROM outgoing WHERE state IN ('queued', 'trying', 'unknown')").scalar()
            return (
                ours + connection.exec_driver_sql("SELECT count(*) FROM workflow_status WHERE status IN ('PENDING', 'ENQUEUED')").scalar()
            )

    def count(self, table, where=None):
        query = sa.select(sa.func.count()).select_from(table)
        with self.book.engine.connect() as connection:
            return connection.scalar(query if where is None else query.where(where))

    def rows(self, *columns):
        with self.book.engine.connect() as connection:
            return connection.execute(sa.select(*columns)).all()

    @property
    def books(self):
        """(messages in, entries, texts out)"""
        return self.count(inbound), self.count(entry), self.count(outgoing)


def private(chat, text, number=1):
    """A message of a person, as the server writes it."""
    said = {"message_id": number, "date": 1772442000, "chat": {"id": chat, "type": "private"}, "text": text}
    return said | {"from": {"id": chat, "is_bot": False, "first_name": "P"}}


def broken(times, of=None):
    """The road, which cannot store (a message with a word in it) so many times."""
    left = [times]

    def taken(message, *more):
        if left[0] and (of is None or of in message.text):
            left[0] -= 1
            raise OSError("no room")
        return take(message, *more)

    return taken


def hurry(monkeypatch):
    """Look for new texts more often than a running bot does, and wait less after a failure: a test has no time."""
    monkeypatch.setattr("bot.engine.LANES", {"now": (200, 0.03), "later": (5, 0.5)})
    monkeypatch.setattr(delivery, "pause", lambda failures: 0.05)
    monkeypatch.setattr("bot.channels.telegram.BREAK_S", 0.05)
    monkeypatch.setattr("bot.serve.LOGIN_S", 0.1)


@asynccontextmanager
async def working(folder, webhook=False):
    """An Office whose bot runs on a Bot API server of its own."""
    api = BotApi().start()
    try:
        with pytest.MonkeyPatch.context() as monkeypatch:
            hurry(monkeypatch)
            office = Office(folder / "book.sqlite", api)
            async with office.running(webhook):
                yield office
    finally:
        api.stop()
