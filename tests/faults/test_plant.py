"""A build of one plant over SMS and Telegram mixed, from "how many cows" to the handover, with kills of bot and gateway.

`python -m tests.bench.plant` is the long version.
"""

import pytest

from tests.faults.plant import Build

pytestmark = pytest.mark.process

KILLS = ("bot", "bot", "gateway", "bot", "bot", "bot")


def test_killed_on_the_way_a_plant_is_built_as_without(url, tmp_path):
    with Build(tmp_path, url, seed=5) as build:
        doubles = build.held(KILLS, (1.0, 8.0))
        assert doubles <= build.doubtful, "no text comes twice but those in the air at a kill, or of which Telegram did not tell"
        assert build.kills == {"bot": 5, "gateway": 1}
    assert build.status == 0
