"""What goes out: a text becomes a row of the same transaction that writes the log; delivery starts from the row."""

from dataclasses import replace

from bot.phrases import SEGMENTS, Reader, segments, word
from calc.sources import EDITION


def reader(page, person, site=None):
    """For whom a text is worded: the person's language and units, the site's time or else the programme's."""
    zone = site.rules.zone if site else page.rules().get("zone", "UTC")
    return Reader(person.language, person.units, zone) if person else Reader(zone=zone)


def fitted(text, reader):
    """Return a text as its reader sees it; with lengths in one form where it would take too many messages in two."""
    worded = word(text, reader)
    return worded if segments(worded)[0] <= SEGMENTS else word(text, replace(reader, brief=True))


def say(page, text, number, person, role, message, now):
    """Queue a worded text for somebody, as part of the answer to a message."""
    count, encoding = segments(text)
    page.say(
        number=number,
        person_id=person.id if person else None,
        role=role,
        channel=message.channel,
        text=text,
        segments=count,
        encoding=encoding,
        edition=EDITION,
        due=now,
        wire_id=message.wire_id,
    )
