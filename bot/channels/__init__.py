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

    def about(self, message):
        """What all the pieces of that text have in common."""
        return f"{message.channel} {message.sender} {self.receiver} {self.ref} {self.total}"


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
    photo: str | None = None  # the name under which the channel keeps a picture that came along
    edited: bool = False  # a change of a text that came before, which stands
    pressed: int | None = None  # the text of ours whose button was pressed

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
