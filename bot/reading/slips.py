"""Slips of the pen: the word a strange one stands for, words typed without a space, letters that belong to the number behind.

A slip never makes a number or a denial; a danger or a doubt at one slip comes first.
"""

import re
import unicodedata
from functools import lru_cache

from rapidfuzz import process
from rapidfuzz.distance import OSA

from bot.reading.clean import Token

_DOUBLED = re.compile(r"([a-z])\1+")
# a slip of the pen never makes a number or a denial; one that comes near to either makes the line doubtful
FUZZY = {
    "part", "field", "item", "animal", "act", "material", "filler", "day", "unsure", "danger", "harmless", "spot", "person", "role", "same",
    "but", "unit", "decimal", "language", "burner", "fuel", "daypart", "crew", "unwell", "near",
}  # fmt: skip
_GRAVE = {"danger", "unsure"}
_DENYING = ("hai", "hau", "haja")  # a Swahili verb that begins so says not
_NEGATIVE = re.compile(  # of the past, and of the present
    r"(?:ha(?:i|u|li|ya|ki|vi|zi|tu|wa|ku|pa)?|hu|si)(?:ja|ku)[a-z]{3,}|ha(?:i|u|li|ya|ki|vi|zi|tu|wa)[a-z]{2,}i"
)


def sections(tags):
    """The sections of concepts: "part" of "part.pit"."""
    return {tag.partition(".")[0] for tag in tags}


def spelled(pieces, words, names):
    """The tokens with slips of the pen mended and words typed without a space taken apart: "basenotdone"."""
    # a new name is no slip
    joins, out = any(piece.text in words.naming for piece in pieces) or _opens(pieces, words), []
    names = names | {piece.text for piece in pieces} if joins and _has_role(pieces, words) else names  # kishan beside mason is no kisan
    for piece in _digits_again(pieces, words):
        strange = piece.sort == "word" and piece.text not in words.single and piece.text not in names
        if strange:
            out += [Token("word", part, piece.glued or at > 0) for at, part in enumerate(_taken_for(piece.text, words, joins))]
        else:
            out.append(piece)
    return out


def _has_role(pieces, words):
    """True where a role is named as it is spelt."""
    return any("role" in sections(words.phrases.get((piece.text,), ())) for piece in pieces)


def _opens(pieces, words):
    """True where a new site is opened: behind that stands a name."""
    pairs = zip(pieces, pieces[1:], strict=False)
    return any("act.new_site" in words.phrases.get((one.text, other.text), ()) for one, other in pairs)


@lru_cache(4096)
def _taken_for(word, words, joins):
    """The words a word nobody knows stands for: the one at a slip of the pen, those it is made of, else itself."""
    mended = _near(word, words, {"role"} if joins else FUZZY)
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
    return (word,) in words.phrases and not sections(words.phrases[(word,)]) & {"number", "fraction"}


def _near(word, words, among=FUZZY):
    """The one known word at a slip of the pen, or None where there are several; a danger or a doubt comes first."""
    if len(word) >= 4 and weighs(word, words, 4):
        return None
    if len(word) >= 4:
        long_words = words.long_words.get(word[0], {})
        close = {known: long_words[known] for known in _one_slip(word, long_words) if sections(long_words[known]) <= among}
        close = {known: tags for known, tags in close.items() if tags or among is FUZZY}  # a new name is no part of a phrase
        close = {known: tags for known, tags in close.items() if sections(tags) & _GRAVE or _consonants(known) == _consonants(word)}
        grave = sorted(known for known, tags in close.items() if "danger" in sections(tags) or "act.tumbled" in tags)
        doubtful = sorted(known for known, tags in close.items() if "unsure" in sections(tags))
        if grave or doubtful:
            return (grave or doubtful)[0]
        if close:
            tagged = {known: tags for known, tags in close.items() if tags} or close
            if len(set(tagged.values())) > 1:  # of several the one that a danger may begin with
                tagged = {known: tags for known, tags in tagged.items() if known in words.alarming}
            return min(tagged) if len(set(tagged.values())) == 1 else None
    once = _DOUBLED.sub(r"\1", word)
    return once if once != word and (once,) in words.phrases and sections(words.phrases[(once,)]) <= among else None


def _consonants(word):
    """The letters of a Hindi word without its vowel signs: a slip there makes another word; nothing of a word in Latin letters."""
    return "" if word.isascii() else [char for char in word if unicodedata.category(char) == "Lo"]


def _one_slip(word, known):
    """The known words that one slip of the pen makes of a word, or that it is."""
    return [found for found, *_ in process.extract(word, list(known), scorer=OSA.distance, score_cutoff=1, limit=None)]


@lru_cache(4096)
def weighs(word, words, least):
    """True for a word at one slip from a denial or a number word of so many letters."""
    near = [known for size in range(max(len(word) - 1, least), len(word) + 2) for known in words.weighty.get(size, ())]
    return len(word) >= 3 and bool(_one_slip(word, near))


def denies(word):
    """True for a word that is built as a Swahili verb that says not, whatever verb it is: "haujanyooka"."""
    return word.startswith(("h", "s")) and _NEGATIVE.fullmatch(word) is not None


def _parts(word, words):
    """The fewest known words of three letters or more, of one language besides English, that make up a word, or None."""
    found = [parts for code in words.languages if (parts := _parts_in(word, words, code))]
    return min(found, key=len, default=None)


def _parts_in(word, words, code):
    best = {0: []}
    for end in range(3, min(len(word), 40) + 1):
        ways = [best[at] + [word[at:end]] for at in range(end - 2) if at in best and _part(word, at, end, words, code)]
        if ways:
            best[end] = min(ways, key=len)
    return best.get(len(word))


def _part(word, start, end, words, code):
    """True for a word of a language, or an English one; not where a Swahili negative begins: "hai" of "haijana"."""
    denies = end < len(word) and word.startswith(_DENYING, start)
    return not denies and not words.tongues.get((word[start:end],), frozenset()).isdisjoint((code, "en"))
