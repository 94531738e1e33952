"""One mixing in the site's own containers, how many make the job, and a weighed mix checked."""

from dataclasses import replace

from bot import foreman, stops
from bot.forms import Answer, Entry, Field, Kind
from bot.kinds.lot import Lot, bag_of, counted, lot_of, poured
from bot.kinds.sand import jar_of, moisture_of_day
from bot.kinds.weighed import checked
from bot.phrases import T_, Amount, Between, Number, Text, Volume, lines
from bot.stages import STAGES
from bot.titles import CONTAINERS, SANDS
from calc.amounts import plaster_volume
from calc.errors import OutOfRange
from calc.measuring import bulking_of
from calc.mix import batch, batches_needed
from calc.recipes import RECIPES, Recipe, suits
from calc.sources import FORM_WASTE, MORTAR_WATER, SOIL_WASTE, TIGHT_COAT_M
from calc.takeoff import tight_area_m2
from calc.units import from_si, si

ELEMENTS = {"base": "base", "wall": "wall", "plaster": "plaster", "outlet": "outlet", "inlet": "outlet", "covers": "concrete"}
DOMES = {"brick": "dome_brick", "concrete": "concrete", "ferrocement": "ferrocement"}
HALVES = {0.0: "", 0.25: "1/4", 0.5: "1/2", 0.75: "3/4"}


def answer(form, site, sender, now):
    head = foreman.head(site, T_("mix"))
    if form.get("cement_kg"):
        told, then = checked(form, site, _of_job(form.get("job", "base"), site), now)
        return Answer(lines([head, told]), then=then)
    if form.get("ratio") and float(form.get("ratio").split(":")[0]) != 1:
        return Answer(T_("Cement comes first, as 1: mix 1:3 is one cement, three sand. Send the ratio so."))
    beyond = _beyond(form)
    if beyond is not None:
        return Answer(lines([head, beyond]))
    recipe, remark = _suited(form, site)
    if recipe is None:
        return Answer(T_("%(site)s has no plan yet: send the ratio, as mix 1:n.", site=site.code))
    name, measure_l = _measure(form, site)
    if measure_l is None:
        return Answer(
            T_(
                "How many litres is one %(container)s? Nothing saved. Send: %(container)s nn l, then the mix.",
                container=CONTAINERS[name][0],
            )
        )
    lot = lot_of(form, site)
    if lot is None:
        return Answer(lines([head, T_("Cement by the bag or by kg, never by the bucket: a bucket may be 17 %% short.")]))
    mixing = _mixer(form, recipe, site, measure_l, now)
    try:
        made = mixing(lot)
    except OutOfRange as fault:
        if fault.name != "lost_share":
            raise
        return Answer(
            lines([head, T_("a %(container)s is too big to measure this: use a bucket or a pan.", container=CONTAINERS[name][0])])
        )
    small = form.get("vol_m3") or _area_volume(form)
    half = Lot(bag_of(site), 0.5)
    if small and lot.whole and "cement_bags" not in form.fields and batches_needed(small, mixing(half), _waste(form)) == 1:
        lot, made = half, mixing(half)
    hazards = stops.at(site, form, now, tasks=frozenset({"mix"}))
    caution, rules = stops.reminder(hazards, site, now, "C")
    texts = [head, remark, _told(form, recipe, lot, made, name, measure_l, remark), counted(form, made, lot), poured(form, made, lot)]
    texts.append(_sand(form, site, now))
    entries = (Entry("asked", form.fields, None, rules, held=stops.held(hazards)),) if rules else ()
    return Answer(lines(texts), entries, then=lines([_job(form, site, made, lot), caution]))


def _mixer(form, recipe, site, measure_l, now):
    """A function of a Lot that makes the mixing of this recipe with the sand of today."""
    jar, moisture = jar_of(site, now), moisture_of_day(form, site, now)
    wet = {} if moisture is None else {"moisture": moisture}
    if jar is not None:
        wet |= {"bulking": jar, "jar_tested": True}
    elif form.get("sand"):
        wet["bulking"] = float(bulking_of(form.get("sand")))
    return lambda lot: batch(recipe.sand, recipe.stone, recipe.water_cement, lot.each_kg, lot.count, measure_l, measure_l, **wet)


