"""A Design as plain values under the glossary's words, each with its unit: the engineer's sheet."""

from calc.bill import bill
from calc.design import findings
from calc.earth import person_days
from calc.sources import EDITION
from calc.takeoff import ASSUMED, first_fill


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
    row["store_share_of_day"] = levels.store_m3 / made.gas_m3_per_day if made.gas_m3_per_day else None
    row["first_fill_dung_kg"], row["first_fill_water_l"] = first_fill(made)
    row["look_at"] = [dict(zip(("what", "value", "limit", "unit"), found, strict=True)) for found in findings(made)]
    row["bill"] = [vars(each) for each in bill(made, packs)]
    row["assumed"] = list(ASSUMED)
    row["edition"] = EDITION
    return row
