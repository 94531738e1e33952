"""What is known of a site when its dangers are judged, and what follows from it by arithmetic.

A flag has three states: True, False, and None where nobody reported it. A number that was not reported is None;
one that was reported and cannot be read is nan, and `calc.hazards` takes both as dangerous, each in its own way.
Facts are those of this message and those of the log that still hold: the depth of a pit only while it is open.
"""

from dataclasses import dataclass
from math import nan
from numbers import Real

from calc import sources
from calc.errors import Unknown

STAGES = (
    "site", "layout", "pit", "base", "wall", "dome", "inlet", "outlet", "plaster", "covers", "backfill",
    "water_test", "gas_test", "pipe", "first_fill", "first_gas", "handover", "use",
)  # fmt: skip
INSIDE_TASKS = frozenset({"inside", "plaster_in", "paint_in", "remove_mould", "clean_in", "repair_in", "desludge_in"})
UNDER_18_TASKS = INSIDE_TASKS | {"pit", "height", "lift", "desludge_out", "stir"}
WET_CEMENT_TASKS = frozenset({"mix", "plaster", "plaster_in", "concrete", "floor"})
DUST_TASKS = frozenset({"cut_dry", "grind", "chip", "sweep_dry", "sieve"})
SLURRY_TASKS = frozenset({"feed", "slurry", "desludge_out"})
OPEN_SLURRY_TASKS = frozenset({"stir", "desludge_out", "repair_outlet"})
TASKS = UNDER_18_TASKS | WET_CEMENT_TASKS | DUST_TASKS | SLURRY_TASKS | OPEN_SLURRY_TASKS | {"mix_dry"}
GAS_ASKS = frozenset({"pipe_size", "pipe_fit", "stove_fit", "regulator", "lamp_fit", "heater_fit", "geyser"})
ELECTRIC_ASKS = frozenset({"wiring", "earthing", "generator", "pump_wiring", "inverter", "lightning_rod"})

Flag = bool | None
Number = float | None


def yes(flag):
    """Return whether a danger was reported: anything but None and False."""
    return flag not in (None, False)


