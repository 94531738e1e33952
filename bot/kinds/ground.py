"""Ground water: how far down it stands, what it would do to an empty plant. Nothing here says that a plant may be emptied."""

from dataclasses import replace

from bot import foreman, stops
from bot.forms import Alert, Answer, Field, Kind
from bot.phrases import T_, Clock, Size, Text, lines
from bot.standing import finished
from calc.checks import OUTSIDE
from calc.ground import float_depth_m, floor_depth_m
from calc.sources import GROUND_WATER_NEAR_M

NONE = "-"  # rules of no other matter: the answer says its own caution
NEAR_M = float(GROUND_WATER_NEAR_M)
NEVER = T_("Never empty the plant in wet ground: an engineer decides.")


def answer(form, site, sender, now):
    if site.design is None:
        return _check(form, site, sender, now, T_("No plan for this site: no figure for it."), False)
    water_m, made = form.get("ground_water_m")[0], site.design
    if not finished("base", site):
        return _pit(form, site, sender, now)
    over_m = made.deepest_m - water_m
    cracks_m, lifts_m = floor_depth_m(made), float_depth_m(made, _built(site), _cover_m(site))
    at_risk = water_m <= max(cracks_m, lifts_m)
    return _check(form, site, sender, now, _empty(water_m, cracks_m, lifts_m), at_risk, over_m > 0)


def _built(site):
    """The parts that hold the plant down by the log; a stage nobody reported is not there."""
    stages = {"base": "base", "wall": "wall", "dome": "dome", "soil": "backfill"}
    return [part for part, stage in stages.items() if finished(stage, site)]


def _cover_m(site):
    read = site.reading("cover_m")[0]
    return min(read) if read else None


def _empty(water_m, cracks_m, lifts_m):
    """What this water can do to the empty plant: its thin floor goes first, then the whole of it."""
    said = {"cracks": Size(cracks_m), "lifts": Size(lifts_m)}
    keep = T_("Keep it full, or keep the pump running.")
    if water_m <= lifts_m:
        return T_("Empty, it can lift now and its floor crack: it lifts with water nearer than %(lifts)s to the ground.", **said) + keep
    if water_m <= cracks_m:
        whole = T_("The whole can lift nearer than %(lifts)s.", **said) if lifts_m > 0 else Text()
        return T_("Empty, its floor can crack now: water nearer than %(cracks)s to the ground.", **said) + whole + keep
    return T_("Empty, its floor can crack with water nearer than %(cracks)s to the ground.", **said)


def _pit(form, site, sender, now):
    """Before there is a base the water is the pit's, as far as it is dug."""
    water_m, planned_m = form.get("ground_water_m")[0], site.design.deepest_m
    over_m, dug = planned_m - water_m, site.reading("pit_depth_m")[0]
    reached = over_m > 0 if dug is None and finished("pit", site) else dug is not None and max(dug) > water_m
    if over_m <= -NEAR_M:
        return _check(
            form, site, sender, now, T_("The pit ends %(over)s over it. Dig in the dry season.", over=Size(-over_m)), False, order=Text()
        )
    if over_m <= 0:
        near = T_("The pit ends only %(over)s over it: an engineer decides before you dig. Dig in the dry season.", over=Size(-over_m))
        return _check(form, site, sender, now, near, True, order=Text())
    told = T_(
        "The pit floor will lie %(over)s under water: sump beside it, stone under the base, pump on open ground until the plant is filled. "
        "An engineer decides before you dig.",
        over=Size(over_m),
    )
    return _check(form, site, sender, now, told, True, reached, Text())


def _check(form, site, sender, now, told, lifts, over=False, order=NEVER):
    """The Answer; over the floor of an open pit it is seepage, which ends a release of the sides."""
    stage = stops.stage_of(site) if stops.stage_of(site) in stops.OPEN else None
    kept = replace(form, fields=form.fields | {"seepage": "yes"}) if over and stage else form
    more = {"groundwater_above_floor": over or None, "stage": stage, "about": "E" if stage else NONE}
    made = foreman.check(
        "ground_water", T_("ground water"), ("ground_water_m",), lambda stands: order, site, kept, sender, now, told, **more
    )
    (entry,) = made.entries
    entry = replace(entry, verdict=OUTSIDE if lifts else None)
    return Answer(made.reply, (entry,), made.alerts + (_alert(form, site, sender, now) if lifts else ()), made.then)


def _alert(form, site, sender, now):
    said = {"site": site.code, "time": Clock(now, now), "name": sender.name, "water": Size(form.get("ground_water_m")[0])}
    if not finished("base", site):
        near = T_("ALERT %(site)s, sent %(time)s by %(name)s: ground water %(water)s down, at or near the pit floor.", **said)
        return (Alert("supervisor", near + T_("An engineer decides before it is dug.")),)
    text = T_("ALERT %(site)s, sent %(time)s by %(name)s: ground water %(water)s down. Empty, the plant can crack or lift.", **said)
    return (Alert("supervisor", lines([text, NEVER])),)


KIND = Kind(
    name="ground_water",
    about=T_("Ground water: how far down it stands."),
    example="ground water nnn cm down",
    cues=("act.ground_water length -part.pit -act.in_pit",),
    grammar="ground",
    fields=(Field("ground_water_m", (), 0.0, 15.0),),
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
    hears=("water",),
)
