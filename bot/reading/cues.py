"""Which kinds a line may be of: the cues of all kinds, taken apart once and looked up by their rarest sign."""

from collections import Counter
from functools import lru_cache

from bot.reading.measures import Measure

OPENINGS = {"act.closed": "closing", "act.seen": "seeing"}  # words that mean a thing of their own where a text begins with them

ALONE = {"listing": "act.list", "logging": "act.log"}


def fitting(kinds, signs):
    """Return the kinds one of whose cues fits, in their order.

    A cue fits if a line has every sign of it and none that stands behind a minus; "part" means any part.
    """
    index = _index(kinds)
    places = set()
    for sign in signs & index.keys():
        places.update(place for place, wanted, unwanted in index[sign] if wanted <= signs and unwanted.isdisjoint(signs))
    return [kinds[place] for place in sorted(places)]


def opened(line):
    """What a line is by the word it begins with, a greeting left aside."""
    first = next((piece for piece in line if isinstance(piece, Measure) or piece.has(*OPENINGS) or not _aside(piece)), None)
    found = set() if first is None or isinstance(first, Measure) else {sign for tag, sign in OPENINGS.items() if first.has(tag)}
    found |= {"alone"} if all(_adds_nothing(piece) for piece in line) else set()
    if "seeing" in found and all(not isinstance(piece, Measure) and _says_no_more(piece) for piece in line):
        found |= {"seeing_alone"}
    found |= {"stranger"} if any(_taken_off(line, at) for at in range(len(line))) else set()
    return found | {sign for sign, word in ALONE.items() if _by_itself(line, word)}


def _taken_off(line, at):
    """True for a word that takes off, a word nobody knows beside it: it may be a name."""
    if isinstance(line[at], Measure) or not line[at].has("act.take_off"):
        return False
    before = next((piece for piece in reversed(line[:at]) if isinstance(piece, Measure) or not piece.has("filler")), None)
    near = [piece for piece in (before, *line[at + 1 : at + 2]) if piece is not None and not isinstance(piece, Measure)]
    return any(piece.sort == "word" and not piece.tags for piece in near)


def _aside(piece):
    return piece.sort == "mark" or piece.has("filler")


def _says_no_more(piece):
    """True for the word that an alarm was seen, and for polite words."""
    return piece.text != "?" and not piece.has("asks") and (piece.has("act.seen") or _aside(piece))


def _adds_nothing(piece):
    """True for a no, a mark, or a word that is nothing but polite: in "no well" the well is a thing."""
    if isinstance(piece, Measure):
        return False
    return piece.has("state.no") or piece.sort == "mark" or (bool(piece.tags) and all(tag.startswith("filler.") for tag in piece.tags))


def _by_itself(line, word):
    """True for a word with at most one number beside it: list and its page; what to buy is asked for with more words."""
    words = [piece for piece in line if not (isinstance(piece, Measure) or _aside(piece))]
    pages = [piece for piece in line if isinstance(piece, Measure)]
    listed = bool(words) and all(piece.has(word, "link") and piece.text != "?" for piece in words)
    return listed and any(piece.has(word) for piece in words) and len(pages) <= 1 and all(page.unit is None for page in pages)


@lru_cache(8)
def _index(kinds):
    """{sign: [(place of the kind, signs wanted, signs that must not be there)]}, each cue under one sign it wants."""
    parted = [(place, *_parted(cue)) for place, kind in enumerate(kinds) for cue in kind.cues]
    often = Counter(sign for _, wanted, _ in parted for sign in wanted)
    found = {}
    for cue in parted:
        found.setdefault(min(cue[1], key=lambda sign: (often[sign], sign)), []).append(cue)
    return found


def _parted(cue):
    signs = cue.split()
    return frozenset(sign for sign in signs if sign[0] != "-"), frozenset(sign[1:] for sign in signs if sign[0] == "-")
