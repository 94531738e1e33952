"""What is written in two pieces and means one: the code of a site, the number of an entry."""

from bot.reading.words import Item


def joined(items, hints):
    """Put site codes together: "tb07", "kv 12", "bd-03"; two letters alone are a code only where one is known."""
    out, at = [], 0
    while at < len(items):
        code, used = _code(items, at, hints)
        out.append(Item("code", code) if code else items[at])
        at += used
    return tuple(out)


def _code(items, at, hints):
    letters = items[at]
    if letters.sort != "word" or len(letters.text) != 2 or not letters.text.isascii():
        return None, 1
    dash = at + 1 < len(items) and items[at + 1].text == "-"
    digits = items[at + 2] if dash and at + 2 < len(items) else items[at + 1] if at + 1 < len(items) else None
    if digits is None or digits.sort != "number" or len(digits.text) != 2 or not digits.text.isdigit():
        return None, 1
    code = (letters.text + digits.text).upper()
    glued = digits.glued and not dash and not letters.tags
    if code in hints.codes or glued or (not letters.tags and any(item.has("act.join", "act.site") for item in items)):
        return code, 3 if dash else 2
    return None, 1


def entries(items):
    """Join an entry number to its sign: "#14"."""
    out = []
    for item in items:
        if out and out[-1].text == "#" and item.sort == "number" and item.text.isdigit():
            out[-1] = Item("entry", item.text)
        else:
            out.append(item)
    return tuple(out)
