"""Lengths as they are read off a tape: to the millimetre or the eighth of an inch, bounds, distances, tables."""

from dataclasses import dataclass
from math import ceil, floor

from bot.phrases import feet_inches, little, plain
from bot.tongue import N_, figure, measured, sentence
from calc.units import from_si, si

EIGHTH_M, INCH_M = si(0.125, "in"), si(1, "in")


@dataclass(frozen=True)
class Fine:
    """One length [m] to the millimetre: in cm with a decimal, or in mm; readers of feet get eighths of an inch."""

    value_m: float
    unit: str = "cm"

    def show(self, reader):
        feet = reader.units == "feet"
        if 0 < abs(self.value_m) < (EIGHTH_M / 2 if feet else 0.0005):
            return little(reader, feet)
        if feet:
            return feet_inches(self.value_m, reader.language)
        return measured(plain(from_si(self.value_m, self.unit), int(self.unit == "cm")), self.unit, reader.language)


@dataclass(frozen=True)
class Bound:
    """The most that something may be [m], in one form; never rounded up, so that what is printed is within."""

    value_m: float

    def show(self, reader):
        if reader.units == "feet" and self.value_m >= EIGHTH_M:
            return feet_inches(floor(self.value_m / EIGHTH_M + 1e-6) * EIGHTH_M, reader.language)
        millimetres = floor(self.value_m * 1000 + 1e-6)
        number, unit = (str(millimetres), "mm") if reader.units == "feet" else (plain(millimetres / 10, 1), "cm")
        return measured(number, unit, reader.language)


@dataclass(frozen=True)
class Far:
    """A distance at the site [m]: in metres, for readers of feet in both."""

    value_m: float
    feet: bool = False

    def show(self, reader):
        metres = measured(plain(self.value_m, 2), "m", reader.language)
        if not (self.feet or reader.units == "feet"):
            return metres
        near = feet_inches(round(self.value_m / INCH_M) * INCH_M if self.value_m >= 3 else self.value_m, reader.language)
        return near if reader.brief else f"{metres} ({near})"


@dataclass(frozen=True)
class FarBound:
    """The `least` or the most that a distance may be [m]: in metres, or in whole feet on its own side."""

    value_m: float
    least: bool

    def show(self, reader):
        if reader.units == "feet":
            feet = from_si(self.value_m, "ft")
            return measured(ceil(feet - 1e-6) if self.least else floor(feet + 1e-6), "ft", reader.language)
        return measured(plain(self.value_m, 2), "m", reader.language)


@dataclass(frozen=True)
class Mark:
    """One length [m] of a table whose head names the unit: a bare number of cm, or of inches and eighths."""

    value_m: float
    digits: int = 1

    def show(self, reader):
        if reader.units == "feet":
            return _inches(self.value_m)
        return figure(plain(from_si(self.value_m, "cm"), self.digits), reader.language)


def _inches(value_m):
    """Inches with eighths, however many: 1.27 m -> "50"."""
    eighths = round(abs(value_m) / EIGHTH_M)
    whole, part = divmod(eighths, 8)
    fraction = feet_inches(part * EIGHTH_M).removesuffix(" in") if part else ""
    sign = "-" if value_m < 0 and eighths else ""
    return sign + " ".join(piece for piece in (str(whole) if whole or not fraction else "", fraction) if piece)


@dataclass(frozen=True)
class TapeUnit:
    """The unit in which a table of Marks stands."""

    def show(self, reader):
        return sentence(N_("inches") if reader.units == "feet" else N_("cm"), reader.language)
