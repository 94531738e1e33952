"""What to buy first, and how far a sum reaches: in the order of the work, whole packs; cement in orders that do not grow old."""

from decimal import Decimal

from bot import foreman
from bot.days import DAY
from bot.forms import Answer, Kind
from bot.kinds.buy import packed, packs
from bot.kinds.cost import still, wages
from bot.money import named, oldest, prices, said
from bot.phrases import T_, Amount, Day, Number, Series, Text, lines
from bot.stages import STAGES
from bot.timeline import timeline
from calc import sources as s
from calc.cost import CEMENT, by_stage
from calc.errors import CalcError
from calc.orders import Need, orders
from calc.purse import spend

DAYS_A_WEEK = 7
MOST = 4  # things told one by one


def answer(form, site, sender, now):
    if site.design is None:
        return Answer(foreman.no_plan(site))
    book, top = prices(site, now), foreman.head(site, T_("first"))
    found = still(site.design, site, book)
    if not any(line.packs for line in found):
        return Answer(lines([top, T_("nothing more to buy.")]))
    if not form.get("money"):
        return Answer(lines([top, *_next(found, book, site, now)]))
    if not book:
        return Answer(lines([top, T_("no price is known. Ask your supervisor to put prices into the programme.")]))
    waiting = _too_early(found, site, now)
    spent = spend(found, Decimal(form.get("money")), tuple(waiting))
    told = [_bought(spent, form, site), *_reached(spent, site), *_wages(spent, site, book), *_kept(spent, waiting, now)]
    used = spent.bought + spent.kept + ((spent.missing,) if spent.missing else ())
    return Answer(lines([top, *told, _prices(used, book, site, now)]))


def _prices(found, book, site, now):
    return oldest(site, book, {line.item for line in found if line.packs}, now)


def _list(found, most=MOST):
    """Lines as they are bought, one thing told once, in the order in which it is first needed."""
    counts = {}
    for line in found:
        if line.packs:
            count, pack = counts.get(line.item, (0, line.pack))
            counts[line.item] = count + line.packs, pack
    told = [packed(item, *each) for item, each in counts.items()]
    return Series(tuple(told) if len(told) <= most else (*told[:most], T_("more, see BUY")))


def _next(found, book, site, now):
    """The list of the first stage that takes something, and what those after it cost."""
    sums = by_stage(found)
    wanted = [name for name in sums if any(line.packs for line in found if line.stage == name)]
    stage, sum_ = wanted[0], sums[wanted[0]]
    of_it = [line for line in found if line.stage == stage]
    yield T_("buy for the %(stage)s first: %(list)s.", stage=STAGES[stage].title, list=_list(of_it))
    if sum_.known:
        yield T_("Together %(sum)s.", sum=said(site, sum_.known))
    if sum_.unknown:
        yield T_("Ask the price of %(list)s.", list=named(sum_.unknown))
    if len(wanted) > 1:
        yield T_("Then the %(list)s.", list=Series(tuple(STAGES[name].title for name in wanted[1:4])))
    yield _prices(of_it, book, site, now)


def _bought(spent, form, site):
    have = said(site, Decimal(form.get("money")))
    if not spent.bought:
        return T_("with %(have)s buy nothing yet.", have=have)
    if spent.missing is None:
        return T_("with %(have)s buy all of it: send BUY for the list.", have=have)
    return T_("with %(have)s buy %(list)s.", have=have, list=_list(spent.bought, MOST - 1 if spent.kept else MOST))


def _reached(spent, site):
    """Which stages it is enough for, what comes next, what is left."""
    line = spent.missing
    if spent.covered and line is not None:
        yield T_("Enough up to the %(stage)s.", stage=STAGES[spent.covered[-1]].title)
    if line is None:
        yield T_("Enough for all stages.")
    elif line.price is None:
        yield T_("Next, for the %(stage)s: %(item)s, ask its price.", stage=STAGES[line.stage].title, item=named([line.item]))
    else:
        told = {"stage": STAGES[line.stage].title, "packed": packed(line.item, line.packs, line.pack), "sum": Number(line.money, 2)}
        yield T_("Next, for the %(stage)s: %(packed)s, %(sum)s.", **told)
    if spent.left and spent.bought and not spent.kept:
        yield T_("Left: %(sum)s.", sum=Number(spent.left, 2))


