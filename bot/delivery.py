"""Delivery: what the road queued is given to its gateway, in order for each person, until it is sent or refused.

The one importer of dbos. A text is a row of `outgoing` and a workflow of the engine, both written by the road's own
transaction; the workflow's body is the send, so whoever dies with it is run again at the next start.
"""

import asyncio
import logging
import random
from datetime import timedelta
from uuid import uuid4

from aiolimiter import AsyncLimiter
from dbos import DBOS, DBOSClient, DBOSPortableJSONSerializer

from bot import outbox
from bot.channels import Inbound, Later, Outbound, Refused, Sent, Unsure
from bot.mailbook import OPEN
from bot.phrases import T_, word

log = logging.getLogger("pegline")
APPLICATION, EDITION = "pegline", "1"  # pinned: the rows of an older program are this program's too
EXPIRES = timedelta(hours=24)
UNSURE_S = 60.0  # how long a receipt is waited for where the gateway's answer was lost
SLOWEST_S = 60.0  # between two tries
STOP_S = 8.0  # what is in the air at the end may land
LANES = {"now": (200, 0.25), "later": (5, 0.5)}  # lane -> (texts at once, seconds between two looks)
_here = None  # the Delivery this process runs


@DBOS.workflow(name="deliver", max_recovery_attempts=None)
async def _deliver(text_id):
    return await _here.deliver(text_id)


class Delivery:
    """The delivery of a book's texts over the wires of this process."""

    def __init__(self, book, wires, clock, counted=lambda row, state: None, unsure_s=UNSURE_S):
        self.book, self.wires, self._clock = book, {wire.name: wire for wire in wires}, clock
        self._limits = {name: AsyncLimiter(1, 1 / wire.rate) for name, wire in self.wires.items()}
        self._closing, self._in_air, self._unsure_s, self._counted = False, 0, unsure_s, counted
        embedded = book.engine.dialect.name == "sqlite"
        self.executor = "embedded" if embedded else uuid4().hex
        self._config = {
            "name": APPLICATION,
            "system_database_engine": book.engine,
            "application_version": EDITION,
            "executor_id": self.executor,
            "serializer": DBOSPortableJSONSerializer(),
            "use_listen_notify": not embedded,
            "log_level": "WARNING",
            "console_log_level": "WARNING",
        }
        self._client = None

    # ---- start and stop
    async def start(self):
        """Launch the engine in the running loop, and let the road hand its texts over."""
        global _here
        _here = self
        DBOS(config=self._config)
        DBOS.listen_queues([queue(name, lane) for name in self.wires for lane in LANES])
        DBOS.launch()
        for name in self.wires:
            for lane, (at_once, look_s) in LANES.items():
                await DBOS.register_queue_async(
                    queue(name, lane), partition_concurrency=1, worker_concurrency=at_once, polling_interval_sec=look_s
                )
        self._client = await asyncio.to_thread(client, self.book)
        self.book.post = self

    async def stop(self):
        """Begin no new send, let those in the air land, and leave the rest to the next start."""
        self._closing = True
        end = asyncio.get_running_loop().time() + STOP_S
        while self._in_air and asyncio.get_running_loop().time() < end:
            await asyncio.sleep(0.05)
        self.book.post = None
        await asyncio.to_thread(self._client.destroy)
        await asyncio.to_thread(DBOS.destroy)  # last: it takes the threads of the loop with it

    # ---- what the road asks
    def route(self, page, person, message, number):
        """(channel, number) a text goes by: back where the sender wrote, to others where they wrote last."""
        if number is not None:
            return message.channel, number
        ways = (*page.links(person.id), (channel_of(person.number), person.number))
        return next((way for way in ways if way[0] in self.wires), ways[-1])

    def hand_over(self, page, text_id, seq, row):
        """Give the engine a queued text, inside the road's transaction."""
        _enqueue(self._client, page, text_id, seq, row)

    # ---- one text
    async def deliver(self, text_id):
        """Send one text; return its last state. While this waits, later texts of the same person wait too."""
        failures = 0
        while True:
            row = await asyncio.to_thread(self._row, text_id)
            if row is None or row["state"] not in OPEN:
                return row and row["state"]
            if self._clock() - row["due"] > EXPIRES:
                return await asyncio.to_thread(self._over, row, "gave_up", "not sent in 24 hours")
            outcome = await self._sent(row)
            if isinstance(outcome, Sent):
                await asyncio.to_thread(self._mark, row, "sent", gateway_id=outcome.gateway_id, sent_at=self._clock(), fault=None)
                return "sent"
            if isinstance(outcome, Refused):
                return await asyncio.to_thread(self._over, row, "refused", outcome.why)
            failures += 1
            if isinstance(outcome, Unsure):
                await asyncio.to_thread(self._mark, row, "unknown", fault=outcome.why[:200])
                await self._wait(self._unsure_s, text_id)
                continue
            await asyncio.to_thread(self._mark, row, "trying", fault=outcome.why[:200])
            await self._wait(pause(failures) if outcome.after_s is None else outcome.after_s)

    async def _sent(self, row):
        """Give a text to its wire, at the pace of the account; nothing begins once the process is closing."""
        wire = self.wires[row["channel"]]
        async with self._limits[row["channel"]]:
            if self._closing:
                await asyncio.Event().wait()
            self._in_air += 1
            try:
                return await wire.send(_outbound(row))
            except Exception as fault:
                log.exception("text %s: the wire %s failed", row["id"], wire.name)
                return Later(type(fault).__name__)
            finally:
                self._in_air -= 1

    async def _wait(self, seconds, text_id=None):
        """Wait; where a receipt is hoped for, no longer than until it comes."""
        end = asyncio.get_running_loop().time() + seconds
        while asyncio.get_running_loop().time() < end:
            await asyncio.sleep(min(1.0, max(end - asyncio.get_running_loop().time(), 0.0)))
            if text_id is not None and (await asyncio.to_thread(self._row, text_id))["state"] not in OPEN:
                return

    def _row(self, text_id):
        with self.book.page() as page:
            return page.out(text_id)

    def _mark(self, row, state, **values):
        with self.book.page() as page:
            page.mark([row["id"]], state, only=OPEN, tries=row["tries"] + 1, **values)
        self._counted(row, state)

    def _over(self, row, state, why):
        """It will not arrive: write that down and tell the supervisors of his sites, once a day for a person."""
        with self.book.page() as page:
            page.mark([row["id"]], state, tries=row["tries"] + 1, fault=why[:200])
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


