"""A month of many sites under one supervisor, with a deputy and a head: who was told what, how often, and what became of it.

    python -m tests.bench.month [sites] [days]

Masons, supervisor and deputy are played by a seeded chance; messages go down the real road, timers ring through the real
code at their own moments, and only the clock is moved. Prints the counts and exits with 1 where one of them is broken.
"""

import heapq
import random
import re
import sys
import tempfile
import time
import tomllib
from collections import Counter
from datetime import datetime, timedelta
from itertools import count
from pathlib import Path
from zoneinfo import ZoneInfo

import sqlalchemy as sa

from bot import programme, watch
from bot.channels import terminal
from bot.duty import Duty
from bot.inbox import take
from bot.logbook import Book
from bot.reading.words import vocabulary
from bot.tables import outgoing, timer
from bot.timers import ring_due
from tests.conftest import DEMO

ZONE = ZoneInfo("Africa/Nairobi")
START = datetime(2026, 3, 2, 5, 0, tzinfo=ZONE)
DIGEST = re.compile(r"\w{3} \d\d \w{3} \d\d:\d\d: \d+ sites, ")
LIFE = re.compile(r"ALERT [A-Z]{2}\d\d (#\d+ )?[^.]*\b(N2|G1|I3|E7|X4)\b")
CASE = re.compile(r"ALERT ([A-Z]{2}\d\d)\b")
OPEN = re.compile(r"([A-Z]{2}\d\d) #(\d+) ")
HELD = re.compile(r"([A-Z]{2}\d\d) (pit|dome|plaster|water test|gas test|handover)\b")
REMINDERS = {
    "keep wet today": "keep wet", "again at": "second reading", "the wait before": "wait over", "nothing heard": "quiet site",
}  # fmt: skip
SUPERVISOR, DEPUTY, HEAD = (f"+2547000002{end:02d}" for end in range(3))
WORKS = (  # (day, hour, text) of a site that goes as it should
    (0, 9, "pit 3.12 3.08 3.10 deep 1.83 soil B"),
    (1, 8, "pit done"),
    (2, 10, "base 10.5 11 10.8 cm"),
    (2, 16, "base done"),
    *((day, 9, "wet today") for day in range(3, 9)),
    (8, 11, "wall high 110 110.5 110 cm"),
    (8, 15, "wall done"),
    *((day, 9, "wet today") for day in range(9, 17)),
    (17, 11, "dome string 181 181.5 181 cm high 55 cm"),
    (17, 15, "dome done"),
    *((day, 9, "wet today") for day in range(18, 28)),
)
WATER = (
    (0, 9, "water filled to zero line"),
    (1, 9, "water fell 1.2 cm in 24 hours"),
    (2, 9, "water fell 1 cm in 24 hours"),
    (2, 11, "water test done"),
)
STRAY = (  # (chance a day at a site, text)
    (0.004, "smell of gas in the pit"),
    (0.004, "crack in the side of the pit"),
    (0.01, "undo"),
    (0.03, "got 12 bag cement"),
    (0.02, "used 9 bag cement"),
    (0.01, "pit 3.10 3.10 3.10 m"),
)


def code(number):
    return f"{chr(65 + number // 100)}{chr(65 + number // 10 % 10)}{number % 10:02d}"


def tested(site):
    """One site in ten stands at its water test when the month begins."""
    return site.endswith("05")


