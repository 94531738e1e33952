"""A mixing weighed on a scale: what it comes to in parts, litres and batches; doses of additives."""

from dataclasses import dataclass
from math import floor

from calc import sources as s
from calc.errors import require
from calc.measuring import free_water_kg
from calc.recipes import Recipe, water_conflict, yield_m3


@dataclass(frozen=True)
class Weighed:
    """One mixing by mass, sand dry, water all that is free, and what it comes to.

    Parts are to one of cement by loose volume, as masons count; `held_l` of the water came in the sand.
    """

    cement_kg: float
    sand_kg: float
    stone_kg: float
    water_l: float
    sand_parts: float
    stone_parts: float
    yield_m3: float
    additive_ml: float | None = None
    held_l: float = 0.0

    @property
    def mix(self):
        """The same as a Recipe, to hold against another."""
        return Recipe("", self.sand_parts, self.stone_parts, self.water_cement)

    @property
    def water_cement(self):
        """Water to cement by mass [kg/kg]."""
        return self.water_l * s.WATER_KG_M3 / s.LITRES_PER_M3 / self.cement_kg

    @property
    def cement_kg_m3(self):
        """Cement in a cubic metre [kg/m3]."""
        return self.cement_kg / self.yield_m3

    @property
    def density_kg_m3(self):
        """Mass of a cubic metre [kg/m3]."""
        return (self.cement_kg * (1 + self.water_cement) + self.sand_kg + self.stone_kg) / self.yield_m3

    @property
    def additive_ml_per_bag(self):
        """Additive to each 50 kg of cement [ml], or None where none was given."""
        return None if self.additive_ml is None else self.additive_ml * s.BAG_KG / self.cement_kg


def weighed(
    cement_kg,
    sand_kg,
    stone_kg,
    water_l,
    additive_ml=None,
    *,
    moisture=0.0,
    densities=(s.CEMENT_BULK_KG_M3, s.SAND_BULK_KG_M3, s.STONE_BULK_KG_M3),
):
    """Return what a mixing by mass comes to: its proportions, yield and water to cement.

    Parameters
    ----------
    cement_kg, sand_kg, stone_kg : float
        Masses as weighed [kg]; stone 0 for mortar.
    water_l : float
        Water added [l].
    additive_ml : float, optional
        Liquid additive [ml]; its volume is left out of the yield.
    moisture : float
        Water in the sand as weighed [share of its dry mass].
    densities : (float, float, float)
        Bulk densities of cement, sand and stone, for the proportions by volume [kg/m3].

    Raises
    ------
    OutOfRange
        If cement, sand or water is not above zero.

    Examples
    --------
    50 kg of cement, 100 of sand, 200 of stone and 25 l; 1440/1600 x 2 is 1.8 parts of sand:

    >>> found = weighed(50, 100, 200, 25)
    >>> round(found.sand_parts, 2), round(found.stone_parts, 2), found.water_cement
    (1.8, 3.84, 0.5)
    """
    for name, value in {"cement_kg": cement_kg, "sand_kg": sand_kg, "water_l": water_l}.items():
        require(name, value, low=1e-9)
    require("stone_kg", stone_kg, low=0, unit="kg")
    if additive_ml is not None:
        require("additive_ml", additive_ml, low=0, unit="ml")
    dry_kg = sand_kg / (1 + require("moisture", moisture, 0, s.BULKING_AT[-1][0]))
    held_l = free_water_kg(dry_kg, moisture)
    sand_parts, stone_parts = (
        mass * densities[0] / (bulk * cement_kg) for mass, bulk in zip((dry_kg, stone_kg), densities[1:], strict=True)
    )
    made_m3 = float(yield_m3(cement_kg, dry_kg, stone_kg, water_l + held_l))
    return Weighed(cement_kg, dry_kg, stone_kg, water_l + held_l, sand_parts, stone_parts, made_m3, additive_ml, held_l)


def most_water_l(made, water_cement):
    """Return the most water that may be added to a weighed mixing [l], to half a litre down; below zero where its sand brings more.

    Parameters
    ----------
    made : Weighed
        The mixing.
    water_cement : float
        Most water to cement [kg/kg].

    Examples
    --------
    Half of 50 kg less the 5 l in 105 kg of wet sand:

    >>> most_water_l(weighed(50, 105, 200, 25, moisture=0.05), 0.50)
    20.0
    """
    require("water_cement", water_cement, *s.WATER_CEMENT)
    allowed_l = water_cement * made.cement_kg * s.LITRES_PER_M3 / s.WATER_KG_M3 - made.held_l
    return float(floor(allowed_l / s.WATER_STEP_L + 1e-9) * s.WATER_STEP_L)


def stiffness(made):
    """Return as a WaterConflict why a weighed concrete has too little water to be worked by hand.

    Parameters
    ----------
    made : Weighed
        The mixing, its cement as weighed.

    Returns
    -------
    WaterConflict or None
        None where the water is enough, for mortar, and for parts outside the printed tables.

    Examples
    --------
    1:1.8:3.84 has 1440 x 1.54 / 6.64 = 334 kg in a cubic metre, half of it is 167 l, and 186 are needed:

    >>> found = stiffness(weighed(50, 100, 200, 25))
    >>> round(found.water_l_m3), round(found.needed_l_m3), round(found.workable_water_cement, 2)
    (167, 186, 0.56)
    >>> stiffness(weighed(50, 150, 0, 25)) is None
    True
    """
    sand, stone = s.CONCRETE_SAND, s.CONCRETE_STONE
    covered = sand[0] <= made.sand_parts <= sand[1] and stone[0] <= made.stone_parts <= stone[1]
    return water_conflict(made.mix, hand=False) if covered else None


def additive_share(additive_ml, cement_kg, density_kg_l=s.ADDITIVE_KG_L):
    """Return a liquid additive as a share of the mass of cement.

    Examples
    --------
    Half a litre, 0.5 kg, in 50 kg:

    >>> additive_share(500, 50)
    0.01
    """
    require("additive_ml", additive_ml, low=0, unit="ml")
    require("cement_kg", cement_kg, low=1e-9, unit="kg")
    return additive_ml / s.ML_PER_L * density_kg_l / cement_kg


def additive_in_range(additive_ml, cement_kg, density_kg_l=s.ADDITIVE_KG_L):
    """Return whether a dose of waterproofer lies between 0.2 and 3 % of the cement; the maker's label comes first.

    Examples
    --------
    >>> additive_in_range(500, 50), additive_in_range(2000, 50)
    (True, False)
    """
    least, greatest = s.ADDITIVE_SHARE
    return bool(least <= additive_share(additive_ml, cement_kg, density_kg_l) <= greatest)


def additive_kg(cement_kg, share):
    """Return the additive [kg] for a mass of cement [kg] at the label's share of it.

    Raises
    ------
    OutOfRange
        If the share is not between 0.2 and 3 %.

    Examples
    --------
    >>> additive_kg(50, 0.02)
    1.0
    """
    require("cement_kg", cement_kg, low=1e-9, unit="kg")
    return cement_kg * require("share", share, *s.ADDITIVE_SHARE)
