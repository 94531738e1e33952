"""69 laboratory mixes of ordinary cement, sand, stone and water: I-Cheng Yeh, "Modeling of strength of
high-performance concrete using artificial neural networks", Cement and Concrete Research 28 (12), 1797-1808, 1998.

The masses in yeh_1998.csv are those of one cubic metre, so the reckoned yield must be one. The densities of the
sand and stone are not given; the scatter is theirs.
"""

import csv
from pathlib import Path
from statistics import mean

import pytest

from calc import mix


def mixes():
    lines = Path(__file__).with_name("yeh_1998.csv").read_text().splitlines()
    return [[float(each) for each in row] for row in list(csv.reader(line for line in lines if line[0] != "#"))[1:]]


def yields():
    return [mix.yield_m3(cement, sand, stone, water) for cement, water, stone, sand in mixes()]


def test_there_are_69_mixes():
    assert len(mixes()) == 69


def test_each_mix_yields_a_cubic_metre_within_5_percent():
    assert all(abs(made - 1) <= 0.05 for made in yields())


def test_on_average_they_yield_a_cubic_metre_within_1_percent():
    assert mean(yields()) == pytest.approx(1, abs=0.01)


def test_each_mix_has_a_density_of_concrete():
    assert all(2150 <= mix.weighed(cement, sand, stone, water).density_kg_m3 <= 2600 for cement, water, stone, sand in mixes())
