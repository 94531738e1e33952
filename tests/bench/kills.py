"""The long version of the kill test: run by hand, prints what the books say.

    .venv-test/bin/python -m tests.bench.kills [kills] [messages] [seed]

On each database the serving bot is killed so many times at random moments while messages come in; then a short run of
the same with SIGTERM. The same audit as in tests/faults/test_kills.py.
"""

import sys
import tempfile
import time
from pathlib import Path
from signal import SIGKILL, SIGTERM

from bot import programme
from bot.logbook import Book
from tests.bench.road import DEMO, NOW
from tests.faults.serving import ended
from tests.postgres import Postgres


def prepared(url):
    book = Book(url)
    book.upgrade()
    with book.page() as page:
        programme.store(page, *programme.read(DEMO), NOW)
    book.engine.dispose()
    return url


def told(name, url, signs, count, seed):
    since = time.monotonic()
    # messages are spread over the whole run: a start and a kill take about three seconds
    (lost, wrong, mixed, doubled), ends = ended(prepared(url), signs, count, max(count / (3.0 * len(signs)), 1.0), seed, (0.1, 2.0))
    air, slowest = sum(each[3] for each in ends), max(each[2] for each in ends)
    print(
        f"{name:10} {len(signs):4} x {signs[0].name} {count:5} messages: lost {len(lost)}, entries wrong {len(wrong)}, "
        f"recipients out of order {len(mixed)}, sent twice {doubled} of {air} in the air; slowest end {slowest:.1f} s; "
        f"{time.monotonic() - since:.0f} s",
        flush=True,
    )
    return not (lost or wrong or mixed) and doubled <= air


def main(kills=100, messages=500, seed=1):
    with tempfile.TemporaryDirectory() as folder, Postgres(Path(folder) / "server", durable=True) as server:
        held = [
            told("sqlite", f"sqlite:///{folder}/kills.sqlite", [SIGKILL] * kills, messages, seed),
            told("sqlite", f"sqlite:///{folder}/stops.sqlite", [SIGTERM] * (kills // 10), messages // 5, seed),
            told("postgresql", server.made("kills"), [SIGKILL] * kills, messages, seed),
            told("postgresql", server.made("stops"), [SIGTERM] * (kills // 10), messages // 5, seed),
        ]
    return 0 if all(held) else 1


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
