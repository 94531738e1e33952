"""How long concrete and mortar stay wet, what a day counts, and when the next thing may happen; cement in store.

Waiting times are days at 20 C. A cold day counts less than one (`day_credit`), a hot day never more.
"""

from math import ceil, exp

from calc import sources as s
from calc.errors import Missing, OutOfRange, Unknown, require
from calc.tables import read_off

CEMENTS = ("opc", "blended", "unknown")
WAITS = {event: dict(zip(CEMENTS, (opc, other, other), strict=True)) for event, (opc, other) in s.WAIT_D.items()}


def wet_days(cement, tight, hot_dry):
    """Return how many days a surface is kept wet [d at 20 C].

    Parameters
    ----------
    cement : {"opc", "blended", "unknown"}
        Ordinary Portland cement, cement with ash, slag or pozzolana, or not known; unknown counts as blended.
    tight : bool
        Gas- or liquid-tight, or ferrocement.
    hot_dry : bool
        35 C and more in the day, windy, or very dry air.

    Returns
    -------
    float
        Days, the longest that applies.

    Raises
    ------
    Unknown
        If the cement is not one of the three.
    Missing
        If it is not said whether the layer is tight or the weather hot and dry.

    References
    ----------
    IS 456:2000 13.5.1; GB 50204 for impermeable concrete.

    Examples
    --------
    >>> wet_days("opc", False, False), wet_days("unknown", False, False), wet_days("opc", True, False)
    (7.0, 10.0, 14.0)
    """
    _known(cement)
    for name, value in {"tight": tight, "hot_dry": hot_dry}.items():
        if value is None:
            raise Missing(name)
    plain = float(s.WET_D[cement != "opc", bool(hot_dry)])
    return max(plain, float(s.WET_TIGHT_D)) if tight else plain


def day_credit(temp_c):
    """Return what one day at a mean temperature counts [d at 20 C].

    Parameters
    ----------
    temp_c : float
        Mean temperature of the day [C].

    Raises
    ------
    OutOfRange
        If the temperature is not between -40 and 50 C (degrees Fahrenheit, perhaps).

    Notes
    -----
    The slowest of three rules: temperature over 0 C, over -10 C (Nurse-Saul, two datums), and Arrhenius with
    41.5 kJ/mol; at most one day a day, and nothing below 5 C. Heat dries what it hastens.

    Examples
    --------
    At 10 C half a day, because 10/20 is less than 20/30 and Arrhenius' 0.55:

    >>> day_credit(10), day_credit(30), day_credit(4)
    (0.5, 1.0, 0.0)
    """
    low, high = s.DAY_TEMP_C
    require("temp_c", temp_c, low, high, "C")
    if temp_c < s.NO_CREDIT_BELOW_C:
        return 0.0
    rules = nurse_saul_days([temp_c]), nurse_saul_days([temp_c], s.OLD_DATUM_C), arrhenius([temp_c])
    return float(min(1.0, *rules))


def equivalent_days(temps_c):
    """Return what logged days count together [d at 20 C], from the mean temperature of each [C].

    Examples
    --------
    >>> equivalent_days([30, 24, 10])
    2.5
    """
    return sum(day_credit(temp_c) for temp_c in temps_c)


def days_needed(wait_d, temp_c):
    """Return the whole days that a wait of `wait_d` [d at 20 C] takes at a steady mean temperature [C].

    Raises
    ------
    OutOfRange
        If days at that temperature count nothing: the wait does not end.

    Examples
    --------
    >>> days_needed(7, 10), days_needed(7, 35)
    (14, 7)
    """
    require("wait_d", wait_d, low=0, unit="d")
    credit = day_credit(temp_c)
    if not credit > 0:
        raise OutOfRange("temp_c", temp_c, s.NO_CREDIT_BELOW_C, None, "C", s.NO_CREDIT_BELOW_C.source)
    return ceil(wait_d / credit - 1e-9)


def nurse_saul(temps_c, datum_c=s.DATUM_C, step_d=1.0):
    """Return the temperature-time factor [C d] of mean temperatures [C], one for each step.

    Notes
    -----
    M = sum of (T - T0) dt; a step below the datum adds nothing.

    References
    ----------
    ASTM C1074: datum 0 C for type I cement without admixtures, 0 to 40 C.

    Examples
    --------
    >>> nurse_saul([30, 24, 18])
    72.0
    """
    require("step_d", step_d, low=1e-9, unit="d")
    return sum(float((temp_c - datum_c) * step_d) for temp_c in temps_c if temp_c > datum_c)