@dataclass(frozen=True, kw_only=True)
class Facts:
    """Facts about one site, each named with its unit.

    Raises
    ------
    Unknown
        If the stage, a task or a question is none of those named above.
    """

    stage: str | None = None
    tasks: frozenset = frozenset()  # what people are doing or about to do, from TASKS
    asks: frozenset = frozenset()  # what was asked, from GAS_ASKS and ELECTRIC_ASKS
    place: str | None = None  # of a smell: kitchen, house, shed, stable, room; dome, pipe, outlet, yard; pit

    # people hurt, gas, moving ground
    person_down: Flag = None
    fell_in: Flag = None
    not_answering: Flag = None
    symptom: Flag = None  # dizzy, headache, sleepy, sick, faint, short of breath
    gas_smell: Flag = None
    crack: Flag = None  # in the ground
    bulge: Flag = None
    lumps_falling: Flag = None
    edge_sinking: Flag = None
    eye_splash: Flag = None

    # before digging
    services_checked: Flag = None
    old_pit_m: Number = None  # to a latrine, septic tank, manure pit, old digester, filled-in pit
    smell_in_pit: Flag = None
    neighbour_m: Number = None  # to a building, wall, tree, road, pole
    planned_depth_m: Number = None
    overhead_line_m: Number = None
    long_metal_near_line: Flag = None

    # the open pit
    depth_m: Number = None  # at the edge
    bowl_m: Number = None  # deeper in the middle by this
    pit_top_d_m: Number = None
    pit_bottom_d_m: Number = None
    undercut: Flag = None
    soil: str | None = None  # A, B, C, rock (stable, confirmed by a competent person)
    slope_run_m: Number = None  # level, from the floor edge out to the top edge
    side_protection: str | None = None  # slope, support: signed by a competent person; void: no longer
    release_h: Number = None  # since that signature
    approval_void: Flag = None  # any other release that no longer holds
    check_h: Number = None  # since the sides were looked at
    new_shift: Flag = None  # since that look, as the next five
    rain_since_check: Flag = None
    depth_change_m: Number = None
    freeze: Flag = None
    blasting: Flag = None
    vibration: Flag = None
    fissured: Flag = None
    disturbed: Flag = None  # dug before, filled ground
    layers_dip_in: Flag = None
    water_in_pit_m: Number = None
    seepage: Flag = None
    submerged: Flag = None
    spoil_edge_m: Number = None  # from the edge to the foot of the soil heap
    load_edge_m: Number = None  # to bricks, sand, animals, vehicles
    vehicle_near: Flag = None  # that load is a vehicle
    ladder: Flag = None
    ladder_above_edge_m: Number = None
    ladder_travel_m: Number = None
    ladder_height_m: Number = None
    ladder_foot_out_m: Number = None
    engine_in_pit: Flag = None
    engine_edge_m: Number = None
    fire_in_pit: Flag = None
    electric_pump: Flag = None
    people_in_pit: Number = None
    entry_next: Flag = None  # somebody is about to go down
    watcher: Flag = None
    bending: Flag = None  # kneels or bends
    leaving: Flag = None  # the site, for the day
    fence: Flag = None  # or a cover that cannot slide
    worker_age_y: Number = None  # of the youngest
    lowering: Flag = None  # things over people
    dark: Flag = None

    # wall, platform, cement
    platform_h_m: Number = None
    guard_rail: Flag = None
    platform_ladder: Flag = None
    backfilling: Flag = None
    wall_age_h: Number = None
    wall_least_h: Number = None  # from the design sheet
    backfill_step_m: Number = None  # greatest difference in level round the wall
    wet_skin: Flag = None
    kneeling: Flag = None  # in wet cement
    indoors: Flag = None
    load_kg: Number = None
    lifters: Number = None
    lift_limit_kg: Number = None  # the person's own, at most 25 kg

    # dome
    strip_asked: Flag = None  # of the dome form or earth mould
    cast_h: Number = None  # full hours since the end of casting
    form_least_d: Number = None  # from the signed design, by cement and cold
    load_on_dome: Flag = None  # people, bricks, soil
    load_least_d: Number = None  # the same
    vehicle_on_dome: Flag = None
    casting: Flag = None
    least_temp_c: Number = None
    air_c: Number = None
    cured_d: Number = None
    cure_least_d: Number = None  # by what it is and how cold it is there
    cure_missed_d: Number = None
    cement: str | None = None  # opc (ordinary Portland); anything else counts as blended
    hot_dry: Flag = None
    dome_crack: Flag = None
    dome_sag: Flag = None
    hollow_sound: Flag = None
    wall_bulge: Flag = None

    # inside a new dome
    inside: Flag = None
    openings_open: Number = None
    paint: str | None = None  # water; anything else is a solvent
    lamp: str | None = None  # battery; anything else burns
    flame_inside: Flag = None
    engine_inside: Flag = None

    # covers
    covers_on: Flag = None  # every inlet, outlet, manhole and turret
    slab_length_m: Number = None
    slab_width_m: Number = None
    slab_thickness_m: Number = None

    # tests
    test_asked: Flag = None
    test_limit_m: Number = None  # head of water, from the released design
    test_head_m: Number = None
    press_source: str | None = None  # hand_pump, water
    test_running: Flag = None
    people_on_dome: Number = None
    test_ended: Flag = None  # the reading is to be judged
    test_h: Number = None
    test_least_h: Number = None
    test_start_m: Number = None
    temp_change_c: Number = None
    valve_shut: Flag = None
    leak_check: str | None = None  # soap; anything else is a flame

    # gas in use
    first_gas: Flag = None
    opened_after_empty: Flag = None
    flame: str | None = None  # blue; anything else is a bad one
    stove_vents: Number = None
    sleeping_room: Flag = None
    windows_closed: Flag = None
    gas_head_m: Number = None
    gas_limit_m: Number = None  # head of water, from the released design
    outlet_spilling: Flag = None
    gas_used: Flag = None
    emptying: Flag = None
    gas_valve_open: Flag = None

    # used plant
    slurry_ever_filled: Flag = None  # once True, never anything else
    wants_entry: Flag = None  # into the digester, inlet, outlet, slurry pit
    gas_reading: Flag = None  # a gas meter's numbers were sent
    toilet_linked: Flag = None
    slurry_use: str | None = None  # tree, field, compost; anything else is food or hands
    groundwater_above_floor: Flag = None
    plant_empty: Flag = None
    flood: Flag = None

    # weather
    wbgt_c: Number = None
    heat_index_c: Number = None
    work: str | None = None  # light, moderate, heavy; anything else counts as very heavy
    acclimatised_d: Number = None  # days of work in this heat
    thunder_min: Number = None  # since the last thunder

    def __post_init__(self):
        if self.stage is not None and self.stage not in STAGES:
            raise Unknown(f"stage {self.stage}", STAGES)
        for word in self.tasks - TASKS:
            raise Unknown(f"task {word}", sorted(TASKS))
        for word in self.asks - GAS_ASKS - ELECTRIC_ASKS:
            raise Unknown(f"question {word}", sorted(GAS_ASKS | ELECTRIC_ASKS))
        for name in sources.FACT_RANGES:
            value = getattr(self, name)
            # a word where a number belongs was reported and cannot be read; True would count as 1
            if value is not None and (isinstance(value, bool) or not isinstance(value, Real)):
                object.__setattr__(self, name, nan)
