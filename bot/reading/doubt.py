"""What takes a statement back or leaves it open: a no and how far it reaches, doubtful words, "this not that"."""

from bot.forms import Ask
from bot.reading.measures import Measure
from bot.reading.numbers import is_a
from bot.reading.words import only_numbers

KEPT = (  # grammars whose numbers go into the log
    "lengths", "stock", "gauge", "dung", "vent", "weather", "pegs", "fill", "ground", "crew", "idle", "temp", "wet", "silt", "jar",
    "container",
)  # fmt: skip
ASKED = ("mix", "size", "age", "cement")  # grammars whose numbers the bot only reckons with
STAGE_ONLY = ("unsure.begun", "unsure.when", "unsure.but")  # leave a stage open, not a reading
ASKING = ("would", "could", "might", "can", "may", "should", "shall", "did", "who", "when", "why", "will", "how", "what")
MODAL = ("can", "may", "could", "should", "shall")  # with a subject behind it a question wherever it stands
PLANNED = {"unsure.unsure", "day.tomorrow"}
PAUSES = (",", ":", "-", ";", "=", ".", "?")
THINGS = ("animal", "role", "item", "material", "person", "order", "month", "act.times")
FEW = 4  # people that a bare number before them counts; more is a reading: "310 311 watcher yes"


def denial(line, at, *more, paused=False):
    """The place of the plain no that stands at a piece, or None: "no crack", "no more leak", "leak no", "pas de fuite".

    Where it may be `paused` a mark between the thing and the no behind it does not part them: "leak: no".
    """
    before, after = at - 1, at + 1
    while before >= 0 and (is_a(line[before], "idle") or (is_a(line[before], "item.water") and is_a(line[at], "act.leak", "act.fell"))):
        before -= 1
    while after < len(line) and (is_a(line[after], "idle", "asks") or (paused and line[after].text in PAUSES)):
        after += 1
    if before >= 0 and is_a(line[before], "not", "state.no") and not is_a(line[before], "not.done"):
        return before
    if after < len(line) and is_a(line[after], "state.no", "not.rather", *more):
        return after
    return None


def question(line, used, kind, tags):
    """The Ask for a reading that is denied, doubted, or only one of two that are named; None for a plain statement."""
    if kind.grammar not in KEPT + ASKED:
        return None
    said = {"text": " ".join(piece.text for piece in line)[:40]}
    if tags & {"not", "state.no"} and any(_denies(line, at, kind) and at not in used for at in range(len(line))):
        return Ask(kind.name, "denied", said)
    loose = next((p.text for p in line if not isinstance(p, Measure) and len(p.text) > 2 and only_numbers(p.tags)), None)
    if loose:  # it counts nothing here: it may be the half of a number
        return Ask(kind.name, "left_over", {"text": loose})
    part = next((one.text for one, unit in zip(line, line[1:], strict=False) if is_a(one, "unsure.unsure") and is_a(unit, "unit")), None)
    if part and kind.grammar in ASKED:  # a word near to that of a number, with a unit: "aadh katta"
        return Ask(kind.name, "left_over", {"text": part})
    doubted = tags & {"link.or", "unsure.about"}
    strips = "act.strip" in tags  # whether a form may go is answered as a question anyhow
    told = kind.grammar == "lengths" or any(isinstance(piece, Measure) for piece in line)
    if kind.grammar in KEPT and told and (asked(line) or _questioned(line)) and not strips:
        return Ask(kind.name, "reading_or_question", said)
    if kind.grammar in KEPT:
        doubted |= {tag for tag in tags if tag.startswith("unsure.") and tag not in STAGE_ONLY} | tags & {"day.tomorrow"}
        doubted |= tags & {"act.left", "act.need", "act.not_yet"} if kind.grammar == "lengths" else set()
        doubted |= {"act.more"} if kind.grammar == "lengths" and any(_more(line, at) for at in range(len(line))) else set()
    if "act.strip" in tags and not any(isinstance(piece, Measure) and piece.kind == "length" for piece in line):
        doubted -= PLANNED  # a form that is to go is judged at once
    over = "act.leak" in tags and not tags.isdisjoint(("act.stopped", "act.closed", "act.done"))  # it was there, or was it mended
    if over and not any(isinstance(piece, Measure) for piece in line) and not tags & {"part", "not", "state.no"}:
        return Ask(kind.name, "unclear_readings", said)
    if kind.grammar == "lengths" and (_from_to(line) or _leak_what(line)):
        return Ask(kind.name, "unclear_readings", said)
    rival = _has(line, "day.yesterday") and rivals(line) if kind.grammar == "gauge" else rivals(line)  # a gauge shows less now
    return Ask(kind.name, "unclear_readings", said) if doubted or rival or _over(line) else None


