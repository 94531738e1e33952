"""What a number alone does not prove is proven by a one-time code: a second number, a newcomer, a release by SMS."""

import secrets
from dataclasses import replace
from datetime import timedelta

from bot.forms import Answer, Code, Understood
from bot.kinds import BY_NAME
from bot.people import ROLES, called
from bot.phrases import T_

LASTS, DAY = timedelta(minutes=15), timedelta(days=1)
STRANGER, KNOWN = 5, 10  # wrong codes of one number in a day; after them none is tried any more
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
    """The message that a code confirms, to be answered as proven; None where there is none."""
    held = outcome.forms[0].get("held") if isinstance(outcome, Understood) else None
    if held is None or held["purpose"] != "confirm":
        return None
    page.use_code(held["id"])
    return replace(message, text=held["text"], proven=True)


def asked(answers, outcome, site, message):
    """The answers, or in place of one that would decide on a hold the code that confirms it, sent to the sender's own number."""
    entries = answers[-1].entries if isinstance(outcome, Understood) else ()
    if message.proven or not entries or not site.rules.confirm_by_sms or not _decides(outcome, entries, site):
        return answers
    code = digits()
    text = T_("%(site)s: nothing recorded yet. To confirm send: confirm %(code)s, within 15 minutes.", site=site.code, code=code)
    text += T_("You sent no %(what)s? Then send nothing and call your office at once.", what=T_(outcome.forms[-1].kind))
    whole = message.text if outcome.site else f"{site.code} {message.text}"
    return [*answers[:-1], Answer(text, changes=(("code", Code("confirm", code, LASTS, text=whole)),))]


def _decides(outcome, entries, site):
    """True for a decision, and for one that is taken back."""
    back = {entry.refers for entry in entries if entry.kind == "undo"}
    kinds = [form.kind for form in outcome.forms] + [entry.kind for entry in site.log if entry.number in back]
    return any(BY_NAME[kind].proof for kind in kinds if kind in BY_NAME)
