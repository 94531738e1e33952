"""What a running bot keeps in memory: run by hand for some half an hour, prints resident memory as messages come.

    .venv-test/bin/python -m tests.bench.memory [messages]

`pegline serve` on both channels, half of the messages by SMS and half by Telegram, from so many people that each is answered;
texts go out at the pace of real accounts, so that some wait. The goal is 120 MB after 100,000 messages.
"""

import asyncio
import sys
import tempfile
import time

import httpx
import sqlalchemy as sa

from bot.logbook import Book
from bot.tables import entry, inbound, outgoing, site
from tests.bench import wire_ends
from tests.bench.kills import prepared
from tests.bench.road import NOW
from tests.bench.wires import TEXTS, one, resident_mb
from tests.faults.serving import KEY, Serving
from tests.wires.botapi import TOKEN, BotApi

EACH = 100  # messages of one person: fewer than are answered in an hour
CONNECTIONS, STEP = 8, 2000
CHAT = 10_000  # the account of the first person
GOAL_MB = 120


def peopled(url, people):
    """A site and a mason for each of so many people; every other one writes from a chat."""
    book = Book(prepared(url))
    with book.page() as page:
        like = dict(page._run(sa.select(site).where(site.c.code == "TB07")).mappings().one())
        for n in range(people):
            page.save_site(**like | {"code": f"X{n:04}"})
            person_id = page.save_person(name=f"Mason {n}", short=f"m{n}", number=number(n))
            page.give_role(person_id, f"X{n:04}", "mason")
            if n % 2:
                page.link(person_id, "telegram", f"tg:{CHAT + n}", NOW)
    return book


def number(n):
    return f"+25473310{n:04}"


def said(n, people):
    """(person, text) of a message."""
    return n % people, TEXTS[n // people % len(TEXTS)]


async def brought(port, api, span, people):
    """A span of messages, those of a chat at once and those by SMS as fast as they are taken, until all are."""
    texts = []
    for n in span:
        person, text = said(n, people)
        if person % 2:
            api.say(CHAT + person, text)
        else:
            query = {"key": KEY, "id": f"m-{n}", "from": number(person), "to": "1", "text": text}
            texts.append(f"/sms/mo?{httpx.QueryParams(query)}")
    left = iter(texts)

    async def worker():
        connection = await asyncio.open_connection("127.0.0.1", port)
        for where in left:
            await one(connection, where)
        connection[1].close()

    await asyncio.gather(*(worker() for _ in range(CONNECTIONS)))
    while api.pending:
        await asyncio.sleep(0.05)
    api.forget()


def counted(book):
    """How many messages came, how many of them were answered, entries of logs, texts that went out and that wait."""
    with book.engine.connect() as connection:

        def count(table, *where):
            return connection.scalar(sa.select(sa.func.count()).select_from(table).where(*where))

        went = outgoing.c.state == "sent"
        answered = inbound.c.state == "answered"
        return count(inbound), count(inbound, answered), count(entry), count(outgoing, went), count(outgoing, ~went)


def main(count=100_000):
    people = -(-count // EACH)
    with tempfile.TemporaryDirectory() as folder, wire_ends.gateway() as gateway_url:
        url, api = f"sqlite:///{folder}/book.sqlite", BotApi().start()
        book = peopled(url, people)
        with Serving(url, gateway_url, entry=None, sms_rate=10, telegram_rate=25, telegram_token=TOKEN, telegram_api=api.url) as serving:
            serving.start()
            time.sleep(5)
            idle, since = resident_mb(serving.process.pid), time.monotonic()
            print(f"{'idle':>8} {idle:6.0f} MB", flush=True)
            for start in range(0, count, STEP):
                asyncio.run(brought(serving.port, api, range(start, min(start + STEP, count)), people))
                done, used = min(start + STEP, count), resident_mb(serving.process.pid)
                print(f"{done:8} {used:6.0f} MB, {done / (time.monotonic() - since):.0f} messages/s", flush=True)
            print("{} messages, {} answered, {} entries, {} texts sent, {} wait".format(*counted(book)))
            serving.end()
        api.stop()
        book.engine.dispose()
    return 0 if used < GOAL_MB else 1


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:2])))