def pause(failures):
    """Seconds before the next try: twice as long each time, never in step with others."""
    return min(2.0 ** min(failures, 10), SLOWEST_S) * random.uniform(0.5, 1.0)


def channel_of(number):
    """The channel a person's own number belongs to."""
    return "telegram" if number.startswith("tg:") else "sms"


def queue(channel, lane):
    """The name of an engine queue."""
    return f"{channel}-{lane}"


def client(book):
    """A client of the engine on the book's database, for processes that only hand texts over."""
    return DBOSClient(system_database_engine=book.engine, serializer=DBOSPortableJSONSerializer(), application_name=APPLICATION)


def again(book, text_id, now):
    """Queue a text once more that was refused or given up; False where there is none."""
    engine = client(book)
    with book.page() as page:
        row = page.out(text_id)
        if row is None or row["state"] not in ("refused", "gave_up"):
            return False
        page.mark([text_id], "queued", due=now, fault=None)
        _enqueue(engine, page, text_id, row["seq"], row, f"text:{text_id}:{row['tries']}")
    return True


def single(book, channel, number, text, now, file=None):
    """Queue one text for a number or chat; return its id."""
    engine = client(book)
    notice = Inbound(channel, f"test:{uuid4().hex}", number, "")
    with book.page() as page:
        page.post = _Elsewhere(engine)
        outbox.say(page, text, number, page.person(number=number), "test", notice, now, file=file)
        return page.queued(channel, notice.wire_id)[0]["id"]


class _Elsewhere:
    """Hands texts over from a process that runs no delivery."""

    def __init__(self, engine):
        self._engine = engine

    def route(self, page, person, message, number):
        return message.channel, number

    def hand_over(self, page, text_id, seq, row):
        _enqueue(self._engine, page, text_id, seq, row)


def _enqueue(engine, page, text_id, seq, row, key=None):
    options = {
        "workflow_name": "deliver",
        "queue_name": queue(row["channel"], row["lane"]),
        "workflow_id": key or f"text:{text_id}",
        "queue_partition_key": row["number"],
        "priority": max(seq, 1),
        "app_version": EDITION,
    }
    engine.enqueue_in_transaction(page.connection, options, text_id)


def _outbound(row):
    named = ("role", "channel", "text", "segments", "encoding", "due", "id", "file")
    return Outbound(row["number"], **{name: row[name] for name in named}, buttons=tuple(row["buttons"] or ()))
