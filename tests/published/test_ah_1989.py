"""Werner, Stoehr, Hees, Biogas Plants in Animal Husbandry, GATE/GTZ 1989: the sizing example of pages 38 and 39,
table 5.8 (dilution) and page 92 (mixing pit)."""

from math import pi

import pytest

from calc import digestion, sizing
from calc.designs import drawing, for_gas
from calc.sizing import Feed
from calc.takeoff import takeoff
from calc.vessel import level_of, shape, vessel_of

# 150 kg of dung of nine head with 12 kg of volatile solids, and 100 kg of water; 25 C, 60 days
FEED = Feed(dung_kg_per_day=150, water_l_per_day=100, gas_dung_kg=150, cattle=9)
GAS = digestion.gas_estimates(FEED, 25, 60)


def test_page_38_slurry_and_digester():
    assert FEED.slurry_m3_per_day == pytest.approx(0.250)
    assert sizing.volumes(FEED.slurry_m3_per_day, 60, 3.0).digester_m3 == pytest.approx(15)


def test_page_38_gas_by_volatile_solids():
    assert GAS.by_solids == pytest.approx(3.0)


def test_page_38_gas_by_head_of_cattle():
    assert GAS.by_animal == pytest.approx(3.2, abs=0.051)  # 9 x 0.35 = 3.15, printed 3.2


def test_page_38_the_plant_is_sized_on_the_lowest():
    assert GAS.low == pytest.approx(3.0)


def test_page_38_gas_by_dung_is_not_reproduced_but_never_sized_on():
    # the book takes 20 l/kg; at 25 C and 60 d the curves of 1988 give 33, so that this estimate is the high one
    assert GAS.by_dung != pytest.approx(150 * 0.020, rel=0.3)
    assert GAS.by_dung == GAS.high


def retention_d(digester_m3):
    vessel = vessel_of(22.0, shape())
    plant = drawing(vessel, level_of(vessel, digester_m3), (1.5, 1.2, 0.5), form="cap_on_bowl", feed=FEED)
    return plant.retention_times_d[0]


def test_page_38_slip_18_cubic_metres_of_250_litres_a_day_are_72_days_and_not_75():
    assert retention_d(18) == pytest.approx(72)
    assert retention_d(18) != pytest.approx(75, abs=0.5)


def test_page_38_more_retention_gives_more_gas_but_we_promise_less_than_a_fifth_more():
    # printed: from 60 to 72 (75) days f = 1.2 and 3.6 m3
    more = digestion.gas_estimates(FEED, 25, 72)
    assert GAS.low < more.low < 3.6


def test_page_39_digester_to_store():
    found = sizing.volumes(0.250, 72, 3.6, store_share=1.6 / 3.6)
    assert round(found.digester_m3 / found.store_m3) == 11


@pytest.mark.parametrize(("animal", "least", "most"), [("cattle", 0.5, 1), ("pig", 1, 2), ("hen", 4, 6)])
def test_table_5_8_water_to_one_of_dung(animal, least, most):
    assert least <= sizing.feed_from_dung(1.0, animal).water_l_per_day <= most


@pytest.mark.parametrize("gas_m3_per_day", [1, 2, 4])
def test_page_92_the_mixing_pit_holds_one_and_a_half_to_two_days_feed(gas_m3_per_day):
    plant = for_gas(gas_m3_per_day)
    wall_m2 = takeoff(plant)["inlet"]["bricks"] * 0.24 * 0.08  # 2 pi r h of a pit 0.60 m deep
    radius_m = wall_m2 / (2 * pi * 0.60)
    held = pi * radius_m**2 * 0.60 / plant.feed.slurry_m3_per_day
    assert 1.5 <= held <= 2 * (1 + 1e-9)
