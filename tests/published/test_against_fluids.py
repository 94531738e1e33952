"""The library `fluids`: partial spheres, vessels with heads, friction and losses of gas in pipes."""

from math import pi

import fluids
import pytest
from fluids.geometry import TANK, SA_partial_sphere, V_partial_sphere
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from calc import gas_pipe
from calc import geometry as g
from calc.units import si
from calc.vessel import BOTTOMS, Vessel, level_of, volume_below

LENGTH = st.floats(0.05, 5)
SHARE = st.floats(0.01, 1.99)  # of a sphere's radius: from a flat cap to nearly the whole sphere


@given(LENGTH, SHARE)
def test_caps_are_the_partial_spheres_of_fluids(sphere, share):
    rise = share * sphere
    rim = g.cap_rim_radius(sphere, rise)
    assert g.cap_volume(rim, rise) == pytest.approx(V_partial_sphere(2 * sphere, rise))
    assert g.sphere_cap_volume(sphere, rise) == pytest.approx(V_partial_sphere(2 * sphere, rise))
    assert g.cap_area(rim, rise) == pytest.approx(SA_partial_sphere(2 * sphere, rise))


@given(LENGTH, st.floats(0.01, 0.99))
def test_the_depth_in_a_sphere_is_the_root_that_bracketing_finds(sphere, part):
    volume = part * 4 / 3 * pi * sphere**3
    depth = brentq(lambda t: V_partial_sphere(2 * sphere, t) - volume, 0, 2 * sphere, xtol=1e-12)
    assert g.sphere_depth(sphere, volume) == pytest.approx(depth, abs=1e-9)


@given(st.floats(1, 1187))
def test_slow_gas_rubs_as_the_library_says(reynolds):
    assert gas_pipe.friction_factor(reynolds) == pytest.approx(fluids.friction.friction_laminar(reynolds))


@given(st.floats(3000, 1e5))
def test_fast_gas_rubs_as_blasius_and_near_the_smooth_pipe_of_the_library(reynolds):
    assert gas_pipe.friction_factor(reynolds) == pytest.approx(fluids.friction.Blasius(reynolds), rel=2e-4)  # 0.3164 there is 0.3164 cut
    assert gas_pipe.friction_factor(reynolds) == pytest.approx(fluids.friction_factor(Re=reynolds, eD=0), rel=0.03)


@given(st.floats(1187, 3000))
def test_between_both_the_greater_is_taken(reynolds):
    assert gas_pipe.friction_factor(reynolds) >= fluids.friction.friction_laminar(reynolds) * (1 - 1e-9)
    assert gas_pipe.friction_factor(reynolds) >= fluids.friction_factor(Re=reynolds, eD=0) * 0.95


@given(st.floats(0.01, 2.0), st.floats(1, 100), st.floats(0.010, 0.030))
def test_loss_in_a_bore_is_that_of_the_library(flow_m3_h, length_m, bore_m):
    speed_m_s = flow_m3_h / 3600 / (pi / 4 * bore_m**2)
    factor = gas_pipe.friction_factor(fluids.Reynolds(V=speed_m_s, D=bore_m, rho=1.15, mu=1.27e-5))
    head = fluids.K_from_f(fd=factor, L=length_m, D=bore_m)
    expected_pa = fluids.dP_from_K(head, rho=1.15, V=speed_m_s)
    assert gas_pipe.loss_in_bore_pa(flow_m3_h, length_m, bore_m, fittings=1) == pytest.approx(expected_pa)
    assert gas_pipe.loss_in_bore_pa(flow_m3_h, length_m, bore_m) == pytest.approx(1.3 * expected_pa)


HEADS = {"flat": None, "bowl": "spherical", "cone": "conical"}


@given(st.floats(0.6, 2.2), st.floats(0.3, 1.0), st.floats(0.2, 1.5), st.sampled_from(BOTTOMS), st.floats(0.05, 0.6), st.floats(0.01, 0.99))
def test_a_vessel_is_an_upright_tank_with_heads(radius_m, rise, wall_m, bottom, deep, part):
    deep_m = 0.0 if bottom == "flat" else deep * radius_m
    ours = Vessel(radius_m, rise * radius_m, wall_m, bottom, deep_m)
    theirs = TANK(
        D=2 * radius_m,
        L=wall_m,
        horizontal=False,
        sideA=HEADS[bottom],
        sideA_a=deep_m if deep_m else None,
        sideB="spherical",
        sideB_a=rise * radius_m,
    )
    assert ours.inside_m3 == pytest.approx(theirs.V_total)
    assert ours.crown_m == pytest.approx(theirs.h_max)
    level_m = part * ours.crown_m
    assert volume_below(ours, level_m) == pytest.approx(theirs.V_from_h(level_m), abs=1e-9)
    assert level_of(ours, theirs.V_from_h(level_m)) == pytest.approx(level_m, abs=1e-6)


@pytest.mark.parametrize(("rim_m", "deep_m"), [(1.2, 0.3), (0.8, 0.8)])
def test_a_conical_head_is_a_cone(rim_m, deep_m):
    head = TANK(D=2 * rim_m, L=1.0, horizontal=False, sideA="conical", sideA_a=deep_m)
    assert g.cone_volume(rim_m, deep_m) == pytest.approx(head.V_sideA)
    assert g.cone_area(rim_m, deep_m) == pytest.approx(head.A_sideA)


@pytest.mark.parametrize("head_m", [0.01, 0.75, 1.2])
def test_a_head_of_water_is_the_pressure_that_the_library_gives(head_m):
    assert si(100 * head_m, "cmH2O") == pytest.approx(fluids.P_from_head(head_m, rho=1000))
