"""A mixing weighed on a scale: what it comes to in parts, litres and batches; doses of additives."""

from dataclasses import dataclass

from calc import sources as s
from calc.errors import require
from calc.measuring import free_water_kg
from calc.recipes import yield_m3


@dataclass(frozen=True)
class Weighed:
    """One mixing by mass, sand dry, water all that is free, and what it comes to.

    Parts are to one of cement: by loose volume as masons count, and by mass.
    """

    cement_kg: float
    sand_kg: float
    stone_kg: float
    water_l: float
    sand_parts: float
    stone_parts: float
    yield_m3: float
    additive_ml: float | None = None

    @property
    def sand_by_mass(self):
        """Sand to one of cement by mass."""
        return self.sand_kg / self.cement_kg

    @property
    def stone_by_mass(self):
        """Stone to one of cement by mass."""
        return self.stone_kg / self.cement_kg

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
    free_l = water_l + free_water_kg(dry_kg, moisture)
    sand_parts, stone_parts = (
        mass * densities[0] / (bulk * cement_kg) for mass, bulk in zip((dry_kg, stone_kg), densities[1:], strict=True)
    )
    made_m3 = float(yield_m3(cement_kg, dry_kg, stone_kg, free_l))
    return Weighed(cement_kg, dry_kg, stone_kg, free_l, sand_parts, stone_parts, made_m3, additive_ml)


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
