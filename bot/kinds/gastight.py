"""The gas test: a start, the same hour next day, what was lost that no weather explains, what to do next."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from bot import foreman, stops
from bot.forms import Answer, Entry, Field, Kind
from bot.kinds.watertight import LIFE, STANDS
from bot.people import may_send
from bot.phrases import T_, Amount, Head, Series, Text, lines
from bot.stages import STAGES
from bot.standing import blocked_by
from calc import sources as s
from calc.checks import NOT_ENOUGH, OUTSIDE
from calc.errors import OutOfRange
from calc.tightness import DAY_H, Air, Found, cannot_start, gas_test, least_pressure_pa, legs_head_m
from calc.units import from_si, si

TESTERS = ("mason", "supervisor")
MOST_PA = 1_000_000  # what a gauge is believed to have shown, 10 bar; far over what any plant stands
PRESSING = {"T1", "T2", "T3", "T4"}  # a reading with one of these is none of a test
OPEN = ("", "no_start", "no_seal", "same_hour")  # after these the start still waits for its end
KEPT = ("gauge_start_pa", "sealed", "temp_c", "barometer_pa", "begun")
NEXT = {
    "": T_("Send: gas test done."),
    "no_plan": T_("No plan: no verdict. Your supervisor fixes one."),
    "no_seal": T_("Send: gas test sealed, or gas test water seal."),
    "no_start": T_("Start noted, level to level. Read again tomorrow, same hour: gauge nn cm temp nn air nnnn."),
    "no_weather": T_("Without temperature and barometer of both readings no verdict. Send both: temp nn nn air nnnn nnnn."),
    "same_hour": T_("Read again at the same hour, 24 h after the start."),
    "over_limit": T_("Over what the plant stands: no test."),
    "falls": T_("Too much for any weather: a leak. Soap water only, no flame. Mend, test again."),
    "find_leak": T_("Find it with soap water, no flame. Mend, test again."),
    "loses_gas": T_("Leak. Soap water only, no flame. Mend, test again."),
}


@dataclass(frozen=True)
class Begun:
    """A start that waits for its end: its fields, and the hours since."""

    fields: dict
    hours: float


def gas(form, site, sender, now):
    said = {name: value for name, value in form.fields.items() if name != "site"}
    try:
        said |= _head(said)
    except OutOfRange:
        return Answer(T_("%(site)s GAS TEST: both legs move alike. Nothing saved. Read both again from rest.", site=site.code))
    if said.get("press_source") and said.get("gauge_start_pa") is None:
        return _compressor(form, site, sender, now)
    tester = may_send(sender.roles, TESTERS)
    if said.pop("wanted", None) or not tester:
        return _no_test(form, site, sender, now, tester)
    begun = _begun(said, site, now)
    if begun and said.get("wait_h", 0) > begun.hours + s.SAME_HOUR_H:
        ago = {"site": site.code, "hours": Amount(begun.hours, "h")}
        return Answer(T_("%(site)s GAS TEST: its start was sent %(hours)s ago. Nothing saved. Send: gauge nn cm after nn h nn cm.", **ago))
    fields = _joined(said, begun, site, now)
    if fields.get("gauge_start_pa") is None:
        return Answer(T_("%(site)s GAS TEST: no reading yet. Send: gas test sealed nn cm, or left nn right nn cm.", site=site.code))
    return _answered(fields, form, site, sender, now)


def _answered(fields, form, site, sender, now):
    highest = max(fields["gauge_start_pa"], fields.get("gauge_end_pa") or 0)
    hazards = stops.at(site, form, now, stage="gas_test", press_source=form.get("press_source"), **_pressed(highest, site))
    found = _found(fields, site)
    told = _told(fields, found)
    first, rules = stops.opening(hazards, site)
    head = foreman.head(site, T_("gas test"), site.next_number, now if first else None)
    caution = Text()
    if not first:
        caution, rules = stops.reminder(hazards, site, now, "T")
    rest = Text() if first else lines([_next(found, site), caution])
    alerts = foreman.alert_stop(site, hazards, told, now, sender)
    stands = "stop" if PRESSING & {hazard.rule for hazard in stops.stops(hazards)} else found.stands
    entry = Entry("gas_test", fields | {"found": found.reason}, stands, rules, held=stops.held(hazards))
    return Answer(lines([first, head, told, rest]), (entry,), alerts)


def over(form, site, sender, now):
    """The STOP to a pressure over what the plant stands, whether or not it is a reading of a test; None where it is not over."""
    said = {name: value for name, value in form.fields.items() if name not in ("site", "wanted")}
    highest = max(said.get("gauge_start_pa") or 0, said.get("gauge_end_pa") or 0)
    hazards = stops.at(site, form, now, stage="gas_test", **_pressed(highest, site))
    if not highest or not PRESSING & {hazard.rule for hazard in stops.stops(hazards)}:
        return None
    first, rules = stops.opening(hazards, site)
    told = T_("Gauge %(head)s.", head=Head(highest, 1))
    top = foreman.head(site, T_("gas test"), site.next_number, now)
    entry = Entry("gas_test", said, "stop", rules, held=stops.held(hazards))
    return Answer(lines([first, top, told]), (entry,), foreman.alert_stop(site, hazards, told, now, sender))


def _no_test(form, site, sender, now, tester):
    """A pressure that is no reading of a test: somebody else's gauge, or how far one means to pump. Only a STOP is kept."""
    stopped = over(form, site, sender, now)
    if stopped is not None:
        return stopped
    if tester:
        return Answer(T_("%(site)s GAS TEST: nothing saved. Hand pump only, slowly. Then send: gauge nn cm.", site=site.code))
    return Answer(T_("%(site)s GAS TEST: nothing saved. Only the mason or supervisor makes it.", site=site.code))


