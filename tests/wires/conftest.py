"""What the tests of both SMS carriers share."""

import pytest


@pytest.fixture
def heard(road):
    """heard(number, count) -> what reached a phone since the test began."""
    return road.listen()
