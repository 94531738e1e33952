"""The other ends of tests/bench/wires.py: a gateway that takes whatever comes, and the bare route.

Run by wires.py: wire_ends.py gateway PORT, or wire_ends.py DATABASE_URL PORT for the bare route.
"""

import asyncio
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from urllib.request import urlopen

from tests.faults.serving import ROOT
from tests.postgres import free_port


@contextmanager
def gateway():
    """The address of a gateway in a process of its own."""
    port = free_port()
    process = subprocess.Popen([sys.executable, "-m", "tests.bench.wire_ends", "gateway", str(port)], cwd=ROOT)
    answered(port)
    yield f"http://127.0.0.1:{port}/cgi-bin/sendsms"
    process.terminate()
    process.wait()


def answered(port):
    """Wait until somebody answers at a port."""
    for _ in range(3000):
        try:
            with urlopen(f"http://127.0.0.1:{port}/healthz", timeout=5):
                return
        except OSError:
            time.sleep(0.01)
    raise RuntimeError("it does not start")


async def _taking(port):
    async def connected(reader, writer):
        try:
            while await reader.readuntil(b"\r\n\r\n"):
                writer.write(b"HTTP/1.1 202 Accepted\r\nContent-Length: 4\r\n\r\n0: A")
        except (asyncio.IncompleteReadError, ConnectionError):
            writer.close()

    server = await asyncio.start_server(connected, "127.0.0.1", port, backlog=1024)
    await server.serve_forever()


def _bare(url, port):
    """The same HTTP server, framework and kind of thread, with one durable insert a message."""
    import uvicorn
    from starlette.applications import Starlette
    from starlette.responses import PlainTextResponse
    from starlette.routing import Route

    from bot.channels import Inbound
    from bot.logbook import Book
    from tests.bench.road import NOW

    book = Book(url)
    hands = ThreadPoolExecutor(1 if book.engine.dialect.name == "sqlite" else 4)

    def insert(query):
        with book.page() as page:
            page.land(Inbound("sms", query["id"], query["from"], query["text"]), NOW)

    async def incoming(request):
        await asyncio.get_running_loop().run_in_executor(hands, insert, dict(request.query_params))
        return PlainTextResponse("ACCEPTED")

    async def live(request):
        return PlainTextResponse("ok")

    uvicorn.run(Starlette(routes=[Route("/sms/mo", incoming), Route("/healthz", live)]), port=port, log_config=None, access_log=False)


if __name__ == "__main__":
    where, port = sys.argv[1], int(sys.argv[2])
    if where == "gateway":
        asyncio.run(_taking(port))
    else:
        _bare(where, port)
