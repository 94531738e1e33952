"""How a plant changes with what is built a little off: the slopes that a hand calculation gives.

The plant of 8 m3 with a wall (inside radius 1.35 m, wall 1.05 m, rise 0.70 m, chamber 1.70 x 1.30 x 0.65 m, its floor at
1.27 m; dimensions from memory, to be confirmed in print). Changes by hand:

radius: (2 pi r w + pi r h) / V = (8.906 + 2.969) / 8.195 a metre, 1.45 % a centimetre;
rise: pi (a^2 + h^2) / 2 = 3.632 m2, 0.89 % of V for 20 mm;
overflow or chamber floor: 1.70 x 1.30 x 0.05 = 0.1105 m3 of store; slurry inside moves by that over 5.726 m2: 19.3 mm.
"""

from math import pi

import pytest

from calc.levels import solve
from calc.vessel import Vessel

RADIUS, RISE, WALL = 1.35, 0.70, 1.05
TANK = Vessel(RADIUS, RISE, WALL, "flat")
ZERO, AREA, DEEP = 1.27, 1.70 * 1.30, 0.65
KPA_A_METRE = 9.80665


def levels(zero_line_m=ZERO, depth_m=DEEP):
    return solve(TANK, zero_line_m, AREA, depth_m)


def test_a_radius_of_a_centimetre_more_is_one_and_a_half_percent_of_volume():
    more = Vessel(RADIUS + 0.01, RISE, WALL, "flat").inside_m3 / TANK.inside_m3 - 1
    by_hand = (2 * pi * RADIUS * WALL + pi * RADIUS * RISE) / TANK.inside_m3 * 0.01
    assert more == pytest.approx(by_hand, rel=0.01)
    assert 100 * more == pytest.approx(1.45, abs=0.05)


def test_a_dome_20_mm_too_flat_is_nine_tenths_of_a_percent_of_volume():
    less = Vessel(RADIUS, RISE - 0.020, WALL, "flat").inside_m3 / TANK.inside_m3 - 1
    assert less == pytest.approx(-pi * (RADIUS**2 + RISE**2) / 2 * 0.020 / TANK.inside_m3, rel=0.02)


@pytest.mark.parametrize(("floor_m", "overflow_m"), [(0.0, 0.05), (-0.05, 0.0), (0.05, 0.0)], ids=["overflow up", "floor down", "floor up"])
def test_levels_built_off_by_5_cm_change_store_and_head_by_a_tenth_of_a_cubic_metre_and_some_centimetres(floor_m, overflow_m):
    usual, off = levels(), levels(ZERO + floor_m, DEEP + overflow_m - floor_m)
    deeper_m = overflow_m - floor_m
    assert off.store_m3 - usual.store_m3 == pytest.approx(AREA * deeper_m)
    # between the two floors the dome is narrower than the wall: its disc half way, x^2 = 2 R t - t^2 at t below the crown
    sphere_m, below_m = (RADIUS**2 + RISE**2) / (2 * RISE), WALL + RISE - ZERO - floor_m / 2
    disc_m2 = pi * (2 * sphere_m * below_m - below_m**2)
    falls_m = (AREA * deeper_m - disc_m2 * floor_m) / (pi * RADIUS**2)
    head_m = off.greatest_head_m - usual.greatest_head_m
    assert head_m == pytest.approx(overflow_m + falls_m, abs=1e-4)
    assert (off.greatest_pressure_pa - usual.greatest_pressure_pa) / 1000 == pytest.approx(KPA_A_METRE * head_m)
