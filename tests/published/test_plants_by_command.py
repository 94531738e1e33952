"""Plants of several books through the command line, as an engineer would try them: `pegline design` in a process of its own.

GGC 2047 (Nepal), 4 to 20 m3: dimensions recalled from the programme's drawing, from memory, to be confirmed in print; the
sizes are the names of the plants, the 4 m3 row agrees with Fulford's notes, and the retention of 70 days is printed in the
Construction Manual of 1994 (6 kg of dung and as much water a day for each m3).
Chinese round digesters: rises D/5 and D/8, wall 1.0 m (Guangxi study quoting GB/T 4750-2002), D of 2.7 and 3.0 m in an
abstract, the others from memory; filled 90 % at most.
Hemisphere on a bowl: 1.275, 2.015, 2.550 m (Fulford, design notes on domes and bowls).
SNV: total 4.68, store 0.9, dead space 0.78, gas zone 1.68 m3, R about 1.3 m (ter Heegde 2010, size 1).
What is not printed is integrated here, disc by disc, with scipy.
"""

import json
import os
from math import pi, sqrt

import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

from tests import warm

SLICE = 1e-9
GGC = {  # name m3: chamber length, width, depth; radius, wall, floor to crown, floor to chamber floor [cm]
    4: (140, 120, 50, 102, 86, 151, 112),
    6: (150, 120, 60, 122, 92, 160, 116),
    8: (170, 130, 65, 135, 105, 175, 127),
    10: (180, 125, 68, 154, 94, 171, 124),
    15: (248, 125, 84, 175, 115, 193, 132),
    20: (264, 176, 86, 199, 115, 203, 137),
}
CHINESE = {4: 2.0, 6: 2.4, 8: 2.7, 10: 3.0, 12: 3.2}  # name m3: inside diameter [m]
SNV_TOTAL_M3, SNV_STORE_M3, SNV_DEAD_M3, SNV_GAS_ZONE_M3 = 4.68, 0.9, 0.78, 1.68


def cap(rim_m, rise_m, below_top_m):
    """Radius of a cap at a depth below its top."""
    sphere_m = (rim_m**2 + rise_m**2) / (2 * rise_m)
    return sqrt(max(2 * sphere_m * below_top_m - below_top_m**2, 0))


def turned(radius_at, low_m, high_m):
    return quad(lambda z: pi * radius_at(z) ** 2, low_m, high_m, epsabs=SLICE)[0]


def inside(vessel, up_to_m=None):
    """Volume of a drawn vessel up to a level, by discs."""
    radius_m, rise_m, wall_m, bowl_m = (vessel[name] for name in ("radius_m", "dome_rise_m", "wall_height_m", "bottom_depth_m"))
    spring_m, crown_m = bowl_m + wall_m, bowl_m + wall_m + rise_m
    top_m = crown_m if up_to_m is None else up_to_m
    bowl = turned(lambda z: cap(radius_m, bowl_m, z), 0, min(bowl_m, top_m)) if bowl_m else 0.0
    wall = pi * radius_m**2 * (min(spring_m, top_m) - bowl_m)
    return bowl + wall + turned(lambda z: cap(radius_m, rise_m, crown_m - z), spring_m, max(top_m, spring_m))


def drawn(name, vessel, zero_line_m, chamber_m, **more):
    rows = {"name": name, **vessel, "bottom": "bowl" if vessel["bottom_depth_m"] else "flat", "zero_line_m": zero_line_m}
    return {**rows, **dict(zip(("chamber_length_m", "chamber_width_m", "chamber_depth_m"), chamber_m, strict=True)), **more}


def vessel(radius_m, rise_m, wall_m=0.0, bowl_m=0.0):
    return {"radius_m": radius_m, "dome_rise_m": rise_m, "wall_height_m": wall_m, "bottom_depth_m": bowl_m}


def ggc(size, row):
    length, width, depth, radius, wall, crown, floor = (each / 100 for each in row)
    feed = {"dung_kg_per_day": 6.0 * size}
    return drawn(f"ggc {size}", vessel(radius, crown - wall, wall), floor, (length, width, depth), **feed)


def chinese(size, across_m):
    tank = vessel(across_m / 2, across_m / 5, 1.0, across_m / 8)
    full_m = brentq(lambda z: inside(tank, z) - 0.9 * inside(tank), 1.0, 1.0 + across_m * (1 / 5 + 1 / 8) - 0.01)
    return drawn(f"chinese {size}", tank, full_m, (1.5, size / 20, 0.5))


def snv():
    radius_m = (SNV_TOTAL_M3 * 3 / (2 * pi)) ** (1 / 3)
    dome = vessel(radius_m, radius_m)
    zero_line_m = brentq(lambda z: inside(dome, z) - (SNV_TOTAL_M3 - SNV_DEAD_M3), 0.01, radius_m - 0.01)
    side_m = sqrt(pi) * 0.80
    return drawn("snv 1", dome, zero_line_m, (side_m, side_m, SNV_STORE_M3 / side_m**2))


