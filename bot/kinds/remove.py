"""A role that ends: the supervisor takes somebody off a site; what he wrote stays in its log."""

from bot import foreman
from bot.forms import Alert, Answer, Entry, Kind
from bot.phrases import T_, Series, lines
from bot.titles import ROLES

OFFICE = T_("Supervisors are named in the programme file. Nothing recorded.")


def answer(form, site, sender, now):
    name, owner = form.get("name"), form.get("owner")
    if not name:
        return Answer(T_("Remove whom? Send: remove, the name, %(site)s.", site=site.code))
    if owner is None:
        return Answer(T_("%(site)s: nobody called %(name)s, or several. Nothing recorded.", site=site.code, name=name))
    held = [role for role in ROLES if role in owner.at(site.code)]
    ends = [form.get("role")] if form.get("role") else [role for role in held if role != "supervisor"]
    if "supervisor" in ends or not ends:
        return Answer(OFFICE)
    if not set(ends) <= set(held):
        said = {"site": site.code, "name": owner.name, "role": ROLES[ends[0]]}
        return Answer(T_("%(site)s: %(name)s is not its %(role)s. Nothing recorded.", **said))
    said = {"name": owner.name, "roles": Series(tuple(ROLES[role] for role in ends)), "by": sender.name}
    text = lines(
        [
            foreman.head(site, T_("removed"), site.next_number),
            T_("%(name)s is not its %(roles)s any more, by %(by)s. What he sent stays in the log.", **said),
        ]
    )
    alert = Alert("supervisor", text)
    return Answer(text, (Entry("remove", {"name": owner.name, "roles": ends}),), (alert,), changes=(("remove", (owner, ends)),))


KIND = Kind(
    name="remove",
    about=T_("Remove: the supervisor takes a mason or farmer off a site."),
    example=T_("remove NAME SITE"),
    cues=(
        "act.remove -number -part -item -field -act.strip -act.cast -act.in_pit",
        "act.take_off stranger code -number -part -item -field",
    ),
    grammar="remove",
    roles=("supervisor",),
    answer=answer,
    private=True,
    proof=True,
    ways=True,
)
