"""Texts nobody meant: the reader never fails, and puts no number into a reading that the text does not hold."""

import random
import re
from functools import cache
from itertools import permutations

import pytest

from bot.forms import Confirm, Understood
from bot.kinds import KINDS
from bot.reading import score
from bot.reading.clean import LONGEST, clean
from bot.reading.label import label
from bot.reading.read import read
from bot.reading.things import Hints
from bot.reading.words import vocabulary
from tests.conftest import ROOT

SEED, TEXTS = 20260302, 2000
HINTS = Hints(frozenset({"TB07", "KV12"}), frozenset({"bholu"}), 50.0, {"bucket": 10.0, "barrow": 65.0, "trolley": 2832.0})
ODD = (
    "9**9**9 m", "nan m", "inf cm", "-inf", "1e3 cm", "1_0 cm", "-5 cm", "0x10 m", "1e400 m", "9" * 2000, "99999999999999999999 cm",
    "1/0 m", "0/0", "1:0", "1:2:3:4:5:6:7", "½", "1½ m", "10² cm", "m³ 5", "Ⅷ m", "㎝ 5", "①", "٣٫٥ m", "१.९ मीटर", "𝟗 m", "\u200b",
    "\ufeff", "\x00", "%s %d {} {0}", "'; drop table entry; --", "<b>pit</b>", "\\x00", "🙂" * 50, "d " * 200, "w h d " * 60 + "5",
    "1 " * 400, "1," * 300, "." * 300, "a" * 2000, "pit " + "1.9 3.1 " * 40, "not " * 100, "and half " * 80, "one hundred " * 60,
    "point " * 90 + "5", "ft in soot " * 40 + "6",
)  # fmt: skip
RANGES = ((32, 127), (0x80, 0x250), (0x600, 0x700), (0x900, 0x980), (0x2000, 0x2100), (0x1F300, 0x1F700), (0, 0xD800))


def letters(chance, length):
    return "".join(chr(chance.randrange(*chance.choice(RANGES))) for _ in range(length))


def number(chance):
    return chance.choice([str(chance.randrange(400)), f"{chance.uniform(0, 400):.2f}", f"{chance.randrange(9)},{chance.randrange(99)}"])


def mutated(chance, text):
    """A text with a few letters put in, taken out or changed."""
    out = list(text)
    for _ in range(chance.randrange(1, 6)):
        at = chance.randrange(len(out) + 1)
        out[at : at + chance.randrange(2)] = chance.choice([letters(chance, 1), chr(chance.randrange(0x30, 0x3A)), " ", ""])
    return "".join(out)


def texts(seed, count):
    """Random letters, words and numbers of the lists in any order, odd pieces beside messages, messages damaged and joined."""
    chance = random.Random(seed)
    known = [row.text for name in ("messages.tsv", "messages_own.tsv") for row in score.rows(ROOT / "tests" / name)]
    phrases = sorted(" ".join(phrase) for phrase in vocabulary().phrases)
    makers = (
        lambda: letters(chance, chance.choice((5, 20, 60, 160, LONGEST, 2000))),
        lambda: " ".join(chance.choice((chance.choice(phrases), number(chance))) for _ in range(chance.choice((2, 4, 8, 20, 60)))),
        lambda: f"{chance.choice(ODD)} {chance.choice(known)}",
        lambda: f"{chance.choice(known)} {chance.choice(known)}",
        *[lambda: mutated(chance, chance.choice(known))] * 4,
    )
    yield from ODD
    for _ in range(count - len(ODD)):
        yield chance.choice(makers)()


@pytest.fixture(scope="module")
def outcomes():
    """(text, outcome) of every text."""
    words = vocabulary()
    return [(text, read(text, KINDS, words, HINTS)) for text in texts(SEED, TEXTS)]


def test_every_text_is_read_and_told(outcomes):
    assert len(outcomes) == TEXTS
    told = [label(outcome)["outcome"] for _, outcome in outcomes]
    assert set(told) == {"parse", "infer", "ask", "confirm", "unread"}
    assert sum(each in ("parse", "infer") for each in told) > TEXTS / 8  # the texts are not all nonsense


def test_a_text_too_long_is_not_stored(outcomes):
    long = [outcome for text, outcome in outcomes if len(text) > LONGEST]
    assert long and not any(isinstance(outcome, Understood | Confirm) for outcome in long)


# ---- no number from nowhere

LENGTHS = (1, 0.01, 0.001, 0.3048, 0.0254, 0.003175)
AMOUNTS = (98.0665, 9806.65, 100000, 100, 1000, 0.001, 24, 1 / 60, 7, 50, 1 / 50, 2, 5000, 0.065, 0.01, 2.832, 2.8317, 0.3048**3, 0.3048**2)
STEPS = {"half": 0.5, "plus_half": 0.5, "quarter": 0.25, "plus_quarter": 0.25, "three_quarters": 0.75, "minus_quarter": -0.25}
STEPS |= {"less_quarter": -0.25}
SAID = {"one_and_half": 1.5, "two_and_half": 2.5}
FREE = {"site", "sent", "name", "role", "reason", "ratio", "rule", "entry"}  # the sender's own text, not a number


