"""Readings and the fields they belong to: "pit 6ft2in deep 10ft4in wide", "dia 305 308 302 cm depth 186".

Every way of giving the readings to the fields is tried, with every unit that was not written; what is physically
possible stays. One way left is understood, two are asked about, none is out of range or unclear.
"""

from dataclasses import replace

from bot.forms import Ask, Confirm, Form
from bot.reading import doubt
from bot.reading.guesses import guesses, in_pairs
from bot.reading.numbers import LENGTHS, Measure

MOST = 12  # numbers in one line, and field words; more is no report of readings
MOST_SENSES = 6  # field words that may stand for several fields
FEET = frozenset({"unit=ft", "unit=in"})
YES_NO = ("flag", "there")
BELIEVED = 1.3  # a reading out of range by no more than this may be kept, if its number is sent again


def take(line, used, kind, ranges):
    """Return Form, Ask or Confirm for the length readings of a line, or None where there are none.

    `used` holds the places other fields have taken; the places taken here are added to it.
    """
    fields = [field for field in kind.fields if field.kind == "length"]
    counted = next((found for at in _unused(line, used) if (found := doubt.counts_something(line, at))), None)
    if counted:
        return Ask(kind.name, "left_over", {"text": counted})
    other = next((piece.text for piece in line if _of_another(piece, kind)), None)
    if other and _unused(line, used):
        return Ask(kind.name, "other_field", {"text": other})
    events = _events(line, used, fields)
    readings = [event for event in events if isinstance(event, Measure)]
    if not readings:
        return None
    unclear = next((r for r in readings if r.kind == "share" or not (r.values or r.readings)), None)
    if unclear:
        return Ask(kind.name, "unclear_number", {"text": unclear.text})
    named = [event for event in events if not isinstance(event, Measure)]
    if len(readings) > MOST or len(named) > MOST or sum(len(event) > 1 for event in named) > MOST_SENSES:
        return Ask(kind.name, "unclear_readings", {"text": readings[0].text})
    feet = any(reading.unit in ("ft", "in", "soot") for reading in readings)
    plain, pairs = _read(line, events, kind, ranges), in_pairs(events, fields, kind, ranges)
    found = _in_centimetres(plain + pairs)
    supposed = bool(plain) and not feet and not FEET.isdisjoint(plain[0].inferred)  # no unit says so, only the range
    feet = feet or bool(found) and not any(FEET.isdisjoint(guess.inferred) for guess in found)
    if len(found) == 1 and (found[0].unusual or supposed):
        return Ask(kind.name, "unit_missing", _named(readings), (_form(found[0], kind, feet),))
    if len(found) == 1 and not (found[0].unnamed and _has_item(line)):
        return _form(found[0], kind, feet)
    if found:
        return Ask(kind.name, _difference(found), _named(readings), tuple(_form(g, kind, feet) for g in found[:3]))
    return _beyond(events, fields, kind, readings, feet)


def _read(line, events, kind, ranges):
    """The guesses; a yes or no behind a number that has its name before it may say nothing of it: "deep 1.8 water in pit"."""
    fields = [field for field in kind.fields if field.kind == "length"]
    plain = guesses(events, fields, kind, ranges)
    at = _said_last(line, events, kind, fields)
    if at is None:
        return plain
    apart = guesses(events[:-1], fields, kind, ranges)
    agreed = any(not isinstance(piece, Measure) and piece.has("state.ok", "state.yes") for piece in line[at + 1 :])
    if apart and (agreed or (not isinstance(line[at - 1], Measure) and line[at - 1].has("link.and"))):
        return apart  # "ladder ok", "with ladder"
    keys = {guess.key for guess in plain}
    return plain + [guess for guess in apart if guess.key not in keys]


def _in_centimetres(found):
    """The one guess in centimetres where every other takes a field beyond what is usual: "dome height 62" is no 62 inches."""
    usual = [guess for guess in found if not guess.unusual]
    return usual if len(usual) == 1 and "unit=cm" in usual[0].inferred else found


