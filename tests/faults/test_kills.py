"""The whole bot is ended at random moments under traffic and started again; the books are looked at afterwards.

`python -m tests.bench.kills` is the long version.
"""

import signal

from tests.faults.serving import killed

KILLS, MESSAGES = 8, 90


def test_killed_eight_times_it_loses_doubles_and_mixes_nothing(url):
    (lost, wrong, mixed, doubled), air, _ = killed(url, KILLS, MESSAGES, 8, signal.SIGKILL, seed=7)
    assert (lost, wrong, mixed) == ([], [], [])
    assert doubled <= air, "no text goes out twice but those that were in the air at a kill"


def test_told_to_stop_it_sends_nothing_twice_and_stops_within_ten_seconds(url):
    (lost, wrong, mixed, doubled), _, ends = killed(url, 2, 30, 10, signal.SIGTERM, seed=3)
    assert (lost, wrong, mixed, doubled) == ([], [], [], 0)
    assert [status for status, _, _ in ends] == [0, 0, 0]
    assert max(seconds for _, seconds, _ in ends) < 10
