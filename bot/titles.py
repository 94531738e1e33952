"""How things are called: a reading, too much of it, too little of it; a material of the bill."""

from bot.phrases import T_, Length, Text

TITLES = {
    "pit_depth_m": (T_("Deep"), T_("too deep"), T_("too shallow")),
    "pit_dia_m": (T_("Wide"), T_("too wide"), T_("too narrow")),
    "base_thick_m": (T_("Thick"), T_("too thick"), T_("too thin")),
    "wall_height_m": (T_("High"), T_("too high"), T_("too low")),
    "well_m": (T_("Well"), Text(), Text()),
    "house_m": (T_("House"), Text(), Text()),
    "tree_m": (T_("Tree"), Text(), Text()),
    "road_m": (T_("Road"), Text(), Text()),
    "kitchen_m": (T_("Kitchen"), Text(), Text()),
    "stable_m": (T_("Stable"), Text(), Text()),
    "old_pit_m": (T_("Old pit"), Text(), Text()),
    "overhead_line_m": (T_("Power line"), Text(), Text()),
    "dome_height_m": (T_("Rise"), T_("too high"), T_("too low")),
    "dome_radius_m": (T_("String"), T_("too long"), T_("too short")),
    "coats": (T_("On it"), T_("too many"), T_("too few")),
    "cover_m": (T_("Over the crown"), T_("too much"), T_("too little")),
    "layer_m": (T_("layer"), Text(), Text()),
    "levels_m": (T_("high round it"), Text(), Text()),
    "ground_water_m": (T_("water down"), Text(), Text()),
    "coat_thick_m": (T_("Coat"), T_("too thick"), T_("too thin")),
    "pit_top_dia_m": (T_("top"), Text(), Text()),
    "pit_bottom_dia_m": (T_("bottom"), Text(), Text()),
    "pit_dish_m": (T_("dish"), Text(), Text()),
    "slope_run_m": (T_("slope run"), Text(), Text()),
    "spoil_edge_m": (T_("heap"), Text(), Text()),
    "ladder_above_edge_m": (T_("ladder above edge"), Text(), Text()),
    "water_in_pit_m": (T_("water"), Text(), Text()),
    "slab_length_m": (T_("slab long"), Text(), Text()),
    "slab_width_m": (T_("wide"), Text(), Text()),
    "slab_thickness_m": (T_("thick"), Text(), Text()),
    "water_drop_m": (T_("fell"), Text(), Text()),
    "rain_fall_m": (T_("rain"), Text(), Text()),
    "pan_fall_m": (T_("pan"), Text(), Text()),
}
MATERIALS = {
    "cement_kg": T_("cement"),
    "sand_m3": T_("sand"),
    "gravel_m3": T_("gravel"),
    "bricks": T_("bricks"),
    "mesh_m2": T_("mesh"),
    "bar_m": T_("8 mm bars"),
    "waterproofer_l": T_("waterproofer"),
    "pipe_m": T_("110 mm pipe"),
    "gas_pipe": T_("dome gas pipe"),
    "valve": T_("main valve"),
}
CONTAINERS = {  # one, several
    "bucket": (T_("bucket"), T_("buckets")),
    "pan": (T_("pan"), T_("pans")),
    "tin": (T_("tin"), T_("tins")),
    "debe": (T_("debe"), T_("debe")),
    "jerrycan": (T_("jerrycan"), T_("jerrycans")),
    "box": (T_("box"), T_("boxes")),
    "barrow": (T_("barrow"), T_("barrows")),
    "cart": (T_("cart"), T_("carts")),
    "trolley": (T_("trolley"), T_("trolleys")),
    "tipper": (T_("tipper"), T_("tippers")),
}


def titled(name, values, feet=False):
    """A reading under its name: "Deep 1.83 m (183 cm)"."""
    return T_("%(title)s %(value)s", title=TITLES[name][0], value=Length(values, feet))
