"""The terminal as a channel: a text goes in under a sender's number, what is queued for it is printed."""

import json
from uuid import uuid4

from bot.channels import Inbound, Outbound

NAME = "terminal"


def inbound(sender, text, sent_at, wire_id=None):
    """One message typed here."""
    return Inbound(NAME, wire_id or uuid4().hex, sender, text, sent_at)


def outgoing(page, wire_id):
    """Take the texts queued for a message, and mark them printed."""
    return _printed(page, page.queued(NAME, wire_id))


def unasked(page):
    """Take the texts queued because a timer rang, and mark them printed."""
    return _printed(page, page.queued_by_timers())


def _printed(page, rows):
    page.mark([row["id"] for row in rows], "printed")
    named = ("role", "channel", "text", "segments", "encoding", "due")
    return tuple(Outbound(row["number"], *(row[name] for name in named)) for row in rows)


def as_json(sent):
    """One text as one JSON object on a line."""
    row = {"to": sent.to, "role": sent.role, "channel": sent.channel, "text": sent.text}
    row |= {"segments": sent.segments, "encoding": sent.encoding, "due": sent.due.isoformat()}
    return json.dumps(row, ensure_ascii=False)


def as_line(sent, name):
    """One text as it is read in the terminal."""
    count = f"{sent.segments} SMS" if sent.segments > 1 else "1 SMS"
    return f"{name} < {sent.text}   [{count}]"
