"""Texts for readers: a sentence in English with named values, worded in its reader's language and units.

T_("Deep %(depth)s.", depth=Length(1.83)) is a Text; Texts add up to a reply. A value knows how to print itself for a reader.
"""

import gettext
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from functools import cache, lru_cache
from math import ceil, floor
from pathlib import Path
from zoneinfo import ZoneInfo

from gsm0338 import Codec

from calc.units import from_si, si

SEGMENTS = 2  # a reply never takes more
_encoded = lru_cache(1024)(Codec().encode)  # asked character by character: a text takes what they take


@dataclass(frozen=True)
class Text:
    """Sentences in order, each with the values that fill it."""

    sentences: tuple = ()

    def __add__(self, other):
        return Text(self.sentences + other.sentences)

    def __bool__(self):
        return bool(self.sentences)


def T_(sentence, **values):
    """Return a Text of one sentence; the first argument is what the catalogue translates."""
    return Text(((sentence, values),))


def lines(texts):
    """Return the Texts one after the other as one."""
    return Text(tuple(sentence for text in texts for sentence in text.sentences))


def joined(first, second):
    """Return two Texts as one, a head that both have only once."""
    return first + (Text(second.sentences[1:]) if second.sentences[:1] == first.sentences[:1] else second)


@dataclass(frozen=True)
class Reader:
    """For whom a text is worded."""

    language: str = "en"
    units: str = "metric"
    zone: str = "UTC"
    brief: bool = False  # lengths of a reader of feet in feet alone


def word(text, reader):
    """Return the text as the reader sees it."""
    translate = _catalogue(reader.language).gettext
    parts = []
    for sentence, values in text.sentences:
        printed = {name: show(value, reader) for name, value in values.items()}
        parts.append(translate(sentence) % printed if printed else translate(sentence).replace("%%", "%"))
    return " ".join(parts)


@cache
def _catalogue(language):
    return gettext.translation("messages", Path(__file__).parent / "locale", [language], fallback=True)


def show(value, reader):
    """Return a value as the reader sees it: what it prints itself, a Text worded, a plain string as it is."""
    if isinstance(value, Text):
        return word(value, reader)
    if isinstance(value, str | int) and not isinstance(value, bool):
        return str(value)
    return value.show(reader)


@lru_cache(256)  # the same text is counted where it is joined, cut and queued
def segments(text):
    """Return (number of SMS, alphabet) of a text: GSM 7-bit if every character is in it, else UCS-2."""
    try:
        length, one, each, alphabet = sum(len(_encoded(character)[0]) for character in text), 160, 153, "GSM-7"
    except UnicodeEncodeError:
        length, one, each, alphabet = len(text.encode("utf-16-be")) // 2, 70, 67, "UCS-2"
    return (1 if length <= one else ceil(length / each)), alphabet


def plain(value, digits):
    """Return a number with at most `digits` decimals and no empty ones: 4.50 -> 4.5, 12.0 -> 12."""
    text = f"{value:.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


@dataclass(frozen=True)
class Number:
    """A bare number, with at most `digits` decimals."""

    value: float
    digits: int = 1

    def show(self, reader):
        return plain(self.value, self.digits)


@dataclass(frozen=True)
class Length:
    """One length [m] or several, in two forms: m and cm (cm and mm when short), or m and feet if asked."""

    value_m: float | tuple
    feet: bool = False

    def show(self, reader):
        values = self.value_m if isinstance(self.value_m, tuple) else (self.value_m,)
        # a length that is not whole centimetres is told in cm and mm, so that both forms say the same
        short = max(abs(value) for value in values) < 0.30 or any(abs(v * 100 - round(v * 100)) > 0.05 for v in values)
        short = short and not (self.feet or reader.units == "feet") or max(abs(value) for value in values) < 0.30
        unit, main = ("cm", [plain(from_si(v, "cm"), 1) for v in values]) if short else ("m", [f"{v:.2f}" for v in values])
        if self.feet or reader.units == "feet":
            inches = ", ".join(feet_inches(v) for v in values)
            return inches if reader.brief else f"{', '.join(main)} {unit} ({inches})"
        small, other = ("mm", "mm") if short else ("cm", "cm")
        return f"{', '.join(main)} {unit} ({', '.join(plain(from_si(v, small), 1) for v in values)} {other})"


@dataclass(frozen=True)
class Size:
    """One length [m] in one form, for plans and limits; readers of feet get feet and inches. What is not nothing prints no 0."""

    value_m: float
    feet: bool = False

    def show(self, reader):
        feet = self.feet or reader.units == "feet"
        if 0 < abs(self.value_m) < (si(0.0625, "in") if feet else 0.0005):
            return "under 1/8 in" if feet else "under 1 mm"
        if feet:
            step = si(0.5, "in") if abs(self.value_m) >= 0.30 else si(0.125, "in")
            return feet_inches(round(self.value_m / step) * step)
        if abs(self.value_m) < 0.995:
            return f"{plain(from_si(self.value_m, 'cm'), 0 if abs(self.value_m) >= 0.295 else 1)} cm"
        return f"{self.value_m:.2f} m"


