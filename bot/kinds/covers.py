"""Cover slabs: their mass, and how many may lift one."""

from math import ceil

from bot import foreman
from bot.forms import Field, Kind
from bot.phrases import T_, Amount, Length, Text
from calc.covers import lifters_needed
from calc.stability import slab_mass_kg


def answer(form, site, sender, now):
    sides = [form.get(name) for name in ("slab_length_m", "slab_width_m", "slab_thickness_m")]
    extra = Text()
    if all(sides):
        said = dict(zip(("long", "wide", "thick"), (Length(side) for side in sides), strict=True))
        mass_kg = slab_mass_kg(*(side[0] for side in sides))
        extra = T_("Slab %(long)s x %(wide)s x %(thick)s.", **said)
        extra += T_("One is about %(mass)s.", mass=Amount(ceil(mass_kg - 1e-9), "kg", 0)) + _people(mass_kg)
    if form.get("lifters"):
        extra += T_("Lifters: %(lifters)s.", lifters=form.get("lifters"))
    names = () if all(sides) else ("slab_length_m", "slab_width_m", "slab_thickness_m")
    return foreman.check("covers", T_("covers"), names, _order, site, form, sender, now, extra, about="LC", stage="covers")


def _people(mass_kg):
    people = lifters_needed(mass_kg)
    return Text() if people is None else T_("Lift it with %(people)s or more.", people=people)


def _order(stands):
    return T_("Mark THIS SIDE UP, keep wet 7 days, lay after 14 days.")


KIND = Kind(
    name="covers",
    about=T_("Covers: length x width x thickness of a slab, and how many lift it."),
    example=T_("slab nn x nn x nn cm lifters n"),
    cues=("part.covers length", "part.covers bare -act.done"),
    grammar="lengths",
    fields=(
        Field("slab_length_m", ("field.length",), 0.2, 2.0, bare=True),
        Field("slab_width_m", ("field.width",), 0.1, 2.0, bare=True),
        Field("slab_thickness_m", ("field.thickness",), 0.04, 0.15, bare=True),
        Field("lifters", ("act.lifters",), 1, 12, "count"),
    ),
    answer=answer,
)
