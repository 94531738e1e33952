"""A text as it came -> one normal form and its tokens; nothing here knows what a word means."""

import re
import unicodedata
from dataclasses import dataclass

LONGEST = 480  # three joined SMS; nobody measures a pit in more

_QUOTES = str.maketrans({"‘": "'", "’": "'", "´": "'", "`": "'", "′": "'", "“": '"', "”": '"', "″": '"', "×": "x", "٫": ".", "٬": ","})
_TOKEN = re.compile(
    r"(?P<ratio>(?<![\d.,])\d{1,3}(?:\.\d{1,2})?(?: ?: ?\d{1,3}(?:\.\d{1,2})?)+(?![\d.:]))"
    r"|(?P<number>"
    r"\d+(?:[.,]\d+)*(?:e[+-]?\d+|(?:_\d+)+)"  # 1e3 and 1_0 are one number, so that neither half passes for one
    r"|(?<![\w.)])-\d+(?:[.,]\d+)*"
    r"|\d{1,3} \d{1,2}/\d{1,2}(?![\d/])|\d{1,2}/\d{1,2}(?![\d/])|(?<!\d)\.\d+|\d+(?:[.,]\d+)*)"
    r"|(?P<word>[a-z]+|[\u0900-\u0963\u0970-\u097f]+|[^\W\d_]+)"
    r"|(?P<mark>\S)"
)
_OWN_REPLY = re.compile(r"^\s*(?:>.*|(?:STOP\. )?[A-Z]{2}\d{2} #\d+ .*)$", re.M)


@dataclass(frozen=True)
class Token:
    """A piece of the text: sort is "ratio", "number", "word" or "mark"; glued where no space stands before it."""

    sort: str
    text: str
    glued: bool = False


def clean(text):
    """Return the text in one form: ASCII digits, small letters, plain quotes, no accents, no quoted reply."""
    text = _OWN_REPLY.sub(" ", text)
    text = unicodedata.normalize("NFKC", text.translate(_QUOTES)).translate(_QUOTES).casefold()
    text = "".join(_digit(char) for char in unicodedata.normalize("NFD", text) if not "\u0300" <= char <= "\u036f")
    for written, word in (("m3", "cum"), ("m2", "sqm"), ("ft3", "cft"), ("ft2", "sqft")):
        text = re.sub(rf"(?<![a-z]){written}(?![\da-z])", f" {word} ", text)
    text = re.sub(r"(?<=\d)o(?=\d|\b|(?:cm|mm|m|kg|l)\b)", "0", text)
    text = re.sub(r"(?<=\d)[li](?=\d)", "1", text)
    text = re.sub(r"(?<=[a-z])n't\b", "nt", text).replace("''", '"')
    text = re.sub(r"(?<=[a-z])'(?=[a-z])", " ", text)
    return re.sub(r"\s+", " ", text).strip()


def _digit(char):
    if char.isdecimal():
        return str(unicodedata.decimal(char))
    return " " if unicodedata.category(char) in ("Cc", "Cf", "So", "Sk", "Cs", "Co", "Cn") else char


def tokens(text):
    """Return the Tokens of a cleaned text, in order."""
    found, end = [], -1
    for match in _TOKEN.finditer(text):
        found.append(Token(match.lastgroup, match.group(), match.start() == end))
        end = match.end()
    return tuple(found)
