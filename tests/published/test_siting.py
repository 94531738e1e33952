"""Distances of a plant: Biogas Digest vol. II, ISAT/GTZ about 1999, underground water: 30 m and more from a well; rural
guidance notes: 18 m from a road, 30 m to the kitchen. 3 m from a house and 5 m from a tree are practice, no source."""

import pytest

from bot import programme
from bot.site import Rules, Site
from bot.stages import verdict
from calc.checks import NOT_ENOUGH, OUTSIDE, WITHIN
from tests.conftest import DEMO

SET = {name: row.model_dump(exclude_none=True) for name, row in programme.read(DEMO)[0].siting.items()}
SITE = Site("KV12", "", Rules(siting=SET))


@pytest.mark.parametrize(
    ("name", "far_m", "stands"),
    [
        ("well_m", 20.0, OUTSIDE),  # 10 to 15 m stand in other texts; the strictest is taken
        ("well_m", 15.0, OUTSIDE),
        ("well_m", 30.0, NOT_ENOUGH),
        ("well_m", 31.0, WITHIN),
        ("road_m", 17.0, OUTSIDE),
        ("road_m", 19.0, WITHIN),
        ("kitchen_m", 29.0, WITHIN),
        ("kitchen_m", 31.0, OUTSIDE),
        ("house_m", 2.0, OUTSIDE),
        ("tree_m", 4.0, OUTSIDE),
    ],
)
def test_a_distance_stands_against_print(name, far_m, stands):
    assert verdict(SITE, name, (far_m,)).stands == stands


def test_what_the_programme_does_not_set_has_no_verdict():
    assert verdict(Site("KV12", "", Rules()), "well_m", (5.0,)) is None
