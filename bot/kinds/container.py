"""What a bucket, pan or box of this site holds: told in litres, measured inside, or by a bag of cement emptied into it."""

from bot import foreman
from bot.forms import Answer, Entry, Field, Kind
from bot.phrases import T_, Amount, Number, lines
from bot.titles import CONTAINERS
from calc import sources as s
from calc.errors import Missing, OutOfRange
from calc.measuring import cement_per_measure_kg, measure_l_from_rod

TOLD_L = 0.05  # what the reply would not show


def answer(form, site, sender, now):
    if form.get("want"):
        return _known(form, site)
    return _cement(form, site) if form.get("fills") else _litres(form, site)


def _known(form, site):
    """What a container holds here as far as anybody measured it."""
    name = form.get("container")
    litres, each_kg = site.litres.get(name), cement_each_kg(site, name)
    said = {"container": CONTAINERS[name][0], "litres": Amount(litres or 0.0, "l"), "each": Amount(each_kg or 0.0, "kg")}
    if litres is None:
        return Answer(T_("Nobody has measured a %(container)s here. Send: %(container)s nn l.", **said))
    head = foreman.head(site, T_("container"))
    if each_kg is None:
        return Answer(lines([head, T_("one %(container)s is %(litres)s level. Not measured with cement: count cement in bags.", **said)]))
    return Answer(lines([head, T_("one %(container)s is %(litres)s level, of cement %(each)s.", **said)]))


def cement_each_kg(site, name):
    """The cement one container holds here [kg], by the last bag that was emptied into it since it was measured; or None."""
    for entry in reversed(site.live):
        if entry.kind == "container" and entry.fields["container"] == name:
            return entry.fields.get("cement_each_kg")
    return None


def _litres(form, site):
    name, litres = form.get("container"), form.get("measure_l")
    if litres is None:
        litres = measure_l_from_rod(form.get("top_m"), form.get("bottom_m"), form.get("deep_m"))
    least, most = s.CONTAINER_L[name]
    said = {"container": CONTAINERS[name][0], "containers": CONTAINERS[name][1], "litres": Amount(litres, "l")}
    if not least <= litres <= most:
        named = {"least": Amount(least, "l"), "most": Amount(most, "l")}
        return Answer(
            T_(
                "No such %(containers)s: they hold %(least)s to %(most)s, not %(litres)s. Not saved. Measure again, inside, in cm.",
                **named,
                **said,
            )
        )
    was = site.litres.get(name)
    texts = [foreman.head(site, T_("container"), site.next_number), T_("one %(container)s is %(litres)s filled level, here.", **said)]
    if was is not None and abs(was - litres) > TOLD_L:
        texts.append(T_("Before: %(was)s.", was=Amount(was, "l")))
    if name == site.rules.bucket:
        texts.append(T_("Mixes and stock count with it. Never heap it."))
    else:
        texts.append(T_("Stock counts with it. Never heap it. For a mix send: mix base in %(container)s.", **said))
    return Answer(lines(texts), (Entry("container", {"container": name, "measure_l": litres}),))


def _cement(form, site):
    """A whole bag emptied into level containers: only this lets cement be measured in them."""
    name, count = form.get("container"), form.get("fills")
    litres, bag_kg = site.litres.get(name), site.rules.bag_kg
    said = {"container": CONTAINERS[name][0], "containers": CONTAINERS[name][1], "count": Number(count)}
    if litres is None:
        return Answer(T_("How many litres is one %(container)s? Nothing saved. Send: %(container)s nn l, then this again.", **said))
    if bag_kg is None:
        raise Missing("bag_kg")
    said |= {"bag": Amount(bag_kg, "kg"), "litres": Amount(litres, "l")}
    try:
        each_kg = cement_per_measure_kg(bag_kg, count, litres)
    except OutOfRange as fault:
        low, high = (Number(limit / s.LITRES_PER_M3, 2) for limit in s.CEMENT_LOOSE_KG_M3)
        said |= {"density": Number(fault.value / s.LITRES_PER_M3, 2), "low": low, "high": high}
        return Answer(
            T_(
                "%(bag)s in %(count)s %(containers)s of %(litres)s is %(density)s kg a litre: cement is %(low)s to %(high)s. Not saved. "
                "Fill level, count again; then measure the %(container)s.",
                **said,
            )
        )
    head = foreman.head(site, T_("container"), site.next_number)
    text = T_("one %(container)s of %(litres)s holds %(each)s cement, level, not shaken.", each=Amount(each_kg, "kg"), **said)
    more = T_("A mix may now be sent in %(containers)s of cement.", **said)
    return Answer(lines([head, text, more]), (Entry("container", {"container": name, "cement_each_kg": each_kg}),))


NO = "-item -ratio -part -animal -act.mix -act.arrived -act.used -act.left -act.have -act.need -act.buy -act.how_many"
KIND = Kind(
    name="container",
    about=T_("Container: what a bucket or pan holds."),
    example=T_("bucket nn l"),
    cues=(
        f"vessel volume {NO}",
        f"container volume {NO}",
        "vessel field.top field.bottom",
        "act.how_many vessel container -item -part -animal -act.left -act.need -act.buy -ratio",
        "act.how_many unit.l container -item -part -animal",
        "act.fills container -item.dung -part",
    ),
    grammar="container",
    fields=(Field("fills", (), 0.5, 40, "amount"),),
    answer=answer,
)
