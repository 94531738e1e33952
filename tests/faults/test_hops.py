"""Something breaks in each hop: the books are looked at afterwards."""

import logging

import pytest
import sqlalchemy as sa

from bot import foreman, inbox
from bot.channels import terminal
from bot.logbook import Book, Page
from bot.reading.words import vocabulary
from bot.tables import entry, inbound, outgoing
from tests.conftest import NOON

TEXT = "pit 3.12 3.08 3.10 deep 1.83"


def broken(*args, **more):
    raise RuntimeError("broken on purpose")


def break_at(monkeypatch, where):
    """Break one hop; the second transaction, which tells the sender, must still get through."""
    if where == "recognise":
        monkeypatch.setattr(Page, "standing", broken)
    elif where == "read":
        monkeypatch.setattr(inbox, "read", broken)
    elif where == "permit":
        monkeypatch.setattr(inbox, "may_send", broken)
    elif where == "answer":
        monkeypatch.setattr(foreman, "readings", broken)
    elif where == "word":
        monkeypatch.setattr(inbox, "_replies", broken)
    elif where == "record":
        monkeypatch.setattr(Page, "write", broken)


@pytest.mark.parametrize("where", ["recognise", "read", "permit", "answer", "word", "record"])
def test_a_fault_in_a_hop_leaves_one_failed_message_and_no_entry(monkeypatch, book, send, where, caplog):
    break_at(monkeypatch, where)
    with caplog.at_level(logging.ERROR):
        sent = send("mason", TEXT)
    assert sent.reply.startswith("STOP. The bot could not check this. Nothing was recorded.")
    assert [row.role for row in sent.rows] == ["known", "supervisor"]
    assert "broken on purpose" in caplog.text
    assert sent.wire_id in caplog.text
    with book.engine.connect() as connection:
        assert connection.execute(sa.select(inbound.c.state, inbound.c.text)).all() == [("failed", TEXT)]
        assert connection.scalar(sa.select(sa.func.count()).select_from(entry)) == 0
        assert connection.scalar(sa.select(sa.func.count()).select_from(outgoing)) == 2


def test_a_failed_message_that_comes_again_is_acknowledged_and_not_answered_again(monkeypatch, send):
    break_at(monkeypatch, "answer")
    first = send("mason", TEXT, wire_id="x")
    monkeypatch.undo()
    again = send("mason", TEXT, wire_id="x")
    assert first.reply
    assert not again.taken.landed
    assert not again.rows


def test_where_nothing_can_be_stored_the_wire_hears_it(book, tmp_path):
    """Not even the raw message can be kept: the fault goes up to the channel, which does not acknowledge."""
    empty = Book(f"sqlite:///{tmp_path}/no-tables.sqlite")
    message = terminal.inbound("+254700000107", TEXT, NOON)
    with pytest.raises(Exception, match="no such table"):
        inbox.take(message, empty, vocabulary(), NOON)
    empty.engine.dispose()


def test_a_repeat_is_acknowledged_and_changes_nothing(book, send):
    send("mason", TEXT, wire_id="same")
    again = send("mason", "a text that is not the same", wire_id="same")
    assert not again.taken.landed
    assert not again.rows
    with book.engine.connect() as connection:
        assert connection.scalars(sa.select(inbound.c.text)).all() == [TEXT]
        assert connection.scalar(sa.select(sa.func.count()).select_from(entry)) == 1


def test_figures_that_do_not_reach_are_no_number_and_the_supervisor_hears(send):
    sent = send("farmer", "size 4 cows 5 people temp 12 c")
    assert "not covered by the bot's figures" in sent.reply
    assert "No number." in sent.reply
    assert [row.role for row in sent.rows if row.to != "+254700000307"] == ["supervisor"]


def test_the_outgoing_row_holds_the_final_text(book, send):
    sent = send("mason", TEXT)
    with book.engine.connect() as connection:
        rows = connection.execute(sa.select(outgoing).order_by(outgoing.c.id)).mappings().all()
    assert [row["text"] for row in rows] == [row.text for row in sent.rows]
    assert {row["state"] for row in rows} == {"printed"}
    assert all(row["edition"] and row["seq"] > 0 and row["due"] == NOON for row in rows)


def test_the_order_of_what_one_person_gets_is_the_order_of_commits(book, send):
    for n in range(5):
        send("mason", f"base 10.{n} 11 11 cm")
    with book.engine.connect() as connection:
        seqs = connection.scalars(sa.select(outgoing.c.seq).where(outgoing.c.number == "+254700000107").order_by(outgoing.c.id)).all()
    assert seqs == list(range(1, len(seqs) + 1))
