"""What a book keeps at hand between its pages: what it read that can only have grown since.

It was committed when it was read; how far the book has grown is asked afresh on every page.
"""

import threading
from collections import OrderedDict

ENTRIES = 3000  # entries of logs at hand, of the sites heard of last: some three megabytes


class Shelf:
    """One for a book, for all its threads."""

    def __init__(self):
        self._things, self._logs, self._entries = {}, OrderedDict(), 0
        self._lock = threading.Lock()

    def thing(self, name, edition):
        """What was kept under a name at this edition of the book, or None."""
        kept = self._things.get(name)
        return kept[1] if kept and kept[0] == edition else None

    def keep(self, name, edition, thing):
        """Keep something for as long as the edition is the same."""
        self._things[name] = (edition, thing)

    def log(self, code, edition):
        """The entries of a site that were read before, in order."""
        with self._lock:
            kept = self._logs.get(code)
            if kept is None or kept[0] != edition:
                return ()
            self._logs.move_to_end(code)
            return kept[1]

    def keep_log(self, code, edition, log):
        """Keep the entries of a site; those of the sites heard of longest ago give way."""
        with self._lock:
            before = self._logs.pop(code, (None, ()))
            self._logs[code] = (edition, log)
            self._entries += len(log) - len(before[1])
            while self._entries > ENTRIES and len(self._logs) > 1:
                _, (_, gone) = self._logs.popitem(last=False)
                self._entries -= len(gone)
