"""`pegline serve` with its clock as far from the machine's as a file says, in seconds; the file may change while it runs.

Run by tests that tell of weeks, with the settings and the file's path in the environment.
"""

import os
import sys
from datetime import datetime, timedelta
from pathlib import Path

from bot import __main__

APART = Path(os.environ["CLOCK_APART"])


class Moved(datetime):
    @classmethod
    def now(cls, tz=None):
        return datetime.now(tz) + timedelta(seconds=float(APART.read_text()))


if __name__ == "__main__":
    __main__.datetime = Moved
    sys.exit(__main__.main(["serve"]))
