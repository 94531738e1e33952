"""Where a role comes from: a file gives it and takes it again, a message gives it for as long as nobody takes it off."""

import sqlalchemy as sa
from alembic import op

revision, down_revision = "0006", "0005"


def upgrade():
    # of the roles there are it is not known any more: none of them ends by itself before a file has named it once
    op.add_column("role", sa.Column("origin", sa.String(12), nullable=True))
