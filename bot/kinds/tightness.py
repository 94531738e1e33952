"""Water and gas tests, the air test of a pipe, leaks: what was lost, how it stands, what to do next."""

from datetime import timedelta

from bot import foreman, stops
from bot.forms import Answer, Entry, Field, Kind
from bot.phrases import T_, Amount, Head, Text, lines
from calc import tightness, watertight
from calc.checks import NOT_ENOUGH, OUTSIDE, WITHIN
from calc.errors import OutOfRange
from calc.sources import GRAVITY_M_S2, WATER_KG_M3

LIFE = timedelta(days=4)  # readings of one test lie no further apart
DONE = {"water_test": T_("Send: water test done."), "gas_test": T_("Send: gas test done."), "pipe_test": T_("The gas fitter signs.")}
WATER_NEXT = {
    "no_plan": T_("No plan: no verdict. Your supervisor fixes one."),
    "second_day": T_("Fill to the mark, read again after 24 h: the second day counts."),
    "repeat": T_("Over 1 %%: fill to the mark, repeat a day."),
    "loses_water": T_("Limit 2 %%. Mark the line where it stops, mend there, test again."),
    "loses_more": T_("More than the day before: look for the leak, mend, test again."),
}
GAS_NEXT = {
    "no_plan": T_("No plan: no verdict. Your supervisor fixes one."),
    "no_seal": T_("Send: gas test sealed, or gas test water seal."),
    "no_start": T_("Start noted. Read again tomorrow, same hour: gauge nn cm temp nn air nnnn."),
    "no_weather": T_("Without temperature and barometer of both readings no verdict. Send both: temp nn nn air nnnn nnnn."),
    "same_hour": T_("Read at the same hour, 24 h apart."),
    "low_pressure": T_("Pressure too low for a test: 75 cm, or what the plant stands."),
    "falls": T_("A leak: no weather explains it. Soap water only, no flame. Mend, test again."),
    "find_leak": T_("Find it with soap water, no flame. Mend, test again."),
    "loses_gas": T_("Leak. Soap water only, no flame. Mend, test again."),
}
PIPE_NEXT = {
    "low_pressure": T_("Pump to 102 cm or 1.5 times the plant's greatest, hand pump only."),
    "too_short": T_("Wait 15 min from the start, then read again."),
    "no_temperature": T_("Without both temperatures no verdict. Send: pipe test nnn cm nn min nnn cm temp nn nn."),
    "falls": T_("Leak. Soap every joint, the fitter mends it, test again."),
}
STANDS = {WITHIN: T_("within"), OUTSIDE: T_("outside"), NOT_ENOUGH: T_("not enough")}


# ---- water


def water(form, site, sender, now):
    found = _water_found(form, site, now)
    share = {"share": found.share} if found.share is not None else {}
    said = [T_("In %(hours)s.", hours=Amount(form.get("wait_h"), "h"))]
    if found.share is not None:
        lost = {"share": Amount(100 * found.share, "%", 2), "stands": STANDS[found.stands]}
        said.append(T_("Lost %(share)s of the inside in a day: %(stands)s.", **lost))
    extra = lines(said)

    def order(stands):
        return WATER_NEXT.get(found.reason, DONE["water_test"])

    answer = foreman.check(
        "water_test",
        T_("water test"),
        ("water_drop_m", "rain_fall_m", "pan_fall_m"),
        order,
        site,
        form,
        sender,
        now,
        extra,
        about="TD",
        stage="water_test",
    )
    (entry,) = answer.entries
    kept = Entry(entry.kind, form.fields | share, found.stands, entry.cautions, held=entry.held)
    return Answer(answer.reply, (kept,), answer.alerts, answer.then)


def _water_found(form, site, now):
    if site.design is None:
        return tightness.Found(NOT_ENOUGH, "no_plan")
    before = [e.fields["share"] for e in site.live if e.kind == "water_test" and "share" in e.fields and now - e.at <= LIFE]
    drop_m = form.get("water_drop_m")[0]
    weather = {"rain_m": (form.get("rain_fall_m") or (0.0,))[0], "pan_m": (form.get("pan_fall_m") or (0.0,))[0]}
    share = watertight.water_day(site.design, drop_m, form.get("wait_h"), **weather)
    return watertight.water_test([*before, share])


# ---- gas


