"""What each stage of a Design takes: materials in place, element by element, without waste.

Where a drawing does not say how a part is built, the usual build of sources.py is taken; `ASSUMED` names it.
"""

from math import inf, pi

from calc import geometry as g
from calc import sources as s
from calc.amounts import concrete_materials, mortar_materials, plaster_volume
from calc.covers import cover_slabs
from calc.errors import require
from calc.masonry import Brick, dome_shell, ferrocement, round_wall, single_leaf
from calc.recipes import RECIPES
from calc.vessel import volume_below

ASSUMED = (
    "base 1:2:4 over the whole pit floor",
    "wall half-brick 1:4, brick dome a brick laid flat 1:3, concrete 1:1.5:3, ferrocement 1:2 on two layers of mesh",
    "outlet chamber and its shaft half-brick 1:4, floors and covers 75 mm, covers in slabs three people lift",
    "inside: three tight coats and four washes down to 10 cm under the lowest slurry, one coat below",
    "mixing tank of twice the daily feed, inlet pipe 110 mm at 60 degrees",
    "not counted: gas pipe to the kitchen, stove, hardcore under the base, form and earth mould, weak and strong ring",
)
ITEMS = ("cement_kg", "sand_m3", "gravel_m3", "bricks", "mesh_m2", "bar_m", "waterproofer_l", "pipe_m", "gas_pipe", "valve")


def takeoff(design, brick=Brick(*map(float, s.BRICK_M))):
    """Return what each stage takes, as {stage: {item: quantity}}.

    Parameters
    ----------
    design : Design
        The plant.
    brick : Brick
        Its bricks.

    Returns
    -------
    dict
        Quantities in the unit at the end of each item's name (kg, m3, m2, m, l) or in pieces.

    Notes
    -----
    Concrete by the dry-volume factor for buying, mortar by F(n), single-leaf mortar 1.5 times the gaps.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> base = takeoff(for_gas(2.0))["base"]
    >>> sorted(base), round(base["gravel_m3"] / base["sand_m3"], 2)
    (['cement_kg', 'gravel_m3', 'sand_m3'], 2.0)
    """
    stages = {
        "base": _mixed(design.base_volume_m3 * s.SOIL_WASTE, "base"),
        "wall": _wall(design, brick),
        "dome": _dome(design, brick),
        "inlet": _inlet(design, brick),
        "outlet": _outlet(design, brick),
        "plaster": _plaster(design),
        "covers": _covers(design),
        "pipe": {"gas_pipe": 1.0, "valve": 1.0},
    }
    return {stage: taken for stage, taken in stages.items() if taken}


def _add(total, *parts):
    for part in parts:
        for item, quantity in part.items():
            total[item] = total.get(item, 0.0) + quantity
    return total


def _one_m3(mix):
    found = concrete_materials(1.0, mix.sand, mix.stone) if mix.stone else mortar_materials(1.0, mix.sand)
    return {item: float(each) for item, each in zip(("cement_kg", "sand_m3", "gravel_m3"), found, strict=True) if each}


ONE_M3 = {name: _one_m3(mix) for name, mix in RECIPES.items()}


def _mixed(volume_m3, recipe):
    if not 0 <= volume_m3 < inf:
        require("volume_m3", volume_m3, 0, None, "m3")
    return {item: each * volume_m3 for item, each in ONE_M3[recipe].items()}


def _leaf(masonry, recipe):
    return {"bricks": masonry.bricks, **_mixed(masonry.mortar_to_buy_m3, recipe)}


def _wall(design, brick):
    height_m = design.vessel.wall_height_m
    return _leaf(round_wall(design.vessel.radius_m, height_m, brick), "wall") if height_m else {}


def _dome(design, brick):
    vessel, thick_m = design.vessel, design.shell_thickness_m
    if design.dome == "brick":
        outer_m2 = 2 * pi * (vessel.sphere_radius_m + thick_m) * (vessel.dome_rise_m + thick_m)
        outside = _mixed(plaster_volume(outer_m2, design.outside_plaster_m, "brick"), "outside_plaster")
        return _add(_leaf(dome_shell(vessel.radius_m, vessel.dome_rise_m, brick), "dome_brick"), outside)
    if design.dome == "concrete":
        return _mixed(g.shell_volume(vessel.radius_m, vessel.dome_rise_m, thick_m), "concrete")
    area_m2 = g.cap_area(vessel.radius_m, vessel.dome_rise_m)
    skin = ferrocement(area_m2, thick_m, s.MESH_LAYERS, s.MESH_WIRE_M, s.MESH_SPACING_M)
    steel = {"mesh_m2": float(skin.mesh_m2), "bar_m": float(2 * area_m2 / s.SKELETON_SPACING_M)}
    return {**_mixed(skin.mortar_m3, "ferrocement"), **steel}


def _under(dome):
    return "brick" if dome == "brick" else "smooth"


