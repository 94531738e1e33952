"""How long concrete and mortar stay wet, and how long the next thing waits for them.

Waiting times are days at 20 C; `maturity` makes calendar days of them.
"""

from calc import sources as s
from calc.errors import Missing, Unknown, require

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


def days_kept_wet(logged, counts=()):
    """Return on how many days a surface was kept wet by its log [d], no day counted twice.

    Parameters
    ----------
    logged : iterable of int
        Day numbers on which wetting was reported.
    counts : iterable of (int, float)
        (day number, days kept wet up to and with that day) where they were reported as a number.

    Examples
    --------
    Days 1, 2 and 3 said one by one, the second twice; then "five days" on day 5, which holds them all, and day 6:

    >>> days_kept_wet([1, 2, 2, 3]), days_kept_wet([1, 2, 3, 6], [(5, 5)])
    (3, 6)
    """
    days = set(logged)
    told = (count + sum(day > until for day in days) for until, count in counts)
    return max((len(days), *told))


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


def strip_dome_d(cement, released_d=None, span_m=None):
    """Return how long the mould stays under a dome [d at 20 C].

    Parameters
    ----------
    cement : {"opc", "blended", "unknown"}
        The cement.
    released_d : float, optional
        Days that a released design gives instead; never under 7.
    span_m : float, optional
        Width of the dome at its foot [m]; over 6 m it waits as a wide arch does.

    Examples
    --------
    >>> strip_dome_d("opc"), strip_dome_d("opc", 10), strip_dome_d("opc", span_m=6.5)
    (14.0, 10.0, 21.0)
    """
    if released_d is None:
        usual = float(wait_d("strip dome", cement))
        return usual if span_m is None else max(usual, strip_days("arch props", span_m))
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


def _known(cement):
    if cement not in CEMENTS:
        raise Unknown(cement, CEMENTS)
