"""The sentences every kind uses: whose reading it is, how it stands, what to do next, who must release it."""

from bot import extra as points
from bot import stops
from bot.forms import NOW, Alert, Answer, Entry
from bot.phrases import T_, Amount, Clock, Day, Head, Length, Series, Size, Span, Text, Upper, lines
from bot.stages import DISTANCES, STAGES, verdict
from bot.standing import days_of, open_stages, standing, wet_for
from bot.tape import Far, FarBound
from bot.titles import TITLES, VERDICTS, titled
from calc.checks import NOT_ENOUGH, OUTSIDE, WITHIN
from calc.hazards import STOP

ASKS = {
    "well_m": T_("well nn m"),
    "house_m": T_("house nn m"),
    "pit_depth_m": T_("pit deep nnn cm"),
    "pit_dia_m": T_("pit wide nnn nnn nnn cm"),
    "base_thick_m": T_("base nn nn nn cm"),
    "wall_height_m": T_("wall high nnn cm"),
    "dome_height_m": T_("dome high nnn cm"),
    "dome_radius_m": T_("dome string nnn nnn nnn cm"),
    "coats": T_("plaster n coats"),
    "cover_m": T_("cover nn cm over dome"),
    "water_drop_m": T_("water fell nn cm in nn hours"),
    "gauge_end_pa": T_("gas test sealed nn cm temp nn air nnnn, same hour next day again"),
    "pipe_end_pa": T_("pipe test nnn cm nn min nnn cm temp nn nn air nnnn"),
    "stove_lit": T_("vented nn cm, twice, then: stove lit"),
    "extra_pit_dia_m": T_("pit wide nnn cm, once more, to the outlet side"),
    "extra_dome_radius_m": T_("dome string nnn cm, once more, at the outlet side"),
}


def head(site, title, number=None, at=None):
    """Which site, which entry, what about; with the hour where it says STOP."""
    named = {"site": site.code, "title": Upper(title)}
    if number is None:
        return T_("%(site)s %(title)s:", **named)
    if at is None:
        return T_("%(site)s #%(number)s %(title)s:", number=number, **named)
    return T_("%(site)s #%(number)s %(title)s sent %(time)s:", number=number, time=Clock(at, at), **named)


def readings(site, form, names):
    """(Text, worst verdict) of the readings of a form: how each stands, then those that have no plan in one sentence."""
    texts, plain, stands = [], [], []
    for name in names:
        values = form.get(name)
        if values is None:
            continue
        found = verdict(site, name, values)
        if found is None:
            plain.append(titled(name, _several(values), form.feet))
        else:
            texts.append(reading(name, values, found, form.feet))
            stands.append(found.stands)
    if plain:
        texts.append(T_("Read: %(list)s.", list=Series(tuple(plain))))
    order = (OUTSIDE, NOT_ENOUGH, WITHIN)
    return lines(texts), next((stand for stand in order if stand in stands), None)


def distance(name, far_m, found, feet=False):
    """One distance at the site, and how it stands against the least or the most the programme sets."""
    said = {"title": TITLES[name][0], "far": Far(far_m, feet)}
    if found is None:
        return T_("%(title)s %(far)s: noted.", **said)
    if found.stands == NOT_ENOUGH:
        return T_("%(title)s %(far)s: on the limit, measure again.", **said)
    near = found.limits.above > 0
    bound = {"bound": FarBound(found.limits.plan, near)}
    return {
        (OUTSIDE, True): T_("%(title)s %(far)s: too near, at least %(bound)s.", **said, **bound),
        (OUTSIDE, False): T_("%(title)s %(far)s: too far, at most %(bound)s.", **said, **bound),
        (WITHIN, True): T_("%(title)s %(far)s: within, at least %(bound)s.", **said, **bound),
        (WITHIN, False): T_("%(title)s %(far)s: within, at most %(bound)s.", **said, **bound),
    }[found.stands, near]


def _several(values):
    return tuple(values) if isinstance(values, list | tuple) else (values,)


