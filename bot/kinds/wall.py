"""The wall: height and plumb."""

from bot import foreman
from bot.forms import Field, Kind
from bot.phrases import T_, Text
from calc.checks import OUTSIDE, WITHIN


def answer(form, site, sender, now):
    extra = T_("Plumb %(plumb)s.", plumb=form.get("plumb")) if form.get("plumb") else Text()
    return foreman.check("wall", T_("wall"), ("wall_height_m",), _order, site, form, sender, now, extra, about="EPWCV", stage="wall")


def _order(stands):
    if stands == OUTSIDE:
        return T_("Take down or build up to plan before the mortar sets, measure again.")
    return T_("Send: wall done.") if stands == WITHIN else Text()


KIND = Kind(
    name="wall",
    about=T_("Wall: height, plumb."),
    example="wall high nnn cm plumb ok",
    cues=("part.wall length", "part.wall bare", "part.wall act.plumb"),
    grammar="lengths",
    fields=(
        Field("wall_height_m", ("field.height", "field.height_letter", "field.height_or_length"), 0.3, 1.6, many=True, bare=True),
        Field("plumb", ("act.plumb",), 0, 0, "okay"),
    ),
    answer=answer,
)
