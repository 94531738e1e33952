"""What a bucket or pan holds, and the containers of a mix."""

from dataclasses import replace

from bot.forms import Ask, Form
from bot.reading import orders
from bot.reading.measures import COUNTED, Measure
from bot.reading.things import tags_of
from calc.units import from_si, si

FIXED = ("bag", "brass")  # what they are is said elsewhere
ROD = {"top_m": ("field.top",), "bottom_m": ("field.bottom",), "deep_m": ("field.depth", "field.height")}
LENGTHS = ("m", "cm", "mm", "in", "ft")


def named(piece):
    """The container that a word names, or None."""
    name = piece.concept("unit")
    return name if name in COUNTED and name not in FIXED else None


def names(line):
    """The containers that are named in a line and counted by no number."""
    return list(dict.fromkeys(name for piece in line if not isinstance(piece, Measure) and (name := named(piece))))


def measure(line, used, kind, hints):
    """What a container holds: litres, its inside measures, or how many of it one bag of cement fills."""
    numbers = [at for at, piece in enumerate(line) if isinstance(piece, Measure)]
    measures = [line[at] for at in numbers]
    counted = [piece for piece in measures if piece.kind == "container"]
    said = {"text": " ".join(piece.text for piece in line)[:40]}
    if any(len(piece.values) != 1 for piece in measures):
        return Ask(kind.name, "unclear_readings", said)
    asked = _asked(line, measures)
    if asked:
        used.update(numbers)
        return Form(kind.name, {"container": asked, "want": "yes"})
    found = _filled(counted) if len(counted) == len(measures) else None
    told = names(line)
    if len(counted) == 1 and counted[0].value == 1 and not told and counted[0].unit not in FIXED:  # "one bucket is 12 l"
        told, measures, counted = [counted[0].unit], [piece for piece in measures if piece is not counted[0]], []
    if found is None and not counted and len(told) == 1:
        found = _litres(measures) or _inside(line, measures)
        found = found and {"container": told[0], **found}
    if found is None:
        return Ask(kind.name, "container_how", said)
    used.update(numbers)
    return Form(kind.name, found)


def _asked(line, measures):
    """The one container that is asked about, "how many litres is a bucket", "how many buckets in a bag"; or None."""
    if "act.how_many" not in tags_of(line) or any(piece.kind != "container" or piece.value != 1 for piece in measures):
        return None
    found = [name for name in (*names(line), *(piece.unit for piece in measures)) if name not in FIXED]
    return found[0] if len(found) == 1 else None


def _litres(measures):
    if len(measures) != 1 or measures[0].kind != "volume":
        return None
    return {"measure_l": from_si(si(measures[0].value, measures[0].unit), "l")}


def _filled(counted):
    """One bag and the number of containers it fills."""
    bags = [piece for piece in counted if piece.unit == "bag"]
    others = [piece for piece in counted if piece.unit not in FIXED]
    if len(counted) != 2 or len(bags) != 1 or len(others) != 1 or bags[0].value != 1:
        return None
    return {"container": others[0].unit, "fills": others[0].value}


def _inside(line, measures):
    """Top, bottom and depth, each behind its word, in one unit."""
    units = {piece.unit for piece in measures} - {None}
    if len(measures) != 3 or len(units) != 1 or not units <= set(LENGTHS):
        return None
    found, label = {}, None
    for piece in line:
        if isinstance(piece, Measure):
            found |= {label: si(piece.value, *units)} if label else {}
            label = None
        else:
            label = next((name for name, words in ROD.items() if piece.has(*words)), label)
    return found if set(found) == set(ROD) else None


def mix(line, used, kind, hints):
    """A mix, and the container it is measured with where one is named: "mix base in pan", "with 12 l bucket"."""
    told, strange = names(line), _no_measure(line)
    if strange:
        return Ask(kind.name, "no_measure", {"text": strange})
    own = [at for at, piece in enumerate(line) if _of_container(line, at)]
    if len(told) > 1 or len(own) > 1:
        return Ask(kind.name, "unclear_readings", {"text": " ".join(piece.text for piece in line)[:40]})
    used.update(own)
    outcome = orders.mix(line, used, kind, hints)
    if not isinstance(outcome, Form):
        return outcome
    more = {"measure": told[0]} if told else {}
    counted = {piece.unit for piece in line if isinstance(piece, Measure) and piece.kind == "container"} - set(FIXED)
    if len(counted) > 1 or (counted and told and outcome.fields.keys() & {"sand_told", "stone_told"}):
        return Ask(kind.name, "unclear_readings", {"text": " ".join(piece.text for piece in line)[:40]})
    more |= {"cement_measure": next(iter(counted))} if "cement_buckets" in outcome.fields and counted else {}
    more |= {"measure": next(iter(counted))} if outcome.fields.keys() & {"sand_told", "stone_told"} else {}
    more |= _sand(line)
    more |= {"bucket_m3": si(line[own[0]].value, line[own[0]].unit)} if own else {}
    return replace(outcome, fields=more | outcome.fields)


def _no_measure(line):
    """What a mix is to be measured with and cannot be: a word behind "in" that nobody knows, or what no hand lifts; or None."""
    words = [piece for piece in line if isinstance(piece, Measure) or not piece.has("filler")]
    for piece, behind in zip(words, words[1:], strict=False):
        if isinstance(piece, Measure) or isinstance(behind, Measure) or not piece.has("lookalike.in"):
            continue
        if behind.concept("unit") == "brass" or (behind.sort == "word" and not behind.tags):
            return behind.text
    return None


def _sand(line):
    """How wet the sand is said to be: "mix base damp sand"."""
    tags = {tag for piece in line if not isinstance(piece, Measure) for tag in piece.tags}
    said = next((word for word in ("damp", "wet") if f"act.{word}" in tags), None)
    return {"sand": said} if said and "item.sand" in tags else {}


def _of_container(line, at):
    """True for a volume right behind a container: "bucket 12 l", "bucket of 12 l"."""
    piece, before = line[at], at - 1
    while before >= 0 and not isinstance(line[before], Measure) and line[before].has("link.of", "filler"):
        before -= 1
    if not isinstance(piece, Measure) or piece.kind != "volume" or len(piece.values) != 1 or before < 0:
        return False
    return not isinstance(line[before], Measure) and line[before].concept("unit") in COUNTED and line[before].concept("unit") not in FIXED
