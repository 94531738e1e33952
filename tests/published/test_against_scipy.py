"""The library `scipy`: volumes and areas by integration, levels and pressures by bracketed roots, slopes by differences."""

from dataclasses import replace
from math import acos, exp, pi, sin, sqrt

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp
from scipy.interpolate import RegularGridInterpolator
from scipy.optimize import approx_fprime, brentq

from calc import digestion, ground, stability
from calc import gas_use as u
from calc import geometry as g
from calc import sources as s
from calc import tightness as t
from calc import vessel as v
from calc import watertight as w
from calc.designs import drawing, for_gas, for_volume
from calc.gas_use import Session
from calc.levels import solve, under_pressure
from calc.takeoff import tight_area_m2
from calc.tightness import Air
from calc.vessel import BOTTOMS, Vessel, shape, volume_below
from tests import section

LENGTH = st.floats(0.05, 5)
SHARE = st.floats(0.01, 1.99)  # of a sphere's radius
ROUND = drawing(Vessel(1.35, 0.70, 1.05, "flat"), 1.27, (1.70, 1.30, 0.65), dome="concrete")
PLANT = for_volume(8.0, 24, form=shape("cylinder_cap", "flat"))
DOME = for_gas(2.0)
TOP_PA = PLANT.levels.greatest_pressure_pa
DAY = (Session(6, 2, 0.3), Session(12, 1, 0.3), Session(18, 2, 0.6))
between = RegularGridInterpolator((s.YIELD_TEMPS_C, s.YIELD_DAYS), s.YIELD_L_KG)


@st.composite
def tanks(draw):
    radius, bottom = draw(st.floats(0.8, 2)), draw(st.sampled_from(BOTTOMS))
    depth = 0.0 if bottom == "flat" else draw(st.floats(0.2, 0.6)) * radius
    return Vessel(radius, draw(st.floats(0.4, 1.1)) * radius, draw(st.sampled_from([0.0, 0.6, 1.0])), bottom, depth)


@st.composite
def chambers(draw):
    """A vessel, its zero line, and the area and depth of a chamber that takes less than lies below the line."""
    tank = draw(tanks())
    zero_m = draw(st.floats(0.3, 0.95)) * tank.crown_m
    area, deep = draw(st.floats(0.2, 4.0)), draw(st.floats(0.2, 0.9))
    assume(area * deep < 0.95 * volume_below(tank, zero_m))
    return tank, zero_m, area, deep


@given(LENGTH, SHARE)
def test_a_cap_is_the_sum_of_its_slices(sphere, share):
    rise = share * sphere
    rim = g.cap_rim_radius(sphere, rise)
    total, _ = quad(lambda t: pi * (2 * sphere * t - t**2), 0, rise)  # t below the crown
    assert g.cap_volume(rim, rise) == pytest.approx(total)


@given(LENGTH, SHARE)
def test_the_area_of_a_cap_is_the_sum_of_its_rings(sphere, share):
    rise = share * sphere
    rim = g.cap_rim_radius(sphere, rise)
    total, _ = quad(lambda angle: 2 * pi * sphere**2 * sin(angle), 0, acos(1 - share))
    assert g.cap_area(rim, rise) == pytest.approx(total)


@given(LENGTH, SHARE)
def test_the_slant_is_the_arc(sphere, share):
    rise = share * sphere
    total, _ = quad(lambda angle: sphere, 0, acos(1 - share))
    assert g.cap_slant(g.cap_rim_radius(sphere, rise), rise) == pytest.approx(total, rel=1e-6)


@given(LENGTH, LENGTH, st.floats(0.05, 3))
def test_a_frustum_is_the_sum_of_its_slices(lower, upper, height):
    total, _ = quad(lambda z: pi * (lower + (upper - lower) * z / height) ** 2, 0, height)
    assert g.frustum_volume(lower, upper, height) == pytest.approx(total)


@given(LENGTH, st.floats(0.1, 1.5), st.floats(0.01, 0.2))
def test_a_shell_is_the_outer_sphere_less_the_inner_one_above_the_rim(rim, flatness, thickness):
    rise = flatness * rim
    sphere = (rim**2 + rise**2) / (2 * rise)
    centre = rise - sphere  # above the rim plane
    outer, _ = quad(lambda z: pi * ((sphere + thickness) ** 2 - (z - centre) ** 2), 0, rise + thickness)
    inner, _ = quad(lambda z: pi * (sphere**2 - (z - centre) ** 2), 0, rise)
    assert g.shell_volume(rim, rise, thickness) == pytest.approx(outer - inner, rel=1e-6)


