"""IS 456:2000, tables and clauses as reproduced in university notes and by several publishers."""

from itertools import repeat

import pytest

from calc import curing, maturity, mix

TABLE_5 = [("concrete", 300, 0.50), ("base", 240, 0.60)]  # moderate exposure, 20 mm: reinforced; plain


@pytest.mark.parametrize(
    ("cement", "hot_dry", "days"), [("opc", False, 7), ("blended", False, 10), ("opc", True, 10), ("blended", True, 14)]
)
def test_13_5_1_days_kept_wet(cement, hot_dry, days):
    assert curing.wet_days(cement, False, hot_dry) == days


@pytest.mark.parametrize(
    ("element", "span_m", "days"),
    [
        ("slab soffit", None, 3),
        ("beam soffit", None, 7),
        ("slab props", 4.0, 7),
        ("slab props", 4.5, 7),
        ("slab props", 5.0, 14),
        ("beam props", 6.0, 14),
        ("beam props", 6.1, 21),
        ("arch props", 4.0, 14),
        ("arch props", 7.0, 21),
    ],
)
def test_11_3_1_stripping(element, span_m, days):
    assert curing.strip_days(element, span_m) == days


def test_11_3_1_a_side_forms_stay_the_longer_of_16_to_24_hours():
    assert curing.strip_days("vertical") * 24 == 24
    assert curing.wait_d("strip vertical", "opc") * 24 == 24


@pytest.mark.parametrize(("name", "cement_kg", "water_cement"), TABLE_5)
def test_table_5_moderate_exposure(name, cement_kg, water_cement):
    recipe = mix.RECIPES[name]
    assert recipe.water_cement <= water_cement
    assert mix.batch(recipe.sand, recipe.stone, recipe.water_cement, 50, 1, 10, 10).cement_kg_m3 >= cement_kg


def test_digest_of_11_3_times_twice_at_5_c_and_thrice_at_0_c_are_not_undercut():
    assert maturity.days_needed(7, repeat(5)) >= 2 * 7
    assert maturity.day_credit(0) == 0  # longer than any multiple