def gas(form, site, sender, now):
    try:
        fields = _with_start(_legs(form.fields), site, now)
    except OutOfRange:
        return Answer(T_("%(site)s GAS TEST: both legs move alike. Nothing saved. Read both again from rest.", site=site.code))
    start = fields.get("gauge_start_pa")
    if form.get("press_source") and form.get("gauge_start_pa") is None:
        return _compressor(form, site, sender, now)
    if start is None:
        return Answer(T_("%(site)s GAS TEST: no reading yet. Send: gas test sealed nn cm, or left nn right nn cm.", site=site.code))
    end = fields.get("gauge_end_pa")
    hazards = stops.at(site, form, now, stage="gas_test", press_source=form.get("press_source"), **_pressed(max(start, end or 0), site))
    found = _gas_found(fields, site)
    told = _gas_told(fields, found)
    first, rules = stops.opening(hazards, site)
    head = foreman.head(site, T_("gas test"), site.next_number, now if first else None)
    caution = Text()
    if not first:
        caution, rules = stops.reminder(hazards, site, now, "T")
    rest = Text() if first else lines([GAS_NEXT.get(found.reason, DONE["gas_test"]), caution])
    alerts = foreman.alert_stop(site, hazards, told, now, sender)
    entry = Entry("gas_test", fields, found.stands, rules, held=stops.held(hazards))
    return Answer(lines([first, head, told, rest]), (entry,), alerts)


def _compressor(form, site, sender, now):
    """A test asked for with a compressor: STOP, with no pressure figure."""
    hazards = stops.at(site, form, now, stage="gas_test", press_source=form.get("press_source"), **_pressed(None, site))
    first, rules = stops.opening(hazards, site)
    head = foreman.head(site, T_("gas test"), site.next_number, now)
    alerts = foreman.alert_stop(site, hazards, head, now, sender)
    entry = Entry("gas_test", form.fields, "stop", rules, held=stops.held(hazards))
    return Answer(lines([first, head, stops.hint(hazards)]), (entry,), alerts)


def _legs(fields):
    """The fields with the head of both legs as the gauge; legs that did not move alike are refused by calc."""
    if "leg_left_m" not in fields:
        return dict(fields)
    head_m = tightness.legs_head_m(fields["leg_left_m"], fields["leg_right_m"])
    return dict(fields) | {"gauge_start_pa": head_m * WATER_KG_M3 * GRAVITY_M_S2}


def _with_start(fields, site, now):
    """A second reading completed with the start of its test; a word about the weather or the seal completed with the last reading."""
    last = site.last("gas_test")
    fields = {name: value for name, value in fields.items() if name != "site"}
    if (
        last is None
        or "gauge_start_pa" not in last.fields
        or now - last.at > LIFE
        or fields.get("begin") == "yes"
        or fields.get("gauge_end_pa") is not None
    ):
        return fields
    if fields.get("gauge_start_pa") is None:
        return _complemented(last.fields, fields)
    if last.fields.get("gauge_end_pa") is not None:
        return fields
    kept = {name: last.fields[name] for name in ("gauge_start_pa", "sealed", "temp_c", "barometer_pa") if name in last.fields}
    end = {"gauge_end_pa": fields["gauge_start_pa"], "wait_h": fields.get("wait_h", (now - last.at) / timedelta(hours=1))}
    end |= {f"end_{name}": fields[name] for name in ("temp_c", "barometer_pa") if name in fields}
    return kept | ({"sealed": fields["sealed"]} if "sealed" in fields else {}) | end


def _complemented(last, said):
    """The last reading with what is said now: the weather belongs to its latest gauge."""
    ended = last.get("gauge_end_pa") is not None

    def latest(name):
        return f"end_{name}" if ended and name in ("temp_c", "barometer_pa") and f"end_{name}" not in said else name

    return dict(last) | {latest(name): value for name, value in said.items()}


def _gas_found(fields, site):
    if site.design is None:
        return tightness.Found(NOT_ENOUGH, "no_plan")
    if fields.get("gauge_end_pa") is None:
        return tightness.Found(NOT_ENOUGH, "no_start" if "sealed" in fields else "no_seal")
    start = tightness.Air(fields["gauge_start_pa"], fields.get("temp_c"), fields.get("barometer_pa"))
    end = tightness.Air(fields["gauge_end_pa"], fields.get("end_temp_c"), fields.get("end_barometer_pa"))
    if "sealed" not in fields and start.pressure_pa - end.pressure_pa < tightness.s.BLIND_FALL_PA:
        return tightness.Found(NOT_ENOUGH, "no_seal")
    if "wait_h" not in fields:
        return tightness.Found(NOT_ENOUGH, "same_hour")
    try:
        return tightness.gas_test(site.design, fields.get("sealed") == "yes", start, end, fields["wait_h"])
    except OutOfRange:
        return tightness.Found(OUTSIDE, "falls")  # over what the plant stands: the STOP in front says so


