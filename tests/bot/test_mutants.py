"""Labelled messages changed as people change them: nothing stored that was not meant, no denial kept as done, few questions."""

import pytest

from bot.reading.score import COSTLY, WRONG
from tests.bench.mutants import SEED, judged, kept_as_done
from tests.mutants import CHANGED, SAME

COUNT = 700


@pytest.fixture(scope="module")
def found():
    return list(judged(COUNT, SEED, most=60))


def told(faults):
    return "\n".join(
        f"{verdict} [{mutant.way}] {mutant.text!r} wanted {mutant.row.label} got {reading}" for mutant, reading, verdict in faults
    )


def test_every_way_is_tried(found):
    assert len(found) > COUNT / 2
    assert {mutant.way for mutant, _, _ in found} == set(SAME) | set(CHANGED)


def test_nothing_is_stored_that_was_not_meant(found):
    wrong = [each for each in found if each[2] in WRONG]
    assert not wrong, told(wrong)


def test_no_denial_is_kept_as_done(found):
    denials = [(mutant, reading) for mutant, reading, _ in found if mutant.way.startswith("19")]
    assert len(denials) > 50
    assert not [mutant.text for mutant, reading in denials if kept_as_done(mutant, reading)]


def test_few_cost_a_turn(found):
    plain = [each for each in found if each[0].row.label["expect"] == "parse" and each[2] != "asked"]
    costly = [each for each in plain if each[2] in COSTLY]
    assert len(costly) <= 0.02 * len(plain), told(costly)
