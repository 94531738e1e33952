"""One plant built by people of whom some write SMS and some Telegram, while bot and gateway are killed; and its books.

The conversation is a written one. What must come to whom, and the log in the end, are those of an undisturbed run of it in
the terminal; only the time of day may differ.
"""

import json
import random
import re
import threading
import time
from collections import Counter
from functools import partial
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
import sqlalchemy as sa

from bot import programme, talk
from bot.logbook import Book
from bot.reading.words import vocabulary
from bot.tables import inbound, outgoing
from tests import warm
from tests.conftest import DEMO, NOON, ROOT
from tests.wires.botapi import TOKEN, BotApi
from tests.wires.centre import Centre
from tests.wires.road import QUICK
from tests.wires.running import Gateway, Process, Serving, free_ports, until

TALK, SITE, ZONE = ROOT / "tests" / "talks" / "build.talk", "KV12", ZoneInfo("Africa/Nairobi")
CHATS = {"supervisor": 8000200, "njoroge": 8000312}  # who has Telegram as well
PROVEN = ("release", "refuse", "fix")
JUMP_S, PATIENCE_S = 1800, 200
OPEN = ("queued", "trying", "unknown")


def alike(text):
    """A text without its times of day, which differ from run to run."""
    return re.sub(r"\b\d\d:\d\d\b", "hh:mm", text)


def written(path, folder, most=None):
    """The undisturbed run, of all or of so many messages: [(name, text, moment, [(name, text out), ...]), ...], the log in the end."""
    book, lines, sent = Book(f"sqlite:///{folder}/terminal.sqlite"), [], talk._sent
    book.upgrade()
    made, digest = programme.read(DEMO)
    with book.page() as page:
        programme.store(page, made, digest, NOON)
    names = {row.number: row.short for row in made.person}

    def heard(number, text, book, words, now, wire_id):
        went = sent(number, text, book, words, now, wire_id)
        lines.append((names[number], text, now, [(names[out.to], alike(out.text)) for out in went]))
        return went

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(talk, "_sent", heard)
        numbers = {name: number for number, name in names.items()}
        faults = [fault for _, fault in talk.run(_beginning(path.read_text(), most), book, vocabulary(), numbers, ZONE.key) if fault]
    assert not faults
    log = entries(book)
    book.engine.dispose()
    return lines, log, numbers


def _beginning(script, most):
    """The script up to the answers to its message of this number."""
    starts = [found.start() for found in re.finditer(r"^\w+ > ", script, re.M)]
    return script if most is None or most >= len(starts) else script[: starts[most]]


def entries(book):
    """The log of the site, without what hangs on the minute."""
    with book.page(write=False) as page:
        log = page.site(SITE).log
    return [(each.number, each.name, each.kind, _fields(each.fields), each.verdict, each.refers) for each in log]


def _fields(fields):
    day = {name: value[:10] for name, value in fields.items() if name in ("until", "begun")}
    hours = {name: round(value, 1) for name, value in fields.items() if name.endswith("_h") and isinstance(value, float)}
    return json.dumps(fields | day | hours, sort_keys=True)


class Bot(Serving):
    """pegline serve on both wires, with a clock that can be moved."""

    def __init__(self, folder, port, sms_url, api_url, url):
        self.apart = folder / "apart"
        more = {"DATABASE_URL": url, "TELEGRAM_TOKEN": TOKEN, "TELEGRAM_API": api_url, "SMS_KEY": "shared-key", "TELEGRAM_RATE": "100"}
        named = {f"PEGLINE_{name}": value for name, value in more.items()}
        super().__init__(folder, port, sms_url, **named, **QUICK, CLOCK_APART=str(self.apart))

    def start(self):
        begun = partial(warm.Child, ["serve"], self.env, entry="tests.wires.serve_at:main")
        self.process = Process(lambda out: begun(out=out), self.folder / "bot.out")
        until(self._ready, lambda: f"bot\n{Path(self.process.log).read_text()[-3000:]}")
        return self

    def at(self, moment):
        """Let it be this moment now."""
        new = self.apart.with_suffix(".new")
        new.write_text(str(moment.timestamp() - time.time()))
        new.rename(self.apart)


