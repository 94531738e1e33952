"""A file that goes along with a text."""

import sqlalchemy as sa
from alembic import op

revision, down_revision = "0003", "0002"


def upgrade():
    with op.batch_alter_table("outgoing") as table:
        table.add_column(sa.Column("file", sa.String(400), nullable=True))
