"""Water and gas tests, leaks: the readings are kept, the bot does not judge them yet."""

from bot import foreman, stops
from bot.forms import Answer, Entry, Field, Kind
from bot.phrases import T_, Amount, Head, Text, lines
from bot.stages import STAGES
from calc.sources import GRAVITY_M_S2, WATER_KG_M3


def water(form, site, sender, now):
    extra = T_("In %(hours)s.", hours=Amount(form.get("wait_h"), "h"))
    tests = STAGES["water_test"].unchecked

    def order(stands):
        return tests

    return foreman.check(
        "water_test", T_("water test"), ("water_drop_m",), order, site, form, sender, now, extra, about="TD", stage="water_test"
    )


def gas(form, site, sender, now):
    start, end = form.get("gauge_start_pa"), form.get("gauge_end_pa")
    hazards = stops.at(site, form, now, stage="gas_test", **_pressed(max(start, end or 0), site))
    said = T_("Start %(start)s.", start=Head(start))
    if end is not None:
        said += T_("End %(end)s.", end=Head(end))
    if form.get("wait_h") is not None:
        said += T_("After %(hours)s.", hours=Amount(form.get("wait_h"), "h"))
    first, rules = stops.opening(hazards, site)
    head = foreman.head(site, T_("gas test"), site.next_number, now if first else None)
    caution = Text()
    if not first:
        caution, rules = stops.reminder(hazards, site, now, "T")
    rest = Text() if first else lines([STAGES["gas_test"].unchecked, caution])
    alerts = foreman.alert_stop(site, hazards, said, now, sender)
    return Answer(lines([first, head, said, rest]), (Entry("gas_test", form.fields, None, rules, held=stops.held(hazards)),), alerts)


def _pressed(pressure_pa, site):
    """The pressure as a head of water, and the plant's own limit where a supervisor stands for the plan."""
    per_m = WATER_KG_M3 * GRAVITY_M_S2
    limit = site.design.levels.greatest_pressure_pa / per_m if site.design is not None and site.plan_released_by else None
    return {"test_asked": True, "test_head_m": pressure_pa / per_m, "test_limit_m": limit}


def leak(form, site, sender, now):
    found = form.get("leak") == "yes"
    if found:
        text = T_("Leak noted. Soap water only, never a flame. Mark the place, send: where and how big.")
    else:
        text = T_("No leak seen, noted. That alone is not a test.")
    return Answer(lines([foreman.head(site, T_("leak"), site.next_number), text]), (Entry("leak", form.fields),))


WATER = Kind(
    name="water_test",
    about=T_("Water test: how far the water fell, in how many hours."),
    example="water fell nn cm in nn hours",
    cues=("item.water act.fell", "item.water same", "part.water_test length"),
    grammar="lengths",
    fields=(
        Field("water_drop_m", ("act.fell",), 0.0, 0.3, bare=True),
        Field("water_drop_m", ("act.fell", "same.same"), 0.0, 0.0, "nil"),
        Field("wait_h", (), 0, 0, "hours"),
    ),
    answer=water,
    needs=(("water_drop_m", "no_reading"), ("wait_h", "how_long")),
)
GAS = Kind(
    name="gas_test",
    about=T_("Gas test: water tube at start and end in cm, and the hours."),
    example="gauge nnn cm after nn hours nnn cm",
    cues=("act.gauge number", "part.gas_test number"),
    grammar="gauge",
    fields=(
        Field("gauge_start_pa", (), 0, 30000, "pressure"),
        Field("gauge_end_pa", (), 0, 30000, "pressure"),
        Field("wait_h", (), 0, 0, "hours"),
    ),
    answer=gas,
)
LEAK = Kind(
    name="leak",
    about=T_("Leak: yes or no."),
    example="leak no",
    cues=("act.leak",),
    grammar="lengths",
    fields=(Field("leak", ("act.leak",), 0, 0, "flag"),),
    answer=leak,
)
