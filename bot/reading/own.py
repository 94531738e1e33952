"""The vocabulary with what a programme adds to it."""

from bot.reading.words import vocabulary


def vocabulary_with(told):
    """Return the vocabulary with a programme's own words of danger, if it has some: rows of language, danger, phrase."""
    return vocabulary(own=tuple(map(tuple, told))) if told else vocabulary()


def added(words, told):
    """Return the words, or those with what a programme has told since they were read."""
    return vocabulary_with(told) if told else words
