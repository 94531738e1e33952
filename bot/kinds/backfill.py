"""The backfill: its layers, how even it stands all round, the soil over the dome."""

from dataclasses import replace

from bot import foreman
from bot.forms import Field, Kind
from bot.phrases import T_, Size, Span, Text, lines
from bot.stages import STAGES
from bot.standing import applies, days_of, done_at, finished
from calc.backfill import layers_stand, levels_stand
from calc.checks import NOT_ENOUGH, OUTSIDE, WITHIN, spread
from calc.sources import ALL_ROUND


def answer(form, site, sender, now):
    layer, levels = _layer(form), _levels(form)

    def order(stands):
        return _order(form, site, stands)

    told = lines([_of_layer(form, layer), _of_levels(form, levels), _undated(form, site, now)])
    names = ("layer_m", "levels_m", "cover_m")
    facts = _open(form, site) | _ages(form, site, now) | {"backfill_step_m": None if levels is None else spread(form.get("levels_m"))}
    made = foreman.check(
        "backfill",
        T_("backfill"),
        names,
        order,
        site,
        form,
        sender,
        now,
        told,
        about="WD" if facts["stage"] is None else "EWD",
        backfilling=True,
        **facts,
    )
    (entry,) = made.entries
    return replace(made, entries=(replace(entry, verdict=_worst(entry.verdict, layer, levels)),))


def _layer(form):
    """The Verdict on the layers, or None where none was told."""
    return layers_stand(form.get("layer_m")) if form.get("layer_m") else None


def _levels(form):
    """The Verdict on how far the fill stands apart round the plant, or None with fewer than two readings."""
    levels = form.get("levels_m", ())
    return levels_stand(levels) if len(levels) > 1 else None


def _worst(cover, *found):
    told = (cover, *(verdict.stands for verdict in found if verdict is not None))
    return next((stands for stands in (OUTSIDE, NOT_ENOUGH, WITHIN) if stands in told), None)


def _open(form, site):
    """The gap between wall and pit while it is open, as deep as is not filled yet; closed once a finished dome has its soil."""
    covered = any(form.get("cover_m") or site.reading("cover_m")[0] or ())  # a cover of 0 is none
    deep = site.reading("pit_depth_m")[0] or (() if site.design is None else (site.design.pit_depth_m,))
    if not deep or (covered and finished("dome", site)):
        return {"stage": None}
    levels = form.get("levels_m") or site.reading("levels_m")[0] or ()
    filled = min(levels) if len(levels) >= ALL_ROUND else 0.0  # a side nobody measured may be open to the bottom
    return {"stage": "wall", "depth_m": max(max(deep) - filled, 0.0), "bowl_m": 0.0}


def _ages(form, site, now):
    """What the rules must know: the age of the wall, and of the dome where soil goes on it."""
    wall, dome = (done_at(name, site) for name in ("wall", "dome"))
    behind = wall if applies(STAGES["wall"], site) else dome
    told = {"wall_least_h": 24 * days_of("backfill wall", site, behind, now)}
    if behind is not None:
        told["wall_age_h"] = (now - behind).total_seconds() / 3600
    if dome is not None and any(form.get("cover_m", ())):
        told |= {"load_on_dome": True, "cast_h": (now - dome).total_seconds() / 3600, "load_least_d": days_of("cover dome", site, dome)}
    return told


def _undated(form, site, now):
    """That nobody knows how old the dome under the soil is, or the wall before it."""
    name = "dome" if any(form.get("cover_m", ())) or not applies(STAGES["wall"], site) else "wall"
    if done_at(name, site) is not None:
        return Text()
    said = {"stage": STAGES[name].title}
    if not finished(name, site):
        return T_("The %(stage)s is not reported done: no soil on it before.", **said)
    said["days"] = days_of("cover dome" if name == "dome" else "backfill wall", site, None, now)
    return T_("No date for the %(stage)s on record: soil on it only %(days)s full days from its end.", **said)


def _of_layer(form, found):
    if found is None:
        return Text()
    span = Span(found.limits.low, found.limits.high)
    if found.stands == WITHIN:
        return T_("Within %(span)s.", span=span)
    if found.stands == NOT_ENOUGH:
        return T_("On the limit of %(span)s, measure again.", span=span)
    if max(form.get("layer_m")) > found.limits.high:
        return T_("Outside, too thick, plan %(span)s: take it off to that, ram, then the next.", span=span)
    return T_("Outside, too thin, plan %(span)s.", span=span)


def _of_levels(form, found):
    if found is None:
        return T_("Send the other sides too.") if form.get("levels_m") else Text()
    levels = form.get("levels_m")
    said = {"apart": Size(spread(levels)), "most": Size(found.limits.high), "lowest": levels.index(min(levels)) + 1}
    if found.stands == OUTSIDE:
        return T_("Sides %(apart)s apart: outside, at most %(most)s. Even it out: fill at reading %(lowest)s first, by hand.", **said)
    if found.stands == NOT_ENOUGH:
        return T_("Sides %(apart)s apart: on the limit of %(most)s, measure again. Fill at reading %(lowest)s first.", **said)
    return T_("Sides %(apart)s apart: within %(most)s.", **said)


def _order(form, site, stands):
    if not form.get("cover_m"):
        return T_("Moist soil, rammed by hand, all round.")
    if site.design is None:
        return foreman.no_plan(site)
    if stands == OUTSIDE:
        least_m, plan_m = min(form.get("cover_m")), site.design.cover_m
        if least_m < plan_m:
            return T_("Add %(more)s by hand, measure again. No gas before the cover is on.", more=Size(plan_m - least_m))
        return T_("Take soil off by hand: more is a load on the dome.")
    return T_("Send: backfill done.") if stands == WITHIN else Text()


KIND = Kind(
    name="backfill",
    about=T_("Backfill: layer, the height on each side, or the soil over the dome."),
    example=T_("backfill layer nn cm"),
    cues=(
        "part.backfill length",
        "part.backfill bare",
        "act.rammed length",
        "act.soil_over length -link.by -part.covers -part.manhole -part.outlet -part.inlet",
        "act.soil_over bare -part.covers",
        "act.soil part.dome length",
    ),
    grammar="fill",
    fields=(
        Field("layer_m", (), 0.02, 1.5, many=True),
        Field("levels_m", (), 0.0, 4.0, many=True),
        Field("cover_m", (), 0.0, 2.5, many=True),
    ),
    answer=answer,
)
