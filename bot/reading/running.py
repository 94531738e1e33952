"""A plant being started and in use: dung collected or fed, gas let off, a fault that is told."""

from bot.forms import Ask, Form
from bot.reading import doubt
from bot.reading.measures import Measure
from bot.reading.things import tags_of
from calc.units import from_si, si

COWS = {"animal.cattle", "animal.buffalo", "animal.calves"}


def dung(line, used, kind, hints):
    """Dung in kg, water in litres, each also in containers of known litres; nothing where only the amount is asked for."""
    fields = {}
    other = [p.text for p in line if not isinstance(p, Measure) and p.has("animal") and not COWS & p.tags and not p.has("animal.people")]
    if other:
        return Ask(kind.name, "other_dung", {"animal": other[0]})
    strange = any(not isinstance(p, Measure) and p.has("item") and not p.has("item.dung", "item.water") for p in line)
    for at, piece in enumerate(line):
        if not isinstance(piece, Measure) or not piece.values:
            fields |= _without(line, at, used)
            continue
        if strange:  # the number may count that: "dung for first fill, sand two trolleys"
            return Ask(kind.name, "unclear_number", {"text": piece.text})
        if piece.kind == "container" and piece.unit not in hints.litres:
            return Ask(kind.name, "container_litres", {"container": piece.unit, "text": piece.text})
        name, amount = _dung_or_water(line, at, hints)
        if name is None or name in fields or {name, *fields} >= {"dung_kg", "dung_l"}:
            return Ask(kind.name, "unclear_number", {"text": piece.text})
        fields |= {name: amount} | ({"measured": piece.unit} if piece.kind == "container" else {})
        used.add(at)
    if kind.name == "feed" and set(fields) == {"water_l"}:
        return Ask(kind.name, "how_many", {"item": "dung"})
    return Form(kind.name, fields)


def _without(line, at, used):
    """No water at all, where that is said."""
    piece, behind = line[at], line[at + 1] if at + 1 < len(line) else None
    no = not isinstance(piece, Measure) and piece.has("state.no", "not.not")
    if not no or behind is None or isinstance(behind, Measure) or not behind.has("item.water"):
        return {}
    used.add(at)
    return {"water_l": 0.0}


def _dung_or_water(line, at, hints):
    """(field, amount) of a number: a mass is dung, a volume water unless dung stands at it."""
    piece = line[at]
    if piece.kind == "mass":
        return "dung_kg", from_si(si(piece.value, piece.unit), "kg")
    if piece.kind == "volume":
        litres = from_si(si(piece.value, piece.unit), "l")
        return ("dung_l", litres) if _beside_item(line, at) == "dung" else ("water_l", litres)
    if piece.kind != "container":
        return None, None
    litres = piece.value * hints.litres[piece.unit]
    return ("water_l", litres) if _beside_item(line, at) == "water" else ("dung_l", litres)


def _beside_item(line, at):
    """The thing that is named right behind a number, else right before it, or None."""
    behind = next((p for p in line[at + 1 : at + 3] if isinstance(p, Measure) or not p.has("link.of", "filler")), None)
    for piece in (behind, line[at - 1] if at else None):
        if piece is not None and not isinstance(piece, Measure) and piece.has("item.dung", "item.water"):
            return piece.concept("item")
    return None


def vent(line, used, kind, hints):
    """Gas let off, with the head of water it stood at."""
    readings = [at for at, piece in enumerate(line) if isinstance(piece, Measure) and piece.kind != "time"]
    if not readings:
        return Form(kind.name, {})
    piece = line[readings[0]]
    if len(readings) > 1 or len(piece.values) != 1:
        return Ask(kind.name, "unclear_readings", {"text": " ".join(line[at].text for at in readings)[:40]})
    if piece.unit != "cm" and piece.kind != "pressure":
        return Ask(kind.name, "gauge_unit", {})
    used.add(readings[0])
    return Form(kind.name, {"vented_pa": si(piece.value, "cmH2O" if piece.unit == "cm" else piece.unit)})


def fault(line, used, kind, hints):
    """The symptom that is named; two are told one after the other."""
    named = sorted({tag.partition(".")[2] for tag in tags_of(line) if tag.startswith("fault.")})
    return Form(kind.name, {"symptom": named[0]}) if len(named) == 1 else Ask(kind.name, "one_fault", {})


def weather(line, used, kind, hints):
    """Thunder and how long ago, WBGT or heat index with the work and the day in the heat: "wbgt 27 heavy day 2"."""
    tags, fields = tags_of(line), {}
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) and piece.kind == "time" and piece.values and (piece.unit == "d" or "act.thunder" in tags):
            name, unit = ("acclimatised_d", "d") if piece.unit == "d" else ("thunder_min", "min")
            fields[name] = from_si(si(piece.value, piece.unit), unit)
            used.add(at)
    for sign, name in (("act.wbgt", "wbgt_c"), ("act.heat_index", "heat_index_c")):
        taken = _beside(line, used, sign)
        fields |= {name: taken} if taken is not None else {}
    work = next((tag.partition(".")[2] for tag in sorted(tags) if tag.startswith("work.")), None)
    fields |= {"work": work} if work else {}
    thunder = next((at for at, piece in enumerate(line) if not isinstance(piece, Measure) and piece.has("act.thunder")), None)
    if thunder is not None and doubt.denial(line, thunder, "not", paused=True) is not None:
        return Ask(kind.name, "denied", {"text": " ".join(piece.text for piece in line)[:40]})
    if thunder is not None and "thunder_min" not in fields:
        fields["thunder_min"] = 0.0
    return Form(kind.name, fields)


def _beside(line, used, sign):
    """The bare number or the degrees next to a word, before those behind it, or None."""
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) or not piece.has(sign):
            continue
        for near in (at + 1, at - 1):
            found = line[near] if 0 <= near < len(line) and near not in used else None
            if isinstance(found, Measure) and found.unit in (None, "C") and len(found.values) == 1:
                used.add(near)
                return found.value
    return None


def crew(line, used, kind, hints):
    """How many masons and labourers: "crew 1 mason 2 labour", "mason 1 labour 2"."""
    fields, numbers = {}, [at for at, piece in enumerate(line) if isinstance(piece, Measure)]
    whose = [at for at, piece in enumerate(line) if not isinstance(piece, Measure) and piece.has("role.mason", "crew")]
    if len(numbers) != len(whose):
        return Ask(kind.name, "crew_unclear", {})
    for at, who in zip(numbers, whose, strict=True):
        name, number = "masons" if line[who].has("role.mason") else "labourers", line[at]
        if name in fields or number.unit not in (None, "piece") or number.value is None or number.value % 1:
            return Ask(kind.name, "crew_unclear", {})
        fields[name] = int(number.value)
        used.add(at)
    return Form(kind.name, fields) if fields and fields.get("masons") != 0 else Ask(kind.name, "crew_unclear", {})


def idle(line, used, kind, hints):
    """Days lost, or days to come without work."""
    days = [at for at, piece in enumerate(line) if isinstance(piece, Measure) and piece.unit == "d" and len(piece.values) == 1]
    if len(days) != 1:
        return Ask(kind.name, "how_many_days", {})
    used.update(days)
    to_come = {"to_come": "yes"} if "act.no_work" in tags_of(line) else {}
    return Form(kind.name, {"idle_d": line[days[0]].value} | to_come)
