"""The measures a stage is built to, with what may be off; asked before or during the work."""

from bot import foreman
from bot.forms import Answer, Kind
from bot.phrases import T_, Series, Size, Span, Text, lines
from bot.stages import STAGES, limits
from bot.standing import current
from bot.titles import TITLES


def answer(form, site, sender, now):
    if site.design is None:
        return Answer(foreman.no_plan(site))
    stage = STAGES.get(form.get("stage")) or current(site)
    if stage is None:
        return Answer(T_("%(site)s: all stages are done.", site=site.code))
    head = foreman.head(site, T_("plan %(stage)s", stage=stage.title))
    told = _measures(stage, site) or foreman.plan_line(stage, site)
    if not told.sentences:
        return Answer(lines([head, T_("No measure in the plan.") + stage.unchecked]))
    return Answer(lines([head, told, _beside(stage, site), T_("Another size: only your supervisor.")]))


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
    example="plan pit",
    cues=("act.plan -number -act.done -act.not_yet -not -unsure", "act.how_big -number"),
    grammar="plan",
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
