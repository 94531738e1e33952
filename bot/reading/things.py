"""Things and how many of them: animals for a size, materials that came or went, what a mix or a purchase names."""

from dataclasses import dataclass, field, replace

from bot.forms import Ask, Form
from bot.reading import doubt
from bot.reading.measures import COUNTED, Measure
from bot.reading.pairs import pair
from bot.reading.words import with_sections
from calc.units import from_si, si

VOLUMES = {"sand", "gravel", "stone"}
WHOLE = {"bricks", "mesh", "bar", "paint", "inlet_pipe"}
PEOPLE = frozenset({"animal.people"})
MOST_BAGS = 80  # a bare number of cement above this may be kilograms
PERFECT = ("have", "hav")
DIRECTIONS = {"arrived": "in", "used": "out", "have": "have", "left": "have", "broken": "broken", "stolen": "stolen"}


@dataclass(frozen=True)
class Hints:
    """What is known of the place a message comes from: site codes, names, litres and kilograms of its containers."""

    codes: frozenset = frozenset()
    names: frozenset = frozenset()
    bag_kg: float | None = None
    litres: dict = field(default_factory=dict)
    ranges: dict = field(default_factory=dict)


def size(line, used, kind, hints):
    """Animals and people, weighed dung, or a volume, that a plant is to be sized on."""
    fields, tags = {}, tags_of(line)
    if "act.died" in tags:
        return Ask(kind.name, "animals_left", {})
    for at, piece in enumerate(line):
        if not isinstance(piece, Measure) or not piece.values:
            continue
        if piece.kind == "container":
            return Ask(kind.name, "container_litres", {"container": piece.unit, "text": piece.text})
        if piece.kind == "mass":
            if "act.each" in tags:
                return Ask(kind.name, "total_or_each", {"text": piece.text})
            fields["dung_kg_per_d"] = from_si(si(piece.value, piece.unit), "kg")
            used.add(at)
        elif piece.kind == "volume":
            fields[volume_of(tags)] = si(piece.value, piece.unit)
            used.add(at)
        elif piece.kind == "C":
            fields["temp_c"] = piece.value
            used.add(at)
    rest = [piece for at, piece in enumerate(line) if isinstance(piece, Measure) and at not in used]
    if rest and "item.dung" in tags and not any(tag.startswith("animal.") for tag in tags):
        return Ask(kind.name, "unclear_number", {"text": rest[0].text})  # so many baskets of it
    if len(rest) == 1 and not any(tag.startswith("animal.") for tag in tags) and rest[0].unit is None and not fields:
        value = rest[0].value
        options = (Form(kind.name, {"cattle": value}), Form(kind.name, {"plant_m3": value})) if value else ()
        used.update(at for at, piece in enumerate(line) if piece is rest[0])
        return Ask(kind.name, "cows_or_m3", {"number": rest[0].text}, options)
    none = [at for at in range(len(line)) if _none_of(line, at)]
    used.update(near for at in none for near in (at - 1, at + 1) if 0 <= near < len(line) and not isinstance(line[near], Measure))
    there = [piece._replace(tags=frozenset()) if _none_of(line, at) else piece for at, piece in enumerate(line)]
    pairs = pair(_housed(there), taken := set(used), "animal") or pair(there, taken := set(used), "animal")
    used.update(taken)
    if pairs is None and fields and not rest and "act.how_many" in tags:
        return Form(kind.name, fields)  # "8 m3 plant needs how many cows"
    if pairs is None:
        return Ask(kind.name, "animals_unclear", {})
    for animal, number in pairs:
        if animal in fields or number.unit not in (None, "piece") or number.value is None or number.value % 1:
            return Ask(kind.name, "animals_unclear", {})
        fields[animal] = number.value
    fed = any(value for name, value in fields.items() if name not in ("people", "temp_c"))
    return Form(kind.name, fields) if fed else Ask(kind.name, "cows_or_dung", {})


def _housed(line):
    """The line with the family, or a "we are", as the people whose number stands behind it: "family 7 cows 4", "on est 9"."""
    out = list(line)
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) or not piece.has("family"):
            continue
        ahead = [p for p in line[at + 1 :] if isinstance(p, Measure) or not p.has("filler", "link.of")][:2]
        counted = bool(ahead) and isinstance(ahead[0], Measure) and ahead[0].unit is None
        behind = ahead[1] if len(ahead) > 1 and not isinstance(ahead[1], Measure) else None
        clear = behind is None or behind.sort == "mark" or behind.has("animal", "family", "part.kitchen", "link", "act", "asks")
        if counted and clear:
            out[at] = piece._replace(tags=PEOPLE)
    return out


def volume_of(tags):
    """What a volume is of: gas in a day, the inside of the digester, or whatever the programme means by a size."""
    return "gas_m3_per_d" if "act.gas" in tags else "volume_m3" if "act.volume" in tags else "plant_m3"


