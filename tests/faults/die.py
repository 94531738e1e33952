"""A process that takes one message and is killed: in hop 8 before the commit, or right after it.

Forked by test_kill.py with the words URL before|after WIRE_ID NUMBER TEXT.
"""

import os
import signal
from datetime import UTC, datetime

from bot import inbox
from bot.channels import terminal
from bot.logbook import Book
from bot.reading.words import vocabulary


def main(words):
    url, when, wire_id, number, text = words

    def die():
        os.kill(os.getpid(), signal.SIGKILL)

    record = inbox._record

    def recorded_then_killed(*args):
        record(*args)
        die()

    if when == "before":
        inbox._record = recorded_then_killed
    inbox.take(terminal.inbound(number, text, None, wire_id), Book(url), vocabulary(), datetime(2026, 3, 2, 9, tzinfo=UTC))
    die()
