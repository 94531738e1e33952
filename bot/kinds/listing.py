"""LIST: what is open at the sites of somebody of the office, the worst first, page by page."""

from bot.forms import Answer, Kind
from bot.items import ASKED, pages
from bot.people import OFFICE
from bot.phrases import T_, Reader


def answer(form, site, sender, now):
    asked = form.get("what", "")
    items = [item for item in form.get("found", ()) if not asked or item.head in ASKED[asked]]
    if not items:
        return Answer(T_("LIST: nothing open of that at your sites."))
    made = pages(items, asked, Reader(sender.person.language, sender.person.units))
    number = form.get("page", 1)
    if not 1 <= number <= len(made):
        return Answer(T_("LIST has %(count)s pages. Send: list, or list and the page.", count=len(made)))
    return Answer(made[number - 1])


KIND = Kind(
    name="list",
    about=T_("List: what is open at all your sites; hold, quiet or fail behind it for one sort."),
    example=T_("list hold"),
    cues=("act.list act.held_up", "act.list act.quiet", "act.list act.failing", "listing"),
    grammar="list",
    roles=OFFICE,
    answer=answer,
    needs_site=False,
    book="looks",
    private=True,
)
