"""What the office writes about alarms and open things: seen, closed, a list of one sort."""

import re

from bot.forms import Form
from bot.reading.measures import Measure
from bot.reading.plain import words
from bot.reading.things import tags_of

LISTS = {"hold": "act.held_up", "quiet": "act.quiet", "fail": "act.failing"}


def seen(line, used, kind, hints):
    """Which alarm was seen, by its entry; all of the site where none is named."""
    entry = _entry(line)
    return Form(kind.name, {"entry": entry} if entry else {})


def closed(line, used, kind, hints):
    """Which alarm is closed, and what was done: all that stands behind, numbers too, as it was written."""
    entry = _entry(line)
    used.update(at for at, piece in enumerate(line) if isinstance(piece, Measure))
    begun = next((at for at, piece in enumerate(line) if not isinstance(piece, Measure) and piece.has("act.closed")), 0)
    said = " ".join(piece.text for piece in line[begun + 1 :] if isinstance(piece, Measure) or piece.sort not in ("entry", "code"))
    reason = re.sub(r" (?=[,.:;?!])", "", said).strip(" ,.:;-")
    return Form(kind.name, ({"entry": entry} if entry else {}) | ({"reason": reason[:60]} if reason else {}))


def _entry(line):
    return next((int(piece.text) for piece in words(line) if piece.sort == "entry"), None)


def list_(line, used, kind, hints):
    """Which sort of open things, and the page."""
    tags = tags_of(line)
    what = next((name for name, tag in LISTS.items() if tag in tags), None)
    page = next(((at, int(p.value)) for at, p in enumerate(line) if isinstance(p, Measure) and p.unit is None and p.form == "plain"), None)
    if page:
        used.add(page[0])
    return Form(kind.name, ({"what": what} if what else {}) | ({"page": page[1]} if page else {}))


GRAMMARS = {"seen": seen, "closed": closed, "list": list_}
