"""Texts from a process that runs no delivery: the office sends one, sends one again, takes a number off a person."""

from contextlib import contextmanager
from uuid import uuid4

from bot import outbox
from bot.channels import Inbound
from bot.engine import Handover
from bot.people import channel_of


@contextmanager
def _handing_over(book):
    """A Handover for the length of the block."""
    handover = Handover(book).open()
    try:
        yield handover
    finally:
        handover.close()


def again(book, text_id, now):
    """Queue a text once more that was refused or given up; False where there is none, or its number was taken off its reader."""
    with _handing_over(book) as handover, book.page() as page:
        row = page.out(text_id)
        if row is None or row["state"] not in ("refused", "gave_up") or not reached(page, row):
            return False
        page.mark([text_id], "queued", due=now, fault=None, receipt=None, receipt_at=None)
        handover.text(page, text_id, row, f"text:{text_id}:{row['tries']}")
    return True


def reached(page, row):
    """True where the number a text was for is still its reader's; who is nobody known has the number he has."""
    reader = page.person(id=row["person_id"]) if row["person_id"] else None
    return reader is None or row["number"] in [number for _, number in page.ways(reader)]


def single(book, channel, number, text, now, file=None):
    """Queue one text for a number or chat; return its id."""
    notice = Inbound(channel, f"test:{uuid4().hex}", number, "")
    with _handing_over(book) as handover, book.page() as page:
        page.post = Elsewhere(handover)
        outbox.say(page, text, number, page.person(number=number), "test", notice, now, file=file)
        return page.queued(channel, notice.wire_id)[0]["id"]


def unlinked(book, person, number, now):
    """Take a number or chat off a person, and send what waits for it another way; return how many texts waited."""
    with _handing_over(book) as handover, book.page() as page:
        page.post = Elsewhere(handover)
        page.unlink(person.id, number)
        notice = Inbound(channel_of(number), f"unlink:{uuid4().hex}", number, "")
        return outbox.moved(page, page.person(id=person.id), number, notice, now)


class Elsewhere:
    """Hands texts over from a process that runs no delivery."""

    def __init__(self, handover):
        self._handover = handover

    def route(self, page, person, message, number):
        return (message.channel, number) if number is not None else next(iter(page.ways(person)), (message.channel, person.number))

    def hand_over(self, page, text_id, row):
        self._handover.text(page, text_id, row)
