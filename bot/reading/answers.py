"""A short answer to a question with several readings: which of them, or the one reading sent again in clear."""

from dataclasses import replace

from bot.reading.measures import Measure, gather

NEAR = 0.05  # a reading sent again lies no further from one that was asked about


def order(pieces):
    """Which one is meant by "2", "2)", "first", "le premier", "ya pili", "do"; None where anything else is said."""
    said = [p for p in pieces if p.sort != "mark" and (p.has("order", "number") or not p.has("filler", "link"))]
    if len(said) != 1:
        return None
    told = said[0].concept("order") or (said[0].concept("number") or "").rstrip("+*x") or said[0].text
    return int(told) if told.isdecimal() and len(told) == 1 else None


def again(pieces, options, words):
    """The form of the one reading that was asked about, sent again in clear: "6ft1in", "1.85m"; None where it is another one."""
    said = [piece for piece in gather(pieces, words) if isinstance(piece, Measure) or not (piece.has("filler") or piece.sort == "mark")]
    if len(options) < 2 or len(said) != 1 or not isinstance(said[0], Measure) or len(said[0].readings) != 1:
        return None
    value = said[0].readings[0]
    single = all(len(form.fields) == 1 and len(lengths(form)) == 1 for form in options)
    if not single or len({tuple(form.fields) for form in options}) > 1:
        return None
    if not any(abs(value - told) <= NEAR * told for form in options for told in lengths(form)):
        return None
    return replace(options[0], fields=dict.fromkeys(options[0].fields, (value,)), feet=said[0].unit in ("ft", "in"), inferred=())


def lengths(form):
    """The lengths of a form, in metres."""
    found = [value for name, value in form.fields.items() if name.endswith("_m")]
    return [each for value in found for each in (value if isinstance(value, tuple) else (value,))]
