"""What is open at the sites of somebody of the office, as lines: one digest of two messages, or page after page."""

from typing import NamedTuple

from bot.letters import SEGMENTS, segments
from bot.phrases import T_, Clock, Series, Text, lines, word

HEADS = {  # the worst first
    "open": T_("NO ANSWER"),
    "seen": T_("Seen, not closed"),
    "late": T_("HOLD waits over a day"),
    "hold": T_("To release"),
    "outside": T_("Outside"),
    "quiet": T_("Silent"),
    "wet": T_("Too few wet days"),
    "cement": T_("Cement over plan"),
    "undone": T_("Taken back in a row"),
    "same": T_("All readings alike"),
    "rush": T_("Released in a rush"),
}
ORDER = tuple(HEADS)
ASKED = {"hold": ("late", "hold"), "quiet": ("quiet",), "fail": ("open", "seen", "outside")}  # LIST and one of these
MOST = 12  # of one head in a digest
LONGEST = 99  # pages, as far as their number takes room


class Item(NamedTuple):
    """One thing at one site: under which head it stands, how bad it is among those, its words."""

    head: str
    weight: float
    site: str
    text: Text


def ranked(items):
    """The items, the worst first."""
    return sorted(items, key=lambda item: (ORDER.index(item.head), -item.weight, item.site))


def digest(items, sites, stages, came, now, reader):
    """The worded digest: what is open under each head, the worst first, how many more there are, how much went as it should."""
    open_at = len({item.site for item in items})
    head = T_("%(day)s: %(sites)s sites, %(rest)s with nothing open.", day=Clock(now), sites=sites, rest=sites - open_at)
    foot = T_("Since the last: %(stages)s stages done, %(came)s deliveries.", stages=stages, came=came) if stages or came else Text()
    heads = [name for name in ORDER if any(item.head == name for item in items)]
    for most, shown in [*((most, heads) for most in range(MOST, 0, -1)), *((1, heads[:few]) for few in range(len(heads) - 1, -1, -1))]:
        told = [_told(name, [item for item in items if item.head == name], most) for name in shown]
        rest = len(items) - sum(min(most, sum(item.head == name for item in items)) for name in shown)
        more = T_("And %(count)s more.", count=rest) if rest else Text()
        text = word(lines([head, *told, more, foot, T_("Send LIST.") if items else Text()]), reader)
        if segments(text)[0] <= SEGMENTS:
            break
    return text


def _told(name, items, most):
    named = Series(tuple(item.text for item in items[:most]))
    if len(items) == len(items[:most]):
        return T_("%(head)s: %(list)s.", head=HEADS[name], list=named)
    return T_("%(head)s %(count)s: %(list)s.", head=HEADS[name], count=len(items), list=named)


def pages(items, asked, reader):
    """The pages of a list as Texts, each within two messages for its reader; `asked` is what stands behind LIST."""
    made, page = [], []
    for item in items:
        if page and not _fits(_page([*page, item], LONGEST, LONGEST, asked), reader):
            made.append(page)
            page = []
        page.append(item)
    made += [page] if page else []
    return [_page(page, number, len(made), asked) for number, page in enumerate(made, 1)]


def _page(items, number, of, asked):
    groups = [_told(name, [item for item in items if item.head == name], len(items)) for name in ORDER if name in {i.head for i in items}]
    head = T_("LIST %(number)s of %(of)s.", number=number, of=of) if of > 1 else T_("LIST.")
    behind = f"list {asked} {number + 1}" if asked else f"list {number + 1}"
    return lines([head, *groups, T_("Next page: %(send)s.", send=behind) if number < of or of == LONGEST else Text()])


def _fits(text, reader):
    return segments(word(text, reader))[0] <= SEGMENTS
