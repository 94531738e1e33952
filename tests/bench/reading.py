"""How long a text takes to be read: run by hand, prints figures and a ratio.

    .venv-test/bin/python -m tests.bench.reading [texts]

Random and mutated texts of the reading tests, and the labelled messages alone, each read once; beside it, in the same run,
the bare look-up of the same texts in the same vocabulary, without any meaning. Goals: 99 of 100 messages under 5 ms, no
text over 50 ms.
"""

import sys
import time

from bot.kinds import KINDS
from bot.reading.clean import clean
from bot.reading.read import read
from bot.reading.words import tag, vocabulary
from tests import score
from tests.bot.test_reading_fuzz import HINTS, SEED, texts
from tests.conftest import ROOT


def took(act, every):
    """Seconds of each call, sorted."""
    found = []
    for text in every:
        start = time.perf_counter()
        act(text)
        found.append((time.perf_counter() - start, text))
    return sorted(found)


def told(name, found):
    times = [1000 * each for each, _ in found]
    print(f"{name:10} {len(times):6} texts, half under {times[len(times) // 2]:.2f} ms, 99 % under {times[int(0.99 * len(times))]:.2f} ms, "
          f"longest {times[-1]:.1f} ms: {found[-1][1][:30]!r}")  # fmt: skip
    return sum(times)


def main(count=10_000):
    words = vocabulary()
    known = [row.text for name in ("messages", "messages_own") for row in score.rows(ROOT / "tests" / f"{name}.tsv")]
    read(known[0], KINDS, words, HINTS)
    told("labelled", took(lambda text: read(text, KINDS, words, HINTS), known))
    random = list(texts(SEED, count))
    all_ms = told("random", took(lambda text: read(text, KINDS, words, HINTS), random))
    bare_ms = told("look-up", took(lambda text: tag(clean(text), words), random))
    print(f"ratio      {all_ms / bare_ms:.2f} times the bare look-up")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