def _gas_told(fields, found):
    told = T_("Start %(start)s.", start=Head(fields["gauge_start_pa"]))
    if fields.get("gauge_end_pa") is not None:
        told += T_("End %(end)s.", end=Head(fields["gauge_end_pa"]))
    if fields.get("wait_h") is not None:
        told += T_("After %(hours)s.", hours=Amount(fields["wait_h"], "h"))
    if found.share is not None:
        said = {"share": Amount(100 * found.share, "%", 1), "stands": STANDS[found.stands]}
        what = T_("Fall without weather %(share)s of the start: %(stands)s.", **said)
        told += what if fields.get("sealed") == "yes" else T_("Gas lost %(share)s in a day: %(stands)s.", **said)
    return told


def _pressed(pressure_pa, site):
    """The pressure as a head of water, and the plant's own limit where a supervisor stands for the plan."""
    per_m = WATER_KG_M3 * GRAVITY_M_S2
    limit = site.design.levels.greatest_pressure_pa / per_m if site.design is not None and site.plan_released_by else None
    head = None if pressure_pa is None else pressure_pa / per_m
    return {"test_asked": True, "test_head_m": head, "test_limit_m": limit}


# ---- pipe, leak


def pipe(form, site, sender, now):
    start, end = form.get("gauge_start_pa"), form.get("gauge_end_pa")
    head = foreman.head(site, T_("pipe test"), site.next_number)
    if start is None or end is None or form.get("wait_h") is None:
        return Answer(lines([head, T_("Send both readings and the minutes: pipe test nnn cm nn min nnn cm temp nn nn.")]))
    greatest = site.design.levels.greatest_pressure_pa if site.design is not None else None
    found = tightness.pipe_test(start, end, 60 * form.get("wait_h"), form.get("temp_c"), form.get("end_temp_c"), greatest)
    said = {"start": Head(start), "end": Head(end), "time": Amount(60 * form.get("wait_h"), "min", 0), "stands": STANDS[found.stands]}
    told = T_("%(start)s, after %(time)s %(end)s: %(stands)s.", **said)
    mind = T_("Hand pump only, valve at the dome shut.")
    texts = [head, told, PIPE_NEXT.get(found.reason, DONE["pipe_test"]), mind]
    return Answer(lines(texts), (Entry("pipe_test", form.fields, found.stands),))


def leak(form, site, sender, now):
    found = form.get("leak") == "yes"
    if found:
        text = T_("Leak noted. Soap water only, never a flame. Mark the place, send: where and how big.")
    else:
        text = T_("No leak seen, noted. That alone is not a test.")
    return Answer(lines([foreman.head(site, T_("leak"), site.next_number), text]), (Entry("leak", form.fields),))


GAUGES = (
    Field("gauge_start_pa", (), 0, 30000, "pressure"),
    Field("gauge_end_pa", (), 0, 30000, "pressure"),
    Field("wait_h", (), 0, 0, "hours"),
)
WATER = Kind(
    name="water_test",
    about=T_("Water test: how far the water fell, in how many hours; rain and pan too."),
    example="water fell nn cm in nn hours",
    cues=("item.water act.fell", "item.water same", "part.water_test length"),
    grammar="lengths",
    fields=(
        Field("water_drop_m", ("act.fell",), 0.0, 0.3, bare=True),
        Field("water_drop_m", ("act.fell", "same.same"), 0.0, 0.0, "nil"),
        Field("rain_fall_m", ("act.rain",), 0.0, 0.3),
        Field("pan_fall_m", ("act.pan",), 0.0, 0.05),
        Field("wait_h", (), 0, 0, "hours"),
    ),
    answer=water,
    needs=(("water_drop_m", "no_reading"), ("wait_h", "how_long")),
)
PIPE = Kind(
    name="pipe_test",
    about=T_("Pipe test: air pressure at start and end, minutes, temperatures."),
    example="pipe test nnn cm nn min nnn cm temp nn nn",
    cues=("part.pipe act.test number", "act.pipe_test"),
    grammar="gauge",
    fields=GAUGES,
    answer=pipe,
)
GAS = Kind(
    name="gas_test",
    about=T_("Gas test: sealed or water seal, both legs or gauge in cm, temp, air."),
    example="gas test sealed left nn right nn cm temp nn air nnnn",
    cues=(
        "act.gauge number",
        "part.gas_test number",
        "leg number",
        "act.sealed -part",
        "part.gas_test act.sealed",
        "act.open_seal",
        "act.barometer number",
        "act.compressor",
    ),
    grammar="gauge",
    fields=GAUGES,
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
