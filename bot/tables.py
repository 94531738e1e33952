"""The tables of the book. Those of the delivery engine stand beside them in the same database and are its own."""

from datetime import UTC

import sqlalchemy as sa


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
    "person", meta, _key("id"), _word("name", 80), _word("short", 40, unique=True), _word("number", 24),
    _word("language"), _word("units"), _of("out_seq", sa.Integer), _word("place", 8, True), _of("place_at", Utc, True),
    _of("question", sa.JSON, True), _word("filed", 24, True), sa.UniqueConstraint("number", "name", name="person_number_name"),
)  # fmt: skip
role = sa.Table(
    "role", meta, _key("person_id", sa.ForeignKey("person.id")), _key("site", sa.ForeignKey("site.code")),
    _key("role", sa.String(12)), _word("state"), _word("origin", nullable=True),
)  # fmt: skip
inbound = sa.Table(
    "inbound", meta, _key("channel", sa.String(12)), _key("wire_id", sa.String(80)), _word("sender", 24),
    _of("text", sa.Text), _of("sent_at", Utc, True), _of("received_at", Utc), _word("state"),
    sa.Index("inbound_sender", "sender", "received_at"),
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
    _word("edition", 20), _word("state"), _of("due", Utc), _word("wire_id", 80, True), _word("lane", 8), _of("tries", sa.Integer),
    _of("sent_at", Utc, True), _word("gateway_id", 80, True), _word("receipt", 12, True), _of("receipt_at", Utc, True),
    _word("fault", 200, True), _of("buttons", sa.JSON, True), _word("file", 400, True),
    sa.Index("outgoing_wire", "channel", "wire_id"), sa.Index("outgoing_number", "number", "id"), sa.Index("outgoing_state", "state", "id"),
)  # fmt: skip
address = sa.Table(  # where a person is reached besides his number: other numbers, a chat
    "address", meta, _key("number", sa.String(24)), _of("person_id", sa.ForeignKey("person.id")), _word("channel"), _of("linked_at", Utc),
)  # fmt: skip
speaker = sa.Table(  # of a number that several share: who writes until when, and the texts of which it is asked
    "speaker", meta, _key("number", sa.String(24)), _of("person_id", sa.ForeignKey("person.id"), True), _of("until", Utc, True),
    _of("asked", sa.JSON),
)  # fmt: skip
one_time = sa.Table(  # codes that prove something once: whose they are, what for, and only the hash of the code itself
    "one_time", meta, _key("id"), _word("purpose"), _of("person_id", sa.ForeignKey("person.id")), _word("site", 8, True),
    _word("role", nullable=True), _of("text", sa.Text, True), _word("digest", 80), _of("made_at", Utc), _of("until", Utc),
    _of("tries", sa.Integer), _word("state"), sa.Index("one_time_open", "purpose", "state"),
)  # fmt: skip
part = sa.Table(  # pieces of long texts that wait for the others
    "part", meta, _key("channel", sa.String(12)), _key("sender", sa.String(24)), _key("receiver", sa.String(24)),
    _key("ref", autoincrement=False), _key("total", autoincrement=False), _key("place", autoincrement=False), _of("text", sa.Text),
    _of("received_at", Utc), _word("wire_id", 80),
)  # fmt: skip
offset = sa.Table("wire_offset", meta, _key("account", sa.String(40)), _of("value", sa.BigInteger), _of("at", Utc))
timer = sa.Table(  # the truth of a reminder; the engine's row is only its alarm clock
    "timer", meta, _key("id"), _word("kind", 20), _word("site", 8, True), _of("person_id", sa.ForeignKey("person.id"), True),
    _of("fields", sa.JSON), _of("due", Utc), _word("state"), _of("gen", sa.Integer), _word("about", 120, True),
    sa.Index("timer_armed", "kind", "state", "about"),
)  # fmt: skip
