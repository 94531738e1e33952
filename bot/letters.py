"""What a short message of the network holds: its alphabet, its length, where a long text is cut, its capitals."""

import unicodedata
from functools import lru_cache

from gsm0338 import Codec

SEGMENTS = 2  # a reply never takes more
ALONE = {"GSM-7": 160, "UCS-2": 70}
JOINED = {"GSM-7": 153, "UCS-2": 67}  # with a header of six octets (3GPP TS 23.040, 23.038)
_encoded = lru_cache(1024)(Codec().encode)  # asked character by character: a text takes what they take


@lru_cache(256)  # the same text is counted where it is joined, cut and queued
def segments(text):
    """Return (number of SMS, alphabet) of a text: GSM 7-bit if every character is in it, else UCS-2."""
    alphabet, sizes = _sizes(text)
    return (1 if sum(sizes) <= ALONE[alphabet] else len(cut(text))), alphabet


def cut(text):
    """Return the parts of a text that takes several messages; no character is cut in two."""
    alphabet, sizes = _sizes(text)
    parts, room = [""], JOINED[alphabet]
    for character, size in zip(text, sizes, strict=True):
        if size > room:
            parts.append("")
            room = JOINED[alphabet]
        parts[-1] += character
        room -= size
    return parts


def _sizes(text):
    try:
        return "GSM-7", [len(_encoded(character)[0]) for character in text]
    except UnicodeEncodeError:
        return "UCS-2", [2 if ord(character) > 0xFFFF else 1 for character in text]


@lru_cache(256)
def capital(letter):
    """The capital of a letter, without its accent where a message of Latin letters has no such capital."""
    big = letter.upper()
    return big if segments(letter + big)[1] == segments(letter)[1] else unicodedata.normalize("NFD", big)[0]
