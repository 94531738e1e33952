"""A weighed mix: what it comes to, against the recipe of the job it is for."""

from bot.kinds.sand import moisture_of_day
from bot.phrases import T_, Amount, Number, Text, Volume, lines
from calc.checks import NOT_ENOUGH, OUTSIDE, WITHIN
from calc.mix import batches_needed
from calc.recipes import RECIPES, lean_stands, parts_over, sand_side
from calc.sources import RICHER, SOIL_WASTE
from calc.weighing import additive_in_range, most_water_l, stiffness, weighed


def checked(form, site, wanted, now):
    """(what a mix given by weight is, what goes with it); `wanted` is the recipe of its job, None where no plan says it."""
    if form.get("water_l") is None:
        return T_("how much water goes into it? Send the mix again with: nn l water."), Text()
    parts = (form.get("cement_kg"), form.get("sand_kg"), form.get("gravel_kg", 0.0))
    moisture = moisture_of_day(form, site, now)
    made = weighed(*parts, form.get("water_l"), form.get("additive_ml"), moisture=moisture or 0.0)
    sand = T_("Sand counted with %(water)s %% water.", water=Number(100 * moisture)) if moisture else T_("Sand counted dry.")
    return lines([_told(made), sand, *_against(made, wanted or RECIPES["base"])]), lines([_mixings(form, site, made), *_dose(made)])


def _told(made):
    told = {"sand": Number(made.sand_parts), "stone": Number(made.stone_parts), "wc": Number(made.water_cement, 2)}
    told |= {"yield": Volume(made.yield_m3)}
    if made.stone_parts:
        return T_("weighed, by volume 1:%(sand)s:%(stone)s, water/cement %(wc)s. Makes %(yield)s.", **told)
    return T_("weighed, by volume 1:%(sand)s, water/cement %(wc)s. Makes %(yield)s.", **told)


def _mixings(form, site, made):
    if form.get("job") != "base" or not site.design:
        return Text()
    count = batches_needed(site.design.base_volume_m3, made, SOIL_WASTE - 1)
    return T_("Base %(volume)s: %(count)s such mixings, not one.", volume=Volume(site.design.base_volume_m3), count=count)


def _dose(made):
    if made.additive_ml:
        dose = {"dose": Amount(made.additive_ml_per_bag, "ml", 0)}
        good = additive_in_range(made.additive_ml, made.cement_kg)
        yield (
            T_("Waterproofer %(dose)s to 50 kg: within 0.2-3 %% of the cement.", **dose)
            if good
            else T_("Waterproofer %(dose)s to 50 kg: outside 0.2-3 %% of the cement, read the label.", **dose)
        )


def _against(made, wanted):
    if bool(made.stone_parts) != bool(wanted.stone):
        gravel = T_("No gravel in this job: right is %(right)s.", right=wanted.ratio)
        yield gravel if made.stone_parts else T_("Gravel is missing: right is %(right)s.", right=wanted.ratio)
        return
    lean = lean_stands(made.mix, wanted)
    yield from _cement(made, wanted, lean)
    side = sand_side(made.mix)
    if side == "sandy":
        yield T_("Too much sand for its gravel.")
    if side == "harsh":
        yield T_("Too little sand for its gravel: harsh.")
    yield from _water(made, wanted, stiffness(made) if lean == WITHIN else None)


def _cement(made, wanted, lean):
    """How much sand and gravel there is to the cement."""
    said = {"right": wanted.ratio, "parts": Number(made.sand_parts + made.stone_parts, 2), "most": Number(wanted.sand + wanted.stone)}
    if lean == OUTSIDE:
        yield T_("Too little cement: %(parts)s parts to it, right is %(right)s.", **said)
    elif lean == NOT_ENOUGH:
        yield T_("%(parts)s parts to one of cement, %(right)s has %(most)s: not enough to tell, measure again.", **said)
    elif parts_over(made.mix, wanted) < RICHER:
        yield T_("Far more cement than %(right)s: it shrinks and cracks.", **said)


def _water(made, wanted, stiff):
    """How much water it has, for its strength and for the hands that work it."""
    most_l = most_water_l(made, wanted.water_cement)
    if made.water_cement > wanted.water_cement:
        yield (
            T_("Too wet: add at most %(water)s.", water=Amount(most_l, "l"))
            if most_l > 0
            else T_("Too wet: the sand alone brings too much, let it drain.")
        )
    elif stiff is not None and stiff.workable_water_cement <= wanted.water_cement:
        yield T_("Stiff by hand: add at most %(water)s.", water=Amount(most_l, "l"))
    elif stiff is not None:
        yield T_("Too stiff by hand, more water makes it weak: take more cement.")
