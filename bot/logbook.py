"""A Book is a database; `with book.page() as page` is one transaction on it, with every query that is made there.

The log of a site only grows: an entry is never changed and never deleted.
"""

import sqlite3
import threading
from contextlib import contextmanager
from functools import cached_property
from importlib import import_module
from pathlib import Path
from uuid import uuid4

import sqlalchemy as sa

from bot.addresses import Addresses
from bot.codebook import Codes
from bot.mailbook import Mail
from bot.people import Person
from bot.quick import Quick
from bot.rolebook import Roles
from bot.shelf import Shelf
from bot.sitebook import Sites
from bot.tables import person, programme, role, site
from bot.timerbook import Clockwork

HEAD = "0006"  # the newest step in migrations/versions
_KEEPALIVE = {"keepalives_idle": 30, "keepalives_interval": 10, "keepalives_count": 3}
BUSY_S = 30  # how long a lock of others is waited for
STEPS = 7400  # lock of the migration steps, so that two processes that start on an empty database do not both make them

# what every message asks is put together once: that costs more than to run it
_GIVEN = sa.bindparam("given")
_PERSON = {column.name: sa.select(person).where(column == _GIVEN) for column in (person.c.short, person.c.id)}
_ROLES = (
    sa.select(role.c.site, role.c.role).where((role.c.person_id == _GIVEN) & (role.c.state == "active")).order_by(role.c.site, role.c.role)
)
_STANDING = sa.select(person.c.place, person.c.place_at, person.c.question).where(person.c.id == _GIVEN)
_STAND = sa.update(person).where(person.c.id == _GIVEN)
_ASKING = sa.select(person.c.id, person.c.name, role.c.role, person.c.number).join(role, role.c.person_id == person.c.id)
_ASKING = _ASKING.where((role.c.site == _GIVEN) & (role.c.state == "pending")).order_by(person.c.id, role.c.role)
_NAMES = sa.select(person.c.name)
_EDITION = sa.select(*(sa.select(sa.func.count()).select_from(table).scalar_subquery() for table in (programme, person, site)))


class Unavailable(Exception):
    """The book cannot be had now: locked by others for too long, out of reach, or two messages in each other's way."""


class Book:
    """A database of sites; SQLite by default, PostgreSQL by another URL."""

    def __init__(self, url):
        self.url = sa.make_url(url)
        if self.url.get_backend_name() == "sqlite" and self.url.database:
            Path(self.url.database).parent.mkdir(parents=True, exist_ok=True)
        self.post = None  # who carries texts away; without one they lie queued
        if self.url.drivername == "postgresql":
            self.url = self.url.set(drivername="postgresql+psycopg")
        self.owner = f"pegline-{uuid4().hex}"  # by this name PostgreSQL knows whose connections are alive
        self.engine = sa.create_engine(self.url, hide_parameters=True, **_pool(self.url.get_backend_name(), self.owner))
        if self.engine.dialect.name == "sqlite":
            sa.event.listen(self.engine, "connect", _tune)
            _in_turn(self.engine)
        self._shelf, self._quick = Shelf(), Quick(self.engine.dialect)
        raw = self.engine.dialect.loaded_dbapi
        self._away = (sa.exc.OperationalError, sa.exc.InterfaceError, sa.exc.TimeoutError, raw.OperationalError, raw.InterfaceError)

    @contextmanager
    def page(self, write=True):
        """One transaction: committed as a whole when the block ends, undone as a whole if it fails; or a look at one row."""
        try:
            with self.engine.begin() as connection:
                if write:
                    begin(connection)
                yield Page(connection, self._quick, self._shelf, self.post)
        except self._away as fault:
            if _wrong(fault):
                raise
            raise Unavailable(type(fault).__name__) from fault

    def has_engine(self):
        """True where the tables of the delivery engine are there."""
        schema = None if self.engine.dialect.name == "sqlite" else "dbos"
        return sa.inspect(self.engine).has_table("workflow_status", schema=schema)

    def version(self):
        """The migration step the database stands at, or None for an empty one."""
        if not sa.inspect(self.engine).has_table("alembic_version"):
            return None
        with self.engine.connect() as connection:
            return connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalar()

    def upgrade(self):
        """Bring the tables to the newest step; nothing to do costs one query."""
        if self.version() == HEAD:
            return
        from alembic import command
        from alembic.config import Config

        config = Config()
        config.set_main_option("script_location", str(Path(__file__).parent / "migrations"))
        config.attributes["engine"] = self.engine
        command.upgrade(config, HEAD)


def _pool(backend, owner):
    if backend == "sqlite":
        return {}
    waits = f"-c lock_timeout={BUSY_S}s -c idle_in_transaction_session_timeout={2 * BUSY_S}s"  # a process that froze lets go
    return {"pool_pre_ping": True, "pool_size": 10, "connect_args": _KEEPALIVE | {"application_name": owner, "options": waits}}


def _wrong(fault):
    """True for a statement that no waiting mends; SQLite says so in the same breath as locked."""
    return getattr(getattr(fault, "orig", fault), "sqlite_errorcode", None) == sqlite3.SQLITE_ERROR


def begin(connection, alone=False):
    """Take the write lock of SQLite before anything is read, so that what was read still holds at the commit."""
    if connection.dialect.name == "sqlite":
        connection.exec_driver_sql("BEGIN IMMEDIATE")
    elif alone:
        connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({STEPS})")


