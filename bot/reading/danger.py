"""Danger heard in a line, whatever else it says: gas, crack, somebody fallen or inside, water, child, sick, fire, loads."""

from functools import cache

from bot.reading import doubt
from bot.reading.measures import Measure

TESTS = ("part.water_test", "part.gas_test")
ORDER = (
    "fall", "inside", "gas", "crack", "sick", "fire", "press", "light", "coal", "enter", "empty", "engine", "water", "child", "old_pit",
    "props", "vehicle", "heap", "edge", "on_dome", "alone", "line",
)  # fmt: skip
MEASURED = {"heap", "edge", "old_pit", "line", "on_dome"}  # with a distance beside it a reading, no alarm
PLACES = ("part", "act.hollow", "act.in_pit", "act.gas", "act.enter", "fault", "near", "material", "spot")


def heard(line, words):
    """Return the dangers of a line, the gravest first; a plain no beside the word takes it back."""
    found, absent = set(), off_work(line, words)
    for at, piece in enumerate(line):
        if isinstance(piece, Measure):
            continue
        kinds = (
            _named(piece.tags) | _fell(line, at, words) | _inside(line, at, words) | _water_in_hole(line, at, words) | _gas_out(line, at)
        )
        if not kinds or piece.has("harmless"):
            continue
        if piece.has("act.filled", "act.flooded") and _full_for_a_test(line):
            kinds -= {"water"}
        if _ground_water(line, at):
            kinds -= {"water"}
        if _of_bricks(line, at):
            kinds -= {"fire", "crack"}
        if absent and piece.has("unwell"):
            kinds -= {"sick"}
        if any(isinstance(p, Measure) and p.kind == "length" for p in line):
            kinds -= MEASURED
        if kinds and not _denied(line, at) and not _measured_drop(line, at) and not _counted(line, at, kinds):
            found |= kinds
    return tuple(kind for kind in ORDER if kind in found)


@cache
def _named(tags):
    return frozenset(tag.partition(".")[2] for tag in tags if tag.startswith("danger."))


def off_work(line, words):
    """True where workers are called sick and neither a place nor gas is named: a matter of labour, or of the pit; it is asked."""
    pieces = [piece for piece in line if not isinstance(piece, Measure)]
    if not any(piece.has("unwell") for piece in pieces):
        return False
    hands = any(piece.has("role", "crew") for piece in pieces)
    dangers = [piece for piece in pieces if piece.has("danger") and not piece.has("unwell")]
    placed = any(piece.has(*PLACES) or words.moves(piece.text, "into", "we") for piece in pieces)
    strange = any(piece.sort == "word" and not piece.tags for piece in pieces)
    return hands and not (dangers or placed or strange)


def where(line):
    """The part named beside a danger, "eye" or "skin" where nothing else hurts, "ground" for water in no part, or None."""
    named = [piece for piece in line if not isinstance(piece, Measure)]
    sick = [piece for piece in named if piece.has("danger.sick")]
    for spot in ("eye", "skin"):
        if sick and all(piece.has(f"spot.{spot}") for piece in sick):
            return spot
    part = next((piece.concept("part") for piece in named if piece.has("part")), None)
    wet = [piece for piece in named if piece.has("danger.water")]
    if part is None and wet and all(piece.has("spot.ground") for piece in wet):
        return "ground"
    return part


def _inside(line, at, words):
    """Somebody named before a word for in, right before a hollow part of the plant: "husband went in the outlet"."""
    piece = line[at]
    if piece.text.rpartition(" ")[2] not in words.moving.get("into", ()) or piece.has("act.in_pit"):
        return set()
    place = next((p for p in line[at + 1 :] if isinstance(p, Measure) or not p.has("filler", "link.of") or p.has("act.hollow")), None)
    if place is None or isinstance(place, Measure) or not place.has("act.hollow", "part.outlet", "part.inlet", "part.manhole"):
        return set()
    for before in [piece, *reversed(line[:at])]:
        if isinstance(before, Measure):
            return set()
        if before.has("person", "role", "danger.child", "danger.fall") or _of_us(before.text, words):
            return {"inside"}
        if not (words.moves(before.text, "going", "into") or before.has("filler", "asks", "act.enter")):
            return set()
    return set()


def _of_us(text, words):
    """True for a "we" or "he", also with its verb: "on est", "nous sommes"."""
    return words.moves(text, "we", "going") and any(words.moves(word, "we") for word in text.split())


def _water_in_hole(line, at, words):
    """Water, then a word for in, then the pit, or the other way round, in words of any language."""
    if not line[at].has("item.water") or len(line[at].text.split()) > 1:
        return set()
    for way in (line[at + 1 : at + 6], line[max(at - 5, 0) : at][::-1]):
        into = False
        for piece in way:
            if isinstance(piece, Measure):
                break
            if piece.has("part.pit") and into:
                return {"water"}
            into = into or (piece.text.rpartition(" ")[2] in words.moving.get("into", ()) or words.moves(piece.text, "into"))
            if not into and not piece.has("filler", "link"):
                break
    return set()


