"""Other ways into `pegline serve`, forked by tests: with less patience for a locked book, with a clock that a file sets."""

import os
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path

from bot import __main__, desk, logbook

BUSY_S = 3


def impatient(words):
    """Waits for a lock of others for BUSY_S instead of half a minute."""
    logbook.BUSY_S = BUSY_S
    return __main__.main(words)


def shifted(words):
    """Its clock is ahead by the seconds in the file that TEST_CLOCK names: that of the bot and that of its engine."""
    path, run, told = Path(os.environ["TEST_CLOCK"]), desk.COMMANDS["serve"], time.time

    def ahead_s():
        return float(path.read_text())

    def clock():
        return datetime.now(UTC) + timedelta(seconds=ahead_s())

    time.time = lambda: told() + ahead_s()
    desk.COMMANDS["serve"] = lambda book, settings, args, _: run(book, settings, args, clock)
    return __main__.main(words)
