"""Every way to give the readings of a line to the fields it names, in every unit that was not written.

What is physically possible stays. A reading belongs to the field word before it, or behind it; without one it goes to
the fields nobody named.
"""

from dataclasses import dataclass, replace
from itertools import product

from bot.reading.numbers import ALIKE, LENGTHS, Measure
from calc.units import si

ALIKE_UNNAMED = 1.1  # where no word says which readings are of one thing


@dataclass(frozen=True)
class Guess:
    """One way to read the line: field name -> SI values, and what of it was supposed."""

    values: tuple  # of (field name, (values...))
    inferred: tuple = ()
    doubtful: bool = False  # feet with a point in it
    unusual: bool = False  # a number without a unit that would lie where its field seldom does

    @property
    def unnamed(self):
        """True where a reading went to a field that no word named."""
        return bool({"field", "order"} & set(self.inferred))

    @property
    def key(self):
        """Equal for guesses that say the same to a tenth of a millimetre."""
        return tuple((name, tuple(round(value, 4) for value in values)) for name, values in self.values)


def guesses(events, fields, kind, ranges):
    """Return the Guesses of events (field words and Measures, in order), those with every field named first."""
    tried = []
    for styles in ((_each_after, _each_before), (_one_after, _one_before), (_in_turn, _turned)):
        found = {}
        for assigned in _assignments(events, styles, tried):
            for guess in _plausible(assigned, fields, kind, ranges):
                found.setdefault(guess.key, guess)
        if found:
            stated = [guess for guess in found.values() if not guess.unnamed]
            return stated or list(found.values())
    return []


def _assignments(events, styles, tried):
    """Yield every (readings by field name, readings without one) that was not tried before."""
    for named, style in product(_senses(events), styles):
        assigned = style(named)
        if assigned is None:
            continue
        buckets, free = assigned
        same = (list(buckets.items()), free)
        if same not in tried:
            tried.append(same)
            yield assigned


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


def _turned(events):
    """Readings before their field word up to where two such words meet, behind it from there: "1.9 m deep, dia 3.1 3.2 m"."""
    named = [not isinstance(event, Measure) for event in events]
    meet = [at for at in range(1, len(events)) if named[at - 1] and named[at]]
    if len(meet) != 1 or named[0] or named[-1]:
        return None
    (before, some), (after, more) = _each_before(events[: meet[0]]), _each_after(events[meet[0] :])
    return before | after, [*some, *more]


def _in_turn(events):
    """As many readings as field words, each to its own in order: "depth 2 m, 310 cm wide"."""
    names = [event[0] for event in events if not isinstance(event, Measure)]
    readings = [event for event in events if isinstance(event, Measure)]
    return ({name: [reading] for name, reading in zip(names, readings, strict=True)}, []) if len(names) == len(readings) else None


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
        for cut in range(len(free)):  # at the end the two would be as at the beginning
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
        for unit in units:
            meant = {name: [reading.si(unit) for reading in bucket] for name, bucket in buckets.items()}
            doubtful = any(len(meanings) > 1 for each in meant.values() for meanings in each)
            for which in (0, 1) if doubtful else (0,):
                values = {name: tuple(meanings[min(which, len(meanings) - 1)] for meanings in each) for name, each in meant.items()}
                if not _possible(values, buckets, by_name, kind, ranges, ALIKE_UNNAMED if "order" in guessed else ALIKE):
                    continue
                unusual = any(_unusual(by_name[name], values[name], bucket) for name, bucket in buckets.items())
                found.append(Guess(tuple(values.items()), guessed + ((f"unit={unit}",) if unit else ()), doubtful, unusual))
        if found:
            yield from found
            return


def _possible(values, buckets, by_name, kind, ranges, alike):
    for name, numbers in values.items():
        field = by_name[name]
        if len(numbers) > 1 and not (field.many and max(numbers) <= alike * min(numbers)):
            return False
        for number, reading in zip(numbers, buckets[name], strict=True):
            low, high = (field.low, field.high) if reading.unit else _where(field, reading, ranges)
            if not low <= number <= high:
                return False
    return kind.fits is None or kind.fits(values)


def _unusual(field, numbers, readings):
    bare = [number for number, reading in zip(numbers, readings, strict=True) if reading.unit is None]
    return field.usual is not None and not all(field.usual[0] <= number <= field.usual[1] for number in bare)


def _where(field, reading, ranges):
    """(low, high) for a number without a unit: near its plan, else where the field usually lies."""
    usual = field.usual if field.usual and reading.form == "decimal" else (field.low, field.high)
    return ranges.get(field.name, usual)


def in_pairs(events, fields, kind, ranges):
    """Return the Guesses where two and two bare numbers are feet and inches."""
    pairs = _paired(events)
    found = guesses(pairs, fields, kind, ranges) if pairs else []
    return [replace(guess, inferred=(*guess.inferred, "unit=ft")) for guess in found]


def _paired(events):
    """The events with bare numbers taken two and two as feet and inches, "6 2 10 4"; none where they are no pairs."""
    out, at = [], 0
    while at < len(events):
        pair = events[at : at + 2]
        if not isinstance(pair[0], Measure):
            out.append(pair[0])
            at += 1
            continue
        if len(pair) < 2 or any(not isinstance(m, Measure) or m.unit or m.form != "plain" for m in pair) or pair[1].value >= 12:
            return []
        length = si(pair[0].value, "ft") + si(pair[1].value, "in")
        out.append(Measure(f"{pair[0].text} {pair[1].text}", pair[0].values, "ft", (length,), "inches"))
        at += 2
    return out
