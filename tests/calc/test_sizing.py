"""From animals to feed and from feed to volumes, in sums that fit on the back of an envelope."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import sizing
from calc import sources as s
from calc.errors import Missing, OutOfRange, Unknown

COUNT = st.integers(0, 20)
HERDS = st.fixed_dictionaries(dict.fromkeys(s.DUNG, COUNT)).filter(lambda herd: sum(herd.values()) > 0)


def test_dung_and_water_of_a_few_animals():
    feed = sizing.feed_from_animals({"cow": 2, "calf": 1, "pig": 3})  # 2 x 15 + 4 + 3 x 2 kg; pigs take twice their dung in water
    assert feed.dung_kg_per_day == 40
    assert feed.water_l_per_day == 34 + 12
    assert feed.slurry_m3_per_day == pytest.approx(0.086)
    assert feed.gas_dung_kg == pytest.approx(34 + 1.5 * 6)


def test_half_the_dung_of_stock_that_is_in_only_at_night():
    day, night = (sizing.feed_from_animals({"cow": 4}, kept) for kept in ("stabled", "night"))
    assert (day.dung_kg_per_day, night.dung_kg_per_day) == (60, 30)


def test_of_goats_never_more_than_half():
    assert sizing.feed_from_animals({"goat": 10}).dung_kg_per_day == 5
    assert sizing.feed_from_animals({"goat": 10}, "night").dung_kg_per_day == 5


@given(HERDS, st.sampled_from(["stabled", "night"]))
def test_a_herd_gives_the_sum_of_its_animals(herd, kept):
    whole = sizing.feed_from_animals(herd, kept)
    parts = [sizing.feed_from_animals({animal: number}, kept) for animal, number in herd.items() if number]
    assert whole.dung_kg_per_day == pytest.approx(sum(part.dung_kg_per_day for part in parts))
    assert whole.water_l_per_day == pytest.approx(sum(part.water_l_per_day for part in parts))
    assert whole.gas_dung_kg == pytest.approx(sum(part.gas_dung_kg for part in parts))


@given(HERDS, st.sampled_from(sorted(s.DUNG)))
def test_one_animal_more_is_more_dung(herd, animal):
    more = {**herd, animal: herd[animal] + 1}
    assert sizing.feed_from_animals(more).dung_kg_per_day > sizing.feed_from_animals(herd).dung_kg_per_day


@pytest.mark.parametrize(
    ("herd", "counted"),
    [
        ({"cow": 3}, 3),
        ({"cow": 3, "buffalo": 1, "local_cow": 2, "bullock": 1}, 7),
        ({"cow": 3, "pig": 0}, 3),
        ({"cow": 3, "calf": 1}, None),
        ({"cow": 3, "pig": 2}, None),
        ({"calf": 2}, None),
        ({"pig": 5}, None),
    ],
)
def test_heads_count_only_where_all_are_grown_cattle(herd, counted):
    assert sizing.feed_from_animals(herd).cattle == counted


@pytest.mark.parametrize("animal", s.DUNG)
def test_the_design_figure_of_an_animal_lies_between_its_low_and_its_high(animal):
    low, design, high = s.DUNG[animal]
    assert low < design < high
    assert sizing.feed_from_animals({animal: 10}).dung_kg_per_day <= 10 * design


def test_stock_that_only_grazes_cannot_be_sized():
    with pytest.raises(Unknown):
        sizing.feed_from_animals({"cow": 4}, "grazing")


@pytest.mark.parametrize(("herd", "error"), [({"camel": 2}, Unknown), ({"cow": -1}, OutOfRange), ({"cow": nan}, OutOfRange)])
def test_a_herd_that_cannot_be_counted_has_no_feed(herd, error):
    with pytest.raises(error):
        sizing.feed_from_animals(herd)


@pytest.mark.parametrize("herd", [{}, {"cow": 0}])
def test_no_animals_no_feed(herd):
    with pytest.raises(OutOfRange):
        sizing.feed_from_animals(herd)


def test_a_count_that_is_not_given_is_missing():
    with pytest.raises(Missing):
        sizing.feed_from_animals({"cow": None})


@pytest.mark.parametrize(("animal", "water_l"), [("cattle", 30), ("pig", 60), ("hen", 150)])
def test_water_for_thirty_kilograms_of_dung(animal, water_l):
    assert sizing.feed_from_dung(30, animal).water_l_per_day == water_l


@pytest.mark.parametrize(("kg", "animal", "error"), [(0, "cattle", OutOfRange), (nan, "cattle", OutOfRange), (30, "camel", Unknown)])
def test_dung_that_was_not_weighed_is_no_feed(kg, animal, error):
    with pytest.raises(error):
        sizing.feed_from_dung(kg, animal)


@given(st.floats(0.1, 20))
def test_nominal_dung_gives_the_gas_it_is_named_after(gas_m3_per_day):
    assert sizing.nominal_dung(gas_m3_per_day) * 0.040 == pytest.approx(gas_m3_per_day)


# ---- volumes


@given(st.floats(0.01, 0.5), st.floats(30, 100), st.floats(0.2, 10), st.floats(0.1, 1))
def test_the_dead_space_is_a_sixth_of_the_inside(slurry, days, gas, share):
    found = sizing.volumes(slurry, days, gas, share)
    assert found.dead_m3 == pytest.approx(found.inside_m3 / 6)
    assert found.inside_m3 == pytest.approx(1.2 * (slurry * days + share * gas))


@given(st.floats(0.01, 0.5), st.floats(30, 100), st.floats(0.2, 10), st.floats(0.1, 0.9), st.integers(0, 3))
def test_more_of_anything_needs_a_larger_plant(slurry, days, gas, share, position):
    asked = [slurry, days, gas, share]
    larger = list(asked)
    larger[position] *= 1.05
    assert sizing.volumes(*larger).inside_m3 > sizing.volumes(*asked).inside_m3


def test_volumes_of_a_hundred_litres_a_day():
    found = sizing.volumes(0.1, 40, 2.0)  # 4.0; 60 % of 2.0; 20 % of 5.2
    assert (found.digester_m3, found.store_m3, found.dead_m3) == pytest.approx((4.0, 1.2, 1.04))
    assert found.inside_m3 == pytest.approx(6.24)


@pytest.mark.parametrize("position", range(4))
@pytest.mark.parametrize("bad", [0, -1, nan])
def test_volumes_without_a_number_are_none(position, bad):
    asked = [0.1, 40, 2.0, 0.6]
    asked[position] = bad
    with pytest.raises(OutOfRange):
        sizing.volumes(*asked)


def test_nobody_stores_more_than_a_day():
    with pytest.raises(OutOfRange):
        sizing.volumes(0.1, 40, 2.0, 1.01)


@given(st.floats(0.01, 0.5), st.floats(30, 100), st.floats(0.2, 10), st.floats(0.1, 1))
def test_a_body_that_holds_feed_and_store_holds_that_share(slurry, days, gas, share):
    found = sizing.volumes(slurry, days, gas, share)
    held = sizing.store_share_held(found.digester_m3 + found.store_m3, slurry, days, gas)
    assert held == pytest.approx(share)


def test_a_body_too_small_for_its_feed_stores_less_than_nothing():
    assert sizing.store_share_held(3.8, 0.1, 40, 2.0) == pytest.approx(-0.1)


def test_without_gas_there_is_no_share():
    with pytest.raises(OutOfRange):
        sizing.store_share_held(4.8, 0.1, 40, 0)


# ---- whom it serves


@given(st.floats(0.1, 10))
def test_people_and_hours_are_told_as_a_range(gas_m3_per_day):
    for fewest, most in (sizing.persons(gas_m3_per_day), sizing.stove_hours(gas_m3_per_day)):
        assert 0 < fewest < most


def test_two_cubic_metres_cook_for_five_to_eight_people_or_five_to_seven_hours():
    assert sizing.persons(2.0) == pytest.approx((5, 8.33), abs=0.005)  # 400 and 240 l a person
    assert sizing.stove_hours(2.0) == pytest.approx((5, 6.67), abs=0.005)  # 400 and 300 l an hour
