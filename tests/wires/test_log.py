"""What a busy bot logs: one line for every message and text, and in none of them a text, a number or a secret."""

import io
import json
import logging
import re
import sqlite3
import urllib.request
from contextlib import closing
from types import SimpleNamespace
from urllib.parse import quote, quote_plus

import pytest

from bot import journal
from bot.channels.numbers import masked
from bot.config import Settings
from tests.wires.office import KEY, LOG_KEY, PASSWORD, SECRET, TOKEN, served, until

MASON, SUPERVISOR, STRANGER = "+254700000107", "+254700000200", "+254711222333"
FIRST = (
    ("w-1", MASON, "pit 3.12 3.08 3.10 deep 1.83"),
    ("w-1", MASON, "pit 3.12 3.08 3.10 deep 1.83"),
    ("w-2", STRANGER, "habari rafiki yangu"),
    ("w-3", MASON, "kitu kisichojulikana"),
    ("w-4", "Brand-Info", "buy airtime now"),
)
BROKEN = ("w-5", MASON, "base 10.5 11 9 cm")
CHATS = 55667788
SECRETS = (KEY, PASSWORD, LOG_KEY, TOKEN, SECRET)


def update(bot, number, text):
    body = {"update_id": number, "message": {
        "message_id": number, "date": 1772442000, "chat": {"id": CHATS, "type": "private"}, "text": text,
        "from": {"id": CHATS, "is_bot": False, "first_name": "Somebody"},
    }}  # fmt: skip
    head = {"content-type": "application/json", "x-telegram-bot-api-secret-token": SECRET}
    with urllib.request.urlopen(urllib.request.Request(f"{bot.url}/telegram", json.dumps(body).encode(), head), timeout=30) as answer:
        return answer.status


def broken_road(bot, then):
    """Do something while the log of the sites cannot be read: a fault in the middle of the road."""
    path = bot.environment["PEGLINE_DATABASE_URL"].removeprefix("sqlite:///")
    with closing(sqlite3.connect(path)) as book:
        book.execute("PRAGMA legacy_alter_table=ON")
        book.execute("ALTER TABLE entry RENAME TO away")
        then()
        book.execute("ALTER TABLE away RENAME TO entry")


def run(folder, **more):
    """A busy run over both wires: repeats, strangers, a text the gateway refuses and quotes, a fault, a stop."""
    with served(folder, TELEGRAM_TOKEN=TOKEN, TELEGRAM_SECRET=SECRET, TELEGRAM_WEBHOOK="https://bot.example", **more) as bot:
        bot.gateway.refuses.add(SUPERVISOR)
        for wire_id, number, text in FIRST:
            assert bot.sms(number, text, wire_id) == (200, "ACCEPTED")
        broken_road(bot, lambda: bot.sms(BROKEN[1], BROKEN[2], BROKEN[0]))
        assert update(bot, 501, "maneno ya siri") == 200
        until(lambda: {"sms", "telegram"} <= {row[0] for row in bot.gateway.took}, "texts went out")
        until(lambda: '"refused"' in bot.log.read_text() or " refused " in bot.log.read_text(), "the refusal is told")
        until(lambda: bot.log.read_text().count('"sent"') + bot.log.read_text().count(" sent ") >= 4, "texts are told")
        took = list(bot.gateway.took)
        bot.stop()
    return SimpleNamespace(log=bot.log.read_text(), took=took)


@pytest.fixture(scope="module")
def busy(tmp_path_factory):
    return run(tmp_path_factory.mktemp("busy"), LOG_FORMAT="json")


def told(busy, event):
    return [row for row in map(json.loads, busy.log.splitlines()) if row["event"] == event]


def test_every_message_is_one_line_with_what_became_of_it(busy):
    rows = [(row["wire_id"], row["channel"], row["outcome"]) for row in told(busy, "taken")]
    assert sorted(rows) == sorted([
        ("w-1", "sms", "understood"), ("w-1", "sms", "repeat"), ("w-2", "sms", "unread"), ("w-3", "sms", "unread"),
        ("w-4", "sms", "silent"), ("w-5", "sms", "failed"), ("501", "telegram", "unread"),
    ])  # fmt: skip
    assert all(0 < row["ms"] < 30_000 for row in told(busy, "taken"))


def test_every_text_is_one_line(busy):
    sent, refused = told(busy, "sent"), told(busy, "refused")
    assert {row["channel"] for row in sent} == {"sms", "telegram"}
    assert refused and all(row["channel"] == "sms" for row in refused)
    assert len({row["text_id"] for row in sent + refused}) == len(sent + refused)


def test_start_and_stop_are_told(busy):
    (start,), (stop,) = told(busy, "started"), told(busy, "stopped")
    assert start["wires"] == ["sms", "telegram"]
    assert start["timestamp"] <= stop["timestamp"]


