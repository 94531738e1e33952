"""The programme file loaded again after a number was taken off: it stays off, and what came in its place stays."""

from datetime import timedelta

import pytest

from bot import programme
from bot.__main__ import main
from bot.office import unlinked
from tests.conftest import DEMO, NOON

MASON, FARMER, NEW, CHAT = "+254700000107", "+254700000307", "+254711222333", "tg:98765"


@pytest.fixture
def load(book, tmp_path):
    """load(old=new, ...) -> the short names of those told of, after the demo file with these changes was loaded."""

    def loaded(*changes, back=()):
        text = DEMO.read_text()
        for old, new in changes:
            assert old in text
            text = text.replace(old, new)
        path = tmp_path / "again.toml"
        path.write_text(text)
        with book.page() as page:
            return [row.short for row, _ in programme.store(page, *programme.read(path), NOON, back)]

    return loaded


@pytest.fixture
def lost(book):
    """The mason's own number is taken off; a chat is linked to him."""
    with book.page() as page:
        mason = page.person(short="mason")
        page.link(mason.id, "telegram", CHAT, NOON)
    unlinked(book, mason, MASON, NOON)
    return mason


def ways(book, short="mason"):
    with book.page() as page:
        return [number for _, number in page.ways(page.person(short=short))]


def test_new_prices_do_not_give_a_lost_number_back(lost, load, book, send):
    assert load(("price = 750", "price = 760")) == ["mason"]
    assert ways(book) == [CHAT]
    assert send(MASON, "status").reply.startswith("This number is not known here")
    assert send(CHAT, "status").reply.startswith("TB07")
    assert load() == ["mason"], "each load tells it"


def test_who_has_no_number_left_stays_without(load, book):
    with book.page() as page:
        farmer = page.person(short="farmer")
    unlinked(book, farmer, FARMER, NOON)
    assert load() == ["farmer"]
    assert ways(book, "farmer") == []


def test_a_changed_number_in_the_file_counts_and_the_chat_stays(lost, load, book):
    assert load((MASON, NEW)) == []
    assert ways(book) == [CHAT, NEW]
    assert load((MASON, "+254711222334")) == []
    assert ways(book) == [CHAT, "+254711222334"], "a number of the file gives way to the next"


def test_an_operator_gives_it_back(lost, load, book):
    assert load(back=["mason"]) == []
    assert ways(book) == [CHAT, MASON]
    assert load() == []


def test_a_number_that_is_linked_once_more_is_not_told_of(lost, load, book):
    with book.page() as page:
        page.link(lost.id, "sms", MASON, NOON + timedelta(hours=1))
    assert load() == []
    assert ways(book) == [MASON, CHAT]


def test_a_linked_number_that_the_file_names_is_his_once(load, book):
    with book.page() as page:
        page.link(page.person(short="mason").id, "sms", NEW, NOON)
    assert load((MASON, NEW)) == []
    assert ways(book) == [NEW]


def test_a_new_short_name_does_not_give_it_back(lost, load, book):
    assert load(('short = "mason"', 'short = "bholu"')) == ["bholu"]
    with book.page() as page:
        assert page.person(short="bholu").id == lost.id
        assert page.people_at(MASON) == ()


def test_the_number_may_be_somebody_elses_in_the_file(lost, load, book):
    assert load(('short = "mason"\nname = "Bholu"', 'short = "rashid"\nname = "Rashid"')) == []
    assert ways(book, "rashid") == [MASON] and ways(book) == [CHAT]


def test_the_command_tells_it_and_takes_it_back(lost, book, monkeypatch, capsys):
    monkeypatch.setenv("PEGLINE_DATABASE_URL", book.url.render_as_string())
    assert main(["load", str(DEMO)]) == 0
    told = capsys.readouterr().out
    assert f"mason: {MASON} was taken off and stays off; reached by {CHAT}." in told
    assert f"pegline load {DEMO} --give-back mason" in told
    assert main(["load", str(DEMO), "--give-back", "nobody"]) == 2
    assert main(["load", str(DEMO), "--give-back", "mason"]) == 0
    assert ways(book) == [CHAT, MASON]
