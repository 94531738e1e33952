"""The inside volume of a plant as it was built, from what was measured, and how well that is known.

A plant is measured by its dome: the string from the centre to the brick, and the rise over the rim; the rim radius
follows from both. Its wall is measured by the tape. A bowl or cone under slurry and plaster is taken as planned.
"""

from dataclasses import dataclass
from math import hypot, pi

from calc import geometry as g
from calc.checks import spread
from calc.errors import OutOfRange, require
from calc.vessel import Vessel


@dataclass(frozen=True)
class Length:
    """A measured length and its uncertainty: the true one lies within it, as far as the tape can tell [m]."""

    value_m: float
    uncertainty_m: float


@dataclass(frozen=True)
class Built:
    """A Vessel as built, its inside volume and the uncertainty of that [m3]."""

    vessel: Vessel
    inside_m3: float
    uncertainty_m3: float


def mean_length(readings_m, uncertainty_m):
    """Return the Length that several readings of one thing give: their mean.

    Parameters
    ----------
    readings_m : sequence of float
        Readings [m], one or more.
    uncertainty_m : float
        Uncertainty of one reading, its tape or string [m].

    Notes
    -----
    Half of their spread is added by squares. More readings do not make a tape better, so nothing is divided.

    Examples
    --------
    Readings 2 x 12 mm apart with a tape of 5 mm: the root of 12 x 12 + 5 x 5 is 13 mm:

    >>> found = mean_length([1.288, 1.312], 0.005)
    >>> round(found.value_m, 3), round(found.uncertainty_m, 3)
    (1.3, 0.013)
    """
    require("uncertainty_m", uncertainty_m, low=0, unit="m")
    apart_m = spread(readings_m)
    return Length(sum(readings_m) / len(readings_m), hypot(uncertainty_m, apart_m / 2))


def as_built(plan, string, rise, wall=None):
    """Return the Built inside of a plant.

    Parameters
    ----------
    plan : Vessel
        What was planned: the bottom, and whether there is a wall.
    string, rise : Length
        String of the dome (radius of its sphere) and its rise over the rim [m].
    wall : Length, optional
        Height of the wall [m]; needed where the plan has one.

    Raises
    ------
    Missing
        If the plan has a wall and its height was not measured.
    OutOfRange
        If the rise does not fit the string, or an uncertainty is negative.

    Notes
    -----
    Rim radius: a^2 = 2 R h - h^2. To first order, by squares:

    dV/dR = pi h (h + 2 w + k d), dV/dh = pi (a^2 + (R - h) (2 w + k d)), dV/dw = pi a^2,

    k = 1 for a bowl, 2/3 for a cone of depth d. The planned depth of the bottom counts as exact.

    Examples
    --------
    A hemisphere of 1.5 m on a flat floor, 7.07 m3; a string 10 mm and a rise 5 mm uncertain each bring pi x 1.5^2 m2 of it:

    >>> found = as_built(Vessel(1.5, 1.5, 0.0, "flat"), Length(1.5, 0.010), Length(1.5, 0.005))
    >>> round(found.inside_m3, 2), round(found.uncertainty_m3, 3)
    (7.07, 0.079)
    """
    if not 0 < rise.value_m < 2 * string.value_m:
        raise OutOfRange("rise_m", rise.value_m, 0, 2 * string.value_m, "m")
    high_m = require("wall_height_m", None if wall is None else wall.value_m, low=1e-9, unit="m") if plan.wall_height_m else 0.0
    rim_m = g.cap_rim_radius(string.value_m, rise.value_m)
    vessel = Vessel(rim_m, rise.value_m, high_m, plan.bottom, plan.bottom_depth_m)
    under_m = 2 * high_m + {"bowl": 1.0, "cone": 2 / 3, "flat": 0.0}[plan.bottom] * plan.bottom_depth_m
    parts = [
        (pi * rise.value_m * (rise.value_m + under_m), string),
        (pi * (rim_m**2 + (string.value_m - rise.value_m) * under_m), rise),
    ] + ([(pi * rim_m**2, wall)] if plan.wall_height_m else [])
    errors_m3 = [slope_m2 * require("uncertainty_m", length.uncertainty_m, low=0, unit="m") for slope_m2, length in parts]
    return Built(vessel, vessel.inside_m3, hypot(*errors_m3))