def test_lines_of_one_person_match(busy):
    mason = masked(MASON, LOG_KEY)
    assert re.fullmatch(r"\+254\*{6}107/[0-9a-f]{8}", mason)
    assert [row["wire_id"] for row in told(busy, "taken") if row["who"] == mason] == ["w-1", "w-1", "w-3", "w-5"]


def test_a_fault_is_told_with_its_place_and_nothing_it_quotes(busy):
    (fault,) = [row for row in map(json.loads, busy.log.splitlines()) if row["level"] == "error"]
    assert "w-5" in fault["event"] and "OperationalError" in fault["exception"] and "inbox.py" in fault["exception"]


def secret_forms():
    return {form for secret in SECRETS for form in (secret, quote(secret), quote_plus(secret))}


def check_no_number(run):
    for number in (MASON, SUPERVISOR, STRANGER, "+254700000111", str(CHATS)):
        assert number not in run.log and number[-8:] not in run.log


def check_no_text(run):
    texts = {text for _, _, text in (*FIRST, BROKEN)} | {"maneno ya siri"} | {row[2] for row in run.took}
    assert len(texts) > 8
    assert not [text for text in texts if text in run.log]
    assert not [word for word in ("kisichojulikana", "rafiki", "airtime", "maneno", "1.83") if word in run.log]


def test_no_text_no_number_and_no_secret_is_told(busy):
    check_no_text(busy)
    check_no_number(busy)
    assert not [form for form in secret_forms() if form in busy.log]


def test_debugging_on_a_console_tells_no_secret_and_no_number(tmp_path):
    done = run(tmp_path, LOG_LEVEL="DEBUG", LOG_FORMAT="console")
    assert " started " in done.log
    check_no_number(done)
    assert not [form for form in secret_forms() if form in done.log]


@pytest.fixture
def written(monkeypatch):
    """What the journal writes of one line of a library."""
    for name in ("PEGLINE_TELEGRAM_TOKEN", "PEGLINE_SMS_PASSWORD"):
        monkeypatch.delenv(name, raising=False)
    root, kept = logging.getLogger(), logging.getLogger().handlers[:]
    level, engine = root.level, logging.getLogger("dbos")
    of_engine = (engine.handlers[:], engine.propagate)
    out = io.StringIO()
    settings = Settings(_env_file=None, telegram_token=TOKEN, sms_password=PASSWORD, log_secret=LOG_KEY, log_format="json")
    journal.begin(settings, out)
    yield lambda: json.loads(out.getvalue().splitlines()[-1])
    logging.captureWarnings(False)
    root.handlers[:], (engine.handlers, engine.propagate) = kept, of_engine
    root.setLevel(level)


@pytest.mark.parametrize("name", ["httpx", "telegram.Bot", "uvicorn.error", "dbos", "sqlalchemy.engine", "elsewhere"])
def test_what_a_library_says_is_scrubbed(name, written):
    logging.getLogger(name).warning("GET https://api/bot%s/x?to=%s&password=%s", TOKEN, MASON, quote_plus(PASSWORD))
    line = written()
    assert line["logger"] == name
    assert line["event"] == f"GET https://api/bot***/x?to={masked(MASON, LOG_KEY)}&password=***"


@pytest.mark.parametrize("name", ["httpx", "httpcore", "telegram", "uvicorn.access", "dbos"])
def test_a_library_is_heard_from_a_warning_on(name, written):
    logging.getLogger("pegline").info("before")
    logging.getLogger(name).info("GET https://api/")
    assert written()["event"] == "before"


def test_the_loop_quotes_no_fault(written):
    logging.getLogger("asyncio").error("Task exception was never retrieved\nfuture: <Task exception=ValueError('pit deep 1.83')>")
    assert written()["event"] == "Task exception was never retrieved"


def test_the_cause_of_a_fault_is_told_by_its_kind(written):
    try:
        try:
            float("deep 1.83")
        except ValueError as fault:
            raise RuntimeError("pit deep 1.83") from fault
    except RuntimeError:
        logging.getLogger("pegline").exception("it failed")
    told = written()["exception"]
    assert told.startswith("builtins.RuntimeError\n") and "builtins.ValueError\n" in told and "1.83" not in told


@pytest.mark.parametrize(
    "number, shown", [("+254700000107", r"\+254\*{6}107/"), ("+14155550123", r"\+1\*{7}123/"), ("tg:55667788", r"tg:\*{5}788/"),
                      ("2020", r"\*/"), ("Brand-Info", r"\*{7}nfo/")]
)  # fmt: skip
def test_a_number_shows_its_country_and_three_digits(number, shown):
    assert re.fullmatch(shown + "[0-9a-f]{8}", masked(number, LOG_KEY))
    assert masked(number, LOG_KEY) != masked(number, "another key")
