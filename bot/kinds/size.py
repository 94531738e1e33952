"""What plant for these animals and people, and the supervisor's word that fixes it."""

from bot import foreman
from bot.forms import Alert, Answer, Entry, Field, Kind
from bot.phrases import T_, Amount, Between, Head, Number, Size, Text, lines
from bot.site import design_of, plan_asked, plan_key
from bot.standing import finished
from bot.titles import DOMES
from calc import digestion, sizing
from calc.design import findings
from calc.errors import Missing
from calc.sources import LEAST_DUNG_KG_D, PERSON_GAS_M3_D
from calc.units import from_si

ANIMALS = {"buffalo": "buffalo", "calves": "calf", "goats": "goat", "pigs": "pig", "hens": "hen"}


def answer(form, site, sender, now):
    head = foreman.head(site, T_("size"), site.next_number)
    plan = plan_asked(form, site)
    if plan is not None:
        made = design_of(plan_key(plan))
        return Answer(lines([head, _volume(made, plan), _fix(site)]), (Entry("size", form.fields | {"plan": plan}),))
    feed = _feed(form, site)
    if feed.dung_kg_per_day < LEAST_DUNG_KG_D:
        short = {"dung": Amount(feed.dung_kg_per_day, "kg", 0), "least": Amount(LEAST_DUNG_KG_D, "kg", 0)}
        refused = T_("%(dung)s of dung a day is too little for a plant, least %(least)s. Weigh it on several days.", **short)
        return Answer(lines([head, refused]), (Entry("size", form.fields, "outside"),))
    temp_c = _temperature(form, site)
    gas = digestion.gas_estimates(feed, temp_c, digestion.retention_d(temp_c))
    plan = {"dung_kg_per_day": round(feed.dung_kg_per_day, 1), "temp_c": temp_c}
    texts = [head, _told(form, feed, gas), _short_of(form, gas), _volume(design_of(plan_key(plan)), plan), _fix(site)]
    return Answer(lines(texts), (Entry("size", form.fields | {"plan": plan}),))


def _feed(form, site):
    if form.get("dung_kg_per_d"):
        return sizing.feed_from_dung(form.get("dung_kg_per_d"))
    animals = {ours: form.get(name) for name, ours in ANIMALS.items() if form.get(name)}
    if form.get("cattle"):
        animals[site.rules.cow] = form.get("cattle")
    return sizing.feed_from_animals(animals, site.rules.kept)


def _temperature(form, site):
    temp_c = form.get("temp_c", site.rules.mean_temp_c)
    if temp_c is None:
        raise Missing("mean_temp_c")
    return temp_c


def _told(form, feed, gas):
    """Dung, water, gas as a range, whom it cooks for."""
    fewest, most = sizing.persons(gas.low)[0], sizing.persons(gas.high)[1]
    hours = sizing.stove_hours(gas.low)[0], sizing.stove_hours(gas.high)[1]
    heads = {
        "cattle": T_("cows"),
        "buffalo": T_("buffalo"),
        "calves": T_("calves"),
        "goats": T_("goats"),
        "pigs": T_("pigs"),
        "hens": T_("hens"),
    }
    counted = [T_("%(number)s %(animal)s", number=Number(form.get(name)), animal=word) for name, word in heads.items() if form.get(name)]
    said = {
        "dung": Amount(feed.dung_kg_per_day, "kg", 0),
        "water": Amount(feed.water_l_per_day, "l", 0),
        "gas": Between(gas.low, gas.high, "m3"),
        "persons": Between(int(fewest), int(most), "", 0),
        "hours": Between(*hours, "h", 1),
    }
    told = T_("dung %(dung)s + water %(water)s a day. Gas %(gas)s a day: cooks for %(persons)s people, one stove %(hours)s.", **said)
    return lines([*counted, told])


def _short_of(form, gas):
    people = form.get("people")
    if not people:
        return Text()
    need = tuple(people * each for each in PERSON_GAS_M3_D)
    said = {"people": Number(people, 0), "need": Between(*need, "m3")}
    if gas.high < need[0]:
        return T_("%(people)s people need %(need)s: gas is short, keep the old stove too.", **said)
    return T_("%(people)s people need %(need)s.", **said)


def _volume(made, plan):
    said = {
        "gas": Amount(made.gas_m3_per_day, "m3", 1),
        "inside": Amount(made.vessel.inside_m3, "m3", 1),
        "days": int(made.retention_d),
        "dung": Amount(made.feed.dung_kg_per_day, "kg", 0),
    }
    if "temp_c" in plan:
        return T_("Plant: %(gas)s gas a day, %(inside)s inside, dung stays %(days)s days.", **said)
    # a plant named after its gas or volume: the warm-climate figure, told as such
    return T_(
        "Plant of %(gas)s gas a day where it is warm, %(inside)s inside: %(dung)s dung and as much water a day, %(days)s days.", **said
    )


