"""The mix for each element, what a mixing yields, and whether its water is enough to work it.

Written "1:2:4" a recipe is cement, sand, stone by loose volume; "1:4" is mortar.
Masses and densities given to `yield_m3` and `cement_needed` may be floats in SI or pint quantities.
"""

from dataclasses import dataclass

from calc import sources as s
from calc.amounts import concrete_materials
from calc.checks import NOT_ENOUGH, OUTSIDE, WITHIN
from calc.errors import require
from calc.tables import read_off


@dataclass(frozen=True)
class Recipe:
    """A mix for one element: parts of sand and stone to one of cement, and the most water [kg/kg of cement]."""

    name: str
    sand: float
    stone: float
    water_cement: float

    @property
    def ratio(self):
        """The proportions as masons write them.

        Examples
        --------
        >>> Recipe("base", 2, 4, 0.55).ratio, Recipe("wall", 4, 0, 0.75).ratio
        ('1:2:4', '1:4')
        """
        return f"1:{self.sand:g}:{self.stone:g}" if self.stone else f"1:{self.sand:g}"


def parts_over(mix, recipe):
    """Return the parts of sand and stone to one of cement of a mix over those of a recipe [1]: above 1 it is leaner.

    Parameters
    ----------
    mix, recipe : Recipe or Weighed
        What is asked about, and what the element is made of.

    Examples
    --------
    Seven parts where there should be six:

    >>> round(parts_over(Recipe("", 3, 4, 0.6), RECIPES["base"]), 3)
    1.167
    """
    return (mix.sand + mix.stone) / (recipe.sand + recipe.stone)


def lean_stands(mix, recipe):
    """Return how the cement of a mix by mass stands against a recipe by volume: "within", "outside" (too little) or "not_enough".

    Notes
    -----
    Sand of the same mass fills more or less of a box: up to a tenth over the recipe nobody can tell, so that it is to be
    measured again. On the other side no cement is missing.

    Examples
    --------
    >>> [lean_stands(Recipe("", 2, stone, 0.5), RECIPES["base"]) for stone in (4, 4.5, 4.7)]
    ['within', 'not_enough', 'outside']
    """
    over = require("parts_over", parts_over(mix, recipe), low=0)
    if over <= 1 + 1e-9:
        return WITHIN
    return NOT_ENOUGH if over <= s.LEANER + 1e-9 else OUTSIDE


def sand_side(mix):
    """Return what the sand of a concrete is out of 30 to 42 % of sand and stone: "sandy", "harsh", or None; None for mortar.

    Examples
    --------
    >>> [sand_side(Recipe("", sand, 4, 0.5)) for sand in (1, 2, 3)], sand_side(Recipe("", 4, 0, 0.75))
    (['harsh', None, 'sandy'], None)
    """
    if not mix.stone:
        return None
    share, (least, greatest) = mix.sand / (mix.sand + mix.stone), s.SAND_SHARE
    return "harsh" if share < least - 1e-9 else "sandy" if share > greatest + 1e-9 else None


def suits(mix, recipe):
    """Return whether a mix may be used where a recipe is asked for: of its sort, neither leaner nor far richer, its sand in bounds.

    Parameters
    ----------
    mix, recipe : Recipe
        What is asked about, and what the element is made of.

    Notes
    -----
    More sand or more stone to one of cement is weaker; under half of the parts it shrinks and cracks; concrete with
    less than 30 % of sand in its aggregate is harsh and leaves hollows. Mortar is no concrete and concrete no mortar.

    Examples
    --------
    >>> [suits(Recipe("", sand, 0, 0.5), RECIPES["dome_brick"]) for sand in (6, 2, 1)]
    [False, True, False]
    >>> suits(Recipe("", 1, 4, 0.5), RECIPES["base"])
    False
    """
    of_sort = bool(mix.stone) == bool(recipe.stone) and sand_side(mix) is None
    bounded = mix.sand <= recipe.sand and mix.stone <= recipe.stone and parts_over(mix, recipe) >= s.RICHER - 1e-9
    return of_sort and bounded


RECIPES = {name: Recipe(name, *mix) for name, mix in s.MIXES.items()}


@dataclass(frozen=True)
class WaterConflict:
    """Why a mix cannot be both as dry as asked and worked by hand; masses and volumes in 1 m3 of concrete."""

    recipe: Recipe
    cement_kg_m3: float
    water_l_m3: float
    needed_l_m3: float

    @property
    def workable_water_cement(self):
        """The water to cement at which this mix can be worked [kg/kg]."""
        return self.needed_l_m3 / self.cement_kg_m3


