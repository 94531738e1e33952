"""Cover slabs: so many that each can be lifted, worked by hand and by property."""

from dataclasses import replace
from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import covers
from calc.designs import drawing
from calc.errors import Missing, OutOfRange
from calc.takeoff import takeoff
from calc.vessel import Vessel

PLANT = drawing(Vessel(1.30, 0.55, 1.10, "flat"), 1.22, (1.65, 1.25, 0.53))


def chamber(length_m, width_m):
    return replace(PLANT, chamber_length_m=length_m, chamber_width_m=width_m)


def test_three_people_lift_fourteen_slabs_for_the_drawn_chamber():
    # over 1.25 m and both walls 1.47 m; 1.47 x 0.075 x 2500 = 275.6 kg a metre of width; 37.5 / 275.6 = 0.136 m; 1.87 / 0.136 = 13.7
    found = covers.cover_slabs(PLANT, 3)
    assert (found.count, found.by_hand) == (14, True)
    assert found.length_m == pytest.approx(1.47)
    assert found.width_m == pytest.approx(1.87 / 14)
    assert found.mass_kg == pytest.approx(1.47 * 1.87 / 14 * 0.075 * 2500)
    assert found.guide_kg == 37.5


def test_the_bars_of_one_slab():
    # 8.4 cm between covers: 2 bars of 1.42 m; 1.42 m at 15 cm: 11 bars across
    bars = covers.cover_slabs(PLANT, 3).bars
    assert (bars.along, bars.across) == (2, 11)
    assert bars.length_m == pytest.approx(2 * 1.42 + 11 * (1.87 / 14 - 0.05))


def test_no_slab_is_narrower_than_two_bars_need_and_then_it_is_no_slab_for_the_hand():
    # one person lifts 25 kg, 9 cm of this slab; 1.87 m in 18 pieces of 104 mm, 19 would be under 100
    found = covers.cover_slabs(PLANT, 1)
    assert found.width_m == pytest.approx(1.87 / 18)
    assert not found.by_hand


def test_a_chamber_whose_cover_three_can_lift_takes_one_slab():
    # 0.52 x 0.27 x 0.075 x 2500 = 26.3 kg of the 37.5 that three may lift
    found = covers.cover_slabs(chamber(0.30, 0.05), 3)
    assert (found.count, found.by_hand) == (1, True)
    assert found.mass_kg == pytest.approx(26.3, abs=0.05)


def test_a_cover_a_little_too_heavy_for_three_is_cut_in_two():
    # 0.52 x 0.42 x 0.075 x 2500 = 40.95 kg as one
    found = covers.cover_slabs(chamber(0.30, 0.20), 3)
    assert (found.count, found.by_hand) == (2, True)
    assert found.mass_kg == pytest.approx(40.95 / 2)


@given(st.floats(0.6, 2.5), st.floats(0.6, 2.5), st.integers(1, 6), st.floats(0.06, 0.15))
def test_slabs_close_the_chamber_and_those_for_the_hand_are_within_the_guide(length_m, width_m, lifters, thick_m):
    found = covers.cover_slabs(chamber(length_m, width_m), lifters, thick_m)
    assert found.count * found.width_m == pytest.approx(max(length_m, width_m) + 0.22)
    assert found.length_m == pytest.approx(min(length_m, width_m) + 0.22)
    assert found.mass_kg == pytest.approx(found.length_m * found.width_m * thick_m * 2500)
    assert found.by_hand is (found.mass_kg <= found.guide_kg + 1e-9)
    assert found.width_m >= 0.10 - 1e-9
    # one slab fewer would be too heavy, or these are already as narrow as slabs get
    wider_kg = found.mass_kg * found.count / max(found.count - 1, 1)
    assert wider_kg > found.guide_kg or found.count == 1


@given(st.floats(0.6, 2.0), st.floats(0.6, 2.0))
def test_more_people_never_make_more_slabs(length_m, width_m):
    counts = [covers.cover_slabs(chamber(length_m, width_m), lifters).count for lifters in (1, 2, 3, 4)]
    assert counts == sorted(counts, reverse=True)
    assert counts[2] == counts[3]


@pytest.mark.parametrize("lifters", [0, -1, nan])
def test_nobody_lifts_nothing(lifters):
    with pytest.raises(OutOfRange):
        covers.cover_slabs(PLANT, lifters)


def test_lifters_not_said_are_missing():
    with pytest.raises(Missing):
        covers.cover_slabs(PLANT, None)


@pytest.mark.parametrize(("thick_m", "covered"), [(0.059, False), (0.060, True), (0.150, True), (0.151, False), (nan, False)])
def test_slabs_from_six_to_fifteen_centimetres(thick_m, covered):
    if covered:
        assert covers.cover_slabs(PLANT, 3, thick_m).thickness_m == thick_m
    else:
        with pytest.raises(OutOfRange):
            covers.cover_slabs(PLANT, 3, thick_m)


@pytest.mark.parametrize(
    ("mass_kg", "people"),
    [(0, 1), (25, 1), (25.1, 2), (100 / 3, 2), (33.4, 3), (37.5, 3), (37.6, None), (165, None)],  # 25; 2/3 of 50; 1/2 of 75
)
def test_how_many_lift_a_slab(mass_kg, people):
    assert covers.lifters_needed(mass_kg) == people


@pytest.mark.parametrize(("mass_kg", "error"), [(-1, OutOfRange), (nan, OutOfRange), (None, Missing)])
def test_a_mass_that_is_none_is_lifted_by_nobody(mass_kg, error):
    with pytest.raises(error):
        covers.lifters_needed(mass_kg)


def test_a_long_slab_is_made_narrower_until_three_can_lift_it():
    # 1.69 m x 0.075 x 2500 = 316.9 kg a metre of width: three lift 118 mm of it, two 105 mm, one 79 mm, less than two bars need
    plant = chamber(1.92, 1.47)
    assert [covers.cover_slabs(plant, lifters).by_hand for lifters in (3, 2, 1)] == [True, True, False]


def test_the_bill_counts_the_slabs_of_the_list():
    # 14 slabs for three: 2 bars of 1.42 m and 11 of 8.4 cm in each
    bars_m = takeoff(PLANT)["covers"]["bar_m"]
    assert bars_m == pytest.approx(14 * (2 * 1.42 + 11 * (1.87 / 14 - 0.05)))
