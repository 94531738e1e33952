"""What a book keeps at hand is never other than what is written in it."""

import sqlalchemy as sa

from bot import shelf
from bot.channels import terminal
from bot.forms import Entry
from bot.logbook import Book
from bot.tables import entry
from tests.conftest import NOON

CAME = terminal.inbound("+254700000107", "x", NOON)


def logged(book, code="TB07"):
    with book.page() as page:
        return [(each.number, each.kind, each.name, each.fields) for each in page.site(code).log]


def write(page, number, kind="got", code="TB07", **fields):
    page.write(code, number, Entry(kind, fields), NOON, page.person(short="mason").id, "2026", CAME)


def test_entries_of_another_process_are_seen(book):
    assert logged(book) == []
    other = Book(book.url)
    for number in (1, 2, 3):
        with other.page() as page:
            write(page, number, sand_m3=float(number))
        assert [each[0] for each in logged(book)] == list(range(1, number + 1))
    assert logged(book) == logged(Book(book.url))


def test_an_entry_that_was_undone_leaves_nothing(book):
    logged(book)
    try:
        with book.page() as page:
            write(page, 1, sand_m3=1.0)
            assert [each.number for each in page.site("TB07").log] == [1]
            raise RuntimeError
    except RuntimeError:
        pass
    assert logged(book) == []
    with book.page() as page:
        write(page, 1, sand_m3=7.0)
    assert [each[3] for each in logged(book)] == [{"sand_m3": 7.0}]


def test_a_person_and_a_programme_that_were_undone_leave_nothing(book):
    with book.page() as page:
        names, rules = page.names(), page.rules()
    try:
        with book.page() as page:
            page.save_person(name="Zawadi", short="zawadi", number="+254711111111")
            page.save_programme("other", rules | {"zone": "Asia/Kolkata"}, NOON)
            assert "zawadi" in page.names()
            assert page.rules()["zone"] == "Asia/Kolkata"
            raise RuntimeError
    except RuntimeError:
        pass
    with book.page() as page:
        assert (page.names(), page.rules()) == (names, rules)
        page.save_person(name="Wangari", short="wangari", number="+254711111111")
    with book.page() as page:
        assert page.names() == names | {"wangari"}


def test_a_new_programme_of_another_process_holds_at_once_also_for_names_in_the_log(book):
    with book.page() as page:
        write(page, 1)
    before, other = logged(book)[0][2], Book(book.url)
    with other.page() as page:
        person = page.person(short="mason")
        page.save_person(name="Renamed", short="mason", number=person.number)
        page.save_programme("other", page.rules() | {"zone": "Asia/Kolkata"}, NOON)
    assert before != "Renamed"
    assert logged(book)[0][2] == "Renamed"
    with book.page() as page:
        assert page.rules()["zone"] == "Asia/Kolkata"
        assert "renamed" in page.names()


def test_a_log_at_hand_is_not_read_again(book):
    with book.page() as page:
        for number in range(1, 30):
            write(page, number)
    logged(book)
    with book.engine.begin() as connection:  # no road changes an entry: that it goes unseen shows that it was not read
        connection.execute(sa.update(entry).where(entry.c.number == 5).values(kind="other"))
    assert logged(book)[4][1] == "got"
    assert logged(Book(book.url))[4][1] == "other"


def test_the_logs_heard_of_longest_ago_give_way(book, monkeypatch):
    monkeypatch.setattr(shelf, "ENTRIES", 10)
    with book.page() as page:
        for code in ("TB07", "KV12", "BD03"):
            for number in range(1, 5):
                write(page, number, code=code)
    for code in ("TB07", "KV12", "BD03", "TB07"):
        assert len(logged(book, code)) == 4
    assert list(book._shelf._logs) == ["BD03", "TB07"]
    assert book._shelf._entries == 8
