"""Things and their numbers, two and two: which number of a line counts which thing."""

from bot.reading.measures import Measure

PARTING = (",", ";", ".", "/", "+")


def pair(line, used, section):
    """Return [(concept, Measure), ...] for things counted: "4 cows 6 people", "cow 3 people 7", "3cow ppl5".

    The first two pieces are one pair, the next two another, whichever of them stands first: "7 people cow 5 goat 2". None where a
    thing or a number stays alone.
    """
    places = [
        at
        for at, piece in enumerate(line)
        if (isinstance(piece, Measure) and at not in used) or (not isinstance(piece, Measure) and piece.has(section))
    ]
    apart = _apart(line, places, section)
    if apart:
        used.update(at for at in places if isinstance(line[at], Measure))
        return apart
    pairs, at = [], 0
    while at + 1 < len(places):
        first, second = line[places[at]], line[places[at + 1]]
        if isinstance(first, Measure) == isinstance(second, Measure):
            return None
        number, thing = (first, second) if isinstance(first, Measure) else (second, first)
        pairs.append((thing.concept(section), number))
        used.update(place for place in places[at : at + 2] if isinstance(line[place], Measure))
        at += 2
    return pairs if at == len(places) else None


def _apart(line, places, section):
    """The pairs where marks or an and part them, whichever stands first in each: "8 people, cows 2"; None where they do not."""
    pairs, part = [], []
    for at, piece in enumerate((*line, None)):
        if piece is None or (not isinstance(piece, Measure) and (piece.has("link.and") or piece.text in PARTING)):
            if part and [isinstance(each, Measure) for each in part] not in ([True, False], [False, True]):
                return None
            number, thing = sorted(part, key=lambda each: not isinstance(each, Measure)) if part else (None, None)
            pairs += [(thing.concept(section), number)] if part else []
            part = []
        elif at in places:
            part.append(piece)
    return pairs
