"""Pictures of a site: what one would show is said in short, and the picture itself goes along where the channel carries files."""

from bot import foreman
from bot.forms import Answer, Form, Kind
from bot.kinds import layout, use, works
from bot.phrases import T_, Size, Text, lines
from bot.stages import STAGES
from bot.standing import applies, finished


def answer(form, site, sender, now):
    what = form.get("what", "section")
    refused = lacking(what, site, now)
    if refused:
        return Answer(refused)
    also = Text() if form.get("what") else T_("Also: draw plan, pegs, string, progress, gas.")
    return Answer(TOLD[what](form, site, sender, now) + also, paper=what, without=T_("Pictures go by Telegram."))


def lacking(what, site, now):
    """Why there is nothing to draw, as a Text, or None."""
    if site.design is None:
        return foreman.no_plan(site)
    if what == "progress":
        return works.refused(site, now)
    if what == "gas" and site.design.gas_m3_per_day is None:
        return T_("%(site)s: no gas figure in the plan. Send: size, animals, people; your supervisor fixes it.", site=site.code)
    if what == "gas" and site.last("use") is None:
        return T_("%(site)s: when does the family cook? Send: cook nn to nn, nn to nn, n stoves.", site=site.code)
    return None


def _section(form, site, sender, now):
    made, vessel = site.design, site.design.vessel
    said = {
        "wide": Size(2 * vessel.radius_m),
        "rise": Size(vessel.dome_rise_m),
        "string": Size(vessel.sphere_radius_m),
        "pit": Size(made.pit_diameter_m),
        "deep": Size(made.pit_depth_m),
    }
    wall = T_("Wall %(high)s.", high=Size(vessel.wall_height_m)) if vessel.wall_height_m else Text()
    dish = T_("Dish %(deep)s.", deep=Size(vessel.bottom_depth_m)) if vessel.bottom_depth_m else Text()
    told = T_("inside %(wide)s wide, dome rise %(rise)s, string %(string)s. Pit %(pit)s wide, %(deep)s deep.", **said)
    return lines([foreman.head(site, T_("section")), told, wall, dish, _chamber(made)])


def _chamber(made):
    deep_m = made.levels.overflow_m - made.levels.zero_line_m
    said = {"long": Size(made.chamber_length_m), "wide": Size(made.chamber_width_m), "deep": Size(deep_m)}
    return T_("Chamber %(long)s x %(wide)s, %(deep)s deep.", **said)


def _plan(form, site, sender, now):
    said = {"pit": Size(site.design.pit_diameter_m), "wide": Size(2 * site.design.vessel.radius_m)}
    told = T_("pit %(pit)s wide, inside %(wide)s. Inlet, middle peg and outlet in one line.", **said)
    return lines([foreman.head(site, T_("from above")), told, _chamber(site.design)])


def _pegs(form, site, sender, now):
    made = site.design
    diagonal_m = (made.chamber_length_m**2 + made.chamber_width_m**2) ** 0.5
    said = {"pit": Size(made.pit_diameter_m / 2), "diagonal": Size(diagonal_m)}
    told = T_("string %(pit)s from the middle peg to the pit edge. Both diagonals of the chamber %(diagonal)s.", **said)
    return lines([foreman.head(site, T_("pegs")), told, _chamber(made), T_("All levels: send LEVELS.")])


def _string(form, site, sender, now):
    return layout.string(Form("string", {"part": "dome"}, feet=form.feet), site, sender, now).reply


def _progress(form, site, sender, now):
    of = [stage for stage in STAGES.values() if applies(stage, site)]
    done = sum(finished(stage.name, site) for stage in of)
    head = foreman.head(site, T_("progress"))
    return lines([head, T_("%(done)s of %(all)s stages done.", done=done, all=len(of)), *works.end(site, now)])


def _gas(form, site, sender, now):
    cooking = Form("use", site.last("use").fields)
    return lines([foreman.head(site, T_("gas use")), *use.told(cooking, site)])


TOLD = {"section": _section, "plan": _plan, "pegs": _pegs, "string": _string, "progress": _progress, "gas": _gas}
KIND = Kind(
    name="draw",
    about=T_("Draw: section, plan, pegs, string, progress or gas, as a picture on Telegram."),
    example=T_("draw section"),
    cues=("act.draw -number -not -danger -item -act.done",),
    grammar="draw",
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
