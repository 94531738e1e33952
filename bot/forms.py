"""The shapes a message takes on its way: read into forms, answered with entries and texts. Frozen, plain values."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from bot.people import Person
from bot.phrases import Text


@dataclass(frozen=True)
class Form:
    """What one part of a message says: its kind, the fields by name (SI, unit in the name), what was inferred."""

    kind: str
    fields: dict = field(default_factory=dict)
    inferred: tuple = ()
    feet: bool = False  # the sender wrote feet or inches, so the echo shows them

    def get(self, name, default=None):
        """The value of a field, or `default` where the message does not carry it."""
        return self.fields.get(name, default)


@dataclass(frozen=True)
class Understood:
    """A message that can be answered: one form or two. `alarm` are the dangers heard, `place` where."""

    forms: tuple
    alarm: tuple = ()
    place: str | None = None
    site: str | None = None


@dataclass(frozen=True)
class Ask:
    """A message with more than one reading, or with something missing: nothing is stored, one question goes back.

    `code` names the question (see questions.py), `values` fills it, `options` are the rival forms where there are
    two, `kind` is the kind that will take the answer.
    """

    kind: str | None
    code: str
    values: dict = field(default_factory=dict)
    options: tuple = ()
    alarm: tuple = ()
    place: str | None = None
    site: str | None = None


@dataclass(frozen=True)
class Confirm:
    """A message that says something out of range, or changes an old number: nothing happens until it is confirmed."""

    form: Form
    code: str
    values: dict = field(default_factory=dict)
    likely: Form | None = None  # what was probably meant; a plain yes takes it
    alarm: tuple = ()
    place: str | None = None
    site: str | None = None


@dataclass(frozen=True)
class Unread:
    """A message that was not understood; a danger in it was heard all the same."""

    alarm: tuple = ()
    place: str | None = None
    site: str | None = None


@dataclass(frozen=True)
class Entry:
    """One line for the site log. `cautions` are the rules whose warning was given with it, `held` all that held."""

    kind: str
    fields: dict = field(default_factory=dict)
    verdict: str | None = None
    cautions: tuple = ()
    refers: int | None = None  # the entry it corrects, undoes or releases
    held: tuple = ()


NOW, SIGN, COUNT = "now", "sign", "count"


@dataclass(frozen=True)
class Alert:
    """A text for others than the sender: everybody who holds a role at the site, or at another one."""

    role: str
    text: Text
    site: str | None = None
    apart: bool = False  # not for those who write from the sender's number: they read the answer
    grade: str = ""  # NOW must be answered, SIGN waits for a release, COUNT is one of many; else it is only told


@dataclass(frozen=True)
class Code:
    """A one-time code that is given out: what for, its digits, how long it is good, and what it brings."""

    purpose: str
    digits: str
    lasts: timedelta
    role: str | None = None
    text: str | None = None
    alone: bool = True  # takes the place of an older one


@dataclass(frozen=True)
class Answer:
    """What a kind says to a form: a reply, entries for the log, alerts; data only."""

    reply: Text | None = None
    entries: tuple = ()
    alerts: tuple = ()
    then: Text | None = None  # a second message, for what must wait behind a STOP
    changes: tuple = ()  # settings of the sender or new roles: (what, value) pairs that the road writes down
    question: Ask | None = None  # what a short answer may be given to: kept open, its words are in the reply
    paper: str | None = None  # the picture or document that goes along where the channel carries files, by its name
    without: Text = Text()  # said where the channel carries none


@dataclass(frozen=True)
class Field:
    """One reading a kind takes: its name, the words for it, and the range in which it is physically possible (SI).

    A text that names no field can fill it only if `bare`; `many` readings may be given at once.
    """

    name: str
    words: tuple
    low: float
    high: float
    kind: str = "length"
    many: bool = False
    bare: bool = False
    usual: tuple | None = None  # a number with a point and no unit is looked for here
    believed: float | None = None  # a reading under its range is kept down to this, if its number is sent again


@dataclass(frozen=True, eq=False)
class Kind:
    """A message kind: how it is recognised, what it takes, who may send it, and how it is answered. It equals itself alone."""

    name: str
    about: Text
    example: Text
    cues: tuple
    answer: Callable
    grammar: str = "words"
    fields: tuple = ()
    roles: tuple = ("mason", "supervisor")
    needs_site: bool = True
    fits: Callable | None = None  # fields -> False where two readings cannot both be true
    hears: dict = field(default_factory=dict)  # dangers it answers itself, by the rule that must hold then, or None
    needs: tuple = ()  # (field, question) pairs: without the field that question goes back
    beyond: Callable | None = None  # (form, site, sender, now) -> Answer at once to what would be asked about, or None to ask
    codes: str | None = None  # the purpose of the one-time codes it takes or gives out
    proof: bool = False  # recorded only from a sender that is proven, by his wire or by a code sent to his number
    ways: bool = False  # wants to know by which numbers and chats somebody is reached
    settle: Callable | None = None  # (options, site) -> the one to keep, where both lead to the same verdict
    book: str | None = None  # what the book knows is put into its form: "cases" of the site, "looks" at all sites, "rush"
    across: str | None = None  # wants more than one site: "sites", all whose supervisor the sender is, or "codes", of all there are
    private: bool = False  # a decision on a hold or on people: not where others read along


@dataclass(frozen=True)
class Asked:
    """An open question: what was asked, about which kind, with which rival forms, since when, about which text."""

    kind: str | None
    code: str
    options: tuple
    at: datetime
    text: str  # the message that was asked about


@dataclass(frozen=True)
class Sender:
    """Who wrote, by which number, and with what standing at the site in question."""

    person: Person | None
    number: str
    roles: frozenset = frozenset()
    overheard: bool = False  # others read along
    beside: frozenset = frozenset()  # ids of the others who write from this number
    language: str = "en"  # of what a stranger writes

    @property
    def name(self):
        """The name, empty for a stranger."""
        return self.person.name if self.person else ""
