"""Commands beside a serving process, several processes on one database, a database that is locked."""

import signal
import sqlite3
import threading
import time

import pytest

from bot.logbook import Book
from tests.faults.gateway import Gateway
from tests.faults.running import row
from tests.faults.serving import MASON, SUPERVISOR, Serving, bring, drained, waiting

pytestmark = pytest.mark.process


def soon(found, seconds=40):
    end = time.monotonic() + seconds
    while not (got := found()):
        assert time.monotonic() < end, "waited in vain"
        time.sleep(0.1)
    return got


def test_what_an_operator_does_beside_a_serving_process(url):
    book = Book(url)
    with Gateway(refuse=1.0) as gateway, Serving(url, gateway.url) as serving:
        serving.start()
        queued = serving.run("send-test", "sms", MASON, "are you there")
        assert "is queued" in queued.stdout, queued.stderr
        (text_id,) = soon(lambda: waiting(book))
        soon(lambda: row(book, text_id)["fault"])
        assert "gateway says 503" in serving.run("queue").stdout
        gateway.refuse = 0.0
        drained(book)
        assert serving.run("resend", str(text_id)).returncode == 2, "it was taken"
        with book.page() as page:
            page.mark([text_id], "refused", fault="no such number")
        assert "queued once more" in serving.run("resend", str(text_id)).stdout
        soon(lambda: gateway.times()[text_id] == 2)
        drained(book)
        second = Serving(url, gateway.url)
        if url.startswith("sqlite"):
            second.start(wait=False).process.wait(60)
            assert second.process.returncode == 2
            assert "SQLite takes one, PostgreSQL several" in second.process.communicate()[1]
        else:
            _taken_over(book, gateway, serving, second)
    book.engine.dispose()


def _taken_over(book, gateway, first, second):
    """Of two processes one is killed with a text in the air: the other sends it, and what came for the same person after it."""
    gateway.slow_s = 60.0
    with second:
        assert bring(first.port, "w-1", SUPERVISOR, "tb07 status")
        soon(lambda: waiting(book) & set(gateway.times()))
        second.start()
        gateway.slow_s = 0.0
        assert bring(second.port, "w-2", SUPERVISOR, "tb07 status")
        time.sleep(1)
        assert len(gateway.sequence(SUPERVISOR)) == 1, "it waits for the one before"
        first.end(signal.SIGKILL)
        drained(book)
        ids = gateway.sequence(SUPERVISOR)
        assert len(ids) == 2
        assert ids == sorted(ids)
        assert gateway.times()[ids[0]] == 2, "the one in the air at the kill"


def test_a_locked_database_delays_and_loses_nothing(pattern, tmp_path):
    path = tmp_path / "book.sqlite"
    path.write_bytes(pattern.read_bytes())
    url, taken = f"sqlite:///{path}", []
    with Gateway() as gateway, Serving(url, gateway.url) as serving:
        serving.start()
        lock = sqlite3.connect(path, isolation_level=None)
        lock.execute("BEGIN IMMEDIATE")
        asking = threading.Thread(target=lambda: taken.append(bring(serving.port, "w-1", MASON, "got 12 bags cement")))
        asking.start()
        time.sleep(3)
        assert not taken, "it is not acknowledged before it is stored"
        assert serving.alive()
        lock.execute("COMMIT")
        asking.join()
        lock.close()
        assert taken == [True]
        book = Book(url)
        drained(book)
        book.engine.dispose()
        assert len(gateway.sequence(MASON)) == 1
