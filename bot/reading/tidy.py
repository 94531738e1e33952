"""What is put right in a line before its numbers are gathered, and after."""

from bot.reading.numbers import Measure, readings
from bot.reading.words import only_numbers

DISH = frozenset({"field.dish"})


def before(items):
    """The items, their numbers as they are to be gathered."""
    return _coats_apart(_days_in_order(_fahrenheit(items)))


def after(line):
    """The line with its Measures, those put right that another says more of."""
    return _share_feet(tuple(_flat(list(_stray(line)))))


def _fahrenheit(items):
    """The letter behind a temperature is its scale and no length: "temp 75 f"."""
    if not any(item.has("act.temp", "act.night") for item in items):
        return items
    return tuple(item._replace(tags=frozenset({"unit.F"})) if item.has("lookalike.fahrenheit") else item for item in items)


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
