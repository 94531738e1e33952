"""What follows from the dimensions of one plant, worked by hand on a round wall and on a dome that overhangs its rim."""

from dataclasses import replace
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import design as d
from calc import sizing
from calc.designs import drawing, for_gas
from calc.errors import OutOfRange, Unknown
from calc.levels import solve
from calc.vessel import Vessel, shape, volume_below

# A wall of 1.05 m on a flat floor, rise 0.70 m; chamber 1.70 x 1.30 x 0.65 m from 1.27 m above the floor
ROUND = drawing(Vessel(1.35, 0.70, 1.05, "flat"), 1.27, (1.70, 1.30, 0.65), dome="concrete")
# A dome of more than a hemisphere: rim 0.6 m, rise 1.8 m, sphere of 1.0 m, on a bowl 0.2 m deep
BALL = drawing(Vessel(0.6, 1.8, 0.0, "bowl", 0.2), 1.4, (1.0, 0.8, 0.5), form="cap_on_bowl")


def test_levels_of_ground_and_pit_round_a_wall():
    assert ROUND.levels.overflow_m == pytest.approx(1.92)
    assert ROUND.ground_m == pytest.approx(1.87)  # the lip stands 5 cm over it
    assert ROUND.pit_depth_m == pytest.approx(1.97)  # 10 cm of base under the floor
    assert ROUND.deepest_m == pytest.approx(1.97)
    assert ROUND.outer_radius_m == pytest.approx(1.475)  # 0.11 m of brick, 0.015 m of plaster
    assert ROUND.pit_diameter_m == pytest.approx(3.15)  # and 0.10 m of working space
    assert ROUND.pit_volume_m3 == pytest.approx(pi * 1.575**2 * 1.97)
    assert ROUND.base_area_m2 == pytest.approx(pi * 1.575**2)
    assert ROUND.base_volume_m3 == pytest.approx(0.1 * pi * 1.575**2)


def test_levels_and_width_of_a_dome_wider_than_its_rim():
    assert BALL.vessel.sphere_radius_m == pytest.approx(1.0)
    assert BALL.outer_radius_m == pytest.approx(1.085)  # 0.07 m of brick on the sphere, 0.015 m of plaster
    assert BALL.pit_diameter_m == pytest.approx(2.37)
    assert BALL.ground_m == pytest.approx(1.85)
    assert BALL.pit_depth_m == pytest.approx(1.75)  # the floor's edge is 0.2 m up, the base 0.1 m down
    assert BALL.deepest_m == pytest.approx(1.95)  # ground, and the base under the middle
    dish_m3 = pi * 0.2 * (3 * 1.185**2 + 0.2**2) / 6
    assert BALL.pit_volume_m3 == pytest.approx(pi * 1.185**2 * 1.75 + dish_m3)
    assert BALL.base_area_m2 == pytest.approx(pi * (1.185**2 + 0.2**2))


def test_a_cone_under_a_wall_is_dug_as_a_cone():
    cone = drawing(Vessel(1.2, 0.5, 1.0, "cone", 0.3), 1.4, (1.2, 1.0, 0.5))
    radius = cone.pit_diameter_m / 2
    assert cone.base_area_m2 == pytest.approx(pi * radius * (radius**2 + 0.3**2) ** 0.5)
    assert cone.pit_volume_m3 == pytest.approx(pi * radius**2 * (cone.pit_depth_m + 0.1))


def test_the_numbers_of_a_drawing_rule():
    drawn = drawing(ROUND.vessel, 1.27, (1.70, 1.30, 0.65), pit_diameter_m=3.40, pit_depth_m=2.0)
    assert (drawn.pit_diameter_m, drawn.pit_depth_m, drawn.deepest_m) == (3.40, 2.0, 2.0)
    assert drawn.pit_volume_m3 == pytest.approx(pi * 1.7**2 * 2)


def test_cover_is_at_least_sixty_centimetres_and_more_where_the_gas_would_lift_the_dome():
    # head 0.928 m of 1050 kg/m3: 9557 Pa; (1.2 x 9557 - 1800) / 15 000 = 0.6446 m
    assert ROUND.cover_m == pytest.approx(0.6446, abs=0.0005)
    low = drawing(ROUND.vessel, 1.27, (1.70, 1.30, 0.40), dome="concrete")
    assert low.levels.greatest_head_m < 0.7
    assert low.cover_m == 0.60


def test_a_plant_at_its_greatest_pressure_still_has_a_cover():
    steep = drawing(Vessel(1.99, 0.88, 1.15, "flat"), 1.37, (2.64, 1.76, 0.86), dome="concrete")
    assert 11_500 < steep.levels.greatest_pressure_pa < 12_000
    head_pa = 1.05 * steep.levels.greatest_pressure_pa
    assert steep.cover_m == pytest.approx((1.2 * head_pa - 1800) / 15_000)


def test_two_retention_times_and_neither_without_a_feed():
    assert ROUND.retention_times_d is None
    fed = replace(ROUND, feed=sizing.feed_from_dung(48))  # 96 l a day
    to_zero, to_lowest = fed.retention_times_d
    assert to_zero == pytest.approx(volume_below(ROUND.vessel, 1.27) / 0.096)
    assert to_zero - to_lowest == pytest.approx(1.4365 / 0.096)  # the store of 1.7 x 1.3 x 0.65 m3


def test_the_first_fill_ends_at_the_zero_line():
    assert BALL.volume_to_zero_line_m3 == pytest.approx(volume_below(BALL.vessel, 1.4))


