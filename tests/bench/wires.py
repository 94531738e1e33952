"""How fast the wires are: run by hand, prints figures, each beside its bare baseline of the same run.

    .venv-test/bin/python -m tests.bench.wires [sqlite|postgresql] [messages]

- an SMS to its queued reply through `pegline serve`, at 16 and 64 connections and at 100 messages a second, while texts go
  out at the pace of a real account; beside the same HTTP server with one durable insert a message in the same kind of thread;
- texts a second from the outbox to a gateway, beside a bare loop: one HTTP request and one durable update a text;
- from the start of the process to its first answer; resident memory before and after.
"""

import asyncio
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import httpx
import sqlalchemy as sa

from bot.logbook import Book
from bot.quiet import ANSWERS
from bot.tables import outgoing, site
from tests.bench import wire_ends
from tests.bench.kills import prepared
from tests.bench.road import NOW
from tests.faults.running import say
from tests.faults.serving import KEY, ROOT, Serving
from tests.postgres import Postgres, free_port

PACE = 25  # texts a second that a gateway account takes, while messages come in
HANG_S = 120  # for one message
SITES = 40  # as many masons, each with a log that grows
TEXTS = (
    "pit 3.12 3.08 3.10 deep 1.83",
    "mix base",
    "got 12 bags cement",
    "soil b heap 1.6 m ladder 100cm watcher yes",
    "status",
    "buy cement",
)


def peopled(url):
    """More sites like the first, a mason at each."""
    book = Book(prepared(url))
    with book.page() as page:
        like = dict(page._run(sa.select(site).where(site.c.code == "TB07")).mappings().one())
        for n in range(SITES):
            page.save_site(**like | {"code": f"XA{n:02}"})
            person_id = page.save_person(name=f"Mason {n}", short=f"m{n}", number=number(n))
            page.give_role(person_id, f"XA{n:02}", "mason")
    return book


def number(n):
    return f"+2547330000{n % SITES:02}"


