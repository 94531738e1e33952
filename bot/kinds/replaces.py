"""What the gas saves: firewood, charcoal, kerosene or LPG, as a range."""

from bot import foreman
from bot.forms import Answer, Field, Kind
from bot.phrases import T_, Amount, Between, Series, lines
from calc.fuels import replaced

NAMES = {"firewood": T_("firewood"), "charcoal": T_("charcoal"), "kerosene": T_("kerosene"), "lpg": T_("LPG")}
UNITS = {"kerosene": "l"}


def answer(form, site, sender, now):
    gas_m3 = form.get("gas_m3_per_d") or (site.design.gas_m3_per_day if site.design else None)
    if gas_m3 is None:
        return Answer(T_("%(site)s: no gas figure in the plan. Send the gas too, as: nnn m3 gas saves how much wood.", site=site.code))
    fuels = [form.get("fuel")] if form.get("fuel") else list(NAMES)
    told = Series(tuple(_each(fuel, gas_m3) for fuel in fuels))
    texts = [
        foreman.head(site, T_("saving")),
        T_("%(gas)s gas a day, all of it burnt, replaces %(fuels)s a day.", gas=Amount(gas_m3, "m3", 2), fuels=told),
        T_("Count on the lower number: the old stove decides."),
    ]
    return Answer(lines([*texts, *([T_("One of them, not all.")] if len(fuels) > 1 else [])]))


def _each(fuel, gas_m3):
    return T_("%(fuel)s %(amount)s", fuel=NAMES[fuel], amount=Between(*replaced(fuel, gas_m3), UNITS.get(fuel, "kg"), 2))


KIND = Kind(
    name="replaces",
    about=T_("Saving: how much firewood, charcoal, kerosene or LPG the gas replaces."),
    example=T_("how much firewood does it save"),
    cues=("fuel act.saves", "act.saves act.gas -act.test", "fuel act.how_many act.gas"),
    grammar="replaces",
    fields=(Field("gas_m3_per_d", (), 0.05, 20, "amount"),),
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
