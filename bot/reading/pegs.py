"""Lengths of the setting out: sides and diagonals, radii round a peg, a level below the string, an inlet pipe."""

from bot.forms import Ask, Form
from bot.reading.measures import Measure
from calc.units import si


def take(line, used, kind, hints):
    """Lengths behind the words they belong to: {"sides_m", "diagonals_m", "radii_m", "string_m", "below_m", "end_m"}, and a slope."""
    fields, words = {}, [piece for piece in line if not isinstance(piece, Measure)]
    place = next((piece.concept("level") for piece in words if piece.has("level")), None)
    if place:
        fields["place"] = place
    part = next((piece.concept("part") for piece in words if piece.has("part")), None)
    part = part or next((piece.text.split()[-1] for piece in words if piece.has("act.round") and piece.text in ROUND), None)
    part = part or next(("bowl" for piece in words if piece.has("field.dish")), None)
    if part:
        fields["part"] = part
    if kind.name == "levels" and any(piece.has("act.above", "act.soil") for piece in words) and len(words) < len(line):
        return Ask(kind.name, "above_string", {"text": " ".join(piece.text for piece in line)[:40]})
    if kind.name == "levels" and any(piece.has("act.zero_line") for piece in words):
        return Ask(kind.name, "zero_line", {})
    slope = _slope(line, used)
    fields |= {"slope_deg": slope} if slope is not None else {}
    if kind.name == "string" and any(piece.has("item.bricks") for piece in words):
        fields["bricks"] = "yes"
    lengths = [at for at, p in enumerate(line) if isinstance(p, Measure) and at not in used and (p.unit is None or p.kind == "length")]
    alone = line[lengths[0]] if len(lengths) == 1 and line[lengths[0]].unit is None else None
    if kind.name == "string" and alone is not None and len(alone.values) == 1 and float(alone.value).is_integer():
        used.add(lengths[0])
        return Form(kind.name, fields | {"course": int(line[lengths[0]].value)})
    return _named(line, used, kind, lengths, fields)


def _named(line, used, kind, lengths, fields):
    """Give every length to the word before it; the first word of the kind takes those before any."""
    units = {line[at].unit for at in lengths} - {None}
    if lengths and not units:
        return Ask(kind.name, "unit_missing", {"text": " ".join(line[at].text for at in lengths)[:40]})
    if len(units) > 1 or any(len(line[at].values) != 1 and not line[at].readings for at in lengths):
        return Ask(kind.name, "unclear_readings", {"text": " ".join(line[at].text for at in lengths)[:40]})
    unit = next(iter(units), None)
    found, name = {}, FIRST.get(kind.name)
    for at, piece in enumerate(line):
        if at in lengths:
            value = piece.readings[0] if len(piece.readings) == 1 else si(piece.value, unit)
            found.setdefault(name, []).append(value)
            used.add(at)
        elif not isinstance(piece, Measure):
            name = next((field for sign, field in BEHIND if piece.has(sign)), name)
    if None in found or any(len(values) > 1 and field not in MANY for field, values in found.items()):
        return Ask(kind.name, "unclear_readings", {"text": " ".join(line[at].text for at in lengths)[:40]})
    return Form(kind.name, fields | {field: tuple(values) if field in MANY else values[0] for field, values in found.items()})


def _slope(line, used):
    """Degrees, or a bare number right behind the word slope."""
    for at, piece in enumerate(line):
        if not isinstance(piece, Measure) or len(piece.values) != 1:
            continue
        before = line[at - 1] if at else None
        behind_word = before is not None and not isinstance(before, Measure) and before.has("field.slope") and piece.unit is None
        if piece.kind == "C" or behind_word:
            used.add(at)
            return piece.value
    return None


FIRST = {"layout": "sides_m", "round": "radii_m", "tube": "tube_m", "levels": "below_m", "inlet_pipe": "end_m"}
BEHIND = (("act.diagonal", "diagonals_m"), ("field.rope", "string_m"), ("level", "below_m"))
ROUND = ("round wall", "round pit", "round dome")
MANY = ("sides_m", "diagonals_m", "radii_m", "tube_m")
