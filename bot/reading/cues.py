"""Which kinds a line may be of: the cues of all kinds, taken apart once and looked up by their first sign."""

from functools import lru_cache


def fitting(kinds, signs):
    """Return the kinds one of whose cues fits, in their order.

    A cue fits if a line has every sign of it and none that stands behind a minus; "part" means any part.
    """
    index = _index(tuple(kind.cues for kind in kinds))
    cues = (cue for sign in signs for cue in index.get(sign, ()))
    places = {place for place, wanted, unwanted in cues if wanted <= signs and unwanted.isdisjoint(signs)}
    return [kinds[place] for place in sorted(places)]


@lru_cache(8)
def _index(cues):
    """{first sign: [(place of the kind, signs wanted, signs that must not be there)]}"""
    found = {}
    for place, cue in ((place, cue) for place, every in enumerate(cues) for cue in every):
        wanted = [sign for sign in cue.split() if sign[0] != "-"]
        unwanted = frozenset(sign[1:] for sign in cue.split() if sign[0] == "-")
        found.setdefault(wanted[0], []).append((place, frozenset(wanted), unwanted))
    return found
