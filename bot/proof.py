"""What a number alone does not prove is proven by a one-time code: a second number, a newcomer, a release by SMS."""

import json
import secrets
from dataclasses import replace
from datetime import timedelta

from bot import refusals
from bot.forms import Answer, Code, Understood
from bot.kinds import BY_NAME
from bot.people import ROLES, called
from bot.phrases import T_
from bot.questions import forms_of, rows
from bot.titles import ENTRIES

LASTS, DAY = timedelta(minutes=15), timedelta(days=1)
STRANGER, KNOWN = 5, 10  # wrong codes of one number in a day; after them none is tried any more
LOOKED_UP = ("fresh", "held", "owner", "ways", "across", "codes", "cases", "rush")  # what the book knows, not what the sender said
WRONG = "miscoded"  # state of a message that brought a wrong code


def digits():
    """A new code of six digits."""
    return str(100_000 + secrets.randbelow(900_000))


def spent(form, message, page, now, most=STRANGER):
    """True where a number has brought so many wrong codes in a day that no other one is tried."""
    return "code" in form.fields and page.count_from(message.sender, now - DAY, state=WRONG) >= most


def known(outcome, message, page, site, sender, now):
    """What was understood, with what the book knows about a code in it; where one is asked for, with a new one."""
    if not isinstance(outcome, Understood) or message.broken or (sender.person and sender.person.id is None):
        return outcome
    return replace(outcome, forms=tuple(_known(form, message, page, site, sender, now) for form in outcome.forms))


def _known(form, message, page, site, sender, now):
    kind, code = BY_NAME[form.kind], form.get("code")
    if kind.across == "codes":
        return replace(form, fields=form.fields | {"codes": page.codes()})
    if kind.across and sender.person:
        codes = [each for each in sender.person.sites if "supervisor" in sender.person.at(each)]
        return replace(form, fields=form.fields | {"across": tuple(page.site(each) for each in codes)})
    if kind.ways:
        return _reached(form, page, site, sender)
    purpose = kind.codes
    if purpose is None:
        return form
    if code is None:
        return replace(form, fields=form.fields | {"fresh": digits()})
    by = {"site": site and site.code} if purpose == "join" else {}
    by |= {"person_id": sender.person.id if sender.person else 0} if purpose == "confirm" else {}
    held = None if spent(form, message, page, now, KNOWN) else page.try_code(purpose, code, now, **by)
    if held is None:
        page.mark_inbound(message, WRONG)
    return replace(form, fields=form.fields | {"held": held, "owner": page.person(id=held["person_id"]) if held else None})


def _reached(form, page, site, sender):
    """The form with whom it is about, and by which ways he is reached: of the sender those beside the one known first."""
    if not form.get("name"):
        links = page.links(sender.person.id) if sender.person else ()
        return replace(form, fields=form.fields | {"owner": sender.person, "ways": links})
    named = [each for each in page.team(site.code, *ROLES) if set(called(form.get("name"))) <= set(called(each.name))] if site else []
    owner = named[0] if len(named) == 1 else None
    known = {"owner": owner, "ways": page.ways(owner), "lone": page.lone(owner)} if owner else {"owner": None, "ways": ()}
    return replace(form, fields=form.fields | known)


def carried(outcome, message, page):
    """(the message, what it said when it was sent) that a code confirms, to be answered as proven; None where there is none."""
    held = outcome.forms[0].get("held") if isinstance(outcome, Understood) else None
    if held is None or held["purpose"] != "confirm":
        return None
    page.use_code(held["id"])
    return replace(message, proven=True), _told(held["text"])


def asked(answers, outcome, site, sender, message, page):
    """The answers, or in place of one that would decide on a hold the code that confirms it, sent to the sender's own number.

    From a number that several share nothing is decided, and no code is given out by which it could be from another.
    """
    if not isinstance(outcome, Understood):
        return answers
    decides = _decides(outcome, answers[-1], site)
    if sender.beside and (decides or _gives_code(answers[-1], sender)):
        return [*answers[:-1], refusals.SHARED]
    if not decides:
        return answers
    wanted = site.rules.confirm_by_sms if site else page.rules().get("confirm_by_sms", True)
    if message.proven or not wanted:
        return answers
    code = digits()
    head = T_("%(site)s: nothing recorded yet.", site=site.code) if site else T_("Nothing changed yet.")
    text = head + T_("To confirm send: confirm %(code)s, within 15 minutes.", code=code)
    kind = outcome.forms[-1].kind
    text += T_("You sent no %(what)s? Then send nothing and call your office at once.", what=ENTRIES.get(kind) or T_(kind))
    return [*answers[:-1], Answer(text, changes=(("code", Code("confirm", code, LASTS, text=_kept(outcome.forms, site))),))]


def _kept(forms, site):
    """What was understood, as text: a message that answered a question does not say it all by itself."""
    said = [replace(form, fields={name: form.fields[name] for name in form.fields if name not in LOOKED_UP}) for form in forms]
    return json.dumps({"site": site and site.code, "forms": rows(said)})


def _told(text):
    """The Understood of what `_kept` kept."""
    held = json.loads(text)
    return Understood(forms_of(held["forms"]), site=held["site"])


def _decides(outcome, answer, site):
    """True for a decision that would be recorded or carried out, and for one that is taken back."""
    if not answer.entries and not answer.changes:
        return False
    back = {entry.refers for entry in answer.entries if entry.kind == "undo"}
    kinds = [form.kind for form in outcome.forms] + [entry.kind for entry in (site.log if back else ()) if entry.number in back]
    return any(BY_NAME[kind].proof for kind in kinds if kind in BY_NAME)


def _gives_code(answer, sender):
    """True where a supervisor would be given a code, to be read by whoever holds the phone."""
    return any(what == "code" for what, _ in answer.changes) and any(role == "supervisor" for _, role in sender.person.roles)
