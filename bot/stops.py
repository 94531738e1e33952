"""The dangers at a site: facts from its log and the message at hand -> rules that hold -> the sentences said first."""

import re
from dataclasses import fields as fields_of
from datetime import timedelta
from math import ceil, floor

from bot.cautions import CARDS, OWN_SLOTS, caution
from bot.forms import Form
from bot.phrases import T_, Amount, Length, Series, Size, Text, lines
from bot.site import SHIFT
from bot.titles import emergency, spoken
from calc.facts import Facts
from calc.hazards import NOTE, STOP, WARN, judge

OPEN = ("pit", "base", "wall")  # stages at which the pit stands open
DEEPER_M = 0.1
_NAMES = {field.name for field in fields_of(Facts)}
_YES = {"yes": True, "no": False, "ok": True}
_DIRECT = (  # message fields that are facts under the same name
    "slope_run_m", "spoil_edge_m", "ladder_above_edge_m", "water_in_pit_m", "people_in_pit", "watcher", "fence", "soil",
    "seepage", "engine_in_pit", "crack", "slab_length_m", "slab_width_m", "slab_thickness_m", "lifters", "least_temp_c",
    "services_checked", "old_pit_m", "overhead_line_m",
)  # fmt: skip
_LASTING = (  # these hold until said again
    "old_pit_m", "overhead_line_m", "slope_run_m", "spoil_edge_m", "soil", "ladder_above_edge_m", "services_checked", "crack",
)  # fmt: skip
_CLEARED = ("crack", "seepage", "water_in_pit_m", "engine_in_pit")  # a later release of the sides has looked at these
_PIT_ONLY = (
    "slope_run_m", "spoil_edge_m", "people_in_pit", "soil", "ladder_above_edge_m", "ladder", "watcher", "engine_in_pit",
    "seepage", "water_in_pit_m", "crack",
)  # fmt: skip
_GROUND = ("old_pit_m", "overhead_line_m")  # matter until the wall stands
MORE = 5  # rules named behind a STOP
CAUSES = {
    "age": T_("older than a shift"),
    "rain": T_("rain"),
    "water": T_("water"),
    "crack": T_("crack"),
    "deeper": T_("10 cm deeper"),
    "soil": T_("other soil"),
}
_UNITS = {"_c": "C", "_h": "h", "_min": "min"}


def stage_of(site):
    """The stage the rules go by: the first one not finished, "use" where all are."""
    from bot.standing import current

    found = current(site)
    return "use" if found is None else found.name


def facts(site, form, now, **more):
    """Return the Facts of a site at a moment: this message first, then what the log says and still holds."""
    known = {name: _value(site, form, name, now) for name in _DIRECT}
    stage = more.pop("stage", stage_of(site))
    depth = (*form.get("pit_depth_m", ()), *deepest(site)[0]) or _planned_depth(site, stage)
    if stage == "pit" and not depth:
        stage = None  # nothing is dug as far as anybody said: only what was reported wakes a rule
    if stage in OPEN and depth:
        known |= {"depth_m": max(depth), "bowl_m": _bowl(site, form)}
        known |= _sides(site, form, now, max(depth))
    known["thunder_min"] = _thunder(site, form, now)
    for name in ("pit_top_dia_m", "pit_bottom_dia_m"):
        if form.get(name):
            known[name.replace("dia", "d")] = form.get(name)[0]
    known["ladder"] = None if known["ladder_above_edge_m"] is None else True
    if form.get("ladder") == "no":
        known["ladder"] = False
    known["slurry_ever_filled"] = site.ever_filled
    known["cement"] = site.rules.cement
    known["hot_dry"] = site.rules.hot_dry
    if stage is not None and stage not in OPEN:
        for name in _PIT_ONLY + (() if stage in ("site", "layout") else _GROUND):
            known[name] = None
    return Facts(stage=stage, **{name: value for name, value in (known | more).items() if name in _NAMES})


def deepest(site):
    """((the greatest depth on record,), its entry) of the pit, or ((), None): a pit gets no shallower by a reading."""
    dug = [(max(_values(entry.fields["pit_depth_m"])), entry) for entry in site.live if "pit_depth_m" in entry.fields]
    if not dug:
        return (), None
    depth, entry = max(dug, key=lambda each: each[0])
    return (depth,), entry


def _values(said):
    return said if isinstance(said, tuple | list) else (said,)


def _planned_depth(site, stage):
    """The depth of a pit that was dug before the log began, as planned; None while it is being dug."""
    return (site.design.pit_depth_m,) if stage in OPEN[1:] and site.design is not None else None


