"""What to buy in four phases of the work: whole packs, what is on site taken off, cement last and in two trips."""

from math import ceil

from bot import foreman
from bot.forms import Answer, Field, Kind
from bot.kinds.buy import packed, packs
from bot.kinds.cost import still
from bot.money import named, oldest, prices, said
from bot.phrases import T_, Amount, Series, Text, lines
from bot.stages import STAGES
from calc.bill import bill
from calc.cost import CEMENT, total

PHASES = (("base", "wall"), ("dome", "inlet", "outlet"), ("plaster", "covers", "backfill"), ("pipe",))
PAYERS = {"farmer", "supervisor"}  # prices are for those who pay and for those who answer for them


def answer(form, site, sender, now):
    if site.design is None:
        return Answer(foreman.no_plan(site))
    paid = bool(sender.roles & PAYERS) and not sender.overheard
    book = prices(site, now)  # it says in which packs a thing is bought, too
    left = [[line for line in still(site.design, site, book) if line.stage in phase] for phase in PHASES]
    wanted = next((place for place, found in enumerate(left, 1) if any(line.packs for line in found)), len(PHASES))
    place = form.get("n") or wanted
    if not 1 <= place <= len(PHASES):
        return Answer(T_("%(site)s: phases 1 to %(all)s. Send: phase n.", site=site.code, all=len(PHASES)))
    found = [line for line in left[place - 1] if line.packs]
    head = foreman.head(site, T_("phase %(n)s of %(all)s", n=place, all=len(PHASES)))
    stages = T_("for %(stages)s:", stages=Series(tuple(STAGES[name].title for name in _built(PHASES[place - 1], site))))
    if not found:
        return Answer(lines([head, stages, T_("nothing more to buy."), _stove(place)]))
    texts = [head, stages, T_("buy %(list)s.", list=Series(tuple(_sorted(found)))), _cement(found), _stove(place)]
    return Answer(lines([*texts, *(_money(found, book, site, now) if paid and book else ())]))


def _built(phase, site):
    """The stages of a phase that take something at this plant."""
    taken = {row.stage for row in bill(site.design, packs(site))}
    return [name for name in phase if name in taken]


def _sums(found):
    """Item -> (packs, size of one)."""
    counts = {}
    for line in found:
        count, _ = counts.get(line.item, (0, line.pack))
        counts[line.item] = count + line.packs, line.pack
    return counts


def _sorted(found):
    """What is bought, cement at the end."""
    return [packed(item, *each) for item, each in sorted(_sums(found).items(), key=lambda pair: pair[0] == CEMENT)]


def _cement(found):
    count, _ = _sums(found).get(CEMENT, (0, 0))
    if not count:
        return Text()
    if count == 1:
        return T_("Cement last: keep it dry, off the floor, off the walls.")
    trips = {"first": Amount(ceil(count / 2), "bags"), "second": Amount(count - ceil(count / 2), "bags")}
    return T_("Cement last, in two trips: %(first)s, then %(second)s. Keep it dry, off the floor.", **trips)


def _stove(place):
    """What the last phase takes besides the bill, which ends at the main valve."""
    return T_("The gas fitter says which kitchen pipe, cocks and stove.") if place == len(PHASES) else Text()


def _money(found, book, site, now):
    whole = total(found)
    if whole.known:
        yield T_("Together %(sum)s.", sum=said(site, whole.known))
    if whole.unknown:
        yield T_("Ask the price of %(list)s.", list=named(whole.unknown))
    yield oldest(site, book, {line.item for line in found}, now)


KIND = Kind(
    name="phase",
    about=T_("Phase: what to buy in each of four phases; cement last."),
    example=T_("phase n"),
    cues=("act.phase -act.pump -act.petrol -part",),
    grammar="nth",
    fields=(Field("n", (), 1, 9, "count"),),
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
