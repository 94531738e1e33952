"""What is still to buy: the bill of the plan less what has come, in packs."""

from bot import foreman
from bot.forms import Answer, Kind
from bot.money import prices
from bot.phrases import T_, Amount, Number, Series, Text, lines
from bot.site import design_of, plan_asked, plan_key
from bot.stages import STAGES
from bot.stock import come, on_site
from bot.titles import MATERIALS
from calc.bill import bill, in_packs, needed, to_buy, unit_of
from calc.cost import pack_bought
from calc.sources import PACKS
from calc.units import si

ASKED = {
    "cement": "cement_kg", "sand": "sand_m3", "gravel": "gravel_m3", "stone": "gravel_m3", "bricks": "bricks", "mesh": "mesh_m2",
    "bar": "bar_m", "waterproofer": "waterproofer_l", "inlet_pipe": "pipe_m",
}  # fmt: skip
MORE = 1.2  # a pack that is so much more than needed is told with the need
_SEVERAL = {"box": "boxes", "brass": "brass"}


def answer(form, site, sender, now):
    plan = plan_asked(form, site)
    made = site.design if plan is None else design_of(plan_key(plan))
    if made is None:
        return Answer(foreman.no_plan(site))
    rows = bill(made, packs(site))
    stages = _stages(form, rows)
    wanted = needed(rows, stages=stages)
    items = [ASKED.get(name) for name in form.get("item", "all").split(",")]
    if form.get("item") not in (None, "all"):
        wanted = {item: quantity for item, quantity in wanted.items() if item in items}
    left = to_buy(wanted, come(site)) if plan is None else wanted
    book = prices(site, now)
    told = [_packed(item, quantity, form, site, book) for item, quantity in left.items() if quantity > 1e-9]
    head = foreman.head(site, T_("buy"))
    if not wanted:
        text = T_("Not in the bill of this plan.")
    elif not told:
        text = T_("Nothing more to buy of that.")
    else:
        text = _listed(stages, Series(tuple(told)))
    one = items[0] if len(items) == 1 and plan is None and stages is None else None
    return Answer(lines([head, text, _at_hand(one, site), _note(site)]))


def _at_hand(item, site):
    """What lies at the site of the one thing asked about, where the log knows of any."""
    left = on_site(site)
    if item not in left or left[item] < 0:
        return Text()
    pack = packs(site).get("cement_kg")
    if item == "cement_kg" and pack:
        return T_("On site by the log: %(bags)s.", bags=Amount(left[item] / pack, "bags"))
    return T_("On site by the log: %(amount)s.", amount=Amount(left[item], unit_of(item).replace("piece", ""), 2))


def packs(site):
    """Item -> the size in which it is sold at a site; those not named as usual."""
    return {item: size for item, size in site.rules.packs.items() if item in PACKS} | (
        {"cement_kg": site.rules.bag_kg} if site.rules.bag_kg else {}
    )


def _stages(form, rows):
    """The stages asked about: one, all up to one, or None for all."""
    if form.get("stage"):
        return [form.get("stage")]
    if form.get("until"):
        names = list(STAGES)
        last = names.index(form.get("until")) if form.get("until") in names else len(names)
        return names[: last + 1]
    return None


def _listed(stages, told):
    if stages is None:
        return T_("still to buy: %(list)s.", list=told)
    title = STAGES[stages[-1]].title
    if len(stages) == 1:
        return T_("still to buy for the %(stage)s: %(list)s.", stage=title, list=told)
    return T_("still to buy up to the %(stage)s: %(list)s.", stage=title, list=told)


def _packed(item, quantity, form, site, book):
    """An item as it is bought here, or in the container asked for."""
    litres = site.litres.get(form.get("reply_unit"))
    if litres and unit_of(item) == "m3":
        said = Amount(in_packs(quantity, si(litres, "l")), _SEVERAL.get(form.get("reply_unit"), form.get("reply_unit") + "s"), 0)
        return T_("%(item)s %(amount)s (%(m3)s)", item=MATERIALS[item], amount=said, m3=Amount(quantity, "m3", 2))
    pack = pack_bought(packs(site).get(item, float(PACKS[item])), book.get(item))
    return packed(item, in_packs(quantity, pack), pack, quantity)


def packed(item, count, pack, need=None):
    """So many packs of an item as they are bought: bags, pieces, cubic metres, lengths; and the need where a pack is far more."""
    if need is not None and unit_of(item) == "m3" and count * pack > MORE * need:
        return packed(item, count, pack) + T_("(need %(need)s)", need=Amount(need, "m3", 2))
    if item == "cement_kg":
        return T_("%(item)s %(bags)s of %(kg)s", item=MATERIALS[item], bags=Amount(count, "bags"), kg=Amount(pack, "kg"))
    if item == "bar_m":
        return T_("%(item)s %(count)s of %(long)s", item=MATERIALS[item], count=count, long=Amount(pack, "m"))
    if unit_of(item) == "piece":
        return T_("%(item)s %(count)s", item=MATERIALS[item], count=Number(count * pack, 0))
    return T_("%(item)s %(amount)s", item=MATERIALS[item], amount=Amount(count * pack, unit_of(item), 2))


def _note(site):
    dug = site.started_at not in ("site", "layout")
    if not dug:
        return T_("Buying list only. Do not start digging before the site check.")
    return T_("Buying list only. Buy cement last: CEMENT ORDERS says by which day.")


KIND = Kind(
    name="buy",
    about=T_("Buy: what is still to buy, all or one thing, for a stage."),
    example=T_("buy cement"),
    cues=(
        "act.buy -language -length",
        "act.buy item -language",
        "act.how_many item",
        "act.how_many unit.bag",
        "act.left item -number",
        "act.more item -number -act.done",
        "item.all -number -act.done",
        "item.all act.for_whom",
        "act.need item -part -act.have -act.arrived -act.used -act.left -act.broken -length",
        "act.need item part -act.have -act.arrived -act.used -act.left -act.broken -length -number -not",
        "act.need container -part -act.have -act.arrived -act.used -act.left -act.broken",
        "act.need unit.bag -number",
        "item.all volume",
        "unit.bag question -number",
        "item question -number -part -act -unsure -danger -not -state -material -item.water -item.dung",
        "act.unneeded item",
    ),  # fmt: skip
    grammar="buy",
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
