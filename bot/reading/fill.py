"""Soil behind the wall and over the dome: layers, heights, the cover; ground water; and who lifts a slab, which ring."""

from bot.forms import Ask, Form
from bot.reading import marks
from bot.reading.measures import Measure
from calc.units import si

SIDES = ("leg.left", "leg.right", "leg.both", "side", "field.height", "act.height_round")
NAMES = (("cover_m", ("act.soil_over", "part.dome")), ("layer_m", ("act.coat", "act.rammed")), ("levels_m", SIDES))
DOUBTED = ("act.added", "act.more", "act.need", "state.no")
ALIKE = 2  # how far readings of one cover may lie apart
GROUND_M = (0.0, 15.0)
RANGES = {"cover_m": (0.0, 2.5), "layer_m": (0.02, 1.5), "levels_m": (0.0, 4.0)}


def take(line, used, kind, hints):
    """{"layer_m", "levels_m", "cover_m", "rammed"} of a backfill; a single length without its word is asked about."""
    places = [at for at, p in enumerate(line) if isinstance(p, Measure) and (p.unit is None or p.kind in ("length", "bare"))]
    said = {"text": " ".join(line[at].text for at in places)[:40]}
    units = {line[at].unit for at in places} - {None}
    if not places:
        return Ask(kind.name, "no_reading", {})
    if not units:
        return Ask(kind.name, "unit_missing", said)
    if len(units) > 1 or any(not _single(line[at]) for at in places) or any(_is(piece, DOUBTED) for piece in line):
        return Ask(kind.name, "unclear_readings", said)
    unit = next(iter(units))
    found = _given(line, places, unit)
    if None in found:
        options = tuple(Form(kind.name, {name: tuple(found[None])}) for name in ("layer_m", "cover_m"))
        return Ask(kind.name, "layer_or_cover", said, options if len(found[None]) == 1 and len(found) == 1 else ())
    if any(not low <= value <= high for name, (low, high) in RANGES.items() for value in found.get(name, ())):
        return Ask(kind.name, "unclear_number", said)
    cover = found.get("cover_m", (1.0,))
    if max(cover) > ALIKE * min(cover):  # three sides of a slab
        return Ask(kind.name, "unclear_readings", said)
    used.update(places)
    fields = {name: tuple(values) for name, values in found.items()}
    return Form(kind.name, fields | ({"rammed": "yes"} if any(_is(piece, ("act.rammed",)) for piece in line) else {}))


def _single(piece):
    return len(piece.readings) == 1 or (not piece.readings and len(piece.values) == 1)


def _given(line, places, unit):
    """The lengths by the word that stands before them, else by the only word there is."""
    found, name = {}, None
    for at, piece in enumerate(line):
        if at in places:
            value = piece.readings[0] if len(piece.readings) == 1 else si(piece.value, piece.unit or unit)
            found.setdefault(name, []).append(value)
        else:
            name = next((field for field, words in NAMES if _is(piece, words)), name)
    if None not in found:
        return found
    named = [field for field, words in NAMES if any(_is(piece, words) for piece in line)]
    alone = found[None]
    if named == ["cover_m", "layer_m"] and len(found) == 1:  # "soil on dome 40 cm rammed": rammed says how, not what
        named = ["cover_m"]
    if len(named) == 1 and (len(found) == 1 or named[0] not in found):
        found[named[0]] = found.pop(None)
    elif not named and len(alone) > 1:
        found["levels_m"] = found.pop(None)
    return found


def _is(piece, words):
    return not isinstance(piece, Measure) and piece.has(*words)


def ground(line, used, kind, hints):
    """How far down ground water stands; over a floor, or with a no, it is asked about."""
    places = [at for at, p in enumerate(line) if isinstance(p, Measure) and (p.unit is None or p.kind == "length")]
    said = {"text": " ".join(line[at].text for at in places)[:40]}
    if any(_is(piece, ("part.base", "act.above", *DOUBTED)) for piece in line) or len(places) != 1 or not _single(line[places[0]]):
        return Ask(kind.name, "water_down", said)
    piece = line[places[0]]
    if piece.unit is None:
        return Ask(kind.name, "unit_missing", said)
    down_m = piece.readings[0] if piece.readings else si(piece.value, piece.unit)
    if not GROUND_M[0] <= down_m <= GROUND_M[1]:
        return Ask(kind.name, "unclear_number", said)
    used.update(places)
    return Form(kind.name, {"ground_water_m": (down_m,)})


def lifters(line, used, kind, hints):
    """How many people lift a slab, where it is said."""
    return Form(kind.name, marks.take(line, used, kind.fields))


def ring(line, used, kind, hints):
    """The weak or the strong ring."""
    return Form(kind.name, {"ring": next(piece.concept("ring") for piece in line if not isinstance(piece, Measure) and piece.has("ring"))})
