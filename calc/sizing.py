"""From animals and dung to the daily feed, the volumes a plant must hold, and whom its gas serves."""

from dataclasses import dataclass

from calc import sources as s
from calc.errors import Unknown, require

CATTLE = ("local_cow", "cow", "bullock", "buffalo", "calf")


@dataclass(frozen=True)
class Feed:
    """What goes into a plant in a day: dung [kg], water [l], and what the gas estimates need.

    `gas_dung_kg` is the dung weighted by its nominal gas relative to cattle dung; `cattle` counts grown cattle,
    or is None where only dung was weighed.
    """

    dung_kg_per_day: float
    water_l_per_day: float
    gas_dung_kg: float
    cattle: float | None = None

    @property
    def slurry_m3_per_day(self):
        """Dung and water together [m3/d], 1 kg of dung counted as 1 l."""
        return (self.dung_kg_per_day + self.water_l_per_day) / s.WATER_KG_M3


@dataclass(frozen=True)
class Volumes:
    """What a plant must hold [m3]: digesting slurry, gas store, dead space above the highest slurry."""

    digester_m3: float
    store_m3: float
    dead_m3: float

    @property
    def inside_m3(self):
        """The whole inside volume [m3]."""
        return self.digester_m3 + self.store_m3 + self.dead_m3


def feed_from_dung(dung_kg_per_day, animal="cattle"):
    """Return the daily Feed for fresh dung weighed on site.

    Parameters
    ----------
    dung_kg_per_day : float
        Fresh dung [kg/d].
    animal : {"cattle", "pig", "hen"}
        Whose dung it is; sets the water.

    Returns
    -------
    Feed
        Dung [kg/d] and water [l/d].

    Raises
    ------
    OutOfRange
        If the dung is not above zero.
    Unknown
        If there is no water figure for the animal.

    References
    ----------
    Water 1:1 for cattle: GGC 2047 construction manual, table 1.

    Examples
    --------
    >>> feed_from_dung(30).slurry_m3_per_day
    0.06
    """
    require("dung_kg_per_day", dung_kg_per_day, low=1e-9, unit="kg/d")
    if animal not in s.WATER_PER_DUNG:
        raise Unknown(animal, s.WATER_PER_DUNG)
    return Feed(dung_kg_per_day, dung_kg_per_day * s.WATER_PER_DUNG[animal], dung_kg_per_day * _gas_weight(animal))


def feed_from_animals(animals, kept="stabled"):
    """Return the daily Feed from a count of animals.

    Parameters
    ----------
    animals : mapping
        Kind (local_cow, cow, bullock, buffalo, calf, pig, goat, hen) -> number of head.
    kept : {"stabled", "night"}
        Whether dung falls in the stable all day or only at night.

    Returns
    -------
    Feed
        Dung [kg/d] and water [l/d] with the design figure of each animal.

    Raises
    ------
    Unknown
        If an animal or a way of keeping is not in the tables; stock that only grazes cannot be sized.
    OutOfRange
        If a count is negative or no dung comes out.

    Notes
    -----
    Design figures lie below those of well-fed European stock by two to four times; weighing on several days is better.

    Examples
    --------
    >>> feed_from_animals({"local_cow": 4}).dung_kg_per_day
    32.0
    """
    if kept not in s.COLLECTED:
        raise Unknown(kept, s.COLLECTED)
    dung = water = gas_dung = 0.0
    for animal, number in animals.items():
        if animal not in s.DUNG:
            raise Unknown(animal, s.DUNG)
        require(animal, number, low=0)
        share = min(s.COLLECTED[kept], s.GOAT_COLLECTED) if animal == "goat" else s.COLLECTED[kept]
        kg, group = number * s.DUNG[animal][1] * share, "cattle" if animal in (*CATTLE, "goat") else animal
        dung, gas_dung = dung + kg, gas_dung + kg * _gas_weight(group)
        water += kg * s.WATER_PER_DUNG[group]
    require("dung_kg_per_day", dung, low=1e-9, unit="kg/d")
    grown = sum(animals.get(kind, 0) for kind in CATTLE if kind != "calf")
    only_grown_cattle = grown and not any(n for kind, n in animals.items() if kind not in CATTLE or kind == "calf")
    return Feed(dung, water, gas_dung, grown if only_grown_cattle else None)


