"""Long texts of which a piece does not come: heard for dangers soon, given up after a while."""

from datetime import timedelta

from bot.channels import Inbound, assembled
from bot.inbox import take
from bot.kinds import KINDS
from bot.reading.own import added
from bot.reading.read import read

SOON = timedelta(seconds=30)
ID = 70  # characters of a wire id that are taken over


def look(book, words, wait, now):
    """Answer what came of the long texts whose other pieces are missing: a danger after half a minute, all else after `wait`."""
    with book.page(write=False) as page:
        found, known = page.lone_parts(now - min(SOON, wait)), added(words, page.rules().get("danger_words"))
    for row in found:
        text = _joined(row["pieces"])
        if row["last"] < now - wait or read(text, KINDS, known).alarm:
            message = Inbound(row["channel"], f"lone:{row['wire_id'][-ID:]}", row["sender"], text, broken=True, proven=False)
            take(message, book, words, now)
            with book.page() as page:
                page.drop_lone(row)
    with book.page() as page:
        page.drop_whole(now - wait)


def _joined(pieces):
    """The pieces in order, a gap where one is missing."""
    places = {place for place, _ in pieces}
    return assembled(text if place + 1 in places else f"{text} " for place, text in pieces).strip()
