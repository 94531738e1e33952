"""Hold points released or refused by the supervisor; the pit sides signed for one shift."""

from bot import foreman, stops
from bot.forms import Alert, Answer, Entry, Form, Kind
from bot.kinds.answering import by_release
from bot.phrases import T_, Clock, Length, Series, Text, lines
from bot.site import SHIFT
from bot.stages import HOLD, STAGES
from bot.standing import JUDGED, standing
from bot.titles import PROTECTIONS

NEAR_M = 0.01
NEVER = ("E7", "E8", "E13", "E14")  # ground that moves, water, an engine or load: nothing is released while one stands


def answer(form, site, sender, now):
    if form.get("stage") == "sides":
        return _sides(form, site, sender, now)
    stage = STAGES[form.get("stage")]
    refused = _against(form, stage, site, sender, now)
    if refused is not None:
        return Answer(refused)
    stands = standing(stage, site, now)
    fields = {"stage": stage.name, "entry": stands.reported.number, "readings": _readings(stage, site), **_besides(form, stage.name)}
    entry = Entry("release", fields, "released", refers=stands.reported.number)
    after = site.with_entries([entry], now, sender.person)
    head = foreman.head(site, T_("release"), site.next_number)
    said = {"stage": stage.title, "entry": stands.reported.number, "name": sender.name, "time": Clock(now, now)}
    text = T_("%(stage)s, entry #%(entry)s, released by %(name)s %(time)s. A new reading ends it.", **said)
    grave = stops.standing(after, now)
    then = stops.opening(grave, after)[0] + T_("No work in the pit before that.") if grave else foreman.next_step(after, now)
    told = Alert("mason", lines([head, text, then]))
    farmer = Alert("farmer", T_("%(site)s: %(stage)s released.", site=site.code, stage=stage.title))
    mind = foreman.card(after)
    to_mind = Alert("mason" if foreman.open_stages(after) else "farmer", mind)
    return Answer(lines([head, text, _rush(form)]), (entry,), (told, farmer, to_mind) if mind else (told, farmer))


def _readings(stage, site):
    """The entries a release rests on: it falls with any of them."""
    found = {name: site.reading(name, stage.kinds if name in JUDGED else ())[1] for name in stage.wants}
    return {name: entry.number for name, entry in found.items() if entry is not None}


def _besides(form, name):
    """What else is kept with a release: the alarms it answers, and how many the same person gave in the minute before."""
    answered = [case["entry"] for case in form.get("cases", ()) if by_release(case, name)]
    return ({"answers": answered} if answered else {}) | ({"rush": form.get("rush")} if form.get("rush") else {})


def _rush(form):
    if not form.get("rush"):
        return Text()
    return T_("Your %(count)s. release within a minute: that is on record.", count=form.get("rush") + 1)


def _against(form, stage, site, sender, now):
    """Why this may not be released, as a Text, or None."""
    named = {"site": site.code, "stage": stage.title}
    if stage.hold != HOLD:
        return T_("%(site)s %(stage)s needs no release. Nothing recorded.", **named)
    stands = standing(stage, site, now)
    if stands.reported is None:
        return T_("%(site)s %(stage)s is not reported done. Nothing to release.", **named)
    if stands.release is not None:
        return T_("%(site)s %(stage)s is released already.", **named)
    if form.get("entry") not in (None, stands.reported.number):
        return T_("%(site)s %(stage)s stands under #%(entry)s. Nothing recorded: quote that.", entry=stands.reported.number, **named)
    if _own(stage, site, sender, stands):
        return T_("%(site)s %(stage)s: the readings are your own, or of this number. Another supervisor must release it.", **named)
    grave = [hazard for hazard in stops.standing(site, now) if hazard.rule in NEVER]
    if grave:
        rules = ", ".join(hazard.rule for hazard in grave[:5])
        return T_(
            "%(site)s %(stage)s: STOP %(rules)s stands. Nothing recorded. Look at the pit, clear it, sign the sides.", rules=rules, **named
        )
    if stands.outside or stands.missing:
        return T_("%(site)s %(stage)s: a reading is missing or outside. Nothing recorded. Ask for a new one.", **named)
    return None


def _own(stage, site, sender, stands):
    """True where the releaser took one of the readings himself, or reported the stage."""
    by = {site.reading(name)[1].by for name in stage.wants if site.reading(name)[1] is not None} | {stands.reported.by}
    return bool(by & {sender.person.id, *sender.beside})


