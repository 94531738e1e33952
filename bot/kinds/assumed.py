"""What the bill takes for granted: how each part is built where the plan does not say, and what is not counted."""

from bot import foreman
from bot.forms import Answer, Kind
from bot.phrases import T_, Number, Size, Text, lines
from calc import sources as s
from calc.recipes import RECIPES


def answer(form, site, sender, now):
    made = site.design
    if made is None:
        return Answer(foreman.no_plan(site))
    wall = T_("Wall half-brick %(mix)s.", mix=RECIPES["wall"].ratio) if made.vessel.wall_height_m else Text()
    told = [
        foreman.head(site, T_("bill")),
        T_("counted with base %(mix)s under the whole pit.", mix=RECIPES["base"].ratio),
        wall,
        _dome(made),
        T_("Outlet half-brick %(mix)s, slabs %(thick)s.", mix=RECIPES["outlet"].ratio, thick=Size(float(s.SLAB_THICK_M))),
        T_("Inside %(coats)s coats and %(washes)s washes.", coats=s.INSIDE_COATS, washes=s.WASHES),
        T_("Mixing tank for %(days)s days. Waste is in it.", days=Number(s.MIXING_TANK_DAYS[1])) if made.feed else Text(),
        T_("Not in it: kitchen pipe, stove, stones under the base, forms, earth mould, rings, transport."),
    ]
    return Answer(lines(told))


def _dome(made):
    if made.dome == "brick":
        return T_("Dome brick laid flat %(mix)s.", mix=RECIPES["dome_brick"].ratio)
    if made.dome == "concrete":
        return T_("Dome concrete %(mix)s.", mix=RECIPES["concrete"].ratio)
    return T_("Dome mortar %(mix)s on %(layers)s layers of mesh.", mix=RECIPES["ferrocement"].ratio, layers=s.MESH_LAYERS)


KIND = Kind(
    name="assumed",
    about=T_("Assumptions: how parts are counted in the bill."),
    example=T_("assumptions"),
    cues=("act.assumed -number",),
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