def _value(site, form, name, now):
    value = form.get(name)
    if value is None:
        value, entry = site.reading(name)
        signed = release(site) if name in _CLEARED else None
        old = entry is not None and name not in _LASTING and now - entry.at > SHIFT
        if old or (entry is not None and signed is not None and signed.number > entry.number):
            value = None
    if value is None and name == "soil":
        value = site.rules.soil
    if isinstance(value, tuple | list):
        value = value[0]
    return _YES.get(value, value) if isinstance(value, str) and name != "soil" else value


def _thunder(site, form, now):
    """Minutes since the last thunder that was reported in this shift, or None."""
    if form.get("thunder_min") is not None:
        return form.get("thunder_min")
    said, entry = site.reading("thunder_min")
    return None if entry is None or now - entry.at > SHIFT else said + (now - entry.at) / timedelta(minutes=1)


def _bowl(site, form):
    """How much deeper the middle is: as measured, else as drawn, for the deepest point counts."""
    said = form.get("pit_dish_m") or site.reading("pit_dish_m")[0]
    if said:
        return max(said)
    return site.design.vessel.bottom_depth_m if site.design is not None else 0.0


def _sides(site, form, now, depth_m):
    """What is known of the sides of the pit: when they were last looked at, and whether a release still stands."""
    looked = site.last("pit")
    looking = any(form.get(name) is not None for name in ("pit_depth_m", "pit_dia_m", "soil", "watcher", "slope_run_m", "spoil_edge_m"))
    checked = now if looking else looked.at if looked else None
    told = {"check_h": None if checked is None else (now - checked) / timedelta(hours=1)}
    rained = form.get("rain") == "yes" or (checked is not None and site.since(checked, "rain"))
    told["rain_since_check"] = True if rained else None
    signed = release(site)
    if signed is not None:
        void = void_by(site, form, now, signed, depth_m)
        told |= {"side_protection": "void" if void else signed.fields["protection"], "approval_void": bool(void) or None}
        told["release_h"] = (now - signed.at) / timedelta(hours=1)
    return told


def release(site):
    """The last release of the pit sides, whether or not it still stands, or None."""
    given = [e for e in site.live if e.kind in ("release", "refuse") and e.fields.get("stage") == "sides"]
    return given[-1] if given and given[-1].kind == "release" else None


def soil_of(site):
    """The soil class last said, else the programme's, else None."""
    return site.reading("soil")[0] or site.rules.soil


def void_by(site, form, now, signed, depth_m):
    """What has ended a release of the sides: "age", "rain", "water", "crack", "deeper", "soil", or None."""
    if now - signed.at > SHIFT:
        return "age"
    for name, field in (("rain", "rain"), ("water", "seepage"), ("crack", "crack")):
        if form.get(field) == "yes" or site.since(signed.at, field):
            return name
    water = form.get("water_in_pit_m") or next(
        (e.fields["water_in_pit_m"] for e in site.live if e.at >= signed.at and "water_in_pit_m" in e.fields), None
    )
    if water and max(water) > 0:
        return "water"
    if depth_m >= signed.fields["value_m"] + DEEPER_M - 1e-9:
        return "deeper"
    return "soil" if form.get("soil") not in (None, signed.fields.get("soil")) else None


def standing(site, now):
    """The STOPs that stand at the open pit of a site by its log, whatever the message; none where no pit is open."""
    if stage_of(site) not in OPEN or not site.last("pit", "danger", "base", "wall"):
        return ()
    return stops(judge(facts(site, Form("", {}), now)))


def card(stage):
    """What to mind during a stage, or nothing."""
    return T_(CARDS[stage]) if stage in CARDS else Text()


def said(hazard, site):
    """The short text of a hazard, its slots filled."""
    return _filled(caution(hazard.rule, hazard.level).short, hazard, site)


def told(hazard, site):
    """The long text of a hazard where all its values are known, else the short one."""
    texts = caution(hazard.rule, hazard.level)
    slots = set(re.findall(r"%\((\w+)\)s", texts.long)) - set(OWN_SLOTS)
    known = all(hazard.values.get(name) is not None for name in slots)
    return _filled(texts.long if known else texts.short, hazard, site)


