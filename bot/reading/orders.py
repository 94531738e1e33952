"""What a mix or a purchase asks for."""

import re

from bot.forms import Ask, Form
from bot.reading.measures import COUNTED, Measure
from bot.reading.pairs import pair
from bot.reading.things import tags_of, volume_of
from calc.units import from_si, si

JOBS = ("base", "wall", "dome", "plaster", "outlet", "inlet", "covers")
WEIGHED = {
    "cement": "cement_kg",
    "sand": "sand_kg",
    "gravel": "gravel_kg",
    "stone": "gravel_kg",
    "water": "water_l",
    "waterproofer": "additive_ml",
}


def mix(line, used, kind, hints):
    """A mix for a job, a ratio, a volume or an area; or a mix weighed out, to be checked."""
    weighed = _weighed(line, used, kind)
    if weighed is not None:
        return weighed
    fields, inferred = {}, ()
    jobs = {p.concept("part") for p in line if not isinstance(p, Measure) and p.concept("part") in JOBS}
    if len(jobs) > 1 and "plaster" not in jobs:
        return Ask(kind.name, "which_job", {})
    job = "plaster" if "plaster" in jobs else next(iter(jobs), None)  # plaster of the wall is plaster
    if job is None and "lookalike.base" in tags_of(line):
        job, inferred = "base", ("job=base",)
    if job:
        fields["job"] = job
    refused = _amounts(line, used, kind, fields, hints)
    if refused:
        return refused
    if fields.keys() & {"sand_told", "stone_told"} and not fields.keys() & {"cement_bags", "cement_buckets"}:
        return Ask(kind.name, "mix_by_cement", {})
    if "ratio" not in fields:
        ratio = _bare_ratio(line, used)
        if ratio:
            fields["ratio"], inferred = ratio, (*inferred, "ratio_separator")
    if "job" not in fields and "ratio" not in fields:
        return Ask(kind.name, "which_job", {})
    wanted = [p.concept("item") for p in line if not isinstance(p, Measure) and p.has("item") and p.concept("item") != "cement"]
    if wanted and "act.how_many" in tags_of(line):
        fields["want"] = wanted[0]
    return Form(kind.name, fields, inferred)


def _amounts(line, used, kind, fields, hints):
    """Take bags, volume, area, coat and bucket size; return an Ask where one of them is not enough by itself."""
    for at, piece in enumerate(line):
        if not isinstance(piece, Measure) or at in used or (piece.unit is None and piece.form != "ratio"):
            continue
        if piece.unit == "kg" and hints.bag_kg is None:
            return Ask(kind.name, "bag_mass", {})
        name, value = _named(piece, line, at, hints) if piece.values else (None, None)
        if name is None or name in fields:
            return Ask(kind.name, "unclear_number", {"text": piece.text})
        if name == "cement_buckets" and "job" not in fields:
            return Ask(kind.name, "which_job", {})
        if name == "dry":
            return Ask(kind.name, "mix_by_cement", {})
        if name == "unmeasured":
            return Ask(kind.name, "container_litres", {"container": piece.unit, "text": piece.text})
        fields[name] = value
        used.add(at)
    return None


def _named(piece, line, at, hints):
    after = next((p for p in line[at + 1 : at + 3] if isinstance(p, Measure) or not (p.has("link.of") or p.sort == "mark")), None)
    after = None if isinstance(after, Measure) else after
    if piece.form == "ratio":
        return "ratio", ":".join(_short(value) for value in piece.values)
    if piece.unit == "bag":
        return "cement_bags", piece.value
    if piece.unit == "kg" and (after is None or not after.has("item") or after.has("item.cement")):
        return "cement_bags", piece.value / hints.bag_kg
    if piece.kind == "volume" and after is not None and after.concept("unit") in COUNTED:
        return "bucket_m3", si(piece.value, piece.unit)
    if piece.unit in COUNTED and _of_water(line, at, after):
        litres = hints.litres.get(piece.unit)
        return ("unmeasured", None) if litres is None else ("poured_l", piece.value * litres)
    if piece.unit in COUNTED and after is not None and after.has("item.sand", "item.gravel", "item.stone"):
        return ("sand_told" if after.has("item.sand") else "stone_told"), piece.value
    if piece.unit in COUNTED:
        return ("cement_buckets", piece.value) if after is None or after.has("item.cement") else ("dry", None)
    if piece.kind == "volume" and _of_water(line, at, after):
        return "poured_l", from_si(si(piece.value, piece.unit), "l")
    if piece.kind == "volume":
        return "vol_m3", si(piece.value, piece.unit)
    if piece.kind == "area":
        return "area_m2", si(piece.value, piece.unit)
    if piece.kind == "length" and len(piece.readings) == 1:
        return "coat_thick_m", piece.readings[0]
    return None, None


def _of_water(line, at, after):
    """True for a volume of water: "35 l water", "water 35 l"."""
    before = line[at - 1] if at else None
    named = before is not None and not isinstance(before, Measure) and before.has("item.water")
    return named or (after is not None and after.has("item.water"))