def made(sites):
    """The programme of so many sites of the demo's drawing, three to a mason."""
    told = tomllib.loads(DEMO.read_text())
    told["site"] = [
        {
            "code": code(n),
            "name": f"Farm {n}",
            "stage": "water_test" if tested(code(n)) else "pit",
            "plan": {"drawing": "sunbird 7"},
            "released_by": "Asha",
        }
        for n in range(sites)
    ]
    masons = [
        {
            "short": f"m{n}",
            "name": f"Mason{n}",
            "number": f"+2547110{n:05d}",
            "roles": [f"mason {code(s)}" for s in range(n, sites, -(-sites // 3))],
        }
        for n in range(-(-sites // 3))
    ]
    office = [
        {"short": role, "name": name, "number": number, "roles": [f"{role} all"]}
        for role, name, number in (("supervisor", "Asha", SUPERVISOR), ("deputy", "Daudi", DEPUTY), ("head", "Neema", HEAD))
    ]
    told["person"] = masons + office
    return programme.Programme.model_validate(told)


class Month:
    """The book, the queue of messages to come, and the people who read their texts."""

    def __init__(self, folder, sites, days, seed=11):
        self.book, self.chance = Book(f"sqlite:///{folder}/month.sqlite"), random.Random(seed)
        self.book.upgrade()
        told = made(sites)
        with self.book.page() as page:
            programme.store(page, told, "month", START)
            watch.begin(page, START)
        self.end, self.queue, self.order, self.seen = START + timedelta(days=days), [], count(), 0
        self.masons = {role[-4:]: row.number for row in told.person for role in row.roles if role.startswith("mason")}
        self.sites, self.sent = [row.code for row in told.site], Counter()
        for site in self.sites:
            self._works(site, days)
        for day in range(days):
            for at in ("06:50", "18:20"):
                self._push(START + timedelta(days=day, hours=int(at[:2]) - 5, minutes=int(at[3:])), SUPERVISOR, "list hold")
                self._push(START + timedelta(days=day, hours=int(at[:2]) - 5, minutes=int(at[3:]) + 2), SUPERVISOR, "list fail")

    def _push(self, at, number, text):
        if at < self.end:
            heapq.heappush(self.queue, (at, next(self.order), number, text))

    def _works(self, site, days):
        begin, roll = self.chance.uniform(0, 0.8 * days), self.chance.random
        gone = self.chance.uniform(2, 25) if roll() < 0.1 else None  # a mason who is not heard of any more
        for day, hour, text in WATER if tested(site) else WORKS:
            at = START + timedelta(days=int(begin) + day, hours=hour - 5, minutes=self.chance.uniform(0, 50))
            if (gone is not None and day > gone) or (text == "wet today" and roll() < 0.15):
                continue
            if roll() < 0.05 and "pit 3.12" in text:  # too wide, and again
                self._push(at + timedelta(minutes=20), self.masons[site], f"{site} pit 3.40 3.38 3.39 m")
                text = "pit 3.40 3.38 3.41 deep 1.83 soil B"
            self._push(at, self.masons[site], f"{site} {text}")
        for day in range(days):
            for chance, text in STRAY:
                if roll() < chance and begin <= day:
                    at = START + timedelta(days=day, hours=self.chance.uniform(2, 16))
                    for again in range(3 if text == "undo" else 1):
                        self._push(at + timedelta(minutes=again), self.masons[site], f"{site} {text}")
        if roll() < 0.02:
            other = self.chance.choice(self.sites)
            self._push(START + timedelta(days=self.chance.uniform(0, days)), self.masons[other], f"{site} base 10 11 10 cm")

    def run(self):
        """Play it to the end."""
        while self.queue:
            at, number, sender, text = heapq.heappop(self.queue)
            ring_due(self.book, watch.RINGS, at)
            take(terminal.inbound(sender, text, at, f"m-{number}"), self.book, vocabulary(), at)
            self.sent[sender] += 1
            self._read(at)
        ring_due(self.book, watch.RINGS, self.end)
        return self

    def rows(self, after=0):
        with self.book.engine.connect() as connection:
            return connection.execute(sa.select(outgoing).where(outgoing.c.id > after).order_by(outgoing.c.id)).mappings().all()

    def _read(self, now):
        """The office reads what came and answers some of it, later."""
        for row in self.rows(self.seen):
            self.seen = row["id"]
            if row["number"] not in (SUPERVISOR, DEPUTY, HEAD):
                continue
            if row["text"].startswith("LIST"):
                self._listed(row["text"], now)
            elif (case := CASE.search(row["text"])) and self.chance.random() < {SUPERVISOR: 0.6, DEPUTY: 0.8, HEAD: 0.95}[row["number"]]:
                at = now + timedelta(minutes=self.chance.expovariate(1 / 90))
                sides = "To sign: release" in row["text"] and self.chance.random() < 0.7
                self._push(at, row["number"], f"release {case[1]} support 1.83 m" if sides else f"seen {case[1]}")

    def _listed(self, text, now):
        for site, stage in HELD.findall(text):
            if self.chance.random() < 0.6:
                self._push(now + timedelta(minutes=self.chance.uniform(2, 120)), SUPERVISOR, f"release {site} {stage}")
        for site, entry in OPEN.findall(text):
            if self.chance.random() < 0.5:
                self._push(now + timedelta(minutes=self.chance.uniform(10, 200)), SUPERVISOR, f"closed {site} #{entry} called, mended")
        following = re.search(r"Next page: (list \w* ?\d+)", text)
        if following:
            self._push(now + timedelta(minutes=1), SUPERVISOR, following[1])


# ---- what it came to


def local(moment):
    return moment.astimezone(ZONE)


def unasked(month):
    """The texts to the office that answer none of its own messages and are no digest."""
    own = {number: number for number in (SUPERVISOR, DEPUTY, HEAD)}
    with month.book.engine.connect() as connection:
        asked = {row.wire_id: row.sender for row in connection.execute(sa.text("SELECT wire_id, sender FROM inbound"))}
    rows = [row for row in month.rows() if row["number"] in own and asked.get(row["wire_id"]) != row["number"]]
    return [row for row in rows if not DIGEST.match(row["text"])]


def cases(month):
    with month.book.engine.connect() as connection:
        return connection.execute(sa.select(timer).where(timer.c.kind == "case")).mappings().all()


def counts(month):
    """Everything that is printed and checked."""
    duty, rows, told = Duty(), month.rows(), unasked(month)
    at_digest = set(duty.digest_at)
    counted = [row for row in told if not (local(row["due"]).strftime("%H:%M") in at_digest and "ALERT" not in row["text"])]
    interrupts = Counter((row["number"], local(row["due"]).date()) for row in counted if not LIFE.search(row["text"]))
    lives = Counter((row["number"], local(row["due"]).date()) for row in counted if LIFE.search(row["text"]))
    digests = [row for row in rows if DIGEST.match(row["text"])]
    reminded = Counter(
        (row["number"], row["text"], local(row["due"]).date()) for row in rows if any(sign in row["text"] for sign in REMINDERS)
    )
    every = cases(month)
    grace = timedelta(hours=duty.repeat_h, minutes=duty.deputy_min) + timedelta(hours=10)  # and a night between
    left = [row for row in every if row["state"] == "armed"]
    slow = [row for row in left if row["fields"]["step"] < 2 and not row["fields"]["seen"]
            and month.end - datetime.fromisoformat(row["fields"]["at"]) > grace]  # fmt: skip
    return {
        "sites": len(month.sites),
        "messages in": sum(month.sent.values()),
        "texts out": len(rows),
        "alarms opened": len(every),
        "alarms closed": sum(row["state"] == "cancelled" for row in every),
        "alarms passed to the deputy or on": sum(row["fields"]["step"] >= 2 for row in every),
        "alarms open at the end, seen or passed on": sum(bool(row["fields"]["seen"]) or row["fields"]["step"] >= 2 for row in left),
        "alarms open at the end, not due yet": sum(not row["fields"]["seen"] and row["fields"]["step"] < 2 for row in left) - len(slow),
        "alarms nobody has and nobody was passed": len(slow),
        "most unasked texts to one person in a day": max(interrupts.values(), default=0),
        "mean of them to the supervisor": round(sum(n for (who, _), n in interrupts.items() if who == SUPERVISOR) / days_of(month), 1),
        "most of a danger to life, beside them": max(lives.values(), default=0),
        "texts that fold others": sum("no text for each" in row["text"] for row in told),
        "digests": len(digests),
        "most segments of a digest": max(row["segments"] for row in digests),
        "most segments of any text": max(row["segments"] for row in rows),
        "holds released": _entries(month, "release"),
        **{name: sum(sign in row["text"] for row in rows) for sign, name in REMINDERS.items()},
        "reminders sent twice": sum(n > 1 for n in reminded.values()),
        "unasked by night without a STOP": sum(_by_night(row) for row in [*told, *digests] if "STOP" not in row["text"]),
        "days without a digest in the morning": days_of(month)
        - len({local(r["due"]).date() for r in digests if local(r["due"]).hour < 12}),
    }


def days_of(month):
    return (month.end - START).days


def _by_night(row):
    return not 6 <= local(row["due"]).hour < 20 and "asks to go in" not in row["text"]


def _entries(month, kind):
    with month.book.engine.connect() as connection:
        return connection.execute(sa.text("SELECT count(*) FROM entry WHERE kind = :kind"), {"kind": kind}).scalar()


SHARED = "/dev/shm" if Path("/dev/shm").is_dir() else None  # the disk is not what is looked at
LIMITS = {  # what must not be more
    "alarms nobody has and nobody was passed": 0,
    "most unasked texts to one person in a day": Duty().interrupts_a_day,
    "most segments of a digest": 2,
    "most segments of any text": 2,
    "reminders sent twice": 0,
    "unasked by night without a STOP": 0,
    "days without a digest in the morning": 0,
}


def main(sites=300, days=30):
    begun = time.perf_counter()
    with tempfile.TemporaryDirectory(dir=SHARED) as folder:
        found = counts(Month(folder, sites, days).run())
    for name, value in found.items():
        print(f"{name:45} {value}{'   over ' + str(LIMITS[name]) if value > LIMITS.get(name, value) else ''}")
    print(f"{'seconds':45} {time.perf_counter() - begun:.0f}")
    return any(found[name] > most for name, most in LIMITS.items())


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