@given(st.floats(0.5, 7), st.sampled_from(["cap_on_bowl", "cylinder_cap"]), st.sampled_from(d.DOMES))
def test_the_passage_stays_under_the_lowest_slurry_and_the_pit_under_the_ground(gas_m3_per_day, name, dome):
    plant = for_gas(gas_m3_per_day, form=shape(name), dome=dome)
    assert plant.passage_top_m == pytest.approx(plant.levels.lowest_m - 0.05)
    assert plant.deepest_m == pytest.approx(plant.ground_m + 0.10)
    assert plant.pit_diameter_m > 2 * plant.outer_radius_m > 2 * plant.vessel.radius_m
    assert plant.cover_m >= 0.60


# ---- shells


@pytest.mark.parametrize(("dome", "thick_m"), [("brick", 0.070), ("ferrocement", 0.030), ("concrete", 0.075)])
def test_a_dome_is_as_thick_as_it_is_built(dome, thick_m):
    assert d.shell_thickness(dome) == thick_m
    assert for_gas(2.0, dome=dome).shell_thickness_m == thick_m


def test_a_dome_nobody_builds_has_no_thickness():
    with pytest.raises(Unknown):
        d.shell_thickness("straw")


# ---- what may not be built, and what should be looked at


def with_levels(zero_line_m, area_m2, depth_m):
    return replace(ROUND, levels=solve(ROUND.vessel, zero_line_m, area_m2, depth_m))


def test_over_twelve_kilopascals_nothing_is_built():
    # 12 000 / 9806.65 = 1.2237 m of head: 1.0417 m of chamber and 1.0417 / 5.7256 m that the slurry falls inside
    assert d.checked(with_levels(1.0, 1.0, 1.041)).levels.greatest_pressure_pa < 12_000
    with pytest.raises(OutOfRange) as error:
        d.checked(with_levels(1.0, 1.0, 1.043))
    assert error.value.name == "greatest_pressure_pa"


def test_a_zero_line_in_the_crown_is_not_built():
    with pytest.raises(OutOfRange) as error:
        d.checked(with_levels(1.75, 1.0, 0.5))
    assert error.value.name == "zero_line_m"


def test_an_emptied_digester_is_not_built():
    full = volume_below(ROUND.vessel, 0.5)
    with pytest.raises(OutOfRange) as error:
        d.checked(with_levels(0.5, full / 0.5, 0.5))
    assert error.value.name == "zero_line_m"


def found(made):
    return {what: (value, limit, unit) for what, value, limit, unit in d.findings(made)}


def test_a_plain_plant_has_nothing_to_look_at():
    assert found(for_gas(2.0)) == {}


def test_a_plant_of_nine_kilopascals_wants_more_soil_than_the_usual():
    # its head, 0.928 m, in slurry of 1050 kg/m3 is 9556 Pa: (1.2 x 9556 - 24 000 x 0.075) / 15 000
    assert set(found(ROUND)) == {"soil_cover"}
    value, limit, unit = found(ROUND)["soil_cover"]
    assert (limit, unit) == (0.60, "m")
    assert value == pytest.approx((1.2 * 9556 - 1800) / 15_000, abs=1e-3)


def test_concrete_is_heavier_than_brickwork_and_wants_less_soil():
    brick = replace(ROUND, dome="brick")
    assert (brick.shell_n_m3, ROUND.shell_n_m3) == (18_000, 24_000)
    assert brick.cover_m - ROUND.cover_m == pytest.approx(6000 * 0.075 / 15_000)


def test_a_bare_dome_is_pulled_and_one_under_its_cover_is_not():
    # (9556 - 1800) x 1.6518 / (2 x 0.075)
    assert ROUND.crown_tension_pa() == pytest.approx((9556 - 1800) * 1.65179 / 0.150, rel=1e-3)
    assert ROUND.crown_tension_pa(ROUND.cover_m) == 0


def test_two_layers_of_light_mesh_are_less_than_is_asked_of_ferrocement():
    # 2 x pi x 1 / (2 x 12.7 x 30) of the skin is wire, with 4 mm2 of surface to each mm3
    share = 2 * pi / (2 * 12.7 * 30)
    looked_at = found(for_gas(2.0, dome="ferrocement"))
    assert looked_at["mesh_share"] == (pytest.approx(share), 0.035, "1")
    assert looked_at["mesh_surface"] == (pytest.approx(4000 * share), 160, "m2/m3")


def test_mesh_close_enough_is_not_looked_at(monkeypatch):
    monkeypatch.setattr(d.s, "MESH_LAYERS", 10)  # 10 x pi / (2 x 12.7 x 30) = 4.1 %, and 165 m2/m3
    assert not {"mesh_share", "mesh_surface"} & set(found(for_gas(2.0, dome="ferrocement")))


def test_over_ten_kilopascals_is_looked_at():
    # 10 000 / 9806.65 = 1.0197 m
    assert "greatest_pressure" not in found(with_levels(1.0, 1.0, 0.85))
    value, limit, unit = found(with_levels(1.0, 1.0, 0.90))["greatest_pressure"]
    assert (limit, unit) == (10_000, "Pa")
    assert value == pytest.approx((0.90 + 0.90 / (pi * 1.35**2)) * 9806.65)


def test_a_zero_line_near_the_crown_is_looked_at():
    assert "headroom" not in found(with_levels(1.49, 1.0, 0.3))
    assert found(with_levels(1.51, 1.0, 0.3))["headroom"] == (pytest.approx(0.24), 0.25, "m")


def test_a_passage_too_low_to_build_is_looked_at():
    area = pi * 1.35**2  # a chamber as wide as the digester: the slurry falls by the depth of the chamber
    assert "passage" not in found(with_levels(0.80, area, 0.44))
    assert found(with_levels(0.80, area, 0.46))["passage"] == (pytest.approx(0.29), 0.30, "m")
