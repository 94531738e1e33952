"""Liquid waterproofer for a bag of 50 kg: 150 ml in a site procedure, 250 ml on a plastering page."""

import pytest

from calc import mix


@pytest.mark.parametrize(("ml", "percent"), [(150, 0.3), (250, 0.5)])
def test_dose_for_a_bag(ml, percent):
    assert 100 * mix.additive_share(ml, 50) == pytest.approx(percent)
    assert mix.additive_in_range(ml, 50)
