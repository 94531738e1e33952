"""Numbers said in words, against the rules by which Unicode spells them out.

The words are those of the Unicode CLDR 42 rules of number spelling (RBNF, %spellout-cardinal), printed by ICU 72.1 for English, French,
Hindi and Swahili: 1 to 199, and from there every 25th below 400. https://cldr.unicode.org, open data under the Unicode licence.
"""

from pathlib import Path

import pytest

from bot.forms import Confirm, Understood
from bot.kinds import KINDS
from bot.reading.read import read
from bot.reading.words import vocabulary

SAID = {
    "en": "pit depth {} cm",
    "fr": "profondeur fosse {} centimetres",
    "hi": "\u0917\u0939\u0930\u093e\u0908 {} \u0938\u0947\u092e\u0940",
    "sw": "kina cha shimo sentimita {}",
}
ROWS = [line.split("\t") for line in Path(__file__).with_name("number_words_cldr.tsv").read_text(encoding="utf-8").splitlines()[1:]]


@pytest.mark.parametrize("language", SAID)
def test_a_number_in_words_is_the_number(language):
    rows = [(int(number), words) for code, number, words in ROWS if code == language]
    assert len(rows) == 207
    for number, words in rows:
        outcome = read(SAID[language].format(words), KINDS, vocabulary())
        form = outcome.form if isinstance(outcome, Confirm) else outcome.forms[0] if isinstance(outcome, Understood) else None
        assert form is not None, words  # out of range it is asked about, with the number that was heard
        assert form.get("pit_depth_m") == pytest.approx((number / 100,)), words
