"""The dangers on a site: facts in, rule ids with their levels out, in the order they must be said.

STOP do not start, or come out; REFUSE not answered here; WARN go on only after the named thing; NOTE a reminder.
Nothing here releases anything: arithmetic can only take a release away.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import NamedTuple

from calc import needs as n
from calc import sources as s
from calc.facts import (
    DUST_TASKS,
    ELECTRIC_ASKS,
    GAS_ASKS,
    INSIDE_TASKS,
    OPEN_SLURRY_TASKS,
    SLURRY_TASKS,
    STAGES,
    UNDER_18_TASKS,
    WET_CEMENT_TASKS,
    Facts,
    yes,
)
from calc.signs import (
    IN_USE,
    OPEN_PIT,
    OUTDOORS,
    TO_DIG,
    bad_ladder,
    changed,
    cured_short,
    deep,
    entered,
    fresh_wall,
    fumes,
    gas_near,
    gas_over,
    heap_near,
    heavy_slab,
    hot,
    inside_new,
    inside_used,
    load_near,
    near_building,
    no_air,
    no_limit,
    occupied,
    open_pit,
    over,
    poor_reading,
    reaches,
    released,
    said,
    short,
    steep,
    too_deep,
    uncovered,
    wbgt,
)

__all__ = ["RULES", "STAGES", "Facts", "Hazard", "judge"]

STOP, REFUSE, WARN, NOTE = "stop", "refuse", "warn", "note"
LEVELS = (STOP, REFUSE, WARN, NOTE)
FIRST = ("N2", "G1", "I3", "E7", "N1", "E13", "E14", "V4", "E8", "E3", "E4", "E1", "T2", "T3")


@dataclass(frozen=True)
class Hazard:
    """One rule that holds: its id, its level, and what its text names, each by its name with unit.

    A value of None was not reported; nan was reported and cannot be read.
    """

    rule: str
    level: str
    values: dict = field(default_factory=dict)


class Rule(NamedTuple):
    """When one rule holds at one level; `given` are the facts whose absence counts as "no" in it."""

    rule: str
    level: str
    holds: Callable
    values: tuple = ()
    given: tuple = ()


DEPTH = ("depth_m",)
PEOPLE = ("depth_m", "people_in_pit")
SLOPE = (n.deepest_m, "slope_run_m", n.soil_class, n.slope_need_m)
FORM = (n.form_age_d, n.form_need_d)
SLAB = ("slab_length_m", "slab_width_m", "slab_thickness_m")
WEIGHT = (*SLAB, n.slab_kg, n.lift_guide_kg)

# Of the rows of one rule the first that holds counts. A missing measure of a thing that must be there is dangerous;
# a danger nobody reported (crack, load, engine, thunder) is not there, one reported with an unreadable number is.
RULES = (
    Rule("P1", WARN, lambda f: (f.stage in TO_DIG or said(f.services_checked)) and f.services_checked is not True,
         given=("services_checked",)),
    Rule("P2", STOP, lambda f: said(f.old_pit_m) and not f.old_pit_m > s.OLD_PIT_M
         or yes(f.smell_in_pit) or yes(f.gas_smell) and f.place == "pit"),
    Rule("P3", WARN, near_building, ("neighbour_m", "planned_depth_m")),
    Rule("P4", WARN, lambda f: said(f.overhead_line_m) and short(f.overhead_line_m, s.OVERHEAD_LINE_M)
         or yes(f.long_metal_near_line)),

    Rule("E1", STOP, lambda f: deep(f, s.LADDER_FROM_M) and f.ladder is not True and entered(f),
         given=(*PEOPLE, "ladder")),
    Rule("E1", WARN, lambda f: deep(f, s.LADDER_FROM_M) and f.ladder is not True, given=(*DEPTH, "ladder")),
    Rule("E2", WARN, bad_ladder, given=("ladder_above_edge_m",)),
    Rule("E3", STOP, lambda f: deep(f, s.PROTECT_FROM_M) and n.soil_class(f) != "rock" and not released(f),
         given=DEPTH),
    Rule("E4", STOP, lambda f: steep(f) and too_deep(f)),  # no figures for a pit beyond this house
    Rule("E4", STOP, lambda f: steep(f) and deep(f, s.PROTECT_FROM_M), SLOPE, (*DEPTH, "slope_run_m")),
    Rule("E4", WARN, lambda f: steep(f) and said(f.slope_run_m), SLOPE),
    Rule("E5", WARN, lambda f: deep(f, s.SOIL_ASKED_FROM_M) and f.soil not in s.SLOPE_RUN, given=(*DEPTH, "soil")),
    Rule("E6", WARN, lambda f: f.soil in s.SLOPE_RUN and n.soil_class(f) != f.soil, (n.soil_class,)),
    Rule("E7", STOP, n.moving),
    Rule("E8", STOP, lambda f: n.wet(f) and entered(f), given=("people_in_pit",)),
    Rule("E8", WARN, n.wet),
    Rule("E9", STOP, lambda f: open_pit(f) and (changed(f) or over(f.check_h, s.CHECK_LIFE_H)) and entered(f),
         ("check_h",), ("check_h", "people_in_pit")),
    Rule("E9", WARN, lambda f: open_pit(f) and (changed(f) or over(f.check_h, s.CHECK_LIFE_H)),
         ("check_h",), ("check_h",)),
    Rule("E10", STOP, lambda f: said(f.spoil_edge_m) and heap_near(f, s.HEAP_STOP_M), ("spoil_edge_m", n.heap_need_m)),
    Rule("E10", WARN, lambda f: heap_near(f, s.HEAP_WARN_M), ("spoil_edge_m", n.heap_need_m), ("spoil_edge_m",)),
    Rule("E10", NOTE, lambda f: heap_near(f, n.heap_need_m(f)), ("spoil_edge_m", n.heap_need_m), DEPTH),
    Rule("E11", STOP, lambda f: load_near(f) and yes(f.vehicle_near) and occupied(f), ("load_edge_m", n.load_need_m)),
    Rule("E11", WARN, load_near, ("load_edge_m", n.load_need_m), ("load_edge_m", "depth_m")),
    Rule("E12", STOP, lambda f: yes(f.undercut) or None not in (f.pit_top_d_m, f.pit_bottom_d_m)
         and over(f.pit_bottom_d_m - f.pit_top_d_m, s.OVERHANG_M), ("pit_top_d_m", "pit_bottom_d_m")),
    Rule("E13", STOP, lambda f: yes(f.engine_in_pit) or yes(f.fire_in_pit)
         or said(f.engine_edge_m) and short(f.engine_edge_m, s.ENGINE_EDGE_M) and occupied(f)),
    Rule("E14", STOP, lambda f: yes(f.electric_pump) and occupied(f) and over(f.water_in_pit_m, 0),
         given=("people_in_pit", "water_in_pit_m")),
    Rule("E15", STOP, too_deep, (n.deepest_m,)),
    Rule("E16", WARN, lambda f: yes(f.leaving) and (f.stage in (*OPEN_PIT, "dome") or said(f.depth_m))
         and reaches(n.reckoned_m(f), s.FENCE_FROM_M) and f.fence is not True, given=(*DEPTH, "fence")),
    Rule("E17", WARN, lambda f: deep(f, s.WATCHER_FROM_M) and occupied(f) and f.watcher is not True,
         given=(*PEOPLE, "watcher")),
    Rule("E18", NOTE, lambda f: deep(f, s.SHALLOW_FROM_M) and not deep(f, s.PROTECT_FROM_M)
         and (n.soil_class(f) == "C" or yes(f.bending))),
    Rule("E19", STOP, lambda f: said(f.worker_age_y) and short(f.worker_age_y, s.ADULT_Y)
         and (not f.tasks or bool(f.tasks & UNDER_18_TASKS))),

    Rule("W1", STOP, lambda f: said(f.platform_h_m) and reaches(f.platform_h_m, s.RAIL_FROM_M)
         and f.guard_rail is not True, given=("guard_rail",)),
    Rule("W2", WARN, lambda f: said(f.platform_h_m) and reaches(f.platform_h_m, s.PLATFORM_LADDER_M)
         and f.platform_ladder is not True, given=("platform_ladder",)),
    Rule("W3", WARN, fresh_wall, given=("wall_age_h", "wall_least_h", "backfill_step_m")),
    Rule("W4", STOP, lambda f: yes(f.lowering) and occupied(f), given=("people_in_pit",)),

    Rule("C1", WARN, lambda f: yes(f.wet_skin) or yes(f.kneeling)),
    Rule("C1", NOTE, lambda f: bool(f.tasks & WET_CEMENT_TASKS)),
    Rule("C2", STOP, lambda f: yes(f.eye_splash)),
    Rule("C3", WARN, lambda f: bool(f.tasks & DUST_TASKS) or "mix_dry" in f.tasks and yes(f.indoors)),
    Rule("C4", WARN, lambda f: said(f.load_kg) and over(f.load_kg, n.lift_guide_kg(f)), ("load_kg", n.lift_guide_kg)),

    Rule("D1", STOP, lambda f: yes(f.strip_asked) and short(f.cast_h, n.form_need_d(f) * 24), FORM, ("cast_h",)),
    Rule("D2", STOP, lambda f: yes(f.casting) and said(f.least_temp_c) and short(f.least_temp_c, s.NO_CAST_C),
         ("least_temp_c",)),
    Rule("D2", WARN, lambda f: (said(f.least_temp_c) or yes(f.casting) or yes(f.strip_asked))
         and short(f.least_temp_c, s.FORM_TABLE_C), ("least_temp_c",), ("least_temp_c",)),
    Rule("D3", WARN, cured_short, ("cured_d", n.cure_need_d)),
    Rule("D4", STOP, lambda f: yes(f.vehicle_on_dome)
         or yes(f.load_on_dome) and short(f.cast_h, n.load_need_d(f) * 24)),
    Rule("D5", STOP, lambda f: any(map(yes, (f.dome_crack, f.dome_sag, f.hollow_sound, f.wall_bulge)))),
    Rule("D6", WARN, lambda f: "remove_mould" in f.tasks),

    Rule("I1", STOP, lambda f: inside_new(f) and (f.watcher is not True or short(f.openings_open, s.DOME_OPENINGS)),
         given=("watcher", "openings_open")),
    Rule("I1", WARN, inside_new),
    Rule("I2", STOP, fumes),
    Rule("I3", STOP, lambda f: yes(f.symptom)),

    Rule("L1", STOP, lambda f: f.lifters not in (None, 0) and heavy_slab(f, s.LIFT_NEVER_KG), WEIGHT, SLAB),
    Rule("L1", WARN, lambda f: heavy_slab(f, n.lift_guide_kg(f)), WEIGHT, SLAB),
    Rule("L2", STOP, uncovered, given=("covers_on",)),
    Rule("L2", WARN, lambda f: f.stage in IN_USE and f.covers_on is None, given=("covers_on",)),

    Rule("T1", STOP, no_limit),
    Rule("T2", STOP, lambda f: said(f.test_head_m) and over(f.test_head_m, n.head_limit_m(f)),
         ("test_head_m", n.head_limit_m)),
    Rule("T2", WARN, lambda f: said(f.test_head_m) and reaches(f.test_head_m, n.head_limit_m(f) * s.NEAR_LIMIT),
         ("test_head_m", n.head_limit_m)),
    Rule("T3", STOP, lambda f: f.press_source not in (None, "hand_pump", "water")),
    Rule("T4", STOP, lambda f: yes(f.test_running) and f.people_on_dome not in (None, 0)),
    Rule("T4", WARN, lambda f: yes(f.test_running) and f.people_on_dome is None, given=("people_on_dome",)),
    Rule("T5", WARN, poor_reading, ("test_least_h",),
         ("test_h", "test_least_h", "test_start_m", "temp_change_c", "valve_shut")),
    Rule("T6", STOP, lambda f: f.leak_check not in (None, "soap")),

    Rule("G1", STOP, lambda f: yes(f.gas_smell) and f.place not in (*OUTDOORS, "pit")),
    Rule("G2", WARN, lambda f: yes(f.gas_smell) and f.place in OUTDOORS),
    Rule("G3", WARN, lambda f: f.stage == "first_gas" or yes(f.first_gas) or yes(f.opened_after_empty)),
    Rule("G4", REFUSE, lambda f: bool(f.asks & GAS_ASKS)),
    Rule("G5", STOP, lambda f: f.flame not in (None, "blue") and yes(f.symptom)),
    Rule("G5", WARN, lambda f: f.flame not in (None, "blue")),
    Rule("G6", WARN, no_air, given=("stove_vents",)),
    Rule("G7", STOP, gas_over, ("gas_head_m", n.gas_head_limit_m)),
    Rule("G7", WARN, gas_near, ("gas_head_m", "gas_limit_m"), ("gas_limit_m",)),
    Rule("G8", WARN, lambda f: yes(f.emptying) and f.gas_valve_open is not True
         or said(f.gas_head_m) and short(f.gas_head_m, 0), ("gas_head_m",)),

    Rule("N1", STOP, inside_used),
    Rule("N2", STOP, lambda f: yes(f.person_down) or yes(f.fell_in) or yes(f.not_answering)),
    Rule("N3", REFUSE, lambda f: yes(f.gas_reading) and (yes(f.wants_entry) or bool(f.tasks & INSIDE_TASKS))),
    Rule("O1", WARN, lambda f: yes(f.toilet_linked) and f.slurry_use not in (None, "tree", "field", "compost")),
    Rule("O2", NOTE, lambda f: bool(f.tasks & SLURRY_TASKS)),
    Rule("O3", WARN, lambda f: yes(f.groundwater_above_floor) and f.plant_empty is not False or yes(f.flood)),
    Rule("O4", WARN, lambda f: bool(f.tasks & OPEN_SLURRY_TASKS) and f.slurry_ever_filled is not False),

    Rule("V1", STOP, lambda f: wbgt(f, s.WBGT_STOP_C), ("wbgt_c", n.wbgt_limit_c, "work")),
    Rule("V1", WARN, wbgt, ("wbgt_c", n.wbgt_limit_c, "work")),
    Rule("V2", STOP, lambda f: hot(f, 2) and f.work not in ("light", "moderate")),
    Rule("V2", WARN, lambda f: hot(f, 1)),
    Rule("V2", NOTE, lambda f: hot(f, 0)),
    Rule("V3", WARN, lambda f: (wbgt(f) or hot(f, 0)) and short(f.acclimatised_d, s.NEW_WORKER_D)),
    Rule("V4", STOP, lambda f: said(f.thunder_min) and short(f.thunder_min, s.THUNDER_MIN), ("thunder_min",)),
    Rule("V5", REFUSE, lambda f: bool(f.asks & ELECTRIC_ASKS)),
    Rule("V6", WARN, lambda f: yes(f.dark) and (occupied(f) or yes(f.inside))),
    Rule("X5", WARN, lambda f: f.side_protection is not None and not released(f) or yes(f.approval_void)),
)  # fmt: skip
ORDER = (*FIRST, *dict.fromkeys(row.rule for row in RULES if row.rule not in FIRST), "X2", "X3")


def impossible(facts):
    """Return one hazard X2 for every reported number that a household plant cannot have."""
    found = []
    for name, (unit, low, high) in s.FACT_RANGES.items():
        value = getattr(facts, name)
        if value is not None and not ((low is None or value >= low) and (high is None or value <= high)):
            found.append(Hazard("X2", STOP, {"fact": name, "value": value, "low": low, "high": high, "unit": unit}))
    return found


def judge(facts):
    """Return the dangers in these facts, in the order they must be said.

    Parameters
    ----------
    facts : Facts
        What was reported and still holds.

    Returns
    -------
    tuple of Hazard
        STOP, REFUSE, WARN, NOTE; inside STOP people down, gas and moving ground first. X1 and X4, about a text
        that cannot be read, are for who reads it. X3 names the facts that were missing where a rule holds.

    Notes
    -----
    A rule is on where its stage is on or its facts were reported; dangers that people report are on always.

    Examples
    --------
    >>> [(h.rule, h.level) for h in judge(Facts(crack=True, depth_m=0.9, people_in_pit=1, check_h=1, spoil_edge_m=2))]
    [('E7', 'stop'), ('E18', 'note')]
    """
    held = {}
    for row in RULES:
        if row.rule not in held and row.holds(facts):
            held[row.rule] = row
    hazards = [Hazard(row.rule, row.level, {_name(v): _value(facts, v) for v in row.values}) for row in held.values()]
    hazards += impossible(facts)
    missing = dict.fromkeys(name for row in held.values() for name in row.given if getattr(facts, name) is None)
    if missing:
        hazards.append(Hazard("X3", WARN, {"fact": next(iter(missing)), "facts": tuple(missing)}))
    return tuple(sorted(hazards, key=lambda hazard: (LEVELS.index(hazard.level), ORDER.index(hazard.rule))))


def _name(value):
    return value.__name__ if callable(value) else value


def _value(facts, value):
    return value(facts) if callable(value) else getattr(facts, value)
