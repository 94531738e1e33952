"""Materials that came, were used, broke, or were counted."""

from bot import foreman
from bot.forms import Alert, Answer, Entry, Field, Kind
from bot.phrases import T_, Amount, Number, Text, lines
from bot.stock import balances, moves, on_site

ITEMS = {
    "cement_kg": (T_("cement"), "kg"), "sand_m3": (T_("sand"), "m3"), "gravel_m3": (T_("gravel"), "m3"), "bricks": (T_("bricks"), ""),
    "bar_kg": (T_("bars"), "kg"), "bar_m": (T_("bars"), "m"), "mesh": (T_("mesh"), ""), "waterproofer_l": (T_("waterproofer"), "l"),
    "paint_l": (T_("paint"), "l"), "lime_kg": (T_("lime"), "kg"),
}  # fmt: skip
UNEVEN = 0.05  # of what came: sand and bricks are counted by eye

ASKED = {
    "cement": ("cement_kg",), "sand": ("sand_m3",), "gravel": ("gravel_m3",), "stone": ("gravel_m3",), "bricks": ("bricks",),
    "bar": ("bar_kg", "bar_m"), "mesh": ("mesh",), "waterproofer": ("waterproofer_l",), "paint": ("paint_l",), "lime": ("lime_kg",),
}  # fmt: skip


def answer(form, site, sender, now):
    return _listed(form, site) if form.get("want") else _counted(form, site, sender, now)


def _listed(form, site):
    """What lies at the site by its log, of all things or of those asked about."""
    left, head = on_site(site), foreman.head(site, T_("stock"))
    asked = [key for name in form.get("want").split(",") for key in ASKED.get(name, ())] if form.get("want") != "all" else ITEMS
    told = [_left(item, left[item], site) for item in asked if item in left]
    return Answer(lines([head, *(told or [T_("No entry in the log. Send: number, unit, material, came or used.")])]))


def _counted(form, site, sender, now):
    told = list(moves(form.fields))
    after = site.with_entries([Entry("stock", form.fields)], now, sender.person)
    left = on_site(after)
    head = foreman.head(site, T_("stock"), site.next_number)
    texts = [head, *(_moved(way, item, quantity, site) for way, item, quantity in told)]
    for item in dict.fromkeys(item for _, item, _ in told):
        texts.append(_left(item, left[item], site))
    found = lines(_uncounted(item, site, after) for way, item, _ in told if way == "have")
    by = T_("Sent by %(name)s.", name=sender.name)
    alerts = (Alert("supervisor", lines(texts) + found + by),) if found or any(way == "stolen" for way, _, _ in told) else ()
    alerts += (Alert("farmer", lines(texts) + found + by),) if found else ()
    texts.append(found)
    return Answer(lines(texts), (Entry("stock", form.fields),), alerts)


def _uncounted(item, site, after):
    """What a count just sent did not find."""
    row, before = balances(after)[item], balances(site).get(item)
    return not_explained(item, row, row.unexplained - (before.unexplained if before else 0.0), site)


def not_explained(item, row, missing, site):
    """What counts did not find, or found too much; nothing where it is as little as counting by eye brings."""
    least = site.rules.bag_kg / 2 if item == "cement_kg" and site.rules.bag_kg else UNEVEN * row.came
    if abs(missing) < max(least, 1e-9):
        return Text()
    amount = short(item, abs(missing), site)
    return T_("%(amount)s not explained.", amount=amount) if missing > 0 else T_("%(amount)s more than the log knows.", amount=amount)


def short(item, quantity, site):
    """An amount in one form: bags, or the item's own unit."""
    if item == "cement_kg" and site.rules.bag_kg:
        return Amount(quantity / site.rules.bag_kg, "bags")
    unit = ITEMS[item][1]
    return Amount(quantity, unit, 2) if unit else Number(quantity, 0)


def _moved(way, item, quantity, site):
    said = {"item": ITEMS[item][0], "amount": _amount(item, quantity, site)}
    return {
        "in": T_("Came: %(amount)s %(item)s.", **said),
        "out": T_("Used: %(amount)s %(item)s.", **said),
        "broken": T_("Broken: %(amount)s %(item)s.", **said),
        "stolen": T_("Stolen: %(amount)s %(item)s.", **said),
        "have": T_("Counted: %(amount)s %(item)s.", **said),
    }[way]


def _left(item, quantity, site):
    if quantity < 0:
        return T_("More %(item)s used than came: count what is there, send: %(item)s stock and the number.", item=ITEMS[item][0])
    return T_("On site by the log: %(amount)s %(item)s.", item=ITEMS[item][0], amount=_amount(item, quantity, site))


def _amount(item, quantity, site):
    """Cement in bags and kg, the rest in its own unit."""
    if item == "cement_kg" and site.rules.bag_kg:
        bags = Amount(quantity / site.rules.bag_kg, "bags")
        return T_("%(bags)s (%(kg)s)", bags=bags, kg=Amount(quantity, "kg", 0))
    return short(item, quantity, site)


KIND = Kind(
    name="stock",
    about=T_("Stock: what came, was used, broke, or is there."),
    example=T_("nn bags cement came"),
    cues=(
        "act.stock_list -number -part",
        "act.arrived item -not -item.water",
        "act.arrived item number -item.water",
        "act.arrived item not -number -part -item.water",
        "act.used item",
        "act.have item",
        "act.broken item",
        "act.stolen item",
        "act.stolen container",
        "act.ordered item -act.order_days -asked",
        "act.ordered container -asked",
        "act.left item number",
        "act.left container",
        "act.arrived container",
        "act.used container",
        "item container -part",
        "item.cement mass -part",
        "item.cement bare -part",
        "item.sand bare -part",
        "item.gravel bare -part",
        "container -part -item.dung -animal",
        "item.bricks number -part -act.cast",
        "item.cement act.done -part -number",
        "item.sand act.done -part -number",
        "item.gravel act.done -part -number",
    ),  # fmt: skip
    grammar="stock",
    fields=(
        Field("cement_bags", (), 0, 80, "amount"),
        Field("bricks", (), 0, 5000, "amount"),
        Field("sand_m3", (), 0, 40, "amount"),
        Field("gravel_m3", (), 0, 40, "amount"),
        Field("stone_m3", (), 0, 40, "amount"),
    ),
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
