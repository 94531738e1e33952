"""What becomes of a text that does not arrive by its way: it goes by another, or somebody is told to call."""

from datetime import timedelta

from bot import outbox
from bot.channels import Inbound
from bot.phrases import T_

URGENT = timedelta(minutes=5)


def lost(page, row, channels, why, now):
    """It will not arrive by this way: it goes by the next one of his, once; where there is none his supervisors hear."""
    if not _elsewhere(page, row, channels, now):
        missed(page, row, why, now)


def urge(page, row, channels, now):
    """A STOP that a way has not taken for some minutes goes by the next one as well, also one that waits behind this text."""
    for late in page.overdue(row, "STOP", now - URGENT):
        _elsewhere(page, late, channels, now)


def _elsewhere(page, row, channels, now):
    """Queue a text for the way behind its own, among those by which a person is reached; False where there is none."""
    person = page.person(id=row["person_id"]) if row["person_id"] else None
    ways = [way for way in page.ways(person) if way[0] in channels] if person else []
    behind = ways[1 + next((at for at, (_, number) in enumerate(ways) if number == row["number"]), len(ways)) :]
    if not behind:
        return False
    channel, number = behind[0]
    if not page.sent_too(row, number):
        notice = Inbound(channel, row["wire_id"], number, "")
        outbox.say(page, row["text"], number, person, row["role"], notice, now, row["lane"], file=row["file"])
    return True


def missed(page, row, why, now):
    """Tell the supervisors of somebody's sites that nothing reaches him; one alert a day about one person."""
    person = page.person(id=row["person_id"]) if row["person_id"] else None
    if person is None:
        return
    notice = Inbound(row["channel"], f"missed:{person.id}:{now:%Y-%m-%d}", row["number"], "")
    if page.queued_ever(notice.channel, notice.wire_id):
        return

    def note(name, code):
        return T_("%(site)s: no text reaches %(name)s: %(why)s. Call him.", site=code, name=name, why=why[:60])

    outbox.tell_supervisors(page, (person,), note, notice, now)