def _none_of(line, at):
    """True for an animal that is said not to be there: "no buffalo", "bhains nahi"."""
    if isinstance(line[at], Measure) or not line[at].has("animal"):
        return False
    before, behind = line[at - 1] if at else None, line[at + 1] if at + 1 < len(line) else None
    denied = _before_denies(line, at) and not (at > 1 and _denied_behind(line, at - 2))
    return _denied_behind(line, at) or (denied and (before.has("state.no") or not isinstance(behind, Measure)))


def _before_denies(line, at):
    return at > 0 and not isinstance(line[at - 1], Measure) and line[at - 1].has("state.no", "not")


def _denied_behind(line, at):
    """True where the no behind an animal is of it: in "20 pigs no cows" it is of the cows, in "bhains nahi log 6" of none behind."""
    behind, following = line[at + 1] if at + 1 < len(line) else None, line[at + 2] if at + 2 < len(line) else None
    no = behind is not None and not isinstance(behind, Measure) and behind.has("not.rather", "state.no")
    if not no or isinstance(line[at], Measure) or not line[at].has("animal"):
        return False
    counted = at > 0 and isinstance(line[at - 1], Measure)
    other = following is not None and not isinstance(following, Measure) and following.has("animal")
    return not other or not (counted or _before_denies(line, at))


def stock(line, used, kind, hints):
    """What came, was used, is there or broke."""
    items = [piece.concept("item") for piece in line if not isinstance(piece, Measure) and piece.has("item")]
    items = [item for item in items if item not in ("all", "dung", "water")]
    if items == ["bar"]:
        return _rods(line, used, kind)
    quantities = [at for at, piece in enumerate(line) if isinstance(piece, Measure) and at not in used and piece.kind != "time"]
    if not quantities and "act.arrived" in tags_of(line) and "not" in signs_of(line):
        return Ask(kind.name, "denied", {"text": " ".join(piece.text for piece in line)[:40]})
    if not quantities and (not items or tags_of(line) & {"act.have", "act.stock_list"}):
        return Form(kind.name, {"want": ",".join(items) or "all"})
    if "act.ordered" in tags_of(line):
        return Ask(kind.name, "ordered", {})
    if not quantities:
        return Ask(kind.name, "how_many", {"item": ", ".join(items)})
    paired, inferred = _of_items(line, used, items, quantities)
    if paired is None:
        return Ask(kind.name, "which_item", {})
    amounts = []
    graded = next((found for at in quantities if (found := doubt.counts_something(line, at, things=()))), None)
    if graded and "cement" in items:
        return Ask(kind.name, "left_over", {"text": graded})  # "43 grade cement" are no 43 bags
    for item, quantity in paired:
        amount = amount_of(item, quantity, hints)
        if isinstance(amount, Ask):
            return replace(amount, kind=kind.name)
        amounts.append(amount)
    return _for_job(_directed(line, kind, paired, amounts, inferred), line)


def _for_job(outcome, line):
    """Say for which part of the plant it was used, where a part is named."""
    part = next((p.concept("part") for p in line if not isinstance(p, Measure) and p.has("part")), None)
    return replace(outcome, fields=outcome.fields | {"job": part}) if part and isinstance(outcome, Form) else outcome


def _of_items(line, used, items, quantities):
    measures = [line[at] for at in quantities]
    if not items:
        if measures[0].unit != "bag" or any(m.unit not in ("bag", None) for m in measures):
            return None, ()
        used.update(quantities)
        return [("cement", m._replace(unit="bag")) for m in measures], ("item=cement",)
    if len(set(items)) == 1:
        used.update(quantities)
        first = next((m.unit for m in measures if m.unit), None)
        return [(items[0], m if m.unit or len(measures) == 1 else m._replace(unit=first)) for m in measures], ()
    return pair(line, used, "item"), ()


def amount_of(item, quantity, hints):
    """Return {field: value} for so much of an item, or the Ask that is needed first."""
    value, unit = quantity.value, quantity.unit
    if value is None:
        return Ask(None, "unclear_number", {"text": quantity.text})
    if item in WHOLE and unit in (None, "piece"):
        whole = quantity.values[-1]  # bricks come in hundreds: 1,200 are twelve hundred
        return {item: whole} if whole == int(whole) else Ask(None, "unclear_number", {"text": quantity.text})
    if item == "cement" and (unit == "bag" or (unit is None and value <= MOST_BAGS)):
        return _bags(value, hints)
    if item == "cement" and unit is None:
        return Ask(None, "bags_or_kg", {"text": quantity.text})
    if item == "cement" and quantity.kind == "mass":
        return {"cement_kg": si(value, unit)}
    if item in ("bar", "lime") and quantity.kind == "mass":
        return {f"{item}_kg": si(value, unit)}
    if item in VOLUMES and quantity.kind == "volume":
        return {f"{item}_m3": si(value, unit)}
    if item in VOLUMES and unit in COUNTED:
        if unit not in hints.litres:
            return Ask(None, "container_litres", {"container": unit, "text": quantity.text})
        return {f"{item}_m3": si(value * hints.litres[unit], "l")}
    if item in ("paint", "waterproofer") and unit in ("l", "ml", "kg"):
        return {f"{item}_{'kg' if unit == 'kg' else 'l'}": from_si(si(value, unit), "kg" if unit == "kg" else "l")}
    return Ask(None, "item_unit", {"item": item, "text": quantity.text})


