"""What breaks is looked at on both databases: a book on SQLite and one on PostgreSQL, each with the tables of the engine."""

import shutil
import tempfile
from itertools import count
from pathlib import Path

import pytest

from bot import engine, programme
from bot.engine import Handover
from bot.logbook import Book
from tests.conftest import DEMO, NOON
from tests.postgres import Postgres

_numbers = count(1)


def prepared(url):
    """Bring a database to the newest step, load the demo programme, make the engine's tables; return its address."""
    book = Book(url)
    book.upgrade()
    with book.page() as page:
        programme.store(page, *programme.read(DEMO), NOON)
    Handover(book).open(["sms"]).close()
    book.engine.dispose()
    return url


@pytest.fixture(scope="session")
def postgres():
    # not among the folders of pytest, which another run of pytest closes to all but its own user
    with tempfile.TemporaryDirectory(prefix="pegline-") as folder, Postgres(Path(folder) / "server") as server:
        prepared(server.made("pattern"))
        yield server


@pytest.fixture(scope="session")
def pattern(tmp_path_factory):
    path = tmp_path_factory.mktemp("pattern") / "book.sqlite"
    prepared(f"sqlite:///{path}")
    return path


@pytest.fixture(params=["sqlite", "postgresql"])
def url(request, tmp_path):
    """The address of a fresh database."""
    if request.param == "sqlite":
        shutil.copy(request.getfixturevalue("pattern"), tmp_path / "book.sqlite")
        return f"sqlite:///{tmp_path}/book.sqlite"
    return request.getfixturevalue("postgres").made(f"book{next(_numbers)}", "pattern")


@pytest.fixture(autouse=True)
def impatient(monkeypatch):
    """The engine of this process looks more often than it does in earnest."""
    monkeypatch.setattr(engine, "LANES", {lane: (at_once, 0.05) for lane, (at_once, _) in engine.LANES.items()})
    monkeypatch.setattr(engine, "LOOK_S", 0.1)


@pytest.fixture
def book(url):
    made = Book(url)
    yield made
    made.engine.dispose()
