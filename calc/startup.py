"""From the last test to the lit stove: the first charge, the wait for gas, fillings let off outside, the daily feed."""

from dataclasses import dataclass

from calc import sources as s
from calc.errors import Unknown, require
from calc.takeoff import first_fill
from calc.units import from_si


@dataclass(frozen=True)
class Charge:
    """The first charge of a plant.

    Attributes
    ----------
    dung_kg, water_l : float
        Fresh dung [kg] and water [l], half and half, up to the zero line.
    inoculum_l : float
        How much of it should be slurry of a running plant or cattle dung [l].
    dung_days : float or None
        Days of the plant's own dung it takes [d]; None where its feed is not known.
    """

    dung_kg: float
    water_l: float
    inoculum_l: float
    dung_days: float | None


def first_charge(design, dung="cattle"):
    """Return the Charge that fills a plant to its zero line.

    Parameters
    ----------
    design : Design
        The plant.
    dung : str
        "cattle", "pig", "hen" or "person".

    Raises
    ------
    Unknown
        If there is no figure for that dung.

    Notes
    -----
    Half dung, half water by volume, a litre of each taken as a kilogram. Dung of pigs and hens starts slowly alone.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> charge = first_charge(for_gas(2.0))
    >>> charge.dung_kg == charge.water_l, round(charge.inoculum_l / (charge.dung_kg + charge.water_l), 2)
    (True, 0.1)
    """
    if dung not in s.INOCULUM_SHARE:
        raise Unknown(dung, tuple(s.INOCULUM_SHARE))
    dung_kg, water_l = first_fill(design)
    days = dung_kg / design.feed.dung_kg_per_day if design.feed else None
    return Charge(dung_kg, water_l, (dung_kg + water_l) * float(s.INOCULUM_SHARE[dung]), days)


def dung_left_kg(charge, collected_kg):
    """Return the dung still to be collected [kg], never below zero.

    Raises
    ------
    OutOfRange
        If `collected_kg` is negative.

    Examples
    --------
    >>> dung_left_kg(Charge(3500.0, 3500.0, 700.0, 73.0), 1200)
    2300.0
    """
    require("collected_kg", collected_kg, low=0, unit="kg")
    return max(charge.dung_kg - collected_kg, 0.0)


def first_gas_d(temp_c):
    """Return (fewest, most) days from the first fill until the gas burns [d].

    Parameters
    ----------
    temp_c : float
        Temperature of the digester [C], 20 to 30.

    Raises
    ------
    OutOfRange
        If it is colder or warmer than the figures reach.

    Notes
    -----
    Cattle dung; the figures are from memory.

    Examples
    --------
    >>> first_gas_d(27), first_gas_d(22)
    ((10.0, 20.0), (20.0, 40.0))
    """
    low, high = s.FIRST_GAS_D[0][0][0], s.FIRST_GAS_D[-1][0][1]
    require("temp_c", temp_c, low, high, "C", s.FIRST_GAS_D[0][1][0].source)
    days = next(days for (_, to_c), days in s.FIRST_GAS_D if temp_c < to_c or to_c == high)
    return float(days[0]), float(days[1])


def fillings_left(heads_m):
    """Return how many full fillings of gas must still be let off outside before a flame at the stove.

    Parameters
    ----------
    heads_m : sequence of float or None
        Head of water from which each filling was let off since the plant was filled [m]; None where nobody read it.

    Raises
    ------
    OutOfRange
        If a head is negative.

    Notes
    -----
    A filling that was not read, or stood lower than half a metre, counts for nothing: missing is not yes.

    Examples
    --------
    >>> fillings_left([]), fillings_left([0.6, None]), fillings_left([0.6, 0.3, 0.7])
    (2, 1, 0)
    """
    for head_m in heads_m:
        if head_m is not None:
            require("head_m", head_m, low=0, unit="m")
    full = sum(head_m is not None and head_m >= s.VENTED_HEAD_M for head_m in heads_m)
    return max(int(s.VENTED_FILLINGS) - full, 0)


def feed_load(dung_kg_per_day, inside_m3):
    """Return (kg of dung a day and m3 inside, "under", "within" or "over").

    Raises
    ------
    OutOfRange
        If a value is not above zero.

    Examples
    --------
    >>> feed_load(48, 8.0)
    (6.0, 'within')
    """
    require("dung_kg_per_day", dung_kg_per_day, low=1e-9, unit="kg")
    require("inside_m3", inside_m3, low=1e-9, unit="m3")
    load = dung_kg_per_day / inside_m3
    least, most = s.FEED_KG_M3
    return load, "under" if load < least else "over" if load > most else "within"


def mixing_tank_l(feed):
    """Return (least, most) useful volume of the mixing tank of a Feed [l].

    Examples
    --------
    >>> from calc.sizing import feed_from_dung
    >>> mixing_tank_l(feed_from_dung(48))
    (144.0, 192.0)
    """
    day_l = from_si(feed.slurry_m3_per_day, "l")
    least, most = s.MIXING_TANK_DAYS
    return least * day_l, most * day_l