def _leak_what(line):
    """True for a leak with a word right behind it that nobody knows: it may deny it."""
    pairs = zip(line, line[1:], strict=False)
    return any(is_a(one, "act.leak") and not isinstance(other, Measure) and other.sort == "word" and not other.tags for one, other in pairs)


def _from_to(line):
    """True for a stretch that two numbers bound, where one number is wanted: "9 to 11 cm", "1.8 ya 1.9"."""
    return any(
        isinstance(one, Measure) and isinstance(other, Measure) and _bounds(to) and "time" not in (one.kind, other.kind)
        for one, to, other in zip(line, line[1:], line[2:], strict=False)
    )


def _bounds(piece):
    """True for a "to" that is no "by": the Swahili "kwa" stands also between the two sides of a thing."""
    return is_a(piece, "link.to", "link.of") and not is_a(piece, "link.by", "field")


def _more(line, at):
    """True for a more; the Hindi one is an and between two readings: "6 fut gehra aur 10 fut chauda"."""
    said = is_a(line[at], "act.more")
    before, after = line[:at][-1:], line[at + 1 :][:1]
    told = bool(before) and (isinstance(before[0], Measure) or before[0].has("field")) and any(isinstance(p, Measure) for p in line[:at])
    return said and not (line[at].has("link.and") and told and bool(after) and (isinstance(after[0], Measure) or after[0].has("field")))


def _over(line):
    """True for "over 4 inch": more than that, or finished and that much."""
    return any(
        getattr(p, "text", "") == "over" and isinstance(n, Measure) and n.kind != "time" for p, n in zip(line, line[1:], strict=False)
    )


def asked(line):
    """True for a question: its mark, or a word that asks before all others."""
    said = ("subject", "asks", "filler.guard")
    heads = (p for p in line if isinstance(p, Measure) or p.has(*said) or not (p.has("filler") or p.sort == "mark"))
    first = next(heads, None)  # "i have 900 bricks" is no question, "have you 900 bricks" is one
    return (
        any(not isinstance(p, Measure) and p.text == "?" for p in line)
        or (first is not None and is_a(first, "asks") and not _owns(line, first))
        or getattr(first, "text", "") in ASKING
        or any(getattr(p, "text", "") in MODAL and is_a(behind, "subject") for p, behind in zip(line, line[1:], strict=False))
    )


def _questioned(line):
    """True for a question about something without a number: "leak?", "koi leak hai kya"; not for "there is leak"."""
    head = is_a(line[0], "asks") and not _owns(line, line[0])
    return any(piece.text == "?" for piece in line) or head or asks_so(line)


def asks_so(line):
    """True where the Hindi word that makes a statement a question stands in it: "gumbad ho gaya kya"."""
    return any(piece.text in ("kya", "\u0915\u094d\u092f\u093e") for piece in line)


def _owns(line, first):
    """True for "have 7 bags": no question without somebody behind it."""
    behind = line[line.index(first) + 1 :][:1]
    return is_a(first, "act.have") and bool(behind) and isinstance(behind[0], Measure)


