"""Tables and every query. The site log only grows: an entry is never changed and never deleted.

The one importer of sqlalchemy. A Book is a database; `with book.page() as page` is one transaction on it.
"""

import json
import threading
from contextlib import contextmanager
from importlib import import_module
from pathlib import Path
from uuid import uuid4

import sqlalchemy as sa

from bot.codebook import Codes
from bot.mailbook import Mail
from bot.people import Person
from bot.site import Logged, Rules, Site
from bot.tables import address, entry, person, programme, role, site
from bot.timerbook import Clockwork

HEAD = "0003"  # the newest step in migrations/versions
_KEEPALIVE = {"keepalives_idle": 30, "keepalives_interval": 10, "keepalives_count": 3}
BUSY_S = 30  # how long a lock of others is waited for
STEPS = 7400  # lock of the migration steps, so that two processes that start on an empty database do not both make them

# what every message asks is put together once: that costs more than to run it
_GIVEN = sa.bindparam("given")
_PERSON = {column.name: sa.select(person).where(column == _GIVEN) for column in (person.c.number, person.c.short, person.c.id)}
_ROLES = (
    sa.select(role.c.site, role.c.role).where((role.c.person_id == _GIVEN) & (role.c.state == "active")).order_by(role.c.site, role.c.role)
)
_STANDING = sa.select(person.c.place, person.c.place_at, person.c.question).where(person.c.id == _GIVEN)
_SITE = sa.select(site).where(site.c.code == _GIVEN)
_LOG = sa.select(entry, person.c.name).outerjoin(person, person.c.id == entry.c.person_id)
_LOG = _LOG.where(entry.c.site == _GIVEN).order_by(entry.c.number)
_ASKING = sa.select(person.c.id, person.c.name, role.c.role).join(role, role.c.person_id == person.c.id)
_ASKING = _ASKING.where((role.c.site == _GIVEN) & (role.c.state == "pending"))
_CODES, _NAMES = sa.select(site.c.code).order_by(site.c.code), sa.select(person.c.name)
_RULES = sa.select(programme.c.rules).order_by(programme.c.id.desc()).limit(1)
_WRITE = sa.insert(entry)


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

    @contextmanager
    def page(self, write=True):
        """One transaction: committed as a whole when the block ends, undone as a whole if it fails; or a look at one row."""
        try:
            with self.engine.begin() as connection:
                if write:
                    begin(connection)
                yield Page(connection, self.post)
        except (sa.exc.OperationalError, sa.exc.InterfaceError, sa.exc.TimeoutError) as fault:
            if "no such" in str(getattr(fault, "orig", "")):  # SQLite's word for a wrong statement, which no waiting mends
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
    return {"pool_pre_ping": True, "pool_size": 10, "connect_args": _KEEPALIVE | {"application_name": owner}}


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


