"""Numbers and their units: items -> the same line with every number gathered into a Measure."""

import re

from bot.reading import tidy
from bot.reading.numbers import COUNTED, Measure, number, readings
from calc.units import celsius, si

FOLLOWING = {"ft": "in", "in": "soot", "m": "cm"}
SHORT = ("m", "cm", "mm", "ft", "kg", "cum", "sqm")  # may stand before a number that has no other unit: "m 2", "mm 12"
SEPARATORS = (",", ".")
COUNTABLE = ("unit", "animal", "item", "role", "person", "order", "body", "act.in_pit", "act.coat")
HALVED = {"half": 0.5, "quarter": 0.25}


def gather(items, words):
    """Return the line with Measures in place of numbers, their units and number words."""
    line, at, items = [], 0, tidy.before(items)
    while at < len(items):
        made, used = _measure(items, at, words)
        if made:
            line += [item for item in items[at : at + used] if item.has("act.more")]  # "2 more days" are not 2 days
            line += _each(made)
        else:
            line.append(items[at])
        at += used or 1
    return tidy.after(line)


def _each(made):
    """A list written with commas is as many readings in one unit."""
    if made.form != "list":
        return (made,)
    parts = [made._replace(values=(value,), form="plain", readings=()) for value in made.values]
    return tuple(part._replace(readings=part.si()) if part.kind == "length" else part for part in parts)


def _measure(items, at, words):
    item = items[at]
    if item.has("order") and _day_of_cure(items, at):
        return Measure(f"{item.text} {items[at + 1].text}", (float(item.concept("order")),), "d", form="word"), 2
    if item.sort not in ("number", "ratio") and not item.has("unit", "number", "fraction"):
        return None, 0
    if item.sort == "ratio":
        text = item.text.replace(",", ".")
        parts = tuple(float(part) for part in re.split(r" ?: ?", text))
        return Measure(text, parts, form="ratio"), 1
    if item.has("unit.d") and _day_of(items, at, words):
        return _which_day(items, at, words)
    if item.has("unit") and _stands_before(items, at, words):
        made, used = number(items, at + 1)
        if made:
            return _finish(made._replace(unit=item.concept("unit")), items, at + 1 + used, at, words)
    made, used = _dashed(items, at)
    if made is None:
        made, used = number(items, at)
    if not made:
        return None, 0
    return _finish(made, items, at + used, at, words)


def _dashed(items, at):
    """Feet and inches with a dash between: "6-4 ft", or "6-4" before another such."""
    piece = items[at : at + 4]
    if not _dash(items, at) or not (_in_feet(items, at) or any(_in_feet(items, place) for place in range(at + 3, len(items)))):
        return None, 0
    piece = piece if _in_feet(items, at) else piece[:3]
    length = si(float(piece[0].text), "ft") + si(float(piece[2].text), "in")
    return Measure(" ".join(each.text for each in piece), (float(piece[0].text),), "ft", (length,), "inches"), len(piece)


def _dash(items, at):
    """True for two whole numbers with a dash between, the second one of inches; not with a unit of its own that is none of feet."""
    piece = items[at : at + 4]
    if len(piece) < 3 or piece[1].text != "-" or any(each.sort != "number" or not each.text.isdigit() for each in piece[:3:2]):
        return False
    return 0 < int(piece[2].text) < 12 and (len(piece) < 4 or not piece[3].has("unit") or piece[3].has("unit.ft"))


def _in_feet(items, at):
    return _dash(items, at) and at + 3 < len(items) and items[at + 3].concept("unit") == "ft"


def _stands_before(items, at, words):
    """True for a unit word that takes the number after it: "sm 5", "bags 12" with no unit behind the number."""
    if at + 1 >= len(items) or items[at + 1].sort not in ("number", "word"):
        return False
    if tuple(items[at].text.split()) in words.before:
        return number(items, at + 1)[0] is not None
    if items[at].text in SHORT and _opens(items, at):
        made, used = number(items, at + 1)
        behind = items[at + 1 + used :] if made is not None else ()
        return made is not None and (not behind or not behind[0].has("unit", "body") or _stands_before(items, at + 1 + used, words))
    follows = items[at + 2] if at + 2 < len(items) else None
    own_unit = follows is not None and follows.has("unit", "body")
    told = items[at + 1].sort == "number" or (items[at + 1].has("number") and not items[at + 1].has("filler"))  # "bag moja"
    return told and not own_unit and items[at].concept("unit") in (*COUNTED, "d")


