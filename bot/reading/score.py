"""Labelled messages and how well they were read: right, costly, or wrong.

A file of messages has the columns family, raw and intended; intended is `key=value; key=value`, the first key `expect`:
parse (all is stated), infer (one reading is possible), ask, confirm (nothing may be stored) or alarm (danger is heard).
"""

import json
import tomllib
from collections import Counter
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from bot.reading.clean import clean, tokens

ABOUT = {  # keys that say something about the label, and name no field
    "expect", "intent", "ask", "via", "candidates", "inferred", "reason", "likely", "must_not", "also", "ok_infer_if_same_verdict", "want",
    "options_m3", "for_whom", "phase", "note", "material", "reply_unit", "hazard",
}  # fmt: skip
WRONG = ("silent_wrong", "missing", "missed_ask", "missed_alarm", "false_alarm")
COSTLY = ("safe", "unread")
VERDICTS = ("right", *COSTLY, *WRONG)
EXPECTED = ("parse", "infer", "ask", "confirm", "alarm", "unread")
WORDS = Path(__file__).parent.parent / "words"
TAPE_M = 0.0005 + 1e-9  # a length is right within half a millimetre
SHARE = 0.01  # volumes, masses, pressures and areas within one in a hundred


@dataclass(frozen=True)
class Row:
    """One labelled message."""

    family: str
    text: str
    label: dict


class Malformed(ValueError):
    """A line of a file of messages that has not the three columns, or a label without `expect`."""


def rows(path):
    """The rows of a file, without its head."""
    found = []
    for at, line in enumerate(path.read_text(encoding="utf-8").splitlines()[1:], 2):
        columns = line.split("\t")
        label = pairs(columns[2]) if len(columns) == 3 else {}
        if label.get("expect") not in EXPECTED:
            raise Malformed(f"{path}, line {at}: not family, raw and intended with expect={'|'.join(EXPECTED)}")
        found.append(Row(columns[0], columns[1], label))
    return found


def pairs(text):
    """ "a=1; b=x=2" -> {"a": "1", "b": "x=2"}"""
    return {key.strip(): value.strip() for key, _, value in (part.partition("=") for part in text.split("; "))}


def judge(row, reading):
    """The verdict on a reading, as bot.reading.label makes it: right, one of WRONG, or one of COSTLY."""
    want, outcome = row.label, reading["outcome"]
    if want["expect"] == "alarm":
        return "right" if reading["alarm"] else "missed_alarm"
    if reading["alarm"]:
        return "false_alarm"
    if want["expect"] == "unread":
        return "right" if outcome in ("unread", "ask") else "silent_wrong"
    if outcome == "unread":
        return "unread"
    if want["expect"] in ("ask", "confirm"):
        kept = want.get("ok_infer_if_same_verdict") == "1" and outcome == "infer"
        return "right" if outcome in ("ask", "confirm") or kept else "missed_ask"
    if outcome in ("ask", "confirm"):
        return "safe"
    if reading["intent"] != want["intent"]:
        return "silent_wrong"
    return _fields(want, reading)


def _fields(want, reading):
    for key, value in want.items():
        if key in ABOUT:
            continue
        if key not in reading["fields"]:
            return "missing"
        if not same(key, value, reading["fields"][key]):
            return "silent_wrong"
    also = dict(part.split("=") for part in want["also"].split(",")) if "also" in want else {}
    held = [form["fields"] for form in reading.get("also", ())]
    return "right" if not also or any(also.items() <= fields.items() for fields in held) else "missing"


def same(key, want, got):
    """True where a field says what was wanted, within the tolerance of its unit."""
    want, got = _atoms(want), _atoms(got)
    return len(want) == len(got) and all(_close(key, *both) for both in zip(want, got, strict=True))


def _close(key, want, got):
    try:
        wanted, found = float(want), float(got)
    except (TypeError, ValueError):
        return str(want).lower() == str(got).lower()
    if key.endswith("_m"):
        return abs(wanted - found) <= TAPE_M
    return abs(wanted - found) <= max(abs(wanted) * SHARE, 1e-9)


def _atoms(value):
    if isinstance(value, list | tuple):
        return [atom for each in value for atom in _atoms(each)]
    return [part.strip() for part in value.split(",")] if isinstance(value, str) else [value]


@cache
def _lists():
    """{language: the words that stand in its lists}."""
    found = {}
    for path in sorted(WORDS.glob("*.toml")):
        book = tomllib.loads(path.read_text(encoding="utf-8"))
        code = book.pop("code")
        phrases = [phrase for concepts in book.values() for listed in concepts.values() for phrase in listed]
        found[code] = {token.text for phrase in phrases for token in tokens(clean(phrase))}
    return found


def language(text):
    """The way of writing a text is in, "en", "sw", "fr", "hi-Latn" or "hi": the list that holds most of what no other holds."""
    if any("\u0900" <= char <= "\u097f" and char.isalpha() for char in text):
        return "hi"
    words = [token.text for token in tokens(clean(text)) if token.sort == "word"]
    own = Counter()
    for word in words:
        holding = [code for code, listed in _lists().items() if word in listed]
        own.update(holding if len(holding) == 1 else ())
    best = max(own, key=lambda code: (own[code], code != "en"), default="en")
    return "hi-Latn" if best == "hi" else best


def table(verdicts):
    """{(family, or a language, or "ALL"): Counter of verdicts} of (row, verdict) pairs."""
    families, languages, total = {}, {}, Counter()
    for row, verdict in verdicts:
        families.setdefault(row.family, Counter())[verdict] += 1
        languages.setdefault(language(row.text), Counter())[verdict] += 1
        total[verdict] += 1
    return dict(sorted(families.items())) | dict(sorted(languages.items())) | {"ALL": total}


def lines(verdicts):
    """The table as lines of text, with the shares that count: right, over-asked where all was stated."""
    verdicts = list(verdicts)
    found = table(verdicts)
    wide = max(len(name) for name in found)
    yield f"{'':{wide}}" + "".join(f"{name:>14}" for name in VERDICTS) + f"{'of':>7}{'right %':>9}"
    for name, counted in found.items():
        of = counted.total()
        told = "".join(f"{counted[verdict]:>14}" for verdict in VERDICTS)
        yield f"{name:{wide}}{told}{of:>7}{100 * counted['right'] / of:>9.1f}" if of else f"{name:{wide}}{told}{of:>7}"
    plain = [verdict for row, verdict in verdicts if row.label["expect"] == "parse"]
    if plain:
        yield f"asked though all was stated: {sum(verdict in COSTLY for verdict in plain)} of {len(plain)}"


def report(read):
    """What was not read right, of (row, reading) pairs, then the table."""
    verdicts = [(row, judge(row, reading)) for row, reading in read]
    for (row, reading), (_, verdict) in zip(read, verdicts, strict=True):
        if verdict != "right":
            yield f"{verdict:12} {row.text!r}\n    wanted {row.label}\n    got    {json.dumps(reading, ensure_ascii=False)}"
    yield from lines(verdicts)


def share_right(verdicts):
    """The share of right readings among (row, verdict) pairs."""
    verdicts = list(verdicts)
    return sum(verdict == "right" for _, verdict in verdicts) / len(verdicts)
