"""Delivery: what the road queued is given to its gateway, in order for each person, until it is sent or refused."""

import asyncio
import logging
from datetime import timedelta
from itertools import chain, repeat
from uuid import uuid4
from zoneinfo import ZoneInfo

from aiolimiter import AsyncLimiter

from bot import outbox
from bot.channels import Inbound, Later, Outbound, Refused, Sent, Unsure
from bot.engine import Engine, Handover, Reaper, pause, surely
from bot.mailbook import OPEN
from bot.phrases import T_, word
from bot.timers import Timers, adopt

log = logging.getLogger("pegline")
EXPIRES = timedelta(hours=24)
UNSURE_S = 60.0  # how long a receipt is waited for where the gateway's answer was lost
REAP_S, FIRST_S = 10.0, (0.5, 2.0)  # between two looks for dead processes; the first two at a start, often the one after a death
KEPT = timedelta(days=30)  # what the engine keeps of works that ended; rows of our own are kept
NIGHT_H = 2  # the programme's time


class Delivery:
    """The delivery of a book's texts over the wires of this process, and its timers."""

    def __init__(self, book, wires, clock, counted=lambda row, state: None, unsure_s=UNSURE_S, rings=()):
        self.book, self.wires, self._clock = book, {wire.name: wire for wire in wires}, clock
        self._limits = {name: AsyncLimiter(1, 1 / wire.rate) for name, wire in self.wires.items()}
        self._open, self._in_air, self._unsure_s, self._counted = asyncio.Event(), set(), unsure_s, counted
        timers = Timers(book, clock, {"retention": self._next_night, **dict(rings)}, {"retention": self._forget})
        self._engine = Engine(book, self.deliver, timers.fire)
        self._handover, self._reaping = Handover(book), None

    # ---- start and stop
    async def start(self):
        """Launch the engine in the running loop, and let the road hand its texts over."""
        self._open.set()
        self.book.post = self
        await self._engine.start(self.wires, self._handover)
        await asyncio.to_thread(self._prepare)
        if not self._engine.embedded:
            self._reaping = asyncio.create_task(self._reap(Reaper(self.book, self._handover)))

    def close(self):
        """Begin no new send from now on."""
        self._open.clear()

    async def stop(self, seconds):
        """Let the sends in the air land for so long, and leave the rest to the next start.

        What is still in the air then may have arrived: it is left as unknown, and a receipt is waited for first.
        """
        self.close()
        if self._reaping:
            self._reaping.cancel()
        end = asyncio.get_running_loop().time() + seconds
        while self._in_air and asyncio.get_running_loop().time() < end:
            await asyncio.sleep(0.02)
        if self._in_air:
            await asyncio.to_thread(self._cut)
        await asyncio.to_thread(self._handover.close)
        await self._engine.stop()

    def _cut(self):
        with self.book.page() as page:
            told = "stopped while it was given to the gateway"
            page.mark(list(self._in_air), "unknown", only=OPEN, fault=told, sent_at=self._clock())

    def _prepare(self):
        with self.book.page() as page:
            adopt(page)
            if page.alone("retention") and not page.armed("retention"):
                outbox.arm(page, "retention", None, None, self._next_night(page, None, self._clock()), {})

    async def _reap(self, reaper):
        for seconds in chain(FIRST_S, repeat(REAP_S)):
            await asyncio.sleep(seconds)
            for each in await surely(reaper.tick):
                log.warning("%s begins again: its process is gone", each)

    # ---- once a night
    def _next_night(self, page, row, now):
        here = now.astimezone(ZoneInfo(page.rules().get("zone", "UTC")))
        night = here.replace(hour=NIGHT_H, minute=0, second=0, microsecond=0)
        return night if night > here else night + timedelta(days=1)

    def _forget(self, now):
        self._handover.forget(now - KEPT)

    # ---- what the road asks
    def route(self, page, person, message, number):
        """(channel, number) a text goes by: back where the sender wrote, to others where they wrote last."""
        if number is not None:
            return message.channel, number
        ways = (*page.links(person.id), (channel_of(person.number), person.number))
        return next((way for way in ways if way[0] in self.wires), ways[-1])

    def hand_over(self, page, text_id, row):
        """Give the engine a queued text, inside the road's transaction."""
        self._handover.text(page, text_id, row)

    def alarm(self, page, timer_id, gen, due):
        """Set the alarm clock of a timer, inside the road's transaction."""
        self._handover.timer(page, timer_id, gen, (due - self._clock()).total_seconds())

    # ---- one text
    async def deliver(self, text_id):
        """Send one text; return its last state. While this waits, later texts of the same person wait too."""
        failures, row = 0, await surely(self._row, text_id)
        if row and row["state"] == "unknown":  # a process ended while the gateway's answer was out
            await self._wait(self._unsure_left(row), text_id)
        while True:
            row = await surely(self._row, text_id)
            if row is None or row["state"] not in OPEN:
                return row and row["state"]
            if self._clock() - row["due"] > EXPIRES:
                return await surely(self._over, row, "gave_up", "not sent in 24 hours")
            failures += 1
            outcome = await self._tried(row)
            if isinstance(outcome, Sent):
                await self._reported(text_id, getattr(self.wires[row["channel"]], "order_s", 0.0))
            elif isinstance(outcome, Unsure):
                await self._wait(self._unsure_s, text_id)
            elif isinstance(outcome, Later):
                await self._wait(pause(failures) if outcome.after_s is None else outcome.after_s)

    def _unsure_left(self, row):
        """Seconds a report is still waited for: each start would else begin to wait anew, and no text outlive frequent ones."""
        gone = (self._clock() - row["sent_at"]).total_seconds() if row["sent_at"] else 0.0
        return min(max(self._unsure_s - gone, 0.0), self._unsure_s)

    async def _tried(self, row):
        """Give a text to its wire at the pace of the account, and write down what became of it."""
        await self._limits[row["channel"]].acquire()
        await self._open.wait()  # for ever, once the process is closing
        self._in_air.add(row["id"])
        try:
            outcome = await self._given(row)
            await surely(self._note, row, outcome)
        finally:
            self._in_air.discard(row["id"])
        return outcome

    async def _given(self, row):
        wire = self.wires[row["channel"]]
        try:
            return await wire.send(_outbound(row))
        except Exception as fault:
            log.exception("text %s: the wire %s failed", row["id"], wire.name)
            return Later(type(fault).__name__)

    def _note(self, row, outcome):
        match outcome:
            case Sent():
                self._mark(row, "sent", gateway_id=outcome.gateway_id, sent_at=self._clock(), fault=None)
            case Refused():
                self._over(row, "refused", outcome.why)
            case Unsure():
                self._mark(row, "unknown", fault=outcome.why[:200], sent_at=self._clock())  # if at all
            case Later():
                self._mark(row, "trying", fault=outcome.why[:200])

    async def _wait(self, seconds, text_id=None):
        """Wait; where a receipt is hoped for, no longer than until it comes."""
        end = asyncio.get_running_loop().time() + seconds
        while (left := end - asyncio.get_running_loop().time()) > 0:
            await asyncio.sleep(min(1.0, left))
            if text_id is not None and (await surely(self._row, text_id))["state"] not in OPEN:
                return

    async def _reported(self, text_id, seconds):
        """Wait for the first report on a text: a gateway that is killed does not keep the order of what lies in it."""
        pause_s, end = 0.05, asyncio.get_running_loop().time() + seconds
        while self._open.is_set() and asyncio.get_running_loop().time() < end:
            if (await surely(self._row, text_id))["receipt"]:
                return
            await asyncio.sleep(pause_s)
            pause_s = min(2 * pause_s, 0.25)

    def _row(self, text_id):
        with self.book.page(write=False) as page:
            return page.out(text_id)

    def _mark(self, row, state, **values):
        with self.book.page() as page:
            page.mark([row["id"]], state, only=OPEN, tries=row["tries"] + 1, **values)
        self._counted(row, state)

    def _over(self, row, state, why):
        """It will not arrive: write that down and tell the supervisors of his sites, once a day for a person."""
        with self.book.page() as page:
            page.mark([row["id"]], state, only=OPEN, tries=row["tries"] + 1, fault=why[:200])
            missed(page, row, why, self._clock())
        self._counted(row, state)
        return state