def _day_of(items, at, words):
    """True for "siku ya 4", "siku ya nne": the fourth day."""
    behind = items[at + 1] if at + 1 < len(items) else None
    if behind is None or tuple(items[at].text.split()) not in words.before:
        return False
    return behind.concept("order") is not None or (behind.has("link.of") and at + 2 < len(items) and items[at + 2].sort == "number")


def _day_of_cure(items, at):
    """True for "4eme jour" where something is kept wet."""
    return at + 1 < len(items) and items[at + 1].has("unit.d") and any(item.has("act.cure") for item in items)


def _which_day(items, at, words):
    order = items[at + 1].concept("order")
    if order:
        return Measure(f"{items[at].text} {items[at + 1].text}", (float(order),), "d", form="word"), 2
    made, used = number(items, at + 2)
    return _finish(made._replace(unit="d"), items, at + 2 + used, at, words) if made else (None, 0)


def _opens(items, at):
    """True for a unit with no number before it that it could be of; one that has its own unit before it takes none."""
    if not at or not (items[at - 1].sort in ("number", "ratio") or items[at - 1].has("number", "fraction")):
        return True
    return _which_one(items, at) or (at > 1 and items[at - 2].text in SHORT and _opens(items, at - 2))


def _which_one(items, at):
    """True behind the number of "tabaka la 2", the second coat: a unit there is of the number that follows."""
    return at > 2 and items[at - 2].has("link.of") and items[at - 3].has("counted")


def _finish(made, items, after, start, words):
    """Add the unit behind the number, and the rest of feet and inches or metres and centimetres."""
    if made.form == "inches":
        return made, after - start
    before, unit = made.unit is not None, made.unit
    if unit is None and not _of_the_next(items, after, words) and not (_which_one(items, after) and _stands_before(items, after, words)):
        unit, after = _unit_after(items, after, made)
    text = " ".join(item.text for item in items[start:after])
    if unit or text != made.text:
        made = made._replace(unit=unit, text=text)
    if unit is None and after < len(items) and items[after].sort == "word" and items[after].glued and not items[after].tags:
        made, after = made._replace(values=(), form="bad", text=f"{text}{items[after].text}"), after + 1  # "92an"
    if unit == "week":
        made = made._replace(unit="d", values=tuple(7 * value for value in made.values))
    if unit == "F" and made.values:
        made = made._replace(unit="C", values=tuple(celsius(value, "fahrenheit") for value in made.values))
    if made.form in ("plain", "decimal", "word") and made.values:
        made, after = _and_half(made, items, after, start)
        if unit in FOLLOWING:
            made, after = _rest_before(made, items, after, start, words) if before else _compound(made, items, after, start)
    if made.kind == "length" and not made.readings and made.form != "bad":
        made = made._replace(readings=readings(made, made.unit))
    return made, after - start


def _of_the_next(items, at, words):
    """True for a container behind a number that counts by the number behind it: "1 4 mifuko 2"."""
    if at >= len(items) or tuple(items[at].text.split()) not in words.before or items[at].concept("unit") not in COUNTED:
        return False
    made, used = number(items, at + 1)
    behind = items[at + 1 + used] if at + 1 + used < len(items) else None
    return made is not None and (behind is None or not behind.has("unit"))


def _unit_after(items, after, made):
    if after >= len(items):
        return None, after
    item = items[after]
    if item.text in ("'", '"') and (made.form != "bad"):
        return {"'": "ft", '"': "in"}[item.text], after + 1
    if item.text == "%":
        return "percent", after + 1
    if item.has("lookalike.in") and _hours_behind(items, after + 1):
        return None, after  # "3 in 24 h": a unit or none
    if item.has("unit"):
        return item.concept("unit"), after + 1
    if item.text in SEPARATORS and after + 1 < len(items) and items[after + 1].has("unit") and not _counts(items, after + 2):
        return items[after + 1].concept("unit"), after + 2  # "190.cm"
    if item.has("act.more") and after + 1 < len(items) and items[after + 1].has("unit"):
        return items[after + 1].concept("unit"), after + 2  # "2 more days"
    return None, after


def _hours_behind(items, at):
    made, used = number(items, at)
    return made is not None and at + used < len(items) and items[at + used].has("unit.h", "unit.d", "unit.min")


def _counts(items, at):
    return at < len(items) and items[at].has("number", "fraction") | (items[at].sort in ("number", "ratio"))


