"""Plaster coats: how many are on, which one, how thick."""

from bot import foreman
from bot.forms import Field, Kind
from bot.phrases import T_, Amount, Text, lines
from calc.checks import OUTSIDE, WITHIN
from calc.sources import INSIDE_COATS


def answer(form, site, sender, now):
    def order(stands):
        return _order(form, stands)

    inside = {"tasks": frozenset({"plaster_in"}), "inside": True if foreman.closed(site) else None}
    return foreman.check("coats", T_("plaster"), ("coat_thick_m",), order, site, form, sender, now, _named(form), **inside)


def _named(form):
    texts = []
    if form.get("coats") is not None:
        texts.append(T_("%(coats)s.", coats=Amount(form.get("coats"), "coats", 0)))
    if form.get("coat_no") is not None:
        texts.append(T_("Coat number %(number)s.", number=form.get("coat_no")))
    return lines(texts)


def _order(form, stands):
    if stands == OUTSIDE:
        return T_("Mend this coat before the next one.")
    on = form.get("coats", form.get("coat_no"))
    if on is None:
        return Text()
    if on < INSIDE_COATS:
        return T_("%(left)s mortar coats to go, cement wash between, all within 24 h.", left=INSIDE_COATS - on)
    return T_("Send: plaster done. Keep it wet 14 days.") if stands in (None, WITHIN) else Text()


KIND = Kind(
    name="coats",
    about=T_("Plaster: how many coats are on, or coat number and thickness."),
    example="plaster n coats",
    cues=("act.coat number", "act.coat order", "part.plaster length -act.mix"),
    grammar="lengths",
    fields=(
        Field("coats", ("act.coat",), 1, 12, "counted"),
        Field("coat_no", ("act.coat",), 1, 12, "order"),
        Field("coat_thick_m", ("field.thickness",), 0.002, 0.04, bare=True),
    ),
    answer=answer,
)
