"""Brickwork, shells, ferrocement and bars, each against arithmetic a reader can repeat."""

from math import cos, nan, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import masonry
from calc import sources as s
from calc.errors import Missing, OutOfRange, Unknown
from calc.masonry import Brick

INDIAN = Brick(0.230, 0.110, 0.070)
MODULAR = Brick(0.190, 0.090, 0.090)
BRICK = st.builds(Brick, st.floats(0.18, 0.26), st.floats(0.08, 0.13), st.floats(0.05, 0.10))
JOINT = st.floats(0.005, 0.015)


@given(BRICK, JOINT)
def test_bricks_fill_more_than_half_of_the_wall(brick, joint_m):
    assert 0.5 < masonry.bricks_per_m3(brick, joint_m) * brick.volume_m3 < 1


@given(BRICK, JOINT)
def test_thicker_joints_take_fewer_bricks(brick, joint_m):
    assert masonry.bricks_per_m3(brick, joint_m + 0.002) < masonry.bricks_per_m3(brick, joint_m)


@given(BRICK)
def test_without_joints_there_is_no_mortar(brick):
    assert masonry.bricks_per_m3(brick, 0) * brick.volume_m3 == pytest.approx(1)


def test_a_square_metre_of_half_brick_and_of_quarter_brick():
    half = masonry.single_leaf(1.0, INDIAN, "half")  # 1 / (0.24 x 0.08); 0.11 m3 less 52.08 x 0.001771
    quarter = masonry.single_leaf(1.0, INDIAN, "quarter")  # 1 / (0.24 x 0.12); 0.07 m3 less 34.72 x 0.001771
    assert (half.bricks, quarter.bricks) == pytest.approx((52.08, 34.72), abs=0.01)
    assert (half.mortar_m3, quarter.mortar_m3) == pytest.approx((0.01776, 0.00851), abs=0.00001)
    assert half.mortar_to_buy_m3 == pytest.approx(1.5 * half.mortar_m3)
    assert half.outer_joints_m == ()


def test_a_half_brick_hemisphere():
    found = masonry.dome_shell(1.5, 1.5, INDIAN, "half")  # 14.137 m2 / 0.0192; 2/3 pi (1.61^3 - 1.5^3)
    assert found.bricks == pytest.approx(736.3, abs=0.1)
    assert found.volume_m3 == pytest.approx(1.6719, abs=0.0001)
    assert found.mortar_m3 == pytest.approx(1.6719 - 736.3 * 0.001771, abs=0.0005)
    assert found.outer_joints_m == pytest.approx((0.0276, 0.0159), abs=0.0001)


def test_a_quarter_brick_hemisphere():
    found = masonry.dome_shell(1.5, 1.5, INDIAN)
    assert found.volume_m3 == pytest.approx(1.0365, abs=0.0001)
    assert found.mortar_m3 == pytest.approx(0.1672, abs=0.0003)


def test_only_the_ends_of_bricks_open_in_a_round_wall():
    found = masonry.round_wall(1.5, 1.0, INDIAN)
    assert found.outer_joints_m[0] == pytest.approx(0.24 * 1.61 / 1.5 - 0.23)
    assert found.outer_joints_m[1] == 0.010
    assert found.mortar_m3 == pytest.approx(0.2054, abs=0.0003)


@given(st.floats(0.6, 3), st.floats(0.2, 1.0), BRICK, JOINT, st.sampled_from(["quarter", "half"]))
def test_a_shell_is_its_bricks_and_its_mortar(radius_m, flatness, brick, joint_m, leaf):
    found = masonry.dome_shell(radius_m, radius_m * flatness, brick, leaf, joint_m)
    assert found.bricks * brick.volume_m3 + found.mortar_m3 == pytest.approx(found.volume_m3)
    assert found.mortar_m3 > 0
    assert min(found.outer_joints_m) > joint_m


@given(st.floats(0.6, 3), st.floats(0.3, 2), BRICK, JOINT)
def test_a_wider_wall_takes_more_bricks_and_opens_less(radius_m, height_m, brick, joint_m):
    near = masonry.round_wall(radius_m, height_m, brick, joint_m=joint_m)
    wide = masonry.round_wall(radius_m + 0.5, height_m, brick, joint_m=joint_m)
    assert wide.bricks > near.bricks
    assert wide.outer_joints_m[0] < near.outer_joints_m[0]


def test_a_very_wide_round_wall_is_a_flat_leaf():
    wide = masonry.round_wall(1e5, 1.0, MODULAR)
    flat = masonry.single_leaf(2 * pi * 1e5, MODULAR)
    assert wide.bricks == pytest.approx(flat.bricks)
    assert wide.mortar_m3 == pytest.approx(flat.mortar_m3, rel=1e-4)


def test_the_volume_of_a_flat_dome_against_a_sum_of_rings():
    radius_m, rise_m, thick_m = 1.35, 0.70, 0.070
    sphere_m = (radius_m**2 + rise_m**2) / (2 * rise_m)
    steps = 4000
    total = 0.0
    for k in range(steps):  # rings of the shell cut by the level of the rim
        outer_m = sphere_m + thick_m
        z = (sphere_m - rise_m) + (k + 0.5) * (outer_m - sphere_m + rise_m) / steps
        inner2 = sphere_m**2 - z**2
        total += pi * (outer_m**2 - z**2 - (inner2 if inner2 > 0 else 0)) * (outer_m - sphere_m + rise_m) / steps
    assert masonry.dome_shell(radius_m, rise_m, INDIAN).volume_m3 == pytest.approx(total, rel=1e-4)


