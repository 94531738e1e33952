"""What several files of these tests share."""

import pytest

from tests.wires.botapi import BotApi


@pytest.fixture
def heard(road):
    """heard(number, count) -> what reached a phone since the test began."""
    return road.listen()


@pytest.fixture
def api():
    made = BotApi().start()
    yield made
    made.stop()
