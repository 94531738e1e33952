"""Labelled messages and how well they were read: right, costly, or wrong.

A file of messages has the columns family, raw and intended; intended is `key=value; key=value`, the first key `expect`:
parse (all is stated), infer (one reading is possible), ask, confirm (nothing may be stored) or alarm (danger is heard).
"""

from collections import Counter
from dataclasses import dataclass

ABOUT = {  # keys that say something about the label, and name no field
    "expect", "intent", "ask", "via", "candidates", "inferred", "reason", "likely", "must_not", "also", "ok_infer_if_same_verdict", "want",
    "options_m3", "for_whom", "phase", "note", "material", "reply_unit", "hazard",
}  # fmt: skip
WRONG = ("silent_wrong", "missing", "missed_ask", "missed_alarm", "false_alarm")
COSTLY = ("safe", "unread")
TAPE_M = 0.0005 + 1e-9  # a length is right within half a millimetre
SHARE = 0.01  # volumes, masses, pressures and areas within one in a hundred


@dataclass(frozen=True)
class Row:
    """One labelled message."""

    family: str
    text: str
    label: dict


def rows(path):
    """The rows of a file, without its head."""
    lines = path.read_text(encoding="utf-8").splitlines()[1:]
    return [Row(family, raw, pairs(intended)) for family, raw, intended in (line.split("\t") for line in lines)]


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


def table(verdicts):
    """{family: Counter of verdicts} with "ALL", of (row, verdict) pairs."""
    found = {"ALL": Counter()}
    for row, verdict in verdicts:
        found.setdefault(row.family, Counter())[verdict] += 1
        found["ALL"][verdict] += 1
    return found


def share_right(verdicts):
    """The share of right readings among (row, verdict) pairs."""
    verdicts = list(verdicts)
    return sum(verdict == "right" for _, verdict in verdicts) / len(verdicts)
