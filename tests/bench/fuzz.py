"""Texts nobody meant, very many: run by hand, prints what failed and the slowest.

    .venv-test/bin/python -m tests.bench.fuzz [how many] [seed]

The random and damaged texts of the reading tests and the mutants of labelled messages, 200,000 of them: none may raise an error,
take 50 ms of the processor, or put a number into a reading that the text does not hold.
"""

import gc
import sys
import time

from bot.kinds import KINDS
from bot.reading.read import read
from bot.reading.words import vocabulary
from tests.bot.test_reading_fuzz import HINTS, SEED, from_nowhere, texts, told

SLOW_S = 0.05


def main(count=200_000, seed=SEED):
    words, times, failed = vocabulary(), [], 0
    read("pit deep 1.8 m", KINDS, words, HINTS)
    gc.collect()
    gc.freeze()  # else the collector looks through the lists of words in the midst of a text
    for text in texts(seed, count):
        start = time.thread_time()
        try:
            outcome = read(text, KINDS, words, HINTS)
        except Exception as fault:  # whatever it is, it is counted
            failed += 1
            print(f"{fault!r}: {text!r}")
            continue
        times.append(time.thread_time() - start)
        found = from_nowhere(text, told(outcome))
        if found or times[-1] > SLOW_S:
            failed += 1
            print(f"{found or f'{1000 * times[-1]:.0f} ms'}: {text[:200]!r}")
    times.sort()
    print(f"{count} texts, {failed} failed; half under {1000 * times[len(times) // 2]:.2f} ms, 99 % under "
          f"{1000 * times[int(0.99 * len(times))]:.2f} ms, slowest {1000 * times[-1]:.1f} ms")  # fmt: skip


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
