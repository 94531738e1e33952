"""The site: how far the plant will stand from well, house, trees, against the distances the programme sets."""

from bot import foreman, stops
from bot.forms import Answer, Entry, Field, Kind
from bot.phrases import T_, Series, Text, lines
from bot.stages import DISTANCES, limits, verdict
from calc.checks import NOT_ENOUGH, OUTSIDE, WITHIN

PLACES = (*DISTANCES, "old_pit_m", "overhead_line_m", "river_m")
WANTED = ("well_m", "house_m")
NEIGHBOURS = ("house_m", "tree_m", "road_m")


def answer(form, site, sender, now):
    near = [value for name in NEIGHBOURS for value in form.get(name, ())]
    planned = site.design.deepest_m if site.design is not None else None
    hazards = stops.at(site, form, now, stage="site", neighbour_m=min(near, default=None), planned_depth_m=planned)
    first, rules = stops.opening(hazards, site)
    caution, noted = (Text(), ()) if first else stops.reminder(hazards, site, now, "P")
    judged = [_judged(name, form.get(name)[0], site, form.feet) for name in PLACES if form.get(name)]
    stands = [stand for _, stand in judged if stand]
    worst = next((stand for stand in (OUTSIDE, NOT_ENOUGH, WITHIN) if stand in stands), None)
    after = site.with_entries([Entry("siting", form.fields)], now, sender.person)
    head = foreman.head(site, T_("site"), site.next_number)
    texts = lines([head, *(text for text, _ in judged), _order(worst, after)])
    entry = Entry("siting", form.fields, worst, rules or noted, held=stops.held(hazards))
    alerts = foreman.alert_stop(site, hazards, texts, now, sender)
    if first:
        return Answer(first, (entry,), alerts, texts)
    return Answer(texts, (entry,), alerts, caution)


def _judged(name, distance_m, site, feet):
    """(Text, verdict) of one distance; a programme that sets none has no verdict."""
    found = verdict(site, name, (distance_m,))
    return foreman.distance(name, distance_m, found, feet), found.stands if found else None


def _order(worst, site):
    if worst == OUTSIDE:
        return T_("Choose another place, or ask your supervisor. Local rules come first.")
    missing = [foreman.ASKS[name] for name in WANTED if limits(site, name) and not site.reading(name)[0]]
    if missing:
        return T_("Send too: %(list)s.", list=Series(tuple(missing)))
    return T_("Local rules come first. Send: site done.") if worst == WITHIN else Text()


KIND = Kind(
    name="siting",
    about=T_("Site: distances to well, house, trees, road, kitchen, latrine, power line."),
    example=T_("well nn m house nn m tree nn m"),
    cues=(
        "near.well length",
        "near.well bare",
        "near.old_pit length",
        "near.line length",
        "near.river length",
        "near.tree length",
        "near.house length -part.pipe -part.pit -burner",
        "near.road length",
        "near.stable length",
    ),  # fmt: skip
    grammar="lengths",
    fields=(
        Field("well_m", ("near.well",), 0.5, 2000.0),
        Field("house_m", ("near.house",), 0.1, 500.0),
        Field("tree_m", ("near.tree",), 0.1, 500.0),
        Field("road_m", ("near.road",), 0.1, 2000.0),
        Field("kitchen_m", ("near.kitchen",), 0.1, 500.0),
        Field("stable_m", ("near.stable",), 0.1, 500.0),
        Field("old_pit_m", ("near.old_pit",), 0.1, 500.0),
        Field("overhead_line_m", ("near.line",), 0.1, 500.0),
        Field("river_m", ("near.river",), 0.1, 2000.0),
    ),
    answer=answer,
)