def _tune(connection, record):
    connection.isolation_level = "IMMEDIATE"  # as the delivery engine expects of an engine that is not its own
    for pragma in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", f"busy_timeout={BUSY_S * 1000}"):
        connection.execute(f"PRAGMA {pragma}").close()


def _in_turn(engine):
    """Let the threads of this process write one after the other: SQLite has them nap ever longer, and not in turn."""
    turn = threading.Lock()

    def wait(connection, cursor, statement, *more):
        info = connection.info
        if not info.get("writes") and not statement.startswith(("SELECT", "PRAGMA", "WITH")):
            info["writes"] = turn.acquire(timeout=BUSY_S)  # after that SQLite itself says that it is locked

    def leave(connection, record):
        if record.info.pop("writes", False):
            turn.release()

    sa.event.listen(engine, "before_cursor_execute", wait)
    sa.event.listen(engine, "checkin", leave)


class Page(Sites, Mail, Clockwork, Codes, Addresses, Roles):
    """One transaction on the book, and every query made in it."""

    def __init__(self, connection, quick, shelf, post=None):
        self.connection, self.post = connection, post
        self._run, self._shelf = connection.execute, shelf
        self._quick, self._driver = quick, connection.connection.driver_connection
        self._stood = {}  # where the people of this page stand, until that is changed
        self._wrote = False  # from then on nothing read is kept: it may be undone
        self._at = {}  # number -> the people there, asked for by every text to it
        self._insert = import_module(f"sqlalchemy.dialects.{connection.dialect.name}").insert

    def _ask(self, statement, **values):
        """Run a statement that is asked again and again."""
        return self._quick.run(self._driver, statement, values)

    def put(self, statement, values):
        """Run a statement that stays, on a table that is not the book's own."""
        self._ask(statement, **values)

    def _at_hand(self, name, read):
        """What only a new programme, person or site changes: read once for as long as there is none."""
        if self._wrote:
            return read()
        thing = self._shelf.thing(name, self._edition)
        if thing is None:
            thing = read()
            self._shelf.keep(name, self._edition, thing)
        return thing

    @cached_property
    def _edition(self):
        """How many programmes, people and sites were ever written down."""
        return tuple(self._ask(_EDITION).one())

    # ---- other processes on the same database
    def alone(self, name):
        """True where no other transaction holds this name; held until the end of this one. SQLite has one writer anyway."""
        if self.connection.dialect.name == "sqlite":
            return True
        return self._run(sa.select(sa.func.pg_try_advisory_xact_lock(sa.func.hashtext(name)))).scalar_one()

    def turn(self, name):
        """Wait until no other transaction holds this name, and hold it until the end of this one. SQLite has one writer anyway."""
        if self.connection.dialect.name != "sqlite":
            self._run(sa.select(sa.func.pg_advisory_xact_lock(sa.func.hashtext(name))))

    def connected(self):
        """The names under which processes are connected to this database."""
        names = "SELECT application_name FROM pg_stat_activity WHERE datname = current_database()"
        return frozenset(self.connection.exec_driver_sql(names).scalars())

    # ---- people
    def person(self, **by):
        """The person with this number, short name or id, with his confirmed roles, or None; of several on a number the first."""
        (column, value), *_ = by.items()
        if column == "number":
            return next(iter(self.people_at(value)), None)
        row = self._ask(_PERSON[column], given=value).mappings().first()
        return self._person(row) if row else None

    def _person(self, row):
        held = tuple(tuple(each) for each in self._ask(_ROLES, given=row["id"]))
        self._stood[row["id"]] = (row["place"], row["place_at"], row["question"])
        named = ("id", "name", "short", "number", "language", "units")
        return Person(*(row[name] for name in named), roles=held)

    def people(self):
        """Everybody known."""
        return tuple(self._person(row) for row in self._run(sa.select(person).order_by(person.c.id)).mappings().all())

    def names(self):
        """Every word of every name known, in small letters."""
        return self._at_hand("names", lambda: frozenset(word for name in self._ask(_NAMES).scalars() for word in name.casefold().split()))

    def team(self, code, *roles):
        """Everybody who holds one of the roles at a site."""
        here = (role.c.site == code) & role.c.role.in_(roles) & (role.c.state == "active")
        rows = self._run(sa.select(role.c.person_id).where(here).distinct().order_by(role.c.person_id)).all()
        return tuple(self.person(id=row.person_id) for row in rows)

    def office(self, name):
        """Everybody who holds a role at any site."""
        rows = self._run(sa.select(role.c.person_id).where((role.c.role == name) & (role.c.state == "active")).distinct()).all()
        return tuple(self.person(id=row.person_id) for row in sorted(rows))

    def asking(self, code):
        """(person id, name, role, number) of those who asked to join a site and wait for the supervisor."""
        return tuple(self._ask(_ASKING, given=code).all())

    def set_person(self, person_id, **values):
        """Change what is kept of a person: language, units, place, open question."""
        if values:
            self._stood.pop(person_id, None)
            self._ask(_STAND, **values, given=person_id)

    def give_role(self, person_id, code, name, state="active"):
        """Give somebody a role at a site, or ask for it (state "pending")."""
        self._at = {}
        said = {"state": state, "origin": "message"}
        row = self._insert(role).values(person_id=person_id, site=code, role=name, **said)
        self._run(row.on_conflict_do_update(index_elements=["person_id", "site", "role"], set_=said))

    def standing(self, person_id):
        """(place, since when, open question) of a person."""
        return self._stood.get(person_id) or tuple(self._ask(_STANDING, given=person_id).one())