def _gas_weight(animal):
    nominal = {"cattle": s.NOMINAL_YIELD_M3_KG, "pig": s.NOMINAL_PIG_YIELD_M3_KG, "hen": s.NOMINAL_HEN_YIELD_M3_KG}
    return nominal[animal] / s.NOMINAL_YIELD_M3_KG


def nominal_dung(gas_m3_per_day):
    """Return the fresh cattle dung [kg/d] that a nominal plant of `gas_m3_per_day` [m3/d] is named after.

    References
    ----------
    Criteria for the Dissemination of Biogas Plants, GTZ 1993: 25 kg for 1 m3 a day; the warm-climate figure.

    Examples
    --------
    >>> nominal_dung(2.0)
    50.0
    """
    require("gas_m3_per_day", gas_m3_per_day, low=1e-9, unit="m3/d")
    return gas_m3_per_day / s.NOMINAL_YIELD_M3_KG


def volumes(slurry_m3_per_day, retention, gas_m3_per_day, store_share=s.STORE_SHARE):
    """Return the Volumes a plant must hold [m3].

    Parameters
    ----------
    slurry_m3_per_day : float
        Dung and water a day [m3/d].
    retention : float
        Retention time [d].
    gas_m3_per_day : float
        Gas a day [m3/d].
    store_share : float
        Gas store as a share of a day's gas [1], 0.6 unless said.

    Raises
    ------
    OutOfRange
        If a value is not above zero.

    Notes
    -----
    digester = feed x retention; store = share x gas; dead space 20 % of both together.

    References
    ----------
    ter Heegde 2010, sizes 1 and 2.

    Examples
    --------
    >>> v = volumes(0.05, 60, 1.5)
    >>> v.digester_m3, round(v.store_m3, 3), round(v.inside_m3, 3)
    (3.0, 0.9, 4.68)
    """
    for name, value in (("slurry_m3_per_day", slurry_m3_per_day), ("retention", retention)):
        require(name, value, low=1e-9)
    require("gas_m3_per_day", gas_m3_per_day, low=1e-9, unit="m3/d")
    require("store_share", store_share, low=1e-9, high=1)
    digester, store = slurry_m3_per_day * retention, store_share * gas_m3_per_day
    return Volumes(digester, store, s.DEAD_SHARE * (digester + store))


def persons(gas_m3_per_day):
    """Return how many persons' cooking the gas covers, as (fewest, most).

    References
    ----------
    0.40 m3 a person and day (350-450 l, Indian teaching text) to 0.24 (old Indian rule, from memory).

    Examples
    --------
    >>> tuple(round(n, 2) for n in persons(1.2))
    (3.0, 5.0)
    """
    low, high = s.PERSON_GAS_M3_D
    return gas_m3_per_day / high, gas_m3_per_day / low


def stove_hours(gas_m3_per_day):
    """Return the hours one stove burns on a day's gas [h], as (fewest, most).

    Examples
    --------
    >>> tuple(round(h, 2) for h in stove_hours(1.2))
    (3.0, 4.0)
    """
    low, high = s.STOVE_GAS_M3_H
    return gas_m3_per_day / high, gas_m3_per_day / low


def store_share_held(inside_m3, slurry_m3_per_day, retention, gas_m3_per_day):
    """Return what share of a day's gas [1] a body still stores after holding the feed for the retention time.

    Parameters
    ----------
    inside_m3 : float
        Inside volume [m3], no dead space counted.
    slurry_m3_per_day, retention, gas_m3_per_day : float
        Feed [m3/d], retention [d] and gas [m3/d].

    Returns
    -------
    float
        (inside - feed x retention) / gas; negative where the feed alone does not fit.

    Examples
    --------
    >>> round(store_share_held(4.8, 0.1, 40, 2.0), 2)
    0.4
    """
    require("gas_m3_per_day", gas_m3_per_day, low=1e-9, unit="m3/d")
    return (inside_m3 - slurry_m3_per_day * retention) / gas_m3_per_day
