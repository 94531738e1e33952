"""Commands beside a serving process, several processes on one database, a database that is locked, a clock set back."""

import signal
import sqlite3
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, contextmanager
from itertools import permutations
from urllib.parse import urlencode

import sqlalchemy as sa

from bot.channels import Inbound, Part
from bot.forms import Understood
from bot.inbox import take
from bot.logbook import Book
from bot.reading.words import vocabulary
from bot.tables import entry, inbound, outgoing
from tests.conftest import NOON
from tests.faults import odd
from tests.faults.gateway import Gateway
from tests.faults.running import row
from tests.faults.serving import FARMER, KEY, LONG_S, MASON, SUPERVISOR, Serving, bring, drained, waiting
from tests.wires.running import get, until

DAY_S = 24 * 3600


def soon(found):
    return until(found, "waited in vain")


def counts(book):
    with book.engine.connect() as connection:
        return tuple(connection.scalar(sa.select(sa.func.count()).select_from(table)) for table in (inbound, entry, outgoing))


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
            status, _, said = second.start(wait=False).end(0)
            assert status == 2
            assert "SQLite takes one, PostgreSQL several" in said
        else:
            _taken_over(book, gateway, serving, second)
    book.engine.dispose()


def _taken_over(book, gateway, first, second):
    """Of two processes one is killed with a text in the air: the other sends it, and what came for the same person after it."""
    gateway.slow_s = LONG_S
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


# ---- pieces of one text that come to several processes


def piece(n, place, text, total=3):
    return Inbound("sms", f"p-{n}-{place}", FARMER, text, part=Part("10100", n, total, place))


def test_pieces_that_two_processes_take_at_one_moment_are_joined_by_the_later_one(postgres):
    url = postgres.made("moment", "pattern")
    book, other = Book(url), Book(url)
    first, last = piece(1, 1, "got 12 bags ", 2), piece(1, 2, "cement", 2)
    with book.page() as page:
        assert page.land(first, NOON)
        assert page.keep_part(first, NOON) is None
        thread, got = held(lambda: take(last, other, vocabulary(), NOON))
        soon(lambda: got or _waits(book))
    thread.join()
    assert isinstance(got[0].outcome, Understood)
    assert counts(book)[1] == 1
    for each in (book, other):
        each.engine.dispose()


def _waits(book):
    """True where a connection waits for another's lock."""
    query = "SELECT 1 FROM pg_stat_activity WHERE datname = current_database() AND wait_event_type = 'Lock'"
    with book.engine.connect() as connection:
        return connection.exec_driver_sql(query).first()


def test_a_long_text_in_pieces_to_two_processes_is_one_message(postgres):
    url = postgres.made("pieces", "pattern")
    book, places = Book(url), list(permutations((1, 2, 3)))
    with Gateway() as gateway, Serving(url, gateway.url) as one, Serving(url, gateway.url) as two, ThreadPoolExecutor(3) as hands:
        one.start(wait=False)
        two.start()
        one.wait()
        for n, order in enumerate(places, 1):
            texts = {1: f"got {n} bags ", 2: "cement and ", 3: "200 bricks"}

            def brought(at, n=n, texts=texts):
                udh = bytes([5, 0, 3, n, 3, at])
                return bring((one, two)[at % 2].port, f"p-{n}-{at}", FARMER, texts[at], udh=udh)

            assert all(hands.map(brought, order))
            assert counts(book)[:2] == (3 * n, n)
        drained(book)
        assert counts(book)[2] == len(gateway.sequence(FARMER)) + len(gateway.sequence(SUPERVISOR)) == sum(gateway.times().values())
    book.engine.dispose()


# ---- a database that is locked


@contextmanager
def locked(path):
    with closing(sqlite3.connect(path, isolation_level=None)) as lock:
        lock.execute("BEGIN IMMEDIATE")
        yield
        lock.execute("ROLLBACK")


def held(work):
    """A call in a thread, and the list that gets what it returns."""
    got = []
    thread = threading.Thread(target=lambda: got.append(work()))
    thread.start()
    return thread, got


def copied(pattern, tmp_path):
    path = tmp_path / "book.sqlite"
    path.write_bytes(pattern.read_bytes())
    return path, f"sqlite:///{path}"