def _gas_out(line, at):
    """Gas that leaks, in words of any language, right behind each other."""
    piece, behind = line[at], line[at + 1] if at + 1 < len(line) else None
    leaks = behind is not None and not isinstance(behind, Measure) and behind.has("act.leak") and not behind.has("state.no")
    return {"gas"} if leaks and piece.has("act.gas") and doubt.denial(line, at + 1) is None else set()


def _ground_water(line, at):
    """Ground water that is asked about, or measured under a floor, is no water in the pit."""
    if not line[at].has("act.ground_water"):
        return False
    words = [piece for piece in line if not isinstance(piece, Measure)]
    below = len(words) < len(line) and any(piece.has("act.below", "field.bottom") for piece in words)
    return below or (doubt.asked(line) and not any(piece.has("part.pit", "act.in_pit") for piece in words))


def _nobody(line, at):
    """True where nobody, none or 0 stands before a danger: "no one is hurt"."""
    before = next((p for p in reversed(line[:at]) if isinstance(p, Measure) or not p.has("filler", "asks", "idle")), None)
    return isinstance(before, Measure) and before.value == 0 and before.unit is None and line[at].has("danger.fall", "danger.sick")


def _denied(line, at):
    if _nobody(line, at):
        return True
    no = doubt.denial(line, at)
    if no is None or no < at or not line[at].has("danger.fall", "act.tumbled"):
        return no is not None
    # "gira nahi" ends a sentence; a no that goes on is of something else: "behosh, nahi uthta"
    return line[no].has("not.rather") and not any(isinstance(p, Measure) or not p.has("filler", "part") for p in line[no + 1 :])


def _fell(line, at, words):
    """The dangers in a word for falling: who or what part of the works stands before it, else whether it went into a hole."""
    if not line[at].has("act.tumbled"):
        return set()
    before, into = _before_place(line, at, words)
    near = [piece for piece in before[-2:] if not isinstance(piece, Measure)]
    person = any(piece.has("person", "role", "animal.people", "danger.child") for piece in near)
    works = any(piece.has("part", "item.bricks", "item.stone", "act.soil") and not piece.has(*TESTS) for piece in near)
    works = works and not _tested(line)
    person |= bool(near) and near[-1] is line[at - 1] and _somebody(near[-1], line)
    thing = any(isinstance(piece, Measure) or piece.has("item", "part", "act.soil", "act.gas", "act.rain") for piece in before)
    return ({"fall"} if person or (into and not thing) else set()) | ({"crack"} if works else set())


def _somebody(piece, line):
    """True for a word nobody knows right before a fall, where nothing is measured: it may be a name, "ramesh gir gaya"."""
    return piece.sort == "word" and not piece.tags and len(piece.text) > 2 and not any(isinstance(p, Measure) for p in line)


def _of_bricks(line, at):
    """True for bricks, burnt or cracked, where no part of the works is named."""
    words = [piece for piece in line if not isinstance(piece, Measure)]
    near = [line[i] for i in (at - 1, at + 1) if 0 <= i < len(line)]
    bricks = any(not isinstance(piece, Measure) and piece.has("item.bricks") for piece in near)
    return bricks and not any(piece.has("part", "act.in_pit") for piece in words)


def _before_place(line, at, words):
    """(the pieces before a word for falling without the hole they fell into, whether a hole is named on either side)."""
    end, behind = at, [piece for piece in line[at + 1 :] if isinstance(piece, Measure) or not piece.has("filler")]
    while end and not isinstance(line[end - 1], Measure) and words.moves(line[end - 1].text, "into"):
        end -= 1
    if end and end < at and _hole(line[end - 1]):
        return line[: end - 1], True
    after = line[at + 1] if at + 1 < len(line) else None
    into = after is not None and not isinstance(after, Measure) and words.moves(after.text, "into")
    if after is not None and _hole(after):  # "gir gayi gaddhe me"
        into = at + 2 < len(line) and not isinstance(line[at + 2], Measure) and words.moves(line[at + 2].text, "into")
    return line[:at], into and bool(behind) and _hole(behind[0])


def _hole(piece):
    return not isinstance(piece, Measure) and piece.has("part.pit", "act.hollow", "part.outlet", "part.inlet", "part.manhole")


def _tested(line):
    return any(not isinstance(piece, Measure) and piece.has("item.water", "act.gauge") for piece in line)


def _measured_drop(line, at):
    """Water or a gauge that fell so many centimetres, or a test right before the word, is a reading, not an accident."""
    if not line[at].has("act.fell") and not line[at].has("act.cure"):
        return False
    near = [piece for piece in line[max(at - 2, 0) : at] if not isinstance(piece, Measure)]
    return (_tested(line) or any(piece.has(*TESTS) for piece in near)) and any(isinstance(p, Measure) and p.unit for p in line)


def _full_for_a_test(line):
    """Water up to the zero line, for the water test or in a jar of sand is where it belongs."""
    return any(not isinstance(piece, Measure) and piece.has("act.zero_line", "part.water_test", "act.jar") for piece in line)


def _counted(line, at, kinds):
    """Children counted among the people of a family are no alarm."""
    near = [line[i] for i in (at - 1, at + 1) if 0 <= i < len(line)]
    sizing = any(not isinstance(p, Measure) and p.has("animal", "act.size") for p in line)
    return kinds == {"child"} and sizing and any(isinstance(p, Measure) for p in near)