class Page(Mail, Clockwork, Codes):
    """One transaction on the book, and every query made in it."""

    def __init__(self, connection, post=None):
        self.connection, self.post = connection, post
        self._run = connection.execute
        self._rules = None  # asked for by every site and reader of one message
        self._insert = import_module(f"sqlalchemy.dialects.{connection.dialect.name}").insert

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
        """The person with this number, short name or id, with his confirmed roles, or None."""
        (column, value), *_ = by.items()
        row = self._run(_PERSON[column], {"given": value}).mappings().first()
        if row is None and column == "number":
            linked = sa.select(address.c.person_id).where(address.c.number == value).scalar_subquery()
            row = self._run(sa.select(person).where(person.c.id == linked)).mappings().first()
        return self._person(row) if row else None

    def _person(self, row):
        held = tuple(tuple(each) for each in self._run(_ROLES, {"given": row["id"]}))
        named = ("id", "name", "short", "number", "language", "units")
        return Person(*(row[name] for name in named), roles=held)

    def people(self):
        """Everybody known."""
        return tuple(self._person(row) for row in self._run(sa.select(person).order_by(person.c.id)).mappings().all())

    def names(self):
        """Every word of every name known, in small letters."""
        return frozenset(word for name in self._run(_NAMES).scalars() for word in name.casefold().split())

    def team(self, code, *roles):
        """Everybody who holds one of the roles at a site."""
        here = (role.c.site == code) & role.c.role.in_(roles) & (role.c.state == "active")
        rows = self._run(sa.select(role.c.person_id).where(here).distinct().order_by(role.c.person_id)).all()
        return tuple(self.person(id=row.person_id) for row in rows)

    def asking(self, code):
        """(person id, name, role) of those who asked to join a site and wait for the supervisor."""
        return tuple(self._run(_ASKING, {"given": code}).all())

    def save_person(self, **values):
        """Write a person down, new or changed, and return the id."""
        values = {"language": "en", "units": "metric", "out_seq": 0, **values}
        changed = {name: values[name] for name in ("name", "short", "language", "units")}
        row = self._insert(person).values(values).on_conflict_do_update(index_elements=["number"], set_=changed)
        return self._run(row.returning(person.c.id)).scalar_one()

    def set_person(self, person_id, **values):
        """Change what is kept of a person: language, units, place, open question."""
        if values:
            self._run(sa.update(person).where(person.c.id == person_id).values(values))

    def give_role(self, person_id, code, name, state="active"):
        """Give somebody a role at a site, or ask for it (state "pending")."""
        row = self._insert(role).values(person_id=person_id, site=code, role=name, state=state)
        self._run(row.on_conflict_do_update(index_elements=["person_id", "site", "role"], set_={"state": state}))

    def standing(self, person_id):
        """(place, since when, open question) of a person."""
        return tuple(self._run(_STANDING, {"given": person_id}).one())

    # ---- sites
    def save_site(self, **values):
        """Write a site down as the programme file has it, new or changed."""
        row = self._insert(site).values(values)
        changed = {k: v for k, v in values.items() if k not in ("code", "started_at")}
        self._run(row.on_conflict_do_update(index_elements=["code"], set_=changed))

    def codes(self):
        """The codes of all sites, in order."""
        return tuple(self._run(_CODES).scalars())

    def site(self, code, lock=False):
        """The Site as its log tells it, or None; `lock` keeps other messages of the site waiting."""
        row = self._run(_SITE.with_for_update() if lock else _SITE, {"given": code}).mappings().first()
        if row is None:
            return None
        rules = {**self.rules(), **row["rules"]}
        named = (row["code"], row["name"], Rules(**rules), row["plan"], row["planned_by"], row["started_at"])
        return Site(*named, log=self.entries(code), waiting=tuple(name for _, name, _ in self.asking(code)))

    def entries(self, code):
        """The log of a site, in order."""
        rows = self._run(_LOG, {"given": code})
        return tuple(
            Logged(r.number, r.kind, r.at, r.person_id, r.name or "", r.fields, r.verdict, tuple(r.cautions), r.refers, r.held)
            for r in rows
        )

    def write(self, code, number, made, now, person_id, edition, message):
        """Add an entry to the log of a site under its number."""
        row = {
            "site": code,
            "number": number,
            "kind": made.kind,
            "at": now,
            "person_id": person_id,
            "fields": made.fields,
            "verdict": made.verdict,
            "cautions": list(made.cautions),
            "held": json.dumps(made.held),
            "refers": made.refers,
            "edition": edition,
            "channel": message.channel,
            "wire_id": message.wire_id,
        }
        self._run(_WRITE, row)

    # ---- the programme
    def rules(self):
        """The settings of the programme loaded last, or {} where none is."""
        if self._rules is None:
            self._rules = self._run(_RULES).scalar() or {}
        return self._rules

    def digest(self):
        """The digest of the programme file loaded last, or None."""
        return self._run(sa.select(programme.c.digest).order_by(programme.c.id.desc()).limit(1)).scalar()

    def link(self, person_id, channel, number, now):
        """Write down that a person is also reached under this number or chat."""
        row = self._insert(address).values(number=number, person_id=person_id, channel=channel, linked_at=now)
        self._run(row.on_conflict_do_update(index_elements=["number"], set_={"person_id": person_id, "linked_at": now}))

    def links(self, person_id):
        """(channel, number) of everything a person is reached by besides his own number, the newest first."""
        query = sa.select(address.c.channel, address.c.number).where(address.c.person_id == person_id)
        return tuple(self._run(query.order_by(address.c.linked_at.desc())).all())

    def save_programme(self, digest, rules, now):
        """Write down that a programme was loaded, with its settings."""
        self._rules = None
        self._run(sa.insert(programme).values(digest=digest, rules=rules, loaded_at=now))
