"""The HTTP side of a running bot, from outside: a real process on loopback, with everything that may come to its port."""

import asyncio
import json
import math
import re
import resource
import socket
import sqlite3
import threading
import time
from contextlib import ExitStack, closing
from pathlib import Path
from types import SimpleNamespace

import pytest
from prometheus_client.parser import text_string_to_metric_families
from starlette.exceptions import HTTPException

from bot import web
from tests.wires.office import get, served, until

MASON = "+254700000107"
IDLE = 2000


@pytest.fixture(scope="module")
def bot(tmp_path_factory):
    with served(tmp_path_factory.mktemp("http")) as made:
        yield made


def ask(bot, head, *body, seconds=30.0):
    """Send raw bytes and return (all that came back, bytes that could be sent)."""
    sent = 0
    with socket.create_connection(("127.0.0.1", bot.port), timeout=seconds) as line:
        try:
            for piece in (head, *body):
                line.sendall(piece)
                sent += len(piece)
        except OSError:
            pass  # it was closed while we were still sending
        came = b""
        try:
            while piece := line.recv(65536):
                came += piece
        except ConnectionResetError:
            pass
    return came.decode(), sent


def resident_kb(pid):
    return int(re.search(r"VmRSS:\s+(\d+)", Path(f"/proc/{pid}/status").read_text())[1])


def metrics(bot):
    found = {}
    for family in text_string_to_metric_families(get(f"{bot.url}/metrics")[1]):
        for sample in family.samples:
            found[sample.name, *sorted(sample.labels.values())] = sample.value
    return found


def test_it_lives_and_is_ready(bot):
    assert get(f"{bot.url}/healthz") == (200, "ok")
    status, body = get(f"{bot.url}/readyz")
    assert (status, json.loads(body)["ready"], json.loads(body)["faults"]) == (200, True, [])


def test_it_listens_on_loopback_only(bot):
    rows = [line.split() for name in ("tcp", "tcp6") for line in Path(f"/proc/{bot.pid}/net/{name}").read_text().splitlines()[1:]]
    listening = {row[1].rpartition(":")[0] for row in rows if row[3] == "0A" and int(row[1].rpartition(":")[2], 16) == bot.port}
    assert listening == {"0100007F"}


def test_the_metrics_count_what_comes_and_goes(bot):
    before = metrics(bot)
    for wire_id in ("m-1", "m-1"):
        assert bot.sms(MASON, "pit deep 1.83", wire_id) == (200, "ACCEPTED")
    assert bot.sms("+254711222333", "hello", "m-2") == (200, "ACCEPTED")

    def gone(name, *labels):
        return metrics(bot).get((name, *labels), 0.0) - before.get((name, *labels), 0.0)

    until(lambda: metrics(bot)["pegline_outbox_waiting",] == 0 and gone("pegline_out_total", "sent", "sms") >= 3, "all texts are sent")
    assert gone("pegline_in_total", "sms", "understood") == 1
    assert gone("pegline_in_total", "repeat", "sms") == 1
    assert gone("pegline_in_total", "sms", "unread") == 1
    assert gone("pegline_in_seconds_count", "sms") == 3
    assert 0 < gone("pegline_in_seconds_sum", "sms") < 30
    with closing(sqlite3.connect(bot.environment["PEGLINE_DATABASE_URL"].removeprefix("sqlite:///"))) as book:
        (segments,) = book.execute("SELECT sum(segments) FROM outgoing WHERE state = 'sent'").fetchone()
    assert metrics(bot)["pegline_segments_total", "sms"] == segments
    assert metrics(bot)["pegline_outbox_age_seconds",] == 0
    assert metrics(bot)["process_open_fds",] > 3


def test_delivery_reports_are_counted(bot):
    bot.sms(MASON, "pit deep 1.84", "r-1")
    report = until(lambda: next((row[3] for row in bot.gateway.took if "1.84" in row[2]), None), "the text is sent")
    before = metrics(bot).get(("pegline_receipts_total", "delivered"), 0.0)
    assert get(report.replace("%d", "1").replace("%F", "abc"))[0] == 200
    assert metrics(bot)["pegline_receipts_total", "delivered"] == before + 1


