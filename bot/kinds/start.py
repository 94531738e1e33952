"""From the tested plant to the lit stove: the first fill, fillings of gas let off outside, the flame, the daily feed."""

from datetime import timedelta

from bot import foreman, stops
from bot.forms import COUNT, NOW, Alert, Answer, Entry, Field, Kind
from bot.phrases import T_, Amount, Between, Head, Number, Text, lines
from bot.site import filled_at
from calc import startup
from calc.errors import OutOfRange
from calc.sources import DUNG_KG_L, VENTED_APART_H, VENTED_HEAD_M
from calc.units import from_si

APART = timedelta(hours=float(VENTED_APART_H))


def fill(form, site, sender, now):
    """What the first fill takes, and how much dung is still to be collected."""
    made = site.design
    if made is None:
        return Answer(foreman.no_plan(site))
    charge = startup.first_charge(made)
    more = _dung_kg(form)
    entries = (Entry("collected", {"dung_kg": more}),) if more else ()
    known = sum(entry.fields["dung_kg"] for entry in site.live if entry.kind == "collected") + (more or 0)
    head = foreman.head(site, T_("first fill"), site.next_number if entries else None)
    said = {
        "dung": Amount(charge.dung_kg, "kg", 0),
        "water": Amount(charge.water_l, "l", 0),
        "seed": Amount(charge.inoculum_l, "l", 0),
    }
    rule = T_("Gas valve open while filling, up to the zero line.")
    if entries:
        return Answer(lines([head, _bucket(form, site), _collected(known, charge), rule]), entries)
    text = T_("%(dung)s dung and %(water)s water, of it %(seed)s from a running plant if there is one.", **said)
    return Answer(lines([head, text, _collected(known, charge), _days(charge), rule]))


def _collected(known, charge):
    if not known:
        return Text()
    left = startup.dung_left_kg(charge, known)
    said = {"known": Amount(known, "kg", 0), "left": Amount(left, "kg", 0)}
    return T_("Collected %(known)s, %(left)s to go.", **said) if left else T_("Collected %(known)s: enough.", **said)


def _days(charge):
    if charge.dung_days is None:
        return Text()
    return T_("That is %(days)s days of its dung: start collecting while building.", days=Number(charge.dung_days, 0))


def vent(form, site, sender, now):
    """A filling of gas let off outside; two full ones come before a flame at the stove."""
    if not _fillable(site):
        return Answer(_not_filled(site))
    head_pa = form.get("vented_pa")
    entry = Entry("vent", {"vented_pa": head_pa} if head_pa is not None else {})
    _, last = _vented(site, filled_at(site))
    soon = last is not None and head_pa is not None and now - last < APART
    left = _left(site) if soon else _left(site, _metres(head_pa))
    hazards = stops.at(site, form, now, first_gas=True)
    caution, rules = stops.reminder(hazards, site, now, "G")
    said = T_("let off at %(head)s.", head=Head(head_pa)) if head_pa is not None else T_("let off, gauge not read: does not count.")
    if soon and left:
        said += T_("Too soon after the last, does not count.")
    text = _to_go(left) if left else T_("Two fillings are out. Light only at the stove: match first, then gas, door open.")
    head = foreman.head(site, T_("gas"), site.next_number)
    return Answer(lines([head, said, text, caution]), (Entry("vent", entry.fields, None, rules),))


def _to_go(left):
    return T_("%(left)s more: wait until the gauge is over 50 cm, let it off outside, no flame within 10 m. Send: vented nn cm.", left=left)


def flame(form, site, sender, now):
    """The stove is lit: a STOP before two fillings were let off."""
    if not _fillable(site):
        return Answer(_not_filled(site))
    left = _left(site)
    head = foreman.head(site, T_("flame"), site.next_number, now if left else None)
    if left:
        stop = T_("STOP. Close the gas, no flame: air is still in the plant.")
        told = T_("ALERT %(site)s: flame before two fillings were let off, by %(name)s. Call him now.", site=site.code, name=sender.name)
        entry = Entry("flame", {"early_flame": "yes"}, "stop", ("G3",))
        return Answer(lines([stop, head, _to_go(left)]), (entry,), (Alert("supervisor", told, grade=NOW),))
    told = T_("%(site)s: stove lit, sent by %(name)s.", site=site.code, name=sender.name)
    text = T_("stove lit, noted. Blue flame only. Close the valve at night and when leaving.")
    report = T_("Send: first gas done.") if sender.roles & {"mason", "supervisor"} else Text()
    return Answer(lines([head, text, report]), (Entry("flame", {"stove_lit": "yes"}),), (Alert("supervisor", told, grade=COUNT),))


def _left(site, *more):
    """Fillings to let off before a flame; none for a plant that was in use when its log began and was not filled since."""
    since = filled_at(site)
    if since is None and site.started_at in ("handover", "use"):
        return 0
    return startup.fillings_left([*_vented(site, since)[0], *more])


def _fillable(site):
    """True where a first fill is on record, or was made before the log began."""
    return filled_at(site) is not None or site.started_at in ("first_gas", "handover", "use")