@pytest.mark.parametrize("lengths", [(0, 0.1, 0.1), (0.2, -0.1, 0.1), (0.2, 0.1, nan)])
def test_a_brick_has_three_lengths(lengths):
    with pytest.raises(OutOfRange):
        Brick(*lengths)


def test_what_is_not_covered_is_not_reckoned():
    with pytest.raises(Unknown):
        masonry.dome_shell(1.5, 1.5, INDIAN, "double")
    with pytest.raises(Unknown):
        masonry.single_leaf(1.0, INDIAN, "quater")
    with pytest.raises(OutOfRange):
        masonry.round_wall(1.5, 1.0, INDIAN, joint_m=0.040)
    with pytest.raises(OutOfRange):
        masonry.dome_shell(0, 1.5, INDIAN)
    with pytest.raises(Missing):
        masonry.single_leaf(None, INDIAN)


# ---- ferrocement


def test_one_layer_of_half_inch_mesh():
    found = masonry.ferrocement(1.0, 0.030, 1, 0.001, 0.0127)  # Sr = 4 x 0.00412 / 1 mm = 16.5 m2/m3
    assert found.surface_m2_m3 == pytest.approx(16.5, abs=0.05)
    assert found.mesh_kg == pytest.approx(0.971 * 1.15, abs=0.001)


@given(st.floats(1, 30), st.floats(0.02, 0.05), st.integers(1, 8), st.floats(0.0005, 0.002), st.floats(0.006, 0.05))
def test_layers_of_mesh_add_up(area_m2, thickness_m, layers, wire_m, spacing_m):
    one = masonry.ferrocement(area_m2, thickness_m, 1, wire_m, spacing_m)
    many = masonry.ferrocement(area_m2, thickness_m, layers, wire_m, spacing_m)
    assert many.steel_share == pytest.approx(layers * one.steel_share)
    assert many.mesh_kg == pytest.approx(layers * one.mesh_kg)
    assert many.mortar_m3 == one.mortar_m3


@given(st.floats(0.02, 0.05), st.integers(1, 8), st.floats(0.0005, 0.002), st.floats(0.006, 0.05))
def test_the_steel_share_is_the_steel_in_the_skin(thickness_m, layers, wire_m, spacing_m):
    found = masonry.ferrocement(1.0, thickness_m, layers, wire_m, spacing_m)
    assert found.mesh_kg / s.MESH_LAPS / 7850 / thickness_m == pytest.approx(found.steel_share)


@pytest.mark.parametrize(
    "bad",
    [(-1, 0.03, 2, 0.001, 0.0127), (1, 0, 2, 0.001, 0.0127), (1, 0.03, 0, 0.001, 0.0127), (1, 0.03, 2, 0.02, 0.0127)],
)
def test_ferrocement_without_a_measure_is_not_reckoned(bad):
    with pytest.raises(OutOfRange):
        masonry.ferrocement(*bad)


# ---- bars


def test_a_cover_slab_and_its_mass():
    found = masonry.slab_bars(1.2, 0.6, 0.150, 0.025, 0.008)  # 10.70 m of 0.3946 kg/m
    assert found.mass_kg == pytest.approx(4.22, abs=0.005)


def test_a_side_of_whole_spacings_takes_one_bar_more():
    assert masonry.slab_bars(0.65, 0.65, 0.150, 0.025, 0.008).along == 5  # 0.60 is four spacings


@given(st.floats(0.3, 3), st.floats(0.3, 3), st.floats(0.05, 0.3))
def test_no_gap_between_bars_is_wider_than_the_spacing(length_m, width_m, spacing_m):
    found = masonry.slab_bars(length_m, width_m, spacing_m, 0.025, 0.008)
    assert (width_m - 0.05) / (found.along - 1) <= spacing_m * (1 + 1e-6)
    assert (length_m - 0.05) / (found.across - 1) <= spacing_m * (1 + 1e-6)


@given(st.floats(0.3, 2), st.floats(0.05, 0.3))
def test_round_slab_bars_lie_inside_the_cover(diameter_m, spacing_m):
    found = masonry.round_slab_bars(diameter_m, spacing_m, 0.025, 0.008)
    assert found.along % 2 == 1
    assert found.along * spacing_m < diameter_m - 0.05 + spacing_m
    assert found.length_m <= 2 * found.along * (diameter_m - 0.05)


def test_round_slab_bars_against_their_angles():
    radius_m = 0.325
    longest_m, half = (
        2 * radius_m,
        [2 * radius_m * sin(angle) for angle in (1.091, 0.3948)],
    )  # acos(0.15/R), acos(0.3/R)
    assert [radius_m * cos(angle) for angle in (1.091, 0.3948)] == pytest.approx([0.15, 0.30], abs=0.0005)
    found = masonry.round_slab_bars(0.70, 0.150, 0.025, 0.008)
    assert found.length_m == pytest.approx(2 * (longest_m + 2 * sum(half)), rel=0.002)


@pytest.mark.parametrize(
    "bad",
    [
        (1.2, 0.6, 0.35, 0.025, 0.008),
        (1.2, 0.6, 0.15, 0.015, 0.008),
        (1.2, 0.6, 0.15, 0.025, 0.05),
        (0.05, 0.6, 0.15, 0.025, 0.008),
    ],
    ids=["bars too far apart", "cover too thin", "no such bar", "slab all cover"],
)
def test_slabs_outside_the_rules_are_not_counted(bad):
    with pytest.raises(OutOfRange):
        masonry.slab_bars(*bad)
