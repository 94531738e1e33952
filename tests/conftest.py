"""A fresh book with the demo programme, and a way to send a message down the whole road."""

import os
import shutil
from datetime import UTC, datetime
from pathlib import Path
from types import SimpleNamespace

import pytest
from hypothesis import settings

from bot import programme
from bot.channels import Inbound, terminal
from bot.inbox import take
from bot.logbook import Book
from bot.reading.words import vocabulary

os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # each process that a test starts would compile everything again

# the same examples on every machine; --hypothesis-profile=fresh looks for new ones. Nothing here is timed.
settings.register_profile("repeatable", deadline=None, derandomize=True)
settings.register_profile("fresh", deadline=None)
settings.load_profile("repeatable")

ROOT = Path(__file__).parent.parent
DEMO = ROOT / "deploy" / "sunbird.toml"
NOON = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


def pytest_collection_modifyitems(items):
    """What waits for processes goes first: at the end a core would have nothing to do beside it."""
    items.sort(key=lambda item: not {"faults", "wires"} & set(item.path.parts))


@pytest.fixture(scope="session")
def demo(tmp_path_factory):
    """A book with the demo programme, to be copied: to make one takes twenty times as long."""
    path = tmp_path_factory.mktemp("demo") / "book.sqlite"
    made = Book(f"sqlite:///{path}")
    made.upgrade()
    with made.page() as page:
        programme.store(page, *programme.read(DEMO), NOON)
    made.engine.dispose()
    return path


@pytest.fixture
def book(demo, tmp_path):
    shutil.copy(demo, tmp_path / "book.sqlite")
    made = Book(f"sqlite:///{tmp_path}/book.sqlite")
    yield made
    made.engine.dispose()


@pytest.fixture
def sms(book):
    """sms(number, text) -> the reply to a message over a wire that does not prove its sender."""
    count = iter(range(100))

    def sent(number, text):
        message = Inbound("sms", f"s{next(count)}", number, text, NOON, proven=False)
        take(message, book, vocabulary(), NOON)
        with book.page() as page:
            return next(row["text"] for row in page.queued("sms", message.wire_id) if row["number"] == number)

    return sent


@pytest.fixture
def send(book):
    """send("mason", "pit deep 1.8 m") -> what went out, as Outbound rows, with .reply and .to(name)."""

    def sent(name, text, now=NOON, wire_id=None):
        with book.page() as page:
            person = page.person(short=name)
        number = person.number if person else name
        message = terminal.inbound(number, text, now, wire_id)
        taken = take(message, book, vocabulary(), now)
        with book.page() as page:
            rows = terminal.outgoing(page, message.wire_id)
        own = [row.text for row in rows if row.to == number]
        return SimpleNamespace(rows=rows, replies=own, reply=" ".join(own), taken=taken, wire_id=message.wire_id)

    return sent
