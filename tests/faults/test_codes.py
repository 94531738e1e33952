"""Two bring one code at the same moment, each in a transaction of his own."""

import re
import threading
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta

import pytest

from bot.channels import terminal
from bot.codebook import Spent
from bot.inbox import take
from bot.logbook import Book, Page
from bot.reading.words import vocabulary
from tests.conftest import NOON

STRANGERS = ("+254711222333", "+254711222444")


def sent(book, number, text):
    message = terminal.inbound(number, text, NOON)
    take(message, book, vocabulary(), NOON)
    with book.page() as page:
        return next(row.text for row in terminal.outgoing(page, message.wire_id) if row.to == number)


def test_of_two_who_bring_a_code_at_one_moment_one_is_linked(postgres, monkeypatch):
    """Both have looked it up before either uses it, as only PostgreSQL lets them."""
    book = Book(postgres.made("codes", "pattern"))
    code = re.search(r"\d{6}", sent(book, "+254700000107", "link")).group()
    both, looked_up, met = threading.Barrier(2, timeout=10), Page.try_code, []

    def together(page, *args, **by):
        held = looked_up(page, *args, **by)
        if len(met) < 2:
            met.append(both.wait())
        return held

    monkeypatch.setattr(Page, "try_code", together)
    with ThreadPoolExecutor(2) as pool:
        replies = sorted(pool.map(lambda number: sent(book, number, f"link {code}"), STRANGERS))
    assert replies[0].startswith("Linked: you are Bholu here too.")
    assert replies[1].startswith("That code is wrong, used or too old. Nothing changed.")
    with book.page() as page:
        assert sum(bool(page.people_at(number)) for number in STRANGERS) == 1
    book.engine.dispose()


def test_a_code_is_not_used_twice(book):
    with book.page() as page:
        page.new_code("link", page.person(short="mason").id, "123456", NOON, timedelta(minutes=30))
        held = page.try_code("link", "123456", NOON)
        page.use_code(held["id"])
        with pytest.raises(Spent):
            page.use_code(held["id"])
