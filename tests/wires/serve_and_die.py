"""`pegline serve`, killed where an update is committed and its offset is not yet written; nothing goes out before that.

Forked by test_telegram_restart.py, with the settings in the environment.
"""

import asyncio
import os
import signal

from bot import __main__
from bot.delivery import Delivery
from bot.serve import Bot


def die(self, account, value):
    os.kill(os.getpid(), signal.SIGKILL)


async def never(self, row):
    await asyncio.Event().wait()


def main(words):
    Bot._write_offset = die
    Delivery._tried = never
    return __main__.main(words)
