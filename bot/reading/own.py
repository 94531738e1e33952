"""The vocabulary with what a programme adds to it."""

from bot.reading.words import vocabulary


def added(words, told):
    """Return the words, with the programme's own words of danger where it has some: rows of language, danger, phrase."""
    return vocabulary(own=tuple(map(tuple, told))) if told else words
