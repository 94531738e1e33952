"""The measures a stage is built to, with what may be off; asked before or during the work."""

from bot import foreman
from bot.forms import Answer, Kind
from bot.phrases import T_, Amount, Between, Series, Size, Span, Text, Volume, lines
from bot.stages import STAGES, limits
from bot.standing import current
from bot.titles import TITLES
from calc.earth import loose_volume, spoil_distance
from calc.ground import fill, outlet_pit_m, outlet_pit_m3
from calc.sources import BACKFILL_STEP_M, LAYER_M
from calc.units import from_si


def answer(form, site, sender, now):
    if site.design is None:
        return Answer(foreman.no_plan(site))
    stage = STAGES.get(form.get("stage")) or current(site)
    if stage is None:
        return Answer(T_("%(site)s: all stages are done.", site=site.code))
    head = foreman.head(site, T_("plan %(stage)s", stage=stage.title))
    told = _measures(stage, site) or foreman.plan_line(stage, site) or _outlet(stage, site.design)
    if not told.sentences:
        covers = T_("Send: slab list.") if stage.name == "covers" else Text()
        return Answer(lines([head, T_("No measure in the plan.") + covers + stage.unchecked]))
    soil = _heap(stage, site.design) + _fill(stage, site)
    return Answer(lines([head, told, _beside(stage, site), soil, T_("Another size: only your supervisor.")]))


def _outlet(stage, made):
    """The outlet chamber inside, and the pit for it with room to work."""
    if stage.name != "outlet":
        return Text()
    long_m, wide_m, depth_m = outlet_pit_m(made)
    inside = {
        "long": Size(made.chamber_length_m),
        "wide": Size(made.chamber_width_m),
        "deep": Size(made.levels.overflow_m - made.levels.zero_line_m),
    }
    pit = {"pit_long": Size(long_m), "pit_wide": Size(wide_m), "pit_deep": Size(depth_m), "dug": Volume(outlet_pit_m3(made))}
    told = T_("Inside %(long)s x %(wide)s, %(deep)s from floor to overflow.", **inside)
    return told + T_("Pit %(pit_long)s x %(pit_wide)s, %(pit_deep)s deep: %(dug)s to dig.", **pit)


def _heap(stage, made):
    """The heap that comes out of the pit, loose, and where it lies."""
    if stage.name != "pit":
        return Text()
    loose = [loose_volume(made.pit_volume_m3, soil) for soil in ("sand", "clay")]
    said = {"loose": Between(*loose, "m3", 0), "away": Size(spoil_distance(made.deepest_m))}
    return T_("Heap %(loose)s loose, %(away)s or more from the edge.", **said)


def _fill(stage, site):
    """The soil that goes back, what is left of it, and what pulls at a dome without it."""
    if stage.name != "backfill":
        return Text()
    made = site.design
    earth, clay = (fill(made, soil) for soil in ("earth", "clay"))
    taken = Between(earth.taken_m3, clay.taken_m3, "m3")
    said = {"low": Span(*map(float, LAYER_M)), "apart": Size(BACKFILL_STEP_M), "taken": taken}
    told = T_("Layers %(low)s, at most %(apart)s apart round it. Takes %(taken)s of the dug soil.", **said)
    if earth.left_loose_m3 > 0:
        told += T_("Left %(left)s loose.", left=Between(earth.left_loose_m3, clay.left_loose_m3, "m3", 0))
    else:
        told += T_("Bring %(more)s loose.", more=Between(-earth.left_loose_m3, -clay.left_loose_m3, "m3", 0))
    pull = Amount(from_si(made.crown_tension_pa(), "kPa"), "kPa", 0)
    return told + T_("Bare under full gas the crown is pulled at %(pull)s: no gas before the cover.", pull=pull)


def _measures(stage, site):
    """Every reading of a stage with its limits, or nothing."""
    held = [(name, limits(site, name)) for name in stage.wants]
    return lines([_measure(name, limit) for name, limit in held if limit is not None])


def _measure(name, limit):
    if not name.endswith("_m"):
        return T_("%(least)s coats or more.", least=int(limit.low))
    return T_("%(title)s %(plan)s.", title=TITLES[name][0], plan=Span(limit.low, limit.high))


def _beside(stage, site):
    """What else is measured at a stage and has no limits of its own."""
    vessel, found = site.design.vessel, []
    if stage.name == "pit" and vessel.bottom_depth_m:
        found.append(T_("dish %(dish)s deeper in the middle", dish=Size(vessel.bottom_depth_m)))
    if stage.name in ("wall", "dome"):
        found.append(T_("inside radius %(radius)s", radius=Size(vessel.radius_m)))
    return T_("Also: %(list)s.", list=Series(tuple(found))) if found else Text()


KIND = Kind(
    name="plan",
    about=T_("Plan: the measures a stage is built to."),
    example=T_("plan pit"),
    cues=("act.plan -number -act.done -act.not_yet -not -unsure", "act.how_big -number"),
    grammar="plan",
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
