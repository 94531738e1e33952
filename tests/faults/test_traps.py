"""What the delivery engine and its libraries do by themselves, and must not do here: ten traps, each by its name."""

import asyncio
import json
import subprocess
from collections import Counter
from pathlib import Path
from types import SimpleNamespace

import httpx
import pytest
import sqlalchemy as sa
from starlette.applications import Starlette

from bot import engine, logbook
from bot.channels import Inbound
from bot.channels.sms import Sms
from bot.channels.telegram import Telegram
from bot.config import Settings
from bot.engine import Engine, Handover, Taken
from bot.logbook import Book, Unavailable
from bot.tables import meta
from tests.conftest import NOON
from tests.faults.running import MASON, STRANGER, Wire, running, say, states, until

ROOT = Path(__file__).parents[2]
SETTINGS = Settings(
    _env_file=None,
    sms_url="http://127.0.0.1:1/",
    sms_key="k",
    telegram_token="1:a",
    telegram_webhook="https://bot.example",
    telegram_secret="s",
)


def engine_table(book, name):
    return sa.Table(name, sa.MetaData(schema=None if book.engine.dialect.name == "sqlite" else "dbos"), autoload_with=book.engine)


def rows(book, name):
    with book.engine.connect() as connection:
        return connection.execute(sa.select(engine_table(book, name))).mappings().all()


def deliveries(book):
    return [row for row in rows(book, "workflow_status") if row["name"] == "deliver"]


# ---- 1


def test_a_repeat_is_told_by_returning_and_never_by_rowcount(book):
    message = Inbound("sms", "w-1", MASON, "status")
    with book.page() as page:
        assert page.land(message, NOON) is True
        assert page.land(message, NOON) is False
    assert not [path.name for path in (ROOT / "bot").rglob("*.py") if "rowcount" in path.read_text()]


# ---- 2


async def _cannot_store(message):
    raise Unavailable("locked")


async def _no_receipt(*args):
    raise AssertionError("no receipt was sent")


def asked(wire, take, method, path, **more):
    """The answer of a wire's own address."""

    async def spoken():
        app = Starlette(routes=wire.routes(take, _no_receipt))
        transport = httpx.ASGITransport(app, raise_app_exceptions=False)
        async with httpx.AsyncClient(transport=transport, base_url="http://bot") as client:
            answer = await client.request(method, path, **more)
        await wire.close()
        return answer

    return asyncio.run(spoken())


def test_a_webhook_is_answered_only_after_the_commit():
    update = {
        "update_id": 5,
        "message": {
            "message_id": 1,
            "date": 1,
            "chat": {"id": 9, "type": "private"},
            "from": {"id": 9, "is_bot": False, "first_name": "B"},
        },
    }
    update["message"]["text"] = "status"
    answer = asked(Telegram(SETTINGS), _cannot_store, "POST", "/telegram", json=update, headers={"x-telegram-bot-api-secret-token": "s"})
    assert answer.status_code >= 500


def test_a_text_that_cannot_be_stored_is_not_taken_from_the_gateway():
    answer = asked(Sms(SETTINGS), _cannot_store, "GET", "/sms/mo?key=k&id=1&from=%2B254700000107&to=1&text=status")
    assert (answer.status_code, answer.text) == (200, "BUSY")


def test_the_offset_of_updates_moves_on_only_after_the_commit(monkeypatch):
    def update(number):
        chat = {"id": 9, "type": "private"}
        body = {"message_id": number, "date": 1, "chat": chat, "from": {"id": 9, "is_bot": False, "first_name": "B"}, "text": "status"}
        return {"update_id": number, "message": body}

    advanced = []

    async def fetched(self, offset):
        return [update(number) for number in (5, 6) if number >= (offset or 0)]

    async def take(message):
        if message.wire_id.endswith("6"):
            raise Unavailable("locked")

    async def offset():
        return max(advanced, default=None)

    async def advance(value):
        advanced.append(value)

    async def spoken():
        polls = Telegram(SETTINGS.model_copy(update={"telegram_webhook": None}))
        polling = asyncio.create_task(polls.poll(take, offset, advance))
        await until(lambda: advanced)
        await asyncio.sleep(0.2)
        polling.cancel()

    monkeypatch.setattr(Telegram, "_fetched", fetched)
    asyncio.run(spoken())
    assert set(advanced) == {6}, "the next to ask for is the one that could not be stored"


