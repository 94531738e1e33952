"""What somebody unknown is answered: dangers always, joining and codes, of all else that he is not known, once a day."""

from datetime import timedelta

from bot import proof
from bot.beside import HALF
from bot.forms import Answer, Understood
from bot.kinds import BY_NAME, danger
from bot.phrases import T_

DAY = timedelta(days=1)
ANSWERS, ALARMS, FORMS = 1, 30, 20  # a day
UNKNOWN = T_("This number is not known here. Send: join, the site code, what you are, your name.")
WAITS = T_("Your supervisor has not admitted you yet. Nothing saved.")


def answered(outcome, site, sender, message, page, now):
    """The answers to somebody who is not known or not admitted yet; none where he has had as many as he may have."""
    sent = page.count_from(message.sender, now - DAY)
    form = outcome.forms[0] if isinstance(outcome, Understood) else None
    if outcome.alarm and sent <= ALARMS:
        return [danger.heard(outcome.alarm, outcome.place, site, sender, now)]
    if form is not None and sent <= FORMS and _may_ask(form, site) and not proof.spent(form, message, page, now):
        if message.broken:
            return [Answer(HALF)]
        (form,) = proof.known(outcome, message, page, site, sender, now).forms
        return [BY_NAME[form.kind].answer(form, site, sender, now)]
    return [Answer(WAITS if sender.person else UNKNOWN)] if sent <= ANSWERS else []


def _may_ask(form, site):
    """True for what somebody unknown may ask for: to join a site, or to be known by a code he brings."""
    return (form.kind == "join" and site is not None) or (form.kind == "link" and "code" in form.fields)
