"""Timers: what is to happen at a moment unless it is called off before. `outbox.arm` and `outbox.disarm` set them.

The row of `timer` is the truth, the engine only the alarm clock: a timer goes from armed to fired once, in the
transaction that does what it is for, and a timer called off is not armed any more. One that repeats is the same row
under its next generation.
"""

import logging
from datetime import timedelta

from bot.outbox import set_again

log = logging.getLogger("pegline")
TRIED = timedelta(hours=24)  # how long a timer whose work fails is tried again


class Timers:
    """The timers of a book. `rings` says what each kind does: (page, row, now) -> the moment it rings next, or None.

    `errands` are kinds with work outside the transaction, done before it and perhaps more than once: now -> None.
    """

    def __init__(self, book, clock, rings, errands):
        self.book, self._clock, self._rings, self._errands = book, clock, rings, errands

    async def fire(self, timer_id, gen):
        """Let one generation of a timer ring; return what became of it."""
        from bot.engine import surely  # a process that only answers in the terminal loads no engine

        return await surely(self.ring, timer_id, gen)

    def ring(self, timer_id, gen):
        """Let one generation of a timer ring at once, where its moment has come; return what became of it."""
        now = self._clock()
        with self.book.page(write=False) as page:
            row = page.timer(timer_id)
        if row is None or (row["state"], row["gen"]) != ("armed", gen):
            return "over"
        try:
            if row["due"] <= now and row["kind"] in self._errands:
                self._errands[row["kind"]](now)
            with self.book.page() as page:
                return self._ring(page, timer_id, gen, now)
        except Exception:
            if now - row["due"] < TRIED:
                raise
            log.exception("timer %s %s is given up", row["kind"], timer_id)
            with self.book.page() as page:
                page.fire(timer_id, gen, "failed")
            return "failed"

    def _ring(self, page, timer_id, gen, now):
        row = page.fire(timer_id, gen, "fired")
        if row is None:
            return "over"
        if row["due"] > now:  # the clock was set back since: it rings at its moment, not before
            set_again(page, row, row["due"])
            return "early"
        due = self._rings[row["kind"]](page, row, now)
        if due is not None:
            set_again(page, row, due)
        return "fired"


def ring_due(book, rings, until):
    """Ring all that is due up to a moment, each at its own, in a process without an engine."""
    while True:
        with book.page(write=False) as page:
            row = page.next_timer(until, tuple(rings))
        if row is None:
            return
        Timers(book, lambda at=row["due"]: at, rings, {}).ring(row["id"], row["gen"])


def adopt(page):
    """Give the engine the timers that were armed by a process without one."""
    for row in page.unset_timers():
        set_again(page, row, row["due"])
