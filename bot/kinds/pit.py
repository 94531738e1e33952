"""The pit: depth and widths against plan, over-dig, digging left; the state of its sides."""

from bot import foreman, stops
from bot.forms import NOW, Alert, Answer, Entry, Field, Kind
from bot.phrases import T_, Between, Length, Series, Size, Text, Volume, lines
from bot.titles import PLAIN
from calc.checks import NOT_ENOUGH, OUTSIDE, WITHIN
from calc.earth import Pit, left_to_dig, overdig, person_days
from calc.facts import Facts
from calc.hazards import judge
from calc.sources import FACT_RANGES, HOUSEHOLD_DEPTH_M

READINGS = ("pit_dia_m", "pit_depth_m")
OTHERS = (
    "pit_dish_m", "pit_top_dia_m", "pit_bottom_dia_m", "slope_run_m", "spoil_edge_m", "ladder_above_edge_m", "fence_height_m",
    "water_in_pit_m",
)  # fmt: skip
HARD_DEPTH_M = FACT_RANGES["depth_m"][2]
FLAGS = {
    "soil": T_("soil"),
    "ladder": T_("ladder"),
    "watcher": T_("watcher"),
    "people_in_pit": T_("in pit"),
    "fence": T_("fence"),
    "rain": T_("rain"),
    "seepage": T_("water"),
    "crack": T_("crack"),
    "engine_in_pit": T_("engine in pit"),
    "services_checked": T_("cables asked"),
}


def fits(values):
    """A pit is wider than deep."""
    depth, width = values.get("pit_depth_m"), values.get("pit_dia_m")
    return not (depth and width) or max(depth) <= 0.85 * min(width)


def settle(options, site):
    """Two readings of the same feet, kept where both stand alike: the one nearer to its limit."""
    if site is None or site.design is None:
        return None
    stands = [foreman.readings(site, option, READINGS)[1] for option in options]
    if len(set(stands)) > 1 or stands[0] is None or len({tuple(option.fields) for option in options}) > 1:
        return None
    return max(options, key=lambda option: max(option.get("pit_depth_m", (0,))))


def answer(form, site, sender, now):
    stage = "pit" if stops.stage_of(site) in ("site", "layout") else stops.stage_of(site)

    def order(stands):
        return _order(form, site, stands)

    extra = lines([_shallower(form, site), _flags(form)])
    return foreman.check("pit", T_("pit"), READINGS + OTHERS, order, site, form, sender, now, extra, stage=stage)


def _shallower(form, site):
    """What is said where a pit was deeper before: the dangers go by the deeper reading until that one is put right."""
    depth, entry = stops.deepest(site)
    if not depth or not form.get("pit_depth_m") or max(form.get("pit_depth_m")) > depth[0] - stops.DEEPER_M:
        return Text()
    said = {"depth": Size(depth[0]), "number": entry.number}
    return T_("#%(number)s had %(depth)s: that depth counts. If it was wrong send: undo #%(number)s.", **said)


def beyond(form, site, sender, now):
    """A depth no household pit has is kept as an alarm, with no figure for it; None where it is not one."""
    depth = form.get("pit_depth_m")
    if not depth or not HOUSEHOLD_DEPTH_M < max(depth) <= HARD_DEPTH_M:
        return None
    hazards = judge(Facts(stage="pit", depth_m=max(depth), check_h=0))
    first = next(hazard for hazard in hazards if hazard.rule == "E15")
    head = foreman.head(site, T_("pit"), site.next_number, now)
    said = lines(
        [
            stops.said(first, site),
            head,
            T_("%(depth)s kept as an alarm. If it is a mistake send it again with its unit.", depth=Length(max(depth))),
        ]
    )
    entry = Entry("danger", {"danger": ["depth"], "alarm_depth_m": max(depth)}, "stop", ("E15",))
    told = T_(
        "ALERT %(site)s E15: pit %(depth)s deep by %(name)s. Keep everyone out. An engineer must decide.",
        site=site.code,
        depth=Length(max(depth)),
        name=sender.name,
    )
    return Answer(said, (entry,), (Alert("supervisor", told, grade=NOW),))


def _flags(form):
    """What was said beside the readings, in one sentence; a ladder or a fence with its height needs no yes."""
    told = {name for name, height in (("ladder", "ladder_above_edge_m"), ("fence", "fence_height_m")) if form.get(height)}
    shown = [name for name in FLAGS if form.get(name) is not None and name not in told]
    if not shown:
        return Text()
    told = (T_("%(what)s %(value)s", what=FLAGS[name], value=PLAIN.get(form.get(name), form.get(name))) for name in shown)
    return T_("Said: %(list)s.", list=Series(tuple(told)))


