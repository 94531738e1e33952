"""What is looked at beside the works: temperatures, days kept wet, the age of a mixing or of cement, silt and bulking of sand."""

import re

from bot.forms import Ask, Form
from bot.reading import doubt
from bot.reading.measures import Measure
from bot.reading.things import tags_of
from calc.units import si

LABELS = {"least_temp_c": ("act.least", "act.night"), "most_temp_c": ("act.most", "unit.d"), "temp_c": ("act.temp",)}
OF_UNIT = {"d": "most_temp_c", "min": "least_temp_c"}  # "day 22" and "min 8" were read as 22 days and 8 minutes
STOOD = {"min": "mixed_min", "h": "mixed_h", "d": "mixed_d"}
AGES = {"d": "age_d", "month": "age_months", "year": "age_years"}
MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
YEARS = (2000, 2099)  # what four figures on a bag may be
SANDS = ("mm", "cm", "m", "in")


def _text(line):
    return {"text": " ".join(piece.text for piece in line)[:40]}


def _dated(line):
    """The day a message is about where it is not today: a line about tomorrow never comes here."""
    return {"day": "yesterday"} if "day.yesterday" in tags_of(line) else {}


def temp(line, used, kind, hints):
    """The temperatures of a day: "temp 12 c", "night 8 day 22", "min 8 max 24"; which is which is said with each."""
    events = _labelled(line, used)
    if events is None:
        return Ask(kind.name, "unclear_number", _text(line))
    named = [event for event in events if isinstance(event, str)]
    if set(named) - {"temp_c"}:
        events = [event for event in events if event != "temp_c"]  # "temp night 8": the night's
    fields = _paired(events)
    if not fields or fields.get("least_temp_c", -100) > fields.get("most_temp_c", 100):
        return Ask(kind.name, "which_temp", _text(line))
    return Form(kind.name, fields | _dated(line))


def _labelled(line, used):
    """Labels and numbers in order; None where a number is unclear or of another unit."""
    events = []
    for at, piece in enumerate(line):
        if not isinstance(piece, Measure):
            label = next((name for name, words in LABELS.items() if piece.has(*words)), None)
            events += [label] if label and label not in events[-1:] else []  # "cold night" is one
            continue
        degrees = _degrees(line, at)
        if degrees is None or piece.unit not in (None, "C", *OF_UNIT):
            return None
        used.add(at)
        pair = [degrees] + ([OF_UNIT[piece.unit]] if piece.unit in OF_UNIT else [])
        events += pair if piece.text[0] in "-0123456789" else pair[::-1]
    return events


def _degrees(line, at):
    """The number at a place, below zero where a minus stands at it; None where the dash may only part two words."""
    frost = re.fullmatch(r"-(\d{1,2})( .*)?", line[at].text)
    if frost:
        return -float(frost[1])
    dashed = at > 0 and not isinstance(line[at - 1], Measure) and line[at - 1].text == "-"
    return line[at].value if len(line[at].values) == 1 and not dashed else None


def _paired(events):
    """{field: degrees} of labels and numbers that stand in pairs, the label before or behind; else None."""
    if len(events) == 1 and isinstance(events[0], float):
        events = ["temp_c", *events]
    first, second = events[::2], events[1::2]
    labels, numbers = (first, second) if events and isinstance(events[0], str) else (second, first)
    good = len(first) == len(second) and all(isinstance(e, str) for e in labels) and all(isinstance(e, float) for e in numbers)
    return dict(zip(labels, numbers, strict=True)) if good and len(set(labels)) == len(labels) else None


def wet(line, used, kind, hints):
    """A day on which something was kept wet, how many times, and which part."""
    fields = {}
    if "state.no" in tags_of(line):
        return Ask(kind.name, "denied", _text(line))
    if any(tag.startswith("dryness.") for tag in tags_of(line)):
        return Ask(kind.name, "dry_part", _text(line))
    if {"day.yesterday", "day.today"} <= tags_of(line):
        return Ask(kind.name, "one_day", {})
    for at, piece in enumerate(line):
        behind = line[at + 1] if at + 1 < len(line) else None
        if isinstance(piece, Measure) and behind is not None and not isinstance(behind, Measure) and behind.has("act.times"):
            if piece.unit is not None or len(piece.values) != 1 or piece.value % 1 or not 1 <= piece.value <= kind.fields[0].high:
                return Ask(kind.name, "unclear_number", {"text": piece.text})
            fields["times"] = int(piece.value)
            used.add(at)
    parts = {piece.concept("part") for piece in line if not isinstance(piece, Measure) and piece.has("part")}
    if len(parts) > 1:
        return Ask(kind.name, "unclear_readings", _text(line))
    return Form(kind.name, fields | ({"stage": parts.pop()} if parts else {}) | _dated(line))


def age(line, used, kind, hints):
    """How long ago a mixing was made, and of what: concrete, mortar, or the mortar of tight coats."""
    fields, tags = {}, tags_of(line)
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) and piece.unit in STOOD and len(piece.values) == 1 and STOOD[piece.unit] not in fields:
            fields[STOOD[piece.unit]] = piece.value
            used.add(at)
    if not fields:
        return Ask(kind.name, "mixed_when", {})
    if tags & {"part.plaster", "act.coat"}:
        fields["mixing"] = "tight"
    elif tags & {"material.mortar", "material.ferrocement", "part.wall"}:
        fields["mixing"] = "mortar"
    elif tags & {"material.concrete", "part.base", "part.covers"}:
        fields["mixing"] = "concrete"
    return Form(kind.name, fields)


