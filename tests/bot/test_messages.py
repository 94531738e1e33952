"""Two sets of labelled messages through the reader: nothing stored that was not meant, no danger missed, few questions."""

import ast
import re
import tomllib
from functools import cache

import pytest

from bot.kinds import KINDS
from bot.logbook import Book
from bot.reading import score
from bot.reading.clean import clean, tokens
from bot.reading.label import label
from bot.reading.read import read
from bot.reading.things import Hints
from bot.reading.words import vocabulary
from tests.conftest import ROOT

SETS = [ROOT / "tests" / "messages.tsv", ROOT / "tests" / "messages_own.tsv"]
WORDS = ROOT / "bot" / "words"
DIGITS = [str.maketrans("0123456789", digits) for digits in ("०१२३४५६७८९", "٠١٢٣٤٥٦٧٨٩", "۰۱۲۳۴۵۶۷۸۹")]
QUOTED = "TB07 #14 PIT: Deep 1.85 m (185 cm): within plan 1.80-1.85 m. Send: pit done."


@pytest.fixture(scope="module")
def reader(demo):
    """reader(text) -> what was understood, with the sites and containers of the demo programme and no site chosen."""
    book = Book(f"sqlite:///{demo}")
    with book.page(write=False) as page:
        rules = page.rules()
        hints = Hints(frozenset(page.codes()), page.names(), rules["bag_kg"], rules["litres"])
    book.engine.dispose()
    return cache(lambda text: label(read(text, KINDS, vocabulary(), hints)))  # several tests ask for the same texts


def of_other_languages():
    """Words that stand in the lists of another language only."""
    phrases = {}
    for path in WORDS.glob("*.toml"):
        book = tomllib.loads(path.read_text(encoding="utf-8"))
        code = book.pop("code")
        phrases[code] = {word for concepts in book.values() for listed in concepts.values() for phrase in listed for word in phrase.split()}
    return set().union(*(words for code, words in phrases.items() if code != "en")) - phrases["en"]


def english(row, others=of_other_languages()):
    return row.text.isascii() and not any(token.text in others for token in tokens(clean(row.text)))


def told(faults):
    return "\n".join(f"{verdict}: {row.text!r} wanted {row.label}" for row, verdict in faults)


@pytest.mark.parametrize("path", SETS, ids=lambda path: path.stem)
def test_nothing_is_stored_that_was_not_meant_and_no_danger_is_missed(path, reader):
    verdicts = [(row, score.judge(row, reader(row.text))) for row in score.rows(path)]
    wrong = [(row, verdict) for row, verdict in verdicts if verdict in score.WRONG]
    assert not wrong, told(wrong)


@pytest.mark.parametrize("path", SETS, ids=lambda path: path.stem)
def test_few_messages_cost_a_turn(path, reader):
    verdicts = [(row, score.judge(row, reader(row.text))) for row in score.rows(path)]
    costly = told([(row, verdict) for row, verdict in verdicts if verdict != "right"])
    assert score.share_right((row, verdict) for row, verdict in verdicts if english(row)) >= 0.98, costly
    assert score.share_right(verdicts) >= 0.95, costly


def test_the_own_set_is_broad():
    held = score.rows(SETS[1])
    assert len({row.text for row in held}) == len(held) >= 260
    assert {row.family for row in score.rows(SETS[0])} < {row.family for row in held}
    assert sum(not english(row) for row in held) >= 60
    assert sum("not_done" in (row.label.get("state"), row.label.get("likely")) for row in held) >= 40


SAME = {  # the same message in another dress
    "small": str.lower,
    "capitals": str.upper,
    "stop behind": lambda text: text + ".",
    "shouted": lambda text: text + "!!",
    "greeting before": lambda text: "Hi boss, " + text,
    "thanks behind": lambda text: text + " thank you sir",
    "two spaces": lambda text: text.replace(" ", "  "),
    "glued": lambda text: re.sub(r"(?<=[a-z]) (?=\d)|(?<=\d) (?=[a-z])", "", text),
    "decimal comma": lambda text: re.sub(r"(?<=\d)\.(?=\d)", ",", text),
    "o for 0": lambda text: re.sub(r"(?<=\d)0", "O", text),
    "other digits": lambda text: text.translate(DIGITS[len(text) % len(DIGITS)]),
    "reply quoted": lambda text: f"{text} > {QUOTED}",
    "reply on its own line": lambda text: f"{text}\n{QUOTED}",
}


@pytest.mark.parametrize("dress", SAME.values(), ids=SAME)
def test_another_dress_does_not_change_what_was_meant(dress, reader):
    every = [row for path in SETS for row in score.rows(path)]
    verdicts = [(row, score.judge(row, reader(dress(row.text)))) for row in every if dress(row.text) != row.text]
    wrong = [(row, verdict) for row, verdict in verdicts if verdict in score.WRONG]
    assert verdicts and not wrong, told(wrong)


DONE = re.compile(r"\b(done|finish|finished|complete|completed)\b", re.IGNORECASE)
DENIED = {
    "not before": lambda text: "not " + text,
    "not behind": lambda text: text + " not",
    "no before": lambda text: "no " + text,
    "not done": lambda text: DONE.sub(r"not \1", text),
    "nt done": lambda text: DONE.sub(r"nt \1", text),
    "nto done": lambda text: DONE.sub(r"nto \1", text),
    "half done": lambda text: DONE.sub(r"half \1", text),
    "almost": lambda text: "almost " + text,
    "will be": lambda text: "will be " + text,
    "if": lambda text: "if " + text,
    "tomorrow": lambda text: text + " tomorrow",
    "asked": lambda text: text + "?",
    "nahi": lambda text: text + " nahi",
    "bado": lambda text: text + " bado",
    "pas": lambda text: text + " pas",
}


