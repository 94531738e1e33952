"""A site that a supervisor opens by message: its code, the farmer's name; he is its supervisor from then on."""

import re

from bot.forms import Answer, Kind
from bot.phrases import T_

CODE = re.compile(r"[A-Z]{2}[0-9]{2}")
LONGEST = 40  # letters of a name


def answer(form, site, sender, now):
    code, name = form.get("site"), form.get("name")
    if sender.person is None or not any(role == "supervisor" for _, role in sender.person.roles):
        return Answer(T_("Only a supervisor opens a new site. Nothing recorded."))
    if not code or not CODE.fullmatch(code) or not name:
        return Answer(T_("New site: two letters and two digits, and the farmer's name. Send: new site SITE NAME. Nothing recorded."))
    if code in form.get("codes", ()):
        return Answer(T_("%(site)s is a site already. Nothing recorded. Take another code.", site=code))
    said = {"site": code, "name": name[:LONGEST], "by": sender.name}
    text = T_("%(site)s %(name)s is a new site, its supervisor is %(by)s. Next send: size, animals, people; then: fix %(site)s.", **said)
    people = T_("Take people in: code %(site)s mason.", site=code)
    return Answer(text + people, changes=(("newsite", (code, name[:LONGEST])),))


KIND = Kind(
    name="newsite",
    about=T_("New site: the supervisor opens one, with its code and the farmer's name."),
    example=T_("new site SITE NAME"),
    cues=("act.new_site",),
    grammar="newsite",
    roles=("supervisor",),
    answer=answer,
    needs_site=False,
    private=True,
    proof=True,
    across="codes",
)
