"""One mixing in real bags, buckets and litres, rounded so that it is never weaker than its recipe.

The rest of what concerns mixes lives beside this file and is had from here too: `amounts` what to buy, `recipes`
the mix for each element and the yield of a mixing, `measuring` buckets and wet sand, `weighing` mixings by mass.
"""

from dataclasses import dataclass
from math import ceil, floor

from calc import sources as s
from calc.amounts import (
    Materials,
    buying_cement_kg_m3,
    concrete_materials,
    mortar_dry_volume,
    mortar_materials,
    plaster_volume,
    wash_kg,
)
from calc.errors import OutOfRange, require
from calc.measuring import (
    bag_volume_l,
    bulking_from_jar,
    bulking_of,
    cement_per_measure_kg,
    damp_volume,
    free_water_kg,
    measure_l_from_rod,
    moisture_of,
)
from calc.recipes import (
    RECIPES,
    Recipe,
    WaterConflict,
    cement_needed,
    lean_stands,
    parts_over,
    sand_side,
    suits,
    water_conflict,
    water_needed,
    yield_m3,
)
from calc.weighing import Weighed, additive_in_range, additive_kg, additive_share, most_water_l, stiffness, weighed

__all__ = [
    "Batch",
    "Materials",
    "RECIPES",
    "Recipe",
    "WaterConflict",
    "Weighed",
    "additive_in_range",
    "additive_kg",
    "additive_share",
    "bag_volume_l",
    "batch",
    "batches_needed",
    "bulking_from_jar",
    "bulking_of",
    "buying_cement_kg_m3",
    "cement_needed",
    "cement_per_measure_kg",
    "concrete_materials",
    "damp_volume",
    "free_water_kg",
    "lean_stands",
    "measure_l_from_rod",
    "moisture_of",
    "mortar_dry_volume",
    "mortar_materials",
    "most_water_l",
    "parts_over",
    "plaster_volume",
    "sand_side",
    "stiffness",
    "suits",
    "wash_kg",
    "water_conflict",
    "water_needed",
    "weighed",
    "yield_m3",
]
_GUARD = 1e-9  # so that 6.0 reckoned as 5.9999999999 is 6 and not 5.5


@dataclass(frozen=True)
class Batch:
    """One mixing in whole, half or quarter measures, and what it makes.

    `water_l` is to be added; `water_cement` counts the water in the sand and stone too. `sand_kg` and `stone_kg`
    are dry. `lost_share` is the share of the aggregate that rounding down left out.
    """

    cement_kg: float
    sand_measures: float
    stone_measures: float
    water_l: float
    yield_m3: float
    water_cement: float
    sand_kg: float
    stone_kg: float
    lost_share: float

    @property
    def low_yield_m3(self):
        """What it makes at least [m3]: bulk densities of sand and stone move it 5 %."""
        return float(s.YIELD_BAND * self.yield_m3)

    @property
    def cement_kg_m3(self):
        """Cement in a cubic metre of this mixing [kg/m3]."""
        return self.cement_kg / self.yield_m3

    @property
    def density_kg_m3(self):
        """Mass of a cubic metre of this mixing [kg/m3]."""
        return (self.cement_kg * (1 + self.water_cement) + self.sand_kg + self.stone_kg) / self.yield_m3


