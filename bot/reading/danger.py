"""Danger heard in a line, whatever else it says: gas, crack, fall, water, child, sick, fire."""

from bot.reading import doubt
from bot.reading.measures import Measure

TESTS = ("part.water_test", "part.gas_test")
ORDER = ("fall", "gas", "crack", "sick", "fire", "water", "child")


def heard(line):
    """Return the dangers of a line, the gravest first; a plain no beside the word takes it back."""
    found = set()
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) or piece.has("harmless"):
            continue
        kinds = {tag.partition(".")[2] for tag in piece.tags if tag.startswith("danger.")}
        kinds |= _fell(line, at)
        if piece.has("act.filled", "act.flooded") and _full_for_a_test(line):
            kinds -= {"water"}
        if kinds and not _denied(line, at) and not _measured_drop(line, at) and not _counted(line, at, kinds):
            found |= kinds
    return tuple(kind for kind in ORDER if kind in found)


def where(line):
    """The part of the plant or the house named beside a danger, "eye" or "skin" where nothing else hurts, or None."""
    sick = [piece for piece in line if not isinstance(piece, Measure) and piece.has("danger.sick")]
    for spot in ("eye", "skin"):
        if sick and all(piece.has(f"spot.{spot}") for piece in sick):
            return spot
    return next((piece.concept("part") for piece in line if not isinstance(piece, Measure) and piece.has("part")), None)


def _denied(line, at):
    no = doubt.denial(line, at)
    return no is not None and (no < at or not line[at].has("danger.fall"))


def _fell(line, at):
    """The dangers in a word for falling with somebody or a part of the works within two words before it."""
    if not line[at].has("act.tumbled"):
        return set()
    near = [piece for piece in line[max(at - 2, 0) : at] if not isinstance(piece, Measure)]
    person = any(piece.has("person", "role", "animal.people") for piece in near)
    works = any(piece.has("part", "item.bricks", "item.stone", "act.soil") and not piece.has(*TESTS) for piece in near)
    works = works and not _tested(line)
    return ({"fall"} if person else set()) | ({"crack"} if works else set())


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
