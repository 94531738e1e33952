"""The stages of a plant as records: what each asks, checks, holds and waits for; and the limits of every reading."""

from dataclasses import dataclass
from math import inf

from bot.phrases import T_, Text
from calc import sources as s
from calc.checks import Limits, judge

HOLD, WITNESS = "hold", "witness"
LOOSE = 1.7  # a reading may be taken for another unit only within this factor of its plan


@dataclass(frozen=True)
class Wait:
    """Something that must harden first: an event of calc.curing, counted from the day a stage was done."""

    event: str
    since: str


@dataclass(frozen=True)
class Stage:
    """One stage: its title, what comes before it, what is read, where it waits and who must release it."""

    name: str
    title: Text
    order: Text  # what to do, as a foreman says it
    after: tuple = ()
    wants: tuple = ()  # readings without which it is not done
    hold: str | None = None
    waits: tuple = ()
    unchecked: Text = Text()  # which check the bot does not make yet
    kinds: tuple = ()  # entries that are readings of this stage


_NOT_YET = {
    "pipe": T_("The bot does not check gas pipes: only a licensed gas fitter, or the one your programme names, fits and signs."),
    "handover": T_("The bot does not see the plant: send RECORD and go through it with the farmer."),
}

STAGES = {
    stage.name: stage
    for stage in (
        Stage(
            "site", T_("site"), T_("Choose the site; send: well, house, tree, kitchen, each with its distance in m."), (),
            ("well_m", "house_m"), kinds=("siting",),
        ),
        Stage("layout", T_("layout"), T_("Set out pit, inlet and outlet in one line; send: layout, sides and diagonals."), ("site",)),
        Stage("pit", T_("pit"), T_("Dig the pit."), ("layout",), ("pit_depth_m", "pit_dia_m"), HOLD, kinds=("pit",)),
        Stage("base", T_("base"), T_("Cast the base."), ("pit",), ("base_thick_m",), WITNESS, kinds=("base",)),
        Stage(
            "wall", T_("wall"), T_("Build the wall."), ("base",), ("wall_height_m",), WITNESS,
            (Wait("wall on base", "base"),), kinds=("wall",),
        ),
        Stage(
            "dome", T_("dome"), T_("Build the dome."), ("wall",), ("dome_radius_m", "dome_height_m"), HOLD,
            (Wait("wall on base", "base"), Wait("dome on wall", "wall")), kinds=("dome",),
        ),
        Stage("inlet", T_("inlet"), T_("Build the mixing tank, lay the inlet pipe; send: inlet pipe, its end and slope."), ("base",)),
        Stage(
            "outlet", T_("outlet"), T_("Build the outlet chamber; send: outlet floor, overflow, cm below the string."), ("base",),
            hold=WITNESS,
        ),
        Stage(
            "plaster", T_("plaster"), T_("Plaster inside, coat by coat."), ("dome",), ("coats",), HOLD,
            (Wait("tight plaster on masonry", "dome"), Wait("strip dome", "dome")), kinds=("coats",),
        ),
        Stage("covers", T_("covers"), T_("Cast the cover slabs on flat ground."), ("outlet",)),
        Stage(
            "backfill", T_("backfill"), T_("Fill soil evenly all round in layers of 15 to 30 cm, then cover the dome."), ("dome",),
            ("cover_m",), WITNESS, (Wait("backfill wall", "wall"), Wait("cover dome", "dome")), kinds=("backfill",),
        ),
        Stage(
            "water_test", T_("water test"), T_("Fill with water to the zero line."), ("plaster", "inlet", "outlet"),
            wants=("water_drop_m",), hold=HOLD,
            waits=(Wait("water test", "plaster"),), kinds=("water_test",),
        ),
        Stage(
            "gas_test", T_("gas test"), T_("Make the gas test with a water tube."), ("water_test", "backfill"), ("gauge_end_pa",), HOLD,
            kinds=("gas_test",),
        ),
        Stage(
            "pipe", T_("gas pipe"), T_("Let the fitter lay and test the gas pipe."), ("gas_test",), ("pipe_end_pa",), HOLD,
            unchecked=_NOT_YET["pipe"], kinds=("pipe_test",),
        ),
        Stage(
            "first_fill", T_("first fill"), T_("Fill with dung and water, gas valve open. Send FIRST FILL? for the amounts."),
            ("water_test", "gas_test", "pipe", "covers"),
        ),
        Stage(
            "first_gas", T_("first gas"), T_("Wait for gas, let two fillings off outside, then light the stove."), ("first_fill",),
            ("stove_lit",), kinds=("flame",),
        ),
        Stage(
            "handover", T_("handover"), T_("Hand the plant over to the farmer."), ("first_gas",), hold=HOLD,
            unchecked=_NOT_YET["handover"],
        ),
    )
}  # fmt: skip