@pytest.mark.parametrize("way", DENIED.values(), ids=DENIED)
def test_a_stage_denied_is_never_done(way, reader):
    finished = [row for path in SETS for row in score.rows(path) if row.label.get("state") == "done"]
    for text in (way(row.text) for row in finished if way(row.text) != row.text):
        found = reader(text)
        if found["outcome"] in ("parse", "infer"):
            forms = [found, *found.get("also", ())]
            assert not any(form["fields"].get("state") == "done" for form in forms), text


@pytest.mark.parametrize(
    "label_, got, verdict",
    [
        ("expect=parse; intent=pit; pit_depth_m=1.850", {"pit_depth_m": [1.8504]}, "right"),
        ("expect=parse; intent=pit; pit_depth_m=1.850", {"pit_depth_m": [1.8506]}, "silent_wrong"),
        ("expect=parse; intent=pit; pit_depth_m=1.850", {"pit_dia_m": [1.85]}, "missing"),
        ("expect=parse; intent=base; pit_depth_m=1.850", {"pit_depth_m": [1.85]}, "silent_wrong"),
        ("expect=ask; intent=pit; ask=unit", {"pit_depth_m": [1.85]}, "missed_ask"),
        ("expect=alarm", {"pit_depth_m": [1.85]}, "missed_alarm"),
        ("expect=parse; intent=pit; also=stage=dig,state=done", {}, "missing"),
    ],
)
def test_the_judge_sees_what_is_wrong(label_, got, verdict):
    row = score.Row("pit", "", score.pairs(label_))
    assert score.judge(row, {"outcome": "parse", "intent": "pit", "fields": got, "alarm": []}) == verdict


def test_the_judge_counts_a_question_as_a_turn_and_an_alarm_without_danger_as_wrong():
    row = score.Row("pit", "", score.pairs("expect=parse; intent=pit; pit_depth_m=1.850"))
    assert score.judge(row, {"outcome": "ask", "intent": "pit", "fields": {}, "alarm": []}) == "safe"
    assert score.judge(row, {"outcome": "parse", "intent": "pit", "fields": {"pit_depth_m": 1.85}, "alarm": ["gas"]}) == "false_alarm"


def test_the_reader_holds_no_word_of_a_language():
    """A word a mason may write stands in the lists, not in the code: no list word of another language is a string in it."""
    ours = {tag.rpartition(".")[2] for tags in vocabulary().phrases.values() for tag in tags}  # names of concepts and units
    others = {word for word in of_other_languages() - ours if len(word) > 3 and word.isascii()}
    for path in (ROOT / "bot" / "reading").glob("*.py"):
        held = [
            node.value for node in ast.walk(ast.parse(path.read_text())) if isinstance(node, ast.Constant) and isinstance(node.value, str)
        ]
        strings = {word for text in held if " " not in text for word in re.findall(r"[a-z]+", text)}
        assert not strings & others, f"{path.name}: {strings & others}"


@pytest.mark.parametrize(
    "text",
    [
        "nobody fell in the pit", "nobody is buried", "no gas smell", "no water is coming in", "koi nahi gira", "koi gira nahi",
        "koi gaddhe mein nahi gira", "koi behosh nahi", "gas ki koi badbu nahi", "gaddhe mein pani nahi hai", "hakuna aliyeanguka",
        "hakuna mtu aliyeanguka", "hakuna harufu ya gesi", "hakuna maji shimoni", "personne n'est tombé dans la fosse", "aucune fissure",
        "pas d'odeur de gaz", "il n'y a pas d'eau dans la fosse", "pani 3 cm gira 24 ghante me", "la pluie tombe", "eau arrivee 200 l",
        "aaj 3 mazdoor aaye", "vibarua 3 leo",
    ],
)  # fmt: skip
def test_what_did_not_happen_and_what_is_plain_work_is_no_danger(text, reader):
    assert reader(text)["alarm"] == []


@pytest.mark.parametrize(
    "text, hazards",
    [
        ("Ramesh gaddhe mein gir gaya", {"fall"}),
        ("bachcha gaddhe mein gir gaya", {"fall", "child"}),
        ("behosh, nahi uthta", {"fall"}),
        ("gaddhe ki deewar gir gayi", {"crack"}),
        ("la terre tombe dans le trou", {"crack"}),
        ("un homme tombe dans le trou", {"fall"}),
        ("mtoto ametumbukia shimoni", {"fall", "child"}),
    ],
)
def test_who_fell_is_told_from_what_fell(text, hazards, reader):
    assert set(reader(text)["alarm"]) == hazards


@pytest.mark.parametrize("event", ["water in pit", "has water", "ladder"])
def test_a_yes_or_no_behind_the_readings_names_none_of_them(event, reader):
    found = reader(f"pit 3.12 3.08 3.10 deep 1.83 {event}")
    assert found["question"] == "which_field"
    told = {tuple(option["pit_depth_m"]) for option in found["options"]}
    assert told == {(1.83,), (3.12, 3.08, 3.10)}