@given(tanks(), st.floats(0, 1))
def test_the_volume_below_a_level_is_the_sum_of_the_slices_below_it(tank, part):
    level_m = part * tank.crown_m
    edges = [0.0, *(edge for edge in (tank.bottom_depth_m, tank.spring_m) if edge < level_m), level_m]
    total = sum(quad(lambda z: pi * section.radius_m(tank, z) ** 2, low, high)[0] for low, high in zip(edges, edges[1:], strict=False))
    assert v.volume_below(tank, level_m) == pytest.approx(total, abs=1e-7)


@given(tanks(), st.floats(0.01, 0.99))
def test_the_level_is_the_root_that_bracketing_finds(tank, part):
    volume_m3 = part * tank.inside_m3
    root = brentq(lambda level_m: v.volume_below(tank, level_m) - volume_m3, 0, tank.crown_m, xtol=1e-12)
    assert v.level_of(tank, volume_m3) == pytest.approx(root, abs=1e-8)


@given(chambers())
def test_the_lowest_slurry_level_is_the_root_that_bracketing_finds(plant):
    tank, zero_m, area_m2, depth_m = plant
    left_m3 = volume_below(tank, zero_m) - area_m2 * depth_m
    root = brentq(lambda level_m: volume_below(tank, level_m) - left_m3, 0, zero_m, xtol=1e-12)
    assert solve(*plant).lowest_m == pytest.approx(root, abs=1e-8)


@given(st.floats(0.01, 0.99))
def test_the_gas_over_the_slurry_is_the_sum_of_its_slices(part):
    stands = under_pressure(PLANT.vessel, PLANT.levels, part * TOP_PA)
    tank = PLANT.vessel
    edges = sorted({stands.inside_m, max(stands.inside_m, tank.spring_m), tank.crown_m})
    slices = sum(quad(lambda z: pi * section.radius_m(tank, z) ** 2, low, high)[0] for low, high in zip(edges, edges[1:], strict=False))
    assert stands.gas_m3 == pytest.approx(slices, rel=1e-6)


@pytest.mark.parametrize("lost", [0.0, 0.004, 0.02, 0.05, 0.08])
def test_gas_lost_through_a_seal_is_found_again(lost):
    start = Air(7600, 25, 100000)
    gas_m3 = under_pressure(DOME.vessel, DOME.levels, 7600).gas_m3
    moles = start.dry_pa * gas_m3 * (1 - lost)

    def too_much(pressure_pa):
        return Air(pressure_pa, 25, 100000).dry_pa * under_pressure(DOME.vessel, DOME.levels, pressure_pa).gas_m3 - moles

    end_pa = brentq(too_much, 10, 7700, xtol=1e-7)
    assert t.seal_lost(DOME, start, Air(end_pa, 25, 100000)) == pytest.approx(lost, abs=1e-7)


@pytest.mark.parametrize("lost", [0.0, 0.02, 0.05])
@pytest.mark.parametrize(("second_c", "second_pa"), [(15, 100000), (35, 100000), (30, 101500), (20, 98500)])
def test_gas_lost_through_a_seal_in_other_weather_is_found_again(lost, second_c, second_pa):
    """Dry moles P V / (R T) by 273.15 and the vapour of the formula; the root finder gives the pressure of what is left."""

    def moles(pressure_pa, temp_c, barometer_pa):
        dry_pa = barometer_pa + pressure_pa - 611.2 * exp(17.62 * temp_c / (243.12 + temp_c))
        return dry_pa * under_pressure(DOME.vessel, DOME.levels, pressure_pa).gas_m3 / (temp_c + 273.15)

    left = moles(6500, 25, 100000) * (1 - lost)
    end_pa = brentq(lambda pressure_pa: moles(pressure_pa, second_c, second_pa) - left, 10, 7840, xtol=1e-7)
    assert t.seal_lost(DOME, Air(6500, 25, 100000), Air(end_pa, second_c, second_pa)) == pytest.approx(lost, abs=1e-7)