def _bags(value, hints):
    if hints.bag_kg is None:
        return Ask(None, "bag_mass", {})
    return {"cement_bags": value, "cement_kg": value * hints.bag_kg}


def _directed(line, kind, paired, amounts, inferred):
    """Give the amounts their direction: one for all, or one each."""
    said = [p for p in line if not isinstance(p, Measure) and p.concept("act") in DIRECTIONS]
    if len(said) > len(amounts):  # "have arrived" says that they came, not that they are there
        said = [p for p, behind in zip(said, [*said[1:], None], strict=True) if behind is None or p.text not in PERFECT]
    ways = [DIRECTIONS[p.concept("act")] for p in said]
    ways = ways or [way for at, _ in enumerate(line) if (way := _in_or_out(line, at))]
    whole = {key: value for amount in amounts for key, value in amount.items()}
    if not ways:
        options = tuple(Form(kind.name, {"dir": way, **whole}, inferred) for way in ("in", "out"))
        return Ask(kind.name, "in_or_used", {}, options)
    if len(set(ways)) == 1 and len(whole) < sum(len(amount) for amount in amounts):
        return Ask(kind.name, "which_item", {})
    if len(set(ways)) == 1 and ways[0] in ("in", "out"):
        return Form(kind.name, {"dir": ways[0], **whole}, inferred)
    if len(set(ways)) == 1:
        return Form(kind.name, {f"{ways[0]}_{key}": value for key, value in whole.items()}, inferred)
    if len(ways) != len(amounts):
        return Ask(kind.name, "in_or_used", {})
    fields = {f"{way}_{key}": value for way, amount in zip(ways, amounts, strict=True) for key, value in amount.items()}
    return Form(kind.name, fields, inferred)


def _in_or_out(line, at):
    """The direction of a short "in" or "out" at an end of the line or before a thing or a number; None elsewhere."""
    piece, behind = line[at], line[at + 1] if at + 1 < len(line) else None
    if isinstance(piece, Measure) or not piece.has("lookalike.in", "lookalike.out"):
        return None
    clear = behind is None or isinstance(behind, Measure) or behind.has("item", "day")
    return piece.concept("lookalike") if clear else None


def _rods(line, used, kind):
    fields = {}
    for at, piece in enumerate(line):
        if not isinstance(piece, Measure) or at in used or not piece.values:
            continue
        behind = line[at + 1] if at + 1 < len(line) else None
        counted = piece.unit is None and behind is not None and not isinstance(behind, Measure) and behind.has("item.bar")
        names = {"mm": "rod_dia_m", "piece": "rod_count", "m": "rod_len_m", "ft": "rod_len_m", "kg": "bar_kg"}
        name = "rod_count" if counted else names.get(piece.unit)
        if name is None or name in fields:
            return Ask(kind.name, "item_unit", {"item": "bar", "text": piece.text})
        fields[name] = piece.value if name == "rod_count" else si(piece.value, piece.unit)
        used.add(at)
    return _directed(line, kind, [("bar", None)], [fields], ())


def fix(line, used, kind, hints):
    """What the supervisor fixes: a volume or a gas yield, a dome, a shape; nothing for the last size reckoned."""
    tags, fields = tags_of(line), {}
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) and piece.kind == "volume" and piece.values:
            fields[volume_of(tags)] = si(piece.value, piece.unit)
            used.add(at)
    dome = {"item.bricks": "brick", "material.ferrocement": "ferrocement", "material.concrete": "concrete"}
    built = next((name for tag, name in dome.items() if tag in tags), None)
    form = next((tag.partition(".")[2] for tag in sorted(tags) if tag.startswith("shape.")), None)
    return Form(kind.name, fields | ({"dome": built} if built else {}) | ({"shape": form} if form else {}))


def enter(line, used, kind, hints):
    """Somebody wants to go in: whatever numbers he sends are kept as sent, and are no permission."""
    numbers = [at for at, piece in enumerate(line) if isinstance(piece, Measure)]
    used.update(numbers)
    fields = {"sent": " ".join(piece.text for piece in line)[:80]}
    return Form(kind.name, fields | ({"gas_reading": "yes"} if numbers or "act.oxygen" in tags_of(line) else {}))


def tags_of(line):
    """All concepts in a line."""
    return {tag for piece in line if not isinstance(piece, Measure) for tag in piece.tags}


def signs_of(line):
    """All concepts in a line and their sections."""
    return set().union(*(with_sections(piece.tags) for piece in line if not isinstance(piece, Measure)))