def reading(name, values, found, feet=False):
    """One reading, with its unit in two forms, and how it stands against its plan."""
    title, much, little = TITLES[name]
    values = _several(values)
    if name in DISTANCES:
        return distance(name, values[0], found, feet)
    if not name.endswith("_m"):
        return _counted(title, values, found, much, little)
    named = {"title": title, "value": Length(tuple(values), feet)}
    if found is None:
        return T_("%(title)s %(value)s.", **named)
    plan = Span(found.limits.low, found.limits.high, feet)
    if found.stands == OUTSIDE:
        by = {"by": Size(abs(found.by), feet), "way": much if found.by > 0 else little, "plan": plan}
        return T_("%(title)s %(value)s: outside, %(by)s %(way)s, plan %(plan)s.", **named, **by)
    if found.stands == WITHIN:
        return T_("%(title)s %(value)s: within plan %(plan)s.", **named, plan=plan)
    if found.worst is not None:
        return T_("%(title)s %(value)s: on the limit of %(plan)s, measure again.", **named, plan=plan)
    return T_("%(title)s %(value)s: plan %(plan)s, send %(more)s more.", **named, plan=plan, more=found.missing)


def _counted(title, values, found, much, little):
    """A reading that is a number of things: coats."""
    named = {"title": title, "count": int(values[0]), "least": int(found.limits.low), "way": much if found.by > 0 else little}
    if found.stands == OUTSIDE:
        return T_("%(title)s %(count)s: %(way)s, plan %(least)s or more.", **named)
    return T_("%(title)s %(count)s: within plan, %(least)s or more.", **named)


def tested(entry):
    """What a test on record read and how it stands, in one sentence."""
    told = entry.fields
    hours = told.get("wait_h") or 0
    time = Amount(hours, "h") if hours >= 1 else Amount(60 * hours, "min", 0)
    said = {"number": entry.number, "stands": VERDICTS[entry.verdict], "time": time}
    if "water_drop_m" in told:
        return T_("Water fell %(fell)s in %(time)s: %(stands)s, #%(number)s.", fell=Length(tuple(_several(told["water_drop_m"]))), **said)
    said |= {"start": Head(told["gauge_start_pa"], 1), "end": Head(told["gauge_end_pa"], 1)}
    return T_("Start %(start)s, end %(end)s after %(time)s: %(stands)s, #%(number)s.", **said)


def wanted(missing):
    """What to send before a stage can be called done."""
    texts = [ASKS[name] for name, _ in missing if name in ASKS]
    if not texts:
        return Text()
    if len(texts) == 1:
        return T_("Send: %(first)s.", first=texts[0])
    return T_("Send: %(first)s; %(second)s.", first=texts[0], second=texts[1])


def next_step(site, now):
    """The next stage as an order, with what it must wait for, or that all is done."""
    open_now = open_stages(site)
    if not open_now:
        return T_("All stages are done.")
    stage = open_now[0]
    stands = standing(stage, site, now)
    if stands.held:
        return T_("Wait for the release of %(stage)s. Your supervisor has not answered yet.", stage=stage.title)
    if stands.until is not None:
        return T_("Next: %(stage)s, not before %(day)s.", stage=stage.title, day=Day(stands.until)) + colder(stands)
    if stands.dry:
        return T_("Next: %(order)s", order=stage.order) + too_dry(stands)
    step = T_("Next: %(order)s", order=stage.order) + plan_line(stage, site)
    for name, days in stands.undated[:1]:
        step += undated(name, days)
    return step


def first_finish(stands):
    """Which stages before it are not finished."""
    return T_("First finish: %(stages)s.", stages=Series(tuple(STAGES[name].title for name in stands.blocked_by)))


def undated(name, days):
    """What to do where nobody knows when a stage was done that must harden."""
    said = {"stage": STAGES[name].title, "days": days}
    return T_("No date for the %(stage)s on record: wait %(days)s full days from its end. Send: %(stage)s done n days ago.", **said)


def colder(stands):
    """That the cold makes a wait longer, and by how much, or that nobody read how warm it is; nothing where neither is so."""
    if stands.cold_d:
        return T_("Wait %(days)s more: it is cold.", days=Amount(stands.cold_d, "days"))
    return T_("Reckoned for 20 C: colder is longer, send night nn day nn.") if stands.unread else Text()


def too_dry(stands):
    """What is not on record as kept wet, and how to put it there."""
    name, have, need = stands.dry[0]
    said = {"stage": STAGES[name].title, "have": have, "need": need}
    return T_("First the %(stage)s: %(have)s of %(need)s wet days on record. Send WET TODAY, or: %(stage)s wet nn days.", **said)


def no_plan(site):
    """What is said where an answer needs a plan and none is fixed."""
    return T_("%(site)s: no plan yet. Send: size, animals, people; your supervisor fixes it.", site=site.code)


