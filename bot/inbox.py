"""One inbound message, from the wire to its committed answer: the road, read from top to bottom.

receive - land - recognise - read - permit - answer - word - record; sending comes after the commit, elsewhere.
"""

import logging
from dataclasses import dataclass, replace

from bot import alarms, beside, changes, contacts, mishap, outbox, papers, proof, questions, quiet, refusals, strangers, watch, who
from bot.channels import assembled
from bot.codebook import Spent
from bot.forms import Answer, Ask, Confirm, Understood, Unread
from bot.kinds import BY_NAME, KINDS, danger
from bot.letters import SEGMENTS, segments
from bot.logbook import Unavailable
from bot.people import ROLES, may_send
from bot.phrases import T_, Text, joined, show, word
from bot.reading.own import added
from bot.reading.read import read
from bot.reading.things import Hints
from bot.reading.tongues import spoken
from bot.site import SHIFT
from bot.stages import ranges
from calc.errors import CalcError
from calc.sources import EDITION

log = logging.getLogger("pegline")


@dataclass(frozen=True)
class Taken:
    """What became of a message: whether it was new, and what was understood."""

    landed: bool
    outcome: object = None
    failed: bool = False


def take(message, book, words, now):
    """Carry one message down the road in one transaction; return when its answer is committed.

    A fault of ours undoes all of it; then the raw message is kept as failed, and sender and supervisors hear of it.
    """
    try:
        with book.page() as page:
            if not page.land(message, now) or page.brought_again(message, now):
                return Taken(False)
            whole = _whole(message, page, now)
            return Taken(True, _road(whole, page, words, now) if whole else None)
    except Unavailable:  # nothing is wrong with the message: the wire brings it again
        raise
    except Spent:
        return take(message, book, words, now)
    except Exception:
        log.exception("message %s %s failed", message.channel, message.wire_id)
        with book.page() as page:
            if page.land(message, now):
                page.mark_inbound(message, "failed")
                page.drop_parts(message)
                if not message.mute:
                    mishap.failed(message, page, now)
        return Taken(True, failed=True)


def _whole(message, page, now):
    """The message to be answered: itself, all the pieces of it together, or None while some are missing or nobody is there."""
    if message.mute:
        page.mark_inbound(message, "mute")
        return None
    if message.part is None:
        return message
    texts = page.keep_part(message, now)
    if texts is None:
        page.mark_inbound(message, "part")
        return None
    return replace(message, text=assembled(texts), part=None)


def _road(message, page, words, now):
    """Hops 3 to 8 for a message that has landed; one that says at last who writes brings those that waited for it."""
    outcome, words = None, added(words, page.rules().get("danger_words"))
    for person, each in who.writes(message, page, words, now):
        outcome = _carried(person, each, page, words, now)
    return outcome


def _carried(person, message, page, words, now, confirmed=None):
    outcome, asked, site, code = _heard(person, message, page, words, now, confirmed)
    sender = who.sender(person, message, page, code)
    if person is None or not person.roles:
        sender = replace(sender, language=spoken(message.text, words) or sender.language)
        if answers := strangers.answered(outcome, site, sender, message, page, now):
            _record(answers, site, sender, message, page, now)
        return outcome
    outcome = watch.known(proof.known(outcome, message, page, site, sender, now), page, site, sender, now)
    if proven := proof.carried(outcome, message, page):
        return _carried(person, proven[0], page, words, now, proven[1])
    unsaid = beside.broken(outcome, message, site, sender, now) or _unsaid(outcome, message, site, sender, page, words, now)
    alone = None if unsaid else beside.alone(message, asked, page, site, sender)
    answers, question = unsaid or (([alone], None) if alone else _answers(outcome, site, code, sender, now))
    answers = answers if unsaid else proof.asked(answers, outcome, site, sender, message, page)
    if quiet.silent(message, page, outcome, answers, person, now):
        return None
    kept = {} if alone or unsaid else {"question": questions.kept(question, message.text, now) if question else None}
    more = [] if alone or unsaid else beside.added(message, answers, question, site, sender)
    page.set_person(person.id, **kept | ({"place": site.code, "place_at": now} if site and sender.roles else {}))
    feet = isinstance(outcome, Understood) and any(form.feet for form in outcome.forms)
    _record([*answers, *more], site, sender, message, page, now, feet, questions.buttons(question) if question else ())
    return outcome


