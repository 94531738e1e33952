"""Real wires: other numbers of a person, pieces of long texts, offsets, timers, and how far an outgoing text is."""

import sqlalchemy as sa
from alembic import op

revision, down_revision = "0002", "0001"


def upgrade():
    text, number, moment = sa.Text(), sa.Integer(), sa.DateTime()

    def word(size):
        return sa.String(size)

    def column(name, kind, *key, null=False):
        return sa.Column(name, kind, *key, nullable=null)

    op.create_table(
        "address",
        sa.Column("number", word(24), primary_key=True),
        column("person_id", number, sa.ForeignKey("person.id")),
        column("channel", word(12)),
        column("linked_at", moment),
    )
    op.create_table(
        "part",
        sa.Column("channel", word(12), primary_key=True),
        sa.Column("sender", word(24), primary_key=True),
        sa.Column("receiver", word(24), primary_key=True),
        sa.Column("ref", number, primary_key=True, autoincrement=False),
        sa.Column("total", number, primary_key=True, autoincrement=False),
        sa.Column("place", number, primary_key=True, autoincrement=False),
        column("text", text),
        column("received_at", moment),
        column("wire_id", word(80)),
    )
    op.create_table(
        "wire_offset",
        sa.Column("account", word(40), primary_key=True),
        column("value", sa.BigInteger()),
        column("at", moment),
    )
    op.create_table(
        "timer",
        sa.Column("id", number, primary_key=True),
        column("kind", word(20)),
        column("site", word(8), null=True),
        column("person_id", number, sa.ForeignKey("person.id"), null=True),
        column("fields", sa.JSON()),
        column("due", moment),
        column("state", word(12)),
        column("gen", number),
        column("about", word(120), null=True),
        sa.Index("timer_armed", "kind", "state", "about"),
    )
    with op.batch_alter_table("outgoing") as table:
        table.add_column(sa.Column("lane", word(8), nullable=False, server_default="now"))
        table.add_column(sa.Column("tries", number, nullable=False, server_default="0"))
        table.add_column(column("sent_at", moment, null=True))
        table.add_column(column("gateway_id", word(80), null=True))
        table.add_column(column("receipt", word(12), null=True))
        table.add_column(column("receipt_at", moment, null=True))
        table.add_column(column("fault", word(200), null=True))
        table.add_column(column("buttons", sa.JSON(), null=True))
        table.create_index("outgoing_state", ["state", "id"])