def _and_half(made, items, after, start):
    """Six feet and a half, un metre et demi, 4 inches 1/2: a fraction of the same unit."""
    part = items[after] if after < len(items) and made.unit in ("in", "ft") and not made.value % 1 else None
    if part is not None and re.fullmatch("1/[248]|3/[48]", part.text) and not (after + 1 < len(items) and items[after + 1].has("unit")):
        over, under = part.text.split("/")
        return made._replace(values=(made.value + int(over) / int(under),), text=f"{made.text} {part.text}", form="word"), after + 1
    linked = made.unit and after + 1 < len(items) and items[after].has("link.and")
    fraction = items[after + 1].concept("fraction") if linked else None
    own_unit = after + 2 < len(items) and items[after + 2].has("unit", "item", "material")
    if fraction not in HALVED or own_unit or made.value % 1:
        return made, after
    text = " ".join(item.text for item in items[start : after + 2])
    return made._replace(values=(made.value + HALVED[fraction],), text=text, form="word"), after + 2


def _rest_before(made, items, after, start, words):
    """Feet and inches with the units before their numbers: "futi 6 inchi 2"."""
    skip = after + 1 if after < len(items) and items[after].has("link.and") else after
    if skip >= len(items) or items[skip].concept("unit") != FOLLOWING[made.unit] or not _its_number_behind(items, skip, words):
        return _compound(made, items, after, start)
    small, used = number(items, skip + 1)
    if not small.values or made.value % 1 or (made.unit != "m" and small.value >= 12):
        return made._replace(values=(), form="bad"), skip + 1 + used
    end = skip + 1 + used
    total = si(made.value, made.unit) + si(small.value, FOLLOWING[made.unit])
    return made._replace(text=" ".join(item.text for item in items[start:end]), readings=(total,), form="inches"), end


def _its_number_behind(items, at, words):
    """True for a unit that takes the number behind it, here also one that elsewhere stands behind its own: "futi 10 inch 4"."""
    if _stands_before(items, at, words):
        return True
    made, used = number(items, at + 1)
    behind = items[at + 1 + used] if made is not None and at + 1 + used < len(items) else None
    return made is not None and items[at + 1].sort == "number" and (behind is None or not behind.has("unit"))


def _compound(made, items, after, start):
    """Six feet two, six feet two inches three soot, one metre eighty-five."""
    following = FOLLOWING[made.unit]
    skip = after + 1 if after < len(items) and (items[after].text in SEPARATORS or items[after].has("link.and")) else after
    small_number, used = number(items, skip)
    if small_number is None or small_number.form not in ("plain", "word", "decimal", "fraction") or not small_number.values:
        return made, after
    unit, end = _unit_after(items, skip + used, small_number)
    following = "soot" if made.unit == "ft" and unit == "soot" else following  # six feet five soot
    bare_ok = unit is None and skip == after and _bare_tail(made, small_number, items, after, end)
    following = "mm" if made.unit == "m" and unit == "mm" else following  # 1m 850mm
    own_field = skip > after and end < len(items) and items[end].has("field") and number(items, end + 1)[0] is None
    if (unit != following and not bare_ok) or own_field or (made.unit == "m" and small_number.value >= (1000 if unit == "mm" else 100)):
        return made, after
    value, small = made.value, small_number.value
    if value != int(value) or (following == "in" and small >= 12) or (following == "soot" and small >= 8):
        return made._replace(values=(), form="bad"), end if unit == following else skip + used
    total = si(value, made.unit) + si(small, following)
    text = " ".join(item.text for item in items[start:end])
    whole = made._replace(text=text, readings=(total,), form="inches" if made.unit != "m" else made.form)
    if following == "in":
        rest, used_more = number(items, end)
        soot, after_soot = _unit_after(items, end + used_more, rest) if rest else (None, end)
        if soot == "soot" and rest.values and rest.value < 8:
            return whole._replace(readings=(total + si(rest.value, "soot"),)), after_soot
    return whole, end


def _bare_tail(made, small, items, after, end):
    """True where a bare number right behind feet or metres is its inches or centimetres: 6ft2, 6' 2, 1m85."""
    if small.value != int(small.value):
        return False
    if small.form == "word":  # un metre cinquante, six foot two
        behind = items[end] if end < len(items) else None
        said = small.value >= 10 if made.unit == "m" else made.unit == "ft" and made.form == "word" and small.value < 12
        return said and (behind is None or not behind.has(*COUNTABLE))
    if small.form != "plain":
        return False
    if made.unit == "ft":
        return small.value < 12
    return made.unit == "m" and len(items[after].text) == 2 and (items[after].glued or _metres_go_on(items, after + 1))


def _metres_go_on(items, at):
    """True at the end, or with nothing but the part behind it, before a field with its own number, before more metres: "3 m 05 3 m 10"."""
    if all(item.sort == "word" and item.has("part", "filler") for item in items[at:]):
        return True
    start = at + 1 if items[at].has("field") else at
    made, used = number(items, start)
    return made is not None and start + used < len(items) and items[start + used].has("unit.m")