def _compressor(form, site, sender, now):
    """A test asked for with a compressor: STOP, with no pressure figure."""
    hazards = stops.at(site, form, now, stage="gas_test", press_source=form.get("press_source"), **_pressed(None, site))
    first, rules = stops.opening(hazards, site)
    told = foreman.head(site, T_("gas test"), site.next_number, now) + T_("no reading saved.")
    alerts = foreman.alert_stop(site, hazards, told, now, sender)
    entry = Entry("gas_test", form.fields, "stop", rules, held=stops.held(hazards))
    return Answer(lines([first, told, stops.hint(hazards)]), (entry,), alerts)


def _head(said):
    """The gauge of both legs; legs that did not move alike are refused by calc."""
    if "leg_left_m" not in said or said.get("gauge_start_pa") is not None:
        return {}
    return {"gauge_start_pa": si(from_si(legs_head_m(said["leg_left_m"], said["leg_right_m"]), "cm"), "cmH2O")}


# ---- a start and its end


def _last(site, now):
    """The last entry of a test with a gauge in it that is not too old."""
    last = next((entry for entry in reversed(site.live) if entry.kind == "gas_test" and "gauge_start_pa" in entry.fields), None)
    return last if last is not None and now - last.at <= LIFE else None


def _begun(said, site, now):
    """The start that a single gauge is the end of, or None."""
    last = _last(site, now)
    if last is None or last.verdict == "stop" or "begun" not in last.fields or said.get("begin") == "yes":
        return None
    if said.get("gauge_start_pa") is None or said.get("gauge_end_pa") is not None or "begun" in said:  # begun: a start corrected
        return None
    ended = last.fields.get("gauge_end_pa") is not None and last.fields["wait_h"] >= DAY_H - s.SAME_HOUR_H
    if ended or last.fields.get("found") not in OPEN:
        return None
    hours = (now - datetime.fromisoformat(last.fields["begun"])) / timedelta(hours=1)
    return Begun({name: last.fields[name] for name in KEPT if name in last.fields}, hours)


def _joined(said, begun, site, now):
    """What is said completed: an end with its start, a word about weather or seal with the last reading."""
    if said.get("gauge_start_pa") is None:
        last = _last(site, now)
        return _complemented(last.fields, said) if last is not None else said
    if said.get("gauge_end_pa") is not None or "begun" in said:
        return said
    if begun is None or begun.hours < s.SETTLE_H:
        seal = {name: begun.fields[name] for name in ("sealed",) if begun and name in begun.fields}
        return seal | said | {"begun": now.isoformat()}
    end = {"gauge_end_pa": said["gauge_start_pa"], "wait_h": said.get("wait_h", begun.hours)}
    end |= {f"end_{name}": said[name] for name in ("temp_c", "barometer_pa") if name in said}
    return begun.fields | ({"sealed": said["sealed"]} if "sealed" in said else {}) | end


