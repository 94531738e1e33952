"""Which dangers of a message are left to be answered, before and after its forms had their say."""

from dataclasses import replace

from bot.forms import Understood
from bot.kinds import BY_NAME
from bot.people import may_send

TOLD = {"site", "crack", "seepage"}  # what is left of a reading that says no more than the danger itself


def unanswered(outcome):
    """The dangers heard that no form of the message answers by itself, nor names as looked at."""
    own = {heard for form in _forms(outcome) for heard in (*BY_NAME[form.kind].hears, *form.get("looked", ()))}
    return tuple(heard for heard in outcome.alarm if heard not in own)


def missed(outcome, answers):
    """The dangers that a form was to answer by itself and did not: their rule did not hold, or the form was refused."""
    held = {rule for answer in answers for entry in answer.entries for rule, *_ in entry.held}
    rules = {heard: rule for form in _forms(outcome) for heard, rule in BY_NAME[form.kind].hears.items() if rule}
    return tuple(heard for heard in outcome.alarm if heard in rules and rules[heard] not in held)


def without(outcome, heard, sender):
    """The message without the forms that say only what was heard, or that the sender may not send."""
    kept = (form for form in outcome.forms if not set(heard) & set(BY_NAME[form.kind].hears) or _more(form, sender))
    return replace(outcome, forms=tuple(kept))


def _more(form, sender):
    return not set(form.fields) <= TOLD and may_send(sender.roles, BY_NAME[form.kind].roles)


def _forms(outcome):
    return outcome.forms if isinstance(outcome, Understood) else ()
