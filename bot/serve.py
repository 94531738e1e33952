"""A running bot: its wires, its delivery and its HTTP side in one loop, and an orderly end of them all."""

import asyncio
import contextlib
import logging
import signal
import time
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta

import uvicorn

from bot import inbox, mishap, web
from bot.delivery import Delivery, missed
from bot.reading.words import vocabulary

log = logging.getLogger("pegline")
ROUND_S = 20.0
LOST = ("failed", "refused")  # states of a text that will not arrive
HTTP_STOP_S = 3


def wires(settings):
    """The wires that the settings switch on."""
    made = []
    if settings.sms_url:
        from bot.channels.sms import Sms

        made.append(Sms(settings))
    if settings.telegram_token:
        from bot.channels.telegram import Telegram

        made.append(Telegram(settings))
    return made


class Bot:
    """Everything of one process."""

    def __init__(self, book, settings, clock):
        self.book, self.settings, self._clock = book, settings, clock
        self.words, self.counts, self.wires = vocabulary(), web.Counts(), wires(settings)
        self.delivery = Delivery(book, self.wires, clock, self.counts.sent, settings.unsure_s)
        at_once = 1 if book.engine.dialect.name == "sqlite" else 4
        self._hands = ThreadPoolExecutor(at_once, thread_name_prefix="road")
        self._order = {}  # sender -> lock: what one person sends is taken in the order it came
        self._tasks = []

    def app(self):
        """The HTTP application."""
        routes = [route for wire in self.wires for route in wire.routes(self.take, self.receipt)]
        return web.app(self.counts, self.state, routes)

    async def start(self):
        await self.delivery.start()
        for wire in self.wires:
            if hasattr(wire, "start"):
                self._tasks.append(asyncio.create_task(self._begin(wire)))
        self._tasks.append(asyncio.create_task(self._rounds()))

    async def stop(self):
        for task in self._tasks:
            task.cancel()
        await asyncio.gather(*self._tasks, return_exceptions=True)
        await self.delivery.stop()
        self._hands.shutdown(wait=True)
        for wire in self.wires:
            await wire.close()

    # ---- what the wires call
    async def take(self, message):
        """Carry one message down the road; return once its answer is committed, raise where nothing could be stored."""
        since = time.perf_counter()
        lock = self._order.setdefault(message.sender, asyncio.Lock())
        async with lock:
            taken = await self._run(inbox.take, message, self.book, self.words, self._clock())
        if not lock.locked():
            self._order.pop(message.sender, None)
        self.counts.took(message.channel, _named(taken), since)

    async def receipt(self, text_id, word, gateway_id):
        """Keep a delivery report."""
        await self._run(self._keep, text_id, word, gateway_id)

    async def state(self):
        """(faults, age of the oldest waiting text) as far as they can be told."""
        try:
            return [], await self._run(self._age)
        except Exception as fault:
            return [f"database: {type(fault).__name__}"], 0.0

    # ---- inside
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
                missed(page, after, f"the network says {word}", self._clock())

    def _age(self):
        with self.book.page() as page:
            since = page.oldest_waiting([wire.name for wire in self.wires])
        return (self._clock() - since).total_seconds() if since else 0.0

    async def _begin(self, wire):
        """Log a wire in, however often that takes, then fetch where it fetches."""
        while True:
            try:
                await wire.start()
                break
            except Exception as fault:
                log.warning("%s: cannot log in: %s", wire.name, type(fault).__name__)
                await asyncio.sleep(5)
        if wire.polls:
            await wire.poll(self.take, self._offset, self._advance)

    async def _offset(self):
        return await self._run(self._read_offset)

    def _read_offset(self):
        with self.book.page() as page:
            return page.offset("telegram")

    async def _advance(self, value):
        await self._run(self._write_offset, value)

    def _write_offset(self, value):
        with self.book.page() as page:
            page.set_offset("telegram", value, self._clock())

    async def _rounds(self):
        """What is looked at again and again: pieces of long texts whose others did not come."""
        while True:
            await asyncio.sleep(min(ROUND_S, self.settings.sms_pieces_s))
            try:
                await self._run(self._look_for_lone)
            except Exception:
                log.exception("the round failed")

    def _look_for_lone(self):
        now = self._clock()
        mishap.lone(self.book, now - timedelta(seconds=self.settings.sms_pieces_s), now)


def _named(taken):
    """What a message was, for the counts."""
    if not taken.landed:
        return "repeat"
    return type(taken.outcome).__name__.lower() if taken.outcome is not None else "silent"


async def serve(book, settings, clock):
    """Run until SIGTERM or SIGINT, then end in order."""
    bot = Bot(book, settings, clock)
    server = uvicorn.Server(
        uvicorn.Config(
            bot.app(),
            host=settings.host,
            port=settings.port,
            log_config=None,
            access_log=False,
            timeout_graceful_shutdown=HTTP_STOP_S,
            timeout_keep_alive=30,
            limit_concurrency=512,
            backlog=4096,
        )
    )
    for number in (signal.SIGTERM, signal.SIGINT):
        asyncio.get_running_loop().add_signal_handler(number, setattr, server, "should_exit", True)
    server.capture_signals = contextlib.nullcontext  # its own way ends the process before the delivery has stopped
    await bot.start()
    try:
        await server.serve()  # returns at SIGTERM and SIGINT, the open requests answered
    finally:
        await bot.stop()
