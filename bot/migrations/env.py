"""Runs the migration steps on the engine the logbook hands over."""

from alembic import context

from bot.logbook import begin
from bot.tables import meta

with context.config.attributes["engine"].connect() as connection:
    context.configure(connection=connection, target_metadata=meta, transactional_ddl=True, render_as_batch=True)
    begin(connection, alone=True)
    with context.begin_transaction():
        context.run_migrations()
