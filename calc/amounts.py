"""What to buy for a volume of concrete or mortar, an area of plaster, by the rules and tables of the trade.

These volumes are for buying; what comes out of a mixing is counted from solid volumes (`recipes.yield_m3`).
The volume and the bulk density of the first functions may be floats in SI or pint quantities.
"""

from typing import NamedTuple

from calc import sources as s
from calc.errors import Unknown, require


class Materials(NamedTuple):
    """What a volume of concrete or mortar takes: cement [kg], sand and stone [m3, loose and dry]."""

    cement_kg: float
    sand_m3: float
    stone_m3: float


def concrete_materials(volume_m3, sand, stone, factor=s.DRY_VOLUME_BUYING, cement_bulk=s.CEMENT_BULK_KG_M3):
    """Return the Materials to buy for a volume of concrete, by the dry-volume factor.

    Parameters
    ----------
    volume_m3 : float
        Concrete in place [m3].
    sand, stone : float
        Parts to one of cement, loose and dry.
    factor : float
        Loose dry materials to one of concrete; 1.52 to 1.57 in print.
    cement_bulk : float
        Mass of cement in a gauge box [kg/m3].

    Returns
    -------
    Materials
        Cement [kg], sand [m3], stone [m3]; nothing for waste.

    Raises
    ------
    OutOfRange
        If the volume is negative or the mix lies outside the printed tables, 1:1:2 to 1:6:12.

    Notes
    -----
    cement part = F V / (1 + s + a). F is no constant of nature but one over the packing of the heap.

    Examples
    --------
    1.54 m3 of dry materials in seven parts are 0.22 m3 each; 0.22 m3 of cement weigh 316.8 kg:

    >>> found = concrete_materials(1.0, 2, 4, factor=1.54)
    >>> round(found.cement_kg, 1), round(found.sand_m3, 2), round(found.stone_m3, 2)
    (316.8, 0.44, 0.88)
    """
    require("volume_m3", volume_m3, low=0, unit="m3")
    require("sand", sand, *s.CONCRETE_SAND)
    require("stone", stone, *s.CONCRETE_STONE)
    part = factor * volume_m3 / (1 + sand + stone)
    return Materials(cement_bulk * part, sand * part, stone * part)


def mortar_dry_volume(sand):
    """Return the loose dry volume of cement and sand to one of mortar.

    Notes
    -----
    F(n) = 1.07 (1 + 1/n), because a cubic metre of mortar holds 1.07 m3 of loose sand, but at most 1.42, because
    in a rich mix cement fills more than the gaps of the sand. It gives all six CPWD coefficients within 3 %.

    Examples
    --------
    1.07 m3 of sand and a quarter of that in cement:

    >>> round(mortar_dry_volume(4), 4)
    1.3375
    """
    require("sand", sand, *s.MORTAR_SAND)
    by_sand = s.MORTAR_SAND_M3 * (1 + 1 / sand)
    return min(by_sand, float(s.MORTAR_DRY_GREATEST))


def mortar_materials(volume_m3, sand, factor=None, cement_bulk=s.CEMENT_BULK_KG_M3):
    """Return the Materials to buy for a volume of mortar in place.

    Parameters
    ----------
    volume_m3 : float
        Mortar in place [m3].
    sand : float
        Parts of sand to one of cement, 1 to 8.
    factor : float, optional
        Loose dry volume to one of mortar; that of `mortar_dry_volume` if not given, 1 where the volume is dry.
    cement_bulk : float
        Mass of cement in a gauge box [kg/m3].

    Raises
    ------
    OutOfRange
        If the volume is negative or the mix is not between 1:1 and 1:8.

    References
    ----------
    CPWD Delhi Schedule of Rates 2018, 3.1 to 3.6; analysis of rates (BCD), 1.07 m3 of sand.

    Examples
    --------
    1.3375 m3 of dry materials in five parts are 0.2675 m3 of cement, 385.2 kg (the book has 380):

    >>> round(mortar_materials(1.0, 4).cement_kg, 1)
    385.2
    """
    require("volume_m3", volume_m3, low=0, unit="m3")
    part = (mortar_dry_volume(sand) if factor is None else factor) * volume_m3 / (1 + sand)
    return Materials(cement_bulk * part, sand * part, 0 * part)


def buying_cement_kg_m3(sand, stone):
    """Return the cement to buy for a cubic metre of concrete [kg/m3]: the largest of rule and tables.

    Notes
    -----
    The dry-volume rule at 1.57, and the CPWD and CSR-2010 tables where they list the mix.

    Examples
    --------
    For 1:2:4 the rule has 323, CPWD 320, and CSR-2010 6.5 bags of 50 kg:

    >>> buying_cement_kg_m3(2, 4)
    325.0
    """
    found = [concrete_materials(1.0, sand, stone).cement_kg]
    if (sand, stone) in s.CPWD_KG_M3:
        found.append(s.CPWD_KG_M3[sand, stone])
    if (sand, stone) in s.CSR10_BAGS_M3:
        found.append(s.CSR10_BAGS_M3[sand, stone] * s.BAG_KG)
    return float(max(found))


def plaster_volume(area_m2, thickness_m, on):
    """Return the mortar in one coat of plaster [m3], with what fills joints and hollows behind it.

    Parameters
    ----------
    area_m2, thickness_m : float
        Area [m2] and thickness of the coat [m].
    on : {"smooth", "brick", "rubble"}
        What it goes on: an earlier coat or concrete, raw brick, raw rubble.

    Raises
    ------
    Unknown
        If there is no figure for what it goes on.

    References
    ----------
    Rate analyses: 1.44 and 2.24 m3 for 100 m2 of 12 and 20 mm on brick, both 2.4 mm more than the coat.

    Examples
    --------
    >>> round(plaster_volume(100, 0.012, "brick"), 2)
    1.44
    """
    require("area_m2", area_m2, low=0, unit="m2")
    require("thickness_m", thickness_m, low=1e-9, unit="m")
    if on not in s.PLASTER_EXTRA_M:
        raise Unknown(on, s.PLASTER_EXTRA_M)
    return area_m2 * (thickness_m + s.PLASTER_EXTRA_M[on])


def wash_kg(area_m2, coats=1):
    """Return the cement to buy for slurry washes over an area [kg].

    Examples
    --------
    >>> wash_kg(10, 2)
    55.0
    """
    require("area_m2", area_m2, low=0, unit="m2")
    require("coats", coats, low=1)
    return area_m2 * coats * s.WASH_KG_M2
