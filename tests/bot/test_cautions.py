"""Texts of the dangers: one for each rule, short enough for an SMS, and never a release."""

import re
from datetime import timedelta

import pytest

from bot.cautions import AT_LEVEL, CARDS, CAUTIONS, N_, OWN_SLOTS, REFUSALS, caution
from calc.facts import STAGES, Facts
from calc.hazards import RULES, judge

SLOT = re.compile(r"%\((\w+)\)s")
READER = {"X1": "refuse", "X4": "stop"}  # raised by who reads the text, not by the facts
LEVELS = {(row.rule, row.level) for row in RULES} | {("X2", "stop"), ("X3", "warn")} | set(READER.items())
TEXTS = {
    **{f"{rule} {level} short": caution(rule, level).short for rule, level in sorted(LEVELS)},
    **{f"{rule} {level} long": caution(rule, level).long for rule, level in sorted(LEVELS)},
    **{f"refusal {topic}": text for topic, text in REFUSALS.items()},
    **{f"card {stage}": text for stage, text in CARDS.items()},
}
# GSM 03.38, basic table: the ten characters of the extension table take two places and are left out
GSM = set(
    "@\u00a3$\u00a5\u00e8\u00e9\u00f9\u00ec\u00f2\u00c7\n\u00d8\u00f8\r\u00c5\u00e5\u0394_\u03a6\u0393\u039b\u03a9"
    "\u03a0\u03a8\u03a3\u0398\u039e\u00c6\u00e6\u00df\u00c9 !\"#\u00a4%&'()*+,-./0123456789:;<=>?\u00a1"
    "ABCDEFGHIJKLMNOPQRSTUVWXYZ\u00c4\u00d6\u00d1\u00dc\u00a7\u00bf"
    "abcdefghijklmnopqrstuvwxyz\u00e4\u00f6\u00f1\u00fc\u00e0"
)
FORBIDDEN = (
    r"\bun?safe\b|\bsafe\b|\bsafely\b|\bclear(s|ed)?\b|\bapproved?\b|\bpass(es|ed)?\b|\bok\b|\bokay\b|\bready\b"
    r"|\bno danger\b|\bshould be fine\b|\bprobably\b|\bgas tight\b"
)
LONGEST = {  # by the unit a slot ends in
    "_m": "10.00 m (32 ft 9 5/8 in)",
    "_kg": "1125 kg (2480 lb)",
    "_c": "not reported",
    "_d": "not reported",
    "_h": "not reported",
}
WORDED = {
    "emergency": "x" * 40,
    "soil_class": "C",
    "work": "very heavy",
    "fact": "distance of soil heap to edge",
    "facts": "distance of soil heap to edge, cm of ladder above the edge, hours since last check of sides, watcher",
    "text": "x" * 40,
    "release": "R12345",
    "reading": "10.00 m (32 ft 9 5/8 in)",
    "time": "Wed 31 Dec 23:59",
    "stage": "water test",
    "value": "32 ft 9 5/8 in",
    "low": "3 7/8 in",
    "high": "32 ft 9 5/8 in",
    "distance_m": "30.00 m",
}


def filled(text):
    slots = {name: WORDED.get(name) or LONGEST["_" + name.rsplit("_", 1)[-1]] for name in SLOT.findall(text)}
    return text % slots


@pytest.mark.parametrize(("rule", "level"), sorted(LEVELS))
def test_every_rule_and_level_has_texts_and_a_source(rule, level):
    said = caution(rule, level)
    assert said.short and said.long and said.source


def test_no_text_stands_here_without_its_rule():
    assert set(CAUTIONS) == {rule for rule, _ in LEVELS}
    assert set(AT_LEVEL) <= LEVELS


@pytest.mark.parametrize(("rule", "level"), sorted(LEVELS))
def test_texts_fit_their_length_with_the_longest_values(rule, level):
    assert len(filled(caution(rule, level).short)) <= 100
    assert len(filled(caution(rule, level).long)) <= 300