def test_a_body_of_ten_megabytes_is_refused_unread(bot):
    before, piece = resident_kb(bot.pid), b"x" * 65536
    head = f"POST /telegram HTTP/1.1\r\nhost: x\r\ncontent-length: {160 * len(piece)}\r\n\r\n".encode()
    came, _ = ask(bot, head, *[piece] * 160)
    assert came.startswith("HTTP/1.1 413")
    assert resident_kb(bot.pid) - before < 2048


@pytest.mark.parametrize("path", ["/sms/mo?key=x", "/healthz", "/telegram"])
def test_a_body_without_a_length_is_cut_off_where_it_is_too_long(bot, path):
    before, piece = resident_kb(bot.pid), b"10000\r\n" + b"x" * 65536 + b"\r\n"
    came, _ = ask(
        bot, f"POST {path} HTTP/1.1\r\nhost: x\r\nconnection: close\r\ntransfer-encoding: chunked\r\n\r\n".encode(), *[piece] * 160
    )
    assert came == "" or re.match(r"HTTP/1.1 (413|405|404)", came)
    assert resident_kb(bot.pid) - before < 4096
    assert get(f"{bot.url}/healthz") == (200, "ok")


@pytest.mark.parametrize("length", ["-1", "1e3", "abc", "99999999999999999999999"])
def test_a_length_that_is_none_is_refused(bot, length):
    came, _ = ask(bot, f"POST /telegram HTTP/1.1\r\nhost: x\r\ncontent-length: {length}\r\n\r\n".encode())
    assert re.match(r"HTTP/1.1 (400|413)", came)


