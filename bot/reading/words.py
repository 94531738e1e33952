"""The merged vocabulary: every phrase of every words/*.toml -> the concepts it may stand for."""

import tomllib
from dataclasses import dataclass, field
from functools import cache
from itertools import product
from pathlib import Path
from typing import NamedTuple

from bot.reading.clean import clean, tokens
from bot.reading.slips import FUZZY, denies, sections, spelled, weighs

LONGEST_PHRASE = 6
_THINGS = {"part", "item", "animal", "fuel"}
_DOUBTFUL = frozenset({"unsure.unsure"})
_NAMING = {"act.join", "act.admit"}
_GUARD = {"filler.guard"}  # known only so that they are not taken for a slip
_SEPARATORS = set(",.;:/-_+*")


class Item(NamedTuple):
    """A token or phrase with the concepts it may stand for; a number carries none."""

    sort: str
    text: str
    tags: frozenset = frozenset()
    glued: bool = False

    def has(self, *prefixes):
        """True if one of its concepts, or the section of one, is among the prefixes."""
        return not with_sections(self.tags).isdisjoint(prefixes)

    def concept(self, section):
        """The concept of a section, as "cement" of "item.cement", or None."""
        return _concept(self.tags, section)


# both are asked some dozens of times a text, and only for the few hundred sets of concepts that the lists hold
@cache
def with_sections(tags):
    """Concepts together with their sections: "part.pit" and "part"."""
    return tags | sections(tags)


@cache
def only_numbers(tags):
    """True for a number word that is nothing else."""
    return sections(tags) - {"lookalike"} == {"number"}


@cache
def _concept(tags, section):
    return next((tag.partition(".")[2] for tag in sorted(tags) if tag.startswith(section + ".")), None)


@dataclass(frozen=True, eq=False)
class Vocabulary:
    """phrase (tuple of words) -> concepts; languages in it; unit words that stand before their number.

    `tree` holds the phrases word by word: {first word: [concepts or None, {second word: ...} or None]},
    `long_words` are the words a slip of the pen may stand for, by their first letter, `single` all words that stand
    somewhere in a phrase, `weighty` by length the words that deny or are numbers, `alarming` those a phrase of danger begins with,
    `naming` those that say somebody is named, `moving` the words between somebody and the hole he went into,
    `claims` what stands before the name of who writes, `spoken` the one language of a phrase that only one has,
    `english` the English word for a thing of the works in any language, `tongues` the languages a phrase is listed in.
    """

    phrases: dict
    languages: tuple
    before: frozenset
    tree: dict = field(default_factory=dict)
    long_words: dict = field(default_factory=dict)
    single: frozenset = frozenset()
    weighty: dict = field(default_factory=dict)
    alarming: frozenset = frozenset()
    naming: frozenset = frozenset()
    moving: dict = field(default_factory=dict)
    claims: frozenset = frozenset()
    spoken: dict = field(default_factory=dict)
    english: dict = field(default_factory=dict)
    tongues: dict = field(default_factory=dict)

    def moves(self, text, *ways):
        """True if every word of a text says how somebody moves, in one of the ways named."""
        return all(any(word in self.moving.get(way, ()) for way in ways) for word in text.split())


@cache
def vocabulary(folder=Path(__file__).parent.parent / "words", own=()):
    """Return the Vocabulary of all word files of a folder, and of (language, danger, phrase) of a programme's own."""
    phrases, languages, before, moving, claims, tongues, english, made = {}, [], set(), {}, set(), {}, set(), {}

    def more(tags, tag):
        return made.setdefault((tags, tag), tags | {tag})  # thousands of phrases stand for a few hundred things

    for path in sorted(folder.glob("*.toml")):
        book = tomllib.loads(path.read_text(encoding="utf-8"))
        languages.append(code := book.pop("code"))
        before.update(_key(word) for words in book.pop("before", {}).values() for word in words)
        spelt = book.pop("spelt", {})
        claims.update(book.pop("claims", {}).get("i_am", ()))
        for name, words in book.pop("moving", {}).items():
            moving.setdefault(name, set()).update(words)
        for section, concepts in book.items():
            for concept, words in concepts.items():
                for key in (key for word in words for key in _spellings(_key(word), spelt)):
                    phrases[key] = more(phrases.get(key, frozenset()), f"{section}.{concept}")
                    tongues[key] = more(tongues.get(key, frozenset()), code)
        english = english or set(phrases)
    spoken = {key: min(codes) if len(codes) == 1 else None for key, codes in tongues.items()}
    for code, danger, phrase in own:
        tongues[_key(phrase)] = more(tongues.get(_key(phrase), frozenset()), code.partition("-")[0])
        phrases[_key(phrase)] = more(phrases.get(_key(phrase), frozenset()), f"danger.{danger}")
    fuzzy = {}
    likely = {word for key, tags in phrases.items() if sections(tags) <= FUZZY and tags != _GUARD for word in key}
    for word in sorted(word for word in likely if len(word) >= 5 and sections(phrases.get((word,), ())) <= FUZZY):
        fuzzy.setdefault(word[0], {})[word] = phrases.get((word,), frozenset())
    weighty = {}
    for word in sorted(key[0] for key, tags in phrases.items() if len(key) == 1 and _weight(key[0], tags)):
        weighty.setdefault(len(word), []).append(word)
    single = frozenset(word for key in phrases for word in key)
    alarming = frozenset(key[0] for key, tags in phrases.items() if len(key) > 1 and sections(tags) & {"danger"})
    naming = frozenset(key[0] for key, tags in phrases.items() if len(key) == 1 and tags & _NAMING)
    return Vocabulary(
        phrases, tuple(languages), frozenset(before), _tree(phrases), fuzzy, single, weighty, alarming, naming, moving, frozenset(claims),
        spoken, _english(phrases, english), tongues,
    )  # fmt: skip