# ---- 3


def test_the_order_is_that_of_the_commits_and_not_of_whole_seconds_or_names(book):
    async def spoken():
        wire = Wire()
        async with running(book, wire) as delivery:
            delivery.close()
            for n in range(12):
                say(book, f"text {n}", STRANGER, ref=f"m{n}")  # of nobody known, so without a number of its own in any row
            delivery._open.set()
            await until(lambda: set(states(book).values()) == {"sent"})
        return wire

    assert asyncio.run(spoken()).to(STRANGER) == [f"text {n}" for n in range(12)]
    named = sorted(row["workflow_uuid"] for row in deliveries(book))
    assert named != sorted(named, key=lambda name: int(name.removeprefix("text:"))), "by their names they would be mixed"


# ---- 4, 5


def test_a_delivery_has_no_steps_no_limit_of_time_or_tries_and_plain_json(book):
    async def spoken():
        wire = Wire()
        async with running(book, wire):
            say(book, "one")
            await until(lambda: deliveries(book)[0]["status"] == "SUCCESS")

    asyncio.run(spoken())
    (row,) = deliveries(book)
    assert not rows(book, "operation_outputs")
    assert row["workflow_timeout_ms"] is None
    assert row["application_version"] == "1"
    assert row["priority"] == 1
    assert row["serialization"] == "portable_json"
    assert [kept["output"] for kept in rows(book, "workflow_output")] == ['"sent"']


class ByTheClient:
    """What engine.Rows stands for, as the client of the engine does it."""

    def __init__(self, page, client):
        self._client = client

    def write(self, page, options, *args):
        self._client.enqueue_in_transaction(page.connection, options, *args)


def test_a_text_is_queued_as_the_client_of_the_engine_queues_it(book, monkeypatch):
    row = {"channel": "sms", "lane": "later", "number": MASON}
    ours = Handover(book).open()
    with book.page() as page:
        ours.text(page, 7, row)
        ours.text(page, 7, row)  # queued once
    monkeypatch.setattr(engine, "Rows", ByTheClient)
    with book.page() as page:
        Handover(book).open().text(page, 8, row)
    own = {"workflow_uuid": ("text:7", "text:8"), "priority": (7, 8)}
    one, other = sorted(rows(book, "workflow_status"), key=lambda each: each["priority"])
    for name, value in one.items():
        if name in own:
            assert (value, other[name]) == own[name]
        elif name == "creator_xid":
            assert len({value, other[name]}) == 2 and len(value) == len(other[name])
        elif name in ("created_at", "updated_at"):
            assert 0 <= other[name] - value < 60_000, name
        else:
            assert value == other[name], name
    first, second = sorted(rows(book, "workflow_input"), key=lambda each: each["workflow_uuid"])
    told = [json.loads(each["inputs"]) for each in (first, second)]
    assert told[0] | {"positionalArgs": [8]} == told[1] and told[0]["positionalArgs"] == [7]


def test_a_text_begun_again_hundreds_of_times_is_still_sent(book):
    async def spoken():
        async with running(book, Wire()) as delivery:
            delivery.close()
            say(book, "one")
            await until(lambda: deliveries(book)[0]["status"] == "PENDING")
        with book.engine.begin() as connection:
            table = engine_table(book, "workflow_status")
            connection.execute(sa.update(table).where(table.c.name == "deliver").values(recovery_attempts=500, executor_id=_executor(book)))
        async with running(book, Wire()):
            await until(lambda: states(book) == {"one": "sent"})

    asyncio.run(spoken())