def _complemented(last, said):
    """The last reading with what is said now: the weather belongs to its latest gauge."""
    ended = last.get("gauge_end_pa") is not None

    def latest(name):
        return f"end_{name}" if ended and name in ("temp_c", "barometer_pa") and f"end_{name}" not in said else name

    return dict(last) | {latest(name): value for name, value in said.items()}


# ---- how it stands


def _found(fields, site):
    start = Air(fields["gauge_start_pa"], fields.get("temp_c"), fields.get("barometer_pa"))
    end = None
    if fields.get("gauge_end_pa") is not None:
        end = Air(fields["gauge_end_pa"], fields.get("end_temp_c"), fields.get("end_barometer_pa"))
    if site.design is None:
        return Found(NOT_ENOUGH, "no_plan")
    found = _started(fields, site, start) if end is None else _ended(fields, site, start, end)
    return found if found.stands == OUTSIDE or not _before(site) else Found(NOT_ENOUGH, "not_ready", found.share, found.fall_pa)


def _started(fields, site, start):
    return Found(NOT_ENOUGH, cannot_start(site.design, start.pressure_pa) or ("no_start" if "sealed" in fields else "no_seal"))


def _ended(fields, site, start, end):
    if "sealed" not in fields and start.pressure_pa - end.pressure_pa < s.BLIND_FALL_PA:
        return Found(NOT_ENOUGH, "no_seal")
    if "wait_h" not in fields:
        return Found(NOT_ENOUGH, "same_hour")
    return gas_test(site.design, fields.get("sealed") == "yes", start, end, fields["wait_h"])


def _before(site):
    """The stages that come before a gas test and are not finished: water tight, and the soil on."""
    return blocked_by(STAGES["gas_test"], site)


def _next(found, site):
    if found.reason == "not_ready":
        titles = Series(tuple(STAGES[name].title for name in _before(site)))
        return T_("Let the pressure down, valve slowly. First finish: %(stages)s. Then test.", stages=titles)
    if found.reason == "low_pressure":
        least = Head(least_pressure_pa(site.design), 1)
        return T_("Too low for a test: %(least)s level to level, hand pump only. One leg only? Send: left nn right nn cm.", least=least)
    return NEXT[found.reason]


def _told(fields, found):
    told = T_("Start %(start)s.", start=Head(fields["gauge_start_pa"], 1))
    if fields.get("gauge_end_pa") is not None:
        told += T_("End %(end)s.", end=Head(fields["gauge_end_pa"], 1))
    if fields.get("wait_h") is not None:
        told += T_("After %(hours)s.", hours=Amount(fields["wait_h"], "h"))
    if found.share is not None:
        gas = Amount(100 * (found.share if found.gas_share is None else found.gas_share), "%", 1)
        said = {"share": Amount(100 * found.share, "%", 1), "stands": STANDS[found.stands], "gas": gas}
        what = T_("Fall without weather %(share)s of the start, gas lost %(gas)s: %(stands)s.", **said)
        told += what if fields.get("sealed") == "yes" else T_("Gas lost %(share)s in a day: %(stands)s.", **said)
    return told


def _pressed(pressure_pa, site):
    """The pressure as a head of water, and the plant's own limit where a supervisor stands for the plan."""
    limit_pa = site.design.levels.greatest_pressure_pa if site.design is not None and site.plan_released_by else None
    heads = {"test_head_m": pressure_pa, "test_limit_m": limit_pa}
    return {"test_asked": True} | {name: None if pa is None else si(from_si(pa, "cmH2O"), "cm") for name, pa in heads.items()}


GAUGES = (
    Field("gauge_start_pa", (), 0, MOST_PA, "pressure"),
    Field("gauge_end_pa", (), 0, MOST_PA, "pressure"),
    Field("wait_h", (), 0, 0, "hours"),
)
KIND = Kind(
    name="gas_test",
    about=T_("Gas test: sealed or water seal, both legs or gauge in cm, temp, air."),
    example=T_("gas test sealed left nn right nn cm temp nn air nnnn"),
    cues=(
        "act.gauge number",
        "part.gas_test number",
        "leg number",
        "act.sealed -part",
        "part.gas_test act.sealed",
        "act.open_seal",
        "act.barometer number",
        "act.compressor",
        "act.pump_to length -part.pit -act.in_pit -item.water",
        "act.pump_to pressure",
    ),
    grammar="gauge",
    roles=(*TESTERS, "farmer"),
    fields=GAUGES,
    answer=gas,
    beyond=over,
)
