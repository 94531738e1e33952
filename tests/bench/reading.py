"""How long a text takes to be read: run by hand, prints figures and a ratio.

    .venv-test/bin/python -m tests.bench.reading [texts]

The labelled messages and what is sent in the conversations, then random and mutated texts of the reading tests, each read once;
beside it, in the same run, the bare look-up of the same texts in the same vocabulary, without any meaning. Times are the
processor's, so that a busy machine says nearly the same. Goals: half of the messages under 0.4 ms, none over 3 ms, no text over
50 ms.
"""

import re
import sys
import time

from bot.kinds import KINDS
from bot.reading import score
from bot.reading.clean import clean
from bot.reading.read import read
from bot.reading.words import tag, vocabulary
from tests.bot.test_reading_fuzz import HINTS, SEED, texts
from tests.conftest import ROOT


def took(act, every):
    """(seconds, text) of each call, sorted."""
    found = []
    for text in every:
        start = time.thread_time()
        act(text)
        found.append((time.thread_time() - start, text))
    return sorted(found)


def told(name, found):
    times = [1000 * each for each, _ in found]
    print(f"{name:10} {len(times):6} texts, half under {times[len(times) // 2]:.2f} ms, 99 % under {times[int(0.99 * len(times))]:.2f} ms, "
          f"slowest {times[-1]:.1f} ms")  # fmt: skip
    for each, text in found[:-4:-1]:
        print(f"{1000 * each:21.2f} ms  {text[:90]!r}")
    return sum(times)


def main(count=10_000):
    words = vocabulary()
    known = [row.text for name in ("messages", "messages_own") for row in score.rows(ROOT / "tests" / f"{name}.tsv")]
    lines = [line for path in sorted((ROOT / "tests" / "talks").glob("*.talk")) for line in path.read_text().splitlines()]
    sent = [line.partition(" > ")[2] for line in lines if re.match(r"\S+ > ", line)]
    read(known[0], KINDS, words, HINTS)
    told("messages", took(lambda text: read(text, KINDS, words, HINTS), list(dict.fromkeys(known + sent))))
    random = list(texts(SEED, count))
    all_ms = told("random", took(lambda text: read(text, KINDS, words, HINTS), random))
    bare_ms = told("look-up", took(lambda text: tag(clean(text), words), random))
    print(f"ratio      {all_ms / bare_ms:.2f} times the bare look-up")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
