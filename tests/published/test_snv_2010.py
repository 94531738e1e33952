"""ter Heegde, Domestic biogas plants: sizes and dimensions, SNV 2010: parameters, sizes 1 and 2, the hemisphere.

40 l of gas a kilogram, 1:1, retention 60 days at the least feed and 40 at the most, storage 60 %, 20 % added.
"""

import pytest

from calc import sizing
from calc.geometry import cap_rim_radius, cap_volume
from calc.vessel import Shape, vessel_of

HEMISPHERE = Shape("hemisphere", 1.0, 0.0, "flat", 0.0)
SIZES = [(1, 1.0, 25, 50, 3.0, 75, 37.5, 1.5, 0.9, 3.9), (2, 1.5, 37.5, 75, 4.5, 112.5, 56.25, 2.25, 1.35, 5.85)]


@pytest.mark.parametrize(
    ("size", "least_gas", "least_dung", "least_feed_l", "digester_m3", "most_feed_l", "most_dung", "most_gas", "store_m3", "sum_m3"),
    SIZES,
    ids=["size 1", "size 2"],
)
def test_size(size, least_gas, least_dung, least_feed_l, digester_m3, most_feed_l, most_dung, most_gas, store_m3, sum_m3):
    assert sizing.nominal_dung(least_gas) == pytest.approx(least_dung)
    least = sizing.feed_from_dung(least_dung)
    assert least.slurry_m3_per_day * 1000 == pytest.approx(least_feed_l)
    assert sizing.volumes(least.slurry_m3_per_day, 60, least_gas).digester_m3 == pytest.approx(digester_m3)
    most = sizing.feed_from_dung(most_dung)
    assert most.slurry_m3_per_day * 1000 == pytest.approx(most_feed_l)
    assert sizing.nominal_dung(most_gas) == pytest.approx(most_dung)
    found = sizing.volumes(most.slurry_m3_per_day, 40, most_gas)
    assert found.digester_m3 == pytest.approx(digester_m3)
    assert found.store_m3 == pytest.approx(store_m3)
    assert found.digester_m3 + found.store_m3 == pytest.approx(sum_m3)


def test_variant_waste_food_fifteen_kilograms():
    least = sizing.feed_from_dung(15)
    assert sizing.volumes(least.slurry_m3_per_day, 40, 1.0).digester_m3 == pytest.approx(1.2)
    most = sizing.feed_from_dung(30)
    assert most.slurry_m3_per_day * 1000 == pytest.approx(60)
    assert sizing.volumes(most.slurry_m3_per_day, 20, 1.0).digester_m3 == pytest.approx(1.2)


def test_size_1_a_fifth_is_added_and_the_hemisphere_has_1_3_metres():
    found = sizing.volumes(0.075, 40, 1.5)
    assert found.inside_m3 == pytest.approx(4.68)
    assert round(vessel_of(found.inside_m3, HEMISPHERE).radius_m, 1) == 1.3


def test_size_1_the_cap_over_the_lowest_slurry():
    found = sizing.volumes(0.075, 40, 1.5)
    assert found.inside_m3 - found.digester_m3 == pytest.approx(1.68)


@pytest.mark.parametrize(("gas_m3", "fewest", "most"), [(1.0, 2.5, 3.5)])
def test_stove_hours_of_a_cubic_metre(gas_m3, fewest, most):
    low, high = sizing.stove_hours(gas_m3)
    assert fewest <= low <= high <= most


def test_slip_of_a_reposting_the_rim_of_a_cap_is_0_976_and_not_0_90_as_scaled_from_its_drawing():
    # R = 1.03, h = 0.70: sqrt(2 x 1.03 x 0.70 - 0.49) = sqrt(0.952)
    rim_m = cap_rim_radius(1.03, 0.70)
    assert rim_m == pytest.approx(0.952**0.5)
    assert rim_m != pytest.approx(0.90, abs=0.05)
    assert cap_volume(0.90, 0.70) / cap_volume(rim_m, 0.70) == pytest.approx(0.87, abs=0.005)  # an eighth of the gas would be missing