def yield_m3(
    cement_kg,
    sand_kg,
    stone_kg,
    water_kg,
    air=s.AIR_SHARE,
    cement_solid=s.CEMENT_SOLID_KG_M3,
    sand_solid=s.SAND_SOLID_KG_M3,
    stone_solid=s.STONE_SOLID_KG_M3,
    water=s.WATER_KG_M3,
):
    """Return the volume that a mixing gives in place [m3], by the absolute volumes of what is in it.

    Parameters
    ----------
    cement_kg, sand_kg, stone_kg, water_kg : float
        Masses, sand and stone dry, water all that is free [kg].
    air : float
        Share of the volume that stays air.
    cement_solid, sand_solid, stone_solid, water : float
        Densities without gaps [kg/m3].

    Raises
    ------
    OutOfRange
        If a mass is negative or the air is not between 0 and 10 %.

    Notes
    -----
    V = (C/rho_c + S/rho_s + A/rho_a + W/rho_w) / (1 - air).

    References
    ----------
    US Navy training course 14070, absolute-volume method; CPWD and ACI use the same sum.

    Examples
    --------
    A litre each of cement, sand, stone and water without air:

    >>> yield_m3(3.15, 2.65, 2.70, 1.0, air=0)
    0.004
    """
    for name, mass in {"cement_kg": cement_kg, "sand_kg": sand_kg, "stone_kg": stone_kg, "water_kg": water_kg}.items():
        require(name, mass, low=0, unit="kg")
    require("air", air, 0, s.AIR_GREATEST)
    solid = cement_kg / cement_solid + sand_kg / sand_solid + stone_kg / stone_solid + water_kg / water
    return solid / (1 - air)


def cement_needed(water_kg, water_cement):
    """Return the cement [kg] that carries `water_kg` [kg] at a water to cement of `water_cement` by mass.

    Examples
    --------
    >>> cement_needed(186, 0.50)
    372.0
    """
    require("water_kg", water_kg, low=0, unit="kg")
    require("water_cement", water_cement, low=1e-9)
    return water_kg / water_cement


def water_needed(stone_m=s.STONE_SIZE_M, slump_m=s.SLUMP_M[1]):
    """Return the water that concrete of crushed stone needs to be workable [kg/m3, equal to l/m3].

    Parameters
    ----------
    stone_m : float
        Largest stone [m], 0.010 to 0.040; between the three printed sizes by straight lines.
    slump_m : float
        Slump wanted [m].

    Raises
    ------
    OutOfRange
        If the stone or the slump lies outside the table.

    References
    ----------
    IS 10262: 208, 186, 165 kg for 10, 20, 40 mm at 50 mm slump, and 3 % more for each 25 mm.

    Examples
    --------
    >>> round(water_needed(0.020, 0.075), 2)
    191.58
    """
    low, usual, high = s.SLUMP_M
    require("slump_m", slump_m, low, high, "m", usual.source)
    at_usual = read_off(list(s.WATER_NEEDED_KG_M3.items()), stone_m, "stone_m", "m", usual.source)
    return at_usual * (1 + s.SLUMP_WATER * (slump_m - usual))


def water_conflict(recipe, hand=True, stone_m=s.STONE_SIZE_M):
    """Return why a concrete cannot be both within its water limit and worked by hand, or None.

    Parameters
    ----------
    recipe : Recipe
        The mix and the most water it may have.
    hand : bool
        Mixed by hand, with 10 % more cement.
    stone_m : float
        Largest stone [m].

    Returns
    -------
    WaterConflict or None
        None for mortar, and where the water allowed is enough.

    Notes
    -----
    Water allowed = cement x w/c, cement as CPWD lists it (else by the dry-volume rule at 1.54). No amount of water
    mends such a mix; a richer one does.

    Examples
    --------
    1:2:4 has 320 kg of cement; half of that is 160 l, and 186 l are needed:

    >>> found = water_conflict(Recipe("base", 2, 4, 0.50), hand=False)
    >>> found.cement_kg_m3, found.water_l_m3, found.needed_l_m3, round(found.workable_water_cement, 2)
    (320.0, 160.0, 186.0, 0.58)
    >>> water_conflict(RECIPES["concrete"], hand=False) is None
    True
    """
    if not recipe.stone:
        return None
    mix = recipe.sand, recipe.stone
    cement = s.CPWD_KG_M3[mix] if mix in s.CPWD_KG_M3 else concrete_materials(1.0, *mix, s.DRY_VOLUME).cement_kg
    cement = float(cement * s.HAND_MIXING if hand else cement)
    needed = float(water_needed(stone_m))
    allowed = cement * recipe.water_cement
    return None if allowed >= needed else WaterConflict(recipe, cement, allowed, needed)
