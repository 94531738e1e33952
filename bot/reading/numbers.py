"""A number as it is written or said, with the unit it carries: digits, fractions, number words of four languages.

A number is read by a strict pattern; the sender's text never reaches a unit parser, only a unit name of ours does.
"""

import re
from typing import NamedTuple

from bot.reading import spoken
from calc.units import dimension, si

COUNTED = ("bag", "bucket", "pan", "barrow", "box", "tin", "jerrycan", "trolley", "brass", "tipper", "cart", "debe")
PLAIN = ("piece", "place", "course", "percent", "C", "F", "clock", "am", "pm")
LENGTHS = ("m", "cm", "mm", "ft", "in", "soot")
HALF_STEPS = {"half": 0.5, "quarter": 0.25, "three_quarters": 0.75}
COUNTABLE = ("unit", "animal", "family", "item", "body", "act.coat", "act.in_pit", "act.broken", "act.used", "act.arrived")
ALIKE = 1.3  # readings of one thing differ by less than this factor
_STRICT = re.compile(r"[0-9]{1,6}(?:\.[0-9]{1,3})?|\.[0-9]{1,3}")


class Measure(NamedTuple):
    """A number as it stands in the text.

    `values` are the numbers it may mean (two where a comma may be a thousands sign, none where it is unreadable);
    `unit` is the unit written, or None; `readings` are the SI values of a length, several where feet are in doubt.
    """

    text: str
    values: tuple
    unit: str | None = None
    readings: tuple = ()
    form: str = "plain"  # plain, decimal, comma, ratio, list, inches (feet and inches), word, fraction, bad
    glued: bool = False

    @property
    def value(self):
        """The first meaning."""
        return self.values[0] if self.values else None

    @property
    def kind(self):
        """What the unit measures: "length", "mass" ..., "container", "share", "bare" without a unit."""
        if self.unit is None:
            return "share" if self.form in ("word", "fraction") and self.values and self.value < 1 else "bare"
        if self.unit in COUNTED:
            return "container"
        return self.unit if self.unit in PLAIN else dimension(self.unit)

    def si(self, unit=None):
        """The SI values it may mean, its own unit written or else `unit` supposed."""
        if self.readings:
            return self.readings
        if self.unit is None and unit in LENGTHS:
            return readings(self, unit)
        return tuple(si(value, self.unit or unit) for value in self.values)


def is_a(piece, *prefixes):
    """True for a word, and no number, with one of these concepts."""
    return not isinstance(piece, Measure) and piece.has(*prefixes)


def readings(made, unit):
    """SI values of a length in a unit; feet with one or two digits behind a point may be feet and inches."""
    plain = tuple(si(value, unit) for value in made.values)
    if unit != "ft" or made.form != "decimal":
        return plain
    pointed = re.search(r"[.,](\d+)", made.text)  # the unit may stand before: "futi 6.5"
    digits = pointed[1] if pointed else ""
    if digits.strip("0") and int(digits) < 12 and len(digits) <= 2 and not (len(digits) == 2 and digits[0] == "0"):
        return (si(int(made.value), "ft") + si(int(digits), "in"), plain[0])
    return plain


def number(items, at):
    """Return (Measure without unit, items used) for the number, fraction or number word at a place, or (None, 0)."""
    if at >= len(items):
        return None, 0
    item = items[at]
    if item.sort == "number":
        made, used = _times(*_written(items, at), items, at)
    elif item.has("number", "fraction"):
        made, used = _spoken(items, at)
    else:
        return None, 0
    if made is None:
        return None, 0
    return _with_fraction(made, used, items, at)


def _with_fraction(made, used, items, at):
    """Four and a half: a fraction behind "and" belongs to the number before it."""
    nxt = at + used
    if nxt < len(items) and items[nxt].concept("fraction") == "less_quarter" and made.values:
        return made._replace(values=(made.value - 0.25,), form="word"), used + 1
    linked = nxt + 1 if nxt < len(items) and items[nxt].has("link.and") else None
    if linked and linked < len(items) and items[linked].concept("fraction") in HALF_STEPS and made.values:
        step = HALF_STEPS[items[linked].concept("fraction")]
        return made._replace(values=(made.value + step,), form="decimal" if made.form == "plain" else made.form), used + 2
    return made, used


def _spoken(items, at):
    """A number said in words, taken as one only where something is counted or measured by it."""
    item = items[at]
    fraction = item.concept("fraction")
    if fraction in HALF_STEPS:
        return Measure(item.text, (HALF_STEPS[fraction],), form="word"), 1
    if fraction in ("one_and_half", "two_and_half"):
        return _times(Measure(item.text, ({"one_and_half": 1.5, "two_and_half": 2.5}[fraction],), form="word"), 1, items, at)
    if fraction:
        return _step(fraction, items, at)
    whole, used = spoken.whole(items, at)
    text = " ".join(each.text for each in items[at : at + used])
    if whole is None:
        return Measure(text, (), form="bad"), used
    digits, pointed = _behind_point(items, at + used)
    if pointed:
        return _decimal(text, whole, digits, used + pointed)
    before, after = _counted_before(items, at), items[at + used] if at + used < len(items) else None
    counted = any(near is not None and near.has(*COUNTABLE) for near in ((after,) if item.has("filler") else (after, before)))
    halved = after is not None and after.has("link.and") and at + used + 1 < len(items) and items[at + used + 1].has("fraction")
    joined = any(near is not None and near.has("link.and", "link.per") for near in (before, after))
    joint = ("link.to", "link.per", "link.and") if joined and any(each.has("act.mix") for each in items) else ("link.to",)
    rated = _rated(items, at + used, joint) or (at > 1 and before.has(*joint) and items[at - 2].has("number"))
    return (Measure(text, (whole,), form="word"), used) if counted or halved or rated or used > 1 else (None, 0)