@pytest.mark.parametrize(("rule", "level"), sorted(LEVELS))
def test_stop_is_the_first_word_of_a_stop_and_of_nothing_else(rule, level):
    for text in (caution(rule, level).short, caution(rule, level).long):
        assert text.startswith("STOP. ") == (level == "stop")


@pytest.mark.parametrize("name", TEXTS)
def test_characters_take_one_place_in_an_sms(name):
    assert set(filled(TEXTS[name])) <= GSM


@pytest.mark.parametrize("name", TEXTS)
def test_no_text_reads_as_a_release(name):
    assert not re.search(FORBIDDEN, TEXTS[name], re.IGNORECASE)


@pytest.mark.parametrize("name", TEXTS)
def test_a_percent_sign_only_opens_a_slot(name):
    assert "%" not in SLOT.sub("", TEXTS[name])


@pytest.mark.parametrize("row", RULES, ids=lambda row: f"{row.rule}-{row.level}")
def test_slots_are_values_of_the_hazard(row):
    names = {value.__name__ if callable(value) else value for value in row.values}
    said = caution(row.rule, row.level)
    assert set(SLOT.findall(said.short)) <= names | set(OWN_SLOTS)
    if names or row.rule != "E4":  # a pit too deep for figures: the short text stands alone
        assert set(SLOT.findall(said.long)) <= names | set(OWN_SLOTS)


@pytest.mark.parametrize("rule", ["X1", "X2", "X3", "X4"])
def test_slots_of_the_reading_rules(rule):
    known = {"X1": {"text"}, "X2": {"fact", "value", "low", "high"}, "X3": {"fact", "facts"}, "X4": {"emergency"}}
    assert set(SLOT.findall(CAUTIONS[rule].short + CAUTIONS[rule].long)) == known[rule]


def test_slots_of_the_out_of_range_text_are_its_values():
    (hazard,) = judge(Facts(slope_run_m=9))
    assert set(SLOT.findall(CAUTIONS["X2"].short + CAUTIONS["X2"].long)) <= set(hazard.values)


@pytest.mark.parametrize("rule", ["N2", "G1", "I3", "E7", "N1"])
def test_the_emergency_text_still_fits_the_first_sms_after_the_short_text(rule):
    assert len(f"{CAUTIONS[rule].short} {WORDED['emergency']}") <= 160


@pytest.mark.parametrize("rule", ["N2", "I3", "G1", "G5", "L2", "X4"])
def test_texts_about_people_hurt_name_the_emergency_text(rule):
    assert "%(emergency)s" in CAUTIONS[rule].long


@pytest.mark.parametrize("rule", ["N1", "N2", "N3", "I3"])
def test_texts_about_bad_air_send_nobody_in(rule):
    said = caution(rule, next(level for name, level in LEVELS if name == rule))
    assert re.search(r"\b(never|nobody|not go in|not permission)\b", said.short + said.long, re.IGNORECASE)


def test_gas_reading_text_says_it_is_no_permission():
    assert "NOT permission" in CAUTIONS["N3"].short


@pytest.mark.parametrize("stage", CARDS)
def test_a_card_is_one_sms_about_a_stage(stage):
    assert stage in STAGES
    assert len(CARDS[stage]) <= 160


@pytest.mark.parametrize("topic", REFUSALS)
def test_a_refusal_is_short(topic):
    assert len(filled(REFUSALS[topic])) <= 100
    assert set(SLOT.findall(REFUSALS[topic])) <= set(OWN_SLOTS)


@pytest.mark.parametrize(("topic", "rule"), [("gas_fitting", "G4"), ("electric", "V5")])
def test_a_refusal_that_is_a_rule_says_what_the_rule_says(topic, rule):
    assert REFUSALS[topic] == CAUTIONS[rule].short


def test_the_mark_changes_nothing():
    assert N_("Stop.") == "Stop."


def test_the_dome_card_and_rule_name_the_same_days():
    (hazard,) = (found for found in judge(Facts(strip_asked=True, cast_h=24)) if found.rule == "D1")
    days = timedelta(days=int(hazard.values["form_need_d"])).days
    assert f"{days} full days" in CARDS["dome"]
