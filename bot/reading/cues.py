"""Which kinds a line may be of: the cues of all kinds, taken apart once and looked up by their rarest sign."""

from collections import Counter
from functools import lru_cache


def fitting(kinds, signs):
    """Return the kinds one of whose cues fits, in their order.

    A cue fits if a line has every sign of it and none that stands behind a minus; "part" means any part.
    """
    index = _index(kinds)
    places = set()
    for sign in signs & index.keys():
        places.update(place for place, wanted, unwanted in index[sign] if wanted <= signs and unwanted.isdisjoint(signs))
    return [kinds[place] for place in sorted(places)]


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
