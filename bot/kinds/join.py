"""New people: asking to join, and the supervisor's word that admits them, after it or before it by a code."""

from datetime import timedelta

from bot import foreman
from bot.forms import Alert, Answer, Code, Entry, Kind
from bot.kinds.link import WRONG
from bot.people import MOST, same_name
from bot.phrases import T_, Day, Series, lines
from bot.titles import ROLES

SHOWN, LONGEST = 3, 24  # last digits of a number that are told, and at most
LISTED = 8
LASTS = timedelta(days=7)
FULL = T_("%(most)s people write from this number: no more can be told apart. Nothing recorded.", most=MOST)
NAMED = T_("Supervisors are named in the programme file. Nothing recorded.")


def answer(form, site, sender, now):
    name, role = form.get("name") or "", form.get("role", "mason")
    if not name:
        return Answer(T_("Send: join %(site)s, what you are, your name. Nothing recorded.", site=site.code))
    if role == "supervisor":
        return Answer(NAMED)
    if sender.person and same_name(name, sender.name):
        if role in sender.roles:
            return Answer(T_("You are %(role)s of %(site)s already.", role=ROLES[role], site=site.code))
        name = name if sender.person.id is None else sender.name
    elif _full(name, site, sender):
        return Answer(FULL + T_("Join from another."))
    if "code" in form.fields:
        return _by_code(form, site, sender, name)
    said = {"site": site.code, "name": name, "role": ROLES[role]}
    another = any(same_name(each.name, name) and each.number != sender.number for each in site.waiting)
    who = f"{name} {sender.number[-SHOWN:]}" if another else name
    ask = T_(
        "JOIN %(site)s: %(name)s (%(number)s) wants to be %(role)s. Send: admit %(who)s %(site)s.", number=sender.number, who=who, **said
    )
    text = T_("%(site)s: asked your supervisor to take %(name)s as %(role)s. Wait for the answer.", **said)
    return Answer(text, (Entry("join", {"name": name, "role": role}),), (Alert("supervisor", ask),), changes=(("join", (name, role)),))


def _full(name, site, sender):
    """True where as many write from the sender's number, or wait to, as can be told apart, and this is one more."""
    waiting = {each.id: each for each in site.waiting if each.number == sender.number}
    ids = {*waiting, *sender.beside, *({sender.person.id} if sender.person and sender.person.id else ())}
    return len(ids) >= MOST and not any(same_name(name, each.name) for each in waiting.values())


def _by_code(form, site, sender, name):
    """The supervisor has said yes already, to whoever brings his code."""
    held = form.get("held")
    if held is None:
        return Answer(WRONG + T_("Ask your supervisor for a new one."))
    said = {"site": site.code, "name": name, "role": ROLES[held["role"]]}
    told = T_("%(site)s: %(name)s (%(number)s) is its %(role)s now, by your code.", number=sender.number, **said)
    text = T_("%(site)s: you are its %(role)s now, %(name)s. Send HELP for what to write.", **said)
    if sender.person and not same_name(name, sender.name):
        text = T_(
            "%(site)s: %(name)s is its %(role)s now, on this number too. Writing from it %(name)s sends first: i am %(name)s.", **said
        )
    entry = Entry("join", {"name": name, "role": held["role"]})
    return Answer(text, (entry,), (Alert("supervisor", told),), changes=(("enter", (name, held["role"], held["id"])),))


def issue(form, site, sender, now):
    role = form.get("role")
    if role == "supervisor":
        return Answer(NAMED)
    said = {"site": site.code, "role": ROLES[role], "code": form.get("fresh"), "day": Day(now + LASTS)}
    text = T_("%(site)s: code %(code)s, for one new %(role)s, until %(day)s. He sends: join %(site)s %(role)s, his name, the code.", **said)
    given = Code("join", form.get("fresh"), LASTS, role, alone=False)
    return Answer(text, (Entry("code", {"role": role}),), changes=(("code", given),))


def admit(form, site, sender, now):
    name = form.get("name")
    if not name:
        return Answer(T_("Admit whom? Send: admit, the name, %(site)s.", site=site.code))
    named = [each for each in site.waiting if same_name(each.name, name)]
    if not named:
        return Answer(T_("%(site)s: nobody called %(name)s waits. Nothing recorded.", site=site.code, name=name))
    end = form.get("end", "")
    meant = [each for each in named if each.number.endswith(end) and (not end or len(end) >= SHOWN)]
    if len({each.id for each in meant}) != 1:
        said = {"site": site.code, "name": name, "ends": _ends(named)}
        return Answer(
            T_(
                "%(site)s: %(name)s who? By the end of the number: %(ends)s. Nothing recorded. "
                "Send: admit %(name)s, those digits, %(site)s.",
                **said,
            )
        )
    if meant[0].others >= MOST:
        return Answer(FULL + T_("%(name)s joins from another.", name=meant[0].name))
    head = foreman.head(site, T_("admitted"), site.next_number)
    text = lines([head, T_("%(name)s, by %(by)s.", name=meant[0].name, by=sender.name)])
    return Answer(text, (Entry("admit", {"name": meant[0].name}),), changes=(("admit", meant[0].id),))


def _ends(waiting):
    """The last digits of the numbers of those who wait, so many that they differ, each with his role; the first eight."""
    numbers = {each.id: each.number for each in waiting}
    shown = next((n for n in range(SHOWN, LONGEST) if len({number[-n:] for number in numbers.values()}) == len(numbers)), LONGEST)
    return Series(tuple(T_("*%(end)s %(role)s", end=each.number[-shown:], role=ROLES[each.role]) for each in waiting[:LISTED]))


JOIN = Kind(
    name="join",
    about=T_("Join: ask to be taken into a site."),
    example=T_("join SITE mason NAME"),
    cues=("act.join",),
    grammar="join",
    roles=(),
    answer=answer,
    codes="join",
    private=True,
)
ADMIT = Kind(
    name="admit",
    about=T_("Admit: the supervisor takes somebody into a site."),
    example=T_("admit NAME SITE"),
    cues=("act.admit",),
    grammar="admit",
    roles=("supervisor",),
    answer=admit,
    private=True,
    proof=True,
)
ISSUE = Kind(
    name="code",
    about=T_("Code: the supervisor gets a code that takes one new mason or farmer into a site."),
    example=T_("code SITE mason"),
    cues=("act.code role -number -act.join", "act.code -number -part -item -field -act.join -act.site"),
    grammar="issue",
    roles=("supervisor",),
    answer=issue,
    codes="join",
    private=True,
)
