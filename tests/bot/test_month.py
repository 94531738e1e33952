"""Some days of some sites, played by a seeded chance; the whole month of 300 is tests/bench/month.py."""

import pytest

from tests.bench.month import LIMITS, REMINDERS, Month, counts


@pytest.fixture(scope="module")
def found(tmp_path_factory):
    return counts(Month(tmp_path_factory.mktemp("month"), sites=36, days=7).run())


@pytest.mark.parametrize("name", LIMITS)
def test_what_must_not_be_more_is_not(name, found):
    assert found[name] <= LIMITS[name]


def test_the_days_bring_something_of_everything(found):
    assert found["alarms opened"] > 30
    assert found["alarms passed to the deputy or on"] > 0
    assert found["texts that fold others"] > 0
    assert found["holds released"] > 10
    assert all(found[name] > 0 for name in REMINDERS.values() if name != "quiet site")


def test_every_alarm_is_closed_or_with_somebody(found):
    left = found["alarms open at the end, seen or passed on"] + found["alarms open at the end, not due yet"]
    assert found["alarms opened"] == found["alarms closed"] + left
