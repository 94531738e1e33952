"""`pegline serve` as a process that is killed and started again, and a gateway's side that brings messages until they are taken."""

import os
import random
import signal
import subprocess
import sys
import tempfile
import threading
import time
from http.client import HTTPException
from pathlib import Path
from urllib.parse import urlencode
from urllib.request import urlopen

import sqlalchemy as sa

from bot.logbook import Book
from bot.tables import entry, inbound, outgoing
from tests import warm
from tests.faults.gateway import Gateway
from tests.postgres import free_port
from tests.wires.running import LONG_S

ROOT = Path(__file__).parents[2]
KEY = "shared"
MASON, FARMER, SUPERVISOR = "+254700000107", "+254700000307", "+254700000200"
TEXTS = (  # sender, text, whether it makes an entry of the log
    (MASON, "base 10.4 11 11 cm", True),
    (FARMER, "size 4 cows 6 people", True),
    (MASON, "got 12 bags cement", True),
    (SUPERVISOR, "tb07 status", False),
    (FARMER, "buy cement", False),
    (MASON, "pit deep 1.83", True),  # no width: of a width one more point may be asked
)


class Serving:
    """One `pegline serve`, on the same port again at each start, forked; `entry` is another way in, None the command as it is typed."""

    def __init__(self, url, gateway_url, port=None, entry=warm.ENTRY, **settings):
        self.port, self._entry = port or free_port(), entry
        self._env = {name: value for name, value in os.environ.items() if not name.startswith("PEGLINE_")} | {
            "PYTHONPATH": str(ROOT),
            "PEGLINE_DATABASE_URL": url,
            "PEGLINE_PORT": str(self.port),
            "PEGLINE_SMS_URL": gateway_url,
            "PEGLINE_SMS_KEY": KEY,
            "PEGLINE_SMS_RATE": "500",
            "PEGLINE_SMS_ORDER_S": "0",  # this gateway sends no reports
            **{f"PEGLINE_{name.upper()}": str(value) for name, value in settings.items()},
        }
        self.process, self.starts = None, 0

    def run(self, *command):
        """Run one command of the command line beside it."""
        return warm.run(command, self._env)

    def start(self, wait=True):
        self.starts += 1
        self._said = tempfile.TemporaryFile()  # noqa: SIM115 closed at its end
        self.process = self._begun()
        if wait:
            self.wait()
        return self

    def _begun(self):
        if self._entry:
            return warm.Child(["serve"], self._env, out=self._said, entry=self._entry)
        return subprocess.Popen([sys.executable, "-m", "bot", "serve"], env=self._env, cwd=ROOT, stdout=self._said, stderr=self._said)

    def wait(self, seconds=LONG_S):
        """Until it answers."""
        end = time.monotonic() + seconds
        while not self.alive():
            assert self.process.poll() is None, self._read()
            assert time.monotonic() < end, "it does not start"
            time.sleep(0.02)

    def alive(self):
        try:
            with urlopen(f"http://127.0.0.1:{self.port}/healthz", timeout=2) as answer:
                return answer.status == 200
        except OSError:
            return False

    def end(self, sign=signal.SIGTERM, seconds=LONG_S):
        """End it; (exit status, seconds it took, what it said)."""
        since = time.monotonic()
        self.process.send_signal(sign)
        return self.process.wait(seconds), time.monotonic() - since, self._read()

    def _read(self):
        """What it said; once, for it has ended."""
        with self._said as said:
            said.seek(0)
            return said.read().decode()

    def __enter__(self):
        return self

    def __exit__(self, *fault):
        if self.process and self.process.poll() is None:
            self.end(signal.SIGKILL)


def bring(port, wire_id, number, text, timeout=LONG_S, **more):
    """One text to the bot's address; True where it said that it has it."""
    query = urlencode({"key": KEY, "id": wire_id, "from": number, "to": "10100", "text": text, "charset": "UTF-8", **more})
    try:
        with urlopen(f"http://127.0.0.1:{port}/sms/mo?{query}", timeout=timeout) as answer:
            return answer.read() == b"ACCEPTED"
    except (HTTPException, OSError):  # killed before it answered, or in the middle of its answer
        return False