class Build:
    """The people, their phones, both networks, the gateway, the bot; `held` plays the conversation and looks at the books."""

    def __init__(self, folder, url, seed, most=None):
        self.chance, self.folder, self.url = random.Random(seed), folder, url
        self.lines, self.log, self.numbers = written(TALK, folder, most)
        self.said, self.doubtful, self.kills, self.problem = Counter(), 0, Counter(), None
        self.book, self.done = Book(url), threading.Event()
        bot_port, centre_port = free_ports(2)
        self.api, self.centre = BotApi(), Centre(centre_port)
        carrier = {"GATEWAY_HOST": "127.0.0.1", "GATEWAY_PORT": str(centre_port), "GATEWAY_USER": "p", "GATEWAY_PASSWORD": "p"}
        self.gateway = Gateway(folder, "aggregator", bot_port, **carrier)
        self.api.start()
        self.bot = Bot(folder, bot_port, self.gateway.url, self.api.url, url)

    def __enter__(self):
        self.bot.at(self.lines[0][2])
        self.centre.start()
        self.gateway.start()
        self.bot.start()
        return self

    def __exit__(self, *fault):
        self.status = self.bot.stop()
        self.gateway.stop()
        self.centre.stop()
        self.api.stop()
        self.book.engine.dispose()

    # ---- people
    def say(self, name, text, chat=False):
        self.said[(f"tg:{CHATS[name]}" if chat else self.numbers[name], text)] += 1
        if chat:
            self.api.say(CHATS[name], text)
        else:
            self.centre.say(self.numbers[name], text)

    def heard(self, name):
        """All that came to somebody, by SMS and by Telegram, each in order."""
        return [*self.centre.heard(self.numbers[name])], self.api.texts(CHATS.get(name))

    def comes(self, name, pattern, before):
        """Wait until a text like this comes to somebody, after those that came before; return what is in its brackets."""

        def look():
            new = (text for had, all_ in zip(before, self.heard(name), strict=True) for text in all_[had:])
            return next((found for text in new if (found := re.search(pattern, text))), None)

        return until(look, lambda: f"{pattern} to {name}: {self.heard(name)}", PATIENCE_S)[1]

    def marks(self, name):
        return tuple(map(len, self.heard(name)))

    def link(self, name):
        """Somebody known by his number takes his Telegram account in, by the code that his number gets."""
        before = self.marks(name)
        self.say(name, "link")
        code = self.comes(name, r"Your code: (\d{6})", before)
        self.say(name, f"link {code}", chat=True)
        self.comes(name, r"(Linked: you are)", before)
        self.comes(name, r"(is you too)", before)

    def step(self, name, text, wanted):
        """One line of the conversation and all that must come for it; a decision by SMS once its code has come back."""
        chat = name in CHATS and self.chance.random() < 0.7
        people = {who for who, _ in wanted} | {name}
        before = {who: self.marks(who) for who in people}
        self.trouble()
        self.say(name, text, chat)
        decided = any(who == name and not refused(said) for who, said in wanted)
        if name == "supervisor" and not chat and text.split()[0] in PROVEN and decided:
            code = self.comes(name, r"confirm (\d{6})", before[name])
            self.say(name, f"confirm {code}")

        def missing():
            come = {who: {alike(t) for had, all_ in zip(before[who], self.heard(who), strict=True) for t in all_[had:]} for who in people}
            return [(who, said) for who, said in wanted if said not in come[who]]

        until(lambda: self.problem or not missing(), lambda: f"{name} > {text}: {missing()}", PATIENCE_S)
        assert self.problem is None, self.problem

    def trouble(self):
        """Now and then Telegram asks for patience, fails, or takes a text and says nothing."""
        kind = self.chance.choice((None, None, None, "slow", "fails", "silent"))
        if kind == "slow":
            self.api.fault(429, times=1, retry_after=1)
        elif kind == "fails":
            self.api.fault(502, times=1)
        elif kind == "silent":
            self.api.fault(502, times=1, after=True)
            self.doubtful += 1

    # ---- kills
    def killing(self, kills, gap_s):
        """Kill what is named, one after the other at random moments, and start it again; in a thread of its own."""

        def run():
            try:
                for what in kills:
                    if self.done.wait(self.chance_of_kills.uniform(*gap_s)):
                        return
                    self.doubtful += self.in_air(what)
                    getattr(self, what).kill()
                    self.kills[what] += 1
                    getattr(self, what).start()
            except BaseException as fault:
                self.problem = f"{type(fault).__name__}: {fault}"

        self.chance_of_kills = random.Random(self.chance.random())
        thread = threading.Thread(target=run)
        thread.start()
        return thread

    def in_air(self, what):
        """How many texts may go twice where this is killed now: those not over, of the gateway those without a report as well."""
        held = outgoing.c.state.in_(OPEN)
        held = held | (outgoing.c.receipt.is_(None) & (outgoing.c.channel == "sms")) if what == "gateway" else held
        with self.book.engine.connect() as connection:
            return connection.scalar(sa.select(sa.func.count()).where(held))

    # ---- the whole of it
    def held(self, kills, gap_s, told=lambda at, of: None):
        """Hold the conversation under these kills; look at the books and return how many texts came twice."""
        thread = self.killing(kills, gap_s)
        try:
            for name in CHATS:
                self.link(name)
            now = self.lines[0][2]
            for at, (name, text, moment, wanted) in enumerate(self.lines):
                if (moment - now).total_seconds() > JUMP_S:
                    self.quiet()  # what waited over a jump of the clock would be too old to be sent
                    self.bot.at(moment)
                now = moment
                self.step(name, text, wanted)
                told(at + 1, len(self.lines))
            thread.join()  # where the kills took longer
            self.quiet()
        finally:
            self.done.set()
            thread.join()
        assert self.problem is None, self.problem
        return self.audit()

    def quiet(self):
        until(lambda: self.problem or not (self.api.pending or self.in_air("bot")), "texts wait", PATIENCE_S)

    def audit(self):
        """The books: every message in them once, the log as without kills, every text out, in order for everybody."""
        assert entries(self.book) == self.log
        with self.book.engine.connect() as connection:
            came = connection.execute(sa.select(inbound.c.sender, inbound.c.text)).all()
            promised = connection.execute(sa.select(outgoing.c.number, outgoing.c.text, outgoing.c.state).order_by(outgoing.c.id)).all()
        assert Counter(map(tuple, came)) == self.said
        assert {row.state for row in promised} <= {"sent", "delivered"}
        doubles = 0
        for number in {row.number for row in promised}:
            texts = self.api.texts(int(number[3:])) if number.startswith("tg:") else self.centre.heard(number)
            doubles += repeats([row.text for row in promised if row.number == number], texts)
        return doubles


def refused(reply):
    """True of a reply with which a decision ends without being one."""
    return "Nothing recorded" in reply or "Nothing saved" in reply


def repeats(promised, heard):
    """How many texts came again right behind themselves; all must have come, in order."""
    at = doubles = 0
    for text in heard:
        if at < len(promised) and text == promised[at]:
            at += 1
        else:
            assert at and text == promised[at - 1], f"not in its order: {text}, after {promised[max(at - 1, 0)]}"
            doubles += 1
    assert at == len(promised), f"never came: {promised[at:]}"
    return doubles