def _order(form, site, stands):
    """The next step with a number in it."""
    if site.design is None:
        return T_("No plan for this site yet: ask your supervisor to fix one.")
    depth, widths = site_readings(form, site)
    if depth is None or not widths:
        return foreman.wanted([("pit_depth_m", 1)] if depth is None else [("pit_dia_m", 3)])
    return Text() if stands is None else _earth(site, depth, widths, stands)


def site_readings(form, site):
    """(depth, widths) of this message, else of the log [m]."""
    depth = form.get("pit_depth_m") or site.reading("pit_depth_m")[0]
    widths = form.get("pit_dia_m") or site.reading("pit_dia_m")[0]
    return (max(depth) if depth else None), widths


def _earth(site, depth_m, widths, stands):
    made = site.design
    plan = Pit(made.pit_diameter_m / 2, made.pit_depth_m)
    dug = Pit(sum(widths) / len(widths) / 2, depth_m)
    left_m3, over_m3 = left_to_dig(plan, dug), overdig(plan, dug)
    if depth_m < made.pit_depth_m - 0.005:
        days = person_days(left_m3, "ordinary", made.pit_depth_m), person_days(left_m3, "hard", made.pit_depth_m)
        named = {"by": Size(made.pit_depth_m - depth_m), "left": Volume(left_m3), "days": Between(*days, "person-days")}
        return T_("Dig %(by)s deeper: %(left)s left, %(days)s.", **named)
    if stands == OUTSIDE and over_m3 > 0:
        return T_("Over-dug %(over)s. No soil back in: fill with lean concrete. Call your supervisor.", over=Volume(over_m3))
    if stands == OUTSIDE:
        return T_("Cut the sides to plan width from the top, then measure again.")
    if stands == NOT_ENOUGH:
        return T_("Measure again at 3 places.")
    dish = made.vessel.bottom_depth_m
    if dish and not site.reading("pit_dish_m")[0]:
        return T_("Dig the dish %(dish)s deeper in the middle, then send: pit done.", dish=Size(dish))
    return T_("Send: pit done.") if stands == WITHIN else Text()


KIND = Kind(
    name="pit",
    about=T_("Pit: depth and 3 widths, heap, ladder, soil, people in it."),
    example=T_("pit deep nnn cm wide nnn nnn nnn cm"),
    cues=(
        "part.pit length -act.ago",
        "part.pit bare -act.ago",
        "part.pit number -act.ago -time",
        "field.depth number",
        "field.width number",
        "act.soil soil",
        "act.watcher",
        "field.ladder",
        "field.heap number",
        "act.rain -part",
        "act.in_pit number",
        "act.in_pit nobody",
        "field.slope number -part.sides",
        "field.slope ratio",
        "act.pump act.petrol",
        "act.fence",
        "part.pit soil",
        "act.services",
        "danger.water length",
        "danger.water state.no",
        "part.pit danger.crack state.no",
        "part.pit danger.crack not",
        "part.pit dryness.dry",
    ),  # fmt: skip
    grammar="lengths",
    fields=(
        Field("pit_depth_m", ("field.depth", "field.depth_or_width"), 0.3, 3.5, many=True, bare=True, usual=(1.2, 3.5), believed=0.05),
        Field("pit_dia_m", ("field.width", "field.width_letter", "field.depth_or_width"), 1.8, 5.0, many=True, bare=True),
        Field("pit_dish_m", ("field.dish",), 0.0, 1.5, many=True),
        Field("pit_top_dia_m", ("field.top",), 0.8, 10.0),
        Field("pit_bottom_dia_m", ("field.bottom",), 0.8, 10.0),
        Field("slope_run_m", ("field.slope",), 0.0, 6.0),
        Field("spoil_edge_m", ("field.heap",), 0.0, 50.0),
        Field("ladder_above_edge_m", ("field.ladder",), 0.0, 3.0, usual=(0.2, 3.0)),
        Field("water_in_pit_m", ("act.water_in", "item.water", "danger.water"), 0.0, 3.0),
        Field("people_in_pit", ("act.in_pit",), 0, 10, "count"),
        Field("soil", ("act.soil",), 0, 0, "soil"),
        Field("watcher", ("act.watcher",), 0, 0, "there"),
        Field("fence", ("act.fence",), 0, 0, "there"),
        Field("fence_height_m", ("act.fence",), 0.0, 3.0),
        Field("rain", ("act.rain",), 0, 0, "flag"),
        Field("seepage", ("act.seep", "danger.water", "dryness.dry"), 0, 0, "flag"),
        Field("crack", ("danger.crack",), 0, 0, "flag"),
        Field("engine_in_pit", ("act.pump",), 0, 0, "flag"),
        Field("ladder", ("field.ladder",), 0, 0, "there"),
        Field("services_checked", ("act.services",), 0, 0, "flag"),
    ),
    answer=answer,
    fits=fits,
    settle=settle,
    beyond=beyond,
    hears={"crack": "E7", "water": "E8"},
)