def _denies(line, at, kind):
    """True for a not that is about no danger, and for a no before a material that came or was used."""
    behind = line[at + 1] if at + 1 < len(line) else None
    if is_a(line[at], "not") and not _of_danger(line, at):
        return True
    return kind.grammar == "stock" and is_a(line[at], "state.no") and behind is not None and is_a(behind, "item")


def _of_danger(line, at):
    """True where the no belongs to a danger beside it."""
    near = line[at + 1 : at + 3] + line[max(at - 1, 0) : at]
    return any(is_a(piece, "danger") for piece in near)


def rivals(line):
    """True where one reading is of today and another of before: "was 10 now 11", "1.9 m yesterday 1.7 m"."""
    numbers = [at for at, piece in enumerate(line) if isinstance(piece, Measure)]
    between = line[numbers[0] : numbers[-1]] if numbers else ()
    today = _has(between, "day.today") and (_has(line, "act.was") or not _has(between, "field", "unit", "part"))
    return _has(between, "day.yesterday") or today


def counts_something(line, at, things=THINGS):
    """The words of a bare number that counts a thing nobody knows or that is no reading: "2 men", "3 rows"; or None."""
    piece, behind = line[at], line[at + 1] if at + 1 < len(line) else None
    if piece.unit is not None or behind is None or isinstance(behind, Measure) or behind.sort != "word":
        return None
    strange = not behind.tags and not behind.glued
    few = is_a(behind, "act.watcher") and piece.form == "plain" and piece.value <= FEW
    return f"{piece.text} {behind.text}" if strange or few or (things and is_a(behind, *things)) else None


def swap(line):
    """(new, old) of "11 not 10", "not 10, 11", or of "8 nahi 6" where the second is the right one; None where it is none."""
    line = [piece for piece in line if isinstance(piece, Measure) or (piece.sort != "mark" and not piece.has("link.and", "filler", "but"))]
    for at, piece in enumerate(line):
        if not is_a(piece, "not"):
            continue
        before, after, next_one = ([*line, None, None, None][place] if place >= 0 else None for place in (at - 1, at + 1, at + 2))
        if _number(before) and _number(after):
            stated = None not in (before.unit, after.unit) or "C" in (before.unit, after.unit)
            if stated and before.kind != after.kind:
                continue  # "1 bag not 40 l" changes nothing, nor does a temperature in place of a number without a scale
            return (after.value, before.value) if piece.has("not.rather") else (before.value, after.value)
        first = line[at - 2] if at > 1 and after is None and piece.has("not.rather") else None  # "11 cm hai, 12 nahi"
        if _number(first) and _number(before) and (first.unit == before.unit or None in (first.unit, before.unit)):
            return first.value, before.value
        if not _number(before) and _number(after) and _number(next_one):
            return next_one.value, after.value
    return None


def body_unit(line, kind):
    """A span or a cubit is no tape reading."""
    line = [piece for piece in line if isinstance(piece, Measure) or piece.sort != "mark"]
    for before, piece in zip(line, line[1:], strict=False):
        number, word = (before, piece) if isinstance(before, Measure) else (piece, before)
        if isinstance(number, Measure) and number.unit is None and not isinstance(word, Measure) and word.has("body"):
            return Ask(kind.name, "tape_reading", {"text": f"{before.text} {piece.text}"})
    return None


def steepness(line, kind):
    """A slope said as a ratio or an angle is asked for as a length: which leg is which differs from place to place."""
    steep = next((p for p in line if isinstance(p, Measure) and (p.form == "ratio" or p.kind == "C")), None)
    return (
        Ask(kind.name, "slope_run", {"text": steep.text})
        if steep and "field.slope" in {tag for p in line if not isinstance(p, Measure) for tag in p.tags}
        else None
    )


def _number(piece):
    return isinstance(piece, Measure) and bool(piece.values) and piece.form != "ratio"


def _has(line, *prefixes):
    return any(is_a(piece, *prefixes) for piece in line)
