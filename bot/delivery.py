"""Delivery: what the road queued is given to its gateway, in order for each person, until it is sent or refused."""

import asyncio
import contextlib
import logging
from datetime import timedelta
from itertools import chain, repeat
from zoneinfo import ZoneInfo

from aiolimiter import AsyncLimiter

from bot import outbox
from bot.astray import URGENT, lost, urge
from bot.channels import Later, Outbound, Refused, Sent, Unsure
from bot.engine import Engine, Handover, Reaper, pause, surely
from bot.mailbook import OPEN
from bot.timers import Timers, adopt

log = logging.getLogger("pegline")
EXPIRES = timedelta(hours=24)
LOOK_S = 1.0  # between two looks for a report that another process may have taken
UNSURE_S = 60.0  # how long a receipt is waited for where the gateway's answer was lost
REAP_S, FIRST_S = 10.0, (0.5, 2.0)  # between two looks for dead processes; the first two at a start, often the one after a death
KEPT = timedelta(days=30)  # what the engine keeps of works that ended; rows of our own are kept
NIGHT_H = 2  # the programme's time
GIVE_WAY_S = 0.05  # how long a text waits for a moment in which nothing comes in: twenty go a second however much comes


class Delivery:
    """The delivery of a book's texts over the wires of this process, and its timers."""

    def __init__(self, book, wires, clock, counted=lambda row, state: None, unsure_s=UNSURE_S, rings=()):
        self.book, self.wires, self._clock = book, {wire.name: wire for wire in wires}, clock
        self._limits = {name: AsyncLimiter(1, 1 / wire.rate) for name, wire in self.wires.items()}
        self._open, self._in_air, self._unsure_s, self._counted = asyncio.Event(), set(), unsure_s, counted
        self._awaited = {}  # text -> Event of the report it waits for
        self._coming, self._calm, self._turns = 0, asyncio.Event(), {name: asyncio.Lock() for name in self.wires}
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
        """(channel, number) a text goes by: back where the sender wrote, to others the way that was linked last."""
        if number is not None:
            return message.channel, number
        ways = page.ways(person) or ((message.channel, person.number),)
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
            row = await self._heard(text_id, self._unsure_left(row), _over_now)
        while row is not None and row["state"] in OPEN:
            await self._turn(row["channel"])
            row, outcome = await self._tried(text_id)
            match outcome:
                case Sent():
                    return await self._ordered(row)
                case Unsure():
                    row = await self._heard(text_id, self._unsure_s, _over_now)
                    await surely(self._urge, row)
                case Later(after_s=after_s):
                    failures += 1
                    await surely(self._urge, row)
                    await asyncio.sleep(pause(failures) if after_s is None else after_s)
        return row and row["state"]

    async def _turn(self, channel):
        """Wait until a text may begin: when its account takes one, and in a moment in which nothing comes in, if there is one soon."""
        async with self._turns[channel]:
            await self._limits[channel].acquire()
            if self._coming:
                with contextlib.suppress(TimeoutError):
                    await asyncio.wait_for(self._calm.wait(), GIVE_WAY_S)
        await self._open.wait()  # for ever, once the process is closing

    @contextlib.contextmanager
    def given_way(self):
        """For the length of the block, a message that comes in: its answer is waited for, so texts begin a little later."""
        self._coming += 1
        self._calm.clear()
        try:
            yield
        finally:
            self._coming -= 1
            if not self._coming:
                self._calm.set()

    def _unsure_left(self, row):
        """Seconds a report is still waited for: each start would else begin to wait anew, and no text outlive frequent ones."""
        gone = (self._clock() - row["sent_at"]).total_seconds() if row["sent_at"] else 0.0
        return min(max(self._unsure_s - gone, 0.0), self._unsure_s)

    async def _tried(self, text_id):
        """Give a text to its wire and write down what became of it; (its row, outcome), or no outcome where it is over.

        The row is read once more: the turn of a text may be long in coming.
        """
        self._in_air.add(text_id)
        try:
            row = await surely(self._row, text_id)
            if row["state"] not in OPEN:
                return row, None
            late = self._clock() - row["due"] > EXPIRES
            outcome = Refused("not sent in 24 hours") if late else await self._given(row)
            await surely(self._note, row, outcome, "gave_up" if late else "refused")
            return (await surely(self._row, text_id) if isinstance(outcome, Refused) else row), outcome
        finally:
            self._in_air.discard(text_id)

    async def _given(self, row):
        wire = self.wires[row["channel"]]
        try:
            return await wire.send(_outbound(row))
        except Exception as fault:
            log.exception("text %s: the wire %s failed", row["id"], wire.name)
            return Later(type(fault).__name__)

    def _note(self, row, outcome, ended):
        match outcome:
            case Sent():
                self._mark(row, "sent", gateway_id=outcome.gateway_id, sent_at=self._clock(), fault=None)
            case Refused():
                self._over(row, ended, outcome.why)
            case Unsure():
                self._mark(row, "unknown", fault=outcome.why[:200], sent_at=self._clock())  # if at all
            case Later():
                self._mark(row, "trying", fault=outcome.why[:200])

    async def _ordered(self, row):
        """Hold later texts of the person back until the network has this one: a gateway that is killed does not keep its order."""
        if order_s := self.wires[row["channel"]].order_s:
            await self._heard(row["id"], order_s, lambda row: row["receipt"] or not self._open.is_set())
        return "sent"

    async def _heard(self, text_id, seconds, enough):
        """Wait until reports have made enough of a text's row, or so long; return the row."""
        end, come = asyncio.get_running_loop().time() + seconds, self._awaited.setdefault(text_id, asyncio.Event())
        try:
            while True:
                come.clear()
                row = await surely(self._row, text_id)
                left = end - asyncio.get_running_loop().time()
                if row is None or enough(row) or left <= 0:
                    return row
                with contextlib.suppress(TimeoutError):
                    await asyncio.wait_for(come.wait(), min(LOOK_S, left))
        finally:
            del self._awaited[text_id]

    def reported(self, text_id):
        """A report on a text was written down in this process."""
        if text_id in self._awaited:
            self._awaited[text_id].set()

    def _urge(self, row):
        if self._clock() - row["due"] >= URGENT:
            with self.book.page() as page:
                urge(page, row, self.wires, self._clock())

    def _row(self, text_id):
        with self.book.page(write=False) as page:
            return page.out(text_id)

    def _mark(self, row, state, **values):
        with self.book.page() as page:
            noted = page.note(row["id"], state, tries=row["tries"] + 1, **values)
        if noted:  # else a report was quicker, or the number was taken off meanwhile
            self._counted(row, state)

    def _over(self, row, state, why):
        """It will not arrive by this way: write that down, send it by another or tell the supervisors of his sites."""
        with self.book.page() as page:
            noted = page.note(row["id"], state, tries=row["tries"] + 1, fault=why[:200])
            if noted:
                lost(page, row, self.wires, why, self._clock())
        if noted:
            self._counted(row, state)


def _over_now(row):
    return row["state"] not in OPEN


def _outbound(row):
    named = ("role", "channel", "text", "segments", "encoding", "due", "id", "file")
    return Outbound(row["number"], **{name: row[name] for name in named}, buttons=tuple(row["buttons"] or ()))