def nurse_saul_days(temps_c, datum_c=s.DATUM_C, step_d=1.0):
    """Return the temperature-time factor as days at 20 C [d].

    Examples
    --------
    >>> nurse_saul_days([30, 24, 18]), nurse_saul_days([30, 24, 18], -10)
    (3.6, 3.4)
    """
    return nurse_saul(temps_c, datum_c, step_d) / (s.REFERENCE_C - datum_c)


def arrhenius(temps_c, activation_j_mol=s.ACTIVATION_J_MOL, reference_c=s.REFERENCE_C, step_d=1.0):
    """Return the age that concrete kept at the reference temperature would have [d].

    Parameters
    ----------
    temps_c : sequence of float
        Mean temperature of each step [C].
    activation_j_mol : float
        Activation energy [J/mol].
    reference_c : float
        Temperature at which a day counts one day [C].
    step_d : float
        Length of a step [d].

    Notes
    -----
    te = sum of exp(-E/R (1/T - 1/Tr)) dt, temperatures in kelvin.

    Examples
    --------
    A day at 20 C counts one, and 10 C less is a little over half:

    >>> arrhenius([20]), round(arrhenius([10]), 2)
    (1.0, 0.55)
    """
    require("step_d", step_d, low=1e-9, unit="d")
    per_gas = activation_j_mol / s.GAS_CONSTANT_J_MOL_K
    reference = 1 / (reference_c + s.KELVIN_C)
    return sum(exp(-per_gas * (1 / (temp_c + s.KELVIN_C) - reference)) * step_d for temp_c in temps_c)


def wait_d(event, cement):
    """Return how long to wait before an event of `WAITS` [d at 20 C]; unknown cement waits as blended.

    Examples
    --------
    >>> float(wait_d("walk on base", "opc")), float(wait_d("strip dome", "unknown"))
    (1.0, 20.0)
    """
    if event not in WAITS:
        raise Unknown(event, WAITS)
    _known(cement)
    return WAITS[event][cement]


def strip_dome_d(cement, released_d=None):
    """Return how long the mould stays under a dome [d at 20 C].

    Parameters
    ----------
    cement : {"opc", "blended", "unknown"}
        The cement.
    released_d : float, optional
        Days that a released design gives instead; never under 7.

    Examples
    --------
    >>> strip_dome_d("opc"), strip_dome_d("opc", 10)
    (14.0, 10.0)
    """
    usual = float(wait_d("strip dome", cement))
    if released_d is None:
        return usual
    return float(require("released_d", released_d, low=s.FORM_FLOOR_D, unit="d", source=s.FORM_FLOOR_D.what))


def strip_days(element, span_m=None):
    """Return the days before forms or props of ordinary cement are taken away at 15 C and warmer [d].

    Parameters
    ----------
    element : str
        "vertical", "slab soffit", "beam soffit", "slab props", "beam props", "arch props".
    span_m : float, optional
        Span [m]; needed for props.

    Raises
    ------
    Unknown
        If there is no such element.
    Missing
        If props are asked for without their span.

    References
    ----------
    IS 456:2000 11.3.1.

    Examples
    --------
    >>> strip_days("slab props", 4.0), strip_days("slab props", 5.0), strip_days("vertical")
    (7.0, 14.0, 1.0)
    """
    if element not in s.STRIP_D:
        raise Unknown(element, s.STRIP_D)
    rows = s.STRIP_D[element]
    if len(rows) > 1:
        require("span_m", span_m, low=1e-9, unit="m")
    return float(next(days for longest_m, days in rows if longest_m is None or span_m <= longest_m))


def cement_retention(months):
    """Return the share of its fresh strength that cement keeps after months in a dry store.

    Raises
    ------
    OutOfRange
        If the age is negative or beyond the table, 24 months.

    Notes
    -----
    Straight lines between printed points; one study in ordinary storage lost 46 % in 4 months.

    Examples
    --------
    >>> round(cement_retention(1.5), 2), cement_retention(12)
    (0.9, 0.6)
    """
    return float(read_off(s.CEMENT_KEEPS, months, "months", "months", s.CEMENT_KEEPS[1][1].source))


def cement_usable(months, tight):
    """Return whether cement of this age [months] may be used, in a tight or reinforced part or elsewhere.

    Notes
    -----
    Adding more of an old cement does not mend it.

    Examples
    --------
    >>> cement_usable(3, True), cement_usable(4, True), cement_usable(4, False), cement_usable(7, False)
    (True, False, True, False)
    """
    require("months", months, low=0, unit="months")
    if tight is None:
        raise Missing("tight")
    return bool(months <= (s.CEMENT_TIGHT_MONTHS if tight else s.CEMENT_MONTHS))


def _known(cement):
    if cement not in CEMENTS:
        raise Unknown(cement, CEMENTS)