def _sides(form, site, sender, now):
    """The sides of the pit, signed for what is dug now, for one shift."""
    depth, entry = site.reading("pit_depth_m")
    value = form.get("value_m")
    named = {"site": site.code}
    if depth is None:
        return Answer(T_("%(site)s has no pit depth on record. Nothing recorded.", **named))
    if form.get("protection") is None:
        return Answer(T_("%(site)s: slope or support? Nothing recorded. Send: release %(site)s slope, or support, and the depth.", **named))
    if value is None or abs(value - max(depth)) > NEAR_M:
        return Answer(
            T_(
                "%(site)s: the depth on record is %(depth)s, entry #%(entry)s. Nothing recorded. Quote that depth.",
                depth=Length(max(depth)),
                entry=entry.number,
                **named,
            )
        )
    if entry.by in (sender.person.id, *sender.beside):
        return Answer(
            T_("%(site)s: the reading is your own, or of this number. Another competent person must sign. Nothing recorded.", **named)
        )
    stands = _stands(site, now)
    if set(stands) - set(form.get("looked", ())):
        return Answer(_not_looked(form, site, stands, now))
    until = now + SHIFT
    fields = {
        "stage": "sides",
        "protection": form.get("protection"),
        "value_m": max(depth),
        "soil": stops.soil_of(site),
        "until": until.isoformat(),
    }
    fields |= _besides(form, "sides")
    if stands:
        fields["looked_at"] = [entry.number for entry in stands.values()]
    said = {"what": PROTECTIONS[form.get("protection")], "depth": Length(max(depth)), "name": sender.name, "until": Clock(until, now)}
    head = foreman.head(site, T_("release"), site.next_number)
    text = T_(
        "sides with %(what)s, %(depth)s, signed by %(name)s until %(until)s. Rain, water, crack, soil change or 10 cm deeper ends it.",
        **said,
    )
    text += T_("Looked at: %(list)s.", list=_named(stands, now)) if stands else Text()
    signed = Entry("release", fields, "released", refers=entry.number)
    back = _setback(form, site.with_entries([signed], now, sender.person), now)
    alert = Alert("mason", lines([head, text, back or T_("Tied ladder, watcher on top, heap back. Look at the sides before each entry.")]))
    return Answer(lines([head, text, back, _rush(form)]), (signed,), (alert,))


def _stands(site, now):
    """The cracks and the water on record since the last release of the sides: name -> the entry that told of it."""
    known = stops.facts(site, Form("release"), now, stage="pit")  # men stand in it until it is filled
    wet = "seepage" if known.seepage else "water_in_pit_m"
    told = {"crack": ("crack", known.crack), "water": (wet, known.seepage or known.water_in_pit_m)}
    return {name: site.reading(field)[1] for name, (field, there) in told.items() if there}


def _named(stands, now):
    told = {name: {"number": entry.number, "time": Clock(entry.at, now), "name": entry.name} for name, entry in stands.items()}
    crack = [T_("crack #%(number)s %(time)s %(name)s", **told["crack"])] if "crack" in told else []
    water = [T_("water #%(number)s %(time)s %(name)s", **told["water"])] if "water" in told else []
    return Series((*crack, *water))


def _not_looked(form, site, stands, now):
    """Which dangers nobody says he looked at, and what to send once he did."""
    example = {"site": site.code, "what": form.get("protection"), "dangers": " ".join(stands)}
    return lines(
        [
            T_("%(site)s: %(list)s stands. Nothing recorded.", site=site.code, list=_named(stands, now)),
            T_("Look at it, nobody in. Then send: release %(site)s %(what)s n.nn m %(dangers)s checked.", **example),
        ]
    )


def _setback(form, site, now):
    """A slope is signed, but nothing says how far it goes back: that is still a STOP."""
    return stops.setback(stops.at(site, Form("release"), now)) if form.get("protection") == "slope" else Text()


def refuse(form, site, sender, now):
    stage = form.get("stage")
    title = STAGES[stage].title if stage in STAGES else T_("sides")
    head = foreman.head(site, T_("refused"), site.next_number)
    reason = T_("Reason: %(reason)s.", reason=form.get("reason")) if form.get("reason") else Text()
    text = lines([head, T_("%(stage)s by %(name)s.", stage=title, name=sender.name), reason])
    told = lines([text, T_("Work on it stops. Mend it, measure again, send the readings.")])
    return Answer(text, (Entry("refuse", {"stage": stage, "reason": form.get("reason", "")}, "refused"),), (Alert("mason", told),))


RELEASE = Kind(
    name="release",
    about=T_("Release: the supervisor releases a hold, with site and stage."),
    example=T_("release SITE dome"),
    cues=("act.release part", "act.release field.slope", "act.release"),
    grammar="release",
    roles=("supervisor",),
    answer=answer,
    private=True,
    proof=True,
    book="cases",
)
REFUSE = Kind(
    name="refuse",
    about=T_("Refuse: the supervisor refuses a stage, with the reason."),
    example=T_("refuse SITE dome"),
    cues=("act.refuse part", "act.refuse"),
    grammar="release",
    roles=("supervisor",),
    answer=refuse,
    private=True,
    proof=True,
)