def _filled(text, hazard, site):
    slots = {name: worded(name, value) for name, value in hazard.values.items() if f"%({name})s" in text}
    own = {"emergency": emergency(site) if site else "", "release": "", "reading": "", "time": "", "stage": "", "text": ""}
    slots |= {name: value for name, value in own.items() if f"%({name})s" in text and name not in slots}
    if "%(fact)s" in text and "fact" not in slots:
        slots["fact"] = worded("facts", hazard.values.get("facts", ()))
    return T_(text, **slots)


def worded(name, value):
    """A value of a hazard as the site says it, by the unit in its name.

    Masses and what is needed are rounded up, guides and ages down: never to the side of danger.
    """
    if value is None:
        return T_("not reported")
    if isinstance(value, tuple | list):
        return Series(tuple(map(spoken, value[:MORE])))
    if name in ("test_head_m", "head_limit_m", "gas_head_m", "gas_head_limit_m", "test_limit_m"):
        return Amount(value * 100, "cm", 0)
    if "need" in name and name.endswith("_m"):
        return Size(ceil(value * 100 - 1e-6) / 100)
    if name.endswith("_m"):
        return Length(value) if name.startswith(("depth", "deepest", "slab")) else Size(value)
    if name.endswith("_kg"):
        return Amount(floor(value + 1e-9) if "guide" in name else ceil(value - 1e-9), "kg", 0)
    if name.endswith("_d"):
        return Amount(floor(value + 1e-9), "days", 0)
    unit = next((unit for tail, unit in _UNITS.items() if name.endswith(tail)), "")
    return Amount(value, unit, 1) if isinstance(value, int | float) else str(value)


def stops(hazards):
    """The hazards of the highest level."""
    return tuple(hazard for hazard in hazards if hazard.level == STOP)


def opening(hazards, site):
    """(Text that goes first, rules of the STOPs): the gravest STOP in words, what else holds by its name."""
    grave = stops(hazards)
    if not grave:
        return Text(), ()
    rest = [hazard.rule for hazard in hazards[1:] if hazard.level in (STOP, WARN) and hazard.rule not in ("X3", "P1")]
    rest = rest[: MORE - 1] + [hazard.rule for hazard in hazards if hazard.rule == "X3"]
    more = T_("More: WHY %(rules)s.", rules=", ".join(rest)) if rest else Text()
    return lines([said(grave[0], site), more]), tuple(hazard.rule for hazard in grave)


def ended(site, form, now, hazards):
    """That a release of the pit sides no longer counts, and what ended it, where that is so."""
    signed = release(site)
    if signed is None or not any(hazard.rule == "X5" for hazard in hazards):
        return Text()
    depth = form.get("pit_depth_m") or site.reading("pit_depth_m")[0]
    cause = void_by(site, form, now, signed, max(depth)) if depth else None
    if cause is None:
        return Text()
    return T_("Release #%(number)s no longer counts: %(cause)s.", number=signed.number, cause=CAUSES[cause])


def hint(hazards):
    """What clears up a reading that may be a slip, or what is missing for the first STOP."""
    if any(hazard.rule == "E12" for hazard in hazards):
        return T_("If you swapped the two, send them again with TOP and BOT.")
    return setback(hazards) if hazards and hazards[0].rule == "E4" else Text()


def setback(hazards):
    """How far the side of a pit must go back, where no reading of it is on record."""
    steep = next((hazard for hazard in stops(hazards) if hazard.rule == "E4"), None)
    if steep is None or not steep.values or steep.values["slope_run_m"] is not None:
        return Text()
    said = {name: worded(name, steep.values[name]) for name in ("soil_class", "slope_need_m")}
    return T_("No slope on record; soil %(soil_class)s needs %(slope_need_m)s back. Nobody in. Send: slope nnn cm.", **said)


def reminder(hazards, site, now, about=""):
    """(Text, rules): one warning or note that was not said at this site today, or none.

    `about` are the first letters of the rules that fit the message; without it all do.
    """
    day = timedelta(days=1)
    spent = {rule for entry in site.log if now - entry.at < day for rule in entry.cautions}
    ranked = [h for h in hazards if h.level == WARN and h.rule != "X3"] + [h for h in hazards if h.level == NOTE]
    fresh = next((h for h in ranked if h.rule not in spent and (not about or h.rule[0] in about)), None)
    return (said(fresh, site), (fresh.rule,)) if fresh else (Text(), ())


def held(hazards):
    """The hazards as plain values for the log, so that WHY tells what held then."""
    return tuple((hazard.rule, hazard.level, dict(hazard.values)) for hazard in hazards)


def at(site, form, now, **more):
    """The dangers at a site with this message."""
    return judge(facts(site, form, now, **more))
