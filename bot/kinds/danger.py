"""Danger reported, or somebody who wants to go in: STOP first, the supervisors at once."""

from bot import foreman, stops
from bot.cautions import CAUTIONS, REFUSALS
from bot.forms import Alert, Answer, Entry, Form, Kind
from bot.phrases import T_, Clock, Text, lines
from bot.titles import emergency
from calc.facts import Facts
from calc.hazards import STOP, WARN, Hazard, judge

OWN = ("N2", "G1", "G2", "P2", "I3", "C2", "C1", "E7", "E8", "D5")  # rules for what people report in their own words
BUILT = ("dome", "wall", "outlet", "covers", "plaster")
SPOTS = ("eye", "skin")
NOT_DUG = ("site", "layout")
NO_DOME = ("site", "layout", *stops.OPEN)
REPORTED = {  # what a word of danger tells, and the rules it may wake
    "inside": ({"inside": True}, ("N1", "I1")),
    "enter": ({"wants_entry": True}, ("N1", "I1")),
    "empty": ({"groundwater_above_floor": True, "wants_entry": True}, ("N1", "O3")),
    "light": ({"leak_check": "flame"}, ("T6",)),
    "coal": ({"flame_inside": True}, ("I2",)),
    "props": ({"strip_asked": True}, ("D1",)),
    "engine": ({"engine_in_pit": True}, ("E13",)),
    "press": ({"outlet_spilling": True}, ("G7",)),
    "heap": ({"spoil_edge_m": 0.0}, ("E10",)),
    "edge": ({"load_edge_m": 0.0}, ("E11",)),
    "vehicle": ({"load_edge_m": 0.0, "vehicle_near": True}, ("E11",)),
    "alone": ({"people_in_pit": 1, "watcher": False}, ("E17",)),
    "on_dome": ({"load_on_dome": True}, ("D4",)),
    "old_pit": ({"old_pit_m": 0.0}, ("P2",)),
    "line": ({"overhead_line_m": 0.0}, ("P4",)),
}
SLAB = T_("STOP. Cracked slab: do not lift it, nobody on it or under it. Guard the hole. Cast a new slab.")
WET = T_("Where water stands or floods no plant can be built: choose higher ground, ask your supervisor. No digging before.")
OUTSIDE = {"dome": "dome", "pipe": "pipe", "outlet": "outlet", "pit": "pit"}


def heard(alarm, place, site, sender, now):
    """The Answer to danger words at a site, or to those of somebody without a site (`site` None)."""
    if alarm == ("water",) and place == "ground" and site is not None and stops.stage_of(site) in NOT_DUG:
        return _wet_ground(site, sender, now)
    hazards = hazards_of(alarm, place, site)
    grave = stops.stops(hazards)
    first = (grave or hazards)[0]
    text = _said(first, alarm, place, site) if site else _plain(first)
    if site and first.rule in ("N2", "G1", "I3", "C2", "L2", "X4") and "emergency" not in text.sentences[0][1]:
        text += T_("%(emergency)s", emergency=emergency(site))
    if site is None:
        return Answer(text, alerts=tuple(_to_all(sender, now, first)))
    said = {"site": site.code, "number": site.next_number, "time": Clock(now, now)}
    told = _told(_said(first, alarm, place, site), sender, site, now, first, hazards)
    text += T_("Noted: %(site)s #%(number)s %(time)s.", **said) + _sent_to(sender, bool(grave))
    entry = Entry("danger", _fields(alarm, place), STOP, tuple(hazard.rule for hazard in hazards), held=stops.held(hazards))
    alerts = (Alert("supervisor", told),)
    if grave:
        ended = _ended(entry, site, sender, now)
        alerts += (Alert("mason", _said(first, alarm, place, site) + foreman.whence(site, sender, now) + ended, apart=True),)
    return Answer(text, (entry,), alerts)


def _sent_to(sender, grave):
    """Who hears of it; a supervisor has nobody above him to wait for."""
    if "supervisor" not in sender.roles:
        return T_("Alert sent to your supervisor. No answer yet.")
    return T_("Masons get this too. Call the site now.") if grave else T_("Call the site.")


def _ended(entry, site, sender, now):
    """That a release of the sides which stood until now is ended by what was reported, and that nobody goes in."""
    signed, after = stops.release(site), site.with_entries([entry], now, sender.person)
    if signed is None or _void(site, now, signed) or not _void(after, now, signed):
        return T_("Nobody in.") if stops.stage_of(site) in stops.OPEN else Text()
    return T_("Release #%(number)s ended. Nobody in.", number=signed.number)


def _void(site, now, signed):
    return stops.void_by(site, Form("danger"), now, signed, max(stops.deepest(site)[0], default=0.0))


def _said(first, alarm, place, site):
    """The short text of the gravest danger; a cracked cover slab has its own."""
    return SLAB if first.rule == "L2" and place == "covers" and "crack" in alarm else stops.said(first, site)


def _wet_ground(site, sender, now):
    """Water at a place where nothing is dug yet: no pit to leave, but no place for a plant."""
    said = {"site": site.code, "number": site.next_number, "time": Clock(now, now)}
    text = lines([WET, T_("Noted: %(site)s #%(number)s %(time)s.", **said), _sent_to(sender, False)])
    named = {"site": site.code, "time": Clock(now, now), "name": sender.name or sender.number}
    told = lines([T_("%(site)s, sent %(time)s by %(name)s: water stands or floods at this place.", **named), WET])
    return Answer(text, (Entry("danger", {"danger": ["water"], "place": "ground"}),), (Alert("supervisor", told),))


