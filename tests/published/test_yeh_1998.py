"""1,030 laboratory mixes with their strength: I-Cheng Yeh, Concrete Compressive Strength, UCI Machine Learning
Repository, 2007, doi:10.24432/C5PK67, CC BY 4.0; from "Modeling of strength of high-performance concrete using
artificial neural networks", Cement and Concrete Research 28 (12), 1797-1808, 1998.

The masses in yeh_1998.csv are those of one cubic metre, so the reckoned yield must be one but for the air. The
densities of sand, stone, slag, ash and plasticiser are not given: usual ones are taken, the scatter is theirs.
The means and bounds of closure and the strengths at the ends are reckoned from the rows with those densities, not printed.
What is expected of the strengths is reckoned here from the rows; the figures tried against them are calc's.
"""

import csv
from collections import defaultdict
from functools import cache
from itertools import repeat
from math import exp, log
from pathlib import Path
from statistics import fmean, mean, median, quantiles
from typing import NamedTuple

import pytest
from scipy.stats import linregress, spearmanr

from calc import curing, maturity, mix
from calc.sources import AIR_SHARE

SLAG_KG_M3, ASH_KG_M3, PLASTICISER_KG_M3 = 2900, 2300, 1100  # usual densities


class Row(NamedTuple):
    cement_kg: float
    slag_kg: float
    ash_kg: float
    water_kg: float
    plasticiser_kg: float
    stone_kg: float
    sand_kg: float
    age_d: float
    strength_mpa: float

    @property
    def water_cement(self):
        return self.water_kg / self.cement_kg

    @property
    def ordinary(self):
        return self.slag_kg == 0 and self.ash_kg == 0


@cache
def rows():
    lines = Path(__file__).with_name("yeh_1998.csv").read_text().splitlines()
    return tuple(Row(*map(float, row)) for row in list(csv.reader(line for line in lines if line[0] != "#"))[1:])


def plain():
    """Ordinary cement, tested at 28 days."""
    return [row for row in rows() if row.ordinary and row.age_d == 28]


def solid_m3(row):
    """Absolute volume of everything in a mix, without air."""
    added = (
        mix.yield_m3(row.slag_kg, 0, 0, 0, air=0, cement_solid=SLAG_KG_M3),
        mix.yield_m3(row.ash_kg, 0, 0, 0, air=0, cement_solid=ASH_KG_M3),
        mix.yield_m3(0, 0, 0, row.plasticiser_kg, air=0, water=PLASTICISER_KG_M3),
    )
    return mix.yield_m3(row.cement_kg, row.sand_kg, row.stone_kg, row.water_kg, air=0) + sum(added)


def test_the_data_are_whole():
    assert len(rows()) == 1030
    assert len({row[:7] for row in rows()}) == 427
    assert (min(row.strength_mpa for row in rows()), max(row.strength_mpa for row in rows())) == (2.33, 82.6)
    assert mean(row.strength_mpa for row in rows()) == pytest.approx(35.818, abs=0.0005)


def test_every_mix_is_a_cubic_metre_but_for_its_air():
    found = [solid_m3(row) for row in rows()]
    assert mean(found) == pytest.approx(0.978, abs=0.002)
    assert min(found) == pytest.approx(0.933, abs=0.002)
    assert max(found) == pytest.approx(1.022, abs=0.002)
    assert sum(0.95 <= each <= 1.00 for each in found) / len(found) > 0.90
    assert 1 - mean(found) == pytest.approx(AIR_SHARE, abs=0.005)


def simple():
    """Cement, sand, stone and water only."""
    return [row for row in rows() if row.ordinary and row.plasticiser_kg == 0]


def test_with_the_usual_air_simple_mixes_yield_a_cubic_metre_within_5_percent():
    made = [mix.yield_m3(row.cement_kg, row.sand_kg, row.stone_kg, row.water_kg) for row in simple()]
    assert len(made) == 209
    assert all(abs(each - 1) <= 0.05 for each in made)
    assert mean(made) == pytest.approx(1, abs=0.01)


def test_each_simple_mix_has_a_density_of_concrete():
    found = [mix.weighed(row.cement_kg, row.sand_kg, row.stone_kg, row.water_kg) for row in simple()]
    assert all(2150 <= each.density_kg_m3 <= 2600 for each in found)


def test_water_takes_strength_away():
    found = plain()
    assert spearmanr([row.water_cement for row in found], [row.strength_mpa for row in found]).statistic < -0.9
    assert min(row.strength_mpa for row in found if row.water_cement <= 0.60) == pytest.approx(22.49, abs=0.02)
    assert max(row.strength_mpa for row in found if row.water_cement >= 0.70) == pytest.approx(20.87, abs=0.02)


@pytest.mark.parametrize(
    ("element", "grade_mpa"), [("concrete", 20), ("base", 15), ("blinding", 10)], ids=["1:1.5:3 M20", "1:2:4 M15", "1:3:6 M10"]
)
def test_mixes_within_our_water_limit_reach_the_grade_that_the_mix_is_named_after(element, grade_mpa):
    limit = mix.RECIPES[element].water_cement
    within = [row.strength_mpa for row in plain() if row.water_cement <= limit]
    assert len(within) >= 30
    assert min(within) >= grade_mpa


