"""A running bot: its wires, its delivery and its HTTP side in one loop, and an orderly end of them all."""

import asyncio
import contextlib
import logging
import signal
import time
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from functools import partial

import uvicorn

from bot import inbox, mishap, web
from bot.delivery import Delivery
from bot.menu import menu
from bot.reading.words import vocabulary

log = logging.getLogger("pegline")
RECENT = timedelta(days=6)  # after a week without updates their numbers may begin anywhere, even lower
LOGIN_S = 5.0  # between two tries to log in
HTTP_STOP_S, STOP_S = 2, 8.0  # what is in the air at the end may land


def wires(settings):
    """The wires that the settings switch on."""
    made = []
    if settings.sms_url:
        from bot.channels.sms import Sms

        made.append(Sms(settings))
    if settings.telegram_token:
        from bot.channels.telegram import Telegram

        made.append(Telegram(settings, menu()))
    return made


class Bot:
    """Everything of one process."""

    def __init__(self, book, settings, clock):
        self.book, self.settings, self._clock = book, settings, clock
        self.words, self.counts, self.wires = vocabulary(), web.Counts(), wires(settings)
        self.delivery = Delivery(book, self.wires, clock, self.counts.sent, rings={"lone": mishap.lone})
        at_once = 1 if book.engine.dialect.name == "sqlite" else 4
        self._hands = ThreadPoolExecutor(at_once, thread_name_prefix="road")
        self._order = {}  # sender or chat -> [lock, how many hold or await it]: what comes from there is taken in the order it came
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
        async with self._turn(message.back), self._turn(None if message.back == message.sender else message.sender):
            taken = await self._run(inbox.take, message, self.book, self.words, self._clock())
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
        with self.book.page() as page:
            page.receipt(text_id, word, gateway_id, self._clock())

    def _age(self):
        with self.book.page(write=False) as page:
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
    loop = asyncio.get_running_loop()
    told = []

    def told_to_stop():
        told.append(loop.time())
        server.should_exit = True
        bot.close()

    for sign in (signal.SIGTERM, signal.SIGINT):
        loop.add_signal_handler(sign, told_to_stop)  # the server's own way would end the process with texts in the air
    await bot.start()
    try:
        await server.serve()  # returns once the open requests are answered
    finally:
        await bot.stop(STOP_S - (loop.time() - told[0] if told else 0.0))