def missed(page, row, why, now):
    """Tell the supervisors of somebody's sites that nothing reaches him; one alert a day about one person."""
    person = page.person(id=row["person_id"]) if row["person_id"] else None
    if person is None:
        return
    notice = Inbound(row["channel"], f"missed:{person.id}:{now:%Y-%m-%d}", row["number"], "")
    if page.queued_ever(notice.channel, notice.wire_id):
        return
    told = {person.id}
    for code in person.sites:
        text = T_("%(site)s: no text reaches %(name)s: %(why)s. Call him.", site=code, name=person.name, why=why[:60])
        for other in page.team(code, "supervisor"):
            if other.id not in told:
                told.add(other.id)
                outbox.say(page, word(text, outbox.reader(page, other)), None, other, "supervisor", notice, now)


def channel_of(number):
    """The channel a person's own number belongs to."""
    return "telegram" if number.startswith("tg:") else "sms"


def again(book, text_id, now):
    """Queue a text once more that was refused or given up; False where there is none."""
    handover = Handover(book).open()
    with book.page() as page:
        row = page.out(text_id)
        if row is None or row["state"] not in ("refused", "gave_up"):
            return False
        page.mark([text_id], "queued", due=now, fault=None, receipt=None, receipt_at=None)
        handover.text(page, text_id, row, f"text:{text_id}:{row['tries']}")
    return True


def single(book, channel, number, text, now, file=None):
    """Queue one text for a number or chat; return its id."""
    notice = Inbound(channel, f"test:{uuid4().hex}", number, "")
    handover = Handover(book).open()
    with book.page() as page:
        page.post = _Elsewhere(handover)
        outbox.say(page, text, number, page.person(number=number), "test", notice, now, file=file)
        return page.queued(channel, notice.wire_id)[0]["id"]


class _Elsewhere:
    """Hands texts over from a process that runs no delivery."""

    def __init__(self, handover):
        self._handover = handover

    def route(self, page, person, message, number):
        return message.channel, number

    def hand_over(self, page, text_id, row):
        self._handover.text(page, text_id, row)


def _outbound(row):
    named = ("role", "channel", "text", "segments", "encoding", "due", "id", "file")
    return Outbound(row["number"], **{name: row[name] for name in named}, buttons=tuple(row["buttons"] or ()))
