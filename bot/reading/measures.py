"""Numbers and their units: items -> the same line with every number gathered into a Measure.

A number is read by a strict pattern; the sender's text never reaches a unit parser, only a unit name of ours does.
"""

import re
from dataclasses import dataclass, replace

from calc.units import dimension, si

COUNTED = ("bag", "bucket", "pan", "barrow", "box", "tin", "jerrycan", "trolley", "brass", "tipper", "cart", "debe")
PLAIN = ("piece", "place", "course", "percent", "C")
LENGTHS = ("m", "cm", "mm", "ft", "in", "soot")
TIMES = {"min": "min", "h": "h", "d": "d"}
HALF_STEPS = {"half": 0.5, "quarter": 0.25, "three_quarters": 0.75}
_STRICT = re.compile(r"[0-9]{1,6}(?:\.[0-9]{1,3})?|\.[0-9]{1,3}")


@dataclass(frozen=True)
class Measure:
    """A number as it stands in the text.

    `values` are the numbers it may mean (two where a comma may be a thousands sign, none where it is unreadable);
    `unit` is the unit written, or None; `readings` are the SI values of a length, several where feet are in doubt.
    """

    text: str
    values: tuple
    unit: str | None = None
    readings: tuple = ()
    form: str = "plain"  # plain, decimal, comma, ratio, list, inches (feet and inches), bad
    glued: bool = False

    @property
    def value(self):
        """The first meaning."""
        return self.values[0] if self.values else None

    @property
    def kind(self):
        """What the unit measures: "length", "mass" ..., "container", "bare" without a unit."""
        if self.unit is None:
            return "bare"
        if self.unit in COUNTED:
            return "container"
        return self.unit if self.unit in PLAIN else dimension(self.unit)

    def si(self, unit=None):
        """The SI values it may mean, its own unit written or else `unit` supposed."""
        if self.readings:
            return self.readings
        if self.unit is None and unit in LENGTHS:
            return _readings(replace(self, unit=unit))
        return tuple(si(value, self.unit or unit) for value in self.values)


def gather(items, words):
    """Return the line with Measures in place of numbers, their units and number words."""
    line, at = [], 0
    while at < len(items):
        made, used = _measure(items, at, words)
        line.extend(_each(made) if made else (items[at],))
        at += used or 1
    return tuple(_share_feet(line))


def _each(made):
    """A list written with commas is as many readings in one unit."""
    if made.form != "list":
        return (made,)
    parts = [replace(made, values=(value,), form="plain", readings=()) for value in made.values]
    return tuple(replace(part, readings=part.si()) if part.kind == "length" else part for part in parts)


def _measure(items, at, words):
    item = items[at]
    if item.sort == "ratio":
        parts = tuple(float(part) for part in re.split(r" ?: ?", item.text))
        return Measure(item.text, parts, form="ratio"), 1
    if item.has("unit") and _stands_before(items, at, words):
        number, used = _number(items, at + 1)
        if number:
            return _finish(replace(number, unit=item.concept("unit")), items, at + 1 + used, at)
    number, used = _number(items, at)
    if not number:
        return None, 0
    return _finish(number, items, at + used, at)


def _stands_before(items, at, words):
    """True for a unit word that takes the number after it: "sm 5", "bags 12" with no unit behind the number."""
    if at + 1 >= len(items) or items[at + 1].sort not in ("number", "word"):
        return False
    if tuple(items[at].text.split()) in words.before:
        return _number(items, at + 1)[0] is not None
    follows = items[at + 2] if at + 2 < len(items) else None
    own_unit = follows is not None and follows.has("unit", "body")
    return items[at + 1].sort == "number" and not own_unit and items[at].concept("unit") in (*COUNTED, "d")


def _finish(number, items, after, start):
    """Add the unit behind the number, and the rest of feet and inches or metres and centimetres."""
    unit = number.unit
    if unit is None:
        unit, after = _unit_after(items, after, number)
    text = " ".join(item.text for item in items[start:after])
    made = replace(number, unit=unit, text=text)
    if unit == "week":
        made = replace(made, unit="d", values=tuple(7 * value for value in made.values))
    if unit in ("ft", "m", "in") and made.form in ("plain", "decimal", "word") and made.values:
        made, after = _compound(made, items, after, start)
    if made.kind == "length" and not made.readings and made.form != "bad":
        made = replace(made, readings=_readings(made))
    return made, after - start


def _unit_after(items, after, number):
    if after >= len(items):
        return None, after
    item = items[after]
    if item.text in ("'", '"') and (number.form != "bad"):
        return {"'": "ft", '"': "in"}[item.text], after + 1
    if item.text == "%":
        return "percent", after + 1
    if item.has("unit"):
        return item.concept("unit"), after + 1
    return None, after


