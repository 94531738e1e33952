"""Readings and the fields they belong to: "pit 6ft2in deep 10ft4in wide", "dia 305 308 302 cm depth 186".

Every way of giving the readings to the fields is tried, with every unit that was not written; what is physically
possible stays. One way left is understood, two are asked about, none is out of range or unclear.
"""

from dataclasses import dataclass, replace
from itertools import product

from bot.forms import Ask, Confirm, Form
from bot.reading.measures import LENGTHS, Measure

BELIEVED = 1.3  # a reading out of range by no more than this may be kept, if its number is sent again
ALIKE = 1.3  # readings of one thing differ by less than this factor


@dataclass(frozen=True)
class Guess:
    """One way to read the line: field name -> SI values, and what of it was supposed."""

    values: tuple  # of (field name, (values...))
    inferred: tuple = ()
    doubtful: bool = False  # feet with a point in it

    @property
    def key(self):
        """Equal for guesses that say the same to a tenth of a millimetre."""
        return tuple((name, tuple(round(value, 4) for value in values)) for name, values in self.values)


def take(line, used, kind, ranges):
    """Return Form, Ask or Confirm for the length readings of a line, or None where there are none.

    `used` holds the places other fields have taken; the places taken here are added to it.
    """
    fields = [field for field in kind.fields if field.kind == "length"]
    events = _events(line, used, fields)
    readings = [event for event in events if isinstance(event, Measure)]
    if not readings:
        return None
    if any(not reading.values and not reading.readings for reading in readings):
        return Ask(kind.name, "unclear_number", {"text": next(r.text for r in readings if not r.values)})
    feet = any(reading.unit in ("ft", "in", "soot") for reading in readings)
    guesses = _guesses(events, fields, kind, ranges)
    if len(guesses) == 1:
        return _form(guesses[0], kind, feet)
    if guesses:
        return Ask(kind.name, _difference(guesses), _named(readings), tuple(_form(g, kind, feet) for g in guesses[:3]))
    return _beyond(events, fields, kind, readings, feet)


def _form(guess, kind, feet):
    return Form(kind.name, dict(guess.values), guess.inferred, feet)


def _named(readings):
    return {"text": " ".join(reading.text for reading in readings)}


def _difference(guesses):
    if any(guess.doubtful for guess in guesses) and len({tuple(n for n, _ in g.values) for g in guesses}) == 1:
        return "feet_inch_or_decimal"
    same_fields = len({tuple((name, len(values)) for name, values in guess.values) for guess in guesses}) == 1
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
            if names:
                events.append(names)
    return events


def _guesses(events, fields, kind, ranges):
    for styles in ((_each_after, _each_before), (_one_after, _one_before)):
        found = {}
        for named, style in product(_senses(events), styles):
            for guess in _plausible(style(named), fields, kind, ranges):
                found.setdefault(guess.key, guess)
        if found:
            stated = [guess for guess in found.values() if not {"field", "order"} & set(guess.inferred)]
            return stated or list(found.values())
    return []


def _senses(events):
    """Every choice of one field for each word that may stand for several."""
    choices = [(event,) if isinstance(event, Measure) else tuple((name,) for name in event) for event in events]
    for chosen in product(*choices):
        names = [event[0] for event in chosen if not isinstance(event, Measure)]
        if len(set(names)) == len(names):
            yield chosen


def _each_after(events):
    """Readings belong to the field word before them."""
    buckets, free, name = {}, [], None
    for event in events:
        if isinstance(event, Measure):
            (buckets[name] if name else free).append(event)
        else:
            name = event[0]
            buckets[name] = []
    return buckets, free


def _each_before(events):
    """Readings belong to the field word behind them."""
    buckets, free = _each_after(tuple(reversed(events)))
    return {name: readings[::-1] for name, readings in buckets.items()}, free[::-1]


def _one_after(events):
    """A field word takes the one reading behind it."""
    buckets, free, name = {}, [], None
    for event in events:
        if not isinstance(event, Measure):
            name = event[0]
            buckets[name] = []
        elif name and not buckets[name]:
            buckets[name].append(event)
        else:
            free.append(event)
    return buckets, free


def _one_before(events):
    """A field word takes the one reading before it."""
    buckets, free = _one_after(tuple(reversed(events)))
    return buckets, free[::-1]