def batch(
    sand,
    stone,
    water_cement,
    bag_kg,
    bags,
    sand_measure_l,
    stone_measure_l=None,
    *,
    hand=True,
    bulking=0.0,
    jar_tested=False,
    moisture=0.0,
    stone_moisture=0.0,
    absorption=0.0,
    step=s.MEASURE_STEPS[0],
    densities=(s.CEMENT_BULK_KG_M3, s.SAND_BULK_KG_M3, s.STONE_BULK_KG_M3),
):
    """Return one Batch of a mix in the containers of the site.

    Parameters
    ----------
    sand, stone : float
        Parts to one of cement by loose dry volume; stone 0 for mortar.
    water_cement : float
        Most water to cement by mass [kg/kg].
    bag_kg, bags : float
        Mass of a bag [kg] and how many go in, in halves; cement is counted in bags or weighed, never by buckets.
    sand_measure_l, stone_measure_l : float
        What the measures hold, struck level [l]; the second is not needed for mortar.
    hand : bool
        Mixed by hand: the aggregates are divided by 1.10, which adds 10 % cement without splitting a bag.
    bulking, jar_tested : float, bool
        Bulking of the sand [share of its dry volume]; above 0.30 only from a jar test.
    moisture, stone_moisture, absorption : float
        Water in sand and stone, and what they keep to themselves [share of dry mass]. With absorption 0 all of the
        water in the sand counts, which is the drier mix.
    step : float
        Part of a measure that is told; quarters are tried where it takes too much away.
    densities : (float, float, float)
        Bulk densities of cement, sand and stone [kg/m3].

    Returns
    -------
    Batch
        Sand and stone rounded down to the step, water down to half a litre.

    Raises
    ------
    OutOfRange
        If rounding takes more than 10 % of the aggregate even in quarters, or the sand is not 30 to 42 % of the
        aggregate (another measure, more bags, another mix), or the sand brings more water than the mix may have.

    Notes
    -----
    Cement is fixed, everything else is rounded down: cement to aggregate and water to cement are never worse than
    the recipe's. Absorption makes no claim on water: dry stone that drinks leaves the mix drier.

    Examples
    --------
    One bag of 50 kg is 34.72 l. By hand 1:2:4 takes 2 x 34.72 / 1.10 = 63.1 l of sand, 6 buckets of 10 l, and 12
    and a half of stone; 0.55 x 50 = 27.5 l of water:

    >>> found = batch(2, 4, 0.55, 50, 1, 10, 10)
    >>> found.sand_measures, found.stone_measures, found.water_l, round(found.yield_m3, 3)
    (6.0, 12.5, 27.5, 0.152)
    """
    _check_batch(sand, stone, water_cement, bag_kg, bags, sand_measure_l, stone_measure_l)
    require("bulking", bulking, 0, s.BULKING_JAR_GREATEST if jar_tested else s.BULKING_GREATEST)
    cement_kg = bag_kg * bags
    part_l = bag_volume_l(cement_kg, densities[0]) / (s.HAND_MIXING if hand else 1)
    sizes_l = sand_measure_l, stone_measure_l if stone else sand_measure_l
    measures, lost = _measures((damp_volume(sand * part_l, bulking), stone * part_l), sizes_l, step, bulking)
    sand_kg = measures[0] * sizes_l[0] / (1 + bulking) * densities[1] / s.LITRES_PER_M3
    stone_kg = measures[1] * sizes_l[1] * densities[2] / s.LITRES_PER_M3
    held_kg = free_water_kg(sand_kg, moisture, absorption) + free_water_kg(stone_kg, stone_moisture, absorption)
    free_kg = held_kg if held_kg > 0 else 0.0
    water_l = _down(require("water_l", water_cement * cement_kg - free_kg, low=0, unit="l"), s.WATER_STEP_L)
    made_m3 = float(yield_m3(cement_kg, sand_kg, stone_kg, water_l + free_kg))
    return Batch(cement_kg, *measures, water_l, made_m3, (water_l + free_kg) / cement_kg, sand_kg, stone_kg, lost)


def _check_batch(sand, stone, water_cement, bag_kg, bags, sand_measure_l, stone_measure_l):
    require("sand", sand, *s.MORTAR_SAND)
    require("stone", stone, 0, s.CONCRETE_STONE[1])
    require("water_cement", water_cement, *s.WATER_CEMENT)
    for name, value in {"bag_kg": bag_kg, "bags": bags, "sand_measure_l": sand_measure_l}.items():
        require(name, value, low=_GUARD)
    if stone:
        require("stone_measure_l", stone_measure_l, low=_GUARD, unit="l")
    if 2 * bags % 1:
        raise OutOfRange("bags", bags, 0.5, None, "in halves")


def _down(value, step):
    return float(floor(value / step + _GUARD) * step)


def _measures(wanted_l, sizes_l, step, bulking):
    # the coarsest step that neither loses too much nor upsets the sand, and what it loses
    for finer in (step, *(each for each in s.MEASURE_STEPS if each < step)):
        measures = [_down(wanted / size, finer) for wanted, size in zip(wanted_l, sizes_l, strict=True)]
        sand_l, stone_l = (count * size for count, size in zip(measures, sizes_l, strict=True))
        lost = 1 - (sand_l + stone_l) / sum(wanted_l)
        problem = _problem(lost, sand_l / (1 + bulking), stone_l, mortar=not wanted_l[1])
        if problem is None:
            return measures, lost
    raise problem


def _problem(lost, sand_l, stone_l, mortar):
    if not lost <= s.LOST_GREATEST:
        return OutOfRange("lost_share", lost, 0, s.LOST_GREATEST)
    least, greatest = s.SAND_SHARE
    if mortar or least <= sand_l / (sand_l + stone_l) <= greatest:
        return None
    return OutOfRange("sand_share", sand_l / (sand_l + stone_l), least, greatest)


def batches_needed(volume_m3, mixing, waste):
    """Return how many mixings a volume in place needs.

    Parameters
    ----------
    volume_m3 : float
        Volume in place [m3].
    mixing : Batch or Weighed
        One mixing.
    waste : float
        Share that is spilt, left or pressed into the soil; 0.10 on soil, 0.05 in forms.

    Returns
    -------
    int
        Rounded up from the low yield, 5 % under the reckoned one.

    Examples
    --------
    0.5 m3 and 10 % are 0.55; 0.95 of 0.152 m3 is 0.145, and that goes 3.8 times:

    >>> batches_needed(0.5, batch(2, 4, 0.55, 50, 1, 10, 10), 0.10)
    4
    """
    require("volume_m3", volume_m3, low=0, unit="m3")
    require("waste", waste, 0, 1)
    return ceil(volume_m3 * (1 + waste) / (s.YIELD_BAND * mixing.yield_m3) - _GUARD)