def _unsaid(outcome, message, site, sender, page, words, now):
    """([Answer], question) where nobody said who writes, else None; that it would mean STOP is worked out for each of them."""

    def answers(person):
        named = replace(person, name=sender.person.name)
        said, _, there, code = _heard(person, message, page, words, now, lock=False)
        return _answers(said, there, code, who.sender(named, message, page, code), now)[0], code

    return who.unknown(outcome, message, site, sender, page, now, answers)


# ---- 3 recognise


def _heard(person, message, page, words, now, confirmed=None, lock=True):
    """(what a message says, the open question, the Site it is about, its code) where a person stands."""
    place, asked = _standing(page, person, now)
    site = page.site(place, lock) if place else None
    outcome = confirmed or _read(message.text, page, site, asked, words)
    code = outcome.site or place
    return outcome, asked, page.site(code, lock) if code != place else site, code


def _standing(page, person, now):
    """(the site a person is at, his open question): the last site of this shift, or the only one he has."""
    if person is None:
        return None, None
    place, since, question = page.standing(person.id) if person.id else (None, None, None)
    if place is None or since is None or now - since > SHIFT:
        place = person.sites[0] if len(person.sites) == 1 else None
    asked = questions.open_question(question) if question else None
    return place, asked if asked and now - asked.at <= SHIFT else None


# ---- 4 read


def _read(text, page, site, asked, words):
    """What a text says; where that is not clear by itself, as the answer to the open question."""
    hints = _hints(page, site)
    outcome = read(text, KINDS, words, hints)
    if asked is None or outcome.alarm:
        return outcome
    chosen = questions.choice(outcome, text, asked, words)
    if chosen is not None:
        return chosen
    if _names_the_site(outcome, asked) or (isinstance(outcome, Ask | Unread) and questions.completes(outcome, text, asked, words)):
        whole = read(f"{asked.text} {text}", KINDS, words, hints)
        if isinstance(whole, Understood | Confirm) and questions.fits(whole, asked):
            return whole
    return outcome


def _names_the_site(outcome, asked):
    """True where a bare site code answers the question which site."""
    return asked.code == "which_site" and isinstance(outcome, Understood) and outcome.forms[0].kind == "site"


def _hints(page, site):
    rules = page.rules()
    return Hints(frozenset(page.codes()), page.names(), rules.get("bag_kg"), site.litres if site else rules.get("litres", {}), ranges(site))


# ---- 5 permit, 6 answer


def _answers(outcome, site, code, sender, now):
    """([Answer, ...], open question or None) for a person known; a danger that no form answers is answered as heard."""
    alarm = alarms.unanswered(outcome)
    found = _answered(alarm, outcome, site, code, sender, now)
    missed = alarms.missed(outcome, found[0])
    return _answered((*alarm, *missed), alarms.without(outcome, missed, sender), site, code, sender, now) if missed else found


def _answered(alarm, outcome, site, code, sender, now):
    answers = [danger.heard(alarm, outcome.place, site, sender, now)] if alarm else []
    if alarm and not isinstance(outcome, Understood):
        return answers, None
    if isinstance(outcome, Ask):
        if len(outcome.options) == 1 and (alarm := _alarm(outcome.kind, outcome.options[0], site, sender, now)) is not None:
            return [alarm], None
        outcome, question = _settled(outcome, site)
        if question:
            return [Answer(questions.asked(question))], question
    if isinstance(outcome, Confirm):
        return _to_confirm(outcome, site, sender, now)
    if isinstance(outcome, Unread):
        return [Answer(T_("Not understood. Nothing saved. Send HELP for what to write."))], None
    for form in outcome.forms:
        seen = site.with_entries([entry for given in answers for entry in given.entries], now, sender.person) if site else None
        answer, question = _answer(form, seen, code, sender, now)
        if question:
            return [*answers, answer], question
        answers.append(answer)
    return answers, None


