"""What a message of the network holds: its alphabet, its length, its capitals."""

import unicodedata
from functools import lru_cache
from math import ceil

from gsm0338 import Codec

SEGMENTS = 2  # a reply never takes more
_encoded = lru_cache(1024)(Codec().encode)  # asked character by character: a text takes what they take


@lru_cache(256)  # the same text is counted where it is joined, cut and queued
def segments(text):
    """Return (number of SMS, alphabet) of a text: GSM 7-bit if every character is in it, else UCS-2."""
    try:
        length, one, each, alphabet = sum(len(_encoded(character)[0]) for character in text), 160, 153, "GSM-7"
    except UnicodeEncodeError:
        length, one, each, alphabet = len(text.encode("utf-16-be")) // 2, 70, 67, "UCS-2"
    return (1 if length <= one else ceil(length / each)), alphabet


@lru_cache(256)
def capital(letter):
    """The capital of a letter, without its accent where a message of Latin letters has no such capital."""
    big = letter.upper()
    return big if segments(letter + big)[1] == segments(letter)[1] else unicodedata.normalize("NFD", big)[0]
