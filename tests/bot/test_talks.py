"""Every conversation in tests/talks, on a fresh book; and what holds of every text that went out in them."""

import re
from pathlib import Path

import pytest
import sqlalchemy as sa

from bot import programme, talk
from bot.forms import Understood
from bot.kinds import KINDS
from bot.letters import segments
from bot.logbook import Book
from bot.reading.read import read
from bot.reading.things import Hints
from bot.reading.words import vocabulary
from bot.tables import outgoing
from tests.conftest import DEMO

TALKS = sorted((Path(__file__).parent.parent / "talks").glob("*.talk"))
FORBIDDEN = re.compile(r"\b(safe|pass|passed|approved|all clear|cleared|should be fine|probably|no danger)\b", re.IGNORECASE)

# an identifier, a gap where a value should stand, a difference of nothing, a slot that was not filled
OTHERS = ("sw", "fr", "hi-Latn", "hi")
CHOICE = re.compile(r" > .*(hindi|english|swahili|french|हिंदी)")
SCRIPT = re.compile(r"[\u0900-\u097f]")  # the one whose texts are no GSM-7
NONSENSE = re.compile(r"[A-Za-z]_[A-Za-z]|  |\bNone\b|%\(|\(\)")
ODD = re.compile(
    r"[A-Za-z]_[A-Za-z]|  | [,.:;?]|\bNone\b|%\(|\b(?:by|differ by) 0 |(?<![\d./])0 (?:mm|cm|m|in|ft) (?:too|off|apart)|:\.|\(\)|\.\."
)


@pytest.fixture
def numbers():
    made, _ = programme.read(DEMO)
    return {row.short: row.number for row in made.person} | {"stranger": "+000000000"}


@pytest.mark.parametrize("path", TALKS, ids=lambda path: path.stem)
def test_the_talk_goes_as_written(path, book, numbers):
    faults = [fault for _, fault in talk.run(path.read_text(), book, vocabulary(), numbers, "Africa/Nairobi") if fault]
    assert not faults, "\n".join(faults)
    with book.engine.connect() as connection:
        texts = connection.execute(sa.select(outgoing.c.text, outgoing.c.segments, outgoing.c.encoding)).all()
    assert texts
    assert read_again(book) == read_again(Book(book.url))  # what a book keeps at hand is what is written, and no answer changed it
    for text, count, encoding in texts:
        assert (count, encoding) == segments(text)
        assert encoding == "GSM-7" or SCRIPT.search(text), text
        assert count <= 2, f"{len(text)} characters: {text}"
        assert not FORBIDDEN.search(text), text


def read_again(book):
    with book.page() as page:
        return page.rules(), page.names(), [(page.site(code).log, page.site(code).waiting) for code in page.codes()]


def outgoing_texts(book):
    with book.engine.connect() as connection:
        return connection.execute(sa.select(outgoing.c.text, outgoing.c.segments)).all()


@pytest.mark.parametrize("path", TALKS, ids=lambda path: path.stem)
@pytest.mark.parametrize("units", ["metric", "feet"])
def test_every_reply_is_in_words_and_fits_in_either_units(path, units, book, numbers):
    with book.page() as page:
        for number in numbers.values():
            person = page.person(number=number)
            if person:
                page.set_person(person.id, units=units)
    lines = [line for line in path.read_text().splitlines() if " < " not in line and "units feet" not in line]
    list(talk.run("\n".join(lines), book, vocabulary(), numbers, "Africa/Nairobi"))
    wrong = [text for text, count in outgoing_texts(book) if count > 2 or ODD.search(text)]
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("path", TALKS, ids=lambda path: path.stem)
@pytest.mark.parametrize("turn", [0, 1])
def test_every_reply_fits_in_the_languages_of_several_people(path, turn, book, numbers):
    """Two talks in a row have every language for every role; what is too long in a script is in Latin letters."""
    read, first = {}, 2 * TALKS.index(path) + turn
    with book.page() as page:
        for place, person in enumerate(page.people()):
            read[person.number] = OTHERS[(first + place) % len(OTHERS)]
            page.set_person(person.id, language=read[person.number])
    lines = [line for line in path.read_text().splitlines() if " < " not in line and not CHOICE.search(line)]
    list(talk.run("\n".join(lines), book, vocabulary(), numbers, "Africa/Nairobi"))
    with book.engine.connect() as connection:
        rows = connection.execute(sa.select(outgoing.c.number, outgoing.c.text, outgoing.c.segments, outgoing.c.encoding)).all()
    for number, text, count, encoding in rows:
        assert count <= 2, text
        assert encoding == "GSM-7" or read.get(number) == "hi", text
        assert not NONSENSE.search(text), text


@pytest.mark.parametrize(
    "text", ["test not_enough #3", "Cannot read  without", "0 in too high", "off by 0 cm", "wide : 3", "None", "of %(name)s", "Read: ."]
)
def test_an_odd_text_is_seen(text):
    assert ODD.search(text)


def test_a_wrong_expectation_fails(book, numbers):
    script = "mason > status\nmason < nothing like it"
    assert [fault for _, fault in talk.run(script, book, vocabulary(), numbers, "UTC") if fault]


def test_every_kind_is_spoken_in_a_talk(book):
    with book.page() as page:
        rules = page.rules()
        hints = Hints(frozenset(page.codes()), page.names(), rules["bag_kg"], rules["litres"])
    heard = set()
    for line in "\n".join(path.read_text() for path in TALKS).splitlines():
        text = line.partition(" > ")[2]
        outcome = read(text, KINDS, vocabulary(), hints) if text else None
        heard |= {form.kind for form in outcome.forms} if isinstance(outcome, Understood) else set()
    assert {kind.name for kind in KINDS} <= heard


@pytest.mark.parametrize("line", ["mason status", "@ yesterday", "nobody > status"])
def test_a_line_that_is_none_is_said(line, book, numbers):
    with pytest.raises(talk.Broken, match="line 1"):
        list(talk.run(line, book, vocabulary(), numbers, "UTC"))
