"""What every channel hands in and takes out; one file a channel."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True)
class Inbound:
    """One message as the wire gave it."""

    channel: str
    wire_id: str
    sender: str
    text: str
    sent_at: datetime | None = None


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
