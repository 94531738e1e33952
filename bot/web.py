"""The HTTP side of a running bot: the addresses of the wires, whether it lives, whether it is ready, what it counts."""

import asyncio
import math
import resource
import time
from datetime import timedelta
from functools import partial

import uvicorn
from prometheus_client import CONTENT_TYPE_LATEST, CollectorRegistry, Counter, Gauge, Histogram, ProcessCollector, generate_latest
from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.responses import JSONResponse, PlainTextResponse, Response
from starlette.routing import Route
from uvicorn.protocols.http.h11_impl import H11Protocol

from bot.tongue import LANGUAGES, lengthy, untranslated

OLD = timedelta(minutes=15)  # a text waiting longer makes the bot not ready
BODY = 1024 * 1024  # bytes of a request: no wire brings as much
BODY_S = 20.0  # for a whole body to come
HEAD_S = 15.0  # a connection that asks for nothing is closed after one to two of these
STOP_S = 2  # for open requests to be answered at the end
DESCRIPTORS, KEPT = 65536, 256  # wanted for connections; kept for everything else
LEAST_DESCRIPTORS = 4096
SECONDS = (0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10, 30)


class Counts:
    """What a running bot counts, each bot its own."""

    def __init__(self):
        self.registry = CollectorRegistry()
        own = {"registry": self.registry}
        self.taken = Counter("pegline_in", "messages taken, by channel and by what they were", ["channel", "outcome"], **own)
        self.seconds = Histogram("pegline_in_seconds", "from the wire to the committed answer", ["channel"], buckets=SECONDS, **own)
        self.out = Counter(
            "pegline_out", "tries to give a text to a gateway, by channel and by what came of them", ["channel", "state"], **own
        )
        self.segments = Counter("pegline_segments", "SMS segments sent: what the network bills", ["channel"], **own)
        self.receipts = Counter("pegline_receipts", "delivery reports, by what they say", ["receipt"], **own)
        self.age = Gauge("pegline_outbox_age_seconds", "how long the oldest text that is not over yet has been due", **own)
        self.waiting = Gauge("pegline_outbox_waiting", "texts that are not over yet", **own)
        ProcessCollector(**own)
        for name, what, counted in (
            ("pegline_untranslated", "sentences said in English for want of a translation", untranslated),
            ("pegline_lengthy", "texts said in another language, for they take too many messages in the reader's", lengthy),
        ):
            gauge = Gauge(name, f"{what}, by language, since the start", ["language"], **own)
            for language in LANGUAGES[1:]:
                gauge.labels(language).set_function(partial(counted.__getitem__, language))

    def took(self, channel, outcome, since):
        self.taken.labels(channel, outcome).inc()
        self.seconds.labels(channel).observe(time.perf_counter() - since)

    def sent(self, row, state):
        self.out.labels(row["channel"], state).inc()
        if state == "sent":
            self.segments.labels(row["channel"]).inc(row["segments"])

    def receipt(self, row, word):
        """Count a delivery report on a text as it stood before; the only word there is of a text whose answer was lost."""
        self.receipts.labels(word).inc()
        if row and row["state"] == "unknown" and word in ("delivered", "accepted"):
            self.sent(row, "sent")


def app(counts, state, outbox, routes):
    """The application. `state()` is awaited for the faults that are, `outbox()` for (texts that wait, age of the oldest in seconds)."""

    async def live(request):
        return PlainTextResponse("ok")

    async def ready(request):
        faults, age = await state(), None
        try:
            waiting, age = await outbox()
            faults += [f"{waiting} texts wait, the oldest for {age / 60:.0f} minutes"] if age > OLD.total_seconds() else []
        except Exception as fault:
            faults.append(f"database: {type(fault).__name__}")
        told = {"ready": not faults, "faults": faults, "oldest_waiting_s": age if age is None else round(age, 1)}
        return JSONResponse(told, 503 if faults else 200)

    async def metrics(request):
        try:
            waiting, age = await outbox()
        except Exception:  # what is unknown is no number; /readyz says why
            waiting = age = math.nan
        counts.waiting.set(waiting)
        counts.age.set(age)
        return Response(generate_latest(counts.registry), media_type=CONTENT_TYPE_LATEST)

    own = [Route("/healthz", live), Route("/readyz", ready), Route("/metrics", metrics)]
    return Bounded(Starlette(routes=[*own, *routes]))


class Bounded:
    """Refuses a request whose body is longer, or takes longer to come, than any wire's; nothing of it is kept."""

    def __init__(self, inner):
        self._inner = inner

    async def __call__(self, scope, receive, send):
        if scope["type"] != "http":
            return await self._inner(scope, receive, send)
        length = dict(scope["headers"]).get(b"content-length", b"0")
        if not length.isdigit() or int(length) > BODY:
            answer = PlainTextResponse("", 413, {"connection": "close"})
            return await answer(scope, receive, send)
        return await self._inner(scope, _bounded(receive), send)


def _bounded(receive):
    """`receive`, with the bounds of a body: how long it is, how long it takes."""
    got, over, end = 0, False, asyncio.get_running_loop().time() + BODY_S

    async def bounded():
        nonlocal got, over
        if over:
            return await receive()
        try:
            async with asyncio.timeout_at(end):
                piece = await receive()
        except TimeoutError:
            raise HTTPException(408, headers={"connection": "close"}) from None
        got += len(piece.get("body", b""))
        over = not piece.get("more_body", False)
        if got > BODY:
            raise HTTPException(413, headers={"connection": "close"})
        return piece

    return bounded


class Patience(H11Protocol):
    """A connection that is closed where no request comes on it: thousands that say nothing must not hold the place of one that does."""

    def connection_made(self, transport):
        super().connection_made(transport)
        self._look(None)

    def _look(self, before):
        """Close where nothing was asked since the last look; `before` is the request seen then."""
        if self.transport.is_closing():
            return
        idle = self.cycle is None or self.cycle.response_complete
        seen = self.cycle or self.transport  # the transport stands for "none yet"
        if idle and seen is before:
            self.transport.close()
        else:
            self.loop.call_later(HEAD_S, self._look, seen if idle else None)


def server(application, settings):
    """The server of an application. It answers 503 rather than to run out of file descriptors."""
    return uvicorn.Server(
        uvicorn.Config(
            application,
            host=settings.host,
            port=settings.port,
            http=Patience,
            ws="none",
            lifespan="off",
            log_config=None,
            access_log=False,
            server_header=False,
            timeout_graceful_shutdown=STOP_S,
            timeout_keep_alive=30,
            limit_concurrency=descriptors() - KEPT,
            backlog=4096,
        )
    )


def descriptors():
    """Raise the number of file descriptors this process may have as far as it may go; return it."""
    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    top = DESCRIPTORS if hard == resource.RLIM_INFINITY else min(hard, DESCRIPTORS)
    if soft < top:
        resource.setrlimit(resource.RLIMIT_NOFILE, (top, hard))
    return max(soft, top)
