"""A running bot: its wires, its delivery and its HTTP side in one loop, and an orderly end of them all."""

import asyncio
import contextlib
import gc
import logging
import os
import signal
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from functools import partial

from bot import inbox, lone, watch, web
from bot.astray import lost
from bot.delivery import Delivery
from bot.menu import menus
from bot.reading.own import vocabulary_with
from bot.reading.words import vocabulary

log = logging.getLogger("pegline")
ROUND_S = 20.0
LOOK_S = 10.0  # between two looks at whether the gateways can be reached
BOOK_S = 5.0  # for the book to say what waits
LOST = ("failed", "refused")  # states of a text that will not arrive
RECENT = timedelta(days=6)  # after a week without updates their numbers may begin anywhere, even lower
LOGIN_S = 5.0  # between two tries to log in
STOP_S = 8.0  # what is in the air at the end may land
LAST_S = 9.0  # the process ends, whatever still waits for the book


def wires(settings, words=None):
    """The wires that the settings switch on."""
    made = []
    if settings.sms_url:
        from bot.channels.sms import Sms

        made.append(Sms(settings))
    if settings.telegram_token:
        from bot.channels.telegram import Telegram

        made.append(Telegram(settings, menus(words or vocabulary())))
    return made


class Bot:
    """Everything of one process."""

    def __init__(self, book, settings, clock):
        self.book, self.settings, self._clock = book, settings, clock
        self.words, self.counts = _words(book), web.Counts()
        self.wires = wires(_at_home(settings, book), self.words)
        self.delivery = Delivery(book, self.wires, clock, self._became, settings.unsure_s, watch.RINGS)
        at_once = 1 if book.engine.dialect.name == "sqlite" else 4
        self._hands = ThreadPoolExecutor(at_once, thread_name_prefix="road")
        self._order = {}  # sender or chat -> [lock, how many hold or await it]: what comes from there is taken in the order it came
        self._tasks = []
        self._looked, self._faults = -LOOK_S, []

    def app(self):
        """The HTTP application."""
        routes = [route for wire in self.wires for route in wire.routes(self.take, self.receipt)]
        return web.app(self.counts, self.faults, self.outbox, routes)

    async def start(self):
        await self.delivery.start()
        await self._run(self._begin_watch)
        self._tasks += [asyncio.create_task(self._begin(wire)) for wire in self.wires]
        self._tasks.append(asyncio.create_task(self._rounds()))

    def close(self):
        """Fetch nothing more and begin no new send; what has begun goes on."""
        self.delivery.close()
        for task in self._tasks:
            task.cancel()

    async def stop(self, seconds):
        """End in order: the wires fetch no more, what came is taken to its commit, what is in the air lands."""
        end = asyncio.get_running_loop().time() + seconds
        self.close()
        await asyncio.gather(*self._tasks, return_exceptions=True)
        await asyncio.wait([asyncio.create_task(asyncio.to_thread(self._hands.shutdown))], timeout=seconds)
        await self.delivery.stop(end - asyncio.get_running_loop().time())
        for wire in self.wires:
            await wire.close()

    # ---- what the wires call
    async def take(self, message):
        """Carry one message down the road; return once its answer is committed, raise where nothing could be stored."""
        since = time.perf_counter()
        with self.delivery.given_way():
            async with self._turn(message.back), self._turn(None if message.back == message.sender else message.sender):
                taken = await self._run(inbox.take, message, self.book, self.words, self._clock())
        self._took(message, _named(taken), since)

    async def receipt(self, text_id, word, gateway_id):
        """Keep a delivery report."""
        await self._run(self._keep, text_id, word, gateway_id)
        self.delivery.reported(text_id)

    # ---- what the HTTP side asks
    async def faults(self):
        """What keeps the wires from their gateways, as looked up not long ago."""
        now = time.monotonic()
        if now - self._looked > LOOK_S:
            self._looked = now
            self._faults = [fault for fault in await asyncio.gather(*(wire.fault() for wire in self.wires)) if fault]
        return list(self._faults)

    async def outbox(self):
        """(texts that wait, age of the oldest in seconds)."""
        return await asyncio.wait_for(asyncio.to_thread(self._waiting), BOOK_S)

    # ---- inside
    def _took(self, message, outcome, since):
        self.counts.took(message.channel, outcome, since)
        ms = round((time.perf_counter() - since) * 1000, 1)
        log.info(
            "taken", extra={"channel": message.channel, "wire_id": message.wire_id, "who": message.sender, "outcome": outcome, "ms": ms}
        )

    def _became(self, row, state):
        self.counts.sent(row, state)
        told = {
            "text_id": row["id"],
            "channel": row["channel"],
            "who": row["number"],
            "segments": row["segments"],
            "tries": row["tries"] + 1,
        }
        log.info(state, extra=told)

    @contextlib.asynccontextmanager
    async def _turn(self, who):
        """The turn of one chat or person; a chat's is always taken before a person's, so that nobody waits in a circle."""
        if who is None:
            yield
            return
        turn = self._order.setdefault(who, [asyncio.Lock(), 0])
        turn[1] += 1
        try:
            async with turn[0]:
                yield
        finally:
            turn[1] -= 1
            if not turn[1]:
                del self._order[who]

    async def _run(self, work, *args):
        return await asyncio.get_running_loop().run_in_executor(self._hands, work, *args)

    def _keep(self, text_id, word, gateway_id):
        """Write a report down; one that says that a text will not arrive is told to the supervisors as well."""
        with self.book.page() as page:
            before = page.out(text_id)
            if not page.receipt(text_id, word, gateway_id, self._clock()):
                log.warning("a report on text %s, which is not in the book", text_id)
                return
            after = page.out(text_id)
            if after["state"] != before["state"] and after["state"] in LOST:
                lost(page, after, self.delivery.wires, f"the network says {word}", self._clock())
        self.counts.receipt(before, word)

    def _waiting(self):
        with self.book.page(write=False) as page:
            waiting, since = page.waiting([wire.name for wire in self.wires])
        return waiting, (self._clock() - since).total_seconds() if since else 0.0

    async def _begin(self, wire):
        """Log a wire in, however often that takes, then fetch where it fetches."""
        while True:
            try:
                await wire.start()
                break
            except Exception as fault:
                log.warning("%s: cannot log in: %s", wire.name, type(fault).__name__)
                await asyncio.sleep(LOGIN_S)
        if wire.polls:
            await wire.poll(self.take, partial(self._offset, wire.account), partial(self._advance, wire.account))

    async def _offset(self, account):
        return await self._run(self._read_offset, account)

    def _read_offset(self, account):
        with self.book.page(write=False) as page:
            return page.offset(account, self._clock() - RECENT)

    async def _advance(self, account, value):
        await self._run(self._write_offset, account, value)

    def _write_offset(self, account, value):
        with self.book.page() as page:
            page.set_offset(account, value, self._clock())

    async def _rounds(self):
        """What is looked at again and again: long texts of which a piece did not come."""
        while True:
            await asyncio.sleep(min(ROUND_S, self.settings.sms_pieces_s))
            try:
                await self._run(self._look_for_lone)
            except Exception:
                log.exception("the round failed")

    def _begin_watch(self):
        with self.book.page() as page:
            watch.begin(page, self._clock())

    def _look_for_lone(self):
        now = self._clock()
        lone.look(self.book, self.words, timedelta(seconds=self.settings.sms_pieces_s), now)


