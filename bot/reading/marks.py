"""What a line says beside its length readings: counts, days, yes and no, a soil class, a temperature."""

from dataclasses import replace

from bot.reading import doubt
from bot.reading.measures import Measure
from bot.reading.things import signs_of
from calc.units import from_si, si

SUFFIX = {"_d": "d", "_h": "h", "_min": "min", "_kg": "kg", "_l": "l", "_m3": "m3", "_pa": "Pa", "_m2": "m2"}
THINGS = ("act.watcher", "act.fence", "field.ladder")
LOST = ("act.broken", "act.tumbled", "missing", "unwell", "danger.sick", "danger.fall")
MARKS = (",", ";", ".")


def take(line, used, fields):
    """Return {field name: value} for the fields that are not lengths; places taken are added to `used`."""
    found, said = {}, signs_of(line)
    for field in fields:
        unsaid = field.words and said.isdisjoint(field.words)
        if field.kind != "length" and field.name not in found and not unsaid:
            value = TAKERS[field.kind](line, used, field)
            if value is not None:
                found[field.name] = value
    return found


def _count(line, used, field):
    """A bare number beside its word: "2 in pit", "lifters 2", "3 coat"."""
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) or not piece.has(*field.words):
            continue
        for near in (at - 1, at + 1):
            if _free(line, used, near) and line[near].unit is None and line[near].form in ("plain", "word"):
                used.add(near)
                return int(line[near].value) if line[near].value == int(line[near].value) else None
        if piece.has("nobody") and _by_itself(line, at):
            return 0
    return None


def _by_itself(line, at):
    """True for "personne", nobody, that is no one person: no article, adjective or number of its own stands before it."""
    before = line[at - 1] if at else None
    if before is None or isinstance(before, Measure):
        return before is None or before.unit is not None
    idle = before.sort == "mark" or before.has("filler", "link.and", "field", "not", "part", "state")
    return idle and before.text not in ("la", "une", "un")


def _counted(line, used, field):
    """A bare number right before its word, "3 coats", or behind one that its number follows, "tabaka 3"."""
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) or not piece.has(*field.words):
            continue
        for near in (at - 1, at + 1) if piece.has("counted") else (at - 1,):
            if _free(line, used, near) and line[near].unit is None:
                used.add(near)
                return int(line[near].value) if line[near].value and line[near].value % 1 == 0 else None
    return None


def _order(line, used, field):
    """Which of several: "2nd coat", "coat 2"."""
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) or not piece.has(*field.words):
            continue
        for near in (at - 1, at + 1):
            if 0 <= near < len(line) and not isinstance(line[near], Measure) and line[near].concept("order"):
                return int(line[near].concept("order"))
        counted = at > 0 and at - 1 in used and isinstance(line[at - 1], Measure)  # "3 coats 2 openings": the 2 is no coat
        linked = at + 1 < len(line) and not isinstance(line[at + 1], Measure) and line[at + 1].has("link.of")
        after = at + 2 if linked else at + 1  # "tabaka la 2"
        counted |= not linked and piece.has("counted")
        if not counted and _free(line, used, after) and line[after].unit is None and line[after].form in ("plain", "word"):
            used.add(after)
            return int(line[after].value)
    return None


def _measured(line, used, field):
    """The measure of the field's own dimension: the one nearest its word where it has words, else the first."""
    wanted = {"days": ("d",), "hours": ("h", "min", "d"), "places": ("place",), "celsius": ("C",)}.get(field.kind)
    fits = [
        at
        for at, piece in enumerate(line)
        if _free(line, used, at) and piece.values and (piece.unit in wanted if wanted else piece.kind == field.kind)
    ]
    named = [at for at, piece in enumerate(line) if not isinstance(piece, Measure) and piece.has(*field.words)]
    if not fits or (field.words and not named):
        return None
    at = min(fits, key=lambda place: min((abs(place - word) for word in named), default=place))
    used.add(at)
    return _in_suffix(line[at], field.name)


def _age(line, used, field):
    """The days behind a word that says how old something is then: "form out after 5 days", none of "5 days ago"."""
    ago = any(not isinstance(piece, Measure) and piece.has("act.ago") for piece in line)
    return None if ago else _measured(line, used, replace(field, kind="days"))