def _to_all(sender, now, first):
    """Alerts to the supervisors of every site of somebody who did not say at which one he is."""
    said = {"rule": first.rule, "time": Clock(now, now), "name": sender.name}
    for code in sender.person.sites if sender.person else ():
        told = T_("ALERT %(rule)s, sent %(time)s by %(name)s, site not said, maybe %(site)s. Call him now.", site=code, **said)
        yield Alert("supervisor", told, code)


def _fields(alarm, place):
    """What the log keeps; water and cracks end a release of the pit sides."""
    kept = {"danger": list(alarm), "place": place or ""}
    if "water" in alarm:
        kept["seepage"] = "yes"
    if "crack" in alarm and place not in BUILT:
        kept["crack"] = "yes"
    if "engine" in alarm:
        kept["engine_in_pit"] = "yes"
    near = {"heap": "spoil_edge_m", "old_pit": "old_pit_m", "line": "overhead_line_m"}
    return kept | {name: (0.0,) for kind, name in near.items() if kind in alarm}


def _told(text, sender, site, now, first, hazards):
    rules = ", ".join(hazard.rule for hazard in hazards if hazard.level == STOP) or first.rule
    said = {"site": site.code, "rules": rules, "time": Clock(now, now), "name": sender.name or sender.number}
    return (
        T_("ALERT %(site)s %(rules)s, sent %(time)s by %(name)s.", **said)
        + text
        + (T_("Let no one go in. Call the site now.") if stops.stops(hazards) else T_("Call the site."))
    )


def hazards_of(alarm, place, site):
    """The dangers in what was heard just now, the gravest first; a word without a rule of its own is X4."""
    stage, filled = (stops.stage_of(site), site.ever_filled) if site else (None, None)
    reported, wanted = _reported(alarm, place, filled), set(OWN)
    for kind in alarm:
        facts, rules = REPORTED.get(kind, ({}, ()))
        reported |= facts
        wanted.update(rules)
    found = [h for h in judge(Facts(stage=stage, slurry_ever_filled=filled, **reported)) if h.rule in wanted]
    found = [Hazard("I1", WARN) if h.rule == "I1" and stage in NO_DOME else h for h in found]
    return _with_own(found, alarm, place, stage)


def _with_own(found, alarm, place, stage):
    """The dangers found, and those that are no matter of facts: an opening, a prop taken away, a fire."""
    if "props" in alarm and stage in (None, *stops.OPEN):
        found = [Hazard("E3", STOP), *(hazard for hazard in found if hazard.rule != "D1")]
    if ("child" in alarm and not any(hazard.rule == "N2" for hazard in found)) or ("crack" in alarm and place == "covers"):
        found.append(Hazard("L2", STOP))
    if "fire" in alarm or not found:
        found.append(Hazard("X4", STOP))
    return tuple(found)


def _reported(alarm, place, filled):
    """The facts in the words of danger that depend on where they were said."""
    child = "child" in alarm and "inside" in alarm
    told = {
        "person_down": "fall" in alarm or child or ("inside" in alarm and filled is not False),
        "gas_smell": "gas" in alarm,
        "symptom": "sick" in alarm and place not in SPOTS,
        "eye_splash": place == "eye",
        "wet_skin": place == "skin",
        "seepage": "water" in alarm,
        "dome_crack" if place in BUILT else "crack": "crack" in alarm and place != "covers",
    }
    reported = {name: True for name, heard in told.items() if heard}
    if "gas" in alarm:
        reported["place"] = OUTSIDE.get(place, "kitchen")
    return reported


def _plain(hazard):
    return T_(CAUTIONS[hazard.rule].short, **({"emergency": emergency()} if "%(emergency)s" in CAUTIONS[hazard.rule].short else {}))


def enter(form, site, sender, now):
    """Somebody asks to go in, or whether he may begin: never an answer but what is missing or NEVER."""
    wants = {"wants_entry": True, "gas_reading": True if form.get("gas_reading") else None}
    told = ("N1", "N3", "E1", "E3", "E4", "E7", "E8", "E9", "X5") + (() if stops.stage_of(site) in NO_DOME else ("I1",))
    hazards = [h for h in stops.at(site, form, now, **wants) if h.rule in told]
    if not hazards:
        missing = Text() if site.ever_filled else T_("Send depth, ladder, watcher, soil, heap, people in the pit.")
        return Answer(lines([T_(REFUSALS["go_ahead"], fact=T_("what is not reported")), missing]))
    first, rest = hazards[0], hazards[1:]
    texts = [stops.said(first, site)] + [stops.said(hazard, site) for hazard in rest if hazard.rule == "N3"]
    said = {"site": site.code, "number": site.next_number, "time": Clock(now, now)}
    texts.append(T_("Noted: %(site)s #%(number)s %(time)s. The bot clears nobody to enter.", **said))
    fields = {name: value for name, value in form.fields.items() if name != "site"}
    entry = Entry("enter", fields, STOP, tuple(hazard.rule for hazard in hazards), held=stops.held(hazards))
    alert = T_(
        "ALERT %(site)s: %(name)s asks to go in, sent %(time)s. Told: do not.", site=site.code, name=sender.name, time=Clock(now, now)
    )
    return Answer(lines(texts), (entry,), (Alert("supervisor", alert),))


ENTER = Kind(
    name="enter",
    about=T_("Nobody goes into a used plant."),
    example=Text(),
    cues=("act.enter", "act.ask_safe", "act.oxygen"),
    grammar="enter",
    roles=("mason", "supervisor", "farmer"),
    answer=enter,
)