@cache
def said():
    """Phrase -> the numbers, or the parts of a number, that it may say."""
    found = {}
    for phrase, tags in vocabulary().phrases.items():
        for section, _, name in (tag.partition(".") for tag in tags):
            if section in ("number", "order"):
                found.setdefault(" ".join(phrase), set()).add(float(name.rstrip("+*x")))
            elif section in ("fraction", "decimal"):
                found.setdefault(" ".join(phrase), set()).add(SAID.get(name, name))
    return found


def written(text):
    """Every number the text may hold: in digits, with point or comma, as a fraction, in words of any list."""
    cleaned = clean(text)
    heard = {each for phrase, tells in said().items() if phrase in cleaned for each in tells}
    words, parts = {each for each in heard if isinstance(each, float)}, {each for each in heard if isinstance(each, str)}
    found = {float(each.replace(",", ".")) for each in re.findall(r"\d*[.,]?\d+", cleaned)} | set(map(float, re.findall(r"\d+", cleaned)))
    found |= {float(each.translate(str.maketrans("lo", "10"))) for each in re.findall(r"[lo]\d+", cleaned)}  # deepl85cm
    found |= {float(re.sub("[, ]", "", each)) for each in re.findall(r"\d+(?:,\d{3})+|\b\d\d? \d{3}\b", cleaned)}
    found |= set(map(float, re.findall(r"\d+\.\d+", cleaned)))  # a comma before it parts it from a word
    over_under = {int(over) / int(under) for over, under in re.findall(r"(\d+)/(\d+)", cleaned) if int(under)}
    small = {number for number in words | found if number < 10 and number == int(number)}
    words |= {100 * number for number in words if number < 10} if 100 in words else set()
    words |= {
        first + second
        for first, second in permutations(words, 2)
        if second < 1000 <= first or second < 100 <= first or second < 10 <= first
    }
    times = {12, 100, 1000} & words | ({1000} if re.search(r"\dk", cleaned) else set())
    words |= {number * by for number in words | found for by in times if number < 100}
    if "point" in parts:
        wholes = {number for number in words | found if number < 1000 and number == int(number)}
        words |= {whole + first / 10 + second / 100 for whole in wholes for first in small for second in small | {0}}
    steps = over_under | {STEPS[part] for part in parts if part in STEPS}
    whole = found | words
    return whole | {number + step for number in whole | {0.0} for step in steps}


def reachable(value, numbers):
    """True where a value is one of the numbers in some unit, or a whole and its rest in the next smaller unit."""
    if any(abs(value - number * factor) < 1e-6 * max(1, abs(value)) for number in numbers for factor in LENGTHS + AMOUNTS):
        return True
    whole = [number * unit for number in numbers if number == int(number) for unit in (0.3048, 1, 0.0254)]
    rest = [number * unit for number in numbers for unit in (0.0254, 0.01, 0.003175)]
    left = {round(value - first, 6) for first in whole}
    return any(abs(gap - second) < 1e-5 for gap in left for second in rest) or any(
        abs(gap - second - third) < 1e-5 for gap in left if gap > 0 for second in rest if second < gap for third in rest if third < 0.03
    )


def of_the_clock(value, numbers):
    """True where hours come from two times of day in the text, or one: pm, minutes and the way from one to the other."""
    times = {number for number in numbers if number <= 24} | {number // 100 + number % 100 / 60 for number in numbers}
    times |= {hour + minute / 60 for hour in times for minute in numbers if minute < 60}
    return any(abs((value - end + start + 6) % 12 - 6) < 1e-6 for end in times for start in times | {0.0})


def numbers_of(form):
    for name, value in form.fields.items():
        for each in value if isinstance(value, tuple | list) else (value,):
            if name not in FREE and isinstance(each, int | float) and not isinstance(each, bool):
                yield name, each


def told(outcome):
    """The (field, number) pairs an outcome would store."""
    forms = outcome.forms if isinstance(outcome, Understood) else (outcome.form,) if isinstance(outcome, Confirm) else ()
    return [pair for form in forms for pair in numbers_of(form)]


def from_nowhere(text, pairs):
    """The pairs whose number the text does not hold."""
    held = written(text) if pairs else ()
    return [(name, value) for name, value in pairs if not _held(name, value, held)]


def _held(name, value, held):
    # "no drop", "nobody", thunder now, no lamp at that time
    nothing = value == 0 and name in ("water_drop_m", "people_in_pit", "thunder_min", "stoves", "lamps", "water_l")
    told_by_clock = name in ("start_h", "hours_h") and of_the_clock(value, held)
    filled = name in ("dung_l", "water_l", "poured_l") and any(value == n * HINTS.litres["bucket"] for n in held)
    heat = name.endswith("temp_c") and any(abs(value - (n - 32) * 5 / 9) < 1e-6 for n in held)  # 77 F; frost has a minus
    return nothing or told_by_clock or filled or heat or reachable(abs(value), held)


def test_no_number_comes_from_nowhere(outcomes):
    pairs = [(text, told(outcome)) for text, outcome in outcomes]
    for text, found in pairs:
        assert not from_nowhere(text, found), text
    assert sum(len(found) for _, found in pairs) > 300


def test_a_number_from_nowhere_would_be_seen():
    held = written("pit depth 6ft2in dia 3,10 m and half a bag")
    assert all(reachable(value, held) for value in (1.8796, 3.1, 0.5))
    assert not any(reachable(value, held) for value in (1.9, 1.87, 31.7, 2.6, 185.3))
