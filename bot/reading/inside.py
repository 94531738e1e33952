"""Men counted behind the hole they are in: "gaddhe me 2 aadmi" says what "2 aadmi gaddhe me" says."""

from bot.reading.measures import Measure

PEOPLE = ("animal.people", "person", "crew")
IN_PIT = frozenset({"act.in_pit"})


def counted(line, words):
    """The line with the word for people read as people in the pit, where the pit, an "in" and a bare number stand before it."""
    out = list(line)
    for at in range(3, len(line)):
        pit, into, number, people = line[at - 3 : at + 1]
        worded = not any(isinstance(piece, Measure) for piece in (pit, into, people)) and isinstance(number, Measure)
        if not worded or number.unit is not None or not pit.has("part.pit") or not people.has(*PEOPLE):
            continue
        if into.text in words.moving.get("into", ()):
            out[at] = people._replace(tags=IN_PIT)
    return tuple(out)
