"""NHBC Standards 2025, 3.1.4 site-mixed concrete (tables 2 and 3, after BS 8500-2) and 3.1.15 curing.

Table 2 gives no water. With the water of IS 10262 for the middle of each slump class every mix must come to one
cubic metre: two books that do not know each other, and the densities of this house between them.
"""

import pytest

from calc import curing, mix
from calc import sources as s

TABLE_2 = [
    ("ST1 S1", 0.025, 230, 770, 1155),
    ("ST2 S2", 0.070, 265, 760, 1135),
    ("ST2 S3", 0.125, 285, 735, 1105),
    ("ST2 S4", 0.185, 300, 815, 990),
    ("ST3 S2", 0.070, 295, 745, 1120),
    ("ST4 S2", 0.070, 330, 735, 1100),
    ("ST5 S2", 0.070, 375, 720, 1080),
]
TABLE_3 = [
    ("ST1 S1", 50, 230, 770),
    ("ST2 S2", 45, 265, 760),
    ("ST2 S3", 45, 285, 735),
    ("ST2 S4", 45, 300, 815),
    ("ST3 S2", 40, 295, 745),
]


@pytest.mark.parametrize(("name", "slump_m", "cement_kg", "sand_kg", "stone_kg"), TABLE_2)
def test_table_2_each_mix_yields_a_cubic_metre(name, slump_m, cement_kg, sand_kg, stone_kg):
    water_kg = mix.water_needed(0.020, slump_m)
    assert mix.yield_m3(cement_kg, sand_kg, stone_kg, water_kg) == pytest.approx(1, abs=0.025)


@pytest.mark.parametrize(("name", "sand_l", "cement_kg", "sand_kg"), TABLE_3)
def test_table_3_sand_in_litres_to_a_bag_of_25_kg(name, sand_l, cement_kg, sand_kg):
    litres = 25 * sand_kg / cement_kg / s.SAND_BULK_KG_M3 * 1000
    assert litres == pytest.approx(sand_l, abs=5)  # the table goes by fives


def test_hand_mixing_takes_ten_percent_more_cement():
    drum = mix.batch(2, 4, 0.55, 50, 1, 1, 1, hand=False)  # measures of a litre: rounding takes almost nothing
    hand = mix.batch(2, 4, 0.55, 50, 1, 1, 1)
    drum_aggregate, hand_aggregate = (made.sand_kg + made.stone_kg for made in (drum, hand))
    assert (hand.cement_kg / hand_aggregate) / (drum.cement_kg / drum_aggregate) == pytest.approx(1.10, abs=0.01)


@pytest.mark.parametrize(("cement", "days"), [("opc", 4), ("blended", 7)])
def test_3_1_15_no_load_on_a_base_before(cement, days):
    assert curing.wait_d("load base", cement) >= days
