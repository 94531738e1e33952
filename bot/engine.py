"""The durable engine: whatever must be done after a commit is a row of it, written by that very transaction.

The one importer of dbos. A text is a row of `outgoing` and a workflow "deliver"; a timer is a row of `timer` and a
workflow "fire". Whoever dies with a workflow is followed by another: on SQLite the next process on the file, on
PostgreSQL any that lives.
"""

import asyncio
import fcntl
import logging
import random
from collections import defaultdict
from concurrent.futures import ThreadPoolExecutor
from uuid import uuid4

from dbos import DBOS, DBOSClient, DBOSPortableJSONSerializer

from bot.quick import Pattern

log = logging.getLogger("pegline")
APPLICATION, EDITION = "pegline", "1"  # pinned: the rows of an older program are this program's too
LANES = {"now": (200, 0.25), "later": (5, 1.0)}  # lane -> (texts at once, seconds between two looks)
TIMERS, RINGING, LOOK_S = "timers", 20, 1.0
THREADS = 12  # with the road's within the connections of the pool
SLOWEST_S = 60.0  # between two tries
BATCH = 1000
TABLES = ("workflow_status", "workflow_input")  # of a work that waits
FROM_THE_CLOCK = ("created_at", "updated_at", "retention_timestamp")  # of the database
SERIALIZER = DBOSPortableJSONSerializer()
_here = None  # the Engine this process runs


class Taken(Exception):
    """Another process serves this file."""


@DBOS.workflow(name="deliver", max_recovery_attempts=None)
async def _deliver(text_id):
    return await _here.deliver(text_id)


@DBOS.workflow(name="fire", max_recovery_attempts=None)
async def _fire(timer_id, gen):
    return await _here.fire(timer_id, gen)


class Engine:
    """The engine of this process; `deliver` and `fire` are its two works."""

    def __init__(self, book, deliver, fire):
        self.book, self.deliver, self.fire = book, deliver, fire
        self.embedded = book.engine.dialect.name == "sqlite"
        self.executor = "embedded" if self.embedded else book.owner
        self._lock = None

    async def start(self, channels, handover):
        """Launch in the running loop, for the texts of these channels and for timers."""
        global _here
        if self.embedded:
            self._lock = _alone(self.book.url.database)
        await asyncio.to_thread(handover.open, channels)
        _here = self
        DBOS(config=self._config())
        DBOS.listen_queues([TIMERS, *(queue(name, lane) for name in channels for lane in LANES)])
        DBOS.launch()  # here, for it takes the running loop as its own

    async def stop(self):
        """Leave what is not done to the next start."""
        with ThreadPoolExecutor(1) as apart:  # the loop's own threads are the engine's and end with it
            await asyncio.get_running_loop().run_in_executor(apart, DBOS.destroy)
        if self._lock:
            self._lock.close()

    def _config(self):
        return {
            "name": APPLICATION,
            "system_database_engine": self.book.engine,
            "application_version": EDITION,
            "executor_id": self.executor,
            "serializer": SERIALIZER,
            "use_listen_notify": not self.embedded,
            "max_executor_threads": THREADS,
            "log_level": "WARNING",
            "console_log_level": "WARNING",
        }


