"""A long text cut into its short messages here, and not by the gateway: the mark that joins them is the text's own.

A gateway that was killed counts its marks from the beginning again, and sends what was under way once more: a phone would
join what is left of one text with the end of another. Sent again under its own mark, a text only completes itself.
"""

import gsm0338  # noqa: F401 - registers the codec

SEPTETS, UNITS = 153, 67  # of GSM 7-bit, of UCS-2, in a message with a header of six octets (3GPP TS 23.040, 23.038)
MARKS = 256


def pieces(out):
    """(text, user data header) of each short message of a text."""
    if out.segments == 1:
        return ((out.text, b""),)
    cut = _cut(out.text, SEPTETS, _septets) if out.encoding == "GSM-7" else _cut(out.text, UNITS, _units)
    return tuple((text, bytes([5, 0, 3, out.id % MARKS, len(cut), place])) for place, text in enumerate(cut, 1))


def _cut(text, most, size):
    """A text in parts of at most so many units; no character is cut in two."""
    parts, room = [""], most
    for character in text:
        if size(character) > room:
            parts.append("")
            room = most
        parts[-1] += character
        room -= size(character)
    return parts


def _septets(character):
    return len(character.encode("gsm03.38"))


def _units(character):
    return len(character.encode("utf-16-be")) // 2
