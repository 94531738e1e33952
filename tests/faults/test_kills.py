"""The whole bot is ended at random moments under traffic and started again; the books are looked at afterwards.

`python -m tests.bench.kills` is the long version.
"""

from signal import SIGKILL, SIGTERM

from tests.faults.serving import ended

SIGNS = (*[SIGKILL] * 3, SIGTERM, *[SIGKILL] * 3)
MESSAGES = 60


def test_ended_under_traffic_it_loses_doubles_and_mixes_nothing(url):
    (lost, wrong, mixed, doubled), ends = ended(url, SIGNS, MESSAGES, 10, seed=7)
    assert (lost, wrong, mixed) == ([], [], [])
    killed = [air for sign, _, _, air in ends if sign == SIGKILL]
    assert doubled <= sum(killed), "no text goes out twice but those that were in the air at a kill"
    (told,) = [each for each in ends if each[0] == SIGTERM]
    _, status, seconds, air = told
    assert air == 0, "told to stop, it lets land what is in the air"
    assert status == 0
    assert seconds < 10