class Handover:
    """Gives texts and timers to the engine, from this process or from one that runs none."""

    def __init__(self, book):
        self._book, self._client, self._rows = book, None, None

    def open(self, channels=()):
        """Connect, and have the queues of these channels and of timers."""
        if not self._book.has_engine():
            DBOS.migrate(self._book.url.render_as_string(hide_password=False))
        how = {"serializer": SERIALIZER, "application_name": APPLICATION}
        self._client = DBOSClient(system_database_engine=self._book.engine, **how)
        for name in channels:
            for lane, (at_once, look_s) in LANES.items():
                limits = {"partition_concurrency": 1, "worker_concurrency": at_once, "polling_interval_sec": look_s}
                self._client.register_queue(queue(name, lane), **limits)
        if channels:
            self._client.register_queue(TIMERS, worker_concurrency=RINGING, polling_interval_sec=LOOK_S)
        return self

    def text(self, page, text_id, row, key=None):
        """Queue a text: in its recipient's own row, in the order of ids, which is that of the commits to one person."""
        options = {
            "workflow_name": "deliver",
            "queue_name": queue(row["channel"], row["lane"]),
            "workflow_id": key or f"text:{text_id}",
            "queue_partition_key": row["number"],
            "priority": text_id,
            "app_version": EDITION,
        }
        self._rows = self._rows or Rows(page, self._client)
        self._rows.write(page, options, text_id)

    def timer(self, page, timer_id, gen, delay_s):
        """Set the alarm clock of one generation of a timer."""
        options = {
            "workflow_name": "fire",
            "queue_name": TIMERS,
            "workflow_id": f"timer:{timer_id}:{gen}",
            "delay_seconds": delay_s if delay_s > 0 else 0.0,  # one that is due rings at once
            "app_version": EDITION,
        }
        self._client.enqueue_in_transaction(page.connection, options, timer_id, gen)

    def owners(self):
        """{executor: {queue: [workflow id, ...]}} of all that somebody has begun and not ended."""
        found = defaultdict(lambda: defaultdict(list))
        for row in self._client.list_workflows(status="PENDING", load_input=False, load_output=False):
            found[row.executor_id][row.queue_name].append(row.workflow_id)
        return found

    def begin_again(self, queue_name, ids):
        """Put workflows that lost their process back into their queue."""
        self._client.resume_workflows(ids, queue_name=queue_name)

    def forget(self, before):
        """Delete what the engine keeps of works that ended before a moment; return how many."""
        ended = {"status": ["SUCCESS", "CANCELLED"], "completed_before": before.isoformat(), "limit": BATCH}
        count = 0
        while ids := [row.workflow_id for row in self._client.list_workflows(**ended, load_input=False, load_output=False)]:
            self._client.delete_workflows(ids)
            count += len(ids)
        return count

    def close(self):
        self._client.destroy()


class Rows:
    """The rows of a work as the client of the engine writes them, written by the driver: the client takes a fifth of the road.

    What they hold is read once from a work that the client itself enqueues and that is undone again; what differs from work to
    work is put in its place.
    """

    def __init__(self, page, client):
        schema = None if page.connection.dialect.name == "sqlite" else "dbos"
        sample = {"workflow_name": "deliver", "queue_name": "sample", "workflow_id": f"sample:{uuid4()}", "queue_partition_key": "sample"}
        with page.connection.begin_nested() as tried:
            client.enqueue_in_transaction(page.connection, sample | {"priority": 1, "app_version": EDITION}, 0)
            self._patterns = [Pattern(page.connection, name, schema, sample["workflow_id"], FROM_THE_CLOCK) for name in TABLES]
            tried.rollback()

    def write(self, page, options, *args):
        """Enqueue a work in the transaction of a page, unless it is there already."""
        own = {
            "workflow_uuid": options["workflow_id"],
            "name": options["workflow_name"],
            "queue_name": options["queue_name"],
            "queue_partition_key": options["queue_partition_key"],
            "priority": options["priority"],
            "creator_xid": str(uuid4()),
            "inputs": SERIALIZER.serialize({"positionalArgs": args, "namedArgs": {}}),
        }
        for pattern in self._patterns:
            page.put(*pattern.like(own))


class Reaper:
    """Where several processes share a database: the begun works of those that died go to those that live.

    The database itself knows who is alive, by the name of each connection. Twice seen dead is dead: a database that was
    just started again knows nobody for a moment.
    """

    def __init__(self, book, handover):
        self._book, self._handover, self._seen = book, handover, frozenset()

    def tick(self):
        """Look once; return the works that begin again."""
        with self._book.page() as page:
            if not page.alone("reaper"):
                return []
            owners = self._handover.owners()
            dead = frozenset(owners) - page.connected()
            lost = [works for executor, works in owners.items() if executor in dead & self._seen]
            self._seen = dead
            for queue_name, ids in (pair for works in lost for pair in works.items()):
                self._handover.begin_again(queue_name, ids)
        return [each for works in lost for ids in works.values() for each in ids]


def queue(channel, lane):
    """The name of an engine queue."""
    return f"{channel}-{lane}"


def pause(failures):
    """Seconds before the next try: twice as long each time, never in step with others."""
    return min(2.0 ** min(failures, 10), SLOWEST_S) * random.uniform(0.5, 1.0)


async def surely(work, *args):
    """Do work on the book, again and again where it fails: a text or timer is not given up for a book that cannot be had."""
    failures = 0
    while True:
        try:
            return await asyncio.to_thread(work, *args)
        except Exception:
            failures += 1
            log.exception("%s: tried again", work.__name__.strip("_"))
            await asyncio.sleep(pause(failures))


def _alone(path):
    """Hold the file of a book for this process, or raise Taken; the kernel lets go of it whatever ends the process."""
    held = open(f"{path}.serve", "a")  # noqa: SIM115 held as long as the process serves
    try:
        fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        held.close()
        raise Taken(f"another process serves {path}: SQLite takes one, PostgreSQL several") from None
    return held
