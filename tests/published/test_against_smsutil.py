"""How a text is cut into short messages, against smsutil, a library that encodes and splits by GSM 03.38 and UTF-16."""

import smsutil
from hypothesis import example, given
from hypothesis import strategies as st

from bot.letters import cut, segments

ALPHABET = st.sampled_from("abc XYZ019.,:;?!@\u00e9\u00e8\u00e0\u00f9\u00c9\n[]{}^~|\\\u20ac")
OTHER = st.sampled_from("abc 019\u0917\u0921\u094d\u0922\u093e\u00f4\u00e7\u2019\U0001f600")
NAMES = {"GSM-7": "gsm0338", "UCS-2": "utf_16_be"}


@given(st.text(ALPHABET, min_size=1, max_size=500))
@example("x" * 160)
@example("x" * 161)
@example("x" * 152 + "[" + "x" * 20)
@example("[" * 81)
def test_a_text_of_latin_letters_takes_as_many_messages_cut_at_the_same_places(text):
    agrees(text)


@given(st.text(OTHER, min_size=1, max_size=200))
@example("\u0917" * 70)
@example("\u0917" * 71)
@example("\u0917" * 66 + "\U0001f600" + "\u0917" * 20)
def test_a_text_of_other_letters_takes_as_many_messages_cut_at_the_same_places(text):
    agrees(text)


def agrees(text):
    theirs = smsutil.split(text)
    count, alphabet = segments(text)
    assert (count, NAMES[alphabet]) == (len(theirs.parts), theirs.encoding)
    if count > 1:
        assert cut(text) == [part.content for part in theirs.parts]
