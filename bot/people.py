"""People, their roles, and who may send what."""

import re
import unicodedata
from dataclasses import dataclass

ROLES = ("mason", "supervisor", "farmer", "deputy", "head")
OFFICE = ("supervisor", "deputy", "head")  # who answers alarms, in the order in which they hear of one
MOST = 5  # people on one number: the question who writes has room for few
OFF = "off:"  # before the id of somebody whose last number was taken off: nothing reaches him


@dataclass(frozen=True)
class Person:
    """Somebody known: name, the language and units he reads, and where he stands (site code -> roles)."""

    id: int
    name: str
    short: str
    number: str
    language: str = "en"
    units: str = "metric"
    roles: tuple = ()  # of (site code, role)

    def at(self, code):
        """The roles this person holds at a site."""
        return frozenset(role for site, role in self.roles if site == code)

    @property
    def sites(self):
        """The codes of the sites where this person stands, in order."""
        return tuple(dict.fromkeys(code for code, _ in self.roles))


def channel_of(number):
    """The channel a number or chat belongs to."""
    return "telegram" if number.startswith("tg:") else "sms"


def called(name):
    """The words of a name as they are compared: small letters, no accents, no marks."""
    plain = "".join(char for char in unicodedata.normalize("NFD", name) if not unicodedata.combining(char))
    return tuple(re.findall(r"[^\W_]+", plain.casefold()))


def same_name(one, other):
    """True where two names may be one person's: the same first word, and all words of the one in the other."""
    one, other = called(one), called(other)
    return one[:1] == other[:1] and (set(one) <= set(other) or set(other) <= set(one))


def may_send(roles, kind_roles):
    """True if one of the sender's roles at the site may send this kind; an empty tuple means anybody known."""
    return not kind_roles or bool(set(roles) & set(kind_roles))
