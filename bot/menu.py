"""The commands a channel may offer: kinds that answer their name alone, and by that change nothing."""

import re
import tomllib
from pathlib import Path

from bot.kinds import BY_NAME, KINDS
from bot.phrases import Reader, word
from bot.reading.label import label
from bot.reading.read import read
from bot.reading.words import vocabulary

NAMES = (
    "help", "status", "today", "plan", "draw", "mix", "size", "stock", "buy", "cost", "levels", "feed", "record", "assumed", "why", "lang",
    "units",
)  # fmt: skip
WORDS = Path(__file__).parent / "words"
_COMMAND = re.compile(r"[a-z0-9_]{1,32}")


def menu(language="en", words=None):
    """(name, what it does) of each: called by a word of a language where it has one that is read the same, else by the English one."""
    book = tomllib.loads((WORDS / f"{language}.toml").read_text(encoding="utf-8"))
    made = {}
    for name in NAMES:
        called = next((each for each in _called(name, book, words or vocabulary()) if each not in made), name)
        made[called] = word(BY_NAME[name].about, Reader(language=language))
    return tuple(made.items())


def menus(words):
    """The menu for everybody under None, and under the code of each language that has words of its own."""
    return {None: menu(words=words)} | {code: menu(code, words) for code in words.languages if code != "en"}


def _called(name, book, words):
    """The words of a language for what an English name says, as commands."""
    if book["code"] == "en":
        return
    meant = label(read(name, KINDS, words))
    for tag in sorted(words.phrases.get((name,), ())):
        section, _, concept = tag.partition(".")
        for phrase in book.get(section, {}).get(concept, ()):
            command = phrase.replace(" ", "_")
            if _COMMAND.fullmatch(command) and label(read(phrase, KINDS, words)) == meant:
                yield command
