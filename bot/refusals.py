"""What is said where a message was understood and is not answered: who may send it, where, and how far the figures reach."""

from datetime import timedelta

from bot.forms import NOW, Alert, Answer, Entry
from bot.phrases import T_, Series
from bot.titles import ROLES, spoken

DAY = timedelta(days=1)
OVERHEARD = Answer(T_("Not here, where others read along. Nothing recorded. Send it to me alone."))
SHARED = Answer(T_("Others write from this phone too. Nothing recorded. Decide from a number or Telegram that is yours alone."))


def not_permitted(kind, site, sender, now):
    """Who may send it, or how to join; that somebody of another site wrote is told once a day."""
    who = Series(tuple(ROLES[role] for role in kind.roles))
    if not sender.roles:
        text = T_("You are not on the list of %(site)s. Nothing saved. Send: join %(site)s, what you are, your name.", site=site.code)
        return Answer(text, *_foreign(kind, site, sender, now))
    return Answer(T_("%(site)s: only the %(who)s may send that. Nothing saved.", site=site.code, who=who))


def _foreign(kind, site, sender, now):
    """((Entry,), (Alert,)) of a message for a site at which its sender has no role, or nothing."""
    told = any(entry.kind == "foreign" and entry.by == sender.person.id and now - entry.at < DAY for entry in site.log)
    if told or not set(kind.roles) & {"mason", "supervisor"} or sender.person.id is None:
        return ()
    said = {"site": site.code, "name": sender.name, "what": kind.name, "sites": ", ".join(sender.person.sites) or "-"}
    text = T_("ALERT %(site)s: %(name)s of %(sites)s, not on its list, sent %(what)s. Not recorded. Call him.", **said)
    return (Entry("foreign", {"sent": kind.name}, "refused"),), (Alert("supervisor", text, grade=NOW),)


def not_covered(fault, site, sender):
    """The figures do not reach: no number, and the supervisor hears of it."""
    said = {"what": spoken(getattr(fault, "name", "value")), "site": site.code}
    alert = Alert("supervisor", T_("%(site)s: %(name)s asked for something the figures do not cover: %(what)s.", name=sender.name, **said))
    return Answer(T_("%(site)s: not covered by the bot's figures: %(what)s. No number. Ask your supervisor.", **said), alerts=(alert,))
