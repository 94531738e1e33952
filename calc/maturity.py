"""What a day at its temperature counts for concrete and mortar, and when a wait is over.

A cold day counts less than one (`day_credit`), a hot day never more: heat dries what it hastens.
"""

from itertools import islice
from math import exp

from calc import sources as s
from calc.errors import Missing, OutOfRange, require


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


def day_mean(least_c, most_c):
    """Return the mean temperature of a day from its lowest and its highest reading [C].

    Raises
    ------
    OutOfRange
        If the lowest is above the highest, or one of them is not believed.

    Notes
    -----
    Half their sum, as weather stations do where the hours are not read.

    Examples
    --------
    >>> day_mean(8, 22)
    15.0
    """
    low, high = s.DAY_TEMP_C
    require("most_c", most_c, low, high, "C")
    require("least_c", least_c, low, most_c, "C")
    return (least_c + most_c) / 2


def days_needed(wait_d, temps_c):
    """Return the whole days after which a wait of `wait_d` is over, both on the clock and by what each day counts.

    Parameters
    ----------
    wait_d : float
        The wait [d at 20 C].
    temps_c : iterable of float
        Mean temperature of the first day of the wait, of the second, and so on [C].

    Raises
    ------
    Missing
        If the temperatures end before the wait does.
    OutOfRange
        If it is too cold for the wait to end within 400 days.

    Notes
    -----
    No day counts more than one, so the credit is always the longer of the two.

    Examples
    --------
    Seven days at 10 C count three and a half, and heat saves nothing:

    >>> from itertools import repeat
    >>> days_needed(7, repeat(10)), days_needed(7, repeat(35)), days_needed(2, [20, 10, 10])
    (14, 7, 3)
    """
    require("wait_d", wait_d, low=0, unit="d")
    days, credit = 0, 0.0
    for temp_c in islice(temps_c, s.LONGEST_WAIT_D):
        if credit >= wait_d - 1e-9:
            return days
        days, credit = days + 1, credit + day_credit(temp_c)
    if credit >= wait_d - 1e-9:
        return days
    if days < s.LONGEST_WAIT_D:
        raise Missing("temps_c")
    raise OutOfRange("wait_d", wait_d, 0, credit, "d", s.NO_CREDIT_BELOW_C.source)


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
