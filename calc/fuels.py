"""What biogas is worth: its heat, and the fuels it replaces, as ranges."""

from calc import sources as s
from calc.errors import Unknown, require


def heat_j(gas_m3, methane_share=s.METHANE_SHARE):
    """Return the heat in biogas [J], water leaving as vapour.

    Raises
    ------
    OutOfRange
        If the gas is negative or the share of methane is not one.

    Examples
    --------
    >>> round(heat_j(1.0) / 1e6, 2)
    21.54
    """
    require("gas_m3", gas_m3, low=0, unit="m3")
    require("methane_share", methane_share, 0, 1)
    return gas_m3 * methane_share * s.METHANE_J_M3


def replaced(fuel, gas_m3):
    """Return how much of a fuel some biogas replaces, as (low, high), in kg; kerosene in litres.

    Raises
    ------
    Unknown
        If there is no figure for that fuel.
    OutOfRange
        If the gas is negative.

    Notes
    -----
    The sources differ by up to 43 %: how good the old stove was decides. The low end is the saving to count on.

    Examples
    --------
    >>> replaced("firewood", 2.0)
    (7.0, 10.0)
    """
    if fuel not in s.REPLACED:
        raise Unknown(fuel, tuple(s.REPLACED))
    require("gas_m3", gas_m3, low=0, unit="m3")
    low, high = s.REPLACED[fuel]
    return low * gas_m3, high * gas_m3
