"""What goes out: a text becomes a row of the same transaction that writes the log; delivery starts from the row."""

from bot.phrases import Reader, segments
from calc.sources import EDITION


def reader(page, person, site=None):
    """For whom a text is worded: the person's language and units, the site's time or else the programme's."""
    zone = site.rules.zone if site else page.rules().get("zone", "UTC")
    return Reader(person.language, person.units, zone) if person else Reader(zone=zone)


def say(page, text, number, person, role, message, now, lane="now", buttons=(), file=None):
    """Queue a worded text for somebody, as part of the answer to a message.

    To the sender it goes back to `number`; where that is None, the way by which the person is reached is looked up.
    Buttons and a file (its path) go along where the channel carries them: the text must do without.
    """
    post = page.post
    channel, number = post.route(page, person, message, number) if post else (message.channel, number or person.number)
    count, encoding = segments(text)
    row = {
        "number": number,
        "person_id": person.id if person else None,
        "role": role,
        "channel": channel,
        "text": text,
        "segments": count,
        "encoding": encoding,
        "edition": EDITION,
        "due": now,
        "wire_id": message.wire_id,
        "lane": lane,
        "buttons": list(buttons),
        "file": file,
    }
    text_id, seq = page.say(**row)
    if post:
        post.hand_over(page, text_id, seq, row)
