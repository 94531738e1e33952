"""Texts for readers: a sentence in English with named values, worded in its reader's language and units.

T_("Deep %(depth)s.", depth=Length(1.83)) is a Text; Texts add up to a reply. A value knows how to print itself for a reader.
"""

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from math import ceil, floor
from zoneinfo import ZoneInfo

from bot.letters import capital
from bot.tongue import DATE, DAY, MOMENT, N_, figure, measured, moment, sentence
from calc.units import from_si, si


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
    brief: bool = False  # lengths in one form alone, that of the reader


def word(text, reader):
    """Return the text as the reader sees it."""
    parts = []
    for source, values in text.sentences:
        printed = {name: show(value, reader) for name, value in values.items()}
        told = sentence(source, reader.language)
        parts.append(told % printed if printed else told.replace("%%", "%"))
    return " ".join(parts)


def show(value, reader):
    """Return a value as the reader sees it: what it prints itself, a Text worded, a plain string as it is."""
    if isinstance(value, Text):
        return word(value, reader)
    if isinstance(value, str | int) and not isinstance(value, bool):
        return str(value)
    return value.show(reader)


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
        return figure(plain(self.value, self.digits), reader.language)


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
            inches = ", ".join(feet_inches(v, reader.language) for v in values)
            return inches if reader.brief else f"{measured(', '.join(main), unit, reader.language)} ({inches})"
        if reader.brief:
            return measured(", ".join(main), unit, reader.language)
        small = "mm" if short else "cm"
        others = measured(", ".join(plain(from_si(v, small), 1) for v in values), small, reader.language)
        return f"{measured(', '.join(main), unit, reader.language)} ({others})"


@dataclass(frozen=True)
class Size:
    """One length [m] in one form, for plans and limits; readers of feet get feet and inches. What is not nothing prints no 0."""

    value_m: float
    feet: bool = False

    def show(self, reader):
        feet = self.feet or reader.units == "feet"
        if 0 < abs(self.value_m) < (si(0.0625, "in") if feet else 0.0005):
            return little(reader, feet)
        if feet:
            step = si(0.5, "in") if abs(self.value_m) >= 0.30 else si(0.125, "in")
            return feet_inches(round(self.value_m / step) * step, reader.language)
        if abs(self.value_m) < 0.995:
            return measured(plain(from_si(self.value_m, "cm"), 0 if abs(self.value_m) >= 0.295 else 1), "cm", reader.language)
        return measured(f"{self.value_m:.2f}", "m", reader.language)


def little(reader, feet):
    """What is less than a tape shows, and not nothing."""
    return sentence(N_("under 1/8 in") if feet else N_("under 1 mm"), reader.language)


@dataclass(frozen=True)
class Upper:
    """A text in capitals, for the head of a reply."""

    text: Text

    def show(self, reader):
        return "".join(capital(letter) for letter in show(self.text, reader))


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
            ends = {"low": feet_inches(low, reader.language), "high": feet_inches(high, reader.language)}
            return sentence(N_("%(low)s to %(high)s"), reader.language) % ends
        if self.high_m - self.low_m < 0.06 or self.high_m < 0.30:
            low, high = ceil(self.low_m * 1000 - 1e-6), floor(self.high_m * 1000 + 1e-6)
            return measured(f"{plain(low / 10, 1)}-{plain(high / 10, 1)}", "cm", reader.language)
        low, high = ceil(self.low_m * 100 - 1e-6), floor(self.high_m * 100 + 1e-6)
        if high < 100:
            return measured(f"{low}-{high}", "cm", reader.language)
        return measured(f"{low / 100:.2f}-{high / 100:.2f}", "m", reader.language)


def feet_inches(value_m, language="en"):
    """Return a length in feet and inches to the nearest eighth of an inch: 1.911 m -> "6 ft 3 1/4 in"."""
    eighths = round(from_si(abs(value_m), "in") * 8)
    feet, eighths = divmod(eighths, 96)
    inches, part = divmod(eighths, 8)
    halves = {0: "", 1: "1/8", 2: "1/4", 3: "3/8", 4: "1/2", 5: "5/8", 6: "3/4", 7: "7/8"}[part]
    inch = " ".join(piece for piece in (str(inches) if inches or not halves else "", halves) if piece)
    told = [measured(feet, "ft", language)] if feet else []
    told += [measured(inch, "in", language)] if inch != "0" or not feet else []
    return ("-" if value_m < 0 else "") + " ".join(told)


@dataclass(frozen=True)
class Volume:
    """A volume [m3]: litres where small."""

    value_m3: float

    def show(self, reader):
        if self.value_m3 < 0.0995:
            return measured(plain(from_si(self.value_m3, "l"), 0), "l", reader.language)
        return measured(plain(self.value_m3, 2 if self.value_m3 < 10 else 1), "m3", reader.language)


@dataclass(frozen=True)
class Amount:
    """A number with a unit that is the same for everybody, or with a counted thing in the plural: kg, l, bags, days."""

    value: float
    unit: str
    digits: int = 1

    def show(self, reader):
        return measured(plain(self.value, self.digits), self.unit, reader.language)


@dataclass(frozen=True)
class Money:
    """A sum, exact, with the word for its currency; coins only where there are some."""

    value: Decimal
    currency: str

    def show(self, reader):
        whole = self.value == self.value.to_integral_value()
        number = str(self.value.quantize(Decimal(1)) if whole else self.value)
        return f"{figure(number, reader.language)} {self.currency}"


@dataclass(frozen=True)
class Between:
    """A range of plain numbers with a unit: "0.8-1.4 m3"; one number where both print the same."""

    low: float
    high: float
    unit: str = ""
    digits: int = 1

    def show(self, reader):
        low, high = plain(self.low, self.digits), plain(self.high, self.digits)
        return measured(low if low == high else f"{low}-{high}", self.unit, reader.language)


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
        return measured(plain(from_si(self.value_pa, "cmH2O"), self.digits), "cm water", reader.language)


@dataclass(frozen=True)
class Local:
    """What the programme itself says, in the reader's language where it has that."""

    text: str
    others: dict

    def show(self, reader):
        return self.others.get(reader.language, self.text)


@dataclass(frozen=True)
class Clock:
    """A moment, in the site's time: the hour if it is today there, else weekday, day and hour."""

    at: datetime
    now: datetime | None = None

    def show(self, reader):
        local = self.at.astimezone(ZoneInfo(reader.zone))
        today = self.now is not None and self.now.astimezone(ZoneInfo(reader.zone)).date() == local.date()
        return local.strftime("%H:%M") if today else moment(MOMENT, local, reader.language)


@dataclass(frozen=True)
class Day:
    """A day, in the site's time, with its weekday."""

    at: datetime

    def show(self, reader):
        return moment(DAY, self.at.astimezone(ZoneInfo(reader.zone)), reader.language)


@dataclass(frozen=True)
class Dated:
    """A day of the calendar with its year, for what may be long ago."""

    on: date

    def show(self, reader):
        return moment(DATE, self.on, reader.language)
