"""A book of an older program keeps all it holds when its tables are brought to the newest step, on both databases."""

from itertools import count

import pytest
import sqlalchemy as sa
from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext

from bot.logbook import HEAD, Book
from bot.tables import meta
from tests.conftest import NOON

OWN = "INSERT INTO person (id, name, short, number, language, units, out_seq) VALUES (%s, '%s', '%s', '%s', 'en', 'metric', %s)"
_numbers = count(1)


@pytest.fixture(params=["sqlite", "postgresql"])
def old(request, tmp_path):
    """A book at the third step, with two people, a role and what refers to them."""
    url = f"sqlite:///{tmp_path}/old.sqlite"
    if request.param == "postgresql":
        url = request.getfixturevalue("postgres").made(f"old{next(_numbers)}")
    book = Book(url)
    config = Config()
    config.set_main_option("script_location", "bot/migrations")
    config.attributes["engine"] = book.engine
    command.upgrade(config, "0003")
    with book.engine.begin() as connection:
        for row in ((3, "Bholu", "mason", "+254700000107", 7), (5, "Kamla", "farmer", "+254700000307", 2)):
            connection.exec_driver_sql(OWN % row)
        connection.exec_driver_sql("INSERT INTO site (code, name, started_at, rules) VALUES ('TB07', 'Kamla', 'pit', '{}')")
        connection.exec_driver_sql("INSERT INTO role VALUES (3, 'TB07', 'mason', 'active'), (5, 'TB07', 'farmer', 'active')")
        connection.exec_driver_sql("INSERT INTO address VALUES ('tg:9', 3, 'telegram', '2026-03-02 09:00:00')")
    yield book
    book.engine.dispose()


def test_the_newest_step_keeps_people_and_what_refers_to_them(old):
    old.upgrade()
    assert old.version() == HEAD
    with old.page() as page:
        assert [(person.id, person.short, person.roles) for person in page.people()] == [
            (3, "mason", (("TB07", "mason"),)), (5, "farmer", (("TB07", "farmer"),)),
        ]  # fmt: skip
        assert page.person(number="tg:9").id == 3
        assert page.save_person(name="Juma", short="juma", number="+254700000107") not in (3, 5)
        assert [person.name for person in page.people_at("+254700000107")] == ["Bholu"], "who has no role does not count"


def test_a_reference_to_nobody_is_still_refused(old):
    old.upgrade()
    with pytest.raises(sa.exc.IntegrityError), old.engine.begin() as connection:
        connection.exec_driver_sql("INSERT INTO role VALUES (99, 'TB07', 'mason', 'active', 'file')")


def test_the_tables_are_those_of_the_code(old):
    old.upgrade()
    with old.engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"include_object": lambda thing, name, *more: name in meta.tables or True})
        assert compare_metadata(context, meta) == []


def test_the_number_of_the_file_is_the_one_somebody_has_and_unknown_of_who_has_none(old):
    with old.engine.begin() as connection:
        connection.exec_driver_sql("UPDATE person SET number = 'off:5' WHERE id = 5")
    old.upgrade()
    with old.page() as page:
        assert page.save_filed("Bholu", "mason", "+254700000107", NOON) == (3, False)
        assert page.save_filed("Kamla", "farmer", "+254700000307", NOON) == (5, True)
        assert page.ways(page.person(id=5)) == ()