@given(st.floats(0, 0.05))
def test_water_gone_is_the_sum_of_its_slices(drop_m):
    zero_m = DOME.levels.zero_line_m
    tank = DOME.vessel

    def area_m2(z):
        return pi * section.radius_m(tank, z) ** 2 + 0.6**2

    gone = quad(area_m2, zero_m - drop_m, zero_m)[0]
    assert w.water_missing_m3(DOME, drop_m) == pytest.approx(gone, abs=1e-7)


@given(st.floats(12, 48))
def test_two_marks_tell_a_day_to_a_share_of_two_millimetres(hours):
    tank, zero_m = DOME.vessel, DOME.levels.zero_line_m
    gone_m3 = quad(lambda z: pi * section.radius_m(tank, z) ** 2 + 0.6**2, zero_m - 0.002, zero_m)[0]
    assert w.unsure(DOME, hours) == pytest.approx(gone_m3 / tank.inside_m3 * 24 / hours, rel=1e-4)


def test_a_day_that_neither_empties_nor_fills_integrates():
    rate = lambda hour, held: [2.0 / 24 - sum(each.rate_m3_h for each in DAY if each.burns_at(hour % 24))]  # noqa: E731
    path = solve_ivp(rate, (0, 24), [0.8], max_step=0.02)
    found = u.week(for_gas(6.0), DAY, 2.0, start_m3=0.8, days=1)
    assert found.short_m3 == found.lost_m3 == 0
    assert found.end_m3 == pytest.approx(path.y[0][-1], abs=0.01)
    assert found.smallest_m3 == pytest.approx(path.y[0].min(), abs=0.01)


@given(st.floats(15, 33), st.floats(30, 100))
def test_the_yield_between_cells_is_that_of_another_interpolator(temp_c, days):
    assert digestion.yield_l_kg(temp_c, days) == pytest.approx(float(between((temp_c, days))))


def test_a_root_finder_finds_the_same_height_on_a_flat_base():
    weight_n = sum(ground.weights_n(ROUND).values())
    height_m = brentq(lambda water_m: weight_n - 1.2 * stability.uplift_n(ROUND.outer_radius_m, water_m), 0, 5)
    assert ground.float_height_m(ROUND) == pytest.approx(height_m)


def test_the_slopes_of_the_volume_are_those_of_finite_differences():
    slopes = approx_fprime([1.35, 0.70, 1.05], lambda x: Vessel(*x, "flat").inside_m3, 1e-7)
    assert slopes == pytest.approx([2 * pi * 1.35 * 1.05 + pi * 1.35 * 0.70, pi * (1.35**2 + 0.70**2) / 2, pi * 1.35**2], rel=1e-5)


def meridian_m2(tank, level_m):
    """Inside area above a level by rings along the section, the floor of a flat bottom left out."""
    dome, bowl = ((tank.radius_m**2 + h**2) / (2 * h) if h else 0 for h in (tank.dome_rise_m, tank.bottom_depth_m))
    total = 2 * pi * dome * (tank.crown_m - max(level_m, tank.spring_m))
    if level_m < tank.spring_m:
        total += 2 * pi * tank.radius_m * (tank.spring_m - max(level_m, tank.bottom_depth_m))
    if level_m < tank.bottom_depth_m:
        run = tank.radius_m / tank.bottom_depth_m

        def ring(z):
            if tank.bottom == "cone":
                return 2 * pi * run * z * sqrt(1 + run**2)
            x = sqrt(2 * bowl * z - z**2)
            return 2 * pi * x * sqrt(1 + ((bowl - z) / x) ** 2)

        total += quad(ring, max(level_m, 1e-9), tank.bottom_depth_m)[0]
    return total


@given(tanks(), st.floats(0.12, 0.9))
def test_the_tight_area_is_that_of_the_rings_down_to_ten_centimetres_under_the_lowest_slurry(tank, part):
    lowest_m = part * tank.crown_m
    assume(lowest_m > 0.101)
    plant = replace(ROUND, vessel=tank, levels=replace(ROUND.levels, lowest_m=lowest_m))
    assert tight_area_m2(plant) == pytest.approx(meridian_m2(tank, lowest_m - 0.10), rel=1e-6)
