"""The merged vocabulary: every phrase of every words/*.toml -> the concepts it may stand for."""

import re
import tomllib
from dataclasses import dataclass, field
from functools import cache, lru_cache
from pathlib import Path
from typing import NamedTuple

from rapidfuzz import process
from rapidfuzz.distance import OSA

from bot.reading.clean import Token, clean, tokens

LONGEST_PHRASE = 6
_DOUBLED = re.compile(r"([a-z])\1+")
# a slip of the pen never makes a number or a denial; one that comes near to either makes the line doubtful
_FUZZY = {
    "part", "field", "item", "animal", "act", "material", "filler", "day", "unsure", "danger", "harmless", "spot", "person", "role", "same",
    "but", "order", "unit", "fraction", "language", "burner", "fuel", "daypart",
}  # fmt: skip
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
    return tags | _sections(tags)


@cache
def only_numbers(tags):
    """True for a number word that is nothing else."""
    return bool(tags) and _sections(tags) == {"number"}


@cache
def _concept(tags, section):
    return next((tag.partition(".")[2] for tag in sorted(tags) if tag.startswith(section + ".")), None)


@dataclass(frozen=True, eq=False)
class Vocabulary:
    """phrase (tuple of words) -> concepts; languages in it; unit words that stand before their number.

    `tree` holds the phrases word by word: {first word: (concepts or None, {second word: ...})},
    `long_words` are the words a slip of the pen may stand for, by their first letter, `single` all words that stand
    somewhere in a phrase, `weighty` by length the words that deny or are numbers, `alarming` those a phrase of danger begins with,
    `naming` those that say somebody is named, `moving` the words between somebody and the hole he went into,
    `claims` what stands before the name of who writes, `spoken` the one language of a phrase that only one has.
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

    def moves(self, text, *ways):
        """True if every word of a text says how somebody moves, in one of the ways named."""
        return all(any(word in self.moving.get(way, ()) for way in ways) for word in text.split())


@cache
def vocabulary(folder=Path(__file__).parent.parent / "words", own=()):
    """Return the Vocabulary of all word files of a folder, and of (language, danger, phrase) of a programme's own."""
    phrases, languages, before, moving, claims, spoken = {}, [], set(), {}, set(), {}
    for path in sorted(folder.glob("*.toml")):
        book = tomllib.loads(path.read_text(encoding="utf-8"))
        languages.append(code := book.pop("code"))
        before.update(_key(word) for words in book.pop("before", {}).values() for word in words)
        claims.update(book.pop("claims", {}).get("i_am", ()))
        for name, words in book.pop("moving", {}).items():
            moving.setdefault(name, set()).update(words)
        for section, concepts in book.items():
            for concept, words in concepts.items():
                for word in words:
                    phrases.setdefault(key := _key(word), set()).add(f"{section}.{concept}")
                    spoken[key] = code if spoken.get(key, code) == code else None
    for _, danger, phrase in own:
        phrases.setdefault(_key(phrase), set()).add(f"danger.{danger}")
    known = {key: frozenset(tags) for key, tags in phrases.items()}
    fuzzy = {}
    likely = {word for key, tags in known.items() if _sections(tags) <= _FUZZY and tags != _GUARD for word in key}
    for word in sorted(word for word in likely if len(word) >= 5 and _sections(known.get((word,), ())) <= _FUZZY):
        fuzzy.setdefault(word[0], {})[word] = known.get((word,), frozenset())
    weighty = {}
    for word in sorted(key[0] for key, tags in phrases.items() if len(key) == 1 and _weight(key[0], tags)):
        weighty.setdefault(len(word), []).append(word)
    single = frozenset(word for key in phrases for word in key)
    alarming = frozenset(key[0] for key, tags in phrases.items() if len(key) > 1 and _sections(tags) & {"danger"})
    naming = frozenset(key[0] for key, tags in known.items() if len(key) == 1 and tags & _NAMING)
    return Vocabulary(
        known,
        tuple(languages),
        frozenset(before),
        _tree(known),
        fuzzy,
        single,
        weighty,
        alarming,
        naming,
        moving,
        frozenset(claims),
        spoken,
    )


def _tree(known):
    tree = {}
    for key, tags in known.items():
        if len(key) <= LONGEST_PHRASE:
            branch = tree
            for word in key[:-1]:
                branch = branch.setdefault(word, [None, {}])[1]
            branch.setdefault(key[-1], [None, {}])[0] = tags
    return tree


def _weight(word, tags):
    """True for a word that denies, and for a long number word."""
    sections = _sections(tags)
    return ("not" in sections and len(word) >= 3) or ("number" in sections and len(word) >= 5)


def _key(phrase):
    if phrase.isascii() and phrase.replace(" ", "").isalpha() and phrase.islower():
        return tuple(phrase.split())  # nothing in it to clean
    return tuple(token.text for token in tokens(clean(phrase)))


def tag(text, words, names=frozenset(), mend=True):
    """Return the Items of a cleaned text: the longest phrase known at each place, else the bare token.

    A word that is somebody's name is never taken for a slip of the pen; without `mend` no word is.
    """
    pieces, items, at = _spelled(tokens(text), words, names) if mend else tokens(text), [], 0
    while at < len(pieces):
        length, tags = _longest(pieces, at, words)
        piece = pieces[at]
        if tags is None and mend and piece.sort == "word" and piece.text not in names and _weighs(piece.text, words, 3):
            tags = _DOUBTFUL
        sort = "word" if length > 1 or (tags and piece.sort == "number") else piece.sort
        joined = piece.text if length == 1 else " ".join(p.text for p in pieces[at : at + length] if p.text not in _SEPARATORS)
        items.append(Item(sort, joined, tags or frozenset(), piece.glued))
        at += length
    return tuple(items)


