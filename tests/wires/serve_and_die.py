"""`pegline serve`, killed where an update is committed and its offset is not yet written; nothing goes out before that.

Run by test_telegram_restart.py, with the settings in the environment.
"""

import asyncio
import os
import signal
import sys

from bot import __main__
from bot.delivery import Delivery
from bot.serve import Bot


def die(self, account, value):
    os.kill(os.getpid(), signal.SIGKILL)


async def never(self, row):
    await asyncio.Event().wait()


if __name__ == "__main__":
    Bot._write_offset = die
    Delivery._tried = never
    sys.exit(__main__.main(["serve"]))