def _compound(made, items, after, start):
    """Six feet two, six feet two inches three soot, one metre eighty-five."""
    following = {"ft": "in", "in": "soot", "m": "cm"}[made.unit]
    skip = after + 1 if after < len(items) and items[after].has("link.and") and made.unit == "ft" else after
    number, used = _number(items, skip)
    if number is None or number.form not in ("plain", "word", "decimal") or not number.values:
        return made, after
    unit, end = _unit_after(items, skip + used, number)
    bare_ok = unit is None and skip == after and _bare_tail(made, number, items, after)
    if unit != following and not bare_ok:
        return made, after
    value, small = made.value, number.value
    if value != int(value) or (following == "in" and small >= 12) or (following == "soot" and small >= 8):
        return replace(made, values=(), form="bad"), end if unit == following else skip + used
    total = si(value, made.unit) + si(small, following)
    text = " ".join(item.text for item in items[start:end])
    whole = replace(made, text=text, readings=(total,), form="inches" if made.unit != "m" else made.form)
    if following == "in":
        rest, used_more = _number(items, end)
        soot, after_soot = _unit_after(items, end + used_more, rest) if rest else (None, end)
        if soot == "soot" and rest.value < 8:
            return replace(whole, readings=(total + si(rest.value, "soot"),)), after_soot
    return whole, end


def _bare_tail(made, number, items, after):
    """True where a bare number right behind feet or metres is its inches or centimetres: 6ft2, 6' 2, 1m85."""
    if number.form != "plain" or number.value != int(number.value):
        return False
    if made.unit == "ft":
        return number.value < 12
    return made.unit == "m" and items[after].glued and len(items[after].text) == 2


def _readings(made):
    """SI values of a length; feet with one or two digits behind a point may be feet and inches."""
    plain = tuple(si(value, made.unit) for value in made.values)
    if made.unit != "ft" or made.form != "decimal":
        return plain
    feet, _, digits = made.text.partition(".")
    digits = re.match(r"\d*", digits).group()
    if digits.strip("0") and int(digits) < 12 and len(digits) <= 2 and not (len(digits) == 2 and digits[0] == "0"):
        return (si(int(made.value), "ft") + si(int(digits), "in"), plain[0])
    return plain


def _share_feet(line):
    """A bare decimal beside one in feet is in feet too and as doubtful: "d 6.1 w 10.3 ft"."""
    doubtful = any(isinstance(m, Measure) and m.unit == "ft" and len(m.readings) == 2 for m in line)
    for piece in line:
        if doubtful and isinstance(piece, Measure) and piece.unit is None and piece.form == "decimal":
            feet = replace(piece, unit="ft")
            yield replace(feet, readings=_readings(feet))
        else:
            yield piece


def _number(items, at):
    """Return (Measure without unit, items used) for the number, fraction or number word at a place, or (None, 0)."""
    if at >= len(items):
        return None, 0
    item = items[at]
    if item.sort == "number":
        number, used = _digits(item), 1
    elif item.has("number", "fraction"):
        number, used = _spoken(items, at)
    else:
        return None, 0
    if number is None:
        return None, 0
    return _with_fraction(number, used, items, at)


def _with_fraction(number, used, items, at):
    """Four and a half: a fraction behind "and" belongs to the number before it."""
    nxt = at + used
    linked = nxt + 1 if nxt < len(items) and items[nxt].has("link.and") else None
    if linked and linked < len(items) and items[linked].concept("fraction") in HALF_STEPS and number.values:
        step = HALF_STEPS[items[linked].concept("fraction")]
        return replace(number, values=(number.value + step,), form="decimal" if number.form == "plain" else number.form), used + 2
    return number, used


def _spoken(items, at):
    """A number said in words, taken as one only where something is counted or measured by it."""
    item, after = items[at], items[at + 1] if at + 1 < len(items) else None
    fraction = item.concept("fraction")
    if fraction in HALF_STEPS:
        return Measure(item.text, (HALF_STEPS[fraction],), form="word"), 1
    if fraction in ("one_and_half", "two_and_half"):
        return Measure(item.text, ({"one_and_half": 1.5, "two_and_half": 2.5}[fraction],), form="word"), 1
    if fraction:
        return _hindi_step(fraction, items, at)
    whole = float(item.concept("number"))
    if after is not None and after.has("fraction.point") and at + 2 < len(items):
        tail = items[at + 2]
        digit = tail.concept("number") or (tail.text if tail.sort == "number" and tail.text.isdigit() else None)
        if digit and int(digit) < 100:
            return Measure(item.text, (float(f"{int(whole)}.{digit}"),), form="decimal"), 3
    before = items[at - 1] if at else None
    counted = any(near is not None and near.has("unit", "animal", "item", "body", "act.coat", "act.in_pit") for near in (after, before))
    halved = after is not None and after.has("link.and") and at + 2 < len(items) and items[at + 2].has("fraction")
    return (Measure(item.text, (whole,), form="word"), 1) if counted or halved else (None, 0)


def _hindi_step(fraction, items, at):
    """Saadhe, sava and paune change the number behind them by a half or a quarter."""
    number, used = _number(items, at + 1)
    step = {"plus_half": 0.5, "plus_quarter": 0.25, "minus_quarter": -0.25}.get(fraction)
    if number is None or step is None or not number.values:
        return None, 0
    return Measure(items[at].text, (number.value + step,), form="word"), used + 1


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
    decimal = float(f"{whole}.{tail}")
    if len(tail) == 3 and len(whole) <= 3 and whole != "0":
        return Measure(text, (decimal, float(whole + tail)), form="comma", glued=glued)
    return Measure(text, (decimal,), form="decimal", glued=glued)
