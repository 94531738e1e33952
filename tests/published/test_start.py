"""Start and feed of plants in print: Werner, Stoehr and Hees, Biogas Plants in Animal Husbandry, GATE/GTZ 1989, p. 92; the
GGC 2047 manual (Nepal, 1994), table 1; days to the first gas and shares of inoculum from memory, to be confirmed.
"""

import pytest

from calc import startup
from calc.sizing import feed_from_dung

GGC = {4: 24, 6: 36, 8: 48, 10: 60, 15: 90, 20: 120}  # m3 of plant: kg of dung a day


def test_the_mixing_tank_holds_one_and_a_half_to_two_days():
    # 96 l a day: 1.5 x 96 = 144, 2 x 96 = 192
    assert startup.mixing_tank_l(feed_from_dung(48)) == pytest.approx((144, 192))


@pytest.mark.parametrize(("plant_m3", "dung_kg"), GGC.items())
def test_every_plant_of_the_table_is_fed_within_the_range(plant_m3, dung_kg):
    load, stands = startup.feed_load(dung_kg, plant_m3)
    assert load == pytest.approx(6.0)  # "at least 6 kg of dung for each m3 of plant"
    assert stands == "within"


def test_a_plant_fed_for_the_next_smaller_size_but_one_is_underfed():
    assert startup.feed_load(GGC[4], 8)[1] == "under"


@pytest.mark.parametrize(("temp_c", "fewest", "most"), [(27, 10, 20), (20, 20, 40)])
def test_gas_that_burns_from_memory(temp_c, fewest, most):
    assert startup.first_gas_d(temp_c) == (fewest, most)
