"""What the bot is asked and hands over: shoring, soil, masks, fitting, wiring, medicine; it says who decides."""

from bot.cautions import REFUSALS
from bot.forms import Answer, Kind
from bot.phrases import T_, Head, lines
from bot.titles import emergency


def answer(form, site, sender, now):
    topic = form.get("topic")
    said = T_(REFUSALS[topic], **({"emergency": emergency(site)} if "%(emergency)s" in REFUSALS[topic] else {}))
    if topic == "test_pressure" and site.design is not None and site.plan_released_by:
        limit = Head(site.design.levels.greatest_pressure_pa)
        said += T_("Plan of %(site)s, fixed by %(name)s: never above %(head)s.", site=site.code, name=site.plan_released_by, head=limit)
    return Answer(lines([said]))


KIND = Kind(
    name="referral",
    about=T_("Shoring, soil, masks, gas fitting, wiring: who decides."),
    example=T_("which mask"),
    cues=("topic -number",),
    grammar="topic",
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