def test_what_is_no_request_is_refused(bot):
    came, _ = ask(bot, b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\r\n\r\n")
    assert came.startswith("HTTP/1.1 400")
    assert ask(bot, b"GET /healthz HTTP/1.1\r\nhost: x\r\nx: ", *[b"y" * 65536] * 20)[0].startswith("HTTP/1.1 400")


def test_two_thousand_idle_connections_do_not_stop_it(bot):
    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    resource.setrlimit(resource.RLIMIT_NOFILE, (min(hard, 8192), hard))
    try:
        with ExitStack() as all_of_them:
            for _ in range(IDLE):
                all_of_them.enter_context(socket.create_connection(("127.0.0.1", bot.port), timeout=10))
            until(lambda: metrics(bot)["process_open_fds",] > IDLE, "all connections stand")
            since = time.monotonic()
            assert bot.sms(MASON, "pit deep 1.85", "idle-1") == (200, "ACCEPTED")
            assert get(f"{bot.url}/readyz")[0] == 200
            assert time.monotonic() - since < 20
    finally:
        resource.setrlimit(resource.RLIMIT_NOFILE, (soft, hard))


def test_a_hundred_at_once_are_all_answered(bot):
    answers = []
    hands = [threading.Thread(target=lambda n=n: answers.append(bot.sms(f"+2547112{n:05d}", "hello", f"many-{n}"))) for n in range(100)]
    for hand in hands:
        hand.start()
    for hand in hands:
        hand.join()
    assert answers == [(200, "ACCEPTED")] * 100


# ---- whether it is ready


def test_what_makes_it_not_ready_is_told(tmp_path):
    away = "http://127.0.0.1:9"
    with (
        served(tmp_path, SMS_URL=f"{away}/none", TELEGRAM_TOKEN="1234567:AAx", TELEGRAM_API=away) as bot,
        closing(sqlite3.connect(tmp_path / "book.sqlite")) as book,
    ):
        assert ready(bot) == (503, ["sms: no gateway: ConnectionRefusedError", "telegram: NetworkError"])
        bot.sms(MASON, "hello", "w-1")
        with book:
            book.execute("UPDATE outgoing SET due = datetime(due, '-16 minutes')")
        assert ready(bot)[1][-1] == "1 texts wait, the oldest for 16 minutes"
        assert 959 < metrics(bot)["pegline_outbox_age_seconds",] < 1000
        book.execute("ALTER TABLE outgoing RENAME TO away")
        assert ready(bot)[1][-1] == "database: OperationalError"
        assert get(f"{bot.url}/healthz")[0] == 200
        assert math.isnan(metrics(bot)["pegline_outbox_age_seconds",])
        book.execute("ALTER TABLE away RENAME TO outgoing")


def ready(bot):
    status, body = get(f"{bot.url}/readyz")
    return status, json.loads(body)["faults"]


# ---- the end


def test_it_stops_in_order_with_requests_in_the_air_and_idle_connections(tmp_path):
    with served(tmp_path) as bot:
        idle = [socket.create_connection(("127.0.0.1", bot.port)) for _ in range(50)]
        half = socket.create_connection(("127.0.0.1", bot.port))
        half.sendall(b"POST /telegram HTTP/1.1\r\nhost: x\r\ncontent-length: 100\r\n\r\nx")
        answers = []
        hands = [threading.Thread(target=lambda n=n: answers.append((n, _status(bot, n)))) for n in range(40)]
        for hand in hands:
            hand.start()
        until(lambda: len(answers) > 5, "some are answered")
        status, seconds = bot.stop()
        for hand in hands:
            hand.join()
        for line in (*idle, half):
            line.close()
    assert status == 0 and seconds < 10
    assert "stopped" in bot.log.read_text()
    with closing(sqlite3.connect(tmp_path / "book.sqlite")) as book:
        kept = {row[0] for row in book.execute("SELECT wire_id FROM inbound")}
        said = {row[0] for row in book.execute("SELECT wire_id FROM outgoing")}
    accepted = {f"stop-{n}" for n, answer in answers if answer == (200, "ACCEPTED")}
    assert accepted <= kept and kept == said


def _status(bot, n):
    try:
        return bot.sms(f"+2547113{n:05d}", "hello", f"stop-{n}")
    except OSError:
        return None


# ---- connections that ask for nothing


class Line:
    """A transport that notes whether it was closed."""

    def __init__(self):
        self.closed = False

    def is_closing(self):
        return self.closed

    def close(self):
        self.closed = True


@pytest.fixture
def patience():
    """A connection with a clock of its own: `.tick()` lets one look pass."""
    made = web.Patience.__new__(web.Patience)
    due = []
    made.loop = SimpleNamespace(call_later=lambda seconds, work, *args: due.append((seconds, work, args)))
    made.cycle, made.transport = None, Line()

    def tick():
        seconds, work, args = due.pop()
        assert seconds == web.HEAD_S
        work(*args)

    made._look(None)
    return SimpleNamespace(of=made, tick=tick, due=due)


def test_a_connection_that_says_nothing_is_closed(patience):
    patience.tick()
    assert patience.of.transport.closed and not patience.due


def test_a_connection_that_asks_stays_until_it_asks_no_more(patience):
    for complete in (False, False, True):
        patience.of.cycle = SimpleNamespace(response_complete=complete)
        patience.tick()
        assert not patience.of.transport.closed
    patience.tick()
    assert patience.of.transport.closed


def test_a_long_answer_is_not_cut_off(patience):
    patience.of.cycle = SimpleNamespace(response_complete=False)
    for _ in range(5):
        patience.tick()
    assert not patience.of.transport.closed


# ---- file descriptors


@pytest.mark.parametrize("soft, hard, want", [(1024, 1_048_576, 65536), (1024, 4096, 4096), (100_000, 200_000, 100_000), (1024, -1, 65536)])
def test_as_many_descriptors_are_taken_as_are_allowed(soft, hard, want, monkeypatch):
    given = []
    monkeypatch.setattr(resource, "getrlimit", lambda which: (soft, hard))
    monkeypatch.setattr(resource, "setrlimit", lambda which, limits: given.append(limits))
    assert web.descriptors() == want
    assert given == ([] if want == soft else [(want, hard)])


# ---- a body that takes too long


def test_a_body_that_does_not_come_is_given_up(monkeypatch):
    monkeypatch.setattr(web, "BODY_S", 0.05)
    came = [{"type": "http.request", "body": b"x", "more_body": True}]

    async def receive():
        return came.pop() if came else await asyncio.Event().wait()

    async def read():
        bounded = web._bounded(receive)
        assert (await bounded())["body"] == b"x"
        with pytest.raises(HTTPException) as fault:
            await bounded()
        return fault.value.status_code

    assert asyncio.run(read()) == 408


def test_an_answer_may_take_longer_than_a_body(monkeypatch):
    monkeypatch.setattr(web, "BODY_S", 0.01)
    came = [{"type": "http.disconnect"}, {"type": "http.request", "body": b"", "more_body": False}]

    async def receive():
        await asyncio.sleep(0.03 * (len(came) == 1))
        return came.pop()

    async def read():
        bounded = web._bounded(receive)
        return [(await bounded())["type"] for _ in range(2)]

    assert asyncio.run(read()) == ["http.request", "http.disconnect"]
