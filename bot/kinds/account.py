"""What came to a site, what of it was used and what is left, in plain words; and what a count did not find."""

from bot import foreman
from bot.forms import Answer, Kind
from bot.kinds.stock import ITEMS, not_explained, short
from bot.phrases import T_, Text, lines
from bot.stock import balances

LISTED = 4  # things that two messages have room for


def answer(form, site, sender, now):
    found, head = balances(site), foreman.head(site, T_("materials"))
    rows = [(item, found[item]) for item in ITEMS if item in found]
    if not rows:
        return Answer(lines([head, T_("No entry in the log. Send: number, unit, material, came or used.")]))
    more = T_("%(count)s more: send STOCK.", count=len(rows) - LISTED) if len(rows) > LISTED else Text()
    return Answer(lines([head, *(_told(item, row, site) for item, row in rows[:LISTED]), more]))


def _told(item, row, site):
    said = {name: short(item, value, site) for name, value in (("came", row.came), ("used", row.used), ("left", max(row.left, 0.0)))}
    said |= {"item": ITEMS[item][0], "lost": short(item, row.lost, site)}
    if row.left < 0:
        text = T_("%(item)s: came %(came)s, used %(used)s: more used than came, count what is there.", **said)
    elif row.lost > 0:
        text = T_("%(item)s: came %(came)s, used %(used)s, broken or stolen %(lost)s, left %(left)s.", **said)
    else:
        text = T_("%(item)s: came %(came)s, used %(used)s, left %(left)s.", **said)
    return text + not_explained(item, row, row.unexplained, site)


KIND = Kind(
    name="account",
    about=T_("What came, what is used, what is left of the materials."),
    example=T_("what is used"),
    cues=("act.account -number",),
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
