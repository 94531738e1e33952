"""Cement in store, and how long a mixing that holds it may still be used."""

from calc import sources as s
from calc.errors import Missing, Unknown, require
from calc.tables import read_off

MIXINGS = ("concrete", "mortar", "tight")


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


def cement_usable(months, tight, lumps=False):
    """Return whether cement of this age [months] may be used, in a tight or reinforced part or elsewhere.

    Parameters
    ----------
    months : float
        Age [months].
    tight : bool
        For a gas- or liquid-tight layer or reinforced concrete.
    lumps : bool
        With lumps that do not crush between two fingers: it has set already.

    Notes
    -----
    Adding more of an old cement does not mend it. At three months it has come to an age, so three is too old.

    Examples
    --------
    >>> cement_usable(2, True), cement_usable(3, True), cement_usable(4, False), cement_usable(6, False)
    (True, False, True, False)
    """
    require("months", months, low=0, unit="months")
    for name, value in {"tight": tight, "lumps": lumps}.items():
        if value is None:
            raise Missing(name)
    return bool(not lumps and months < (s.CEMENT_TIGHT_MONTHS if tight else s.CEMENT_MONTHS))


def use_within_min(mixing, hot):
    """Return how long after water met cement a mixing may still be used [min].

    Parameters
    ----------
    mixing : {"concrete", "mortar", "tight"}
        Concrete, mortar for masonry and outside plaster, or mortar for gas- and liquid-tight coats.
    hot : bool
        Air of 30 C and more, when it sets sooner.

    Raises
    ------
    Unknown
        If there is no such mixing.
    Missing
        If it is not said whether it is hot.

    Notes
    -----
    What has begun to set is not mended by water: the crystals that were broken do not grow together again, and the
    water leaves pores.

    Examples
    --------
    >>> float(use_within_min("mortar", False)), float(use_within_min("tight", True))
    (90.0, 45.0)
    """
    if mixing not in MIXINGS:
        raise Unknown(mixing, MIXINGS)
    if hot is None:
        raise Missing("hot")
    return float(s.USE_WITHIN_MIN[mixing, bool(hot)])
