"""Plants recalled, not read: from memory, to be confirmed. None of these numbers is shown as published.

The dimension table of the GGC 2047 plants (cm), sizes of Chinese round digesters, and an example of store and digester; the
lists of materials stand in test_bill_lists.py.
"""

from math import pi

import pytest
from scipy.optimize import brentq

from calc import sizing
from calc.design import findings
from calc.designs import drawing
from calc.vessel import Vessel, shape

# size: outlet length, breadth, depth; radius, wall, floor to crown, floor to outlet floor; dung a day (the last printed)
GGC = {
    4: (140, 120, 50, 102, 86, 151, 112, 24),
    6: (150, 120, 60, 122, 92, 160, 116, 36),
    8: (170, 130, 65, 135, 105, 175, 127, 48),
    10: (180, 125, 68, 154, 94, 171, 124, 60),
    15: (248, 125, 84, 175, 115, 193, 132, 90),
    20: (264, 176, 86, 199, 115, 203, 137, 120),
}
sizes = pytest.mark.parametrize("size_m3", GGC)


def ggc(size_m3):
    length, breadth, depth, radius, wall, crown, outlet_floor, dung = (each / 100 for each in GGC[size_m3])
    tank = Vessel(radius, crown - wall, wall, "flat")
    return drawing(tank, outlet_floor, (length, breadth, depth), dome="concrete", feed=sizing.feed_from_dung(100 * dung))


@sizes
def test_ggc_inside_volumes_are_the_sizes_within_three_percent(size_m3):
    # from memory, to be confirmed
    assert ggc(size_m3).vessel.inside_m3 == pytest.approx(size_m3, rel=0.03)


@sizes
def test_ggc_seventy_days_to_the_zero_line_within_seven_percent(size_m3):
    # from memory, to be confirmed; the 70 days are printed
    longest, shortest = ggc(size_m3).retention_times_d
    assert longest == pytest.approx(70, rel=0.07)
    assert shortest < 0.9 * 70  # below the lowest slurry it is a fifth less


@sizes
def test_ggc_levels_by_another_way(size_m3):
    # from memory, to be confirmed; volumes by the sum of a cylinder and a slice of a sphere
    plant = ggc(size_m3)
    radius, wall, rise = plant.vessel.radius_m, plant.vessel.wall_height_m, plant.vessel.dome_rise_m
    sphere = (radius**2 + rise**2) / (2 * rise)

    def below_m3(level):
        if level <= wall:
            return pi * radius**2 * level
        low, high = sphere - rise, sphere - rise + level - wall  # over the centre of the sphere
        return pi * radius**2 * wall + pi * (sphere**2 * (high - low) - (high**3 - low**3) / 3)

    zero = plant.levels.zero_line_m
    store = plant.chamber_length_m * plant.chamber_width_m * (plant.levels.overflow_m - zero)
    lowest = brentq(lambda level: below_m3(zero) - below_m3(level) - store, 0, zero)
    assert plant.levels.lowest_m == pytest.approx(lowest, abs=1e-6)
    assert plant.volume_to_zero_line_m3 == pytest.approx(below_m3(zero))


@pytest.mark.parametrize(("size_m3", "looked_at"), [(4, False), (6, False), (8, False), (10, False), (15, True), (20, True)])
def test_ggc_only_the_two_largest_pass_ten_kilopascals_and_none_twelve(size_m3, looked_at):
    # from memory, to be confirmed
    plant = ggc(size_m3)
    assert ("greatest_pressure" in {what for what, *_ in findings(plant)}) is looked_at
    assert plant.levels.greatest_pressure_pa < 12_000
    assert plant.cover_m >= 0.60


@pytest.mark.parametrize(("nominal_m3", "across_m"), [(4, 2.0), (6, 2.4), (12, 3.2)])
def test_chinese_round_digesters_hold_three_to_seven_percent_over_their_name(nominal_m3, across_m):
    # from memory, to be confirmed
    assert 1.03 <= shape("cylinder_cap").vessel(across_m / 2).inside_m3 / nominal_m3 <= 1.07


def test_store_and_digester_of_thirty_kilograms_in_eighty_days():
    # from memory, to be confirmed: 30 kg at 40 l, 60 % stored: 1.2 m3, 0.72 m3, 4.8 m3, 6.67 to 1
    feed = sizing.feed_from_dung(30)
    assert sizing.nominal_dung(1.2) == pytest.approx(30)
    found = sizing.volumes(feed.slurry_m3_per_day, 80, 1.2)
    assert (found.store_m3, found.digester_m3) == (pytest.approx(0.72), pytest.approx(4.8))
    assert found.digester_m3 / found.store_m3 == pytest.approx(6.67, abs=0.005)
