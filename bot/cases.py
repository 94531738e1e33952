"""What must be answered by somebody: said again, then to the deputy, then to the head of the programme, until one closes it.

A case is an armed timer of kind "case"; when it rings it is the turn of the next in the list. Who saw it and who closed
it, and why, stands in the log of the site.
"""

from datetime import datetime, timedelta

from bot import notices, outbox, stops
from bot.duty import duty_of
from bot.forms import NOW
from bot.kinds.answering import called
from bot.people import OFFICE
from bot.phrases import T_, Clock, lines
from calc.hazards import STOP, Hazard

CASE = "case"
LIFE = ("N2", "G1", "I3", "E7", "X4")  # a person down, gas, sickness, moving ground, a danger without a name: minutes count
WEEK = timedelta(days=7)
LAST = len(OFFICE)  # steps: told, told again, deputy, head; from then on the head alone, once a week, or a day where minutes count


def raised(entry):
    """(rules of the STOPs, or of all that held; whether there is a STOP; whether minutes count) of an entry."""
    grave = [rule for rule, level, _ in entry.held if level == STOP]
    rules = grave or [rule for rule, *_ in entry.held] or list(entry.cautions)
    return rules, bool(grave) or entry.verdict == "stop", bool(set(rules) & set(LIFE))


def opened(page, site, number, entry, sender, now):
    """Open the case of an entry, unless one for the same at the site is open; return its fields."""
    rules, stop, life = raised(entry)
    same = [row for row in of_site(page, site.code) if rules and set(rules) <= set(row["fields"]["rules"])]
    if same:
        return same[0]["fields"]
    duty, aware = duty_of(page.rules()), "supervisor" in sender.roles
    fields = {
        "entry": number,
        "kind": entry.kind,
        "rules": rules,
        "stop": stop,
        "life": life,
        "by": sender.name or sender.number,
        "at": now.isoformat(),
        "dangers": list(entry.fields.get("danger", ())),
        "step": 0,
        "seen": sender.name if aware else None,
    }
    due = now + (timedelta(hours=duty.head_h) if aware else _pause(duty, fields))
    outbox.arm(page, CASE, site.code, None, due if stop else duty.by_day(due, site.rules.zone), fields, f"{site.code} {number}")
    return fields


def of_site(page, code):
    """The open cases of a site, the oldest first."""
    return sorted(page.armed(CASE, site=code), key=lambda row: row["fields"]["entry"])


def _pause(duty, fields):
    """How long a case waits for the next step."""
    if fields["step"] == LAST:
        return timedelta(hours=duty.head_h) if fields["life"] else WEEK
    if fields["seen"] is not None:
        return timedelta(hours=duty.head_h)
    if fields["life"]:
        return timedelta(minutes=duty.life_min)
    return (timedelta(hours=duty.repeat_h), timedelta(minutes=duty.deputy_min), timedelta(hours=duty.head_h))[min(fields["step"], 2)]


def ring(page, row, now):
    """The next step of a case nobody has closed; return when the one behind it is due."""
    fields, site = dict(row["fields"]), page.site(row["site"])
    duty = duty_of(page.rules())
    fields["step"] = min(fields["step"] + 1, LAST)
    step = fields["step"] = max(fields["step"], 2) if fields["seen"] is not None else fields["step"]
    heard = OFFICE[: step + 1] if fields["life"] and step < LAST else (OFFICE[step - 1],)
    for role, person in _listeners(page, site.code, heard):
        text = outbox.fitted(_said(fields, site, now), outbox.reader(page, person, site))
        what = {"site": site.code, "case": {name: fields[name] for name in ("rules", "kind")}}
        notice = notices.notice(row, person)
        notices.tell(page, duty, person, role, text, notice, now, NOW, fields["stop"], fields["life"], what, again=True)
    page.keep_fields(row["id"], fields)
    after = now + _pause(duty, fields)
    return after if fields["stop"] else duty.by_day(after, site.rules.zone)


def _listeners(page, code, roles):
    """(role, person) of those who hear a case now; where nobody holds a role, of the next above it."""
    told = set()
    for role in roles:
        found = next(((each, people) for each in OFFICE[OFFICE.index(role) :] if (people := page.team(code, each))), (role, ()))
        for person in found[1]:
            if person.id not in told:
                told.add(person.id)
                yield found[0], person


def _said(fields, site, now):
    at = datetime.fromisoformat(fields["at"])
    said = {"site": site.code, "number": fields["entry"], "what": called(fields, True), "time": Clock(at, now), "name": fields["by"]}
    if fields["seen"] is None:
        head = T_("NO ANSWER yet: ALERT %(site)s #%(number)s %(what)s, sent %(time)s by %(name)s.", **said)
    else:
        head = T_("NOT CLOSED: ALERT %(site)s #%(number)s %(what)s, sent %(time)s by %(name)s.", **said)
        head += T_("Seen by %(name)s.", name=fields["seen"])
    return lines([head, _danger(fields, site), T_("Call the site. Then send: closed %(site)s #%(number)s, and what was done.", **said)])


def _danger(fields, site):
    """The short text of the gravest rule, as it held."""
    held = next((entry.held for entry in site.log if entry.number == fields["entry"]), ())
    found = next((Hazard(*each) for each in held if each[0] == fields["rules"][0]), None) if fields["rules"] else None
    return stops.said(found, site) if found else lines([])


# ---- what a message does to the cases of its site


def answered(page, site, number, entry, sender, now):
    """What an entry of somebody of the office does to the open cases: seen, closed, or answered by a release."""
    rows = of_site(page, site.code)
    if entry.kind == "seen":
        _saw(page, [row for row in rows if row["fields"]["entry"] in entry.fields["cases"]], sender, now)
    elif entry.kind == "refuse":
        _saw(page, rows, sender, now)
    elif entry.kind == "closed":
        outbox.disarm(page, CASE, about=f"{site.code} {entry.refers}")
    for done in entry.fields.get("answers", ()) if entry.kind == "release" else ():
        outbox.disarm(page, CASE, about=f"{site.code} {done}")


def _saw(page, rows, sender, now):
    duty = duty_of(page.rules())
    for row in rows:
        fields = row["fields"] | {"seen": sender.name}
        page.keep_fields(row["id"], fields)
        outbox.set_again(page, row, now + _pause(duty, fields))
