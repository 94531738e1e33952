"""How much gas a feed gives: retention time, yield of dung, and three estimates to compare.

Temperatures are mean yearly air temperatures [C]; a buried digester is at least as warm, so they err to the cold side.
"""

from dataclasses import dataclass

from calc import sources as s
from calc.errors import require


@dataclass(frozen=True)
class Gas:
    """Three estimates of the gas in a day [m3/d]; `by_animal` is None where animals were not counted."""

    by_dung: float
    by_solids: float
    by_animal: float | None

    @property
    def _known(self):
        return [value for value in (self.by_dung, self.by_solids, self.by_animal) if value is not None]

    @property
    def low(self):
        """The lowest estimate [m3/d]: the one to size on."""
        return min(self._known)

    @property
    def high(self):
        """The highest estimate [m3/d]."""
        return max(self._known)


def retention_d(temp_c):
    """Return the retention time [d] for a mean yearly air temperature [C].

    Raises
    ------
    OutOfRange
        Below 12 C, where a plant needs heating or insulation and an engineer.

    Notes
    -----
    40 / 50 / 60 / 80 days above 25 / 20 / 15 / 10 C, the longer of the published practices.

    Examples
    --------
    >>> float(retention_d(22))
    50.0
    """
    require("temp_c", temp_c, low=s.COLDEST_C, unit="C", source=s.COLDEST_C.source)
    return next(days for warmer_than, days in s.RETENTION if temp_c > warmer_than)


def yield_l_kg(temp_c, retention):
    """Return the gas from one kg of fresh cattle dung at 1:1 [l/kg].

    Parameters
    ----------
    temp_c : float
        Digester temperature [C], 15 to 33.
    retention : float
        Retention time [d], 30 to 100.

    Raises
    ------
    OutOfRange
        Outside the corners of the table; nothing is carried beyond them.

    Notes
    -----
    Linear in temperature and in days between the cells of the table.

    References
    ----------
    Sasse 1988, 4.3: 15 l/kg at 20 C and 30 d, 54 l/kg at 33 C and 100 d; the cells between are practice values.

    Examples
    --------
    >>> yield_l_kg(20, 30), yield_l_kg(33, 100)
    (15.0, 54.0)
    """
    temps, days = s.YIELD_TEMPS_C, s.YIELD_DAYS
    require("temp_c", temp_c, temps[0], temps[-1], "C", s.YIELD_SOURCE)
    require("retention_d", retention, days[0], days[-1], "d", s.YIELD_SOURCE)
    row, up = _between(temps, temp_c)
    column, along = _between(days, retention)
    cold, warm = s.YIELD_L_KG[row], s.YIELD_L_KG[row + 1]
    at_cold = cold[column] + along * (cold[column + 1] - cold[column])
    at_warm = warm[column] + along * (warm[column + 1] - warm[column])
    return at_cold + up * (at_warm - at_cold)


def _between(marks, value):
    index = next(i for i in range(len(marks) - 1) if value <= marks[i + 1])
    return index, (value - marks[index]) / (marks[index + 1] - marks[index])


def gas_estimates(feed, temp_c, retention):
    """Return the Gas a feed gives by dung, by volatile solids and by head of cattle [m3/d].

    Parameters
    ----------
    feed : Feed
        Daily feed.
    temp_c, retention : float
        Digester temperature [C] and retention time [d], inside the yield table.

    Raises
    ------
    OutOfRange
        Outside the yield table.

    Notes
    -----
    The handbook's yields by solids and by head hold at 25 C and 60 d; they are carried to other conditions in
    proportion to the yield table. Size on the lowest.

    References
    ----------
    Werner, Stoehr, Hees 1989, p. 38: compute all three and compare.

    Examples
    --------
    >>> from calc.sizing import feed_from_dung
    >>> gas_estimates(feed_from_dung(150), 25, 60).by_solids
    3.0
    """
    factor = yield_l_kg(temp_c, retention) / yield_l_kg(s.EXAMPLE_TEMP_C, s.EXAMPLE_RETENTION_D)
    return Gas(
        by_dung=feed.gas_dung_kg * yield_l_kg(temp_c, retention) / s.WATER_KG_M3,
        by_solids=feed.gas_dung_kg * s.SOLIDS_SHARE * s.SOLIDS_YIELD_M3_KG * factor,
        by_animal=None if feed.cattle is None else feed.cattle * s.ANIMAL_YIELD_M3_D * factor,
    )