class Traffic:
    """Messages of several people, each person's in order; each is brought until it is taken, and some once more."""

    def __init__(self, port, count, a_second):
        self.port, self.count, self._pause = port, count, 1 / a_second
        self.done = 0
        self._thread = threading.Thread(target=self._run, daemon=True)

    def _run(self):
        for n in range(self.count):
            number, text, _ = TEXTS[n % len(TEXTS)]
            while not bring(self.port, f"m-{n}", number, text):
                time.sleep(0.05)
            if n % 7 == 3:
                bring(self.port, f"m-{n}", number, text)
            self.done = n + 1
            time.sleep(self._pause)

    def start(self):
        self._thread.start()
        return self

    def join(self, seconds):
        self._thread.join(seconds)
        assert not self._thread.is_alive(), f"{self.done} of {self.count} taken"


def ended(url, signs, count, a_second, seed, gap_s=(0.2, 1.2), told=lambda at: None):
    """End a serving process under traffic by each of the signals, start it again each time, and look at the books.

    Returns what `audit` found, and of each end (signal, exit status, seconds it took, texts that were in the air).
    `told` hears after each end how many there were.
    """
    chance, book, ends, caught = random.Random(seed), Book(url), [], {}
    with Gateway(slow_s=0.03, refuse=0.05, seed=seed) as gateway, Serving(url, gateway.url) as serving:
        traffic = Traffic(serving.start().port, count, a_second).start()
        for sign in signs:
            time.sleep(chance.uniform(*gap_s))
            status, seconds, _ = serving.end(sign)
            times, left = gateway.times(), waiting(book)
            air = [each for each in left if times[each] > caught.get(each, 0)]  # one that waits since an earlier end is not new
            caught.update({each: times[each] for each in air})
            ends.append((sign, status, seconds, len(air)))
            serving.start()
            told(len(ends))
        traffic.join(120 + 4 * count)
        drained(book)
        serving.end()
        found = audit(book, gateway, count)
    book.engine.dispose()
    return found, ends


def waiting(book):
    """The ids of the texts that are not over yet."""
    with book.engine.connect() as connection:
        return set(connection.scalars(sa.select(outgoing.c.id).where(outgoing.c.state.in_(("queued", "trying", "unknown")))))


def drained(book, seconds=LONG_S):
    """Wait until no text waits."""
    end = time.monotonic() + seconds
    while left := waiting(book):
        assert time.monotonic() < end, f"{len(left)} texts wait"
        time.sleep(0.1)


def audit(book, gateway, count):
    """The books after it all: (lost, entries that are double or missing, out of order, sent more than once)."""
    with book.engine.connect() as connection:
        came = connection.execute(sa.select(inbound.c.wire_id, inbound.c.state)).all()
        wrote = connection.scalars(sa.select(entry.c.wire_id)).all()
        promised = connection.execute(sa.select(outgoing.c.id, outgoing.c.number, outgoing.c.wire_id).order_by(outgoing.c.id)).all()
    assert sorted(wire_id for wire_id, _ in came) == sorted(f"m-{n}" for n in range(count))
    assert {state for _, state in came} == {"answered"}
    times = gateway.times()
    answered = {(row.wire_id, row.number) for row in promised}
    lost = [row.id for row in promised if row.id not in times]
    lost += [n for n in range(count) if (f"m-{n}", TEXTS[n % len(TEXTS)][0]) not in answered]
    entered = {f"m-{n}" for n in range(count) if TEXTS[n % len(TEXTS)][2]}
    wrong = [wire_id for wire_id in {*wrote, *entered} if wrote.count(wire_id) != (wire_id in entered)]
    mixed = [number for number in gateway.numbers() if (ids := gateway.sequence(number)) != sorted(ids)]
    return lost, wrong, mixed, sum(times.values()) - len(times)
