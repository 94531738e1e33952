"""Who writes, from a number that several may share."""

from bot.forms import Answer, Kind
from bot.phrases import T_


def answer(form, site, sender, now):
    text = T_("You write as %(name)s.", name=sender.name)
    if sender.beside:
        text += T_("It counts for this number until another sends: i am, and the name; or half a day. For one text send the name first.")
    return Answer(text)


KIND = Kind(
    name="who",
    about=T_("Who: from a phone that several share send your name first, or for half a day: i am, and your name."),
    example=T_("i am NAME"),
    cues=("act.who",),
    roles=(),
    answer=answer,
    needs_site=False,
)