def _fix(site):
    return T_("Supervisor sends: fix %(site)s.", site=site.code)


def fix(form, site, sender, now):
    """The plan fixed: from a volume in the message, else from the last size reckoned for this site."""
    plan = plan_asked(form, site)
    if plan is None:
        sized = site.last("size")
        plan = sized.fields.get("plan") if sized else None
    if plan is None:
        return Answer(T_("%(site)s: no size on record. Send: size, animals, people. Nothing saved.", site=site.code))
    plan = dict(plan) | {name: form.get(name) for name in ("dome", "shape") if form.get(name)}
    made = design_of(plan_key(plan))
    head = foreman.head(site, T_("plan"), site.next_number)
    built = T_("The base is done already: what is built stays. If this was a mistake send: undo.") if _begun(site) else Text()
    text = lines([head, _volume(made, plan), _dimensions(made), T_("Test limit on record.")])
    told = lines([head, T_("fixed by %(name)s.", name=sender.name), _dimensions(made)])
    entry = Entry("fix", {"plan": plan, "greatest_pressure_pa": made.levels.greatest_pressure_pa})
    return Answer(text, (entry,), (Alert("mason", told),), lines([built, looked_at(made, site)]))


def _begun(site):
    """True where concrete of an older plan is in the ground."""
    return site.plan_now is not None and finished("base", site)


def _dimensions(made):
    vessel = made.vessel
    said = {
        "dome": DOMES[made.dome],
        "width": Size(made.pit_diameter_m),
        "depth": Size(made.pit_depth_m),
        "string": Size(vessel.sphere_radius_m),
    }
    text = T_("Dome: %(dome)s. Pit %(width)s wide, %(depth)s deep at the edge; dome string %(string)s.", **said)
    if vessel.bottom_depth_m:
        text += T_("Dish %(dish)s deeper.", dish=Size(vessel.bottom_depth_m))
    if vessel.wall_height_m:
        text += T_("Wall %(wall)s.", wall=Size(vessel.wall_height_m))
    return text + T_("Gas never above %(head)s.", head=Head(made.levels.greatest_pressure_pa))


def looked_at(made, site):
    """What a supervisor should look at before a plan is built, each with its number; nothing where there is nothing."""
    found = [_finding(made, *each) for each in findings(made)]
    return lines([foreman.head(site, T_("look at")), *found]) if found else Text()


def _finding(made, what, value, limit, unit):
    if what == "greatest_pressure":
        return T_("Gas up to %(value)s, usual %(limit)s at most.", value=Head(value), limit=Head(limit))
    if what == "soil_cover":
        said = {"cover": Size(value), "limit": Size(limit), "pull": Amount(from_si(made.crown_tension_pa(), "kPa"), "kPa", 0)}
        return T_("Soil over the crown %(cover)s, not %(limit)s: bare it is pulled at %(pull)s, no gas before it is covered.", **said)
    if what in ("mesh_share", "mesh_surface"):
        told = (100 * value, 100 * limit, "%") if what == "mesh_share" else (value, limit, unit)
        said = {"value": Amount(told[0], told[2]), "limit": Amount(told[1], told[2])}
        return T_("Mesh %(value)s of the skin, %(limit)s asked for liquids.", **said)
    said = {"what": what.replace("_", " "), "value": Size(value), "limit": Size(limit)}
    return T_("%(what)s %(value)s, least %(limit)s.", **said)


SIZE = Kind(
    name="size",
    about=T_("Size: your animals and people, or kg of dung a day."),
    example=T_("size n cows n people"),
    cues=(
        "act.size number",
        "act.size item.dung",
        "act.size -number -part",
        "act.died",
        "act.whole volume -part -act.gas -item -act.buy -money",
        "animal.cattle number -act.mix -act.in_pit -act.tumbled",
        "animal.buffalo number -act.mix -act.in_pit -act.tumbled",
        "animal number -act.mix -act.log -act.in_pit -act.tumbled",
        "mass item.dung act.daily",
        "bare item.dung act.daily",
        "mass item.dung act.site",
        "mass item.dung unit.d link.by -act.arrived -act.used -act.collect -act.feed -item.water",
    ),
    grammar="size",
    fields=(
        Field("cattle", (), 0, 30, "amount"),
        Field("buffalo", (), 0, 30, "amount"),
        Field("calves", (), 0, 30, "amount"),
        Field("goats", (), 0, 100, "amount"),
        Field("pigs", (), 0, 100, "amount"),
        Field("hens", (), 0, 1000, "amount"),
        Field("people", (), 0, 40, "amount"),
        Field("dung_kg_per_d", (), 1, 500, "amount"),
    ),
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
FIX = Kind(
    name="fix",
    about=T_("Fix: the supervisor fixes the plan of a site."),
    example=T_("fix SITE"),
    cues=("act.fix",),
    grammar="fix",
    roles=("supervisor",),
    answer=fix,
    private=True,
    proof=True,
)
