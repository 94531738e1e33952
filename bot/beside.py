"""What a message carries beside its text: a pressed button, a picture, that it is an edit or a part, that others read along."""

from dataclasses import replace

from bot.forms import Answer, Entry
from bot.kinds import danger
from bot.phrases import T_
from bot.standing import current

HALF = T_("Only a part of your long message came. Nothing saved. Send it again, shorter: under 160 letters.")
OVER = T_("That question is over. Nothing saved. Send your answer as a message.")


def broken(outcome, message, site, sender, now):
    """([Answer, ...], question) to what came of a long text, else None: dangers are answered, all else is to be sent again."""
    if not message.broken:
        return None
    heard = [danger.heard(outcome.alarm, outcome.place, site, sender, now)] if outcome.alarm else []
    return [*heard, Answer(HALF)], None


def alone(message, asked, page, site, sender):
    """The Answer to a message whose text is not to be read: a press that comes too late, a picture without words; else None."""
    if message.pressed is not None and not _open(message.pressed, asked, page):
        return Answer(OVER)
    return _picture(message, site, sender) if message.photo and not message.text else None


def _open(text_id, asked, page):
    """True where the text whose button was pressed asked the question that is open: both were written at one moment."""
    text = page.out(text_id)
    return asked is not None and text is not None and text["due"] == asked.at


def _picture(message, site, sender):
    if site is None or not sender.roles:
        return Answer(T_("Photo of which site? Not kept. Send it again with the site code under it."))
    stage = current(site)
    said = {"site": site.code, "number": site.next_number, "stage": stage.title if stage else T_("plant")}
    text = T_(
        "%(site)s #%(number)s PHOTO: kept with the %(stage)s. The bot does not look at it: nothing is checked. Send readings.", **said
    )
    return Answer(text, (_kept(message, site),))


def _kept(message, site):
    stage = current(site)
    return Entry("photo", {"photo": message.photo, "channel": message.channel, "at_stage": stage.name if stage else None})


def carried(answers, message):
    """The answers, with what is said of pictures where the channel of a message carries none."""
    if message.files:
        return answers
    return [replace(answer, reply=answer.reply + answer.without) if answer.without else answer for answer in answers]


def added(message, answers, question, site, sender):
    """What is answered to the rest of a message whose text was answered: an edit stored as a new entry, a picture kept."""
    entries = sum(len(answer.entries) for answer in answers)
    more = []
    if message.edited and entries and question is None:
        more.append(Answer(T_("An edit counts as a new message: what came before it stands too. To take this one back send UNDO.")))
    if message.photo and site is not None and sender.roles:
        number = site.next_number + entries
        more.append(Answer(T_("The photo is kept as #%(number)s.", number=number), (_kept(message, site),)))
    return more