def test_water_over_the_limit_of_tight_concrete_by_a_tenth_costs_a_fifth_of_its_strength():
    found = [row for row in plain() if row.plasticiser_kg == 0]
    line = linregress([row.water_cement for row in found], [log(row.strength_mpa) for row in found])
    assert len(found) == 61
    assert line.rvalue < -0.94
    limit = mix.RECIPES["concrete"].water_cement
    at_limit, over = (exp(line.intercept + line.slope * ratio) for ratio in (limit, limit + 0.10))
    assert 0.20 <= 1 - over / at_limit <= 0.26


# ---- growth with age, laboratory at about 20 C


@cache
def growth(ordinary):
    """{age: mean strength} of each mix that was tested at 28 days and before."""
    found = defaultdict(lambda: defaultdict(list))
    for row in rows():
        if row.ordinary == ordinary:
            found[row[:7]][row.age_d].append(row.strength_mpa)
    means = ({age_d: fmean(values) for age_d, values in ages.items()} for ages in found.values())
    return [ages for ages in means if 28 in ages and min(ages) < 28]


def shares(ordinary, at_d):
    """Share of the 28-day strength that mixes have at an age; between two tests by the logarithm of the age."""
    found = []
    for ages in growth(ordinary):
        tested = sorted(age_d for age_d in ages if 3 <= age_d <= 28)
        for before, after in zip(tested, tested[1:], strict=False):
            if before < at_d <= after or before == at_d:
                along = log(at_d / before) / log(after / before)
                found.append((ages[before] + along * (ages[after] - ages[before])) / ages[28])
                break
    return found


def band(found):
    """5th percentile, median, 95th percentile."""
    cut = quantiles(found, n=20, method="inclusive")
    return cut[0], median(found), cut[-1]


@pytest.mark.parametrize(
    ("ordinary", "age_d", "printed"),
    [
        (True, 3, (0.41, 0.47, 0.62)), (True, 7, (0.54, 0.65, 0.79)), (False, 7, (0.42, 0.60, 0.90)),
    ],
    ids=["ordinary 3 d", "ordinary 7 d", "blended 7 d"],
)  # fmt: skip
def test_growth_lies_in_the_bands_that_were_first_reckoned_from_the_same_rows_with_another_program(ordinary, age_d, printed):
    tested = [ages[age_d] / ages[28] for ages in growth(ordinary) if age_d in ages]
    assert band(tested) == pytest.approx(printed, abs=0.0061)


def test_every_mix_gains_from_7_to_28_days_so_that_a_longer_wait_is_never_weaker():
    both = [ages for ordinary in (True, False) for ages in growth(ordinary) if 7 in ages]
    assert len(both) == 114
    assert all(ages[28] > ages[7] for ages in both)


LOADED = ("load base", "tight plaster on masonry", "backfill wall", "strip dome", "cover dome", "handle cover", "use cover")


@pytest.mark.parametrize("event", LOADED)
def test_after_its_longer_wait_blended_cement_is_as_far_as_ordinary_cement(event):
    ordinary = band(shares(True, float(curing.wait_d(event, "opc"))))
    blended = band(shares(False, float(curing.wait_d(event, "unknown"))))
    assert blended[0] >= ordinary[0]
    assert blended[1] >= ordinary[1]


@pytest.mark.parametrize("event", ("wall on base", "dome on wall"))
def test_masonry_on_blended_cement_waits_until_the_middle_mix_is_as_far_as_ordinary_cement_though_the_slowest_are_not(event):
    ordinary = band(shares(True, float(curing.wait_d(event, "opc"))))
    blended = band(shares(False, float(curing.wait_d(event, "unknown"))))
    assert blended[1] >= ordinary[1]
    assert 1 / 3 <= blended[0] < ordinary[0]  # after 4 days it was less than a third; the mortar above must harden too


@pytest.mark.parametrize("event", LOADED)
@pytest.mark.parametrize("cement", curing.CEMENTS)
def test_what_carries_load_has_half_its_strength_after_the_wait_in_19_mixes_of_20(event, cement):
    assert band(shares(cement == "opc", float(curing.wait_d(event, cement))))[0] >= 0.5


@pytest.mark.parametrize("cement", curing.CEMENTS)
def test_the_mould_of_a_dome_is_taken_away_at_three_quarters_of_the_strength(cement):
    assert band(shares(cement == "opc", curing.strip_dome_d(cement)))[0] >= 0.75


def test_the_least_wait_that_a_design_may_release_still_has_half_the_strength():
    assert band(shares(True, curing.strip_dome_d("opc", 7.0)))[0] >= 0.5


def test_at_10_degrees_the_wait_is_long_enough_by_the_age_that_the_laboratory_would_have_given_it():
    """Arrhenius with the least activation energy in use, 33.5 kJ/mol (ASTM C1074 gives 33.5 to 45)."""
    for event in LOADED:
        wait_d = float(curing.wait_d(event, "opc"))
        days = maturity.days_needed(wait_d, repeat(10))
        at_20_d = min(maturity.arrhenius([10] * days, 33_500), maturity.arrhenius([10] * days, 45_000))
        assert median(shares(True, min(at_20_d, 28))) >= median(shares(True, wait_d)) - 1e-9