def path(n, mark):
    query = {"key": KEY, "id": f"{mark}-{n}", "from": number(n), "to": "1", "text": TEXTS[n // SITES % len(TEXTS)]}
    return f"/sms/mo?{httpx.QueryParams(query)}"


def resident_mb(pid):
    status = Path(f"/proc/{pid}/status").read_text()
    return int(status.split("VmRSS:")[1].split()[0]) / 1024


def cpu_s(pid):
    """Seconds of CPU a process has had: no other load of the machine is in it."""
    fields = Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


# ---- in


async def one(connection, where):
    """One message until it is taken; a bot that says it has too many at once is asked again, as a gateway does."""
    async with asyncio.timeout(HANG_S):
        return await taken_after_s(connection, where)


async def taken_after_s(connection, where):
    since = time.perf_counter()
    while await asked(connection, where) != b"ACCEPTED":
        await asyncio.sleep(0.1)
    return time.perf_counter() - since


async def asked(connection, where):
    reader, writer = connection
    writer.write(f"GET {where} HTTP/1.1\r\nHost: bot\r\n\r\n".encode())
    head = await reader.readuntil(b"\r\n\r\n")
    return await reader.readexactly(int(head.lower().split(b"content-length: ")[1].split(b"\r\n")[0]))


async def at_once(port, connections, count, mark):
    """`count` messages as fast as they are taken; (messages a second, seconds of each)."""
    numbers, taken = iter(range(count)), []

    async def worker():
        connection = await asyncio.open_connection("127.0.0.1", port)
        for n in numbers:
            taken.append(await one(connection, path(n, mark)))
        connection[1].close()

    since = time.perf_counter()
    await asyncio.gather(*(worker() for _ in range(connections)))
    return count / (time.perf_counter() - since), taken


async def at_a_pace(port, a_second, count, mark):
    """`count` messages at their moments, whether or not those before are answered."""
    free, taken, since = [], [], time.perf_counter()

    async def send(n):
        connection = free.pop() if free else await asyncio.open_connection("127.0.0.1", port)
        taken.append(await one(connection, path(n, mark)))
        free.append(connection)

    sent = []
    for n in range(count):
        await asyncio.sleep(max(since + n / a_second - time.perf_counter(), 0))
        sent.append(asyncio.create_task(send(n)))
    await asyncio.gather(*sent)
    return count / (time.perf_counter() - since), taken


def shown(name, found):
    rate, taken = found
    ordered = sorted(1000 * seconds for seconds in taken)
    p50, p99 = (ordered[int(len(ordered) * share)] for share in (0.5, 0.99))
    print(f"{name:34} {rate:7.0f}/s   p50 {p50:6.1f} ms   p99 {p99:6.1f} ms", flush=True)
    return rate


def incoming(port, pid, name, count, mark):
    """The messages a second at 16 and 64 connections, and the milliseconds of CPU a message takes."""
    before = cpu_s(pid)
    rates = [shown(f"{name}, {n} connections", asyncio.run(at_once(port, n, count, f"{mark}{n}"))) for n in (16, 64)]
    cpu_ms = 1000 * (cpu_s(pid) - before) / (2 * count)
    shown(f"{name}, 100 a second", asyncio.run(at_a_pace(port, 100, min(count, 600), f"{mark}p")))
    return rates, cpu_ms


# ---- out


def outgoing_rate(url, gateway_url, count):
    """Texts a second from the outbox to the gateway, each to a person of its own."""
    book = Book(url)
    queued(book, gateway_url, count)
    with Serving(url, gateway_url, entry=None, sms_rate=1000) as serving:
        serving.start()
        while _sent(book) < count / 10:
            time.sleep(0.01)
        before, since = _sent(book), time.perf_counter()
        while (after := _sent(book)) < count:
            time.sleep(0.02)
        rate = (after - before) / (time.perf_counter() - since)
        serving.end()
    book.engine.dispose()
    return rate


def queued(book, gateway_url, count):
    from bot.engine import Handover
    from bot.office import Elsewhere

    book.post = Elsewhere(Handover(book).open())
    for n in range(count):
        say(book, "TB07 #2 PIT sent 05:30: Wide 3.12 m: within plan.", f"+2547440{n:05}", now=NOW.now(NOW.tzinfo), ref=f"o-{n}")
    book.post = None


def _sent(book):
    with book.engine.connect() as connection:
        here = (outgoing.c.state == "sent") & outgoing.c.wire_id.like("o-%")
        return connection.scalar(sa.select(sa.func.count()).select_from(outgoing).where(here))


def bare_out(book, gateway_url, count):
    async def spoken():
        async with httpx.AsyncClient() as client:
            since = time.perf_counter()
            for n in range(count):
                await client.get(gateway_url, params={"to": "1", "text": "x" * 60, "n": n})
                with book.page() as page:
                    page.mark([n], "sent", tries=1)
            return count / (time.perf_counter() - since)

    return asyncio.run(spoken())


# ---- all


def main(kind="sqlite", count=1500):
    count = int(count)
    if 2 * count + 600 > ANSWERS * SITES:
        sys.exit(f"at most {(ANSWERS * SITES - 600) // 2} messages: the bot is silent to who sends more than {ANSWERS} an hour")
    with tempfile.TemporaryDirectory() as folder, wire_ends.gateway() as gateway_url:
        if kind == "sqlite":
            return figures(lambda name: f"sqlite:///{folder}/{name}.sqlite", gateway_url, count)
        with Postgres(Path(folder) / "server", durable=True) as server:
            return figures(server.made, gateway_url, count)


def figures(made, gateway_url, count):
    url = made("road")
    book = peopled(url)
    bare_url = prepared(made("bare"))
    port, since = free_port(), time.perf_counter()
    bare = subprocess.Popen([sys.executable, "-m", "tests.bench.wire_ends", bare_url, str(port)], cwd=ROOT)
    wire_ends.answered(port)
    bare_start = time.perf_counter() - since
    bare_rates, bare_ms = incoming(port, bare.pid, "bare route, one durable insert", count, "b")
    bare.terminate()
    bare.wait()
    with Serving(url, gateway_url, entry=None, sms_rate=PACE) as serving:
        serving.start().end()  # the first start makes the engine's tables
        since = time.perf_counter()
        serving.start()
        start = time.perf_counter() - since
        asyncio.run(at_once(serving.port, 1, 1, "first"))
        first = time.perf_counter() - since
        time.sleep(2)
        idle = resident_mb(serving.process.pid)
        rates, cpu_ms = incoming(serving.port, serving.process.pid, "whole road, reply queued", count, "r")
        used = resident_mb(serving.process.pid)
        serving.end()
    for connections, whole, only in zip((16, 64), rates, bare_rates, strict=True):
        print(f"{f'ratio, {connections} connections':34} {100 * whole / only:7.0f} %")
    print(f"{'CPU a message':34} {cpu_ms:7.1f} ms with the delivery of some, bare {bare_ms:.1f} ms")
    print(f"{'start, bare':34} {bare_start:7.2f} s to its first answer")
    print(f"{'start, pegline serve':34} {start:7.2f} s to its first answer, {first:.2f} s to the first message taken")
    print(f"{'memory, pegline serve':34} {idle:7.0f} MB idle, {used:.0f} MB after {2 * count + min(count, 600)} messages")
    print(f"{'out, bare loop':34} {bare_out(book, gateway_url, min(count, 500)):7.0f}/s")
    print(f"{'out, pegline serve':34} {outgoing_rate(url, gateway_url, count):7.0f}/s")
    book.engine.dispose()


if __name__ == "__main__":
    main(*sys.argv[1:])
