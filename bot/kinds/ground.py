"""Ground water: how far down it stands, what it would do to an empty plant. Nothing here says that a plant may be emptied."""

from dataclasses import replace

from bot import foreman, stops
from bot.forms import NOW, Alert, Answer, Field, Kind
from bot.phrases import T_, Clock, Size, Text, lines
from bot.standing import finished
from calc.checks import NOT_ENOUGH, OUTSIDE, WITHIN
from calc.ground import float_depth_m, floor_depth_m, water_stands
from calc.sources import GROUND_WATER_NEAR_M

NONE = "-"  # rules of no other matter: the answer says its own caution
NEAR_M = float(GROUND_WATER_NEAR_M)
NEVER = T_("Never empty the plant in wet ground: an engineer decides.")


def answer(form, site, sender, now):
    if site.design is None:
        return _check(form, site, sender, now, T_("No plan for this site: no figure for it."))
    water_m, made = form.get("ground_water_m")[0], site.design
    if not finished("base", site):
        return _pit(form, site, sender, now)
    cracks_m, lifts_m = floor_depth_m(made), float_depth_m(made, _built(site), _cover_m(site))
    stands = water_stands(water_m, max(cracks_m, lifts_m)).stands
    verdict = stands if stands != WITHIN else None  # nothing says that a plant may be emptied
    return _check(form, site, sender, now, _empty(water_m, cracks_m, lifts_m), verdict, made.deepest_m > water_m)


def _built(site):
    """The parts that hold the plant down by the log; a stage nobody reported is not there."""
    stages = {"base": "base", "wall": "wall", "dome": "dome", "soil": "backfill"}
    return [part for part, stage in stages.items() if finished(stage, site)]


def _cover_m(site):
    """The least cover on record [m]; soil over the crown that nobody measured holds nothing down."""
    return min(site.reading("cover_m")[0] or (0.0,))


def _empty(water_m, cracks_m, lifts_m):
    """What this water can do to the empty plant: its thin floor goes first, then the whole of it."""
    said = {"cracks": Size(cracks_m), "lifts": Size(lifts_m)}
    keep = T_("Keep it full, or keep the pump running.")
    lifting, cracking = (water_stands(water_m, least_m).stands for least_m in (lifts_m, cracks_m))
    if lifting == OUTSIDE:
        return T_("Empty, it can lift now and its floor crack: it lifts with water nearer than %(lifts)s to the ground.", **said) + keep
    if lifting == NOT_ENOUGH:
        return T_("On the limit of %(lifts)s, where it lifts empty and its floor cracks: measure again.", **said) + keep
    if cracking == OUTSIDE:
        whole = T_("The whole can lift nearer than %(lifts)s.", **said) if lifts_m > 0 else Text()
        return T_("Empty, its floor can crack now: water nearer than %(cracks)s to the ground.", **said) + whole + keep
    if cracking == NOT_ENOUGH:
        return T_("On the limit of %(cracks)s, where its floor cracks empty: measure again.", **said) + keep
    return T_("Empty, its floor can crack with water nearer than %(cracks)s to the ground.", **said)


def _pit(form, site, sender, now):
    """Before there is a base the water is the pit's, as far as it is dug."""
    water_m, planned_m = form.get("ground_water_m")[0], site.design.deepest_m
    over_m, dug = planned_m - water_m, site.reading("pit_depth_m")[0]
    reached = over_m > 0 if dug is None and finished("pit", site) else dug is not None and max(dug) > water_m
    below, near = (water_stands(water_m, planned_m + clear_m).stands for clear_m in (0.0, NEAR_M))
    said = {"over": Size(abs(over_m)), "near": Size(NEAR_M)}
    if below == OUTSIDE:
        told = T_(
            "The pit floor will lie %(over)s under water: sump beside it, stone under the base, pump on open ground until the plant is "
            "filled. An engineer decides before you dig.",
            **said,
        )
    elif below == NOT_ENOUGH:
        told = T_("The pit floor is at the water, as well as it is measured: measure again. An engineer decides before you dig.")
    elif near == OUTSIDE:
        told = T_("The pit ends only %(over)s over it: an engineer decides before you dig. Dig in the dry season.", **said)
    elif near == NOT_ENOUGH:
        told = T_("The pit ends %(over)s over it, on the limit of %(near)s: measure again before you dig.", **said)
    else:
        told = T_("The pit ends %(over)s over it. Dig in the dry season.", **said)
    stands = below if below != WITHIN else near
    return _check(form, site, sender, now, told, stands if stands != WITHIN else None, reached, Text())


def _check(form, site, sender, now, told, verdict=None, over=False, order=NEVER):
    """The Answer; over the floor of an open pit it is seepage, which ends a release of the sides."""
    stage = stops.stage_of(site) if stops.stage_of(site) in stops.OPEN else None
    kept = replace(form, fields=form.fields | {"seepage": "yes"}) if over and stage else form
    more = {"groundwater_above_floor": over or None, "stage": stage, "about": "E" if stage else NONE}
    made = foreman.check(
        "ground_water", T_("ground water"), ("ground_water_m",), lambda stands: order, site, kept, sender, now, told, **more
    )
    (entry,) = made.entries
    entry = replace(entry, verdict=verdict)  # on the limit the supervisor hears of it too: it may be nearer
    return Answer(made.reply, (entry,), made.alerts + (_alert(form, site, sender, now) if verdict else ()), made.then)


def _alert(form, site, sender, now):
    said = {"site": site.code, "time": Clock(now, now), "name": sender.name, "water": Size(form.get("ground_water_m")[0])}
    if not finished("base", site):
        near = T_("ALERT %(site)s, sent %(time)s by %(name)s: ground water %(water)s down, at or near the pit floor.", **said)
        return (Alert("supervisor", near + T_("An engineer decides before it is dug."), grade=NOW),)
    text = T_("ALERT %(site)s, sent %(time)s by %(name)s: ground water %(water)s down. Empty, the plant can crack or lift.", **said)
    return (Alert("supervisor", lines([text, NEVER]), grade=NOW),)


KIND = Kind(
    name="ground_water",
    about=T_("Ground water: how far down it stands."),
    example=T_("ground water nnn cm down"),
    cues=("act.ground_water length -part.pit -act.in_pit",),
    grammar="ground",
    fields=(Field("ground_water_m", (), 0.0, 15.0),),
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
    hears={"water": None},
)
