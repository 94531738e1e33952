"""One mixing in the site's own containers, how many make the job, and a weighed mix checked."""

from bot import foreman, stops
from bot.forms import Answer, Entry, Field, Kind
from bot.phrases import T_, Amount, Number, Text, Volume, lines
from bot.stages import STAGES
from calc.amounts import plaster_volume
from calc.errors import Missing, OutOfRange
from calc.mix import batch, batches_needed
from calc.recipes import RECIPES, Recipe
from calc.sources import FORM_WASTE, MORTAR_WATER, SAND_SHARE, SOIL_WASTE, TIGHT_COAT_M
from calc.takeoff import tight_area_m2
from calc.units import from_si
from calc.weighing import additive_in_range, weighed

ELEMENTS = {"base": "base", "wall": "wall", "plaster": "plaster", "outlet": "outlet", "inlet": "outlet", "covers": "concrete"}
DOMES = {"brick": "dome_brick", "concrete": "concrete", "ferrocement": "ferrocement"}
HALVES = {0.0: "", 0.25: "1/4", 0.5: "1/2", 0.75: "3/4"}


def answer(form, site, sender, now):
    head = foreman.head(site, T_("mix"))
    if form.get("cement_kg"):
        return Answer(lines([head, *_checked(form, site)]))
    if form.get("ratio") and float(form.get("ratio").split(":")[0]) != 1:
        return Answer(T_("Cement comes first, as 1: mix 1:3 is one cement, three sand. Send the ratio so."))
    recipe = _recipe(form, site)
    if recipe is None:
        return Answer(T_("%(site)s has no plan yet: send the ratio, as mix 1:n.", site=site.code))
    measure_l = _measure_l(form, site)
    if form.get("cement_buckets"):
        return Answer(lines([head, T_("Cement by the bag or by kg, never by the bucket: a bucket may be 17 % short.")]))
    one = 0.5 if form.get("cement_bags", 1) < 1 else 1
    made = _mixing(recipe, site, measure_l, one)
    small = form.get("vol_m3") or _area_volume(form)
    if small and "cement_bags" not in form.fields and batches_needed(small, _mixing(recipe, site, measure_l, 0.5), _waste(form)) == 1:
        one, made = 0.5, _mixing(recipe, site, measure_l, 0.5)
    hazards = stops.at(site, form, now, tasks=frozenset({"mix"}))
    caution, rules = stops.reminder(hazards, site, now, "C")
    texts = [head, _told(form, recipe, one, made, measure_l, site), _job(form, site, made, one), caution]
    return Answer(lines(texts), (Entry("asked", form.fields, None, rules, held=stops.held(hazards)),) if rules else ())


def _mixing(recipe, site, measure_l, bags):
    return batch(recipe.sand, recipe.stone, recipe.water_cement, _bag_kg(site), bags, measure_l, measure_l)


def _bag_kg(site):
    if site.rules.bag_kg is None:
        raise Missing("bag_kg")
    return site.rules.bag_kg


def _measure_l(form, site):
    if form.get("bucket_m3"):
        return from_si(form.get("bucket_m3"), "l")
    litres = site.rules.litres.get(site.rules.bucket)
    if litres is None:
        raise Missing("bucket_l")
    return litres


def _recipe(form, site):
    """The recipe of the ratio given, else of the job."""
    if form.get("ratio"):
        sand, stone = ([float(part) for part in form.get("ratio").split(":")[1:]] + [0.0])[:2]
        known = next((r for r in RECIPES.values() if (r.sand, r.stone) == (sand, stone)), None)
        return known or Recipe("", sand, stone, _water_cement(sand, stone))
    job = form.get("job")
    if job == "dome":
        return RECIPES[DOMES[site.design.dome]] if site.design else None
    return RECIPES[ELEMENTS[job]]


def _water_cement(sand, stone):
    """The most water for a ratio that is no element's own: the limit of the next richer mix on record."""
    if stone:
        return max(
            (r for r in RECIPES.values() if r.stone and r.sand <= sand), key=lambda r: r.sand, default=RECIPES["concrete"]
        ).water_cement
    richer = [limit for parts, limit in MORTAR_WATER if parts <= sand]
    if not richer:
        raise OutOfRange("sand", sand, MORTAR_WATER[0][0], MORTAR_WATER[-1][0], "parts")
    return float(richer[-1])