@dataclass(frozen=True)
class Upper:
    """A text in capitals, for the head of a reply."""

    text: Text

    def show(self, reader):
        return show(self.text, reader).upper()


@dataclass(frozen=True)
class Span:
    """From one length to another [m], in one form."""

    low_m: float
    high_m: float
    feet: bool = False

    def show(self, reader):
        # rounded inward, so that no number within what is printed lies outside
        if self.feet or reader.units == "feet":
            wide = self.high_m >= 0.30 and self.high_m - self.low_m > si(1, "in")
            step = si(0.5 if wide else 0.125, "in")
            low, high = ceil(self.low_m / step - 1e-6) * step, floor(self.high_m / step + 1e-6) * step
            return f"{feet_inches(low)} to {feet_inches(high)}"
        if self.high_m - self.low_m < 0.06 or self.high_m < 0.30:
            low, high = ceil(self.low_m * 1000 - 1e-6), floor(self.high_m * 1000 + 1e-6)
            return f"{plain(low / 10, 1)}-{plain(high / 10, 1)} cm"
        low, high = ceil(self.low_m * 100 - 1e-6), floor(self.high_m * 100 + 1e-6)
        return f"{low}-{high} cm" if high < 100 else f"{low / 100:.2f}-{high / 100:.2f} m"


def feet_inches(value_m):
    """Return a length in feet and inches to the nearest eighth of an inch: 1.911 m -> "6 ft 3 1/4 in"."""
    eighths = round(from_si(abs(value_m), "in") * 8)
    feet, eighths = divmod(eighths, 96)
    inches, part = divmod(eighths, 8)
    halves = {0: "", 1: "1/8", 2: "1/4", 3: "3/8", 4: "1/2", 5: "5/8", 6: "3/4", 7: "7/8"}[part]
    inch = " ".join(piece for piece in (str(inches) if inches or not halves else "", halves) if piece)
    sign = "-" if value_m < 0 else ""
    return sign + (f"{feet} ft" + (f" {inch} in" if inch != "0" else "") if feet else f"{inch} in")


@dataclass(frozen=True)
class Volume:
    """A volume [m3]: litres where small."""

    value_m3: float

    def show(self, reader):
        if self.value_m3 < 0.0995:
            return f"{plain(from_si(self.value_m3, 'l'), 0)} l"
        return f"{plain(self.value_m3, 2 if self.value_m3 < 10 else 1)} m3"


@dataclass(frozen=True)
class Amount:
    """A number with a unit that is the same for everybody, or with a counted thing in the plural: kg, l, bags, days."""

    value: float
    unit: str
    digits: int = 1

    def show(self, reader):
        number = plain(self.value, self.digits)
        return f"{number} {_SINGLE.get(self.unit, self.unit) if number == '1' else self.unit}"


_SINGLE = {f"{name}s": name for name in ("bag", "bucket", "pan", "barrow", "tin", "jerrycan", "trolley", "tipper", "cart", "debe")}
_SINGLE |= {"boxes": "box", "days": "day", "places": "place", "person-days": "person-day", "mixings": "mixing"}


@dataclass(frozen=True)
class Money:
    """A sum, exact, with the word for its currency; coins only where there are some."""

    value: Decimal
    currency: str

    def show(self, reader):
        whole = self.value == self.value.to_integral_value()
        return f"{self.value.quantize(Decimal(1)) if whole else self.value} {self.currency}"


@dataclass(frozen=True)
class Between:
    """A range of plain numbers with a unit: "0.8-1.4 m3"; one number where both print the same."""

    low: float
    high: float
    unit: str = ""
    digits: int = 1

    def show(self, reader):
        low, high = plain(self.low, self.digits), plain(self.high, self.digits)
        return (low if low == high else f"{low}-{high}") + (f" {self.unit}" if self.unit else "")


@dataclass(frozen=True)
class Series:
    """Texts or values told one after the other, with commas."""

    parts: tuple

    def show(self, reader):
        return ", ".join(show(part, reader) for part in self.parts)


@dataclass(frozen=True)
class Head:
    """A pressure [Pa] as the height of a water column, the way a site reads it: "82 cm water"."""

    value_pa: float
    digits: int = 0

    def show(self, reader):
        return f"{plain(from_si(self.value_pa, 'cmH2O'), self.digits)} cm water"


@dataclass(frozen=True)
class Clock:
    """A moment, in the site's time: the hour if it is today there, else weekday, day and hour."""

    at: datetime
    now: datetime | None = None

    def show(self, reader):
        local = self.at.astimezone(ZoneInfo(reader.zone))
        today = self.now is not None and self.now.astimezone(ZoneInfo(reader.zone)).date() == local.date()
        return local.strftime("%H:%M") if today else local.strftime("%a %d %b %H:%M")


@dataclass(frozen=True)
class Day:
    """A day, in the site's time, with its weekday."""

    at: datetime

    def show(self, reader):
        return self.at.astimezone(ZoneInfo(reader.zone)).strftime("%a %d %b")


@dataclass(frozen=True)
class Dated:
    """A day of the calendar with its year, for what may be long ago."""

    on: date

    def show(self, reader):
        return self.on.strftime("%d %b %Y")
