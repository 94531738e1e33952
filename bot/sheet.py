"""A Design as plain values under the glossary's words, each with its unit: the engineer's sheet."""

from calc import designs, sizing
from calc.bill import bill
from calc.design import findings
from calc.earth import person_days
from calc.errors import CalcError, Missing, Unknown
from calc.fuels import heat_j
from calc.sources import EDITION, NOMINAL_RETENTION_D, STORE_SHARE
from calc.takeoff import ASSUMED, first_fill
from calc.vessel import shape

SHAPES = {
    **dict.fromkeys(("cap-on-bowl", "bowl", "hemisphere", "hemisphere-on-bowl", "dome-on-bowl"), "cap_on_bowl"),
    **dict.fromkeys(("cylinder-cap", "cylinder", "cylinder-with-cap", "round"), "cylinder_cap"),
}
CHOICES = ("temp_c", "shape", "bottom", "rise", "dome", "store_share")
BASES = ("gas_m3_per_day", "volume_m3", "dung_kg_per_day", "drawing")


def basis(args):
    """Return which of BASES the command-line arguments give: one and only one, and a drawing with nothing beside it."""
    given = [name for name in BASES if getattr(args, name) is not None]
    if len(given) != 1:
        raise Missing(f"one of {', '.join(BASES)}")
    beside = [name for name in CHOICES if getattr(args, name) is not None]
    if given == ["drawing"] and beside:
        raise CalcError(f"a drawing says its own {beside[0]}")
    return given[0]


def wanted(args):
    """Return the Design that command-line arguments ask for by its size."""
    given = basis(args)
    share = STORE_SHARE if args.store_share is None else args.store_share
    named = "cap-on-bowl" if args.shape is None else args.shape
    how = {"form": shape(_shape(named), args.bottom, args.rise), "dome": "brick" if args.dome is None else args.dome}
    if given == "gas_m3_per_day":
        return designs.for_gas(args.gas_m3_per_day, args.temp_c, share, **how)
    if given == "volume_m3":
        return designs.for_volume(args.volume_m3, args.temp_c, share, **how)
    if args.temp_c is None:
        raise Missing("temp_c")
    return designs.for_feed(sizing.feed_from_dung(args.dung_kg_per_day), args.temp_c, share, **how)


def _shape(name):
    written = name.casefold().replace("_", "-").replace(" ", "-")
    if written not in SHAPES:
        raise Unknown(name, SHAPES)
    return SHAPES[written]


def sheet(made, packs=None):
    """Return a Design as a dictionary that JSON can hold; keys end in their unit."""
    vessel, levels = made.vessel, made.levels
    row = {
        "shape": made.shape,
        "bottom": vessel.bottom,
        "dome": made.dome,
        "inside_volume_m3": vessel.inside_m3,
        "volume_to_zero_line_m3": made.volume_to_zero_line_m3,
        "gas_store_m3": levels.store_m3,
        "gas_m3_per_day": made.gas_m3_per_day,
        "dung_kg_per_day": made.feed.dung_kg_per_day if made.feed else None,
        "water_l_per_day": made.feed.water_l_per_day if made.feed else None,
        "inside_radius_m": vessel.radius_m,
        "dome_rise_m": vessel.dome_rise_m,
        "dome_sphere_radius_m": vessel.sphere_radius_m,
        "wall_height_m": vessel.wall_height_m,
        "bowl_depth_m": vessel.bottom_depth_m,
        "shell_thickness_m": made.shell_thickness_m,
        "lowest_slurry_level_m": levels.lowest_m,
        "highest_slurry_level_m": levels.zero_line_m,
        "overflow_level_m": levels.overflow_m,
        "crown_level_m": vessel.crown_m,
        "passage_top_level_m": made.passage_top_m,
        "ground_level_m": made.ground_m,
        "greatest_head_m": levels.greatest_head_m,
        "greatest_pressure_pa": levels.greatest_pressure_pa,
        "chamber_length_m": made.chamber_length_m,
        "chamber_width_m": made.chamber_width_m,
        "chamber_depth_m": levels.overflow_m - levels.zero_line_m,
        "soil_cover_m": made.cover_m,
        "pit_diameter_m": made.pit_diameter_m,
        "pit_depth_m": made.pit_depth_m,
        "pit_deepest_m": made.deepest_m,
        "pit_volume_m3": made.pit_volume_m3,
        "pit_person_days": person_days(made.pit_volume_m3, "ordinary", made.deepest_m),
        "base_thickness_m": made.base_thickness_m,
        "base_volume_m3": made.base_volume_m3,
    }
    times = made.retention_times_d
    row["retention_to_zero_line_d"], row["retention_below_lowest_level_d"] = times or (None, None)
    row |= _of_a_day(made)
    row["first_fill_dung_kg"], row["first_fill_water_l"] = first_fill(made)
    row["look_at"] = [dict(zip(("what", "value", "limit", "unit"), found, strict=True)) for found in findings(made)]
    row["bill"] = [each._asdict() for each in bill(made, packs)]
    row["assumed"] = list(ASSUMED)
    row["edition"] = EDITION
    return row


def _of_a_day(made):
    """Store and heat against a day's gas; the share that fits beside the slurry of the retention time, without dead space."""
    gas_m3, beside = made.gas_m3_per_day, None
    if made.feed and gas_m3:
        days = made.retention_d or NOMINAL_RETENTION_D
        beside = sizing.store_share_held(made.vessel.inside_m3, made.feed.slurry_m3_per_day, days, gas_m3)
    return {
        "store_share_of_day": made.levels.store_m3 / gas_m3 if gas_m3 else None,
        "store_share_beside_slurry": beside,
        "heat_j_per_day": heat_j(gas_m3) if gas_m3 else None,
    }


def lines(row):
    """Return a sheet as lines to read."""
    single = [(name, value) for name, value in row.items() if not isinstance(value, list)]
    told = [f"{name:32} {value:.3f}" if isinstance(value, float) else f"{name:32} {value}" for name, value in single]
    told += [f"look at {found['what']}: {found['value']:.3g} {found['unit']}, limit {found['limit']:.3g}" for found in row["look_at"]]
    told += [f"assumed {each}" for each in row["assumed"]]
    return told + ["bill {stage:9} {item:15} {quantity:9.2f} {unit:6} buy {packs} x {pack:g}".format(**each) for each in row["bill"]]
