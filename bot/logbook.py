"""Tables and every query. The site log only grows: an entry is never changed and never deleted.

The one importer of sqlalchemy. A Book is a database; `with book.page() as page` is one transaction on it.
"""

import json
from contextlib import contextmanager
from datetime import UTC
from importlib import import_module
from pathlib import Path

import sqlalchemy as sa

from bot.people import Person
from bot.site import Logged, Rules, Site

HEAD = "0001"  # the newest step in migrations/versions


class Utc(sa.TypeDecorator):
    """A moment, kept in UTC; one without a zone is refused."""

    impl = sa.DateTime
    cache_ok = True

    def process_bind_param(self, value, dialect):
        if value is not None and value.tzinfo is None:
            raise ValueError("a moment without a time zone")
        return None if value is None else value.astimezone(UTC).replace(tzinfo=None)

    def process_result_value(self, value, dialect):
        return None if value is None else value.replace(tzinfo=UTC)


meta = sa.MetaData()


def _word(name, size=12, nullable=False, **more):
    return sa.Column(name, sa.String(size), nullable=nullable, **more)


def _of(name, kind, nullable=False, **more):
    return sa.Column(name, kind, nullable=nullable, **more)


def _key(name, kind=sa.Integer, **more):
    return sa.Column(name, kind, primary_key=True, **more)


programme = sa.Table("programme", meta, _key("id"), _of("loaded_at", Utc), _word("digest", 64), _of("rules", sa.JSON))
site = sa.Table(
    "site", meta, _key("code", sa.String(8)), _word("name", 80), _of("plan", sa.JSON, True), _word("planned_by", 80, True),
    _word("started_at", 20), _of("rules", sa.JSON),
)  # fmt: skip
person = sa.Table(
    "person", meta, _key("id"), _word("name", 80), _word("short", 40, unique=True), _word("number", 24, unique=True),
    _word("language"), _word("units"), _of("out_seq", sa.Integer), _word("place", 8, True), _of("place_at", Utc, True),
    _of("question", sa.JSON, True),
)  # fmt: skip
role = sa.Table(
    "role", meta, _key("person_id", sa.ForeignKey("person.id")), _key("site", sa.ForeignKey("site.code")),
    _key("role", sa.String(12)), _word("state"),
)  # fmt: skip
inbound = sa.Table(
    "inbound", meta, _key("channel", sa.String(12)), _key("wire_id", sa.String(80)), _word("sender", 24),
    _of("text", sa.Text), _of("sent_at", Utc, True), _of("received_at", Utc), _word("state"),
)  # fmt: skip
entry = sa.Table(
    "entry", meta, _key("site", sa.ForeignKey("site.code")), _key("number", autoincrement=False), _word("kind", 20),
    _of("at", Utc), _of("person_id", sa.ForeignKey("person.id"), True), _of("fields", sa.JSON), _word("verdict", 20, True),
    _of("cautions", sa.JSON), _of("held", sa.Text), _of("refers", sa.Integer, True), _word("edition", 20), _word("channel", nullable=True),
    _word("wire_id", 80, True),
)  # fmt: skip
outgoing = sa.Table(
    "outgoing", meta, _key("id"), _word("number", 24), _of("person_id", sa.ForeignKey("person.id"), True), _word("role"),
    _of("seq", sa.Integer), _word("channel"), _of("text", sa.Text), _of("segments", sa.Integer), _word("encoding", 8),
    _word("edition", 20), _word("state"), _of("due", Utc), _word("wire_id", 80, True),
    sa.Index("outgoing_wire", "channel", "wire_id"), sa.Index("outgoing_number", "number", "id"),
)  # fmt: skip


class Book:
    """A database of sites; SQLite by default, PostgreSQL by another URL."""

    def __init__(self, url):
        self.url = sa.make_url(url)
        if self.url.get_backend_name() == "sqlite" and self.url.database:
            Path(self.url.database).parent.mkdir(parents=True, exist_ok=True)
        self.engine = sa.create_engine(self.url)
        if self.engine.dialect.name == "sqlite":
            sa.event.listen(self.engine, "connect", _tune)
            sa.event.listen(self.engine, "begin", lambda connection: connection.exec_driver_sql("BEGIN IMMEDIATE"))

    @contextmanager
    def page(self):
        """One transaction: committed as a whole when the block ends, undone as a whole if it fails."""
        with self.engine.begin() as connection:
            yield Page(connection)

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