def card(site):
    """What to mind at the stage that comes next, in one message; of the plant in use where all is done."""
    open_now = open_stages(site)
    return stops.card(open_now[0].name if open_now else "use")


def plan_line(stage, site):
    """The number the next stage is built to."""
    made = site.design
    if made is None:
        return Text()
    if stage.name == "pit":
        return T_("Wide %(width)s, deep %(depth)s.", width=Size(made.pit_diameter_m), depth=Size(made.pit_depth_m))
    if stage.name == "base":
        return T_("Thick %(thick)s.", thick=Size(made.base_thickness_m))
    if stage.name == "wall":
        return T_("Inside radius %(radius)s, high %(height)s.", radius=Size(made.vessel.radius_m), height=Size(made.vessel.wall_height_m))
    if stage.name == "dome":
        string, rise = Size(made.vessel.sphere_radius_m), Size(made.vessel.dome_rise_m)
        return T_("String %(string)s, rise %(rise)s.", string=string, rise=rise)
    if stage.name == "backfill":
        return T_("Over the crown %(cover)s.", cover=Size(made.cover_m))
    return Text()


def keep_wet(name, site, since):
    """How long a stage finished at a moment is kept wet, or nothing."""
    days = wet_for(name, site, since)
    return Text() if days is None else T_("Keep it wet %(days)s days.", days=days)


def waits(name, site, now):
    """The first thing that waits for a stage just done, with its day."""
    if name == "base":
        return T_("Walk on it after %(hours)s h.", hours=24 * days_of("walk on base", site, now))
    return Text()


def alert_stop(site, hazards, said, now, sender, to_do=Text(), people=0):
    """The alert to the supervisors for STOPs not reported in this shift yet, or with people in the pit; else none."""
    grave = stops.stops(hazards)
    if not grave:
        return ()
    fresh = (entry for entry in site.log if now - entry.at < stops.SHIFT)
    known = {rule for entry in fresh for rule, level, _ in entry.held if level == STOP and rule in entry.cautions}
    pressed = any(hazard.rule[0] == "T" for hazard in grave)  # every reading over the limit is told
    if not people and not pressed and {hazard.rule for hazard in grave} <= known:
        return ()
    rules = ", ".join(hazard.rule for hazard in grave[:5])
    named = {"site": site.code, "rules": rules, "time": Clock(now, now), "name": sender.name}
    top = T_("ALERT %(site)s %(rules)s, sent %(time)s by %(name)s.", **named)
    inside = T_("%(people)s in the pit.", people=int(people)) if people else Text()
    return (Alert("supervisor", lines([top, stops.said(grave[0], site), inside, to_do or said]), grade=NOW),)


def whence(site, sender, now):
    """Where a danger was reported, when and by whom, for the others at the site."""
    return T_("%(site)s, sent %(time)s by %(name)s.", site=site.code, time=Clock(now, now), name=sender.name or sender.number)


def check(kind, title, names, order, site, form, sender, now, extra=Text(), about="", **facts):
    """The Answer to readings: STOP first and alone, else how they stand, the next order, at most one caution.

    `order` is called with the worst verdict and returns the next step; `about` are the rules a caution may come from.
    """
    form = points.joined(kind, form, site)
    hazards = stops.at(site, form, now, **facts)
    said, stands = readings(site, form, names)
    more = points.wanted(kind, form, site, now)
    first, rules = stops.opening(hazards, site)
    top = head(site, title, site.next_number, now if first else None)
    if first:
        reply, then = first, lines([top, said, extra, more, stops.ended(site, form, now, hazards), stops.hint(hazards)])
    else:
        caution, rules = stops.reminder(hazards, site, now, about)
        reply, then = lines([top, said, extra]), lines([more or order(stands), caution])
    sign = T_("To sign: release %(site)s support or slope, with the depth.", site=site.code) if _unsigned(hazards) else Text()
    alerts = alert_stop(site, hazards, said, now, sender, sign, form.get("people_in_pit") or 0)
    if alerts and form.get("crack") == "yes":
        others = lines([first, whence(site, sender, now), stops.ended(site, form, now, hazards)])
        alerts += (Alert("mason", others, apart=True),)
    entries = (Entry(kind, form.fields, stands, rules, held=stops.held(hazards)),)
    return Answer(reply, entries + ((Entry("extra", {"of": kind}),) if more else ()), alerts, then)


def _unsigned(hazards):
    return any(hazard.rule in ("E3", "E9") for hazard in stops.stops(hazards))
