"""What every channel hands in and takes out; one file a channel."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True)
class Part:
    """Which piece of a long text a message is: `place` of `total`, counted from 1; `ref` is the sender's mark of that text."""

    receiver: str
    ref: int
    total: int
    place: int


_HALVES, _PRIVATE = 0xD800, 0x10F000  # the 2048 halves of UTF-16 pairs, and where they stand in for themselves


def halves_kept(body):
    """Decode UTF-16 of which a pair may be cut in two: a lone half becomes a private character, until `assembled`."""
    text = body.decode("utf-16-be", "surrogatepass") if len(body) % 2 == 0 else body.decode("utf-16-be", "replace")
    return "".join(chr(ord(char) - _HALVES + _PRIVATE) if 0xD800 <= ord(char) <= 0xDFFF else char for char in text)


def assembled(texts):
    """The pieces of a long text as one text, with the pairs whole that were cut between two of them."""
    text = "".join(chr(ord(char) - _PRIVATE + _HALVES) if _PRIVATE <= ord(char) < _PRIVATE + 0x800 else char for char in "".join(texts))
    return text.encode("utf-16-be", "surrogatepass").decode("utf-16-be", "replace")


@dataclass(frozen=True)
class Inbound:
    """One message as the wire gave it."""

    channel: str
    wire_id: str
    sender: str
    text: str
    sent_at: datetime | None = None
    part: Part | None = None
    mute: bool = False  # from a sender that is never answered: a brand name, a short code
    chat: str | None = None  # where the answer goes, where that is not the sender alone
    proven: bool = True  # the wire vouches for the sender; a number of an SMS can be feigned
    photo: str | None = None  # the name under which the channel keeps a picture that came along
    stamped: bool = False  # sent_at is the network's own, set once for a message however often it is delivered
    edited: bool = False  # a change of a text that came before, which stands
    broken: bool = False  # what came of a long text: it is heard for dangers only
    pressed: int | None = None  # the text of ours whose button was pressed
    files: bool = False  # the channel carries pictures and documents back

    @property
    def back(self):
        """Where the answer goes."""
        return self.chat or self.sender


@dataclass(frozen=True)
class Outbound:
    """One text on its way to somebody."""

    to: str
    role: str
    channel: str
    text: str
    segments: int
    encoding: str
    due: datetime
    id: int = 0
    buttons: tuple = ()  # answers that may be pressed, where the phone can show them
    file: str | None = None  # what goes along, where the channel carries files


# ---- what became of a text that was given to a gateway


@dataclass(frozen=True)
class Sent:
    """The gateway has it, under this id of its own where it gives one."""

    gateway_id: str | None = None


@dataclass(frozen=True)
class Later:
    """It was not taken; again after so many seconds, or as the sender of texts thinks best."""

    why: str
    after_s: float | None = None


@dataclass(frozen=True)
class Refused:
    """It will never be taken."""

    why: str


@dataclass(frozen=True)
class Unsure:
    """It may have been taken: the answer was lost. A receipt may tell."""

    why: str
