"""The air test of a gas pipe, and leaks: how it stands, what to do next."""

from bot import foreman
from bot.forms import NOW, Alert, Answer, Entry, Field, Kind
from bot.kinds.gastight import GAUGES
from bot.kinds.watertight import STANDS
from bot.phrases import T_, Amount, Head, lines
from calc.pipe_tight import pipe_pressure_pa, pipe_test

NEXT = {
    "": T_("The gas fitter signs."),
    "too_short": T_("Wait 15 min from the start, then read again."),
    "no_temperature": T_("Without both temperatures no verdict. Send: pipe test nnn cm nn min nnn cm temp nn nn."),
    "no_barometer": T_("The barometer decides. Send: pipe test nnn cm nn min nnn cm temp nn nn air nnnn."),
    "falls": T_("Leak. Soap every joint, the fitter mends it, test again."),
}


def pipe(form, site, sender, now):
    start, end = form.get("gauge_start_pa"), form.get("gauge_end_pa")
    head = foreman.head(site, T_("pipe test"), site.next_number)
    minutes = 60 * form.get("wait_h")
    greatest = site.design.levels.greatest_pressure_pa if site.design is not None and site.plan_released_by else None
    found = pipe_test(start, end, minutes, form.get("temp_c"), form.get("end_temp_c"), greatest, form.get("barometer_pa"))
    said = {"start": Head(start, 1), "end": Head(end, 1), "time": Amount(minutes, "min", 0), "stands": STANDS[found.stands]}
    told = T_("%(start)s, after %(time)s %(end)s: %(stands)s.", **said)
    low = T_("Too low: pump to %(least)s.", least=Head(pipe_pressure_pa(greatest), 1))
    mind = T_("Hand pump only, valve at the dome shut.")
    texts = [head, told, low if found.reason == "low_pressure" else NEXT[found.reason], mind]
    return Answer(lines(texts), (Entry("pipe_test", form.fields | {"pipe_end_pa": end}, found.stands),))


def leak(form, site, sender, now):
    found = form.get("leak") == "yes"
    head = foreman.head(site, T_("leak"), site.next_number)
    if not found:
        return Answer(lines([head, T_("No leak seen, noted. That alone is not a test.")]), (Entry("leak", form.fields),))
    text = T_("Leak noted. No flame, soap water only. Gas: close the valve at the plant, all away. Send: where and how big.")
    told = T_("%(site)s: leak told by %(name)s. Call him.", site=site.code, name=sender.name)
    return Answer(lines([head, text]), (Entry("leak", form.fields),), (Alert("supervisor", told, grade=NOW),))


PIPE = Kind(
    name="pipe_test",
    about=T_("Pipe test: air pressure at start and end, minutes, temperatures."),
    example=T_("pipe test nnn cm nn min nnn cm temp nn nn"),
    cues=("part.pipe act.test number", "act.pipe_test"),
    grammar="gauge",
    fields=GAUGES,
    answer=pipe,
    needs=tuple((name, "pipe_readings") for name in ("gauge_start_pa", "gauge_end_pa", "wait_h")),
)
LEAK = Kind(
    name="leak",
    about=T_("Leak: yes or no."),
    example=T_("leak no"),
    cues=("act.leak",),
    grammar="lengths",
    fields=(Field("leak", ("act.leak",), 0, 0, "flag"),),
    roles=("mason", "supervisor", "farmer"),
    answer=leak,
)
