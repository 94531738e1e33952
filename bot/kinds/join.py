"""New people: asking to join, and the supervisor's word that admits them."""

from bot import foreman
from bot.forms import Alert, Answer, Entry, Kind
from bot.phrases import T_, lines


def answer(form, site, sender, now):
    name, role = form.get("name") or "", form.get("role", "mason")
    if not name:
        return Answer(T_("Send: join %(site)s, what you are, your name. Nothing recorded.", site=site.code))
    if role == "supervisor":
        return Answer(T_("Supervisors are named in the programme file. Nothing recorded."))
    if role in sender.roles:
        return Answer(T_("You are %(role)s of %(site)s already.", role=role, site=site.code))
    said = {"site": site.code, "name": name, "role": role}
    ask = T_("JOIN %(site)s: %(name)s (%(number)s) wants to be %(role)s. Send: admit %(name)s %(site)s.", number=sender.number, **said)
    text = T_("%(site)s: asked your supervisor to take %(name)s as %(role)s. Wait for the answer.", **said)
    return Answer(text, (Entry("join", {"name": name, "role": role}),), (Alert("supervisor", ask),), changes=(("join", (name, role)),))


def admit(form, site, sender, now):
    name = form.get("name")
    if not name:
        return Answer(T_("Admit whom? Send: admit, the name, %(site)s.", site=site.code))
    if name.casefold() not in [known.casefold() for known in site.waiting]:
        return Answer(T_("%(site)s: nobody called %(name)s waits. Nothing recorded.", site=site.code, name=name))
    head = foreman.head(site, T_("admitted"), site.next_number)
    text = lines([head, T_("%(name)s, by %(by)s.", name=name, by=sender.name)])
    return Answer(text, (Entry("admit", {"name": name}),), changes=(("admit", name),))


JOIN = Kind(
    name="join",
    about=T_("Join: ask to be taken into a site."),
    example="join SITE mason NAME",
    cues=("act.join",),
    grammar="join",
    roles=(),
    answer=answer,
)
ADMIT = Kind(
    name="admit",
    about=T_("Admit: the supervisor takes somebody into a site."),
    example="admit NAME SITE",
    cues=("act.admit",),
    grammar="join",
    roles=("supervisor",),
    answer=admit,
    private=True,
)