def cement(line, used, kind, hints):
    """The age of cement or the date on its bag, and whether it has lumps."""
    fields = {}
    if tags_of(line) & {"act.wet", "act.flooded"}:
        return Ask(kind.name, "cement_wet", {})
    month = next((piece.concept("month") for piece in line if not isinstance(piece, Measure) and piece.has("month")), None)
    if month is None and "act.dated" in tags_of(line):
        fields = _of_the_bag(line, used)
        if fields:
            return Form(kind.name, fields)
    for at, piece in enumerate(line):
        if not isinstance(piece, Measure) or len(piece.values) != 1:
            continue
        if piece.unit in AGES and AGES[piece.unit] not in fields and month is None:
            if piece.unit == "d" and not tags_of(line) & {"act.old", "act.ago"}:
                return Ask(kind.name, "cement_date", {"text": piece.text})  # days of what?
            fields[AGES[piece.unit]] = piece.value
        elif month is not None and piece.unit is None and piece.form == "plain":
            fields["year" if piece.value > 31 else "day_of_month"] = int(piece.value)
        else:
            return Ask(kind.name, "cement_date", {"text": piece.text})
        used.add(at)
    lumps = next((at for at, piece in enumerate(line) if not isinstance(piece, Measure) and piece.has("act.lumps")), None)
    if lumps is not None:
        no = doubt.denial(line, lumps, "not", paused=True)
        fields["lumps"] = "no" if no is not None else "yes"
        used.update(() if no is None else (no,))
    fields |= {"month": month} if month else {}
    known = month or set(fields) & set(AGES.values()) or fields.get("lumps") == "yes"
    return Form(kind.name, fields) if known else Ask(kind.name, "cement_date", {"text": _text(line)["text"]})


def _of_the_bag(line, used):
    """{"month", "year"} of a date in figures, "12/2025"; nothing where it is no such date."""
    places = [at for at, piece in enumerate(line) if isinstance(piece, Measure)]
    values = [line[at].value for at in places if line[at].unit is None and line[at].form == "plain" and len(line[at].values) == 1]
    joined = len(places) == len(values) == 2 and [piece.text for piece in line[places[0] + 1 : places[1]]] in (["/"], ["-"])
    if not joined or values[0] not in range(1, 13) or not YEARS[0] <= values[1] <= YEARS[1]:
        return {}
    used.update(places)
    return {"month": MONTHS[int(values[0]) - 1], "year": int(values[1])}


def silt(line, used, kind, hints):
    """The bottle test: silt as a percentage, or the heights of silt and sand in one unit: "silt 4 of 100"."""
    numbers = [at for at, piece in enumerate(line) if isinstance(piece, Measure)]
    measures = [line[at] for at in numbers]
    if any(len(piece.values) != 1 for piece in measures):
        return Ask(kind.name, "unclear_readings", _text(line))
    if len(measures) == 1 and measures[0].unit == "percent":
        used.update(numbers)
        return Form(kind.name, {"silt_percent": measures[0].value})
    heights = _heights(line, measures, ("act.silt", "item.sand"))
    if heights is None or not 0 <= heights[0] < heights[1]:
        return Ask(kind.name, "silt_heights", _text(line))
    used.update(numbers)
    return Form(kind.name, dict(zip(("silt_m", "sand_m") if heights[2] else ("silt", "sand"), heights[:2], strict=True)))


def jar(line, used, kind, hints):
    """The jar test: the height of damp sand, and of the same sand under water."""
    numbers = [at for at, piece in enumerate(line) if isinstance(piece, Measure)]
    heights = _heights(line, [line[at] for at in numbers], ("act.damp", "act.flooded"))
    if heights is None or not 0 < heights[1] <= heights[0]:
        return Ask(kind.name, "jar_heights", _text(line))
    used.update(numbers)
    return Form(kind.name, {"damp": heights[0], "flooded": heights[1]})


def _heights(line, measures, words):
    """(first, second, whether in metres) of two heights, each with its word beside it, in one unit or each its own; else None.

    Where one of the two has no word it is the other one: "silt 4 of 100".
    """
    units = {piece.unit for piece in measures} - {None}
    if len(measures) != 2 or not units <= set(SANDS) or any(len(piece.values) != 1 for piece in measures):
        return None
    if len(units) > 1 and any(piece.unit is None for piece in measures):
        return None
    before, behind, last = [], [], None
    for piece in line:
        if isinstance(piece, Measure):
            before.append(last)
            behind.append(None)
            last = None
        elif piece.has(*words):
            last = next(word for word in words if piece.has(word))
            behind[-1:] = [behind[-1] or last] if behind else []
    named = before if before[0] else behind
    values = [si(piece.value, piece.unit or next(iter(units))) if units else piece.value for piece in measures]
    if named in ([*words], [words[0], None], [None, words[1]]):
        return (*values, bool(units))
    return (*values[::-1], bool(units)) if named in ([*reversed(words)], [words[1], None], [None, words[0]]) else None