def _sand(form, site, now):
    """What the sand of this mixing was taken to be."""
    jar = jar_of(site, now)
    if jar is not None:
        return T_("Sand bulked %(bulking)s %% by the jar of today.", bulking=Number(100 * jar))
    if form.get("sand"):
        bulking = Number(100 * bulking_of(form.get("sand")))
        return T_("%(sand)s taken as %(bulking)s %% bulked; a jar test says more.", sand=SANDS[form.get("sand")], bulking=bulking)
    return T_("Jar test is of another day, not used.") if site.last("jar") is not None else Text()


def _measure(form, site):
    """(container, litres it holds here or None) that sand and gravel are measured with."""
    name = form.get("measure") or site.rules.bucket
    if form.get("bucket_m3"):
        return name, from_si(form.get("bucket_m3"), "l")
    return name, site.litres.get(name)


def _suited(form, site):
    """(recipe, remark): the ratio that is asked for, or the right one where it is too weak for the job."""
    asked, job = _recipe(form, site), form.get("job")
    right = _of_job(job, site) if job and form.get("ratio") else None
    if right is None:
        return asked, Text()
    if suits(asked, right):  # the job may want it drier than its ratio alone
        return replace(asked, water_cement=min(asked.water_cement, right.water_cement)), Text()
    said = {"ratio": form.get("ratio"), "job": STAGES[job].title, "right": right.ratio}
    return right, T_("%(ratio)s is outside for the %(job)s, right is %(right)s:", **said)


def _beyond(form):
    """What is said to a mortar that is leaner or richer than the figures reach, or None."""
    parts = [float(part) for part in form.get("ratio").split(":")[1:]] if form.get("ratio") else []
    least, most = MORTAR_WATER[0][0], MORTAR_WATER[-1][0]
    if len(parts) != 1 or least <= parts[0] <= most:
        return None
    return T_("mortar is covered from 1:%(least)s to 1:%(most)s. Send such a ratio, or the job.", least=least, most=most)


def _recipe(form, site):
    """The recipe of the ratio given, else of the job."""
    if form.get("ratio"):
        sand, stone = ([float(part) for part in form.get("ratio").split(":")[1:]] + [0.0])[:2]
        known = next((r for r in RECIPES.values() if (r.sand, r.stone) == (sand, stone)), None)
        return known or Recipe("", sand, stone, _water_cement(sand, stone))
    return _of_job(form.get("job"), site)


def _of_job(job, site):
    """The recipe of a job; of a dome by the plan, or None where there is none."""
    if job == "dome":
        return RECIPES[DOMES[site.design.dome]] if site.design else None
    return RECIPES[ELEMENTS[job]]


def _water_cement(sand, stone):
    """The most water for a ratio that is no element's own: the limit of the next richer mix on record."""
    if stone:
        return max(
            (r for r in RECIPES.values() if r.stone and r.sand <= sand), key=lambda r: r.sand, default=RECIPES["concrete"]
        ).water_cement
    return float([limit for parts, limit in MORTAR_WATER if parts <= sand][-1])


def _told(form, recipe, lot, made, name, measure_l, remark):
    said = {
        "ratio": recipe.ratio,
        "cement": lot.said,
        "kg": Amount(lot.each_kg * lot.count, "kg"),
        "sand": halves(made.sand_measures),
        "containers": CONTAINERS[name][1],
        "litres": Amount(measure_l, "l"),
        "water": Amount(made.water_l, "l"),
        "yield": _band(1, made),
    }
    named = T_("for the %(job)s", job=STAGES[form.get("job")].title) if form.get("job") and not remark else Text()
    if recipe.stone:
        measures = T_("sand %(sand)s, gravel %(stone)s %(containers)s of %(litres)s level", stone=halves(made.stone_measures), **said)
    else:
        measures = T_("sand %(sand)s %(containers)s of %(litres)s level", **said)
    text = T_(
        "%(ratio)s, %(cement)s (%(kg)s): %(measures)s, water at most %(water)s, less if sand is wet. Makes %(yield)s.",
        measures=measures,
        **said,
    )
    return named + text


