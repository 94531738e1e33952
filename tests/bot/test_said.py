"""Every word the bot says stands in the catalogue: talks held in a language of which no letter is Latin."""

import re
from pathlib import Path

import pytest
import sqlalchemy as sa

from bot import phrases, programme, talk, tape, tongue
from bot.cautions import CAUTIONS
from bot.reading.words import vocabulary
from bot.tables import outgoing
from tests.conftest import DEMO

TALKS = sorted((Path(__file__).parent.parent / "talks").glob("*.talk"))
SLOT = re.compile(r"(%\(\w+\)s|%%)")
WORD = re.compile(r"[a-z]{2,}")
QUOTED = 3  # messages of which a reply may quote a word: what is asked about stands before its answer


def hidden(text, language=None):
    return "".join(part if SLOT.fullmatch(part) else re.sub("[A-Za-z]", "#", part) for part in SLOT.split(text))


class Hidden:
    """A catalogue whose words are not read."""

    gettext = staticmethod(hidden)

    @staticmethod
    def ngettext(one, many, n):
        return hidden(one if n == 1 else many)


def strings(value):
    """Every string in what was loaded."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for each in value.values():
            yield from strings(each)
    elif isinstance(value, list):
        for each in value:
            yield from strings(each)


@pytest.fixture
def own_words():
    """What is nobody's language: names and texts of the programme, books that a rule is taken from."""
    made, _ = programme.read(DEMO)
    texts = [*strings(made.model_dump(mode="json")), *(each.source for each in CAUTIONS.values())]
    return {"sms", *WORD.findall(" ".join(texts).lower())}


@pytest.mark.parametrize("path", TALKS, ids=lambda path: path.stem)
def test_what_the_bot_says_is_in_the_catalogue(path, book, own_words, monkeypatch):
    monkeypatch.setattr(tongue, "catalogue", lambda language: Hidden)
    for module in (tongue, phrases, tape):
        monkeypatch.setattr(module, "sentence", hidden)
    made, _ = programme.read(DEMO)
    numbers = {row.short: row.number for row in made.person} | {"stranger": "+000000000"}
    lines = [line for line in path.read_text().splitlines() if " < " not in line]
    heard, seen = [], 0
    for line, _ in talk.run("\n".join(lines), book, vocabulary(), numbers, "Africa/Nairobi"):
        if " > " not in line:
            continue
        heard = [*heard, set(WORD.findall(line.lower()))][-QUOTED:]
        with book.engine.connect() as connection:
            texts = connection.scalars(sa.select(outgoing.c.text).where(outgoing.c.id > seen).order_by(outgoing.c.id)).all()
            seen = connection.scalar(sa.select(sa.func.max(outgoing.c.id))) or 0
        for text in texts:
            assert not set(WORD.findall(text.lower())) - own_words - set().union(*heard), text
    assert seen
