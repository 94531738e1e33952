"""A measure that is still to be taken beside one that was: "width 3.1 m, depth not measured yet"."""

from bot.reading.numbers import Measure, is_a

OPEN = ("act.measured", "filler", "day", "act.not_yet", "not", "role", "subject")  # "largeur pas encore mesuree", "kina bado sijapima"


def unmeasured(line):
    """The line without a field that is said to be not measured yet, where another reading stands in it."""
    fields = [at for at, piece in enumerate(line) if is_a(piece, "field")]
    for at in fields[::-1]:
        end = _open_until(line, at)
        kept = line[:at] + line[end:] if end else ()
        if end and any(is_a(piece, "field") for piece in kept) and _has_own(line, at, fields) and any(isinstance(p, Measure) for p in kept):
            return kept
    return line


def _open_until(line, at):
    """The place behind the words that say of a field that it is not measured yet; None where nothing says so."""
    end, denied = at + 1, False
    while end < len(line) and (is_a(line[end], *OPEN) or (not denied and is_a(line[end], "part", "link.of"))):
        denied |= is_a(line[end], "act.not_yet") or (is_a(line[end], "not") and _told(line, end))
        end += 1
    goes_on = line[end] if end < len(line) else None
    if goes_on is not None and (isinstance(goes_on, Measure) or not (goes_on.sort == "mark" or goes_on.has("link.and", "but", "field"))):
        return None
    return end if denied else None


def _told(line, at):
    """True for a not that says itself, or by the word behind it, that something was not measured."""
    return any(is_a(piece, "act.measured") for piece in line[at : at + 4])


def _has_own(line, at, fields):
    """True where no number can belong to the field at a place: none right before it, or one that has its name before it."""
    if not at or not isinstance(line[at - 1], Measure):
        return True
    first = next(place for place, piece in enumerate(line) if isinstance(piece, Measure))
    return fields[0] < first
