"""The cover slabs to cast for a plant, with their bars; and the weak and the strong ring under a dome."""

from math import ceil

from bot import foreman
from bot.forms import Answer, Field, Kind
from bot.phrases import T_, Amount, Number, Size, Text, lines
from bot.tape import Bound, Fine
from calc.covers import cover_slabs, lifters_needed
from calc.errors import Missing
from calc.rings import strong_ring_width_m, weak_ring_m3
from calc.sources import COVER_LIFTERS, FACT_RANGES, RINGS, SLAB_BAR_M, SLAB_COVER_M, SLAB_SPACING_M
from calc.units import from_si

LONGEST_M = FACT_RANGES["slab_length_m"][2]


def slabs(form, site, sender, now):
    if site.design is None:
        return Answer(foreman.no_plan(site))
    lifters = form.get("lifters") or COVER_LIFTERS
    made = cover_slabs(site.design, lifters)
    return Answer(lines([foreman.head(site, T_("slabs")), _size(made, lifters), _bars(made), _warn(made)]))


def _size(made, lifters):
    said = {
        "count": made.count,
        "long": Size(made.length_m),
        "wide": Fine(made.width_m),
        "thick": Fine(made.thickness_m),
        "mass": Amount(ceil(made.mass_kg - 1e-9), "kg", 0),
        "guide": Amount(int(made.guide_kg + 1e-9), "kg", 0),
        "lifters": lifters,
    }
    text = T_("outlet %(count)s of %(long)s x %(wide)s x %(thick)s, %(mass)s each.", **said)
    if made.by_hand:
        return text + T_("%(lifters)s lift one, guide %(guide)s.", **said)
    people = lifters_needed(made.mass_kg)
    if people is not None:
        return text + T_("Too heavy for %(lifters)s, guide %(guide)s; no slab is narrower: %(people)s lift one.", people=people, **said)
    return text + T_("Too heavy for %(lifters)s, guide %(guide)s: planks, bars and rollers.", **said)


def _bars(made):
    said = {
        "along": made.bars.along,
        "across": made.bars.across,
        "size": Amount(from_si(SLAB_BAR_M, "mm"), "mm", 0),
        "apart": Bound(SLAB_SPACING_M),
        "cover": Fine(SLAB_COVER_M),
        "bar": Size(made.length_m - 2 * SLAB_COVER_M),
        "short": Fine(made.width_m - 2 * SLAB_COVER_M),
    }
    each = T_(
        "Each: %(size)s bars, %(along)s of %(bar)s, %(across)s of %(short)s, %(apart)s apart, %(cover)s over the ground side;", **said
    )
    return each + T_("a handle at both ends. Mark THIS SIDE UP.")


def _warn(made):
    return T_("Longer than %(most)s: an engineer draws it.", most=Size(LONGEST_M)) if made.length_m > LONGEST_M else Text()


def ring(form, site, sender, now):
    if form.get("ring") == "weak":
        return Answer(lines([foreman.head(site, T_("weak ring")), *_weak(site)]))
    return Answer(lines([foreman.head(site, T_("strong ring")), *_strong(site.design)]))


def _weak(site):
    measure_l = site.rules.litres.get(site.rules.bucket)
    if site.rules.bag_kg is None or measure_l is None:
        raise Missing("bag_kg" if site.rules.bag_kg is None else "bucket_l")
    parts = weak_ring_m3(site.rules.bag_kg / 2)
    lime, sand = (round(2 * from_si(parts[name], "l") / measure_l) / 2 for name in ("lime", "sand"))
    loose = {f"{name}_parts": Number(part) for name, part in RINGS["weak"].items()}
    said = {"kg": Amount(site.rules.bag_kg / 2, "kg"), "lime": Number(lime), "sand": Number(sand), "measure": Amount(measure_l, "l")}
    yield T_(
        "cement %(cement_parts)s, lime %(lime_parts)s, sand %(sand_parts)s, loose. Half a bag (%(kg)s): lime %(lime)s, "
        "sand %(sand)s buckets of %(measure)s level.",
        **loose,
        **said,
    )
    yield T_("Soft on purpose, no richer. Its size as your drawing says: it is not in the bill.")


def _strong(design):
    said = {name: Number(value) for name, value in RINGS["strong"].items()}
    if design is not None and design.dome == "brick":
        said["width"] = Size(strong_ring_width_m(design.shell_thickness_m))
        yield T_("%(rows)s row of header bricks all round, about %(width)s wide, concrete outside.", **said)
    else:
        yield T_("%(rows)s row of header bricks all round, %(width)s times as wide as a brick dome, concrete outside.", **said)
    yield T_("Soft ground: %(bars)s ring bar in it. Mix and bar as your drawing says.", **said)


SLABS = Kind(
    name="slabs",
    about=T_("Slab list: the cover slabs of the outlet, their bars, who lifts one."),
    example=T_("slab list n men"),
    cues=("act.slab_list",),
    grammar="lifters",
    fields=(Field("lifters", ("act.lifters", "person.any"), 1, 12, "count"),),
    roles=("mason", "supervisor", "farmer"),
    answer=slabs,
)
RING = Kind(
    name="ring",
    about=T_("Weak ring, strong ring: what goes in."),
    example=T_("mix weak ring"),
    cues=("ring -act.done -not -number",),
    grammar="ring",
    answer=ring,
)
