"""How fast the road is: run by hand, prints figures and ratios.

    .venv-test/bin/python -m tests.bench.road [messages]

Messages a second through all hops on SQLite with one durable commit each, beside a bare loop of the same stack
(SQLAlchemy Core, same file settings) that does one durable insert a message, in the same run; and the time of one
design with its bill beside the same arithmetic without a bill.
"""

import sys
import tempfile
import time
from datetime import UTC, datetime
from pathlib import Path

import sqlalchemy as sa

from bot import programme
from bot.channels import terminal
from bot.inbox import take
from bot.logbook import Book
from bot.reading.words import vocabulary
from bot.tables import inbound
from calc.bill import bill
from calc.designs import for_gas

DEMO = Path(__file__).parents[2] / "deploy" / "sunbird.toml"
NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)
TEXTS = (
    ("+254700000107", "pit 3.12 3.08 3.10 deep 1.83"),
    ("+254700000107", "mix base"),
    ("+254700000307", "buy cement"),
    ("+254700000107", "got 12 bags cement"),
    ("+254700000107", "soil b heap 1.6 m ladder 100cm watcher yes"),
    ("+254700000307", "size 4 cows 6 people"),
    ("+254700000200", "tb07 status"),
    ("+254700000107", "pit d 6.1 w 10.3 ft"),
)


def book_at(path):
    book = Book(f"sqlite:///{path}")
    book.upgrade()
    with book.page() as page:
        programme.store(page, *programme.read(DEMO), NOW)
        page.save_programme("bench", page.rules() | {"answers_per_hour": 100_000}, NOW)
    return book


def road(book, count, sites):
    words, taken = vocabulary(), []
    for n in range(count):
        number, text = TEXTS[n % len(TEXTS)]
        started = time.perf_counter()
        take(terminal.inbound(number, text, NOW, f"m-{n}"), book, words, NOW)
        taken.append(time.perf_counter() - started)
    return taken


def bare(book, count):
    started = time.perf_counter()
    for n in range(count):
        with book.engine.begin() as connection:
            row = {"channel": "bare", "wire_id": str(n), "sender": "+1", "text": TEXTS[n % len(TEXTS)][1], "received_at": NOW, "state": "x"}
            connection.execute(sa.insert(inbound).values(row))
    return count / (time.perf_counter() - started)


def timed(call, times):
    started = time.perf_counter()
    for _ in range(times):
        call()
    return 1000 * (time.perf_counter() - started) / times


def main(count=400):
    with tempfile.TemporaryDirectory() as folder:
        book = book_at(Path(folder) / "bench.sqlite")
        bare(book, 50)
        alone = bare_rate = bare(book_at(Path(folder) / "bare.sqlite"), count)
        taken = road(book, count, 1)
    rate, ordered = count / sum(taken), sorted(taken)
    print(f"road    {rate:8.0f} messages/s, median {1000 * ordered[count // 2]:.1f} ms, p99 {1000 * ordered[int(count * 0.99)]:.1f} ms")
    print(f"bare    {alone:8.0f} durable inserts/s of the same stack")
    print(f"ratio   {bare_rate / rate:8.1f} bare inserts in the time of one message")
    print(f"log     {1000 * sum(taken[-50:]) / 50:8.1f} ms a message at the end, {1000 * sum(taken[:50]) / 50:.1f} ms at the start")
    whole, only = timed(lambda: bill(for_gas(2.0)), 300), timed(lambda: for_gas(2.0), 300)
    print(f"design  {whole:8.2f} ms with its bill, {only:.2f} ms without ({whole / only:.1f} times)")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:2]))
