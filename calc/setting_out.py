"""Setting out with tape, pegs and a water tube: right angles, a rectangle, heights, and how round a circle is."""

from dataclasses import dataclass
from math import asin, atan2, cos, degrees, hypot, pi, sin, sqrt

from calc import sources as s
from calc.errors import Missing, OutOfRange, require


@dataclass(frozen=True)
class Rectangle:
    """A rectangle as pegged: how far its diagonals differ [m], its skew [deg], the diagonal it should have [m]."""

    differ_m: float
    skew_deg: float
    wanted_m: float
    allowed_m: float

    @property
    def within(self):
        """True where the diagonals differ by no more than is allowed."""
        return abs(self.differ_m) <= self.allowed_m + 1e-9


@dataclass(frozen=True)
class Circle:
    """A circle by its radii from the peg: radius, how far its centre lies off the peg and towards where, out of round.

    `towards_deg` is the bearing of the centre from the first reading, in the order of the readings.
    """

    radius_m: float
    off_centre_m: float
    towards_deg: float
    out_of_round_m: float


def rectangle(length_m, width_m, first_m, second_m):
    """Return the Rectangle of two sides and two diagonals.

    Parameters
    ----------
    length_m, width_m : float
        Sides [m].
    first_m, second_m : float
        Diagonals [m].

    Raises
    ------
    OutOfRange
        If a length is not above zero, or no figure with these sides has such diagonals.

    Notes
    -----
    In a parallelogram d1^2 - d2^2 = 4 L W sin(skew).

    Examples
    --------
    >>> round(rectangle(4, 3, 5.02, 4.98).skew_deg, 4)
    0.4775
    """
    for name, value in (("length_m", length_m), ("width_m", width_m), ("first_m", first_m), ("second_m", second_m)):
        require(name, value, low=1e-6, unit="m")
    sine = (first_m**2 - second_m**2) / (4 * length_m * width_m)
    if not -1 <= sine <= 1:
        raise OutOfRange("diagonals", first_m - second_m, None, None, "m")
    return Rectangle(first_m - second_m, degrees(asin(sine)), hypot(length_m, width_m), diagonals_allowed_m(length_m))


def diagonals_allowed_m(length_m=0.0):
    """Return by how much two diagonals may differ [m], more for a long side [m].

    Examples
    --------
    >>> diagonals_allowed_m(), diagonals_allowed_m(10)
    (0.01, 0.02)
    """
    return max(float(s.DIAGONALS_M), float(length_m * s.DIAGONALS_SHARE))


def right_angle(short_m, long_m, across_m):
    """Return (how far the third side is off [m], True where it is a right angle): 3-4-5 at any scale.

    Examples
    --------
    >>> right_angle(1.5, 2.0, 2.5)
    (0.0, True)
    >>> right_angle(3, 4, 5.05)[1]
    False
    """
    for name, value in (("short_m", short_m), ("long_m", long_m), ("across_m", across_m)):
        require(name, value, low=1e-6, unit="m")
    off = across_m - hypot(short_m, long_m)
    return off, abs(off) <= s.DIAGONALS_M + 1e-9


def tube_level(readings):
    """Return the difference of height of two points [m] from one or more set-ups of a water tube.

    Parameters
    ----------
    readings : sequence of (float, float)
        How far the water stands over the first and over the second point [m], one pair for each set-up.

    Raises
    ------
    Missing
        If there is no reading.
    OutOfRange
        If two set-ups differ by more than both can be off: a bubble, or the tube moved.

    Notes
    -----
    The second point is higher by what the water stands lower over it. Turn the tube end for end and take the mean.

    Examples
    --------
    >>> round(tube_level([(0.50, 0.38), (0.501, 0.379)]), 3)
    0.121
    """
    if not readings:
        raise Missing("readings")
    rises = [require("first_m", first) - require("second_m", second) for first, second in readings]
    apart = max(rises) - min(rises)
    require("apart_m", apart, 0, 2 * s.TUBE_M + 1e-9, "m")
    return sum(rises) / len(rises)


def closes(rises_m):
    """Return (closing error of a loop of heights [m], True where it closes).

    Examples
    --------
    >>> closes([0.120, -0.052, -0.070])[1]
    True
    """
    if not rises_m:
        raise Missing("rises_m")
    error = sum(require("rise_m", rise) for rise in rises_m)
    return error, abs(error) <= s.LOOP_M * sqrt(len(rises_m)) + 1e-9


def circle(radii_m, bearings_deg=None):
    """Return the Circle that fits radii from a centre peg best.

    Parameters
    ----------
    radii_m : sequence of float
        Radii [m], at least six.
    bearings_deg : sequence of float, optional
        Their bearings [deg]; equal angles where they are not given.

    Raises
    ------
    Missing
        If there are fewer than six radii: diameters or a few radii cannot show roundness.
    OutOfRange
        If a radius is not above zero, or the centre lies too far off for the fit.

    Notes
    -----
    Least squares of r = R + a cos + b sin. Good for a centre off by under a twentieth of the radius.

    Examples
    --------
    >>> found = circle([1.500, 1.515, 1.520, 1.512, 1.498, 1.486, 1.480, 1.488])
    >>> round(found.radius_m, 5), round(found.off_centre_m, 4), round(found.out_of_round_m, 4)
    (1.49988, 0.0194, 0.0021)
    """
    if len(radii_m) < s.RADII_LEAST:
        raise Missing("radii_m")
    for radius in radii_m:
        require("radius_m", radius, low=1e-6, unit="m")
    if bearings_deg is None:
        bearings_deg = [360 * k / len(radii_m) for k in range(len(radii_m))]
    angles = [require("bearing_deg", bearing) * pi / 180 for bearing in bearings_deg]
    radius, east, north = _fitted([(1.0, cos(angle), sin(angle)) for angle in angles], radii_m)
    off = hypot(east, north)
    require("off_centre_m", off, 0, s.OFF_CENTRE_SHARE * radius, "m")
    errors = [r - radius - east * cos(angle) - north * sin(angle) for r, angle in zip(radii_m, angles, strict=True)]
    return Circle(radius, off, round(degrees(atan2(north, east)), 6) % 360, max(errors) - min(errors))


def _fitted(rows, values):
    """The three least-squares coefficients of rows against values, by the normal equations."""
    normal = [[sum(row[i] * row[j] for row in rows) for j in range(3)] for i in range(3)]
    right = [sum(row[i] * value for row, value in zip(rows, values, strict=True)) for i in range(3)]
    whole = _determinant(normal)
    require("bearings", abs(whole), low=1e-9)
    return [_determinant([[right[i] if j == k else normal[i][j] for j in range(3)] for i in range(3)]) / whole for k in range(3)]


def _determinant(m):
    return (
        m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1])
        - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
        + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0])
    )


def round_enough(found):
    """Return (True where the centre lies near enough to the peg, True where the circle is round enough).

    Examples
    --------
    >>> round_enough(Circle(1.5, 0.012, 90.0, 0.018))
    (False, True)
    """
    limit = max(float(s.OUT_OF_ROUND_M), s.OUT_OF_ROUND_SHARE * found.radius_m)
    return found.off_centre_m <= s.OFF_CENTRE_M + 1e-9, found.out_of_round_m <= limit + 1e-9
