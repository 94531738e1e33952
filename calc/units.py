"""The one pint registry of the house, closed: it knows the units of units.txt and no other."""

from functools import cache
from pathlib import Path

import pint

from calc.errors import Unknown

registry = pint.UnitRegistry(None)
registry.load_definitions(str(Path(__file__).with_name("units.txt")))
Quantity = registry.Quantity
_SCALES = frozenset(("celsius", "fahrenheit"))  # their zero is not the kelvin's: no factor makes one of the other
_NAMES = frozenset(registry) - _SCALES  # every name, symbol and alias of units.txt; pint itself would also take "2", "ins", "dimensionless"


@cache
def _factor(unit):
    if unit not in _NAMES:
        raise Unknown(unit)
    return float(Quantity(1.0, unit).to_base_units().magnitude)


def si(value, unit):
    """Return `value` [`unit`] in SI base units.

    Parameters
    ----------
    value : float
        Number in `unit`.
    unit : str
        One name of units.txt, never an expression.

    Raises
    ------
    Unknown
        If no such unit is defined here.

    References
    ----------
    International yard and pound agreement, 1959: 1 ft = 0.3048 m exactly.

    Examples
    --------
    >>> round(si(2, "ft"), 4)
    0.6096
    """
    return value * _factor(unit)


def celsius(value, unit):
    """Return a temperature of `value` [`unit`] in degrees Celsius.

    Parameters
    ----------
    value : float
        Degrees of `unit`.
    unit : str
        "fahrenheit" or "celsius".

    Raises
    ------
    Unknown
        If the unit is no such scale.

    Notes
    -----
    Exact by definition of the scale: water freezes at 32 F and boils at 212 F.

    Examples
    --------
    >>> round(celsius(212, "fahrenheit"), 6)
    100.0
    """
    if unit not in _SCALES:
        raise Unknown(unit)
    return float(Quantity(value, unit).to("celsius").magnitude)


def from_si(value, unit):
    """Return `value` [SI base units] in `unit`, a name of units.txt.

    Examples
    --------
    >>> round(from_si(1.8796, "in"), 3)
    74.0
    """
    return value / _factor(unit)


@cache
def dimension(unit):
    """Return what a unit measures: "length", "area", "volume", "mass", "time", "pressure", "temperature".

    Raises
    ------
    Unknown
        If no such unit is defined here.

    Examples
    --------
    >>> dimension("brass")
    'volume'
    """
    _factor(unit)
    measured = Quantity(1.0, unit).dimensionality
    return next(name for name, like in _LIKE.items() if measured == Quantity(1.0, like).dimensionality)


_LIKE = {"length": "m", "area": "m2", "volume": "m3", "mass": "kg", "time": "s", "pressure": "Pa", "temperature": "K"}
