"""How much is answered: beyond so many messages of one number in an hour the bot is silent, but for dangers."""

from datetime import timedelta

from bot import outbox
from bot.phrases import T_

HOUR, DAY = timedelta(hours=1), timedelta(days=1)
ANSWERS = 120  # of one number in an hour, where the programme says nothing else


def silent(message, page, outcome, answers, person, now):
    """True where nothing is answered and nothing recorded any more: two machines may be writing to each other.

    The first time in a day it is said once to the sender and to the supervisors of his sites. A danger and a STOP are
    always answered.
    """
    most = page.rules().get("answers_per_hour", ANSWERS)
    if page.count_from(message.sender, now - HOUR) <= most or outcome.alarm or _stop(answers):
        return False
    told = page.count_from(message.sender, now - DAY, state="silenced")
    page.mark_inbound(message, "silenced")
    if not told:
        _tell(message, page, person, most, now)
    return True


def _stop(answers):
    return any(str(sentence).startswith("STOP") for answer in answers if answer.reply for sentence, _ in answer.reply.sentences[:1])


def _tell(message, page, person, most, now):
    text = T_("Too many messages in an hour. Nothing more is saved or answered now, only dangers. Wait an hour, then go on.")
    outbox.say(page, outbox.fitted(text, outbox.reader(page, person)), message.back, person, "known", message, now)

    def note(name, code):
        said = {"site": code, "name": name, "most": most}
        return T_(
            "%(site)s: more than %(most)s messages of %(name)s in an hour. Only his dangers are answered until it is less. Call him.",
            **said,
        )

    outbox.tell_supervisors(page, (person,), note, message, now)
