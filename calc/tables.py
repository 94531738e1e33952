"""Reading a printed table between its entries."""

from itertools import pairwise

from calc.errors import Missing, OutOfRange


def read_off(points, value, name, unit="", source=""):
    """Return what a table of (place, figure) pairs has at `value`, by a straight line between its entries.

    Parameters
    ----------
    points : sequence of (float, float)
        Entries, places rising.
    value : float
        Where to read, in the unit of the places.
    name, unit, source : str
        What `value` is, for the error.

    Raises
    ------
    OutOfRange
        If `value` lies before the first or beyond the last entry: a table is not continued.

    Examples
    --------
    >>> read_off([(0, 1.0), (3, 0.8), (6, 0.7)], 1.5, "months")
    0.9
    """
    if value is None:
        raise Missing(name)
    for (left, at_left), (right, at_right) in pairwise(points):
        if left <= value <= right:
            return (at_left * (right - value) + at_right * (value - left)) / (right - left)
    raise OutOfRange(name, value, points[0][0], points[-1][0], unit, source)
