"""The commands a channel may offer: kinds that answer their name alone, and by that change nothing."""

from bot.kinds import BY_NAME
from bot.phrases import Reader, word

NAMES = (
    "help", "status", "today", "plan", "mix", "size", "stock", "buy", "cost", "levels", "feed", "record", "assumed", "why", "lang", "units",
)  # fmt: skip


def menu():
    """(name, what it does) of each, in English."""
    return tuple((name, word(BY_NAME[name].about, Reader())) for name in NAMES)
