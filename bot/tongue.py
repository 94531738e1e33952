"""How a language says things: its catalogue of sentences, its plurals, its decimal sign, where it puts a unit.

The one reader of the catalogues. What a language has no words for is said in English, and counted.
"""

import gettext
from collections import Counter
from decimal import Decimal
from functools import cache
from io import BytesIO
from pathlib import Path

from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po
from babel.plural import PluralRule

LOCALE = Path(__file__).parent / "locale"
LANGUAGES = ("en", "sw", "hi", "hi-Latn", "fr")
NEXT = {"hi": "hi-Latn"}  # whoever reads a script that takes too many messages is answered in Latin letters
COMMA = frozenset({"fr"})  # writes 1,83
untranslated = Counter()  # language -> sentences said in English instead
lengthy = Counter()  # language -> texts said in another one, for they take too many messages


def N_(*forms):  # noqa: N802 the mark by which the catalogue finds them
    """Return a pattern, or its forms for one and for many, as it is: the catalogue has it."""
    return forms[0] if len(forms) == 1 else forms


UNITS = {
    "m": N_("%(n)s m"),
    "cm": N_("%(n)s cm"),
    "mm": N_("%(n)s mm"),
    "ft": N_("%(n)s ft"),
    "in": N_("%(n)s in"),
    "l": N_("%(n)s l"),
    "ml": N_("%(n)s ml"),
    "m3": N_("%(n)s m3"),
    "m3/h": N_("%(n)s m3/h"),
    "kg": N_("%(n)s kg"),
    "h": N_("%(n)s h"),
    "min": N_("%(n)s min"),
    "C": N_("%(n)s C"),
    "cm water": N_("%(n)s cm water"),
}
COUNTED = {
    "bags": N_("%(n)s bag", "%(n)s bags"),
    "barrows": N_("%(n)s barrow", "%(n)s barrows"),
    "boxes": N_("%(n)s box", "%(n)s boxes"),
    "brass": N_("%(n)s brass", "%(n)s brass"),
    "buckets": N_("%(n)s bucket", "%(n)s buckets"),
    "carts": N_("%(n)s cart", "%(n)s carts"),
    "days": N_("%(n)s day", "%(n)s days"),
    "debes": N_("%(n)s debe", "%(n)s debes"),
    "jerrycans": N_("%(n)s jerrycan", "%(n)s jerrycans"),
    "mixings": N_("%(n)s mixing", "%(n)s mixings"),
    "pans": N_("%(n)s pan", "%(n)s pans"),
    "person-days": N_("%(n)s person-day", "%(n)s person-days"),
    "piece": N_("%(n)s piece", "%(n)s pieces"),
    "places": N_("%(n)s place", "%(n)s places"),
    "tins": N_("%(n)s tin", "%(n)s tins"),
    "tippers": N_("%(n)s tipper", "%(n)s tippers"),
    "trolleys": N_("%(n)s trolley", "%(n)s trolleys"),
}
WEEKDAYS = (N_("Mon"), N_("Tue"), N_("Wed"), N_("Thu"), N_("Fri"), N_("Sat"), N_("Sun"))
MONTHS = (
    N_("Jan"), N_("Feb"), N_("Mar"), N_("Apr"), N_("May"), N_("Jun"), N_("Jul"), N_("Aug"), N_("Sep"), N_("Oct"), N_("Nov"), N_("Dec"),
)  # fmt: skip
MOMENT, DAY, DATE = (
    N_("%(weekday)s %(day)s %(month)s %(time)s"),
    N_("%(weekday)s %(day)s %(month)s"),
    N_("%(day)s %(month)s %(year)s"),
)


class _English(gettext.NullTranslations):
    """What stands in for a sentence that a language lacks."""

    def __init__(self, language):
        super().__init__()
        self._language = language

    def gettext(self, message):
        untranslated[self._language] += 1
        return message

    def ngettext(self, one, many, n):
        untranslated[self._language] += 1
        return one if n == 1 else many


@cache
def catalogue(language):
    """The catalogue of a language: read from its text, so that none is older than what it was made of."""
    path = LOCALE / language.replace("-", "_") / "LC_MESSAGES" / "messages.po"
    if not path.exists():  # English is what all is written in
        return gettext.NullTranslations()
    made = BytesIO()
    with path.open("rb") as file:
        write_mo(made, read_po(file))
    made.seek(0)
    found = gettext.GNUTranslations(made)
    found.add_fallback(_English(language))
    return found


def sentence(text, language):
    """Return a sentence in a language; under the empty one a catalogue keeps its own head."""
    return catalogue(language).gettext(text) if text else ""


def chain(language):
    """The languages in which somebody may be answered, the best first."""
    return tuple(dict.fromkeys((language, NEXT.get(language, "en"), "en")))


def figure(text, language):
    """Return digits as a language writes them."""
    return text.replace(", ", " / ").replace(".", ",") if language in COMMA else text


# of one thing, as CLDR 44 has it for each language; Babel's own tables of all the world would take four megabytes
_WHOLE_ONE, _NEARLY_ONE = {"one": "i = 1 and v = 0"}, {"one": "i = 0 or n = 1"}
_ONE = {"en": _WHOLE_ONE, "sw": _WHOLE_ONE, "fr": {"one": "i = 0,1"}, "hi": _NEARLY_ONE, "hi-Latn": _NEARLY_ONE}


@cache
def _plural(language):
    return PluralRule(_ONE.get(language, _WHOLE_ONE))


def measured(number, unit, language):
    """Return a number, or several, with a unit or a counted thing, in the order of the language: "5 cm", "sm 5", "1 bag"."""
    number = str(number)
    written = figure(number, language)
    if unit in COUNTED:
        many = not number.replace(".", "", 1).isdigit() or _plural(language)(Decimal(number)) != "one"
        return catalogue(language).ngettext(*COUNTED[unit], 2 if many else 1) % {"n": written}
    if unit in UNITS:
        return sentence(UNITS[unit], language) % {"n": written}
    return f"{written} {unit}" if unit else written


def moment(pattern, local, language):
    """Return a local time by MOMENT, DAY or DATE."""
    named = {"weekday": WEEKDAYS[local.weekday()] if "weekday" in pattern else "", "month": MONTHS[local.month - 1]}
    told = {name: sentence(text, language) if text else "" for name, text in named.items()}
    told |= {"day": f"{local.day:02}", "year": local.year, "time": local.strftime("%H:%M")}
    return sentence(pattern, language) % told
