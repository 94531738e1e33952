"""A long text cut into its short messages here, and not by the gateway: the mark that joins them is the text's own.

A gateway that was killed counts its marks from the beginning again, and sends what was under way once more: a phone would
join what is left of one text with the end of another. Sent again under its own mark, a text only completes itself.
"""

from bot.letters import cut

MARKS = 256


def pieces(out):
    """(text, user data header) of each short message of a text."""
    if out.segments == 1:
        return ((out.text, b""),)
    parts = cut(out.text)
    return tuple((text, bytes([5, 0, 3, out.id % MARKS, len(parts), place])) for place, text in enumerate(parts, 1))
