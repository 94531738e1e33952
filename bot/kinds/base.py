"""The base: its thickness at several places."""

from bot import foreman
from bot.forms import Field, Kind
from bot.phrases import T_, Amount, Text
from calc.checks import OUTSIDE, WITHIN


def answer(form, site, sender, now):
    places = form.get("readings")
    extra = T_("At %(places)s.", places=Amount(places, "places", 0)) if places else Text()

    def order(stands):
        return _order(form, site, stands, now)

    tasks = frozenset({"concrete"})
    return foreman.check(
        "base", T_("base"), ("base_thick_m",), order, site, form, sender, now, extra, tasks=tasks, about="EPCV", stage="base"
    )


def _order(form, site, stands, now):
    if stands == OUTSIDE:
        thin = min(form.get("base_thick_m")) < site.design.base_thickness_m
        return (
            T_("Thin places leak: add concrete while it is wet, measure again at 3 places.")
            if thin
            else T_("Strike it off to plan, measure again.")
        )
    if stands == WITHIN:
        return T_("Send: base done.") + foreman.keep_wet("base", site, now)
    return Text()


KIND = Kind(
    name="base",
    about=T_("Base: thickness at 3 places or more."),
    example=T_("base nn nn nn cm"),
    cues=(
        "part.base length -act.ago",
        "part.base bare -act.ago",
        "part.base number -act.ago -time",
        "field.bottom field.thickness number -part",
        "field.bottom length -part -field.top -field.width -field.depth -field.height -item -act",
        "lookalike.base length -part",
    ),
    grammar="lengths",
    fields=(
        Field("base_thick_m", ("field.thickness", "field.bottom"), 0.05, 0.20, many=True, bare=True),
        Field("readings", (), 0, 0, "places"),
    ),
    answer=answer,
)
