"""Whole numbers said in words: sixty two, two hundred and fifty, mille deux cents, elfu moja mia mbili, kumi na mbili.

The lists say with a sign behind the number how its word joins others: `10+` takes a unit behind "and", `100*` the number
it multiplies behind it, `12x` multiplies the number before it, as every 100 and 1000 does.
"""

from typing import NamedTuple

HUNDRED, THOUSAND = 100, 1000
MOST = 99_999


class Word(NamedTuple):
    """A number word: its value and how it joins others."""

    value: float
    leads: bool = False
    adds: bool = False
    times: bool = False


def word(item):
    """The Word an item is, or None."""
    said = item.concept("number")
    if said is None:
        return None
    value = float(said.rstrip("+*x"))
    leads = said.endswith("*")
    return Word(value, leads, said.endswith("+"), not leads and (value in (HUNDRED, THOUSAND) or said.endswith("x")))


def whole(items, at):
    """(value, items used) of the number words at a place that make one number; (None, items used) where they make none."""
    total, end, limit, linked = 0.0, at, MOST, False
    while True:
        place = end + 1 if linked and end < len(items) and items[end].has("link.and") else end
        value, size, after = _group(items, place)
        if value is None or value >= limit or (total and not size and _idle(items, place)):
            break  # "do" and "un" may be no number
        total, end, limit = total + value, after, size
        linked = size >= HUNDRED
    return (total or None if end > at + 1 else total, max(end - at, 1))


def multiplied(value, items, at):
    """(value, items used) of a number with the hundred, thousand or dozen behind it: "2 thousand", "dedh sau", "2k"."""
    behind = items[at] if at < len(items) else None
    if behind is None:
        return value, 0
    if behind.glued and behind.has("lookalike.thousand"):
        return value * THOUSAND, 1
    said = word(behind)
    if said is None or not said.times:
        return value, 0
    return (None if behind.has("lookalike.cm") or value >= HUNDRED else value * said.value), 1


def _group(items, at):
    """(value, what the next must stay below, place behind it) of one number with its hundred or thousand."""
    said = word(items[at]) if at < len(items) else None
    if said is None:
        return None, 0, at
    if said.leads:
        value, after = _led(items, at + 1)
        return (said.value * value, said.value, after) if value else (said.value, said.value, at + 1)
    value, after = _below_hundred(items, at, said)
    behind = word(items[after]) if after < len(items) else None
    if behind is not None and behind.times and 0 < value < HUNDRED:
        return value * behind.value, behind.value, after + 1
    size = said.value if said.times else 0
    return value, size, after


def _led(items, at):
    """(number, place behind it) that a leading hundred or thousand multiplies: a word below a hundred or a number in digits."""
    if at >= len(items):
        return None, at
    if items[at].sort == "number" and items[at].text.isdigit() and len(items[at].text) <= 2:
        return float(items[at].text), at + 1
    said = word(items[at])
    return (said.value, at + 1) if said and not said.leads and not said.times and 0 < said.value < HUNDRED else (None, at)


def _below_hundred(items, at, said):
    """Twenty five, ishirini na tano: a ten and its unit."""
    value, after = said.value, at + 1
    tens = said.adds or (value % 10 == 0 and HUNDRED > value > 10)
    place = after + 1 if said.adds and after < len(items) and items[after].has("link.and") else after
    unit = word(items[place]) if tens and place < len(items) else None
    if unit is None or unit.leads or unit.times or not 0 < unit.value < 10 or (place == after and _idle(items, place)):
        return value, after
    return value + unit.value, place + 1


def _idle(items, at):
    """True for a word that may be no number: a "do" or "un", unless a unit stands right behind it, "deux cent un cm"."""
    return items[at].has("filler") and not (at + 1 < len(items) and items[at + 1].has("unit"))
