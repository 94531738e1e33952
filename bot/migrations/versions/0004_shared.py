"""Several people on one number, told apart by their names; and who of them writes."""

import sqlalchemy as sa
from alembic import op

revision, down_revision = "0004", "0003"
TOLD_APART = "person_number_name"
COLUMNS = "id, name, short, number, language, units, out_seq, place, place_at, question"


def upgrade():
    if op.get_bind().dialect.name == "sqlite":
        _made_again()
    else:
        op.drop_constraint("person_number_key", "person", type_="unique")
        op.create_unique_constraint(TOLD_APART, "person", ["number", "name"])
    op.create_table(
        "speaker",
        sa.Column("number", sa.String(24), primary_key=True),
        sa.Column("person_id", sa.Integer(), sa.ForeignKey("person.id"), nullable=True),
        sa.Column("until", sa.DateTime(), nullable=True),
        sa.Column("asked", sa.JSON(), nullable=False),
    )


def _made_again():
    """SQLite drops no constraint: the table is made anew under its own name, and the rows that refer to it find it at the commit."""
    op.execute("PRAGMA defer_foreign_keys = ON")
    op.execute("CREATE TABLE person_before AS SELECT * FROM person")
    op.drop_table("person")
    op.create_table(
        "person",
        sa.Column("id", sa.Integer(), primary_key=True),
        *(sa.Column(name, sa.String(size), nullable=False) for name, size in (("name", 80), ("short", 40), ("number", 24))),
        *(sa.Column(name, sa.String(12), nullable=False) for name in ("language", "units")),
        sa.Column("out_seq", sa.Integer(), nullable=False),
        sa.Column("place", sa.String(8)),
        sa.Column("place_at", sa.DateTime()),
        sa.Column("question", sa.JSON()),
        sa.UniqueConstraint("short"),
        sa.UniqueConstraint("number", "name", name=TOLD_APART),
    )
    op.execute(f"INSERT INTO person ({COLUMNS}) SELECT {COLUMNS} FROM person_before")
    op.drop_table("person_before")