def _spellings(key, spelt):
    """A phrase in every way it is spelt: "nhi hua" beside "nahi hua"; a word alone is listed as often as it needs."""
    if len(key) < 2 or spelt.keys().isdisjoint(key):
        return (key,)
    return tuple(product(*((word, *spelt.get(word, ())) for word in key)))


def _english(known, listed):
    """{word of another language: the English word of the same thing}; the English list, of which `listed` are the phrases, comes first."""
    found, firsts = {}, {}
    for (word, *more), tags in known.items():
        (thing, *others) = tags
        if not more and not others and sections(tags) <= _THINGS and thing != "animal.people":
            name = thing.partition(".")[2]
            firsts.setdefault(thing, name if known.get((name,)) == tags else word)
            found[word] = firsts[thing]
    return {word: name for word, name in found.items() if (word,) not in listed}


def _tree(known):
    tree = {}
    for key, tags in known.items():
        if len(key) <= LONGEST_PHRASE:
            branch = tree
            for word in key[:-1]:
                node = branch.setdefault(word, [None, None])
                node[1] = branch = {} if node[1] is None else node[1]
            branch.setdefault(key[-1], [None, None])[0] = tags
    return tree


def _weight(word, tags):
    """True for a word that denies, and for a long word of a number, a fraction or an order."""
    found = sections(tags)
    return ("not" in found and len(word) >= 3) or ((found & {"number", "fraction", "order"} or "state.no" in tags) and len(word) >= 5)


def _key(phrase):
    if phrase.isascii() and phrase.replace(" ", "").isalpha() and phrase.islower():
        return tuple(phrase.split())  # nothing in it to clean
    return tuple(token.text for token in tokens(clean(phrase)))


def tag(text, words, names=frozenset(), mend=True):
    """Return the Items of a cleaned text: the longest phrase known at each place, else the bare token.

    A word that is somebody's name is never taken for a slip of the pen; without `mend` no word is.
    """
    pieces, items, at = spelled(tokens(text), words, names) if mend else tokens(text), [], 0
    named = any(piece.text in words.naming for piece in pieces)  # a new name may be built as a verb is
    while at < len(pieces):
        length, tags = _longest(pieces, at, words)
        piece = pieces[at]
        if length > 1 and sections(tags) != {"fraction"} and _half_of_the_last(piece, items, words):
            length, tags = 1, words.phrases[(piece.text,)]
        strange = tags is None and mend and piece.sort == "word" and piece.text not in names
        if strange and (weighs(piece.text, words, 3) or (not named and denies(piece.text))):
            tags = _DOUBTFUL
        sort = "word" if length > 1 or (tags and piece.sort == "number") else piece.sort
        joined = piece.text if length == 1 else " ".join(p.text for p in pieces[at : at + length] if p.text not in _SEPARATORS)
        items.append(Item(sort, joined, tags or frozenset(), piece.glued))
        at += length
    return tuple(items)


def _half_of_the_last(piece, items, words):
    """True for a fraction behind a unit and an "and": "mita moja na nusu kipenyo" is one and a half, and a width."""
    said = sections(words.phrases.get((piece.text,), ())) == {"fraction"}
    return said and len(items) > 1 and items[-1].has("link.and") and (items[-2].has("unit", "number") or items[-2].sort == "number")


def _longest(pieces, at, words):
    """(pieces spanned, concepts) of the longest phrase known at a place, or (1, None)."""
    length, tags = (_phrases(pieces, at, words, _mark) or [(1, None)])[-1]
    if pieces[at].text in words.alarming:
        apart = [found for found in _phrases(pieces, at, words, _mark_or_idle) if found[0] > length and sections(found[1]) & {"danger"}]
        length, tags = apart[-1] if apart else (length, tags)
    return length, tags


def _phrases(pieces, at, words, between):
    """[(pieces spanned, concepts)] of the phrases that begin at a place, the longest last; what may stand between does not count."""
    found, ways = [], [words.tree]
    for place in range(at, min(at + 12, len(pieces))):
        further = [known[pieces[place].text] for known in ways if pieces[place].text in known]
        found += [(place - at + 1, tags) for tags, _ in further if tags]
        ways = [known for _, known in further if known] + (ways if place > at and between(pieces[place], words) else [])
        if not ways:
            break
    return found


def _mark(piece, words):
    return piece.text in _SEPARATORS


def _mark_or_idle(piece, words):
    """True for a mark, and for a word that may stand inside a phrase of danger: "water is coming", "smell of the gas"."""
    tags = words.phrases.get((piece.text,), ())
    return _mark(piece, words) or bool(tags) and sections(tags) <= {"filler", "link", "asks", "subject"}
