"""The first tables: programme, sites, people, roles, what comes in, the site log, what goes out."""

import sqlalchemy as sa
from alembic import op

revision, down_revision = "0001", None


def upgrade():
    text, number, moment = sa.Text(), sa.Integer(), sa.DateTime()

    def word(size):
        return sa.String(size)

    def column(name, kind, *key, null=False):
        return sa.Column(name, kind, *key, nullable=null)

    op.create_table(
        "programme",
        sa.Column("id", number, primary_key=True),
        column("loaded_at", moment),
        column("digest", word(64)),
        column("rules", sa.JSON()),
    )
    op.create_table(
        "site",
        sa.Column("code", word(8), primary_key=True),
        column("name", word(80)),
        column("plan", sa.JSON(), null=True),
        column("planned_by", word(80), null=True),
        column("started_at", word(20)),
        column("rules", sa.JSON()),
    )
    op.create_table(
        "person",
        sa.Column("id", number, primary_key=True),
        column("name", word(80)),
        column("short", word(40)),
        column("number", word(24)),
        column("language", word(12)),
        column("units", word(12)),
        column("out_seq", number),
        column("place", word(8), null=True),
        column("place_at", moment, null=True),
        column("question", sa.JSON(), null=True),
        sa.UniqueConstraint("short"),
        sa.UniqueConstraint("number"),
    )
    op.create_table(
        "role",
        sa.Column("person_id", number, sa.ForeignKey("person.id"), primary_key=True),
        sa.Column("site", word(8), sa.ForeignKey("site.code"), primary_key=True),
        sa.Column("role", word(12), primary_key=True),
        column("state", word(12)),
    )
    op.create_table(
        "inbound",
        sa.Column("channel", word(12), primary_key=True),
        sa.Column("wire_id", word(80), primary_key=True),
        column("sender", word(24)),
        column("text", text),
        column("sent_at", moment, null=True),
        column("received_at", moment),
        column("state", word(12)),
    )
    op.create_table(
        "entry",
        sa.Column("site", word(8), sa.ForeignKey("site.code"), primary_key=True),
        sa.Column("number", number, primary_key=True, autoincrement=False),
        column("kind", word(20)),
        column("at", moment),
        column("person_id", number, sa.ForeignKey("person.id"), null=True),
        column("fields", sa.JSON()),
        column("verdict", word(20), null=True),
        column("cautions", sa.JSON()),
        column("held", text),
        column("refers", number, null=True),
        column("edition", word(20)),
        column("channel", word(12), null=True),
        column("wire_id", word(80), null=True),
    )
    op.create_table(
        "outgoing",
        sa.Column("id", number, primary_key=True),
        column("number", word(24)),
        column("person_id", number, sa.ForeignKey("person.id"), null=True),
        column("role", word(12)),
        column("seq", number),
        column("channel", word(12)),
        column("text", text),
        column("segments", number),
        column("encoding", word(8)),
        column("edition", word(20)),
        column("state", word(12)),
        column("due", moment),
        column("wire_id", word(80), null=True),
    )
    op.create_index("outgoing_wire", "outgoing", ["channel", "wire_id"])
    op.create_index("outgoing_number", "outgoing", ["number", "id"])


def downgrade():
    for table in ("outgoing", "entry", "inbound", "role", "person", "site", "programme"):
        op.drop_table(table)
