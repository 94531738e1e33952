"""Another phone or a Telegram account of somebody known; and the code that confirms what a number alone cannot prove."""

from datetime import timedelta

from bot.forms import Answer, Code, Kind
from bot.phrases import T_, Clock

LASTS = timedelta(minutes=30)
WRONG = T_("That code is wrong, used or too old. Nothing changed.")


def answer(form, site, sender, now):
    if "fresh" in form.fields:
        text = T_("Your code: %(code)s, good until %(time)s.", code=form.get("fresh"), time=Clock(now + LASTS, now))
        text += T_("From your other phone or Telegram send: link, and the code. Give it to nobody.")
        return Answer(text, changes=(("code", Code("link", form.get("fresh"), LASTS)),))
    held = form.get("held")
    if held is None:
        return Answer(WRONG + T_("For a new one send LINK from the number that is known here."))
    if sender.person is not None:
        return Answer(T_("This number is on the list already, as %(name)s. Nothing changed.", name=sender.name))
    text = T_("Linked: you are %(name)s here too. Send HELP for what to write.", name=form.get("owner").name)
    return Answer(text, changes=(("link", (held["id"], form.get("owner"))),))


def confirm(form, site, sender, now):
    """What a right code confirms is carried out by the road; here come the others."""
    return Answer(WRONG + T_("Send what it was for again, for a new one."))


LINK = Kind(
    name="link",
    about=T_("Link: your second phone or Telegram counts as you. Send LINK from the known number, then link and the code from the other."),
    example=T_("link nnnnnn"),
    cues=("act.link -part -item -field",),
    grammar="code",
    roles=(),
    answer=answer,
    needs_site=False,
    codes="link",
    private=True,
)
CONFIRM = Kind(
    name="confirm",
    about=T_("Confirm: the code that was sent to your number for a release, a plan, a newcomer."),
    example=T_("confirm nnnnnn"),
    cues=("act.confirm number -part -item -field -length -mass -volume",),
    grammar="code",
    roles=(),
    answer=confirm,
    needs_site=False,
    codes="confirm",
    private=True,
)
