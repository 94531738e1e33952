"""A text that the network brings once more under a new id: told by its stamp, never by its words alone."""

from dataclasses import replace
from datetime import timedelta

import pytest

from bot.channels import Inbound, Part
from bot.inbox import take
from bot.reading.words import vocabulary
from tests.conftest import NOON

MASON = "+254700000107"
FIRST = Inbound("sms", "a", MASON, "got 8 bags cement", NOON, proven=False, stamped=True)
SECOND, MINUTE = timedelta(seconds=1), timedelta(minutes=1)


def entries(book, *messages, wait=MINUTE):
    for n, message in enumerate(messages):
        take(message, book, vocabulary(), NOON + n * wait)
    with book.page() as page:
        return [entry.kind for entry in page.site("TB07").log]


def test_the_same_text_with_the_same_stamp_is_recorded_and_answered_once(book):
    assert entries(book, FIRST, replace(FIRST, wire_id="b")) == ["stock"]
    with book.page() as page:
        assert page.queued_ever("sms", "a") and not page.queued_ever("sms", "b")


@pytest.mark.parametrize(
    "other",
    [
        {"sent_at": NOON + SECOND},
        {"text": "got 9 bags cement"},
        {"sender": "+254700000200", "text": "tb07 got 8 bags cement"},
        {"stamped": False},
        {"sent_at": None},
    ],
)
def test_another_stamp_text_or_sender_or_no_stamp_is_another_message(other, book):
    assert entries(book, FIRST, replace(FIRST, wire_id="b", **other)) == ["stock", "stock"]


@pytest.mark.parametrize("minutes, count", [(10, 1), (11, 2)])
def test_after_ten_minutes_it_counts_again(minutes, count, book):
    assert len(entries(book, FIRST, replace(FIRST, wire_id="b"), wait=minutes * MINUTE)) == count


def test_one_that_failed_has_another_chance(book, monkeypatch):
    with monkeypatch.context() as patch:
        patch.setattr("bot.inbox._carried", lambda *args: 1 / 0)
        assert entries(book, FIRST) == []
    assert entries(book, replace(FIRST, wire_id="b")) == ["stock"]


def test_pieces_that_look_alike_are_kept(book):
    pieces = [
        replace(FIRST, wire_id=f"p{at}", text=text, part=Part("2020", 1, 3, at)) for at, text in enumerate(("got 8 ", "bags ", "cement"), 1)
    ]
    alike = [replace(FIRST, wire_id=f"q{at}", text="8", part=Part("2020", 2, 2, at)) for at in (1, 2)]
    assert entries(book, *pieces, *alike) == ["stock"]
    with book.engine.connect() as connection:
        states = connection.exec_driver_sql("SELECT state FROM inbound WHERE wire_id LIKE 'q%' ORDER BY wire_id").scalars().all()
    assert states == ["part", "answered"]
