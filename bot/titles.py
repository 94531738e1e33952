"""How things are called: a reading, too much of it, too little of it; a material of the bill."""

from bot.phrases import T_, Length, Local, Text

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
    "river_m": (T_("River"), Text(), Text()),
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
    "fence_height_m": (T_("fence"), Text(), Text()),
    "water_in_pit_m": (T_("water"), Text(), Text()),
    "slab_length_m": (T_("slab long"), Text(), Text()),
    "slab_width_m": (T_("wide"), Text(), Text()),
    "slab_thickness_m": (T_("thick"), Text(), Text()),
    "water_drop_m": (T_("fell"), Text(), Text()),
    "rain_fall_m": (T_("rain"), Text(), Text()),
    "pan_fall_m": (T_("pan"), Text(), Text()),
}
VERDICTS = {  # how an entry stands; with none it was only noted
    None: T_("noted"),
    "within": T_("within"),
    "outside": T_("outside"),
    "not_enough": T_("not enough"),
    "stop": T_("stop"),
    "recorded": T_("recorded"),
    "not_done": T_("not done"),
    "released": T_("released"),
    "refused": T_("refused"),
}
ENTRIES = {  # what an entry of the log is called: the stage or the kind it is of
    "coats": T_("plaster"),
    "fix": T_("plan"),
    "enter": T_("entry asked"),
    "ground_water": T_("ground water"),
    "water_begun": T_("water test begun"),
    "water_test": T_("water test"),
    "gas_test": T_("gas test"),
    "pipe_test": T_("pipe test"),
    "pipe": T_("gas pipe"),
    "use": T_("gas use"),
    "inlet_pipe": T_("inlet pipe"),
    "siting": T_("distances"),
    "idle": T_("days without work"),
    "lost": T_("days lost"),
    "collected": T_("dung collected"),
    "vent": T_("gas let off"),
    "temp": T_("temperature"),
    "round": T_("roundness"),
    "tube": T_("tube level"),
    "asked": T_("question"),
    "first_fill": T_("first fill"),
    "first_gas": T_("first gas"),
    "pit": T_("pit"),
    "base": T_("base"),
    "wall": T_("wall"),
    "dome": T_("dome"),
    "outlet": T_("outlet"),
    "inlet": T_("inlet"),
    "plaster": T_("plaster"),
    "covers": T_("covers"),
    "backfill": T_("backfill"),
    "handover": T_("handover"),
    "layout": T_("layout"),
    "site": T_("siting"),
    "photo": T_("photo"),
    "unlink": T_("unlink"),
    "container": T_("container"),
    "wet": T_("kept wet"),
    "size": T_("size"),
    "release": T_("release"),
    "refuse": T_("refuse"),
    "silt": T_("silt"),
    "jar": T_("jar"),
    "undo": T_("undo"),
    "flame": T_("flame"),
    "feed": T_("feed"),
    "weather": T_("weather"),
    "crew": T_("crew"),
    "leak": T_("leak"),
    "cement": T_("cement"),
    "fault": T_("no gas"),
    "curing": T_("curing"),
    "levels": T_("levels"),
    "level": T_("level"),
    "danger": T_("danger"),
    "join": T_("join"),
    "code": T_("code"),
    "admit": T_("admit"),
    "stock": T_("stock"),
    "stage": T_("stage"),
    "foreign": T_("number of another site"),
    "remove": T_("remove"),
    "newsite": T_("new site"),
    "extra": T_("one more point asked"),
    "audit": T_("drawn for a visit"),
}
FACTS = {  # what a danger rule asks for, where its name does not say it
    "backfill_step_m": T_("fill height on each side"),
    "cast_h": T_("when cast"),
    "ladder": T_("ladder"),
    "soil": T_("soil"),
    "pipe_length_m": T_("pipe length"),
    "check_h": T_("last look at the sides"),
    "gas_limit_m": T_("gas limit of the plan"),
    "least_temp_c": T_("night temperature"),
    "load_edge_m": T_("load near the edge"),
    "people_in_pit": T_("people in the pit"),
    "people_on_dome": T_("people on the dome"),
    "services_checked": T_("cables asked"),
    "slope_run_m": T_("how far the side goes back"),
    "spoil_edge_m": T_("heap to edge"),
    "temp_change_c": T_("temperature change"),
    "test_h": T_("hours of the test"),
    "test_least_h": T_("hours the test needs"),
    "wall_age_h": T_("age of the wall"),
    "wall_least_h": T_("wait for the wall"),
    "water_in_pit_m": T_("water in the pit"),
}
ROLES = {
    "mason": T_("mason"),
    "supervisor": T_("supervisor"),
    "farmer": T_("farmer"),
    "deputy": T_("deputy"),
    "head": T_("programme head"),
}
PROTECTIONS = {"slope": T_("slope"), "support": T_("support")}  # what keeps the sides of a pit up
DOMES = {"brick": T_("brick"), "concrete": T_("concrete"), "ferrocement": T_("ferrocement")}
SANDS = {"damp": T_("Damp sand"), "wet": T_("Wet sand"), "dry": T_("Dry sand")}
WAITS = {  # what something waits for, as curing names it
    "wall on base": T_("wall on base"),
    "dome on wall": T_("dome on wall"),
    "tight plaster on masonry": T_("plaster on dome"),
    "strip dome": T_("taking out the form"),
    "backfill wall": T_("soil behind the wall"),
    "cover dome": T_("soil over the dome"),
    "water test": T_("water test"),
}
WORK = {"light": T_("light"), "moderate": T_("moderate"), "heavy": T_("heavy"), "very_heavy": T_("very heavy")}
PLAIN = {"yes": T_("yes"), "no": T_("no")}
UNIT_ENDINGS = ("m", "m2", "m3", "kg", "l", "pa", "c", "d", "h", "min", "y")
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


def entry_title(entry):
    """What an entry of the log is called: the stage it is about, else its kind."""
    named = entry.fields.get("stage") or entry.kind
    return ENTRIES.get(named, named)


def emergency(site=None):
    """Whom to call, as the programme says it."""
    if site is None:
        return T_("Shout for help.")
    own = site.rules.emergency_text
    return Local(own, site.rules.emergency_texts) if own else T_("Call local rescue and your supervisor.")


def spoken(name):
    """A quantity as people call it, without its unit: "spoil_edge_m" -> "heap to edge", "pipe_length_m" -> "pipe length"."""
    head, _, tail = name.rpartition("_")
    return FACTS.get(name) or (head if head and tail in UNIT_ENDINGS else name).replace("_", " ")


def titled(name, values, feet=False):
    """A reading under its name: "Deep 1.83 m (183 cm)"."""
    return T_("%(title)s %(value)s", title=TITLES[name][0], value=Length(values, feet))
