"""What is said where a message was understood and is not answered: who may send it, where, and how far the figures reach."""

from bot.forms import Alert, Answer
from bot.phrases import T_, Series
from bot.titles import ROLES, spoken

OVERHEARD = Answer(T_("Not here, where others read along. Nothing recorded. Send it to me alone."))
SHARED = Answer(T_("Others write from this phone too. Nothing recorded. Decide from a number or Telegram that is yours alone."))


def not_permitted(kind, site, sender):
    """Who may send it, or how to join."""
    who = Series(tuple(ROLES[role] for role in kind.roles))
    if not sender.roles:
        return Answer(
            T_("You are not on the list of %(site)s. Nothing saved. Send: join %(site)s, what you are, your name.", site=site.code)
        )
    return Answer(T_("%(site)s: only the %(who)s may send that. Nothing saved.", site=site.code, who=who))


def not_covered(fault, site, sender):
    """The figures do not reach: no number, and the supervisor hears of it."""
    said = {"what": spoken(getattr(fault, "name", "value")), "site": site.code}
    alert = Alert("supervisor", T_("%(site)s: %(name)s asked for something the figures do not cover: %(what)s.", name=sender.name, **said))
    return Answer(T_("%(site)s: not covered by the bot's figures: %(what)s. No number. Ask your supervisor.", **said), alerts=(alert,))