def _inlet(design, brick):
    if design.feed is None:
        tank = {}
    else:
        need_m3 = s.MIXING_TANK_DAYS[1] * design.feed.slurry_m3_per_day
        radius_m = (need_m3 / pi / s.TANK_DEPTH_M) ** 0.5
        floor = _mixed(pi * (radius_m + brick.breadth_m) ** 2 * s.SLAB_THICK_M, "base")
        tank = _add(_leaf(round_wall(radius_m, s.TANK_DEPTH_M, brick), "outlet"), floor)
    drop_m = design.levels.overflow_m + s.INLET_ABOVE_OVERFLOW_M - s.INLET_END_M
    return {**tank, "pipe_m": drop_m / s.INLET_SLOPE}


def _outlet(design, brick):
    long_m, wide_m, wall_m = design.chamber_length_m, design.chamber_width_m, brick.breadth_m
    depth_m = design.levels.overflow_m - design.levels.zero_line_m
    round_m = 2 * (long_m + wide_m + 2 * wall_m)
    walls_m2 = round_m * depth_m + 3 * (s.SHAFT_M + wall_m) * design.levels.zero_line_m
    floor_m3 = (long_m + 2 * wall_m) * (wide_m + 2 * wall_m) * s.SLAB_THICK_M
    inside_m2 = 2 * (long_m + wide_m) * depth_m + long_m * wide_m + 4 * s.SHAFT_M * design.levels.zero_line_m
    coat = _mixed(plaster_volume(inside_m2, s.WATER_COAT_M, "brick"), "plaster")
    return _add(_leaf(single_leaf(walls_m2, brick), "outlet"), _mixed(floor_m3, "base"), coat)


def tight_area_m2(design):
    """Return the inside area that must hold gas [m2]: crown down to 10 cm below the lowest slurry level.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> 5 < tight_area_m2(for_gas(2.0)) < 15
    True
    """
    return _area_above(design.vessel, design.levels.lowest_m - s.TIGHT_BAND_M)


def _area_above(vessel, level_m):
    """Inside area above a level; on a sphere equal heights have equal areas, on a cone they go with the square."""
    if level_m <= 0:
        return _inside_area(vessel)
    if level_m >= vessel.spring_m:
        return 2 * pi * vessel.sphere_radius_m * (vessel.crown_m - level_m)
    if level_m >= vessel.bottom_depth_m:
        return g.cap_area(vessel.radius_m, vessel.dome_rise_m) + 2 * pi * vessel.radius_m * (vessel.spring_m - level_m)
    below = (level_m / vessel.bottom_depth_m) ** (2 if vessel.bottom == "cone" else 1)
    return _inside_area(vessel) - _bottom_area(vessel) * below


def _inside_area(vessel):
    wall_m2 = g.cylinder_wall_area(vessel.radius_m, vessel.wall_height_m) if vessel.wall_height_m else 0.0
    return g.cap_area(vessel.radius_m, vessel.dome_rise_m) + wall_m2 + _bottom_area(vessel)


def _bottom_area(vessel):
    if vessel.bottom == "flat":
        return pi * vessel.radius_m**2
    shape = g.cap_area if vessel.bottom == "bowl" else g.cone_area
    return shape(vessel.radius_m, vessel.bottom_depth_m)


def _plaster(design):
    tight_m2 = tight_area_m2(design)
    coats_m3 = plaster_volume(tight_m2, s.TIGHT_COAT_M, _under(design.dome))
    coats_m3 += (s.INSIDE_COATS - 1) * plaster_volume(tight_m2, s.TIGHT_COAT_M, "smooth")
    tight = _mixed(coats_m3, "plaster")
    tight["cement_kg"] += tight_m2 * s.WASHES * s.THIN_WASH_KG_M2
    below = _mixed(plaster_volume(_inside_area(design.vessel) - tight_m2, s.WATER_COAT_M, "brick"), "plaster")
    return _add({"waterproofer_l": tight["cement_kg"] * s.WATERPROOFER_L_KG}, tight, below)


def _covers(design):
    slabs = cover_slabs(design, s.COVER_LIFTERS)
    concrete_m3 = slabs.count * slabs.length_m * slabs.width_m * slabs.thickness_m
    return {**_mixed(concrete_m3, "concrete"), "bar_m": slabs.count * slabs.bars.length_m}


def first_fill(design):
    """Return what the first fill takes, as (dung [kg], water [l]): the volume to the zero line, half and half.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> dung_kg, water_l = first_fill(for_gas(2.0))
    >>> dung_kg == water_l, round(dung_kg + water_l) == round(1000 * for_gas(2.0).volume_to_zero_line_m3)
    (True, True)
    """
    half = volume_below(design.vessel, design.levels.zero_line_m) * s.WATER_KG_M3 / 2
    return float(half), float(half)
