"""What is said where a message could not be answered: a fault of ours, or a long text of which a piece is missing."""

from dataclasses import asdict
from datetime import timedelta

from bot import outbox
from bot.channels import Inbound, Part
from bot.phrases import T_, word

FAILED = T_("STOP. The bot could not check this. Nothing was recorded. Act as if it were not checked. Call your supervisor.")
HALF = T_("Only a part of your long message came. Nothing saved. Send it again, shorter: under 160 letters.")


LONE = timedelta(minutes=10)  # the next piece of a long text has this long to come


def wait_for_the_rest(page, message, now):
    """The first piece of a long text has come: its sender is told if the others do not."""
    about = message.part.about(message)
    if not page.armed("lone", about=about):
        fields = {"channel": message.channel, "sender": message.sender, "wire_id": message.wire_id} | asdict(message.part)
        outbox.arm(page, "lone", None, None, now + LONE, fields, about)


def lone(page, row, now):
    """Tell the sender of a long text whose other pieces did not come that nothing was saved; the timer's work."""
    fields = row["fields"]
    part = Part(*(fields[name] for name in ("receiver", "ref", "total", "place")))
    message = Inbound(fields["channel"], fields["wire_id"], fields["sender"], "", part=part)
    newest = page.newest_part(message)
    if newest is not None and newest + LONE > now:  # more of it came meanwhile
        return newest + LONE
    person = page.person(number=message.sender)
    if page.drop_parts(message) and person is not None:
        outbox.say(page, word(HALF, outbox.reader(page, person)), message.sender, person, "known", message, now)
    return None


def failed(message, page, now):
    """The sender hears that nothing was recorded; the supervisors of his sites are told."""
    person = page.person(number=message.sender)
    role = "known" if person else "stranger"
    outbox.say(page, word(FAILED, outbox.reader(page, person)), message.back, person, role, message, now)
    told = {person.id} if person else set()
    for code in person.sites if person else ():
        fault = T_(
            "%(site)s: a message of %(name)s could not be answered by a fault of the bot. Ask what was sent.", site=code, name=person.name
        )
        for other in page.team(code, "supervisor"):
            if other.id not in told:
                told.add(other.id)
                outbox.say(page, word(fault, outbox.reader(page, other)), None, other, "supervisor", message, now)