def _tune(connection, record):
    connection.isolation_level = None  # the begin event writes BEGIN IMMEDIATE itself
    for pragma in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", "busy_timeout=30000"):
        connection.execute(f"PRAGMA {pragma}").close()


class Page:
    """One transaction on the book, and every query made in it."""

    def __init__(self, connection):
        self._run = connection.execute
        self._rules = None  # asked for by every site and reader of one message
        self._insert = import_module(f"sqlalchemy.dialects.{connection.dialect.name}").insert

    # ---- what came in
    def land(self, message, now):
        """Write the raw message down; False where this wire id has come before."""
        row = self._insert(inbound).values(
            channel=message.channel,
            wire_id=message.wire_id,
            sender=message.sender,
            text=message.text,
            sent_at=message.sent_at,
            received_at=now,
            state="answered",
        )
        return self._run(row.on_conflict_do_nothing().returning(inbound.c.wire_id)).first() is not None

    def mark_failed(self, message):
        """Say of a message that answering it failed."""
        here = (inbound.c.channel == message.channel) & (inbound.c.wire_id == message.wire_id)
        self._run(sa.update(inbound).where(here).values(state="failed"))

    def count_from(self, sender, since):
        """How many messages a number has sent since a moment."""
        here = (inbound.c.sender == sender) & (inbound.c.received_at >= since)
        return self._run(sa.select(sa.func.count()).select_from(inbound).where(here)).scalar_one()

    # ---- people
    def person(self, **by):
        """The person with this number, short name or id, with his confirmed roles, or None."""
        (column, value), *_ = by.items()
        row = self._run(sa.select(person).where(person.c[column] == value)).mappings().first()
        return self._person(row) if row else None

    def _person(self, row):
        here = (role.c.person_id == row["id"]) & (role.c.state == "active")
        order = (role.c.site, role.c.role)
        held = tuple((r.site, r.role) for r in self._run(sa.select(role).where(here).order_by(*order)))
        named = ("id", "name", "short", "number", "language", "units")
        return Person(*(row[name] for name in named), roles=held)

    def people(self):
        """Everybody known."""
        return tuple(self._person(row) for row in self._run(sa.select(person).order_by(person.c.id)).mappings().all())

    def names(self):
        """Every word of every name known, in small letters."""
        return frozenset(word for name in self._run(sa.select(person.c.name)).scalars() for word in name.casefold().split())

    def team(self, code, *roles):
        """Everybody who holds one of the roles at a site."""
        here = (role.c.site == code) & role.c.role.in_(roles) & (role.c.state == "active")
        rows = self._run(sa.select(role.c.person_id).where(here).distinct().order_by(role.c.person_id)).all()
        return tuple(self.person(id=row.person_id) for row in rows)

    def waiting(self, code):
        """(person id, name, role) of those who asked to join a site and wait for the supervisor."""
        query = sa.select(person.c.id, person.c.name, role.c.role).join(role, role.c.person_id == person.c.id)
        return tuple(self._run(query.where((role.c.site == code) & (role.c.state == "pending"))).all())

    def save_person(self, **values):
        """Write a person down, new or changed, and return the id."""
        values = {"language": "en", "units": "metric", "out_seq": 0, **values}
        changed = {name: values[name] for name in ("name", "short", "language", "units")}
        row = self._insert(person).values(values).on_conflict_do_update(index_elements=["number"], set_=changed)
        return self._run(row.returning(person.c.id)).scalar_one()

    def set_person(self, person_id, **values):
        """Change what is kept of a person: language, units, place, open question."""
        self._run(sa.update(person).where(person.c.id == person_id).values(values))

    def give_role(self, person_id, code, name, state="active"):
        """Give somebody a role at a site, or ask for it (state "pending")."""
        row = self._insert(role).values(person_id=person_id, site=code, role=name, state=state)
        self._run(row.on_conflict_do_update(index_elements=["person_id", "site", "role"], set_={"state": state}))

    def standing(self, person_id):
        """(place, since when, open question) of a person."""
        columns = (person.c.place, person.c.place_at, person.c.question)
        return tuple(self._run(sa.select(*columns).where(person.c.id == person_id)).one())

    # ---- sites
    def save_site(self, **values):
        """Write a site down as the programme file has it, new or changed."""
        row = self._insert(site).values(values)
        changed = {k: v for k, v in values.items() if k not in ("code", "started_at")}
        self._run(row.on_conflict_do_update(index_elements=["code"], set_=changed))

    def codes(self):
        """The codes of all sites, in order."""
        return tuple(self._run(sa.select(site.c.code).order_by(site.c.code)).scalars())

    def site(self, code, lock=False):
        """The Site as its log tells it, or None; `lock` keeps other messages of the site waiting."""
        query = sa.select(site).where(site.c.code == code)
        row = self._run(query.with_for_update() if lock else query).mappings().first()
        if row is None:
            return None
        rules = {**self.rules(), **row["rules"]}
        named = (row["code"], row["name"], Rules(**rules), row["plan"], row["planned_by"], row["started_at"])
        return Site(*named, log=self.entries(code), waiting=tuple(name for _, name, _ in self.waiting(code)))

    def entries(self, code):
        """The log of a site, in order."""
        query = sa.select(entry, person.c.name).outerjoin(person, person.c.id == entry.c.person_id)
        rows = self._run(query.where(entry.c.site == code).order_by(entry.c.number))
        return tuple(
            Logged(r.number, r.kind, r.at, r.person_id, r.name or "", r.fields, r.verdict, tuple(r.cautions), r.refers, r.held)
            for r in rows
        )

    def write(self, code, number, made, now, person_id, edition, message):
        """Add an entry to the log of a site under its number."""
        self._run(
            sa.insert(entry).values(
                site=code,
                number=number,
                kind=made.kind,
                at=now,
                person_id=person_id,
                fields=made.fields,
                verdict=made.verdict,
                cautions=list(made.cautions),
                held=json.dumps(made.held),
                refers=made.refers,
                edition=edition,
                channel=message.channel,
                wire_id=message.wire_id,
            )
        )

    # ---- what goes out
    def say(self, **values):
        """Queue a text for somebody; it takes the next place in the order of what that person gets."""
        seq = 0
        if values.get("person_id"):
            count = sa.update(person).where(person.c.id == values["person_id"]).values(out_seq=person.c.out_seq + 1)
            seq = self._run(count.returning(person.c.out_seq)).scalar_one()
        self._run(sa.insert(outgoing).values(seq=seq, state="queued", **values))

    def queued(self, channel, wire_id):
        """The texts still to go out for one message, in order."""
        here = (outgoing.c.channel == channel) & (outgoing.c.wire_id == wire_id) & (outgoing.c.state == "queued")
        return self._run(sa.select(outgoing).where(here).order_by(outgoing.c.id)).mappings().all()

    def mark(self, ids, state):
        """Say of outgoing texts how far they are."""
        self._run(sa.update(outgoing).where(outgoing.c.id.in_(ids)).values(state=state))

    # ---- the programme
    def rules(self):
        """The settings of the programme loaded last, or {} where none is."""
        if self._rules is None:
            newest = sa.select(programme.c.rules).order_by(programme.c.id.desc()).limit(1)
            self._rules = self._run(newest).scalar() or {}
        return self._rules

    def digest(self):
        """The digest of the programme file loaded last, or None."""
        return self._run(sa.select(programme.c.digest).order_by(programme.c.id.desc()).limit(1)).scalar()

    def save_programme(self, digest, rules, now):
        """Write down that a programme was loaded, with its settings."""
        self._rules = None
        self._run(sa.insert(programme).values(digest=digest, rules=rules, loaded_at=now))
