"""A text as it came -> one normal form and its tokens; nothing here knows what a word means."""

import re
import unicodedata
from functools import lru_cache
from typing import NamedTuple

LONGEST = 480  # three joined SMS; nobody measures a pit in more

_QUOTES = str.maketrans({"‘": "'", "’": "'", "´": "'", "`": "'", "′": "'", "“": '"', "”": '"', "″": '"', "×": "x", "٫": ".", "٬": ","})
_TOKEN = re.compile(
    r"(?P<word>[a-z]+|[\u0900-\u0963\u0970-\u097f]+|[^\W\d_]+)"
    r"|(?P<ratio>(?<![\d.,])\d{1,3}(?:\.\d{1,2}|,5)?(?: ?: ?\d{1,3}(?:\.\d{1,2}|,5)?)+(?![\d.:]))"
    r"|(?P<number>"
    r"\d+(?:[.,]\d+)*(?:e[+-]?\d+|(?:_\d+)+)"  # 1e3 and 1_0 are one number, so that neither half passes for one
    r"|(?<![\w.)])-\d+(?:[.,]\d+)*"
    r"|\d{1,3} \d{1,2}/\d{1,2}(?![\d/])|\d{1,2}/\d{1,2}(?![\d/])|(?<![\da-z])\.\d+|\d+(?:[.,]\d+)*)"
    r"|(?P<mark>\S)"
)
_OWN_REPLY = re.compile(  # a reply of the bot quoted: a line of its own, or behind the sender's own words
    r"(?:^\s*(?:>.*|(?:STOP\. )?[A-Z]{2}\d{2} #\d+ .*)|\s>+\s*(?:STOP\. )?[A-Za-z]{2}\d{2}\b.*|\s[\"(]?[A-Z]{2}\d{2} #\d+ [A-Z]{2}.*)$",
    re.M,
)
_SIGNS = "❌✖✗✘👎🚫❎⛔✅✔👍"  # pictures that say yes or no
_RUN = re.compile(r"(?<![\d.,lio])[.,lio]*\d[\d.,lio]*")
_UNIT_BEHIND = re.compile(r" ?(?:cm|mm)\b|(?:m|ft|in|inch|kg)\b")
_DIGITS = str.maketrans("lio", "110")
_POWERS = tuple(  # 10ft2 is ten feet two
    (written, re.compile(rf"(?<![{before}]){written}(?![\da-z]|[.,]\d)"), f" {word} ")
    for written, before, word in (("m3", "a-z", "cum"), ("m2", "a-z", "sqm"), ("ft3", r"a-z\d", "cft"), ("ft2", r"a-z\d", "sqft"))
)
_POINTED = re.compile(r"(?<![a-z])(?:c\.m|m\.m|f\.t|k\.g|a\.m|p\.m)(?![a-z])\.?")
_TIMES = re.compile(r"(?<=\d\d)\*(?=\d\d)")
_NOT = re.compile(r"(?<=[a-z])n't\b")
_BETWEEN = re.compile(r"(?<=[a-z])'(?=[a-z])")
# one Hindi word has several spellings: with or without the dot below, a nasal as half a letter or as a dot above
_JOINERS = re.compile("(?<=[\u0900-\u097f])[\u200c\u200d]")
_NASAL = re.compile(
    "\u0901|\u0919\u094d(?=[\u0915-\u0919])|\u091e\u094d(?=[\u091a-\u091e])|\u0923\u094d(?=[\u091f-\u0923])"
    "|\u0928\u094d(?=[\u0924-\u0927])|\u092e\u094d(?=[\u092a-\u092d])"
)


class Token(NamedTuple):
    """A piece of the text: sort is "ratio", "number", "word" or "mark"; glued where no space stands before it."""

    sort: str
    text: str
    glued: bool = False


def clean(text):
    """Return the text in one form: ASCII digits, small letters, plain quotes, no accents, no quoted reply."""
    if "#" in text or ">" in text:
        text = _OWN_REPLY.sub(" ", text)
    text = text.translate(_ASCII).lower() if text.isascii() else _plainly(text)
    for written, pattern, word in _POWERS:
        if written in text:
            text = pattern.sub(word, text)
    if "." in text:
        text = _POINTED.sub(lambda match: match.group().replace(".", ""), text)
    if "*" in text:
        text = _TIMES.sub(" x ", text)
    text = _RUN.sub(_lookalikes, text)
    if "'" in text:
        text = _BETWEEN.sub(" ", _NOT.sub("nt", text).replace("''", '"'))
    return " ".join(text.split())


def _plainly(text):
    """A text with letters, digits and signs of any alphabet, as far as they have a plain form in it."""
    text = re.sub(r"(?i)ft([\u00b2\u00b3])", lambda match: {"\u00b2": " sqft ", "\u00b3": " cft "}[match[1]], text)
    text = re.sub(r"[^\x00-\x7f]", _small_number, text.translate(_QUOTES))
    text = unicodedata.normalize("NFKC", _JOINERS.sub("", text)).translate(_QUOTES).casefold()
    text = "".join(_digit(char) for char in unicodedata.normalize("NFD", text) if not ("\u0300" <= char <= "\u036f" or char == "\u093c"))
    return _NASAL.sub("\u0902", text)


def _lookalikes(match):
    """The letters l, i and o typed for 1 and 0: "l.85", "3.lom", "1o"; a litre behind its number stays one."""
    run, behind = match.group(), match.string[match.end() : match.end() + 1]
    if run.translate(_DIGITS) == run:
        return run
    start = len(run) - len(run.lstrip("lio.,")) if match.string[: match.start()][-1:].isalpha() else 0
    if run[start : start + 1] == "o" and run[start + 1 : start + 2].isdigit():
        start += 1  # o2 is oxygen
    bare = len(run.rstrip("lio.,"))
    ends = (end for end in range(len(run), bare - 1, -1) if _UNIT_BEHIND.match(match.string, match.start() + end))
    end = next(ends, bare if behind.isalpha() else len(run.rstrip("li.,")))
    return run[:start] + run[start:end].translate(_DIGITS) + run[end:]


def _small_number(match):
    """A fraction sign written out with a space before it, so that 1½ is no 11/2; a power that is no unit is none."""
    way, _, made = unicodedata.decomposition(match.group()).partition(" ")
    if way == "<fraction>":
        return " " + "".join(chr(int(code, 16)) for code in made.split()).replace("\u2044", "/")
    power = way == "<super>" and made in ("0032", "0033") and match.string[: match.start()][-1:] not in "mtMT"
    return "*" if power else match.group()


@lru_cache(512)
def _digit(char):
    if char.isdecimal():
        return str(unicodedata.decimal(char))
    if char in _SIGNS:
        return f" {char} "
    return " " if unicodedata.category(char) in ("Cc", "Cf", "So", "Sk", "Cs", "Co", "Cn") or "\ufe00" <= char <= "\ufe0f" else char


_ASCII = {code: _digit(chr(code).translate(_QUOTES)) for code in range(128)}  # what the longer way makes of each


def tokens(text):
    """Return the Tokens of a cleaned text, in order."""
    found, end = [], -1
    for match in _TOKEN.finditer(text):
        found.append(Token(match.lastgroup, match.group(), match.start() == end))
        end = match.end()
    return tuple(found)
