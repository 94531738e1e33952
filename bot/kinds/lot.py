"""The cement of one mixing, and what was named with it: sand, gravel and water against the most for that cement."""

from dataclasses import dataclass

from bot.kinds.container import cement_each_kg
from bot.phrases import T_, Amount, Number, Text, lines
from bot.titles import CONTAINERS
from calc.errors import Missing

TOLD = 0.005  # what the reply would not show


@dataclass(frozen=True)
class Lot:
    """The cement of one mixing: how many of what, and the mass of one [kg]."""

    each_kg: float
    count: float
    container: str | None = None  # a bag where none is named
    weighed: bool = False

    @property
    def whole(self):
        """True for one bag."""
        return self.container is None and self.count == 1

    @property
    def said(self):
        """The cement as it is counted out."""
        if self.container:
            count = Number(self.count)
            return T_("%(count)s level %(containers)s of cement", count=count, containers=CONTAINERS[self.container][1])
        if self.weighed:
            return T_("cement by weight")
        return T_("half a bag") if self.count == 0.5 else T_("1 bag")


def lot_of(form, site):
    """The cement of one mixing by hand: a bag, half a bag, or so many buckets that were measured with cement; else None."""
    bags = form.get("cement_bags", 1)
    if not form.get("cement_buckets") and bags < 1 and bags != 0.5:
        return Lot(bags * bag_of(site), 1, weighed=True)
    if not form.get("cement_buckets"):
        return Lot(bag_of(site), 0.5 if bags < 1 else 1)
    name = form.get("cement_measure")
    each_kg = cement_each_kg(site, name)
    if each_kg is None:
        return None
    most = int(2 * bag_of(site) / each_kg + 1e-9) / 2  # no more than a bag is mixed by hand at once
    return Lot(each_kg, max(min(int(2 * form.get("cement_buckets")) / 2, most), 0.5), name)


def mixings(form, lot):
    """How many mixings the cement that was named makes, at least one."""
    named = None if lot.weighed else form.get("cement_buckets" if lot.container else "cement_bags")
    return max(named or lot.count, lot.count) / lot.count


def counted(form, made, lot):
    """Sand and gravel that were named in measures, against the most for the cement they go with."""
    texts, times = [], mixings(form, lot)
    for name, most, title in (("sand_told", made.sand_measures, T_("Sand")), ("stone_told", made.stone_measures, T_("Gravel"))):
        if form.get(name) is None:
            continue
        said = {"item": title, "told": Number(form.get(name), 2), "most": Number(most * times, 2)}
        if form.get(name) > most * times + TOLD:
            texts.append(T_("%(item)s %(told)s is outside, at most %(most)s: too little cement.", **said))
        else:
            texts.append(T_("%(item)s %(told)s is within, at most %(most)s.", **said))
    return lines(texts)


def poured(form, made, lot):
    """The water that was named, against the most for the cement it goes with."""
    if form.get("poured_l") is None:
        return Text()
    most_l = made.water_l * mixings(form, lot)
    said = {"water": Amount(form.get("poured_l"), "l"), "most": Amount(most_l, "l")}
    if form.get("poured_l") > most_l + 0.05:
        return T_("%(water)s of water is outside, at most %(most)s: too wet is weak and leaks.", **said)
    return T_("%(water)s of water is within, at most %(most)s.", **said)


def bag_of(site):
    """The mass of a bag of cement here [kg]."""
    if site.rules.bag_kg is None:
        raise Missing("bag_kg")
    return site.rules.bag_kg
