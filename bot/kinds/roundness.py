"""How round a ring is, and whether a wall has the radius of its plan."""

from bot import foreman
from bot.forms import Answer, Entry, Kind
from bot.phrases import T_, Size, Text, lines
from bot.tape import Bound, Fine
from calc import setting_out
from calc.sources import LEVEL_TOLERANCE_M, OFF_CENTRE_M, OUT_OF_ROUND_M

SEEN_M = 0.0016  # half an eighth of an inch: less is nothing on a tape


def answer(form, site, sender, now):
    read = form.get("radii_m", ())
    if len(read) < 6:
        few = T_("nothing saved. Send 6 or 8 radii from the centre peg at equal angles. Widths alone do not show it.")
        return Answer(lines([foreman.head(site, T_("round")), few]))
    head = foreman.head(site, T_("round"), site.next_number)
    found = setting_out.circle(read)
    centred, circular = setting_out.round_enough(found)
    towards = round(found.towards_deg / 360 * len(read)) % len(read) + 1
    said = {"radius": Size(found.radius_m), "off": Fine(found.off_centre_m), "towards": towards, "bumps": Fine(found.out_of_round_m)}
    told = T_("radius %(radius)s.", **said)
    told += T_("Centre off by %(off)s towards reading %(towards)s.", **said) if found.off_centre_m >= SEEN_M else T_("Centre at its peg.")
    told += T_("Out of round %(bumps)s.", **said) if found.out_of_round_m >= SEEN_M else T_("All radii fit a circle.")
    fix = Text()
    if not centred:
        fix += T_("Centre off: check the peg, it may have moved.")
    if not circular:
        fix += T_("Not round: correct the ring before the next course.")
    built, plan = _of_plan(form, site, found.radius_m)
    if plan:
        told += plan
    right = centred and circular and built != "outside"
    limits = {"off": Bound(float(OFF_CENTRE_M)), "bumps": Bound(float(OUT_OF_ROUND_M))}
    fix = fix or T_("Roundness within: at most %(off)s off, %(bumps)s out of round.", **limits)
    return Answer(
        lines([head, told, fix]),
        (Entry("round", form.fields, "within" if right else "outside"),),
    )


def _of_plan(form, site, radius_m):
    """(how the fitted radius of a wall stands against its plan, in words); nothing where no plan has it."""
    if form.get("part") != "wall" or site.design is None:
        return None, Text()
    plan_m, most_m = site.design.vessel.radius_m, float(LEVEL_TOLERANCE_M)
    off_m, said = radius_m - plan_m, {"plan": Size(plan_m), "off": Size(abs(radius_m - plan_m)), "most": Size(most_m)}
    if abs(off_m) <= most_m + 1e-9:
        return "within", T_("Radius within plan %(plan)s, at most %(most)s off.", **said)
    way = T_("too wide") if off_m > 0 else T_("too narrow")
    return "outside", T_("Radius outside plan %(plan)s: %(off)s %(way)s. Stop, measure from the peg again.", way=way, **said)


KIND = Kind(
    name="round",
    about=T_("Round: 6 or 8 radii from the centre peg, at equal angles."),
    example=T_("round wall nnn nnn nnn nnn nnn nnn cm"),
    cues=("act.round",),
    grammar="pegs",
    answer=answer,
)
