"""Every written conversation over SMS: `python -m tests.bench.talks [NAME...]`, a few minutes.

Each is held in the terminal and over the gateway's HTTP contract; both must say the same, line by line.
"""

import sys
import tempfile
import time
from pathlib import Path

from tests.wires.talk_over_sms import TALKS, compared


def main(names):
    paths = [TALKS / f"{name}.talk" for name in names] or sorted(TALKS.glob("*.talk"))
    differ = []
    for path in paths:
        with tempfile.TemporaryDirectory() as folder:
            since = time.perf_counter()
            faults, plain, over = compared(path, Path(folder))
        said = "same" if over == plain and not faults else "DIFFERS"
        print(f"{path.stem:28} {len(over):4} lines {time.perf_counter() - since:6.1f} s  {said}", *faults, sep="\n    " if faults else "")
        differ += [path.stem] if said != "same" else []
    print(f"{len(paths)} conversations, {len(differ)} differ: {', '.join(differ) or '-'}")
    return 1 if differ else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