def _to_confirm(outcome, site, sender, now):
    """A reading out of range is asked about once, kept as an alarm where its kind says so, or not believed at all."""
    if (alarm := _alarm(outcome.form.kind, outcome.form, site, sender, now)) is not None:
        return [alarm], None
    open_ = outcome.likely or outcome.values.get("believable", True)
    return [Answer(questions.asked(outcome))], outcome if open_ else None


def _alarm(name, form, site, sender, now):
    """What its kind says at once to a form that would else be asked about, or None."""
    kind = BY_NAME.get(name)
    return kind.beyond(form, site, sender, now) if kind and kind.beyond and site and may_send(sender.roles, kind.roles) else None


def _settled(question, site):
    """A question whose two readings stand alike is answered by the one nearer its limit, as inferred."""
    kind = BY_NAME.get(question.kind)
    kept = kind.settle(question.options, site) if kind and kind.settle and len(question.options) == 2 else None
    if kept is None:
        return question, question
    return Understood((replace(kept, inferred=(*kept.inferred, "feet")),)), None


def _answer(form, site, code, sender, now):
    """(Answer, open question or None) for one form: who may send it, then what its kind says."""
    kind = BY_NAME[form.kind]
    if kind.needs_site and site is None:
        if code is not None:
            return Answer(T_("No site %(site)s here. Nothing saved. Check the code.", site=code)), None
        question = Ask(form.kind, "which_site", {"sites": ", ".join(sender.person.sites) or "-"}, (form,))
        return Answer(questions.asked(question)), question
    if kind.needs_site and not may_send(sender.roles, kind.roles):
        return refusals.not_permitted(kind, site, sender, now), None
    if kind.private and sender.overheard:
        return refusals.OVERHEARD, None
    try:
        answer = kind.answer(form, site, sender, now)
        return answer, answer.question
    except CalcError as fault:
        return refusals.not_covered(fault, site, sender), None


# ---- 7 word, 8 record


def _record(answers, site, sender, message, page, now, feet=False, buttons=()):
    """Write the entries and every text that goes out, committed together by the caller; who writes in `feet` is answered in feet."""
    number, by = (site.next_number if site else 0), sender.person.id if sender.person else None
    for offset, entry in enumerate(entry for answer in answers for entry in answer.entries):
        page.write(site.code, number + offset, entry, now, by, EDITION, message)
    wanted = [change for answer in answers for change in answer.changes]
    told = [pair for change in wanted for pair in changes.written(*change, site, sender, page, now)]
    person = page.person(**({"id": by} if by else {"number": sender.number})) if wanted or not sender.person else sender.person
    own = outbox.reader(page, person, site) if person else replace(outbox.reader(page, None, site), language=sender.language)
    reads = replace(own, units="feet") if feet else own
    *texts, last = _replies(beside.carried(answers, message), reads, site) or (None,)
    paper = papers.ordered(answers, site, reads, message, now)
    for text, keys, file in (*((text, (), None) for text in texts), (last, [show(key, own) for key in buttons], paper)):
        if text:
            outbox.say(page, text, message.back, person, _role(sender), message, now, buttons=keys, file=file)
    for other, role, text in told:
        outbox.say(page, outbox.fitted(text, outbox.reader(page, other, site), contacts.named(text, site)), None, other, role, message, now)
    watch.spread(answers, number, site, sender, message, page, now)
    for change in wanted:
        changes.late(*change, sender, message, page, now)


def _replies(answers, reader, site):
    """The worded replies: what fits into one message is one, but nothing joins the STOP of another answer."""
    texts = []
    for answer in answers:
        own = [outbox.fitted(part, reader, contacts.named(part, site)) for part in (answer.reply, answer.then) if part]
        both = joined(answer.reply or Text(), answer.then or Text())
        whole = word(both, reader)
        texts += [outbox.ended(whole, contacts.named(both, site), reader)] if segments(whole)[0] <= SEGMENTS else own
    stop = texts and texts[0].startswith("STOP")
    return [" ".join(texts)] if texts and not stop and segments(" ".join(texts))[0] <= SEGMENTS else texts


def _role(sender):
    return next((role for role in ROLES if role in sender.roles), "known" if sender.person else "stranger")
