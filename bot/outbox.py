"""What goes out, now or later: a text or a timer becomes a row of the same transaction that writes the log."""

from dataclasses import replace

from bot.letters import SEGMENTS, segments
from bot.people import OFF
from bot.phrases import Reader, Text, word
from bot.tongue import chain, lengthy
from calc.sources import EDITION


def reader(page, person, site=None):
    """For whom a text is worded: the person's language and units, the site's time or else the programme's."""
    zone = site.rules.zone if site else page.rules().get("zone", "UTC")
    return Reader(person.language, person.units, zone) if person else Reader(zone=zone)


def fitted(text, reader, more=Text()):
    """Return a text as its reader sees it: with lengths in one form where two take too many messages, or in the next language.

    What may be left away for room, `more`, stands behind it where it fits. Where all that is too long its end is left away.
    """
    for language in chain(reader.language):
        for brief in (False, True):
            own = replace(reader, language=language, brief=brief)
            worded = word(text, own)
            if segments(worded)[0] <= SEGMENTS:
                lengthy[reader.language] += language != reader.language
                return ended(worded, more, own)
    if len(text.sentences) > 1:  # what is said first stays: the danger, the stage, the reading nearest to it
        return fitted(Text(text.sentences[:-1]), reader)
    return worded


def ended(worded, more, reader):
    """A worded text with what may be left away, where both fit."""
    whole = f"{worded} {word(more, reader)}" if more else worded
    return whole if segments(whole)[0] <= SEGMENTS else worded


def say(page, text, number, person, role, message, now, lane="now", buttons=(), file=None):
    """Queue a worded text for somebody, as part of the answer to a message.

    To the sender it goes back to `number`; where that is None, the way by which the person is reached is looked up.
    Buttons and a file (its path) go along where the channel carries them: the text must do without.
    """
    post = page.post
    channel, number = post.route(page, person, message, number) if post else (message.channel, number or person.number)
    if number.startswith(OFF):
        return
    text = _addressed(text, person, number, page)
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
    text_id = page.say(**row)
    if post:
        post.hand_over(page, text_id, row)


def tell_supervisors(page, people, note, message, now):
    """Queue a note for the supervisors of the sites of somebody, once for each of them; `note` makes it of name and site."""
    told = {person.id for person in people}
    for person in people:
        for code in person.sites:
            for other in page.team(code, "supervisor"):
                if other.id not in told:
                    told.add(other.id)
                    say(page, fitted(note(person.name, code), reader(page, other)), None, other, "supervisor", message, now)


def moved(page, person, number, message, now):
    """Send what still waits for a number that is not a person's any more by another way of his, if he has one; return how many.

    What answers the message itself goes where it came from: who asked for it hears what became of it.
    """
    waiting = page.withdraw(person.id, number, message.wire_id)
    for row in waiting:
        if page.ways(person):
            say(page, row["text"], None, person, row["role"], message, now, row["lane"], file=row["file"])
    return len(waiting)


def _addressed(text, person, number, page):
    """A text with the name in front where others read it on the same phone, if it still fits."""
    own = person and person.id and not text.startswith(f"{person.name}: ")
    named = f"{person.name}: {text}" if own and len(page.people_at(number)) > 1 else text
    return named if segments(named)[0] <= SEGMENTS else text


def arm(page, kind, site, person, due, fields, about=None):
    """Set a timer, as part of the answer to a message; return its id. `about` names what it is for, to call it off by."""
    post = page.post
    values = {"kind": kind, "site": site, "person_id": person and person.id, "due": due, "fields": fields, "about": about}
    timer_id = page.new_timer(gen=1 if post else 0, **values)
    if post:
        post.alarm(page, timer_id, 1, due)
    return timer_id


def disarm(page, kind, **by):
    """Call off the timers of a kind with this site, person_id or about, as part of the answer to a message."""
    return page.disarm(kind, **by)


def set_again(page, row, due):
    """Arm the next generation of a timer."""
    if page.post:
        page.rearm(row["id"], row["gen"] + 1, due)
        page.post.alarm(page, row["id"], row["gen"] + 1, due)
    else:
        page.rearm(row["id"], 0, due)  # the next process with an engine takes it over
