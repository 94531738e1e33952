"""The number under which the programme file has a person, beside the one he has now: what was taken off since stays off."""

import sqlalchemy as sa
from alembic import op

revision, down_revision = "0005", "0004"


def upgrade():
    op.add_column("person", sa.Column("filed", sa.String(24), nullable=True))
    # a file names phones only: of who stands under a chat or under none it is not known any more what it said
    op.execute("UPDATE person SET filed = number WHERE number LIKE '+%'")
