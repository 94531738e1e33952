"""The tables in the code and the migration steps say the same, on an empty database."""

import sqlalchemy as sa
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext

from bot.logbook import HEAD, Book
from bot.tables import meta


def test_the_steps_make_the_tables_of_the_code(tmp_path):
    book = Book(f"sqlite:///{tmp_path}/steps.sqlite")
    assert book.version() is None
    book.upgrade()
    assert book.version() == HEAD
    with book.engine.connect() as connection:
        assert compare_metadata(MigrationContext.configure(connection), meta) == []
    book.engine.dispose()


def test_a_book_is_durable_and_refuses_a_dangling_reference(book):
    with book.engine.connect() as connection:
        assert connection.exec_driver_sql("PRAGMA journal_mode").scalar() == "wal"
        assert connection.exec_driver_sql("PRAGMA synchronous").scalar() == 2
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1
        assert sa.inspect(connection).has_table("entry")
