"""Plaster coats: how many are on, which one, how thick."""

from bot import foreman
from bot.forms import Field, Kind
from bot.phrases import T_, Text, lines
from bot.titles import PLAIN
from calc.checks import OUTSIDE, WITHIN
from calc.sources import INSIDE_COATS


def answer(form, site, sender, now):
    def order(stands):
        return _order(form, stands)

    inside = {"tasks": frozenset({"plaster_in"}), "openings_open": form.get("openings_open"), "stage": "plaster"}
    inside["watcher"] = form.get("watcher") == "yes" or None
    return foreman.check(
        "coats", T_("plaster"), ("coats", "coat_thick_m"), order, site, form, sender, now, _named(form), about="ICD", **inside
    )


def _named(form):
    texts = []
    if form.get("coat_no") is not None:
        texts.append(T_("Coat number %(number)s.", number=form.get("coat_no")))
    if form.get("watcher"):
        texts.append(T_("Watcher %(watcher)s.", watcher=PLAIN[form.get("watcher")]))
    if form.get("openings_open") is not None:
        texts.append(T_("Openings open: %(openings)s.", openings=form.get("openings_open")))
    return lines(texts)


def _order(form, stands):
    if stands == OUTSIDE and form.get("coat_thick_m"):
        return T_("Mend this coat before the next one.")
    on = form.get("coats", form.get("coat_no"))
    if on is None:
        return Text()
    if on < INSIDE_COATS:
        return T_("Mortar coats to go: %(left)s, cement wash between, all within 24 h.", left=INSIDE_COATS - on)
    return T_("Send: plaster done. Keep it wet 14 days.") if stands in (None, WITHIN) else Text()


KIND = Kind(
    name="coats",
    about=T_("Plaster: how many coats are on, or coat number and thickness."),
    example=T_("plaster n coats watcher yes n openings"),
    cues=("act.coat number", "act.coat order", "part.plaster length -act.mix"),
    grammar="lengths",
    fields=(
        Field("coats", ("act.coat",), 1, 12, "counted"),
        Field("coat_no", ("act.coat",), 1, 12, "order"),
        Field("openings_open", ("act.openings",), 0, 6, "count"),
        Field("watcher", ("act.watcher",), 0, 0, "flag"),
        Field("coat_thick_m", ("field.thickness",), 0.004, 0.02, bare=True),
    ),
    answer=answer,
)
