"""What somebody wants to see: alarms seen and closed, a list of open things, a picture."""

import re

from bot.forms import Form
from bot.reading.measures import Measure
from bot.reading.plain import words
from bot.reading.things import tags_of

VIEWS = {
    "section": ("view.section",),
    "pegs": ("view.pegs", "part.layout", "act.levels"),
    "string": ("field.rope", "act.string_table"),
    "progress": ("act.status", "act.when_finish"),
    "gas": ("act.gas", "act.cook", "part.first_gas"),
    "plan": ("view.plan", "act.plan"),
}
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


def draw(line, used, kind, hints):
    """Which picture: the view named, or the thing that one is of; none where nothing is named."""
    tags = tags_of(line)
    what = next((view for view, signs in VIEWS.items() if not tags.isdisjoint(signs)), None)
    return Form(kind.name, {"what": what} if what else {})


GRAMMARS = {"draw": draw, "seen": seen, "closed": closed, "list": list_}
