"""What is put right in a line before its numbers are gathered, and after."""

from bot.reading.apart import unmeasured
from bot.reading.numbers import Measure, is_a, readings
from bot.reading.words import only_numbers

FILLER = frozenset({"filler.filler"})
DISH = frozenset({"field.dish"})
COAT = frozenset({"act.coat"})
DONE = frozenset({"act.done"})
WIDTH = frozenset({"field.width"})
ABOUT = frozenset({"unsure.about"})


def before(items):
    """The items, their numbers as they are to be gathered."""
    return _coats_apart(_days_in_order(_fahrenheit(_thousands(_wide(_hyphens(items))))))


def after(line):
    """The line with its Measures, those put right that another says more of."""
    return unmeasured(_share_feet(tuple(_flat(_worded(list(_stray(line)))))))


def _hyphens(items):
    """Number words without the hyphen between them: "twenty-one", "quatre-vingt-cinq"."""
    said, joined = ("number", "link.and"), False
    out = []
    for at, item in enumerate(items):
        one, other = out[-1] if out else None, items[at + 1] if at + 1 < len(items) else None
        words = other is not None and one is not None and one.sort == other.sort == "word"
        if item.text == "-" and item.glued and words and other.glued and one.has(*said) and other.has(*said):
            joined = True
            continue
        out.append(item._replace(tags=item.tags - FILLER) if joined and item.has("number") else item)  # the "un" is no article here
        joined = False
    return tuple(out)


def _fahrenheit(items):
    """The letter behind a temperature is its scale and no length: "temp 75 f"."""
    if not any(item.has("act.temp", "act.night") for item in items):
        return items
    return tuple(item._replace(tags=frozenset({"unit.F"})) if item.has("lookalike.fahrenheit") else item for item in items)


def _wide(items):
    """Beside a depth the letter before a number is the width, no litre: "P 1.90 L 3.20"."""
    if not any(item.has("field.depth") for item in items):
        return items
    pairs = zip(items, (*items[1:], None), strict=True)
    return tuple(
        item._replace(tags=WIDTH) if item.text == "l" and not item.glued and behind is not None and behind.sort == "number" else item
        for item, behind in pairs
    )


def _thousands(items):
    """Bricks come in hundreds: beside them 1 200 are twelve hundred."""
    out = list(items)
    for at in range(len(items) - 2):
        before, one, other, behind = items[at - 1] if at else None, *items[at : at + 3]
        bricks = (before is not None and before.has("item.bricks")) or behind.has("item.bricks")
        digits = one.sort == other.sort == "number" and one.text.isdigit() and other.text.isdigit() and not other.glued
        if bricks and digits and len(one.text) <= 2 and one.text != "0" and len(other.text) == 3:
            return (*out[:at], one._replace(text=one.text + other.text), *out[at + 2 :])
    return items


def _days_in_order(items):
    """The third day of curing is three days of it: "curing 3rd day"."""
    if not any(item.has("act.cure") for item in items):
        return items
    pairs = zip(items, (*items[1:], None), strict=True)
    return tuple(
        item._replace(sort="number", text=item.concept("order"), tags=frozenset())
        if item.has("order") and behind is not None and behind.has("unit.d")
        else item
        for item, behind in pairs
    )


def _coats_apart(items):
    """Coat 1 of half an inch, not of one and a half: "coat 1 1/2 inch"."""
    out = []
    for item in items:
        whole, _, part = item.text.partition(" ")
        if out and out[-1].has("act.coat") and item.sort == "number" and "/" in part:
            out += [item._replace(text=whole), item._replace(text=part, glued=False)]
        else:
            out.append(item)
    return tuple(out)


def _flat(line):
    """Yield the pieces; a bottom of 0 beside the depth of a pit is its dish, no slab: "prof 1,85 fond 0 cm"."""
    dug = any(not isinstance(piece, Measure) and piece.has("field.depth") for piece in line)
    for piece, behind in zip(line, [*line[1:], None], strict=False):
        none = dug and isinstance(behind, Measure) and behind.value == 0 and not isinstance(piece, Measure) and piece.has("part.base")
        yield piece._replace(tags=DISH) if none else piece


def _stray(line):
    """A number word left beside a number is part of a number nobody here can put together: it is unreadable."""
    for at, piece in enumerate(line):
        lone = not isinstance(piece, Measure) and only_numbers(piece.tags)
        if lone and any(
            isinstance(other, Measure) or other.has("number") for other in (*line[max(at - 1, 0) : at], *line[at + 1 : at + 2])
        ):
            yield Measure(piece.text, (), form="bad")
        else:
            yield piece


def _share_feet(line):
    """A bare decimal beside one in feet is in feet too and as doubtful: "d 6.1 w 10.3 ft"."""
    if not any(isinstance(m, Measure) and m.unit == "ft" and len(m.readings) == 2 for m in line):
        return line
    bare = [isinstance(piece, Measure) and piece.unit is None and piece.form == "decimal" for piece in line]
    return tuple(p._replace(unit="ft", readings=readings(p, "ft")) if alone else p for p, alone in zip(line, bare, strict=True))


def _worded(line):
    """The line with its words as the ones beside them have them: "2eme couche d enduit", "plaster 2nd 12 mm", "mur fait"."""
    return [piece if isinstance(piece, Measure) else _by_neighbours(line, at) for at, piece in enumerate(line)]


def _by_neighbours(line, at):
    piece, before, behind = line[at], line[at - 1] if at else None, line[at + 1] if at + 1 < len(line) else None
    worded = behind is not None and not isinstance(behind, Measure) and behind.sort == "word"
    if piece.has("field.depth_or_width") and piece.has("filler") and worded and not isinstance(before, Measure):
        return piece._replace(tags=piece.tags - {"field.depth_or_width"})
    if piece.has("part.plaster") and worded and behind.has("order") and not any(is_a(other, "act.coat") for other in line):
        return piece._replace(tags=piece.tags | COAT)
    if piece.has("act.between") and _two_joined(line[at + 1 : at + 4]):
        return piece._replace(tags=piece.tags | ABOUT)
    if piece.has("act.made") and before is not None and is_a(before, "part", "filler"):
        ends = all(is_a(other, "day", "filler") for other in line[at + 1 :])
        return piece._replace(tags=piece.tags | DONE) if ends else piece
    return piece


def _two_joined(pieces):
    """True for a number, an "and" and a number: what lies between them is not known."""
    return len(pieces) == 3 and isinstance(pieces[0], Measure) and is_a(pieces[1], "link.and") and isinstance(pieces[2], Measure)