def fulford():
    bowl_m = 2.015 - sqrt(2.015**2 - 1.275**2)
    return drawn("bowl 2", vessel(1.275, 1.275, 0.0, bowl_m), bowl_m + 0.85, (1.5, 1.1, 0.6))


def design(*arguments):
    done = warm.run(["design", "--json", *arguments], dict(os.environ))
    assert done.returncode == 0, done.stderr
    return [json.loads(line) for line in done.stdout.splitlines()]


@pytest.fixture(scope="module")
def plants(tmp_path_factory):
    """Every drawing through one run: {name: (what was drawn, what came back)}."""
    rows = [ggc(*each) for each in GGC.items()] + [chinese(*each) for each in CHINESE.items()] + [snv(), fulford()]
    tables = ["[[drawing]]\n" + "\n".join(f"{key} = {json.dumps(value)}" for key, value in row.items()) for row in rows]
    path = tmp_path_factory.mktemp("plants") / "drawings.toml"
    path.write_text("\n\n".join(tables))
    found = {row["name"]: row for row in design("--drawing", str(path))}
    return {row["name"]: (row, found[row["name"]]) for row in rows}


NAMES = [*(f"ggc {size}" for size in GGC), *(f"chinese {size}" for size in CHINESE), "snv 1", "bowl 2"]


@pytest.mark.parametrize("name", NAMES)
def test_inside_volume_and_volume_to_the_zero_line_are_those_of_the_discs(plants, name):
    row, found = plants[name]
    assert found["inside_volume_m3"] == pytest.approx(inside(row), abs=1e-3)
    assert found["volume_to_zero_line_m3"] == pytest.approx(inside(row, row["zero_line_m"]), abs=1e-3)
    pushed_m3 = inside(row, row["zero_line_m"]) - inside(row, found["lowest_slurry_level_m"])
    assert pushed_m3 == pytest.approx(row["chamber_length_m"] * row["chamber_width_m"] * row["chamber_depth_m"], abs=1e-3)


@pytest.mark.parametrize("size", GGC)
def test_ggc_plants_hold_what_they_are_named_after(plants, size):
    assert plants[f"ggc {size}"][1]["inside_volume_m3"] == pytest.approx(size, rel=0.03)


@pytest.mark.parametrize("size", GGC)
def test_ggc_plants_keep_the_printed_feed_for_the_printed_70_days(plants, size):
    """The manual does not say to which level it counts; to the zero line it is 70 days within 7 %."""
    assert plants[f"ggc {size}"][1]["retention_to_zero_line_d"] == pytest.approx(70, rel=0.07)


@pytest.mark.parametrize("size", CHINESE)
def test_chinese_plants_are_3_to_7_percent_larger_than_their_name(plants, size):
    assert 1.03 <= plants[f"chinese {size}"][1]["inside_volume_m3"] / size <= 1.07


@pytest.mark.parametrize("size", CHINESE)
def test_asked_by_volume_a_chinese_plant_comes_out_with_its_printed_diameter(plants, size):
    total_m3 = inside(plants[f"chinese {size}"][0])
    (found,) = design("--volume-m3", str(total_m3), "--shape", "cylinder-with-cap")
    assert 2 * found["inside_radius_m"] == pytest.approx(CHINESE[size], abs=1e-3)
    assert found["dome_rise_m"] == pytest.approx(CHINESE[size] / 5, abs=1e-3)


def test_the_hemisphere_on_a_bowl_comes_out_by_drawing_and_by_volume(plants):
    row, found = plants["bowl 2"]
    assert found["crown_level_m"] == pytest.approx(1.275 + 2.015 - sqrt(2.015**2 - 1.275**2))
    (asked,) = design("--volume-m3", str(inside(row)))
    assert asked["inside_radius_m"] == pytest.approx(1.275, abs=1e-3)


def test_asked_by_its_2_m3_of_gas_the_hemisphere_on_a_bowl_is_within_6_percent_as_another_model_was():
    (named,) = design("--gas-m3-per-day", "2")
    assert named["inside_radius_m"] == pytest.approx(1.275, rel=0.06)


def test_the_hemisphere_of_snv(plants):
    found = plants["snv 1"][1]
    assert found["inside_volume_m3"] == pytest.approx(SNV_TOTAL_M3, abs=1e-9)
    assert found["inside_radius_m"] == pytest.approx(1.3, rel=0.01)
    assert found["gas_store_m3"] == pytest.approx(SNV_STORE_M3)
    above_m3 = SNV_TOTAL_M3 - inside(vessel(found["inside_radius_m"], found["inside_radius_m"]), found["lowest_slurry_level_m"])
    assert above_m3 == pytest.approx(SNV_GAS_ZONE_M3, abs=1e-3)
