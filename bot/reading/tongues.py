"""In which language somebody writes, by the words that only one language has."""

from collections import Counter

from bot.reading.clean import clean
from bot.reading.words import tag

LATIN = {"hi": "hi-Latn"}  # a language with a script of its own, written in Latin letters


def spoken(text, words):
    """The language most of the words of a text are of, or None where none of them tells or two are as strong."""
    cleaned = clean(text)
    told = Counter(words.spoken.get(tuple(item.text.split())) for item in tag(cleaned, words, mend=False) if item.sort == "word")
    told.pop(None, None)
    best = told.most_common(2)
    if not best or len(best) == 2 and best[0][1] == best[1][1]:
        return None
    code = best[0][0]
    return LATIN.get(code, code) if cleaned.isascii() else code
