"""What a programme has of its own besides sites and people: lots, languages, whom to call, words that mean danger."""

from typing import Annotated, Literal

from pydantic import AfterValidator, Field, field_validator

from bot.letters import segments
from bot.reading.clean import clean, tokens
from bot.reading.danger import ORDER
from bot.reading.words import LONGEST_PHRASE, vocabulary
from bot.roster import Said, Strict
from bot.tongue import LANGUAGES, NEXT

Letters = Annotated[str, Field(min_length=1, max_length=40, pattern=r"^[ -~]*$")]


def _a_phrase(phrase):
    said = tuple(token.text for token in tokens(clean(phrase)))
    if not 1 <= len(said) <= LONGEST_PHRASE or not any(word.isalpha() and len(word) > 2 for word in said):
        raise ValueError(f"{phrase}: one to {LONGEST_PHRASE} words, one of them with three letters or more")
    other = sorted(tag for tag in vocabulary().phrases.get(said, ()) if not tag.startswith("danger."))
    if other:
        raise ValueError(f"{phrase} means {other[0]} already: write it with another word beside it")
    return phrase


Phrase = Annotated[str, Field(min_length=3, max_length=60), AfterValidator(_a_phrase)]


class Own(Strict):
    """Settings of a programme: the seed of its lots and how many are drawn, the languages it answers in."""

    draw_seed: Annotated[str, Field(min_length=8, max_length=80)] | None = None
    extra_share: Annotated[float, Field(ge=0, le=1)] | None = None
    audit_share: Annotated[float, Field(ge=0.05, le=1)] | None = None
    languages: Annotated[list[Literal[LANGUAGES]], Field(min_length=1)] | None = None
    emergency_texts: dict[Literal[LANGUAGES], Annotated[str, Field(max_length=40)]] = {}

    @field_validator("emergency_texts")
    @classmethod
    def _of_their_letters(cls, texts):
        wrong = [code for code, text in texts.items() if code not in NEXT and segments(text)[1] != "GSM-7"]
        if wrong:
            raise ValueError(f"{', '.join(wrong)}: letters that make an SMS half as long; leave the accents out")
        return texts


class Contact(Strict):
    """Whom to call where a text says that an engineer or a gas fitter must do it: of some sites, or of all."""

    does: Literal["engineer", "gas fitter"]
    name: Letters
    number: Annotated[str, Field(pattern=r"^\+?[0-9][0-9 ()-]{2,19}$")]
    sites: list[Annotated[str, Field(pattern=r"^[A-Z]{2}[0-9]{2}$")]] = []
    source: Said | None = None


class Tables(Strict):
    """Tables of a programme file: whom to call, and phrases by language and danger."""

    contact: list[Contact] = []
    danger_words: dict[Literal["en", "hi", "sw", "fr"], dict[Literal[ORDER], list[Phrase]]] = {}


def faults(book):
    """Yield what does not hold together: a contact of no site, somebody in a language that the programme does not answer in."""
    codes = {row.code for row in book.site}
    for row in book.contact:
        yield from (f"contact {row.name}: no site {code}" for code in row.sites if code not in codes)
    spoken = book.programme.languages
    for row in book.person if spoken else ():
        if row.language not in spoken:
            yield f"{row.name}: language {row.language} is none of {', '.join(spoken)}"


def rules(book):
    """The tables as the settings that answers depend on."""
    phrases = [[code, danger, phrase] for code, of in book.danger_words.items() for danger, said in of.items() for phrase in said]
    return {"contacts": [row.model_dump(exclude={"source"}) for row in book.contact], "danger_words": phrases}
