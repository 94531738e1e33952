"""Steel and what it goes into: bars of a slab by count and length, the mesh and mortar of ferrocement."""

from math import ceil, pi
from typing import NamedTuple

from calc import sources as s
from calc.errors import OutOfRange, require


class Ferrocement(NamedTuple):
    """A skin of ferrocement: mortar [m3], mesh to buy with its laps [m2, kg], and how much steel that is.

    `steel_share` is the volume of mesh wire in that of the skin; `surface_m2_m3` the surface of the wire in it.
    """

    mortar_m3: float
    mesh_m2: float
    mesh_kg: float
    steel_share: float
    surface_m2_m3: float


class Bars(NamedTuple):
    """The bars of a slab: how many each way, and their length [m] and mass [kg] together, without hooks or laps."""

    along: int
    across: int
    length_m: float
    mass_kg: float


def ferrocement(area_m2, thickness_m, layers, wire_m, spacing_m):
    """Return the Ferrocement of an area.

    Parameters
    ----------
    area_m2, thickness_m : float
        Area [m2] and thickness of the skin [m].
    layers : int
        Layers of square mesh.
    wire_m, spacing_m : float
        Diameter of the wire, and from centre to centre of the wires [m].

    Raises
    ------
    OutOfRange
        If a measure is not above zero, or the wires touch.

    Notes
    -----
    Vf = N pi d^2 / (2 D h), wires both ways; Sr = 4 Vf / d; mesh 2/D pi d^2/4 rho of steel on each square metre.
    Mortar and mesh to buy are each 1.15 of the plain figures. For liquids ACI 549.1R asks 3.5 % and 160 m2/m3
    (from memory), far more than two or three layers of light mesh give.

    Examples
    --------
    One layer of 1 mm wire each 12.7 mm in 30 mm: pi / (2 x 12.7 x 30) = 0.41 %:

    >>> found = ferrocement(10.0, 0.030, 1, 0.001, 0.0127)
    >>> round(100 * found.steel_share, 2), round(found.mortar_m3, 3), round(found.mesh_m2, 1)
    (0.41, 0.345, 11.5)
    """
    require("area_m2", area_m2, low=0, unit="m2")
    require("layers", layers, low=1)
    for name, length in {"thickness_m": thickness_m, "wire_m": wire_m}.items():
        require(name, length, low=1e-9, unit="m")
    require("spacing_m", spacing_m, low=wire_m, unit="m")
    share = layers * pi * wire_m**2 / (2 * spacing_m * thickness_m)
    mesh_m2 = area_m2 * layers * s.MESH_LAPS
    mesh_kg = mesh_m2 * 2 / spacing_m * bar_mass_kg_m(wire_m)
    return Ferrocement(area_m2 * thickness_m * s.FERROCEMENT_MORTAR, mesh_m2, mesh_kg, share, 4 * share / wire_m)


def bar_mass_kg_m(diameter_m):
    """Return the mass of a metre of round bar or wire [kg/m].

    Notes
    -----
    rho pi d^2 / 4 with steel of 7850 kg/m3; d^2/162 in millimetres is 0.12 % more.

    Examples
    --------
    10 mm: 7850 x 78.54e-6 m2:

    >>> round(bar_mass_kg_m(0.010), 3)
    0.617
    """
    require("diameter_m", diameter_m, low=0, unit="m")
    return s.STEEL_KG_M3 * pi * diameter_m**2 / 4


def slab_bars(length_m, width_m, spacing_m, cover_m, bar_m):
    """Return the Bars of a rectangular slab, the same spacing both ways.

    Parameters
    ----------
    length_m, width_m : float
        Sides of the slab [m].
    spacing_m : float
        Greatest distance between bars [m].
    cover_m : float
        Concrete over the ends and edges of the bars [m].
    bar_m : float
        Diameter of the bars [m].

    Raises
    ------
    OutOfRange
        If bars would lie wider than 300 mm, cover is under 20 mm, the bar is not of the printed lists, or the slab
        is all cover.

    Notes
    -----
    Count = ceil((side - 2 cover) / spacing) + 1; each bar as long as the other side less two covers. What the
    drawing says is counted here; whether it carries is not.

    Examples
    --------
    1.2 x 0.6 m, 8 mm each 150, cover 25: 5 bars of 1.15 m and 9 of 0.55 m:

    >>> found = slab_bars(1.2, 0.6, 0.150, 0.025, 0.008)
    >>> found.along, found.across, round(found.length_m, 2)
    (5, 9, 10.7)
    """
    _check_bars(spacing_m, cover_m, bar_m)
    long_m, short_m = _inside("length_m", length_m, cover_m), _inside("width_m", width_m, cover_m)
    along, across = (ceil(side / spacing_m - 1e-9) + 1 for side in (short_m, long_m))
    total_m = along * long_m + across * short_m
    return Bars(along, across, total_m, total_m * bar_mass_kg_m(bar_m))


def round_slab_bars(diameter_m, spacing_m, cover_m, bar_m):
    """Return the Bars of a round slab, the same spacing both ways, one bar over the centre each way.

    Parameters
    ----------
    diameter_m : float
        Diameter of the slab [m].
    spacing_m, cover_m, bar_m : float
        As for `slab_bars` [m].

    Notes
    -----
    A bar x off the centre is 2 sqrt(R^2 - x^2) long, R = radius less cover.

    Examples
    --------
    0.70 m across, 25 mm cover: bars of 0.65 m, twice 0.577 m and twice 0.25 m, both ways:

    >>> found = round_slab_bars(0.70, 0.150, 0.025, 0.008)
    >>> found.along, round(found.length_m / 2, 3)
    (5, 2.303)
    """
    _check_bars(spacing_m, cover_m, bar_m)
    radius_m = _inside("diameter_m", diameter_m, cover_m) / 2
    each_side = ceil(radius_m / spacing_m - 1e-9) - 1
    offsets = [k * spacing_m for k in range(-each_side, each_side + 1)]
    one_way_m = sum(2 * (radius_m**2 - x**2) ** 0.5 for x in offsets)
    count = len(offsets)
    return Bars(count, count, 2 * one_way_m, 2 * one_way_m * bar_mass_kg_m(bar_m))


def _check_bars(spacing_m, cover_m, bar_m):
    require("spacing_m", spacing_m, 1e-9, s.BAR_SPACING_M, "m", s.BAR_SPACING_M)
    require("cover_m", cover_m, low=s.BAR_COVER_M, unit="m", source=s.BAR_COVER_M)
    require("bar_m", bar_m, *s.BAR_SIZE_M, "m")


def _inside(name, side_m, cover_m):
    require(name, side_m, low=0, unit="m")
    if not side_m > 2 * cover_m:
        raise OutOfRange(name, side_m, 2 * cover_m, None, "m")
    return side_m - 2 * cover_m
