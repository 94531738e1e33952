"""The long version of the kill test: run by hand, prints what the books say.

    .venv-test/bin/python -m tests.bench.kills [kills] [messages] [seed]

On each database the serving bot is killed so many times at random moments while messages come in; then a short run of
the same with SIGTERM. The same audit as in tests/faults/test_kills.py. A start, an end or a text that does not come within two
minutes ends the run with what was waited for. Last, a book on SQLite that others hold for longer than the bot waits.
"""

import sqlite3
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path
from signal import SIGKILL, SIGTERM

from bot import programme
from bot.logbook import BUSY_S, Book
from tests.bench.road import DEMO, NOW
from tests.faults.gateway import Gateway
from tests.faults.serving import MASON, Serving, bring, drained, ended
from tests.postgres import Postgres


def prepared(url):
    book = Book(url)
    book.upgrade()
    with book.page() as page:
        programme.store(page, *programme.read(DEMO), NOW)
        page.save_programme("kills", page.rules() | {"answers_per_hour": 100_000}, NOW)  # three people write it all
    book.engine.dispose()
    return url


def told(name, url, signs, count, seed):
    since = time.monotonic()
    # messages are spread over the whole run: a start and a kill take about two seconds
    pace = max(count / (2.0 * len(signs)), 1.0)

    def progress(at):
        print(f"\r{name:10} {at} of {len(signs)} x {signs[0].name}, {time.monotonic() - since:.0f} s ", end="", flush=True)

    (lost, wrong, mixed, doubled), ends = ended(prepared(url), signs, count, pace, seed, (0.1, 2.0), progress)
    air, slowest = sum(each[3] for each in ends), max(each[2] for each in ends)
    print(
        f"\r{name:10} {len(signs):4} x {signs[0].name} {count:5} messages: lost {len(lost)}, entries wrong {len(wrong)}, "
        f"recipients out of order {len(mixed)}, sent twice {doubled} of {air} in the air; slowest end {slowest:.1f} s; "
        f"{time.monotonic() - since:.0f} s",
        flush=True,
    )
    return not (lost or wrong or mixed) and doubled <= air


def locked(url, path):
    """What comes while others hold the book for less than the bot waits, and for more; True where both were taken once."""
    book, said = Book(prepared(url)), []
    with Gateway() as gateway, Serving(url, gateway.url) as serving:
        serving.start()
        for n, held_s in enumerate((BUSY_S - 5, BUSY_S + 5)):
            with closing(sqlite3.connect(path, isolation_level=None)) as lock, ThreadPoolExecutor(1) as hand:
                lock.execute("BEGIN IMMEDIATE")
                asked = hand.submit(bring, serving.port, f"w-{n}", MASON, "got 12 bags cement")
                time.sleep(held_s)
                lock.execute("ROLLBACK")
                said.append(asked.result())
            assert bring(serving.port, f"w-{n}", MASON, "got 12 bags cement")
        drained(book)
        serving.end()
        once = len(gateway.sequence(MASON)) == sum(gateway.times().values()) == 2
    book.engine.dispose()
    print(f"sqlite     locked {BUSY_S - 5} s: taken {said[0]}; {BUSY_S + 5} s: taken {said[1]}, later {once}")
    return said == [True, False] and once


def main(kills=100, messages=500, seed=1):
    with tempfile.TemporaryDirectory() as folder, Postgres(Path(folder) / "server", durable=True) as server:
        held = [
            told("sqlite", f"sqlite:///{folder}/kills.sqlite", [SIGKILL] * kills, messages, seed),
            told("sqlite", f"sqlite:///{folder}/stops.sqlite", [SIGTERM] * max(kills // 10, 1), messages // 5, seed),
            told("postgresql", server.made("kills"), [SIGKILL] * kills, messages, seed),
            told("postgresql", server.made("stops"), [SIGTERM] * max(kills // 10, 1), messages // 5, seed),
            locked(f"sqlite:///{folder}/locked.sqlite", f"{folder}/locked.sqlite"),
        ]
    return 0 if all(held) else 1


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
