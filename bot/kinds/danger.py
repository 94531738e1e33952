"""Danger reported, or somebody who wants to go in: STOP first, the supervisors at once."""

from bot import stops
from bot.cautions import CAUTIONS, REFUSALS
from bot.forms import Alert, Answer, Entry, Kind
from bot.phrases import T_, Clock, Text, lines
from calc.facts import Facts
from calc.hazards import STOP, Hazard, judge

OWN = ("N2", "G1", "G2", "P2", "I3", "C2", "C1", "E7", "E8", "D5")  # rules for what people report in their own words
BUILT = ("dome", "wall", "outlet", "covers")
SPOTS = ("eye", "skin")
NO_DOME = ("site", "layout", *stops.OPEN)
OUTSIDE = {"dome": "dome", "pipe": "pipe", "outlet": "outlet", "pit": "pit"}


def heard(alarm, place, site, sender, now):
    """The Answer to danger words at a site, or to those of somebody without a site (`site` None)."""
    hazards = hazards_of(alarm, place, site)
    grave = stops.stops(hazards)
    first = (grave or hazards)[0]
    text = stops.said(first, site) if site else _plain(first)
    emergency = (
        site.rules.emergency_text
        if site and first.rule in ("N2", "G1", "I3", "C2", "L2", "X4") and "emergency" not in text.sentences[0][1]
        else ""
    )
    if emergency:
        text += T_("%(emergency)s", emergency=emergency)
    if site is None:
        return Answer(text, alerts=tuple(_to_all(sender, now, first)))
    said = {"site": site.code, "number": site.next_number, "time": Clock(now, now)}
    told = _told(place, sender, site, now, first, hazards)
    text += T_("Noted: %(site)s #%(number)s %(time)s. Alert sent to your supervisor. No answer yet.", **said)
    entry = Entry("danger", _fields(alarm, place), STOP, tuple(hazard.rule for hazard in hazards), held=stops.held(hazards))
    return Answer(text, (entry,), (Alert("supervisor", told),))


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
    return kept


def _told(place, sender, site, now, first, hazards):
    rules = ", ".join(hazard.rule for hazard in hazards if hazard.level == STOP) or first.rule
    said = {"site": site.code, "rules": rules, "time": Clock(now, now), "name": sender.name or sender.number}
    return (
        T_("ALERT %(site)s %(rules)s, sent %(time)s by %(name)s.", **said)
        + stops.said(first, site)
        + T_("Let no one go in. Call the site now.")
    )


def hazards_of(alarm, place, site):
    """The dangers in what was heard just now, the gravest first; a word without a rule of its own is X4."""
    told = {
        "person_down": "fall" in alarm,
        "gas_smell": "gas" in alarm,
        "symptom": "sick" in alarm and place not in SPOTS,
        "eye_splash": place == "eye",
        "wet_skin": place == "skin",
        "seepage": "water" in alarm,
        "dome_crack" if place in BUILT else "crack": "crack" in alarm,
    }
    reported = {name: True for name, heard in told.items() if heard}
    if "gas" in alarm:
        reported["place"] = OUTSIDE.get(place, "kitchen")
    stage = stops.stage_of(site) if site else None
    found = [hazard for hazard in judge(Facts(stage=stage, **reported)) if hazard.rule in OWN]
    if "child" in alarm and not any(hazard.rule == "N2" for hazard in found):
        found.append(Hazard("L2", STOP))
    if "fire" in alarm or not found:
        found.append(Hazard("X4", STOP))
    return tuple(found)


def _plain(hazard):
    return T_(CAUTIONS[hazard.rule].short, **({"emergency": "Shout for help."} if "%(emergency)s" in CAUTIONS[hazard.rule].short else {}))


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
    example="",
    cues=("act.enter", "act.ask_safe", "act.oxygen"),
    grammar="enter",
    roles=("mason", "supervisor", "farmer"),
    answer=enter,
)
