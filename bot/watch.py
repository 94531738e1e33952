"""What the office is to hear of a message, and when: alarms opened and answered, reminders set, what LIST and SEEN ask of the book."""

from dataclasses import replace
from datetime import timedelta

from bot import cases, contacts, notices, outbox, reminders, roundup
from bot.duty import duty_of
from bot.forms import NOW, Alert, Form, Understood
from bot.kinds import BY_NAME
from bot.kinds.answering import CLOSED
from bot.people import OFFICE
from bot.phrases import T_, Clock, lines
from bot.stages import HOLD, STAGES
from bot.titles import TITLES, entry_title
from calc.checks import OUTSIDE

TESTS = ("water_test", "gas_test", "pipe_test")  # one that fails is told at once; another reading once it was measured again
READ_AT_HOLDS = {kind for stage in STAGES.values() if stage.hold == HOLD for kind in stage.kinds}
DIGEST = "digest"
RINGS = {
    cases.CASE: cases.ring,
    notices.LATER: notices.ring_later,
    notices.FOLD: notices.ring_fold,
    notices.TALLY: lambda page, row, now: None,
    reminders.WET: reminders.ring_wet,
    reminders.AGAIN: reminders.ring_again,
    reminders.OVER: reminders.ring_over,
    reminders.QUIET: reminders.ring_quiet,
    DIGEST: roundup.ring,
}


def begin(page, now):
    """Set the digest going, where it is not."""
    if page.alone(DIGEST) and not page.armed(DIGEST):
        rules = page.rules()
        outbox.arm(page, DIGEST, None, None, duty_of(rules).next_digest(now, rules.get("zone", "UTC")), {})


# ---- what a message does


def spread(answers, number, site, sender, message, page, now):
    """Tell the others what the answers of a message have for them, and set and call off what follows; `number` is its first entry's."""
    if site is None:
        for alert in (alert for answer in answers for alert in answer.alerts):
            _tell_all(alert, None, site, sender, message, page, now)
        return
    entries = list(enumerate((entry for answer in answers for entry in answer.entries), number))
    for answer in answers:
        own, entries_of = list(answer.alerts), list(enumerate(answer.entries, number))
        kept = _kept(entries_of, site, sender, now)
        if kept is not None and not any(alert.grade == NOW for alert in own):
            own.append(kept)
        case = None
        for alert in own:
            if alert.grade == NOW and case is None and entries_of and alert.site in (None, site.code):
                at, entry = next((each for each in entries_of if each[1].held or each[1].verdict == OUTSIDE), entries_of[0])
                case = cases.opened(page, site, at, entry, sender, now)
            _tell_all(alert, case, site, sender, message, page, now)
        number += len(answer.entries)
    for at, entry in entries:
        cases.answered(page, site, at, entry, sender, now)
    if entries:
        reminders.followed(page, site.with_entries([entry for _, entry in entries], now, sender.person), entries, now)


def _tell_all(alert, case, site, sender, message, page, now):
    """Say an alert to everybody it is for: never back to the sender."""
    code, duty = alert.site or site.code, duty_of(page.rules())
    grave = alert.grade == NOW and (case is None or case["stop"])
    life = alert.grade == NOW and (case is None or case["life"])
    what = {"site": code, "case": case and {name: case[name] for name in ("rules", "kind")}}
    for other in page.team(code, alert.role):
        if (sender.person is None or other.id != sender.person.id) and not (alert.apart and other.id in sender.beside):
            text = outbox.fitted(alert.text, outbox.reader(page, other, site), contacts.named(alert.text, site))
            notices.tell(page, duty, other, alert.role, text, message, now, alert.grade, grave, life, what)


def _kept(entries, site, sender, now):
    """The Alert of a reading at a hold that is outside though it was measured again, or of a test that failed; else None."""
    number, entry = next((each for each in entries if each[1].kind in READ_AT_HOLDS and each[1].verdict == OUTSIDE), (None, None))
    if entry is None:
        return None
    before = next((each for each in reversed(site.live) if each.kind == entry.kind), None)
    if entry.kind not in TESTS and (
        before is None or before.verdict != OUTSIDE or not set(TITLES) & set(before.fields) & set(entry.fields)
    ):
        return None
    said = {"site": site.code, "number": number, "what": entry_title(entry), "time": Clock(now, now), "name": sender.name}
    text = T_("ALERT %(site)s #%(number)s %(what)s: outside, sent %(time)s by %(name)s.", **said)
    if entry.kind not in TESTS:
        text += T_("It was measured again and stays so.")
    return Alert(
        "supervisor", lines([text, T_("Call the site. Then send: closed %(site)s #%(number)s, and what was done.", **said)]), grade=NOW
    )


# ---- what a kind asks of the book


def known(outcome, page, site, sender, now):
    """What was understood, with what the book knows of it."""
    if not isinstance(outcome, Understood) or sender.person is None:
        return outcome
    forms = tuple(_known(form, page, site, sender, now) for form in outcome.forms)
    if set(sender.roles) & set(OFFICE):
        forms = tuple(_about(form, outcome.alarm) for form in forms)
    return replace(outcome, forms=forms)


def _about(form, alarm):
    """Who closes an alarm names its danger once more: that is none that was just seen."""
    named = {danger for case in form.get("cases", ()) for danger in case["dangers"]} & set(alarm)
    closing = form.kind == CLOSED.name and named
    return replace(form, fields=form.fields | {"looked": tuple(sorted(named))}) if closing else form


def _known(form, page, site, sender, now):
    wants = BY_NAME[form.kind].book
    if wants is None:
        return form
    if wants == "looks":
        return _list(form, page, sender, now)
    rush = page.released(sender.person.id, now - timedelta(seconds=duty_of(page.rules()).releases_within_s))
    found = [row["fields"] for row in cases.of_site(page, site.code)] if site else []
    return replace(form, fields=form.fields | {"cases": found, "rush": rush})


def _list(form, page, sender, now):
    """LIST for the office: its sites as they stand; for others the list of what to buy."""
    codes = tuple(dict.fromkeys(code for code, role in sender.person.roles if role in OFFICE))
    if not codes:
        return Form("buy", {name: value for name, value in form.fields.items() if name == "site"} | {"item": "all"})
    return replace(form, fields=form.fields | {"found": roundup.found(page, codes, now)})
