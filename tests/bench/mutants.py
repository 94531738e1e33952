"""How labelled messages are read after they were changed as people change them: run by hand, prints tables and the goals.

    .venv-test/bin/python -m tests.bench.mutants [how many] [seed]

A share of the labelled messages in each way of writing, each changed in one of the nineteen ways of tests/mutants.py. Goals: right
98 %, nothing stored that was not meant, no question forgotten, at most 2 % asked though all was stated, no denial kept as done.
"""

import sys
from collections import Counter

from bot.kinds import KINDS
from bot.reading.label import label
from bot.reading.read import read
from bot.reading.score import WRONG, judge, lines, rows
from bot.reading.things import Hints
from bot.reading.words import vocabulary
from tests.conftest import ROOT
from tests.mutants import LOOSE, mutants, seeds_of

FAMILIES = {
    "size", "pit", "base", "mix", "buy", "stage", "check", "stock", "status", "help", "undo", "lang", "join", "danger",
}  # fmt: skip
SEED = 20260302
LITRES = {"bucket": 10.0, "pan": 14.0, "barrow": 65.0, "debe": 20.0, "trolley": 2832.0, "brass": 2832.0}
HINTS = Hints(frozenset({"TB07", "TB11", "KV03", "KV12", "BD03", "BD09"}), frozenset({"bholu", "zuberi", "seydou", "kamla"}), 50.0, LITRES)


def judged(count, seed, most=110):
    """(Mutant, reading, verdict) of so many mutants; what is loose may be asked about, a slip of the pen may alarm."""
    held = [row for name in ("messages", "messages_own") for row in rows(ROOT / "tests" / f"{name}.tsv") if row.family in FAMILIES]
    for mutant in mutants(seeds_of(held, seed, most), seed, count):
        reading = label(read(mutant.text, KINDS, vocabulary(), HINTS))
        verdict = judge(mutant.row, reading)
        if (mutant.way in LOOSE and verdict in ("safe", "unread")) or (mutant.way == "10 slip" and verdict == "false_alarm"):
            verdict = "asked"
        yield mutant, reading, verdict


def kept_as_done(mutant, reading):
    """True where a stage that is denied would be stored as done."""
    forms = [reading, *reading.get("also", ())] if reading["outcome"] in ("parse", "infer") else []
    return mutant.way.startswith("19") and any(form["fields"].get("state") == "done" for form in forms)


def main(count=4500, seed=SEED):
    found = list(judged(count, seed))
    ways = {}
    for mutant, reading, verdict in found:
        ways.setdefault(mutant.way, Counter())[verdict] += 1
        if verdict not in ("right", "asked"):
            print(f"{verdict:12} [{mutant.way}] {mutant.text!r}\n    wanted {mutant.row.label}\n    got    {reading}")
    for way, verdicts in sorted(ways.items()):
        print(f"{way:18}", dict(verdicts))
    exact = [(mutant.row, verdict) for mutant, _, verdict in found if verdict != "asked"]
    print("\n".join(lines(exact)))
    denials = [(mutant, reading) for mutant, reading, _ in found if mutant.way.startswith("19")]
    print(f"{len(found)} mutants; wrong {sum(verdict in WRONG for _, _, verdict in found)}; denials kept as done "
          f"{sum(kept_as_done(*each) for each in denials)} of {len(denials)}")  # fmt: skip


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