def _wages(spent, site, book):
    """What is paid for the work up to the last stage that something was bought for: the sum pays for materials only."""
    touched = spent.covered + ((spent.missing.stage,) if spent.missing else ())
    names = list(STAGES)
    last = max((names.index(stage) for stage in touched), default=-1)
    paid = wages(site.design, site, book, names[: last + 1])
    if paid.unknown:
        yield T_("Wages are not in it.")
    elif paid.known:
        yield T_("Wages up to there apart: %(sum)s.", sum=Number(paid.known, 2))


def _kept(spent, waiting, now):
    """The cement whose money is put aside, and from when it may be bought."""
    if spent.kept:
        bags = Amount(sum(line.packs for line in spent.kept), "bags")
        yield T_("Keep money for %(bags)s, not before %(day)s.", bags=bags, day=Day(now + waiting[spent.kept[0].stage] * DAY))


def _ahead_d(site):
    return float(site.rules.cement_ahead_d or s.CEMENT_AHEAD_D)


def _slots(site, now):
    """The course of the works, or None where no crew is known for it."""
    try:
        return timeline(site, now).slots
    except CalcError:
        return None


def _too_early(found, site, now):
    """Stage -> days until its cement may come, where it would grow too old if it came today; empty where no dates are known."""
    slots = _slots(site, now) or {}
    ends = {line.stage: slots[line.stage].finish_d for line in found if line.item == CEMENT and line.stage in slots}
    return {stage: end_d - _ahead_d(site) for stage, end_d in ends.items() if end_d > _ahead_d(site)}


def lots(site, now, found):
    """The Orders of cement that unfinished stages take, or None where no dates are known."""
    slots = _slots(site, now)
    if slots is None:
        return None
    cement = [line for line in found if line.item == CEMENT and line.quantity]
    needs = [Need(line.stage, slots[line.stage].start_d, slots[line.stage].finish_d, line.quantity) for line in cement]
    return orders(needs, packs(site).get(CEMENT, float(s.PACKS[CEMENT])), _ahead_d(site))


def when(form, site, sender, now):
    """The orders of cement, each with its day and its stages."""
    if site.design is None:
        return Answer(foreman.no_plan(site))
    found, top = lots(site, now, still(site.design, site, {})), foreman.head(site, T_("cement"))
    keep = T_("Keep it dry, off the floor, off the walls.")
    if found is None:
        days = T_("buy it for %(days)s at most. How many work there? Send: crew n mason n labour.", days=Amount(_ahead_d(site), "days", 0))
        return Answer(lines([top, days, keep]))
    if not found:
        return Answer(lines([top, T_("no more cement to buy.")]))
    told = [_lot(order, now) for order in found]
    off = T_("On a day off: the day before.") if site.rules.working_days_per_week < DAYS_A_WEEK else Text()
    used = T_("Each is used within %(days)s.", days=Amount(_ahead_d(site), "days", 0))
    return Answer(lines([top, T_("order %(list)s.", list=Series(tuple(told))), off, used, keep]))


def _lot(order, now):
    told = {"bags": Amount(order.packs, "bags"), "day": Day(now + order.on_d * DAY)}
    stages = Series(tuple(STAGES[name].title for name in order.stages))
    return T_("%(bags)s by %(day)s (%(stages)s)", stages=stages, **told)


FIRST = Kind(
    name="first",
    about=T_("First: what to buy first, or what a sum buys, wages apart."),
    example=T_("what first"),
    cues=(
        "act.first_what",
        "act.have money",
        "act.have bare -item -unit -part -field -animal -role -crew -container -act.arrived -act.used",
    ),  # fmt: skip
    grammar="first",
    roles=("farmer", "supervisor"),
    answer=answer,
    private=True,  # no price where others read along
)
ORDERS = Kind(
    name="orders",
    about=T_("Cement orders: how many bags by which day."),
    example=T_("cement orders"),
    cues=("act.order_days -number",),
    roles=("mason", "supervisor", "farmer"),
    answer=when,
)
