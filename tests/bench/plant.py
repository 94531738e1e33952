"""A plant built over SMS and Telegram mixed, under many kills: run by hand, prints what the books say.

    .venv-test/bin/python -m tests.bench.plant [kills of the bot] [kills of the gateway] [seed] [sqlite|postgresql]

The same play and audit as in tests/faults/test_plant.py; the kills are spread over the whole build.
"""

import random
import sys
import tempfile
import time
from contextlib import ExitStack
from pathlib import Path

from tests.bench.kills import prepared
from tests.faults.plant import Build
from tests.postgres import Postgres


def main(bot_kills=40, gateway_kills=4, seed=1, database="sqlite"):
    kills = ["bot"] * int(bot_kills) + ["gateway"] * int(gateway_kills)
    random.Random(int(seed)).shuffle(kills)
    with ExitStack() as stack:
        folder = Path(stack.enter_context(tempfile.TemporaryDirectory()))
        if database == "postgresql":
            url = stack.enter_context(Postgres(folder / "server", durable=True)).made("plant")
        else:
            url = f"sqlite:///{folder}/book.sqlite"
        build, since = stack.enter_context(Build(folder, prepared(url), int(seed))), time.monotonic()
        doubles = build.held(kills, (0.2, 3.0), lambda at, of: print(f"\r{at} of {of}, {build.kills}", end="", flush=True))
        print(
            f"\n{database}, seed {seed}: {sum(build.said.values())} messages, {build.kills['bot']} kills of the bot, "
            f"{build.kills['gateway']} of the gateway: log as without, 0 lost, 0 out of order, {doubles} texts twice "
            f"of {build.doubtful} in the air; {time.monotonic() - since:.0f} s"
        )
    return 0 if doubles <= build.doubtful else 1


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