def _told(form, recipe, bags, made, measure_l, site):
    said = {
        "ratio": recipe.ratio,
        "bags": T_("half a bag") if bags == 0.5 else T_("1 bag"),
        "kg": Amount(site.rules.bag_kg * bags, "kg"),
        "sand": halves(made.sand_measures),
        "measure": Amount(measure_l, "l"),
        "water": Amount(made.water_l, "l"),
        "yield": Volume(made.yield_m3),
    }
    named = T_("for the %(job)s", job=STAGES[form.get("job")].title) if form.get("job") else Text()
    if recipe.stone:
        measures = T_("sand %(sand)s, gravel %(stone)s buckets of %(measure)s level", stone=halves(made.stone_measures), **said)
    else:
        measures = T_("sand %(sand)s buckets of %(measure)s level", **said)
    text = T_(
        "%(ratio)s, %(bags)s (%(kg)s): %(measures)s, water at most %(water)s, less if sand is wet. Makes %(yield)s.",
        measures=measures,
        **said,
    )
    return named + text


def halves(number):
    """A number of measures the way it is counted: 12.5 -> "12 1/2"."""
    whole, part = int(number), HALVES[number % 1]
    return " ".join(piece for piece in (str(whole) if whole or not part else "", part) if piece)


def _job(form, site, made, bags):
    """How many mixings make the volume asked for, the whole job, or the bags named."""
    named = form.get("cement_bags")
    if named and named > 1:
        said = {"bags": Number(named, 1), "volume": Volume(named * made.yield_m3)}
        return T_("Mix one bag at a time; %(bags)s bags make %(volume)s.", **said)
    volume_m3 = form.get("vol_m3") or _area_volume(form) or (None if named else _whole(form, site))
    if not volume_m3:
        return Text()
    count = batches_needed(volume_m3, made, _waste(form))
    said = {"volume": Volume(volume_m3), "count": count, "bags": Number(count * bags, 1)}
    return T_("Once is enough for %(volume)s.", **said) if count == 1 else T_("%(volume)s takes %(count)s mixings, %(bags)s bags.", **said)


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


def _checked(form, site):
    """A weighed mix: what it comes to, against the element it is for."""
    made = weighed(
        *(form.get(name) for name in ("cement_kg", "sand_kg")), form.get("gravel_kg", 0.0), _water(form), form.get("additive_ml")
    )
    said = {
        "sand": Number(made.sand_parts),
        "stone": Number(made.stone_parts),
        "yield": Volume(made.yield_m3),
        "wc": Number(made.water_cement, 2),
    }
    yield T_("weighed, by volume 1:%(sand)s:%(stone)s, water/cement %(wc)s. Makes %(yield)s.", **said)
    if form.get("job") == "base" and site.design:
        count = batches_needed(site.design.base_volume_m3, made, SOIL_WASTE - 1)
        yield T_("Base %(volume)s: %(count)s such mixings, not one.", volume=Volume(site.design.base_volume_m3), count=count)
    wanted = RECIPES["base"]
    if made.water_cement > wanted.water_cement:
        yield T_("Too wet: water at most %(water)s.", water=Amount(wanted.water_cement * made.cement_kg, "l"))
    share = made.sand_parts / (made.sand_parts + made.stone_parts)
    if made.stone_parts and share > SAND_SHARE[1]:
        yield T_("Too much sand for its gravel.")
    if form.get("additive_ml"):
        good = additive_in_range(form.get("additive_ml"), made.cement_kg)
        yield (
            T_("Waterproofer within 0.2-3 %% of the cement.")
            if good
            else T_("Waterproofer outside 0.2-3 %% of the cement: read the label.")
        )


def _water(form):
    if form.get("water_l") is None:
        raise Missing("water_l")
    return form.get("water_l")


KIND = Kind(
    name="mix",
    about=T_("Mix: for a job, a ratio or a volume; in bags."),
    example="mix base n bags",
    cues=("act.mix", "ratio -field.slope", "mass item.cement item.sand", "act.how_many item container -act.left -act.need -act.buy"),
    grammar="mix",
    fields=(
        Field("cement_bags", (), 0.1, 80, "amount"),
        Field("vol_m3", (), 0.001, 40, "amount"),
        Field("area_m2", (), 0.01, 500, "amount"),
        Field("bucket_m3", (), 0.001, 0.05, "amount"),
        Field("coat_thick_m", (), 0.002, 0.3, "amount"),
    ),
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