def _in_suffix(piece, name):
    unit = next((unit for suffix, unit in SUFFIX.items() if name.endswith(suffix)), None)
    return from_si(si(piece.value, piece.unit), unit) if unit else piece.value


def _flag(line, used, field):
    """ "yes", or "no" where a no stands beside the word; None where the word is not there."""
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) or not piece.has(*field.words):
            continue
        denied = doubt.denial(line, at, "not", paused=True)
        if denied is not None and piece.has("off"):
            return None  # "not out of plumb"
        no = at if piece.has("state.no", "off", "dryness") else denied
        used.update(() if no is None else (no,))
        return "yes" if no is None else "no"
    return None


def _there(line, used, field):
    """A thing that is there or not: also "no" where it is said to have broken, fallen or gone, or to be sick."""
    said = _flag(line, used, field)
    places = [at for at, piece in enumerate(line) if not isinstance(piece, Measure) and piece.has(*field.words)]
    used.update(at - 1 for at in places if _one(line, at))
    return "no" if said and any(_lost(line, at) for at in places) else said


def _one(line, at):
    """True where one person is counted: "1 watcher"."""
    before = line[at - 1] if at else None
    return line[at].has("act.watcher") and isinstance(before, Measure) and before.unit is None and before.value == 1


def _lost(line, at):
    """True where a word of absence stands beside a thing: behind it up to the next thing or mark, or before it.

    What stands right behind another thing is said of that one: "ladder broken watcher ok".
    """
    behind = next((end for end in range(at + 1, len(line)) if _parts(line[end])), len(line))
    before = next((start for start in range(at - 1, -1, -1) if _parts(line[start])), -1)
    ahead = list(line[before + 1 : at])
    if before >= 0 and line[before].has(*THINGS):
        while ahead and not isinstance(ahead[0], Measure) and ahead[0].has("filler", *LOST):
            ahead.pop(0)
    return any(not isinstance(piece, Measure) and piece.has(*LOST) for piece in (*ahead, *line[at + 1 : behind]))


def _parts(piece):
    """True for what ends the words about one thing: another thing, a mark."""
    return not isinstance(piece, Measure) and (piece.has(*THINGS) or piece.text in MARKS)


def _okay(line, used, field):
    """ "ok", or "no" where it is said not to be."""
    for piece, behind in zip(line, line[1:], strict=False):
        named = not isinstance(piece, Measure) and piece.has(*field.words)
        if named and not isinstance(behind, Measure) and behind.has("act.outside_limit"):
            return "no"
    return {"yes": "ok", "no": "no"}.get(_flag(line, used, field))


def _nil(line, used, field):
    """(0.0,) where the thing is said not to have happened, and no reading says how much: "no drop", "same level"."""
    if any(isinstance(piece, Measure) and piece.kind in ("length", "bare") for piece in line):
        return None
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) or not piece.has(*field.words):
            continue
        no = at if piece.has("same") else doubt.denial(line, at, "not")
        if no is not None:
            used.add(no)
            return (0.0,)
    return None


def _part(line, used, field):
    """The part of the plant that is named, or None."""
    return next((p.concept("part") for p in line if not isinstance(p, Measure) and p.has("part")), None)


def _soil(line, used, field):
    """The class behind the word soil: A, B, C or rock."""
    for at, piece in enumerate(line[:-1]):
        if not isinstance(piece, Measure) and piece.has(*field.words) and not isinstance(line[at + 1], Measure):
            return line[at + 1].concept("soil")
    return None


def _free(line, used, at):
    return 0 <= at < len(line) and at not in used and isinstance(line[at], Measure)


TAKERS = {
    "count": _count,
    "counted": _counted,
    "order": _order,
    "flag": _flag,
    "there": _there,
    "okay": _okay,
    "nil": _nil,
    "part": _part,
    "soil": _soil,
    "age": _age,
    **dict.fromkeys(("days", "hours", "places", "celsius", "mass", "volume", "area", "pressure"), _measured),
}
