"""Hours of the day in a line: "6 to 8, 12 to 13", "5am 2h", "evening 6 to 8"; None where they have more than one reading."""

import re
from dataclasses import dataclass, replace

from bot.reading.measures import Measure
from bot.reading.numbers import is_a
from calc.units import from_si, si

NOON, DAY = 12.0, 24.0
HALVES = ("am", "pm")
PARTS = {"morning": (4, 11), "noon": (10, 15), "evening": (15, 23)}  # hours a part of the day may begin at
_CLOCK = re.compile(r"(\d{1,2})(?:[.: ]{1,3}(\d\d))?|(\d\d)(\d\d)")


@dataclass(frozen=True)
class Hour:
    """A time as written: its hour, "am" or "pm" where said, and whether the 24-hour clock is plain from it."""

    hour: float
    half: str | None = None
    clock: bool = False

    @property
    def choices(self):
        """The hours of the day it may be."""
        if self.half:
            return (self.hour % NOON + (NOON if self.half == "pm" else 0.0),) if 1 <= self.hour < NOON + 1 else ()
        return (self.hour % DAY,) if self.clock else (self.hour % DAY, (self.hour + NOON) % DAY)


@dataclass(frozen=True)
class Stretch:
    """From one hour on, to another or for so long; `part` of the day where said, `place` where it ends in the line."""

    start: Hour
    end: Hour | None
    hours: float | None
    place: int
    part: str | None = None

    @property
    def choices(self):
        """The (start, hours) it may be; a stretch between two hours is shorter than half a day if either may be both."""
        starts = [start for start in self.start.choices if not self.part or PARTS[self.part][0] <= start <= PARTS[self.part][1]]
        if self.end is None:
            return [(start, self.hours) for start in starts if 0 < self.hours < DAY]
        certain = len(starts) == 1 and len(self.end.choices) == 1
        if self.start.clock or self.end.clock:  # 24-hour on one side, so on the other too
            starts = [start for start in starts if self.start.half or start == self.start.hour % DAY]
        ends = self.end.choices if self.end.half or not self.start.clock else (self.end.hour % DAY,)
        found = [(start, (end - start) % DAY) for start in starts for end in ends]
        return [each for each in found if 0 < each[1] < (DAY if certain else NOON)]


def stretches(line, used):
    """Return ([(start [h], hours [h]), ...], the places where they end) of a line, marking what it takes.

    (None, places) where an hour, its half of the day or its end is not certain.
    """
    found, parts, at = [], [], 0
    while at < len(line):
        piece = line[at]
        if not isinstance(piece, Measure):
            part = piece.concept("daypart")
            parts += [(at, part)] if part else []
            at += 1
        elif at in used:
            at += 1
        else:
            made, at = _stretch(line, at, used)
            if made is None:
                return None, ()
            found.append(made)
    placed = _in_parts(found, parts)
    settled = _settled(placed) if placed else None
    return settled, tuple(each.place for each in found)


def _stretch(line, at, used):
    """(Stretch, place behind it) beginning at a number, or (None, at)."""
    start, behind = _hour(line, at)
    while start and behind < len(line) and is_a(line[behind], "filler", "link.of") and not is_a(line[behind], "daypart"):
        behind += 1
    following = line[behind] if start and behind < len(line) else None
    if isinstance(following, Measure) and following.kind == "time" and following.unit in ("h", "min") and len(following.values) == 1:
        used.update((at, behind))
        return Stretch(start, None, from_si(si(following.value, following.unit), "h"), behind), behind + 1
    if following is not None and (is_a(following, "link.to", "act.until") or following.text == "-") and behind + 1 < len(line):
        end, after = _hour(line, behind + 1)
        if end:
            used.update((at, behind + 1))
            return Stretch(start, end, None, after - 1), after
    return None, at


def _hour(line, at):
    """(Hour, place behind it) of a number that is a time of day, or (None, at)."""
    piece = line[at]
    if (
        not isinstance(piece, Measure)
        or piece.unit not in (None, "clock", *HALVES)
        or piece.form not in ("plain", "decimal", "ratio", "word")
    ):
        return None, at
    written = _CLOCK.fullmatch(re.sub(r"[^\d.: ]", "", piece.text).strip()) if piece.form != "word" else None
    if piece.form == "word":
        hour, minute, clock = piece.value, 0, False
    elif written is None:
        return None, at
    else:
        hour, minute = float(written[1] or written[3]), float(written[2] or written[4] or 0)
        clock = hour > NOON or hour == 0 or piece.text.startswith("0")
    half, behind = piece.unit if piece.unit in HALVES else None, at + 1
    if half is None and behind < len(line) and is_a(line[behind], "unit.am", "unit.pm"):
        half, behind = line[behind].concept("unit"), behind + 1
    return (Hour(hour + minute / 60, half, clock), behind) if hour <= DAY and minute < 60 and hour % 1 == 0 else (None, at)


def _in_parts(found, parts):
    """The stretches with the parts of the day said before each of them, or behind each; None where they do not go together."""
    if not parts:
        return found
    first = parts[0][0] < found[0].place if found else False
    places = [each.place for each in found]
    told = sorted([(place, None) for place in places] + parts, reverse=not first)
    pairs = list(zip(told[::2], told[1::2], strict=False))
    if len(parts) != len(found) or any(part is None or stretch is not None for (_, part), (_, stretch) in pairs):
        return None
    named = {place: part for (_, part), (place, _) in pairs}
    return [replace(each, part=named[each.place]) for each in found]


def _settled(found):
    """One (start, hours) for each stretch, none over another, or None where two readings are left."""
    choices = [each.choices for each in found]
    plain = any(hour is not None and hour.clock for each in found for hour in (each.start, each.end))
    taken = []
    for each, held in zip(found, choices, strict=True):
        if len(held) > 1 and (plain or len(found) == 1 or each.start.hour == NOON):
            held = [choice for choice in held if choice[0] == each.start.hour % DAY]  # the 24-hour clock, or noon
        if len(held) != 1:
            return None
        taken.append(held[0])
    doubtful = len(found) > 1 and any(len(held) > 1 for held in choices)
    return None if doubtful and taken != sorted(taken) else taken
