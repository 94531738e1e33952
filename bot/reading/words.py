"""The merged vocabulary: every phrase of every words/*.toml -> the concepts it may stand for."""

import tomllib
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

from rapidfuzz.distance import OSA

from bot.reading.clean import clean, tokens

LONGEST_PHRASE = 5
_FUZZY = ("part", "field", "item", "animal", "act", "material", "filler")  # never a number, a unit or a negation


@dataclass(frozen=True)
class Item:
    """A token or phrase with the concepts it may stand for; a number carries none."""

    sort: str
    text: str
    tags: frozenset = frozenset()
    glued: bool = False

    def has(self, *prefixes):
        """True if one of its concepts is, or begins with, one of the prefixes."""
        return any(tag == p or tag.startswith(p + ".") for tag in self.tags for p in prefixes)

    def concept(self, section):
        """The concept of a section, as "cement" of "item.cement", or None."""
        return next((tag.partition(".")[2] for tag in sorted(self.tags) if tag.startswith(section + ".")), None)


@dataclass(frozen=True)
class Vocabulary:
    """phrase (tuple of words) -> concepts; languages in it; unit words that stand before their number."""

    phrases: dict
    languages: tuple
    before: frozenset
    longest_words: dict = field(default_factory=dict)


@cache
def vocabulary(folder=Path(__file__).parent.parent / "words"):
    """Return the Vocabulary of all word files of a folder."""
    phrases, languages, before = {}, [], set()
    for path in sorted(folder.glob("*.toml")):
        book = tomllib.loads(path.read_text(encoding="utf-8"))
        languages.append(book.pop("code"))
        before.update(_key(word) for words in book.pop("before", {}).values() for word in words)
        for section, concepts in book.items():
            for concept, words in concepts.items():
                for word in words:
                    phrases.setdefault(_key(word), set()).add(f"{section}.{concept}")
    fuzzy = {
        key[0]: frozenset(tags)
        for key, tags in phrases.items()
        if len(key) == 1 and len(key[0]) >= 5 and all(tag.partition(".")[0] in _FUZZY for tag in tags)
    }
    return Vocabulary({k: frozenset(v) for k, v in phrases.items()}, tuple(languages), frozenset(before), fuzzy)


def _key(phrase):
    if phrase.isascii() and phrase.replace(" ", "").isalpha() and phrase.islower():
        return tuple(phrase.split())  # nothing in it to clean
    return tuple(token.text for token in tokens(clean(phrase)))


def tag(text, words, names=frozenset()):
    """Return the Items of a cleaned text: the longest phrase known at each place, else the bare token.

    A word that is somebody's name is never taken for a slip of the pen.
    """
    pieces, items, at = tokens(text), [], 0
    while at < len(pieces):
        length, tags = _longest(pieces, at, words)
        piece = pieces[at]
        if tags is None and piece.sort == "word" and piece.text not in names:
            tags = _near(piece.text, words)
        sort = "word" if length > 1 or (tags and piece.sort == "number") else piece.sort
        joined = " ".join(p.text for p in pieces[at : at + length])
        items.append(Item(sort, joined, tags or frozenset(), piece.glued))
        at += length
    return tuple(items)


def _longest(pieces, at, words):
    for length in range(min(LONGEST_PHRASE, len(pieces) - at), 0, -1):
        key = tuple(piece.text for piece in pieces[at : at + length])
        tags = words.phrases.get(key)
        if tags is not None:
            return length, tags
    return 1, None


def _near(word, words):
    """The concepts of the one known long word at one slip of the pen, or None; two candidates are none."""
    if len(word) < 5:
        return None
    close = {tags for known, tags in words.longest_words.items() if _one_slip(word, known)}
    return close.pop() if len(close) == 1 else None


def _one_slip(word, known):
    return abs(len(word) - len(known)) <= 1 and OSA.distance(word, known, score_cutoff=1) <= 1