def _vented(site, since):
    """(heads of the fillings let off since a moment [m], when the last was); one right after another is the same filling."""
    heads, last = [], None
    for entry in site.live:
        if entry.kind != "vent" or "vented_pa" not in entry.fields or (since is not None and entry.at < since):
            continue
        head_m = _metres(entry.fields["vented_pa"])
        if head_m >= VENTED_HEAD_M and (last is None or entry.at - last >= APART):
            heads.append(head_m)
            last = entry.at
    return heads, last


def _metres(head_pa):
    return None if head_pa is None else from_si(head_pa, "cmH2O") / 100


def _not_filled(site):
    return T_("%(site)s: no first fill on record. Nothing saved. Send: first fill done.", site=site.code)


def feed(form, site, sender, now):
    """The daily feed: as planned where nothing is said, else how the feed reported stands to the plan."""
    made = site.design
    if made is None or made.feed is None:
        return Answer(T_("%(site)s: no feed in the plan. Send: size, animals, people.", site=site.code))
    plan = {"dung": Amount(made.feed.dung_kg_per_day, "kg", 0), "water": Amount(made.feed.water_l_per_day, "l", 0)}
    order = T_("Every day %(dung)s dung and %(water)s water, mixed, without straw or stones.", **plan)
    fed = _dung_kg(form)
    if fed is None:
        tank = Between(*startup.mixing_tank_l(made.feed), "l", 0)
        care = T_("Mixing tank %(tank)s. Gloves, soap. No soap, medicine or oil in it.", tank=tank)
        return Answer(lines([foreman.head(site, T_("feed")), order, _gas_expected(made, site), care]))
    load, stands = startup.feed_load(fed, made.vessel.inside_m3)
    told = {
        "under": T_("less than the plant needs: little gas."),
        "within": T_("fits the plant."),
        "over": T_("too much: slurry comes out raw."),
    }[stands]
    head = foreman.head(site, T_("feed"), site.next_number)
    said = T_("%(fed)s dung, %(load)s kg for each m3 inside:", fed=Amount(fed, "kg", 0), load=Number(load))
    texts = [head, _bucket(form, site), said, told, _water(form, fed, made.feed), order]
    return Answer(lines(texts), (Entry("feed", {**form.fields, "dung_kg": fed}, "within" if stands == "within" else "outside"),))


def _bucket(form, site):
    """What a container was taken to hold."""
    if not form.get("measured"):
        return Text()
    litres = Amount(site.litres.get(form.get("measured")), "l")
    return T_("A %(container)s taken as %(litres)s, a litre of dung as 1 kg.", container=form.get("measured"), litres=litres)


def _dung_kg(form):
    """The dung of a message [kg]: weighed, or in litres."""
    return form.get("dung_l") * DUNG_KG_L if form.get("dung_l") else form.get("dung_kg")


def _water(form, fed, planned):
    """The water fed, against what the plan mixes with so much dung."""
    water_l = form.get("water_l")
    if water_l is None:
        return Text()
    plan_l = fed * planned.water_l_per_day / planned.dung_kg_per_day
    said = {"water": Amount(water_l, "l", 0), "plan": Amount(plan_l, "l", 0), "off": Amount(abs(water_l - plan_l), "l", 0)}
    if abs(water_l - plan_l) < 0.5:
        return T_("Water %(water)s, as planned.", **said)
    if water_l < plan_l:
        return T_("Water %(water)s: %(off)s too little, mix in %(plan)s.", **said)
    return T_("Water %(water)s: %(off)s too much, mix in %(plan)s.", **said)


def _gas_expected(made, site):
    """When gas that burns can be expected, where the figures reach."""
    if site.rules.mean_temp_c is None:
        return Text()
    try:
        fewest, most = startup.first_gas_d(site.rules.mean_temp_c)
    except OutOfRange:
        return T_("Too cold for a figure of first gas: ask your supervisor.")
    return T_("Gas burns %(days)s days after the first fill; no feed before.", days=Between(fewest, most, "", 0))


ROLES = ("mason", "supervisor", "farmer")
FILL = Kind(
    name="fill",
    about=T_("First fill: dung and water to collect."),
    example=T_("collected nnn kg dung"),
    cues=("act.collect -act.size", "part.first_fill act.how_many", "part.first_fill question", "act.fill_how"),
    grammar="dung",
    fields=(Field("dung_kg", (), 1, 20000, "amount"), Field("dung_l", (), 1, 20000, "amount")),
    roles=ROLES,
    answer=fill,
)
VENT = Kind(
    name="vent",
    about=T_("Vented: a filling of gas let off outside, with the gauge before it."),
    example=T_("vented nn cm"),
    cues=("act.vent",),
    grammar="vent",
    fields=(Field("vented_pa", (), 0, 15000, "pressure"),),
    roles=ROLES,
    answer=vent,
)
FLAME = Kind(
    name="flame",
    about=T_("Stove lit: first flame at the stove."),
    example=T_("stove lit"),
    cues=("act.lit -not -state.no -number -asked",),
    roles=ROLES,
    answer=flame,
)
FEED = Kind(
    name="feed",
    about=T_("Feed: dung and water of every day."),
    example=T_("fed nn kg"),
    cues=("act.feed",),
    grammar="dung",
    fields=(Field("dung_kg", (), 1, 500, "amount"), Field("dung_l", (), 1, 500, "amount"), Field("water_l", (), 0, 2000, "amount")),
    roles=ROLES,
    answer=feed,
)
