"""The gas pipe: what presses through it, its smallest bore, and the depth of its water trap.

Flows are m3 of gas an hour, sizes the nominal inches of galvanised pipe: "1/2", "3/4", "1".
"""

from math import pi

from calc import sources as s
from calc.errors import Unknown, require
from calc.units import si

SIZES = tuple(s.PIPE_BORE_M)


def friction_factor(reynolds):
    """Return the friction factor of a smooth pipe after Darcy [1].

    Parameters
    ----------
    reynolds : float
        Reynolds number [1], above 0 and up to 100 000.

    Raises
    ------
    OutOfRange
        Outside that range.

    Notes
    -----
    The greater of 64/Re and 0.3164 / Re^(1/4). They meet at Re = 1187; from there to about 2300, where the flow may
    still be laminar, the greater is taken, so that the loss grows with the flow without a step.

    Examples
    --------
    >>> friction_factor(640), round(friction_factor(5000), 4)
    (0.1, 0.0376)
    """
    require("reynolds", reynolds, 1e-9, 1e5)
    return max(s.LAMINAR / reynolds, s.BLASIUS / reynolds**0.25)


def loss_in_bore_pa(flow_m3_h, length_m, bore_m, fittings=s.PIPE_FITTINGS):
    """Return the pressure lost in a smooth pipe of a measured bore [Pa].

    Parameters
    ----------
    flow_m3_h : float
        Gas through it [m3/h], 0 to 2.
    length_m : float
        Its length [m], up to 100.
    bore_m : float
        Its inside diameter [m], 5 to 50 mm.
    fittings : float
        Loss with elbows, tees and cocks, of that of the straight pipe [1].

    Raises
    ------
    OutOfRange
        Outside what the tables of losses and bores cover.

    Notes
    -----
    Darcy: f L/d rho v^2/2; gas of 60 % methane.

    Examples
    --------
    >>> from calc.units import from_si
    >>> round(from_si(loss_in_bore_pa(1.0, 10, 0.015, fittings=1), "cmH2O"), 2)
    0.45
    """
    _covered(flow_m3_h, length_m)
    require("bore_m", bore_m, 0.005, 0.050, "m")
    require("fittings", fittings, low=1)
    if flow_m3_h == 0:
        return 0.0
    speed_m_s = flow_m3_h / si(1, "h") / (pi * bore_m**2 / 4)
    reynolds = s.GAS_KG_M3 * speed_m_s * bore_m / s.GAS_VISCOSITY
    return fittings * friction_factor(reynolds) * length_m / bore_m * s.GAS_KG_M3 * speed_m_s**2 / 2


def loss_by_table_pa(flow_m3_h, length_m, size):
    """Return the pressure lost in a pipe of a nominal size by the fit of the printed table [Pa].

    Raises
    ------
    OutOfRange
        Above 2 m3/h or 100 m.
    Unknown
        If the table has no such size.

    Notes
    -----
    k Q^2 L. The velocities printed beside the losses belong to bores of 10, 15 and 20 mm, narrower than galvanised
    pipe of these sizes: on the whole the table errs to the high side. Under 0.2 m3/h it errs to the low side.

    References
    ----------
    Werner, Stoehr, Hees 1989, table 5.13.

    Examples
    --------
    >>> round(loss_by_table_pa(1.0, 10, "1/2"))
    289
    """
    _covered(flow_m3_h, length_m)
    return si(s.PIPE_FIT[_known(size)], "cmH2O") * flow_m3_h**2 * length_m


def loss_pa(flow_m3_h, length_m, size):
    """Return the pressure lost in a gas pipe of a nominal size [Pa]: the greater of formula and table.

    Raises
    ------
    OutOfRange
        Above 2 m3/h or 100 m, where the tables end.
    Unknown
        If it is not one of the SIZES.

    Examples
    --------
    >>> round(loss_pa(1.0, 10, "3/4")), round(loss_pa(0.02, 10, "1/2"), 2)
    (40, 0.56)
    """
    formula_pa = loss_in_bore_pa(flow_m3_h, length_m, s.PIPE_BORE_M[_known(size)])
    return max(formula_pa, loss_by_table_pa(flow_m3_h, length_m, size))


def smallest_size(flow_m3_h, length_m):
    """Return the smallest nominal size whose loss stays within 5 mbar.

    Raises
    ------
    OutOfRange
        Above 2 m3/h or 100 m, or where nothing flows.

    Notes
    -----
    Within that range 1 inch always does.

    References
    ----------
    Biogas Digest vol. II, p. 49: 5 mbar.

    Examples
    --------
    >>> smallest_size(0.5, 60), smallest_size(0.5, 100), smallest_size(2.0, 60)
    ('1/2', '3/4', '1')
    """
    require("flow_m3_h", flow_m3_h, low=1e-9, unit="m3/h")
    return next(size for size in SIZES if loss_pa(flow_m3_h, length_m, size) <= s.PIPE_LOSS_PA)


def design_flow_m3_h(stoves, lamps=0):
    """Return the gas that stoves and lamps take when all burn together [m3/h].

    Raises
    ------
    OutOfRange
        If a count is negative.

    Examples
    --------
    >>> round(design_flow_m3_h(2, 1), 2)
    0.95
    """
    require("stoves", stoves, low=0)
    require("lamps", lamps, low=0)
    return stoves * s.STOVE_GAS_M3_H[1] + lamps * s.LAMP_GAS_M3_H


def trap_leg_m(greatest_pressure_pa):
    """Return how deep the gas must have to press the water of a trap before it blows out [m].

    Parameters
    ----------
    greatest_pressure_pa : float
        Greatest gas pressure of the plant [Pa].

    Raises
    ------
    OutOfRange
        If the pressure is negative or above what any plant here may have.

    Notes
    -----
    Its head of water and 0.10 m. It is the depth of a pipe dipped into an open vessel of water; in a U-tube, the
    full difference of both levels.

    Examples
    --------
    >>> round(trap_leg_m(10787.315), 6)
    1.2
    """
    require("greatest_pressure_pa", greatest_pressure_pa, 0, s.PRESSURE_LIMIT_PA, "Pa", s.PRESSURE_LIMIT_PA.source)
    return greatest_pressure_pa / (s.WATER_KG_M3 * s.GRAVITY_M_S2) + s.TRAP_MARGIN_M


def _covered(flow_m3_h, length_m):
    require("flow_m3_h", flow_m3_h, 0, s.PIPE_FLOW_M3_H, "m3/h", s.PIPE_FLOW_M3_H.source)
    require("pipe_length_m", length_m, 1e-9, s.PIPE_LENGTH_M, "m", s.PIPE_LENGTH_M.source)


def _known(size):
    if size not in s.PIPE_BORE_M:
        raise Unknown(size, SIZES)
    return size
