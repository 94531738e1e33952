"""Danger reported, or somebody who wants to go in: STOP first, the supervisors at once."""

from bot import stops
from bot.cautions import CAUTIONS, REFUSALS
from bot.forms import Alert, Answer, Entry, Form, Kind
from bot.phrases import T_, Clock, Text, lines
from calc.hazards import STOP, Hazard, judge

BUILT = ("dome", "wall", "outlet", "covers")
OUTSIDE = {"dome": "dome", "pipe": "pipe", "outlet": "outlet", "pit": "pit"}


def heard(alarm, place, site, sender, now):
    """The Answer to danger words at a site, or to those of somebody without a site (`site` None)."""
    hazards = hazards_of(alarm, place, site, now)
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
        return Answer(text)
    said = {"site": site.code, "number": site.next_number, "time": Clock(now, now)}
    told = _told(place, sender, site, now, first, hazards)
    text += T_("Noted: %(site)s #%(number)s %(time)s. Alert sent to your supervisor. No answer yet.", **said)
    entry = Entry("danger", _fields(alarm, place), STOP, tuple(hazard.rule for hazard in hazards))
    return Answer(text, (entry,), (Alert("supervisor", told),))


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


def hazards_of(alarm, place, site, now):
    """The dangers in what was heard, the gravest first; a word without a rule of its own is X4."""
    told = {
        "person_down": "fall" in alarm or None,
        "gas_smell": "gas" in alarm or None,
        "symptom": "sick" in alarm and place != "eye" or None,
        "eye_splash": place == "eye" or None,
        "seepage": "water" in alarm or None,
        "place": OUTSIDE.get(place, "kitchen") if "gas" in alarm else None,
    }
    told["dome_crack" if place in BUILT else "crack"] = "crack" in alarm or None
    if site is None:
        from calc.facts import Facts

        found = judge(Facts(**{name: value for name, value in told.items() if value is not None}))
    else:
        found = stops.at(site, Form("danger"), now, **{name: value for name, value in told.items() if value is not None})
    own = {"N2", "G1", "G2", "P2", "I3", "C2", "E7", "E8", "D5"}
    named = [hazard for hazard in found if hazard.rule in own]
    if "child" in alarm and not any(hazard.rule == "N2" for hazard in named):
        named.append(Hazard("L2", STOP))
    if "fire" in alarm or not named:
        named.append(Hazard("X4", STOP))
    return tuple(named)


def _plain(hazard):
    return T_(CAUTIONS[hazard.rule].short, **({"emergency": "Shout for help."} if "%(emergency)s" in CAUTIONS[hazard.rule].short else {}))


def enter(form, site, sender, now):
    """Somebody asks to go in, or whether he may begin: never an answer but what is missing or NEVER."""
    wants = {"wants_entry": True, "gas_reading": True if form.get("gas_reading") else None}
    hazards = [h for h in stops.at(site, form, now, **wants) if h.rule in ("N1", "N3", "I1", "E1", "E3", "E4", "E7", "E8", "E9", "X5")]
    if not hazards:
        missing = Text() if site.ever_filled else T_("Send depth, ladder, watcher, soil, heap, people in the pit.")
        return Answer(lines([T_(REFUSALS["go_ahead"], fact=T_("what is not reported")), missing]))
    first, rest = hazards[0], hazards[1:]
    texts = [stops.said(first, site)] + [stops.said(hazard, site) for hazard in rest if hazard.rule == "N3"]
    said = {"site": site.code, "number": site.next_number, "time": Clock(now, now)}
    texts.append(T_("Noted: %(site)s #%(number)s %(time)s. The bot clears nobody to enter.", **said))
    fields = {name: value for name, value in form.fields.items() if name != "site"}
    entry = Entry("enter", fields, STOP, tuple(hazard.rule for hazard in hazards))
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
