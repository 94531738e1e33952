"""A weighed mix: what it comes to, against the recipe of the job it is for."""

from bot.phrases import T_, Amount, Number, Volume
from calc.mix import batches_needed
from calc.recipes import RECIPES
from calc.sources import LEANER, SAND_SHARE, SOIL_WASTE
from calc.weighing import additive_in_range, weighed


def checked(form, site, wanted):
    """Yield the sentences about a mix given by weight; `wanted` is the recipe of its job, None where no plan says it."""
    wanted = wanted or RECIPES["base"]
    if form.get("water_l") is None:
        yield T_("how much water goes into it? Send the mix again with: nn l water.")
        return
    parts = (form.get("cement_kg"), form.get("sand_kg"), form.get("gravel_kg", 0.0))
    made = weighed(*parts, form.get("water_l"), form.get("additive_ml"))
    told = {"sand": Number(made.sand_parts), "stone": Number(made.stone_parts), "wc": Number(made.water_cement, 2)}
    told |= {"yield": Volume(made.yield_m3)}
    if made.stone_parts:
        yield T_("weighed, by volume 1:%(sand)s:%(stone)s, water/cement %(wc)s. Makes %(yield)s.", **told)
    else:
        yield T_("weighed, by volume 1:%(sand)s, water/cement %(wc)s. Makes %(yield)s.", **told)
    if form.get("job") == "base" and site.design:
        count = batches_needed(site.design.base_volume_m3, made, SOIL_WASTE - 1)
        yield T_("Base %(volume)s: %(count)s such mixings, not one.", volume=Volume(site.design.base_volume_m3), count=count)
    yield from _against(made, wanted)
    if form.get("additive_ml"):
        good = additive_in_range(form.get("additive_ml"), made.cement_kg)
        yield (
            T_("Waterproofer within 0.2-3 %% of the cement.")
            if good
            else T_("Waterproofer outside 0.2-3 %% of the cement: read the label.")
        )


def _against(made, wanted):
    if made.water_cement > wanted.water_cement:
        yield T_("Too wet: water at most %(water)s.", water=Amount(wanted.water_cement * made.cement_kg, "l"))
    if made.stone_parts and not wanted.stone:
        yield T_("No gravel in this job: right is %(right)s.", right=wanted.ratio)
    elif made.sand_parts + made.stone_parts > (wanted.sand + wanted.stone) * LEANER:
        yield T_("Too little cement: right is %(right)s.", right=wanted.ratio)
    if made.stone_parts and made.sand_parts / (made.sand_parts + made.stone_parts) > SAND_SHARE[1]:
        yield T_("Too much sand for its gravel.")