def _said_last(line, events, kind, fields):
    """The place of a yes or no that ends the readings, "deep 1.83 ladder", where the number before has a name before it."""
    named = [at for at, event in enumerate(events) if not isinstance(event, Measure)]
    if len(named) < 2 or named[-1] != len(events) - 1 or named[-2] == named[-1] - 1 or not named[-2]:
        return None
    words = [word for field in fields for word in field.words]
    at = max(at for at, piece in enumerate(line) if not isinstance(piece, Measure) and piece.has(*words))
    said = any(field.kind in YES_NO and field.words and line[at].has(*field.words) for field in kind.fields)
    return at if said else None


def _of_another(piece, kind):
    """True for the word of a measure that this kind does not take, as a thickness beside the height of a wall."""
    if isinstance(piece, Measure) or not piece.has("field") or piece.text == "h":  # "1.85 m h" is that it is so
        return False
    return not any(piece.has(*field.words) for field in kind.fields if field.words)


def _has_item(line):
    """True where a material is named: a number without a field word may be of it, as the water in "pit has water 30 cm"."""
    return any(not isinstance(piece, Measure) and piece.has("item") for piece in line)


def _unused(line, used):
    return [at for at, piece in enumerate(line) if isinstance(piece, Measure) and at not in used]


def _form(guess, kind, feet):
    return Form(kind.name, dict(guess.values), guess.inferred, feet)


def _named(readings):
    return {"text": " ".join(reading.text for reading in readings)}


def _difference(found):
    if any(guess.doubtful for guess in found) and len({tuple(n for n, _ in g.values) for g in found}) == 1:
        return "feet_inch_or_decimal"
    same_fields = len({tuple((name, len(values)) for name, values in guess.values) for guess in found}) == 1
    return "which_unit" if same_fields else "which_field"


def _events(line, used, fields):
    """The fields named and the readings given, in order; a field word is a tuple of the names it may stand for."""
    events = []
    for at, piece in enumerate(line):
        if isinstance(piece, Measure):
            if at not in used and (piece.unit in LENGTHS or piece.unit is None) and piece.form not in ("ratio",):
                events.append(piece)
                used.add(at)
        else:
            names = tuple(field.name for field in fields if piece.has(*field.words))
            if names and doubt.denial(line, at) is None:  # "no water" has no reading
                events.append(names)
    return events


def _likely(form, name, value, likely):
    """The form with a reading in place of the one out of range, or None."""
    if likely is None:
        return None
    values = tuple(likely if each == value else each for each in form.fields[name])
    return replace(form, fields=form.fields | {name: values}, inferred=(*form.inferred, "size"))


def _beyond(events, fields, kind, readings, feet):
    """Nothing possible: a reading with its unit stated is out of range, anything else is unclear."""
    units, forms = {reading.unit for reading in readings}, {reading.form for reading in readings}
    apart = len(forms) == 1 and not any(reading.glued for reading in readings)
    if None in units and (len(units) != 2 or not apart):  # "2.31 2.30 m" is all in m; "3.1 22 cm" is not all in cm, nor is "9**9 m"
        return Ask(kind.name, "unit_missing", _named(readings))
    open_kind = replace(kind, fits=None, fields=tuple(replace(f, low=float("-inf"), high=float("inf")) for f in fields))
    wide = guesses(events, list(open_kind.fields), open_kind, {})
    if len(wide) != 1:
        return Ask(kind.name, "which_field" if wide else "unclear_number", _named(readings))
    limits = {field.name: field for field in fields}
    for name, values in wide[0].values:
        for value in values:
            field = limits[name]
            if not field.low <= value <= field.high:
                likely = next((v for v in (value / 10, value / 100, value * 10) if field.low <= v <= field.high), None)
                found = {"field": name, "value_m": value, "low_m": field.low, "high_m": field.high, "likely_m": likely}
                found["believable"] = (field.believed or field.low / BELIEVED) <= value <= field.high * BELIEVED
                form = _form(wide[0], kind, feet)
                return Confirm(form, "range", found, None if found["believable"] else _likely(form, name, value, likely))
    if not wide[0].inferred:
        return Confirm(_form(wide[0], kind, feet), "odd_shape", {"readings": wide[0].values})
    return Ask(kind.name, "unclear_readings", _named(readings))
