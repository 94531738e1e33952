"""What is said where a message could not be answered by a fault of ours."""

from bot import outbox
from bot.phrases import T_

FAILED = T_("STOP. The bot could not check this. Nothing was recorded. Act as if it were not checked. Call your supervisor.")


def failed(message, page, now):
    """The sender hears that nothing was recorded; the supervisors of his sites are told."""
    people = page.people_at(message.sender)
    person = _one(people)
    role = "known" if people else "stranger"
    outbox.say(page, outbox.fitted(FAILED, outbox.reader(page, person)), message.back, person, role, message, now)
    outbox.tell_supervisors(page, people, _fault, message, now)


def _fault(name, code):
    return T_("%(site)s: a message of %(name)s could not be answered by a fault of the bot. Ask what was sent.", site=code, name=name)


def _one(people):
    """Who is spoken to: nobody by name where several read it."""
    return people[0] if len(people) == 1 else None