def test_a_locked_database_delays_and_a_stop_does_not_wait_for_it(pattern, tmp_path):
    path, url = copied(pattern, tmp_path)
    book = Book(url)
    with Gateway() as gateway, Serving(url, gateway.url) as serving:
        serving.start()
        with locked(path):
            asking, taken = held(lambda: bring(serving.port, "w-1", MASON, "got 12 bags cement"))
            time.sleep(2)
            assert not taken, "it is not acknowledged before it is stored"
            assert serving.alive()
        asking.join()
        assert taken == [True]
        drained(book)
        kept = counts(book)
        with locked(path):
            asking, taken = held(lambda: bring(serving.port, "w-2", MASON, "got 13 bags cement"))
            time.sleep(0.5)
            status, seconds, said = serving.end()
            asking.join()
        assert (status, taken) == (0, [False])
        assert seconds < 10
        assert "Traceback" not in said
        assert counts(book) == kept, "nothing of it is half done"
        serving.start()
        assert bring(serving.port, "w-2", MASON, "got 13 bags cement")
        drained(book)
        assert counts(book)[:2] == (2, 2)
        assert len(gateway.sequence(MASON)) == sum(gateway.times().values()) == 2
    book.engine.dispose()


def test_a_database_locked_for_longer_than_is_waited_takes_nothing_and_all_of_it_later(pattern, tmp_path):
    path, url = copied(pattern, tmp_path)
    book = Book(url)
    query = urlencode({"key": KEY, "id": "w-1", "from": MASON, "to": "10100", "text": "got 12 bags cement", "charset": "UTF-8"})
    with Gateway() as gateway, Serving(url, gateway.url, entry="tests.faults.odd:impatient") as serving:
        serving.start()
        with locked(path):
            since = time.monotonic()
            assert get(f"http://127.0.0.1:{serving.port}/sms/mo?{query}", LONG_S) == (200, "BUSY")
            assert time.monotonic() - since >= odd.BUSY_S
            assert serving.alive()
            assert counts(book) == (0, 0, 0)
        assert bring(serving.port, "w-1", MASON, "got 12 bags cement")
        drained(book)
        assert counts(book)[:2] == (1, 1)
        assert len(gateway.sequence(MASON)) == sum(gateway.times().values()) == 1
    book.engine.dispose()


# ---- a clock that is set back


def test_a_clock_set_back_keeps_what_waits_its_order_and_its_answers(url, tmp_path, monkeypatch):
    book, clock = Book(url), tmp_path / "clock"
    monkeypatch.setenv("TEST_CLOCK", str(clock))

    def told(ahead_s):
        clock.with_suffix(".new").write_text(str(ahead_s))
        clock.with_suffix(".new").replace(clock)

    told(0)
    with Gateway(refuse=1.0) as gateway, Serving(url, gateway.url, entry="tests.faults.odd:shifted") as serving:
        serving.start()
        assert bring(serving.port, "w-1", MASON, "got 1 bags cement")
        soon(lambda: any(row(book, each)["fault"] for each in waiting(book)))
        told(-2 * DAY_S)
        assert bring(serving.port, "w-2", MASON, "got 2 bags cement")
        assert bring(serving.port, "w-1", MASON, "got 1 bags cement"), "a repeat is one by its id, not by its time"
        assert get(f"http://127.0.0.1:{serving.port}/readyz")[0] == 200
        gateway.refuse = 0.0
        drained(book)
        assert serving.end()[0] == 0
        serving.start()
        assert bring(serving.port, "w-3", MASON, "got 3 bags cement")
        drained(book)
        told(0)
        assert bring(serving.port, "w-4", MASON, "got 4 bags cement")
        drained(book)
        assert serving.end()[0] == 0
    with book.page() as page:
        log = page.entries("TB07")
        answers = [page.out(each)["text"] for each in gateway.sequence(MASON)]
    assert [each.number for each in log] == [1, 2, 3, 4]
    assert log[1].at < log[0].at < log[3].at, "the log says what the clock said"
    came = [f"TB07 #{n} STOCK: Came: {n} {'bag' if n == 1 else 'bags'} ({50 * n} kg) cement." for n in (1, 2, 3, 4)]
    assert [answer.split(" On ")[0] for answer in answers] == came
    assert set(gateway.times().values()) == {1}
    book.engine.dispose()
