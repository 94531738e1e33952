"""`pegline serve` with its clock as far from the machine's as a file says, in seconds; the file may change while it runs.

Forked by tests that tell of weeks, with the settings and the file's path in the environment.
"""

import os
from datetime import datetime, timedelta
from pathlib import Path

from bot import __main__


class Moved(datetime):
    @classmethod
    def now(cls, tz=None):
        return datetime.now(tz) + timedelta(seconds=float(Path(os.environ["CLOCK_APART"]).read_text()))


def main(words):
    __main__.datetime = Moved
    return __main__.main(words)
