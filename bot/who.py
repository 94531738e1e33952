"""A number that several share: who of them writes, and what is asked where that is not said.

A name before or behind a text says it for that talk, "i am" and the name for a shift. Of all else it is asked, and what
was sent is carried out once that is answered.
"""

from dataclasses import replace
from datetime import datetime, timedelta

from bot.forms import Answer, Ask, Form, Sender, Unread
from bot.kinds import KINDS, danger
from bot.people import Person, called
from bot.phrases import T_, Text
from bot.questions import asked
from bot.reading.read import read
from bot.site import SHIFT

TALK = timedelta(minutes=15)
KEPT = 10  # texts of which it is asked at once; the oldest give way
NAMED = 3  # words of the longest name that is looked for
MARKS = ":,;-"  # behind a name they say that it is no part of the sentence
SELF = "who am i"  # what a bare name is answered as
NAMING = {"act.join", "act.admit"}  # behind these words stands the name of somebody else
AGAIN = T_("If you sent readings too, send them again, first your name and a colon.")


def writes(message, page, words, now):
    """Yield (person, message) for a message: one, or all those that waited for the name it brings; the person is None for a stranger.

    Where it is not said who writes the person is all of them together, without an id.
    """
    people = page.people_at(message.sender)
    if len(people) < 2:
        yield next(iter(people), None), _of_one(message, people, words)
        return
    before, until, waiting = page.speaker(message.sender)
    open_ = [row for row in waiting if now - datetime.fromisoformat(row["at"]) <= SHIFT]
    person, rest, lasts = (None, message.text, TALK) if message.broken else _said(message.text, people, words, bool(open_))
    if person is None:
        standing = next((each for each in people if each.id == before and until > now), None)
        yield standing or _together(people, message.sender), message
        return
    end = max(now + lasts, until) if person.id == before else now + lasts
    page.set_speaker(message.sender, person.id, end)
    for row in open_:
        yield person, replace(message, text=row["text"], photo=row["photo"], pressed=None)
    if rest or message.photo or not open_:
        yield person, replace(message, text=rest or ("" if message.photo else SELF))


def sender(person, message, page, code):
    """The Sender at a site, with those who write from the same number."""
    others = frozenset(each.id for each in page.people_at(message.sender) if person and each.id != person.id)
    return Sender(person, message.sender, person.at(code) if person and code else frozenset(), message.chat is not None, others)


def _of_one(message, people, words):
    """Somebody alone on his number may say who he is, too."""
    said = people and _claim(called(message.text), _calls(people), words)
    return replace(message, text=SELF) if said else message


def _said(text, people, words, open_):
    """(person, what is left of the text, how long it holds); the person is None where the text does not say."""
    calls, tokens = _calls(people), text.split()
    claimed = _claim(called(text), calls, words)
    if claimed:
        return claimed, "", SHIFT
    if open_ and text.strip(" .)").isdigit() and 0 < int(text.strip(" .)")) <= len(people):
        return people[int(text.strip(" .)")) - 1], "", TALK
    of_others = any(words.phrases.get((word,), frozenset()) & NAMING for word in called(text))
    for count in range(min(NAMED, len(tokens)), 0, -1):
        first, last = calls.get(called(" ".join(tokens[:count]))), calls.get(called(" ".join(tokens[-count:])))
        marked = tokens[count - 1][-1] in MARKS
        if first and (marked or not _alarms(text, words)):
            return first, " ".join(tokens[count:]), TALK
        if last and not of_others and not _alarms(text, words):
            return last, " ".join(tokens[:-count]), TALK
    return None, text, TALK


def _alarms(text, words):
    """True where a name may be that of somebody in danger: "kamla fell in the pit"."""
    return bool(read(text, KINDS, words).alarm)


def _claim(said, calls, words):
    """Who is named by "i am" and a name, and nothing else; or None."""
    return next((calls.get(said[count:]) for count in (1, 2, 3) if " ".join(said[:count]) in words.claims and said[count:]), None)


def _calls(people):
    """{words of a name: person}: whole names, and first names that only one of them has."""
    whole = {called(each.name): each for each in people}
    first = [called(each.name)[:1] for each in people]
    return {called(each.name)[:1]: each for each in people if first.count(called(each.name)[:1]) == 1} | whole


def _together(people, number):
    """All who share a number, as one: for what cannot wait until it is said who writes."""
    roles = tuple(dict.fromkeys(role for each in people for role in each.roles))
    name = " or ".join(each.name for each in people)
    return Person(None, name, "", number, people[0].language, people[0].units, roles)


def unknown(outcome, message, site, sender, page, now, answers):
    """([Answer], question) where nobody said who writes, else None: a danger is answered at once, else it is asked and the text kept.

    `answers(person)` are those that one of them would get, and the site: a STOP among them does not wait.
    """
    if sender.person.id is not None:
        return None
    if outcome.alarm:
        answer = danger.heard(outcome.alarm, outcome.place, site, sender, now)
        return [answer if isinstance(outcome, Unread) else replace(answer, then=(answer.then or Text()) + AGAIN)], None
    people = page.people_at(message.sender)
    waiting = [*page.speaker(message.sender)[2], {"text": message.text, "photo": message.photo, "at": now.isoformat()}]
    page.set_speaker(message.sender, None, None, waiting[-KEPT:])
    named = ", ".join(f"{place}) {each.name[:20]}" for place, each in enumerate(people, 1))
    question = Ask(None, "who_writes", {"people": named}, tuple(Form("who", {"id": each.id}) for each in people))
    stop = next(filter(None, (_stop(*answers(each)) for each in people)), None)
    return [replace(stop, then=asked(question)) if stop else Answer(asked(question))], question


def _stop(answers, code):
    """The first STOP among answers, with the alerts of it; or None."""
    for answer in answers:
        if answer.reply and str(answer.reply.sentences[0][0]).startswith("STOP"):
            alerts = (replace(alert, site=alert.site or code) for alert in answer.alerts if alert.role == "supervisor")
            return Answer(Text(answer.reply.sentences[:1]), alerts=tuple(alerts))
    return None
