"""Round household digesters of China: a Guangxi study quoting GB/T 4750-2002, rural guidance notes, an abstract with radii,
a provincial design rule, and a popular chapter on the tests.

Rise of the cover D/5, of the floor D/8, wall 1.0 m; pressure to 800 mm of water (8 kPa), 13 kPa at most; filling 90 % at
most; store half of a day's gas; gas 0.15 to 0.30 m3 a day for each m3; cover of soil 200 mm; 8 m3 main tank radius 1.35 m,
10 m3 1.5 m; 8 m3 of brick and concrete: cement 900 to 1000 kg, sand 2 m3.
"""

import pytest

from calc import sources as s
from calc.bill import bill, needed
from calc.designs import design
from calc.sizing import feed_from_dung, store_share_held
from calc.units import from_si, si
from calc.vessel import shape, vessel_of

ROUND = shape("cylinder_cap")


def plant(inside_m3):
    """A brick plant that gives 0.20 m3 a day for each m3 and stores half of it."""
    return design(inside_m3, 0.5 * 0.20 * inside_m3, ROUND, feed=feed_from_dung(40))


@pytest.mark.parametrize("across_m", [2.0, 2.7, 3.2])
def test_rise_of_the_cover_and_the_floor_and_height_of_the_wall(across_m):
    found = ROUND.vessel(across_m / 2)
    assert found.dome_rise_m == pytest.approx(across_m / 5)
    assert found.bottom_depth_m == pytest.approx(across_m / 8)
    assert found.wall_height_m == 1.0


@pytest.mark.parametrize(("nominal_m3", "radius_m"), [(8, 1.35), (10, 1.5)])
def test_radius_of_the_main_tank(nominal_m3, radius_m):
    # the radius of one source on the proportions of another: the inside is 4 to 7 % over the name, the radius 3 %
    assert vessel_of(nominal_m3, ROUND).radius_m == pytest.approx(radius_m, rel=0.03)
    assert 1.0 <= ROUND.vessel(radius_m).inside_m3 / nominal_m3 <= 1.07


@pytest.mark.parametrize("inside_m3", [6, 8, 10])
def test_nine_tenths_full_leaves_half_a_days_gas_at_a_fifth_of_a_cubic_metre(inside_m3):
    assert store_share_held(inside_m3, 0.9 * inside_m3 / 60, 60, 0.20 * inside_m3) == pytest.approx(0.5)


@pytest.mark.parametrize("inside_m3", [6, 8, 10, 12])
def test_working_pressure_and_cover(inside_m3):
    found = plant(inside_m3)
    assert found.levels.greatest_pressure_pa <= 8000
    assert found.levels.greatest_head_m <= 0.800 + 1e-9
    assert found.cover_m >= 0.200


def test_no_plant_of_ours_reaches_their_greatest_pressure():
    assert si(13, "kPa") > s.PRESSURE_LIMIT_PA


def test_slip_eight_kilopascals_are_not_eighty_centimetres_of_water():
    assert from_si(si(8, "kPa"), "cmH2O") == pytest.approx(81.58, abs=0.005)
    assert from_si(si(8, "kPa"), "cmH2O") != pytest.approx(80, abs=0.5)


def test_slip_a_fall_of_0_24_kilopascals_is_not_240_millimetres():
    assert from_si(si(0.24, "kPa"), "cmH2O") == pytest.approx(2.447, abs=0.0005)
    assert from_si(si(0.24, "kPa"), "cmH2O") != pytest.approx(24.0, abs=0.5)


def test_cement_for_eight_cubic_metres_of_brick_and_concrete_is_not_under_the_list_and_at_most_a_sixth_over():
    # the list is for a plant; ours is what is bought for it, with waste: 1100 kg
    taken = needed(bill(plant(8.34)))["cement_kg"]
    assert 1000 <= taken <= 1000 * 7 / 6


def test_sand_for_eight_cubic_metres():
    assert needed(bill(plant(8.34)))["sand_m3"] == pytest.approx(2.0, rel=0.10)


@pytest.mark.parametrize(("inside_m3", "step"), [(6.36, -0.10), (10.655, 0.10)])
def test_six_and_ten_cubic_metres_take_a_tenth_less_and_more(inside_m3, step):
    usual, other = (needed(bill(plant(each)))["cement_kg"] for each in (8.34, inside_m3))
    assert other / usual - 1 == pytest.approx(step, abs=0.08)
