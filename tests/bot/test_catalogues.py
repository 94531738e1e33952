"""What the bot says in other languages: nothing left out, nothing put in, nothing longer than its messages bear."""

import re
from decimal import Decimal
from pathlib import Path

import pytest
from babel import Locale
from babel.messages.extract import extract
from babel.messages.frontend import parse_keywords
from babel.messages.pofile import read_po

from bot import tongue
from bot.forms import Understood
from bot.kinds import KINDS
from bot.letters import segments
from bot.phrases import Reader, word
from bot.reading.read import read
from bot.reading.things import Hints
from bot.reading.words import vocabulary

LOCALE = Path(__file__).parents[2] / "bot" / "locale"
SEND = {"sw": "tuma", "fr": "envoyez", "hi_Latn": "bhejo", "hi": "भेजो"}
SLOT = re.compile(r"%\((\w+)\)s")
KEYWORDS = parse_keywords(["T_", "N_:1,1t", "N_:1,2,2t"])
LONG = 14  # letters of a value with its unit
NOT_GSM = {"hi"}
SHORT = {"hi": (0.55, 10, 120)}  # a Devanagari message holds less than half of a Latin one
FORBIDDEN = {
    "sw": r"\b(salama|imeidhinishwa)\b",
    "fr": r"\b(securite totale|sans danger|sur et certain|approuve)\b",
    "hi_Latn": r"\b(surakshit|sef|safe)\b",
    "hi": r"सुरक्षित",
}


def test_the_list_of_what_the_bot_can_say_is_whole():
    found = set()
    for path in (LOCALE.parent).rglob("*.py"):
        with path.open("rb") as file:
            found |= {message for _, message, _, _ in extract("python", file, KEYWORDS)}
    with open(LOCALE / "messages.pot", "rb") as file:
        assert {message.id for message in read_po(file) if message.id} == found - {""}


@pytest.mark.parametrize("language", sorted(SEND))
def test_a_catalogue_has_all_of_it(language):
    with open(LOCALE / "messages.pot", "rb") as file:
        wanted = {message.id for message in read_po(file) if message.id}
    assert {message.id for message in catalogue(language)} == wanted
    assert not [message.id for message in catalogue(language) if not all(pair[1] for pair in whole(message))]


def catalogue(language):
    with open(LOCALE / language / "LC_MESSAGES" / "messages.po", "rb") as file:
        return [m for m in read_po(file, locale="hi" if language == "hi_Latn" else language) if m.id]


def whole(message):
    """(English, translation) of each form, also where there is none yet."""
    return [(message.id, message.string)] if isinstance(message.id, str) else [(message.id[-1], each) for each in message.string]


def pairs(message):
    """(English, translation) of each form of a message that is translated."""
    if isinstance(message.id, str):
        return [(message.id, message.string)] if message.string else []
    return [(message.id[-1], string) for string in message.string if string]


def seen(text):
    return SLOT.sub("", text).replace("%%", "%")


def allowed(english, language):
    share, more, most = SHORT.get(language, (1.0, 12 if len(english) < 90 else 0, 300))
    return min(share * len(seen(english)) + more, most)


def examples(text, send):
    """What a text tells its reader to write, the numbers put in."""
    for found in re.findall(rf"{send}: ([^.]+)\.", text, re.IGNORECASE):
        if not SLOT.search(found):
            yield filled(found)


def filled(example):
    """An example with digits and a site where its reader puts them."""
    example = re.sub(r"\b(SITE|CHANTIER)\b", "TB07", example)
    return re.sub(r"\bn+\b", lambda found: {1: "3", 2: "12"}.get(len(found[0]), "120"), example)


def kinds(text):
    outcome = read(text, KINDS, vocabulary(), Hints(frozenset({"TB07"}), frozenset(), 50.0, {}))
    return {form.kind for form in outcome.forms} if isinstance(outcome, Understood) else None


@pytest.mark.parametrize("language", sorted(SEND))
def test_every_value_of_a_sentence_stands_in_its_translation_once(language):
    for message in catalogue(language):
        for english, told in pairs(message):
            assert sorted(SLOT.findall(english)) == sorted(SLOT.findall(told)), told
            for text in (english, told):
                assert "%" not in SLOT.sub("", text).replace("%%", ""), text


@pytest.mark.parametrize("language", sorted(SEND))
def test_a_translation_is_no_longer_than_its_messages_bear(language):
    wrong = [
        f"{len(seen(told))} of {allowed(english, language):.0f}: {english} -> {told}"
        for message in catalogue(language) for english, told in pairs(message) if len(seen(told)) > allowed(english, language)
    ]  # fmt: skip
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("language", sorted(set(SEND) - NOT_GSM))
def test_a_sentence_with_long_values_is_two_messages_at_most(language):
    """What does not fit in Devanagari is said in Latin letters: so those must fit always."""
    for message in catalogue(language):
        for _, told in pairs(message):
            assert segments(SLOT.sub("x" * LONG, told))[0] <= 2, told


@pytest.mark.parametrize("language", sorted(set(SEND) - NOT_GSM))
def test_a_translation_is_gsm_7_bit(language):
    wrong = [told for message in catalogue(language) for _, told in pairs(message) if segments(told)[1] != "GSM-7"]
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("language", sorted(SEND))
def test_stop_stays_the_first_word_and_nothing_is_called_safe(language):
    for message in catalogue(language):
        for english, told in pairs(message):
            assert english.startswith("STOP") == told.startswith("STOP"), told
            assert not re.search(FORBIDDEN[language], told, re.IGNORECASE), told


@pytest.mark.parametrize("language", sorted(SEND))
def test_what_a_translation_tells_to_send_is_read_like_the_english(language):
    wrong = []
    for message in catalogue(language):
        for english, told in pairs(message):
            wanted = [kinds(text) for text in examples(english, "send")]
            found = [kinds(text) for text in examples(told, SEND[language])]
            if any(wanted) and found != wanted:
                wrong.append(f"{english} {wanted} -> {told} {found}")
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
@pytest.mark.parametrize("language", sorted(SEND))
def test_an_example_in_a_language_is_of_its_kind(kind, language):
    english, told = (word(kind.example, Reader(language=code)) for code in ("en", language.replace("_", "-")))
    assert not re.search(r"\d", told), "a number in an example may come back as a reading"
    assert kinds(filled(told)) == kinds(filled(english))


@pytest.mark.parametrize("language", ["en", "sw", "fr", "hi", "hi-Latn"])
def test_one_thing_is_told_from_several_as_the_unicode_data_have_it(language):
    """Beside the rules of CLDR in Babel's own tables."""
    rule = Locale.parse(language.replace("-", "_")).plural_form
    for number in ("0", "0.5", "1", "1.0", "1.5", "2", "3", "10", "11", "21", "101", "1.25", "0.02"):
        one = tongue.catalogue(language).ngettext(*tongue.COUNTED["bags"], 1)
        several = tongue.catalogue(language).ngettext(*tongue.COUNTED["bags"], 2)
        wanted = one if rule(Decimal(number)) == "one" else several
        assert tongue.measured(number, "bags", language) == wanted % {"n": tongue.figure(number, language)}
