"""What others hear of a message: at once, in the morning, with the next digest, or folded into one text.

Of texts that somebody of the office did not ask for he gets so many a day; a person down or moving ground is never held
back. What was folded is among the open cases, so the next digest and LIST name it first.
"""

from dataclasses import replace

from bot import outbox
from bot.channels import Inbound
from bot.duty import duty_of, next_at
from bot.forms import COUNT, NOW, SIGN
from bot.kinds.answering import called
from bot.letters import segments
from bot.people import OFFICE, channel_of
from bot.phrases import T_, Series, word

LATER, TALLY, FOLD = "later", "tally", "fold"
MIDNIGHT = ("00:00",)


def notice(row, person):
    """A message of our own, sent because a timer rang."""
    return Inbound(channel_of(person.number), f"timer:{row['id']}:{row['gen']}:{row['due']:%y%m%d%H%M}", person.number, "")


def tell(page, duty, person, role, text, message, now, grade="", grave=False, life=False, what=None, again=False):
    """Say a worded text to somebody who did not ask for it, or keep it for later; True where it went out now."""
    zone = page.rules().get("zone", "UTC")
    office = role in OFFICE
    if grade == COUNT and office and len(supervised(person)) > duty.stage_texts_up_to_sites:
        return False
    if duty.quiet(now, zone) and not (grave or "STOP" in text):
        if grade != SIGN:  # one that waits to be signed opens the digest of the morning
            _later(page, person, role, text, message, duty.by_day(now, zone))
        return False
    if office and not _room(page, duty, person, now, zone, grade == NOW and not again, life):
        _folded(page, duty, person, role, text, message, now, zone, grade, grave, what)
        return False
    outbox.say(page, text, None, person, role, message, now)
    return True


def supervised(person):
    """The codes of the sites somebody supervises."""
    return tuple(code for code, role in person.roles if role == "supervisor")


def _later(page, person, role, text, message, due, digest=False):
    outbox.arm(page, LATER, None, person, due, {"text": text, "role": role, "channel": message.channel, "digest": digest})


def ring_later(page, row, now):
    """Say what was kept for the morning or for the digest."""
    person, told = page.person(id=row["person_id"]), row["fields"]
    message = replace(notice(row, person), channel=told["channel"])
    if told["digest"]:
        outbox.say(page, told["text"], None, person, told["role"], message, now)
    else:
        tell(page, duty_of(page.rules()), person, told["role"], told["text"], message, now)


# ---- how many a day


def _today(page, person, now, zone):
    """(timer, fields) of what somebody was told today without asking."""
    page.turn(f"tally {person.id}")
    row = next(iter(page.armed(TALLY, person_id=person.id)), None)
    if row is None or row["due"] <= now:
        if row is not None:
            outbox.disarm(page, TALLY, person_id=person.id)
        fields = {"told": 0, "plain": 0, "folded": [], "gathers": False}
        return outbox.arm(page, TALLY, None, person, next_at(now, MIDNIGHT, zone), fields), fields
    return row["id"], row["fields"]


def _room(page, duty, person, now, zone, pressing, life):
    """Count one text; False where the day's number is reached. The last is for the text that folds, half for what is new and presses."""
    timer_id, fields = _today(page, person, now, zone)
    most = duty.interrupts_a_day - 1
    if not life and (fields["told"] >= most or (not pressing and fields["plain"] >= most // 2)):
        return False
    page.keep_fields(timer_id, fields | {"told": fields["told"] + 1, "plain": fields["plain"] + (not pressing)})
    return True


def _folded(page, duty, person, role, text, message, now, zone, grade, grave, what):
    """Keep what does not go out: alarms are gathered into one text, a release waits for the digest as all do."""
    if grade == NOW:
        timer_id, fields = _today(page, person, now, zone)
        page.keep_fields(timer_id, fields | {"folded": [*fields["folded"], what], "gathers": True})
        due = now + duty.fold if grave else duty.by_day(now + duty.fold, zone)
        _gathered(page, person, fields["gathers"], due, {"role": role, "channel": message.channel, "grave": grave})
    elif grade != SIGN:
        _later(page, person, role, text, message, duty.next_digest(now, zone), True)


def _gathered(page, person, gathers, due, fields):
    """Set the text that folds, once a day; a STOP does not wait for the morning with the rest."""
    waits = next(iter(page.armed(FOLD, person_id=person.id)), None)
    if gathers and (waits is None or not fields["grave"]):
        return
    if waits is not None:
        due = min(due, waits["due"])
        outbox.disarm(page, FOLD, person_id=person.id)
    outbox.arm(page, FOLD, None, person, due, fields)


def ring_fold(page, row, now):
    """One text for all that was over the day's number."""
    person = page.person(id=row["person_id"])
    timer_id, fields = _today(page, person, now, page.rules().get("zone", "UTC"))
    folded = [each for at, each in enumerate(fields["folded"]) if each not in fields["folded"][:at]]
    if not folded:
        return
    page.keep_fields(timer_id, fields | {"told": fields["told"] + 1})
    message = replace(notice(row, person), channel=row["fields"]["channel"])
    text = _more(folded, outbox.reader(page, person), row["fields"].get("grave"))
    outbox.say(page, text, None, person, row["fields"]["role"], message, now)


def _more(folded, reader, grave):
    """How many more there are, and as many of them by name as one text bears; that a STOP is among them comes first."""
    for count in range(len(folded), 0, -1):
        named = Series(tuple(T_("%(site)s %(what)s", site=each["site"], what=called(each["case"])) for each in folded[:count]))
        said = {"count": len(folded), "list": named}
        text = T_("%(count)s more, STOP among them, no text for each: %(list)s. Send LIST.", **said)
        text = word(text if grave else T_("%(count)s more, no text for each: %(list)s. Send LIST.", **said), reader)
        if segments(text)[0] <= 1:
            return text
    return text