def _short(value):
    return str(int(value)) if value == int(value) else str(value)


def _bare_ratio(line, used):
    """Two or three small numbers side by side, or with a dash or a "to" between: 1 4, 1-4, 1 to 2 to 4."""
    places = [at for at, p in enumerate(line) if isinstance(p, Measure) and at not in used and p.form in ("plain", "word")]
    bare = [at for at in places if line[at].unit is None and line[at].values]
    written = _written_ratio(line, used)
    if written or not bare:
        return written
    between = [p for p in line[bare[0] : bare[-1]] if not isinstance(p, Measure)]
    joined = all(p.text in ("-", "/", ".") or p.has("link") for p in between)
    if len(bare) not in (2, 3) or not joined or line[bare[0]].value != 1 or any(line[at].value > 12 for at in bare):
        return None
    used.update(bare)
    return ":".join(_short(line[at].value) for at in bare)


def _written_ratio(line, used):
    """One number alone that is a ratio with a stroke or a point: 1/4, 1.4; None where it may be a half or an amount."""
    alone = [at for at, piece in enumerate(line) if isinstance(piece, Measure) and at not in used]
    piece = line[alone[0]] if len(alone) == 1 else None
    parts = re.fullmatch(r"1[/.,]([3-8])", piece.text) if piece and piece.unit is None else None
    if parts is None:
        return None
    used.update(alone)
    return f"1:{parts[1]}"


def _weighed(line, used, kind):
    """A mix given by weight: "60 kg cement 200 kg sand 20 l water"; None where it is not one."""
    masses = [p for p in line if isinstance(p, Measure) and p.kind == "mass"]
    if len(masses) < 2:
        return None
    places = set()
    pairs = pair([p for p in line if isinstance(p, Measure) or p.has("item")], places, "item")
    fields = {}
    for item, amount in pairs or ():
        name = WEIGHED.get(item)
        wanted = {"kg": ("mass",), "l": ("volume", "mass"), "ml": ("volume",)}.get(name.rpartition("_")[2], ()) if name else ()
        if amount.kind not in wanted or name in fields or not amount.values:
            return Ask(kind.name, "weighed_unclear", {"text": amount.text})
        unit = name.rpartition("_")[2]
        value = si(amount.value, amount.unit)
        fields[name] = value if amount.kind == "mass" else from_si(value, unit)
    if "cement_kg" not in fields or "sand_kg" not in fields:
        return Ask(kind.name, "weighed_unclear", {"text": masses[0].text})
    used.update(at for at, p in enumerate(line) if isinstance(p, Measure))
    job = next((p.concept("part") for p in line if not isinstance(p, Measure) and p.concept("part") in JOBS), None)
    return Form(kind.name, fields | ({"job": job} if job else {}))


def buy(line, used, kind, hints):
    """Which items, for which stage or up to which, for a plant of what size, told in what container."""
    fields = {}
    if "act.unneeded" in tags_of(line):
        return Ask(kind.name, "denied", {"text": " ".join(piece.text for piece in line)[:40]})
    words = [piece for piece in line if not isinstance(piece, Measure)]
    items = [piece.concept("item") for piece in words if piece.has("item") and not piece.has("item.all", "item.dung", "item.water")]
    bags = any(p.unit == "bag" if isinstance(p, Measure) else p.has("unit.bag") for p in line)
    fields["item"] = ",".join(dict.fromkeys(items)) or ("cement" if bags and not any(p.has("item.all") for p in words) else "all")
    strange = next((piece.text for piece in words if piece.sort == "word" and not piece.tags and len(piece.text) > 2), None)
    if strange and len(words) == 2 and fields["item"] == "all" and "act.need" in tags_of(line):
        return Ask(kind.name, "left_over", {"text": strange})  # whatever it is that is wanted
    stage = next(
        (piece.concept("part") for piece in words if piece.has("part") and piece.concept("part") not in ("kitchen", "sides")), None
    )
    if stage:
        fields["until" if any(piece.has("act.until") for piece in words) else "stage"] = stage
    if any(piece.has("act.for_whom") for piece in words):
        fields["for_whom"] = "farmer"
    unit = next((piece.concept("unit") for piece in words if piece.concept("unit") in COUNTED), None)
    if unit and unit != "bag":
        fields["reply_unit"] = unit
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) and piece.kind == "volume" and piece.values:
            fields[volume_of(tags_of(line))] = si(piece.value, piece.unit)
            used.add(at)
        elif isinstance(piece, Measure) and stage and piece.unit is None and not items:
            return Ask(kind.name, "unclear_number", {"text": piece.text})  # "base 10 chahiye": so thick, or so many of what
        elif isinstance(piece, Measure) and "act.need" in tags_of(line):
            used.add(at)  # what he reckons to need is no stock; the bill says what is still to buy
    return Form(kind.name, fields)
