"""The wall: height and plumb."""

from bot import foreman
from bot.forms import Field, Kind
from bot.phrases import T_, Length, Size, Text
from calc.checks import NOT_ENOUGH, OUTSIDE, WITHIN, Limits, judge
from calc.sources import FINE_M, PLUMB_M_M


def answer(form, site, sender, now):
    upright, found = _plumb(form, site)

    def order(stands):
        return _order(OUTSIDE if upright == OUTSIDE else stands or upright, upright)

    return foreman.check("wall", T_("wall"), ("wall_height_m",), order, site, form, sender, now, found, about="EPWCV", stage="wall")


def _plumb(form, site):
    """(verdict, Text) of how upright the wall stands; without a height or a number it is only repeated."""
    off, height = form.get("plumb_off_m"), site.design.vessel.wall_height_m if site.design else None
    if not off:
        said = form.get("plumb")
        told = {"no": T_("Not plumb."), "ok": T_("Plumb ok.")}
        return (OUTSIDE if said == "no" else None), told.get(said, Text())
    if not height:
        return None, T_("Out of plumb %(off)s.", off=Length(off))
    limit = float(PLUMB_M_M) * height
    stands = judge(off, Limits(0.0, height, limit, float(FINE_M))).stands
    said = {"off": Length(off), "limit": Size(limit)}
    return stands, {
        OUTSIDE: T_("Out of plumb %(off)s: outside, at most %(limit)s.", **said),
        WITHIN: T_("Out of plumb %(off)s: within, at most %(limit)s.", **said),
        NOT_ENOUGH: T_("Out of plumb %(off)s: on the limit of %(limit)s, measure again.", **said),
    }[stands]


def _order(stands, upright):
    if stands == OUTSIDE:
        return T_("Take down or build up to plan before the mortar sets, measure again.")
    return T_("Send: wall done.") if stands == WITHIN and upright != NOT_ENOUGH else Text()


KIND = Kind(
    name="wall",
    about=T_("Wall: height, plumb."),
    example=T_("wall high nnn cm plumb ok"),
    cues=("part.wall length", "part.wall bare", "part.wall act.plumb"),
    grammar="lengths",
    fields=(
        Field("wall_height_m", ("field.height", "field.height_letter", "field.height_or_length"), 0.4, 1.5, many=True, bare=True),
        Field("plumb_off_m", ("act.plumb",), 0.0, 0.2, usual=(0.0, 0.05)),
        Field("plumb", ("act.plumb",), 0, 0, "okay"),
    ),
    answer=answer,
)