TOLERANCES = {
    "pit_depth_m": (*s.PIT_DEPTH_M, s.TAPE_M),
    "pit_dia_m": (*s.PIT_WIDTH_M, s.TAPE_M),
    "base_thick_m": (*s.BASE_TOLERANCE_M, s.TAPE_M),
    "wall_height_m": (s.LEVEL_TOLERANCE_M, s.LEVEL_TOLERANCE_M, s.TAPE_M),
    "dome_height_m": (s.LEVEL_TOLERANCE_M, s.LEVEL_TOLERANCE_M, s.TAPE_M),
    "dome_radius_m": (s.LEVEL_TOLERANCE_M, s.LEVEL_TOLERANCE_M, s.STRING_M),
    "cover_m": (*s.COVER_TOLERANCE_M, s.TAPE_M),
    "coat_thick_m": (s.COAT_TOLERANCE_M, s.COAT_TOLERANCE_M, s.FINE_M),
    "coats": (0, s.COATS, 0),
}
DISTANCES = ("well_m", "house_m", "tree_m", "road_m", "kitchen_m", "stable_m")  # limits of these are the programme's
PLANNED = {
    "pit_depth_m": lambda design: design.pit_depth_m,
    "pit_dia_m": lambda design: design.pit_diameter_m,
    "base_thick_m": lambda design: design.base_thickness_m,
    "wall_height_m": lambda design: design.vessel.wall_height_m,
    "dome_height_m": lambda design: design.vessel.dome_rise_m,
    "dome_radius_m": lambda design: design.vessel.sphere_radius_m,
    "cover_m": lambda design: design.cover_m,
    "coat_thick_m": lambda design: float(s.TIGHT_COAT_M),
    "coats": lambda design: s.INSIDE_COATS,
}


def house_tolerance(name):
    """(below, above, measuring uncertainty) of the house for a reading [m], or None where there is no such reading."""
    found = TOLERANCES.get(name)
    return None if found is None else tuple(map(float, found))


def limits(site, name):
    """The Limits of a reading at a site, or None where its plan has no such number."""
    if name in site.rules.siting:
        own = site.rules.siting[name]
        low, high = own.get("at_least_m"), own.get("at_most_m")
        plan, room = (low, {"below": 0.0, "above": inf}) if low is not None else (high, {"below": high, "above": 0.0})
        return Limits(plan, **room, uncertainty=float(s.SITING_M), source=own["source"])
    if site.design is None or name not in PLANNED:
        return None
    plan = PLANNED[name](site.design)
    if not plan:
        return None
    below, above, uncertainty = map(float, TOLERANCES[name])
    own = site.rules.tolerances.get(name, {})
    said = own.get("source") or getattr(TOLERANCES[name][0], "source", "practice value, no source")
    named = own.get("below", below), own.get("above", above), own.get("uncertainty") or uncertainty
    return Limits(plan, *named, s.READINGS_WANTED.get(name, 1), said)


def ranges(site):
    """Field -> (low, high) [m] in which a number without a unit may lie, from the plan of a site."""
    if site is None or site.design is None:
        return {}
    plans = {name: planned(site.design) for name, planned in PLANNED.items()}
    return {name: (plan / LOOSE, plan * LOOSE) for name, plan in plans.items() if plan and name != "pit_depth_m"}


def verdict(site, name, values):
    """The Verdict on readings of a field, or None where the plan has no number for it."""
    held = limits(site, name)
    return None if held is None else judge(values if isinstance(values, list | tuple) else [values], held)