def _longest(pieces, at, words):
    """(pieces spanned, concepts) of the longest phrase known at a place, or (1, None)."""
    length, tags = (_phrases(pieces, at, words, _mark) or [(1, None)])[-1]
    if pieces[at].text in words.alarming:
        apart = [found for found in _phrases(pieces, at, words, _mark_or_idle) if found[0] > length and _sections(found[1]) & {"danger"}]
        length, tags = apart[-1] if apart else (length, tags)
    return length, tags


def _phrases(pieces, at, words, between):
    """[(pieces spanned, concepts)] of the phrases that begin at a place, the longest last; what may stand between does not count."""
    found, known = [], words.tree
    for place in range(at, min(at + 12, len(pieces))):
        if place > at and between(pieces[place], words):
            continue
        known = known.get(pieces[place].text)
        if known is None:
            break
        if known[0]:
            found.append((place - at + 1, known[0]))
        known = known[1]
    return found


def _mark(piece, words):
    return piece.text in _SEPARATORS


def _mark_or_idle(piece, words):
    """True for a mark, and for a word that may stand inside a phrase of danger: "water is coming", "smell of the gas"."""
    tags = words.phrases.get((piece.text,), ())
    return _mark(piece, words) or bool(tags) and _sections(tags) <= {"filler", "link", "asks", "subject"}


def _spelled(pieces, words, names):
    """The tokens with slips of the pen mended and words typed without a space taken apart: "basenotdone"."""
    # a new name is no slip
    joins, out = any(piece.text in words.naming for piece in pieces) or _opens(pieces, words), []
    for piece in _digits_again(pieces, words):
        strange = piece.sort == "word" and piece.text not in words.single and piece.text not in names
        if strange:
            out += [Token("word", part, piece.glued or at > 0) for at, part in enumerate(_taken_for(piece.text, words, joins))]
        else:
            out.append(piece)
    return out


def _opens(pieces, words):
    """True where a new site is opened: behind that stands a name."""
    pairs = zip(pieces, pieces[1:], strict=False)
    return any("act.new_site" in words.phrases.get((one.text, other.text), ()) for one, other in pairs)


@lru_cache(4096)
def _taken_for(word, words, joins):
    """The words a word nobody knows stands for: the one at a slip of the pen, those it is made of, else itself."""
    mended = _near(word, words, {"role"} if joins else _FUZZY)
    parts = _parts(word, words) if mended is None and len(word) >= 6 and not joins else None
    return (mended,) if mended else tuple(parts or (word,))


def _digits_again(pieces, words):
    """Yield the tokens, the last letter of a word given back to the number glued to it: "cementl2bags"."""
    carried = ""
    for piece, behind in zip(pieces, (*pieces[1:], None), strict=False):
        glued = behind is not None and behind.sort == "number" and behind.glued and piece.sort == "word" and len(piece.text) > 3
        if glued and piece.text not in words.single and piece.text[-1] in "lo" and _thing(piece.text[:-1], words):
            carried = {"l": "1", "o": "0"}[piece.text[-1]]
            yield piece._replace(text=piece.text[:-1])
        else:
            yield piece._replace(text=carried + piece.text) if carried else piece
            carried = ""


def _thing(word, words):
    """True for a known word that is no number itself: behind a number word nobody knows whose the letter is."""
    return (word,) in words.phrases and not _sections(words.phrases[(word,)]) & {"number", "fraction"}


def _near(word, words, sections=_FUZZY):
    """The one known word at a slip of the pen, or None where there are several; a danger or a doubt comes first."""
    if len(word) >= 4 and _weighs(word, words, 4):
        return None
    if len(word) >= 4:
        long_words = words.long_words.get(word[0], {})
        close = {known: long_words[known] for known in _one_slip(word, long_words) if _sections(long_words[known]) <= sections}
        grave = sorted(known for known, tags in close.items() if "danger" in _sections(tags))
        doubtful = sorted(known for known, tags in close.items() if "unsure" in _sections(tags))
        if grave or doubtful:
            return (grave or doubtful)[0]
        if close:
            tagged = {known: tags for known, tags in close.items() if tags} or close
            return min(tagged) if len(set(tagged.values())) == 1 else None
    once = _DOUBLED.sub(r"\1", word)
    return once if once != word and (once,) in words.phrases and _sections(words.phrases[(once,)]) <= sections else None


def _one_slip(word, known):
    """The known words that one slip of the pen makes of a word, or that it is."""
    return [found for found, *_ in process.extract(word, list(known), scorer=OSA.distance, score_cutoff=1, limit=None)]


@lru_cache(4096)
def _weighs(word, words, least):
    """True for a word at one slip from a denial or a number word of so many letters."""
    near = [known for size in range(max(len(word) - 1, least), len(word) + 2) for known in words.weighty.get(size, ())]
    return len(word) >= 3 and bool(_one_slip(word, near))


def _sections(tags):
    return {tag.partition(".")[0] for tag in tags}


def _parts(word, words):
    """The fewest known words of three letters or more that make up a word, or None."""
    best = {0: []}
    for end in range(3, min(len(word), 40) + 1):
        ways = [best[at] + [word[at:end]] for at in range(end - 2) if at in best and (word[at:end],) in words.phrases]
        if ways:
            best[end] = min(ways, key=len)
    return best.get(len(word))
