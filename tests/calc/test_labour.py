"""Work of the backfill: the soil that goes back is the same wherever it is counted."""

from dataclasses import replace

import pytest

from calc.designs import drawing, for_gas, for_volume
from calc.errors import OutOfRange
from calc.ground import fill
from calc.labour import labour
from calc.vessel import Vessel, shape

FLAT = drawing(Vessel(1.30, 0.55, 1.10, "flat"), 1.22, (1.65, 1.25, 0.53), pit_diameter_m=3.05, pit_depth_m=1.80)
PLANTS = [FLAT, for_gas(2.0), for_gas(2.0, dome="ferrocement"), for_volume(6.0, 24, form=shape("cylinder_cap", "cone"))]


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: f"{plant.dome} {plant.vessel.bottom}")
def test_the_soil_that_is_ordered_is_the_soil_that_is_paid_for(plant):
    mason, labourer = labour(plant)["backfill"]
    assert mason == 0
    assert labourer == pytest.approx(0.25 * fill(plant).rammed_m3)


def test_no_work_is_counted_for_a_plant_that_is_wider_than_its_pit():
    with pytest.raises(OutOfRange):
        labour(replace(FLAT, drawn={"pit_diameter_m": 2.0, "pit_depth_m": 1.80}))
