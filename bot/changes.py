"""What a message changes besides the log: settings of the sender, roles, numbers, one-time codes."""

from bot import outbox
from bot.forms import Entry
from bot.people import called, same_name
from bot.phrases import T_, Series
from bot.titles import ROLES
from calc.sources import EDITION


def written(what, value, site, sender, page, now):
    """Write one change down; yield who else hears of it, as (person, role, Text)."""
    if what in ("language", "units"):
        page.set_person(sender.person.id, **{what: value})
    elif what == "join":
        name, role = value
        person_id = _newcomer(name, sender, page)
        if (site.code, role) not in page.person(id=person_id).roles:
            page.give_role(person_id, site.code, role, "pending")
    elif what == "enter":
        name, role, code_id = value
        page.use_code(code_id)
        page.give_role(_newcomer(name, sender, page), site.code, role)
    elif what == "admit":
        yield from _admitted(value, site, page)
    elif what == "code":
        where = site.code if site and value.role else None
        named = {"site": where, "role": value.role, "text": value.text, "alone": value.alone}
        page.new_code(value.purpose, sender.person.id, value.digits, now, value.lasts, **named)
    elif what == "link":
        _, owner = value
        text = T_("From now on %(number)s is you too. If that is not you, call your supervisor at once.", number=sender.number)
        yield owner, "known", text
    elif what == "unlink":
        yield from _unlinked(*value, sender, page)
    elif what == "newsite":
        code, name = value
        page.save_site(code=code, name=name, plan=None, planned_by=None, started_at="site", rules={})
        page.give_role(sender.person.id, code, "supervisor")
    elif what == "remove":
        yield from _removed(*value, site, sender, page)


def _removed(owner, roles, site, sender, page):
    """End roles at a site; who held them hears of it."""
    for role in roles:
        page.end_role(owner.id, site.code, role)
    said = {"site": site.code, "roles": Series(tuple(ROLES[role] for role in roles)), "name": sender.name}
    if owner.id != sender.person.id:
        yield page.person(id=owner.id), "known", T_("%(site)s: you are not its %(roles)s any more, says %(name)s. Wrong? Call him.", **said)


def _unlinked(owner, number, sender, page):
    """Take a number off; who did not ask for it himself hears of it where he is still reached."""
    page.unlink(owner.id, number)
    if owner.id != sender.person.id:
        text = T_(
            "Your supervisor %(name)s took a number off you here: *%(end)s. If it is not lost, call him.",
            name=sender.name,
            end=number[-3:],
        )
        yield page.person(id=owner.id), "known", text


def late(what, value, sender, message, page, now):
    """What may only be written once all is said: by a new number nobody is told that it is new."""
    if what == "link":
        code_id, owner = value
        page.use_code(code_id)
        page.link(owner.id, message.channel, sender.number, now)
    elif what == "unlink":
        owner, number = value
        outbox.moved(page, page.person(id=owner.id), number, message, now)
    elif what == "newsite":
        code, name = value
        page.write(code, 1, Entry("newsite", {"name": name}), now, sender.person.id, EDITION, message)
    elif what == "audit":
        for code, fields in value:
            number = page.site(code, lock=True).next_number
            page.write(code, number, Entry("audit", fields), now, sender.person.id, EDITION, message)


def _newcomer(name, sender, page):
    """The sender himself, or somebody else who writes from his number."""
    if sender.person and sender.person.id is not None and same_name(name, sender.name):
        return sender.person.id
    known = [each.id for each in page.people_at(sender.number) if same_name(name, each.name)]
    if len(known) == 1:
        return known[0]
    short = f"n{sender.number.lstrip('+')}{''.join(called(name))}"[:40]
    return page.save_person(name=name, short=short, number=sender.number, language=sender.language)


def _admitted(person_id, site, page):
    for role in [each.role for each in site.waiting if each.id == person_id]:
        page.give_role(person_id, site.code, role)
        text = T_("%(site)s: you are its %(role)s now. Send HELP for what to write.", site=site.code, role=ROLES[role])
        yield page.person(id=person_id), role, text
