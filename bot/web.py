"""The HTTP side of a running bot: the addresses of the wires, whether it lives, whether it is ready, what it counts."""

import time
from datetime import timedelta

from prometheus_client import CONTENT_TYPE_LATEST, CollectorRegistry, Counter, Gauge, Histogram, generate_latest
from starlette.applications import Starlette
from starlette.responses import JSONResponse, PlainTextResponse, Response
from starlette.routing import Route

OLD = timedelta(minutes=15)  # a text waiting longer makes the bot not ready


class Counts:
    """What a running bot counts, each bot its own."""

    def __init__(self):
        self.registry = CollectorRegistry()
        own = {"registry": self.registry}
        self.taken = Counter("pegline_in", "messages taken, by channel and by what they were", ["channel", "outcome"], **own)
        self.seconds = Histogram("pegline_in_seconds", "from the wire to the committed answer", ["channel"], **own)
        self.out = Counter("pegline_out", "texts given to a gateway, by channel and by what became of them", ["channel", "state"], **own)
        self.segments = Counter("pegline_segments", "SMS segments sent: what the network bills", ["channel"], **own)
        self.waiting = Gauge("pegline_outbox_waiting_seconds", "age of the oldest text that waits", **own)

    def took(self, channel, outcome, since):
        self.taken.labels(channel, outcome).inc()
        self.seconds.labels(channel).observe(time.perf_counter() - since)

    def sent(self, row, state):
        self.out.labels(row["channel"], state).inc()
        if state == "sent":
            self.segments.labels(row["channel"]).inc(row["segments"])


def app(counts, state, routes):
    """The application. `state()` is awaited for (faults, age of the oldest waiting text in seconds)."""

    async def live(request):
        return PlainTextResponse("ok")

    async def ready(request):
        faults, age = await state()
        faults = [*faults, *(["texts wait"] if age > OLD.total_seconds() else [])]
        return JSONResponse({"ready": not faults, "faults": faults, "oldest_waiting_s": round(age, 1)}, 503 if faults else 200)

    async def metrics(request):
        _, age = await state()
        counts.waiting.set(age)
        return Response(generate_latest(counts.registry), media_type=CONTENT_TYPE_LATEST)

    own = [Route("/healthz", live), Route("/readyz", ready), Route("/metrics", metrics)]
    return Starlette(routes=[*own, *routes])
