"""A number or chat that is somebody's no more: taken off by himself, or by his supervisor where a phone is lost."""

from bot import foreman
from bot.forms import Alert, Answer, Entry, Kind
from bot.people import channel_of
from bot.phrases import T_

LISTED = 8  # ways or sites that are named
SHOWN = 3  # last digits of a number that are told
CHANNELS = {"telegram": "Telegram", "sms": "SMS"}


def answer(form, site, sender, now):
    if form.get("name"):
        return _of_another(form, site, sender)
    if form.get("lost"):
        return Answer(T_("Whose phone? Nothing changed. The supervisor sends: lost phone, the name, the site code. Your own: unlink."))
    if sender.number != sender.person.number:
        return Answer(T_("Only from the number that was known first, or by your supervisor. Nothing changed."))
    ways = form.get("ways", ())
    if not ways:
        return Answer(T_("No other number and no Telegram is linked to you. Nothing changed. Phone lost: call your supervisor."))
    way = _chosen(form, ways)
    if way is None:
        return Answer(T_("Which: %(ways)s? Nothing changed. Send: unlink, and its place in this list.", ways=_listed(ways)))
    text = T_("%(way)s is not you any more. What waited for it comes here. To link it again send LINK.", way=_shown(way))
    return Answer(text, changes=(("unlink", (form.get("owner"), way[1])),))


def _of_another(form, site, sender):
    """A lost phone: whoever has it is a stranger from now on."""
    name = form.get("name")
    if site is None:
        return Answer(T_("%(name)s of which site? Nothing changed. Send: unlink %(name)s, and the site code.", name=name))
    named = {"site": site.code, "name": name}
    if "supervisor" not in sender.roles:
        return Answer(T_("%(site)s: only the supervisor may take a phone of another off. Nothing changed.", **named))
    owner, ways = form.get("owner"), form.get("ways", ())
    if owner is None or not ways:
        return Answer(T_("%(site)s: nobody called %(name)s, or several, or no number of his is known. Nothing changed.", **named))
    way = _chosen(form, ways)
    if way is None:
        return Answer(
            T_("%(site)s %(name)s: %(ways)s? Nothing changed. Send: unlink %(name)s %(site)s, and the place.", ways=_listed(ways), **named)
        )
    refused = _left_alone(form, owner, way, sender) if len(ways) == 1 else None
    if refused:
        return Answer(refused)
    head = foreman.head(site, T_("unlinked"), site.next_number)
    said = {"name": owner.name, "way": _shown(way), "by": sender.name}
    text = head + T_("%(name)s at %(way)s, by %(by)s. Whoever writes from there is not %(name)s now.", **said)
    if len(ways) == 1:
        text += T_("Nothing reaches %(name)s before a new phone: the office writes its number into the programme file.", name=owner.name)
    entry = Entry("unlink", {"name": owner.name, "number": way[1]})
    return Answer(text, (entry,), (Alert("supervisor", text),), changes=(("unlink", (owner, way[1])),))


def _left_alone(form, owner, way, sender):
    """What is said where nothing would reach the sender himself, or any supervisor of a site, after it; else None."""
    if owner.id == sender.person.id:
        return T_(
            "%(way)s is the only number you are reached by. Nothing changed. Phone lost: another supervisor or the office takes it off.",
            way=_shown(way),
        )
    if form.get("lone"):
        said = {"name": owner.name, "way": _shown(way), "sites": ", ".join(form.get("lone")[:LISTED])}
        return T_(
            "%(way)s is the last number of %(name)s, and %(sites)s would have no supervisor. Nothing changed. "
            "Lost: call your office at once.",
            **said,
        )
    return None


def _chosen(form, ways):
    """The only way, or the one whose place in the list is named; else None."""
    place = form.get("n", 1 if len(ways) == 1 else 0)
    return ways[place - 1] if 0 < place <= len(ways) else None


def _listed(ways):
    return ", ".join(f"{place}) {_shown(way)}" for place, way in enumerate(ways[:LISTED], 1))


def _shown(way):
    _, number = way
    return f"{CHANNELS[channel_of(number)]} *{number[-SHOWN:]}"


KIND = Kind(
    name="unlink",
    about=T_("Unlink: a linked number or Telegram is not you any more. Lost phone: the supervisor sends: lost phone, the name, the site."),
    example=T_("unlink"),
    cues=(
        "act.unlink -part -item -field -not",
        "act.lost_phone -part -item -field -not",
        "act.lost code -number -part -item -field -not -animal -act.rain -act.no_work -day -crew",
    ),
    grammar="unlink",
    roles=(),
    answer=answer,
    needs_site=False,
    private=True,
    proof=True,
    ways=True,
)