def _executor(book):
    """On SQLite each start is the same executor; on PostgreSQL the test's book keeps its name."""
    return "embedded" if book.engine.dialect.name == "sqlite" else book.owner


# ---- 6


def test_every_connection_of_the_engine_and_of_ours_is_durable_and_waits_for_locks(pattern, tmp_path):
    book = Book(f"sqlite:///{pattern}")
    held = [book.engine.connect() for _ in range(5)]
    for connection in held:
        found = {name: connection.exec_driver_sql(f"PRAGMA {name}").scalar() for name in ("journal_mode", "synchronous", "foreign_keys")}
        assert found == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1}
        assert connection.exec_driver_sql("PRAGMA busy_timeout").scalar() == 30000
        assert connection.connection.dbapi_connection.isolation_level == "IMMEDIATE"
        connection.close()
    book.engine.dispose()


def test_a_lock_that_another_process_keeps_is_not_waited_for_for_ever(url, monkeypatch):
    monkeypatch.setattr(logbook, "BUSY_S", 1)
    one, other = Book(url), Book(url)
    with one.page() as page:
        assert page.site("TB07", lock=True)
        with pytest.raises(Unavailable), other.page() as waiting:
            waiting.site("TB07", lock=True)
    for book in (one, other):
        book.engine.dispose()


# ---- 7


def test_no_table_of_ours_is_called_like_one_of_the_engine(pattern):
    book = Book(f"sqlite:///{pattern}")
    present = set(sa.inspect(book.engine).get_table_names())
    book.engine.dispose()
    engines = present - set(meta.tables) - {"alembic_version"}
    assert {"workflow_status", "queues"} <= engines, "the engine's tables are there"
    assert set(meta.tables) <= present
    assert not [name for name in meta.tables if name.startswith(("workflow", "dbos")) or name in engines]


# ---- 8


def test_the_pace_is_kept_in_the_process_and_not_by_the_database(book):
    times = []

    async def spoken():
        wire = Wire()
        wire.rate, send = 20.0, wire.send

        async def timed(out):
            times.append(asyncio.get_running_loop().time())
            return await send(out)

        wire.send = timed
        async with running(book, wire):
            for n in range(30):
                say(book, f"t{n}", f"+2547990020{n:02}", ref=f"m{n}")
            await until(lambda: len(wire.texts) == 30)

    asyncio.run(spoken())
    assert max(sum(start <= time < start + 1 for time in times) for start in times) <= 22, "20 a second, and the edge of a second"
    assert {row["rate_limit_max"] for row in rows(book, "queues")} == {None}


# ---- 9


def test_a_file_has_one_serving_process_and_a_server_several_of_different_names(url):
    books = Book(url), Book(url)

    async def spoken():
        async with running(books[0], Wire()):
            if books[0].engine.dialect.name == "sqlite":
                with pytest.raises(Taken, match="another process serves"):
                    await Engine(books[1], None, None).start(["sms"], SimpleNamespace())
        return Counter(Engine(book, None, None).executor for book in books)

    names = asyncio.run(spoken())
    assert names == {"embedded": 2} if books[0].engine.dialect.name == "sqlite" else len(names) == 2
    for book in books:
        book.engine.dispose()


# ---- 10


def test_a_system_of_32_bits_is_refused_at_once(tmp_path):
    fake = tmp_path / "python3"
    fake.write_text('#!/bin/sh\ncase "$2" in *maxsize*) exit 1 ;; esac\nexit 0\n')
    fake.chmod(0o755)
    script = f"root={ROOT}; . {ROOT}/deploy/venv.sh; make_venv {tmp_path}/venv {ROOT}/requirements.lock"
    done = subprocess.run(["sh", "-eu", "-c", script], env={"PATH": f"{tmp_path}:/usr/bin:/bin"}, capture_output=True, text=True)
    assert done.returncode == 1
    assert "64-bit" in done.stderr
    assert not (tmp_path / "venv").exists()
