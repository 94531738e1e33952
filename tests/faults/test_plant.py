"""A build of one plant over SMS and Telegram mixed, with kills of bot and gateway: here up to its dome.

`python -m tests.bench.plant` is the long version, up to the handover.
"""

from tests.faults.plant import Build

KILLS, MESSAGES = ("bot", "bot", "gateway", "bot"), 40


def test_killed_on_the_way_a_plant_is_built_as_without(url, tmp_path):
    with Build(tmp_path, url, seed=5, most=MESSAGES) as build:
        doubles = build.held(KILLS, (0.2, 2.5))
        assert doubles <= build.doubtful, "no text comes twice but those in the air at a kill, or of which Telegram did not tell"
        assert build.kills == {"bot": 3, "gateway": 1}
    assert build.status == 0
