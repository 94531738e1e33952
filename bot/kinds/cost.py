"""What the plant costs: all of it, its stages, one stage, one thing; by the programme's dated prices."""

from bot import foreman
from bot.forms import Answer, Kind
from bot.kinds.buy import ASKED, packed, packs
from bot.money import NAMES, named, pack_of, prices, said, seen
from bot.phrases import T_, Dated, Number, Series, Text, lines
from bot.site import design_of, plan_asked, plan_key
from bot.stages import STAGES
from bot.standing import finished
from bot.stock import come
from calc.bill import bill
from calc.cost import LABOUR, by_stage, labour_rows, total
from calc.cost import lines as priced
from calc.labour import labour


def answer(form, site, sender, now):
    plan = plan_asked(form, site)
    made = site.design if plan is None else design_of(plan_key(plan))
    if made is None:
        return Answer(foreman.no_plan(site))
    book = prices(site, now)
    top = foreman.head(site, T_("cost"))
    if not book:
        return Answer(lines([top, T_("no price is known. Ask your supervisor to put prices into the programme.")]))
    found = things(made, site, book) + hands(made, book)
    if form.get("item"):
        told = _of_items(form.get("item").split(","), found, site, book, now)
    elif form.get("stage"):
        told = _of_stage(form.get("stage"), found, site, book, now)
    elif form.get("each"):
        told = _by_stage(found, site, book, now)
    else:
        told = _whole(found, site, book, now) + (_to_buy(made, site, book, found) if plan is None else Text())
    return Answer(lines([top, told]))


def things(made, site, book):
    """The Lines of the bill of a Design in the order of the work: a stage has what is left of the packs opened before it."""
    return priced(bill(made, packs(site)), book)


def hands(made, book):
    """The Lines of labour of a Design in the order of the work: the rest of a day goes to the next stage."""
    work = labour(made)
    return priced(labour_rows({name: work[name] for name in STAGES if name in work}), book)


def wages(made, site, book, stages):
    """The Total of labour of these stages as far as they are not finished."""
    return total([line for line in hands(made, book) if line.stage in stages and not finished(line.stage, site)])


def still(made, site, book):
    """The Lines of the bill that stages not finished yet still take, what has come taken off.

    What was built before the site was loaded took nothing of what its log knows.
    """
    names = [] if site.started_at == "use" else list(STAGES)
    logged = names[names.index(site.started_at) :] if names else ()
    found = priced([row for row in bill(made, packs(site)) if row.stage in logged], book, come(site))
    return tuple(line for line in found if not finished(line.stage, site))


def _items(found):
    return tuple(dict.fromkeys(line.item for line in found if line.packs))


def _parts(found):
    """(Lines of materials, Lines of labour)."""
    return tuple(line for line in found if line.item not in LABOUR), tuple(line for line in found if line.item in LABOUR)


def _ready(found, site, stage=None):
    """What money to keep ready; with the prices to ask for first, where some are missing."""
    whole = total(found, stage)
    told = {"sum": said(site, whole.known), "list": named(whole.unknown)}
    if whole.unknown and not whole.known:
        return T_("ask the price of %(list)s.", **told)
    if whole.unknown:
        return T_("ask the price of %(list)s. Without that keep %(sum)s ready.", **told)
    return T_("keep %(sum)s ready.", **told)


def _whole(found, site, book, now):
    bought, paid = (total(part) for part in _parts(found))
    told = {"materials": said(site, bought.known), "labour": said(site, paid.known)}
    return lines([_ready(found, site), T_("Materials %(materials)s, labour %(labour)s.", **told), seen(site, book, _items(found), now)])


def _to_buy(made, site, book, found):
    """What is not bought yet, where something is."""
    left, all_of_it = total(still(made, site, book)), total(_parts(found)[0])
    return Text() if left == all_of_it else T_("Materials not bought yet: %(sum)s.", sum=said(site, left.known))


def _by_stage(found, site, book, now):
    bought, paid = _parts(found)
    each = [T_("%(stage)s %(sum)s", stage=STAGES[name].title, sum=Number(one.known, 2)) for name, one in by_stage(bought).items()]
    told = {"list": Series(tuple(each)), "labour": Number(total(paid).known, 2)}
    text = T_("By stage: %(list)s, labour %(labour)s.", **told)
    return lines([_ready(found, site), text, seen(site, book, _items(found), now)])


def _of_stage(stage, found, site, book, now):
    takes = tuple(line for line in found if line.stage == stage)
    of_it = tuple(line for line in takes if line.packs)
    if not of_it:
        spare = T_("nothing more for the %(stage)s: what the stages before leave over is enough.", stage=STAGES[stage].title)
        return spare if takes else T_("nothing to buy or to pay for that.")
    each = [T_("%(item)s %(sum)s", item=NAMES[line.item], sum=Number(line.money, 2)) for line in of_it if line.money is not None]
    listed = T_("The %(stage)s: %(list)s.", stage=STAGES[stage].title, list=Series(tuple(each))) if each else Text()
    return lines([_ready(of_it, site), listed, _left_over(takes), seen(site, book, _items(of_it), now)])


def _left_over(takes):
    """That a stage was not counted by itself, where packs or days begun before it serve it."""
    open_before = any(line.packs * line.pack < line.quantity - 1e-9 for line in takes)
    return T_("What the stages before leave over is counted.") if open_before else Text()


def _of_items(names, found, site, book, now):
    """One thing with its shop and what the plant takes of it, or several with their sums."""
    items = tuple(dict.fromkeys(item for name in names for item in (LABOUR if name == "labour" else (ASKED.get(name),))))
    of_it = tuple(line for line in found if line.item in items and line.packs)
    if not of_it:
        return T_("not in the bill of this plan.")
    if len(_items(of_it)) > 1 or of_it[0].price is None:
        sums = {item: total([line for line in of_it if line.item == item]) for item in _items(of_it)}
        each = [T_("%(item)s %(sum)s", item=NAMES[item], sum=said(site, one.known)) for item, one in sums.items() if not one.unknown]
        listed = T_("The plant takes: %(list)s.", list=Series(tuple(each))) if each else Text()
        return lines([_ready(of_it, site), listed, seen(site, book, items, now)])
    price, count = of_it[0].price, sum(line.packs for line in of_it)
    paid = {"sum": said(site, price.price), "pack": pack_of(site, price.item), "shop": price.source, "day": Dated(price.seen_on)}
    one = T_("%(item)s %(sum)s per %(pack)s, %(shop)s, %(day)s.", item=NAMES[price.item], **paid)
    need = sum(line.quantity for line in found if line.item == price.item)
    taken = {"amount": packed(price.item, count, of_it[0].pack, need), "sum": said(site, total(of_it).known)}
    aged = seen(site, book, items, now).sentences[1:]
    return lines([one, T_("The plant takes %(amount)s: keep %(sum)s ready.", **taken), Text(aged)])


KIND = Kind(
    name="cost",
    about=T_("Cost: of the plant, a stage, a thing; stages: COST LIST."),
    example=T_("cost dome"),
    cues=("money.price", "money"),
    grammar="cost",
    roles=("farmer", "supervisor"),
    answer=answer,
    private=True,  # no price where others read along
)