def _words(book):
    """The vocabulary with the programme's own words: that one alone, each takes some megabytes."""
    with book.page() as page:
        told = page.rules().get("danger_words")
    return vocabulary_with(told)


def _at_home(settings, book):
    """The settings, with the programme's region where they name none."""
    with book.page() as page:
        return settings.model_copy(update={"region": settings.region or page.rules().get("region")})


def _named(taken):
    """What a message was, for the counts."""
    if not taken.landed:
        return "repeat"
    if taken.failed:
        return "failed"
    return type(taken.outcome).__name__.lower() if taken.outcome is not None else "silent"


async def serve(book, settings, clock):
    """Run until SIGTERM or SIGINT, then end in order."""
    bot = Bot(book, settings, clock)
    server = web.server(bot.app(), settings)
    loop = asyncio.get_running_loop()
    told = []

    def told_to_stop():
        if not told:
            last = threading.Timer(LAST_S, _leave)
            last.daemon = True
            last.start()
        told.append(loop.time())
        server.should_exit = True
        bot.close()

    for sign in (signal.SIGTERM, signal.SIGINT):
        loop.add_signal_handler(sign, told_to_stop)  # the server's own way would end the process with texts in the air
    server.capture_signals = contextlib.nullcontext
    await bot.start()
    gc.collect()
    gc.freeze()  # what is there now stays: looking through it all once more would hold up a dozen messages
    log.info("started", extra={"where": f"{settings.host}:{settings.port}", "wires": [wire.name for wire in bot.wires]})
    try:
        await server.serve()  # returns once the open requests are answered
    finally:
        await bot.stop(STOP_S - (loop.time() - told[0] if told else 0.0))
        log.info("stopped")


def _leave():
    """End at once: a thread that waits for a locked book cannot be told to stop. It has committed and acknowledged nothing."""
    log.warning("stopped while something waited for the book: it comes again")
    logging.shutdown()
    os._exit(0)