def _band(count, made):
    """What so many mixings make at least and at most: sand and gravel lie loose or dense."""
    low, high = count * made.low_yield_m3, count * made.yield_m3
    return Between(from_si(low, "l"), from_si(high, "l"), "l", 0) if high < si(300, "l") else Between(low, high, "m3", 2)


def halves(number):
    """A number of measures the way it is counted: 12.5 -> "12 1/2"."""
    whole, part = int(number), HALVES[number % 1]
    return " ".join(piece for piece in (str(whole) if whole or not part else "", part) if piece)


def _job(form, site, made, lot):
    """How many mixings make the volume asked for, the whole job, or the cement named."""
    named = None if lot.weighed else form.get("cement_bags") or form.get("cement_buckets")
    if lot.weighed and not (form.get("vol_m3") or _area_volume(form)):
        return Text()
    if named and named > lot.count:
        said = {"count": Number(named, 1), "volume": _band(named / lot.count, made)}
        if lot.container:
            return T_("Mix no more at a time; %(count)s %(containers)s make %(volume)s.", containers=CONTAINERS[lot.container][1], **said)
        return T_("Mix one bag at a time; %(count)s bags make %(volume)s.", **said)
    volume_m3 = form.get("vol_m3") or _area_volume(form) or (None if named else _whole(form, site))
    if not volume_m3:
        return Text()
    count = batches_needed(volume_m3, made, _waste(form))
    said = {"volume": Volume(volume_m3), "count": count, "bags": Amount(count * lot.each_kg * lot.count / bag_of(site), "bags")}
    return T_("Once is enough for %(volume)s.", **said) if count == 1 else T_("%(volume)s takes %(count)s mixings, %(bags)s.", **said)


def _waste(form):
    return SOIL_WASTE - 1 if form.get("job") == "base" else FORM_WASTE


def _area_volume(form):
    if not form.get("area_m2"):
        return None
    return plaster_volume(form.get("area_m2"), form.get("coat_thick_m") or float(TIGHT_COAT_M), "brick")


def _whole(form, site):
    """The volume of a whole job by the plan, where one mix makes it."""
    made, job = site.design, form.get("job")
    if made is None:
        return None
    if job == "base":
        return made.base_volume_m3
    if job == "plaster":
        return plaster_volume(tight_area_m2(made), float(TIGHT_COAT_M), "brick")
    return None


KIND = Kind(
    name="mix",
    about=T_("Mix: for a job, a ratio or a volume; in bags."),
    example=T_("mix base n bags"),
    cues=(
        "act.mix",
        "ratio -field.slope",
        "mass item.cement item.sand",
        "material part -number -act -not -unsure -state -danger -asked",
        "material part volume",
        "material link.to number container -act.used -act.arrived -act.have -act.left -asked",
        "material part container -act.used -act.arrived -act.have -act.left",
        "act.how_many item container -act.left -act.need -act.buy",
    ),
    grammar="mix",
    fields=(
        Field("cement_bags", (), 0.1, 80, "amount"),
        Field("vol_m3", (), 0.001, 40, "amount"),
        Field("area_m2", (), 0.01, 500, "amount"),
        Field("bucket_m3", (), 0.001, 0.05, "amount"),
        Field("sand_told", (), 0.1, 200, "amount"),
        Field("stone_told", (), 0.1, 400, "amount"),
        Field("poured_l", (), 0.5, 2000, "amount"),
        Field("coat_thick_m", (), 0.002, 0.3, "amount"),
    ),
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