def _plausible(assigned, fields, kind, ranges):
    """Yield the Guesses an assignment allows."""
    buckets, free = assigned
    by_name = {field.name: field for field in fields}
    if any(not readings and by_name[name].bare for name, readings in buckets.items()):
        return
    buckets = {name: readings for name, readings in buckets.items() if readings}
    for filled, guessed in _homes(buckets, free, fields):
        yield from _in_units(filled, guessed, by_name, kind, ranges)


def _homes(buckets, free, fields):
    """Every way to give readings without a field word to the fields not named."""
    if not free:
        yield buckets, ()
        return
    open_fields = [field.name for field in fields if field.bare and field.name not in buckets]
    if len(open_fields) == 1:
        yield buckets | {open_fields[0]: free}, ("field",)
    elif len(open_fields) == 2:
        first, second = open_fields
        for cut in range(len(free) + 1):
            yield buckets | _filled({first: free[:cut], second: free[cut:]}), ("order",)
            yield buckets | _filled({second: free[:cut], first: free[cut:]}), ("order",)
    elif len(open_fields) == len(free):
        yield buckets | {name: [reading] for name, reading in zip(open_fields, free, strict=True)}, ("order",)


def _filled(buckets):
    return {name: readings for name, readings in buckets.items() if readings}


def _in_units(buckets, guessed, by_name, kind, ranges):
    """Yield the Guesses of an assignment: in units written elsewhere in the line first, then in the others."""
    readings = [reading for bucket in buckets.values() for reading in bucket]
    stated = tuple(dict.fromkeys(reading.unit for reading in readings if reading.unit))
    others = tuple(unit for unit in LENGTHS if unit not in stated and unit != "soot")
    bare = any(reading.unit is None for reading in readings)
    mixed = any(len({reading.unit is None for reading in bucket}) == 2 for bucket in buckets.values())
    if stated and (guessed or mixed):
        others = ()  # beside a written unit a number without word or unit is not given one of its own
    for units in (stated, others) if bare else ((None,),):
        found = []
        for unit, which in product(units, (0, 1)):
            values = {name: tuple(_meaning(r, unit, which) for r in bucket) for name, bucket in buckets.items()}
            if _possible(values, buckets, by_name, kind, ranges):
                doubtful = any(len(reading.si(unit)) > 1 for reading in readings)
                found.append(Guess(tuple(values.items()), guessed + ((f"unit={unit}",) if unit else ()), doubtful))
        if found:
            yield from found
            return


def _meaning(reading, unit, which):
    values = reading.si(unit)
    return values[min(which, len(values) - 1)]


def _possible(values, buckets, by_name, kind, ranges):
    for name, numbers in values.items():
        field = by_name[name]
        if len(numbers) > 1 and not (field.many and max(numbers) <= ALIKE * min(numbers)):
            return False
        for number, reading in zip(numbers, buckets[name], strict=True):
            low, high = (field.low, field.high) if reading.unit else _where(field, reading, ranges)
            if not low <= number <= high:
                return False
    return kind.fits is None or kind.fits(values)


def _where(field, reading, ranges):
    """(low, high) for a number without a unit: near its plan, else where the field usually lies."""
    usual = field.usual if field.usual and reading.form == "decimal" else (field.low, field.high)
    return ranges.get(field.name, usual)


def _beyond(events, fields, kind, readings, feet):
    """Nothing possible: a reading with its unit stated is out of range, anything else is unclear."""
    if any(reading.unit is None for reading in readings):
        return Ask(kind.name, "unit_missing", _named(readings))
    open_kind = replace(kind, fits=None, fields=tuple(replace(f, low=float("-inf"), high=float("inf")) for f in fields))
    wide = _guesses(events, list(open_kind.fields), open_kind, {})
    if len(wide) != 1:
        return Ask(kind.name, "which_field" if wide else "unclear_number", _named(readings))
    limits = {field.name: field for field in fields}
    for name, values in wide[0].values:
        for value in values:
            field = limits[name]
            if not field.low <= value <= field.high:
                likely = next((v for v in (value / 10, value / 100, value * 10) if field.low <= v <= field.high), None)
                found = {"field": name, "value_m": value, "low_m": field.low, "high_m": field.high, "likely_m": likely}
                found["believable"] = field.low / BELIEVED <= value <= field.high * BELIEVED
                return Confirm(_form(wide[0], kind, feet), "range", found)
    return Ask(kind.name, "unclear_readings", _named(readings))