def _counted_before(items, at):
    """The piece before a number; that before a colon or an "are", "cows: four", or that an "of" joins: "ngombe wa maziwa wanne"."""
    if at > 1 and (items[at - 1].text in (":", "-", "=") or items[at - 1].has("asks")):
        return items[at - 2]
    if at > 2 and items[at - 2].has("link.of") and items[at - 1].has("filler"):
        return items[at - 3]
    return items[at - 1] if at else None


def _rated(items, at, joint):
    """True where a to, or in a mix an and, and another number word stand at a place: "moja kwa nne", "ek aur paanch"."""
    return at + 1 < len(items) and items[at].has(*joint) and items[at + 1].has("number")


def _behind_point(items, at):
    """(digits, items used) of what is said behind a point: "point eight five", "point 85"; ("", 0) where there is none."""
    if at >= len(items) or not items[at].has("decimal.point"):
        return "", 0
    digits, end = "", at + 1
    while end < len(items) and len(digits) < 4:
        said = (items[end].concept("number") or "").rstrip("+*x") or (items[end].text if items[end].sort == "number" else "")
        if not said.isdigit():
            break
        digits, end = digits + said, end + 1
    return digits, end - at if digits else 0


def _decimal(text, whole, digits, used):
    if len(digits) > 3:
        return Measure(text, (), form="bad"), used
    return Measure(f"{int(whole)}.{digits}", (float(f"{int(whole)}.{digits}"),), form="decimal"), used


def _step(fraction, items, at):
    """Saadhe, sava and paune change the number behind them by a half or a quarter."""
    step = {"plus_half": 0.5, "plus_quarter": 0.25, "minus_quarter": -0.25}.get(fraction)
    if at + 1 < len(items) and items[at + 1].has("fraction"):  # of many in a row each would be looked through from each
        return None, 0
    if step is not None and abs(step) == 0.25 and at + 1 < len(items) and items[at + 1].has("unit"):  # pauna inch, sava foot
        return Measure(items[at].text, (1 + step,), form="word"), 1
    behind = spoken.word(items[at + 1]) if at + 1 < len(items) else None
    if behind is not None and behind.times and step is not None:  # sava sau is a hundred and a quarter of it
        return Measure(items[at].text, ((1 + step) * behind.value,), form="word"), 2
    if behind is not None and not behind.leads:
        made, used = Measure(items[at + 1].text, (behind.value,), form="word"), 1
    else:
        made, used = number(items, at + 1)
    if made is None or step is None or not made.values:
        return None, 0
    return _times(Measure(items[at].text, (made.value + step,), form="word"), used + 1, items, at)


def _times(made, used, items, at):
    """A number with the hundred, thousand or dozen behind it."""
    if not made.values or len(made.values) > 1:
        return made, used
    value, more = spoken.multiplied(made.value, items, at + used)
    if not more:
        return made, used
    text = " ".join(item.text for item in items[at : at + used + more])
    return made._replace(text=text, values=() if value is None else (value,), form="bad" if value is None else "word"), used + more


def _written(items, at):
    """A number in digits, with what is said behind a point: "1 point 85"."""
    made = _digits(items[at])
    digits, pointed = _behind_point(items, at + 1) if made.form == "plain" else ("", 0)
    return _decimal(made.text, made.value, digits, 1 + pointed) if pointed else (made, 1)


def _digits(item):
    """The meanings of a number in digits: decimal comma, thousands comma, a list, or none that is certain."""
    text = item.text
    if "/" in text:
        whole, _, part = text.rpartition(" ")
        over, under = part.split("/")
        if not int(under):
            return Measure(text, (), form="bad", glued=item.glued)
        return Measure(text, (float(whole or 0) + int(over) / int(under),), form="fraction", glued=item.glued)
    if "," in text:
        return _commas(text, item.glued)
    if not _STRICT.fullmatch(text):
        return Measure(text, (), form="bad", glued=item.glued)
    return Measure(text, (float(text),), form="decimal" if "." in text else "plain", glued=item.glued)


def _commas(text, glued):
    parts = text.split(",")
    if len(parts) > 2:
        alike = all(part.isdigit() and len(part) == len(parts[0]) and len(part) > 1 for part in parts)
        return Measure(text, tuple(map(float, parts)) if alike else (), form="list" if alike else "bad", glued=glued)
    whole, tail = parts
    if not whole.isdigit() or not tail.isdigit() or len(whole) > 6 or len(tail) > 3:
        return Measure(text, (), form="bad", glued=glued)
    if len(whole) == len(tail) > 1 and max(int(whole), int(tail)) <= ALIKE * min(int(whole), int(tail)):  # 185,190 are two, 10,11 may be
        made = Measure(text, (), form="bad", glued=glued)
        return made if len(tail) == 2 else made._replace(values=(float(whole), float(tail)), form="list")
    decimal = float(f"{whole}.{tail}")
    if len(tail) == 3 and len(whole) <= 3 and whole != "0":
        return Measure(text, (decimal, float(whole + tail)), form="comma", glued=glued)
    return Measure(text, (decimal,), form="decimal", glued=glued)
