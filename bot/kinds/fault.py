"""Finding a fault: one question at a time, yes or no; the supervisor is told where it ends without a find."""

from bot import foreman, stops
from bot.faults import FAULTS
from bot.forms import Alert, Answer, Ask, Entry, Form, Kind
from bot.phrases import T_, Text, lines


def answer(form, site, sender, now):
    symptom, step = form.get("symptom"), form.get("step", 0)
    fault = FAULTS[symptom]
    if form.get("found") == "yes":
        return _found(fault, form, site, sender, now)
    if form.get("found") == "no":
        step += 1
    if step >= len(fault.looks):
        return _nothing(fault, form, site, sender)
    hazards = stops.at(site, form, now, **dict(fault.facts)) if form.get("found") is None else ()
    caution, rules = stops.reminder(hazards, site, now, fault.about) if fault.about else (Text(), ())
    said = {"look": step + 1, "all": len(fault.looks), "ask": fault.looks[step].ask}
    text = T_("Look %(look)s of %(all)s: %(ask)s Send YES or NO.", **said)
    entry = Entry("fault", {"symptom": symptom, "step": step}, None, rules)
    return Answer(lines([_head(fault, site), caution, text]), (entry,), question=_question(symptom, step))


def _question(symptom, step):
    options = tuple(Form("fault", {"symptom": symptom, "step": step, "found": found}) for found in ("yes", "no"))
    return Ask("fault", "yes_no", {}, options)


def _head(fault, site):
    return foreman.head(site, fault.title, site.next_number)


def _found(fault, form, site, sender, now):
    look = fault.looks[form.get("step")]
    told = (_told(fault, site, sender, look.ask),) if look.call else ()
    hazards = stops.at(site, form, now, **dict(look.facts)) if look.facts else ()
    stop, rules = stops.opening(tuple(h for h in hazards if h.rule[0] in fault.about), site)
    entry = Entry("fault", form.fields, None, rules, held=stops.held(hazards))
    return Answer(lines([stop, _head(fault, site), look.found]), (entry,), told)


def _nothing(fault, form, site, sender):
    text = T_("Nothing found. Your supervisor is told; call him. Nobody opens the plant.")
    return Answer(lines([_head(fault, site), text]), (Entry("fault", form.fields),), (_told(fault, site, sender, Text()),))


def _told(fault, site, sender, look):
    said = {"site": site.code, "fault": fault.title, "name": sender.name}
    found = T_("Found: %(look)s", look=look) if look else T_("No cause found.")
    return Alert("supervisor", T_("%(site)s FAULT %(fault)s, by %(name)s.", **said) + found + T_("Call him."))


KIND = Kind(
    name="fault",
    about=T_("Fault: no gas, flame weak, pressure low, scum: what to look at."),
    example=T_("no gas"),
    cues=("fault -number -act.vent",),
    grammar="fault",
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
