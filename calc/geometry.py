"""Areas and volumes of the round bodies a plant is made of, and their inverses: formulas without constants.

Every length may be a float in metres or a pint quantity; the answer is then one of the same kind.
A "cap" is the part of a sphere above (dome) or below (bowl) a plane; it may be more than a hemisphere.
Every function raises OutOfRange where a length or volume is not above zero.
"""

from math import acos, cos, pi

from calc.errors import OutOfRange


def _not_above_zero(**lengths):
    # callers ask "not >", which also stops a value that is not a number; zero is compared so that a quantity with a unit may pass
    return next(OutOfRange(name, value, low=0) for name, value in lengths.items() if not value > 0)


def cap_sphere_radius(rim_radius, rise):
    """Return the radius [m] of the sphere of which a cap is a part, from its rim radius and its rise over the rim plane [m].

    Notes
    -----
    R = (a^2 + h^2) / (2 h), exact for any cap up to the whole sphere.

    References
    ----------
    Intersecting chords theorem, Euclid III.35.

    Examples
    --------
    A rim of 3 m and a rise of 1 m belong to a sphere of 5 m:

    >>> cap_sphere_radius(3.0, 1.0)
    5.0
    """
    if not (rim_radius > 0 and rise > 0):
        raise _not_above_zero(rim_radius=rim_radius, rise=rise)
    return (rim_radius**2 + rise**2) / (2 * rise)


def cap_volume(rim_radius, rise):
    """Return the volume of a spherical cap [m3] from its rim radius and rise [m].

    Notes
    -----
    V = pi h (3 a^2 + h^2) / 6.

    Examples
    --------
    A hemisphere of 1 m is two thirds of pi:

    >>> round(cap_volume(1.0, 1.0), 4)
    2.0944
    """
    if not (rim_radius > 0 and rise > 0):
        raise _not_above_zero(rim_radius=rim_radius, rise=rise)
    return pi * rise * (3 * rim_radius**2 + rise**2) / 6


def cap_area(rim_radius, rise):
    """Return the curved area of a spherical cap [m2] from its rim radius and rise [m].

    Notes
    -----
    A = pi (a^2 + h^2) = 2 pi R h.

    Examples
    --------
    >>> round(cap_area(1.0, 1.0), 4)
    6.2832
    """
    if not (rim_radius > 0 and rise > 0):
        raise _not_above_zero(rim_radius=rim_radius, rise=rise)
    return pi * (rim_radius**2 + rise**2)


def cap_slant(rim_radius, rise):
    """Return the length along the surface from the rim to the crown [m].

    Notes
    -----
    s = R acos(1 - h / R).

    Examples
    --------
    A quarter of the circle round a hemisphere of 1 m:

    >>> round(cap_slant(1.0, 1.0), 4)
    1.5708
    """
    radius = cap_sphere_radius(rim_radius, rise)
    return radius * acos(1 - rise / radius)


def cap_rise_at(rim_radius, rise, distance):
    """Return the height of the surface of a cap over its rim plane [m] at `distance` [m] from the axis.

    Raises
    ------
    OutOfRange
        If the distance lies outside the rim.

    Notes
    -----
    y = sqrt(R^2 - x^2) - (R - h). Of a bowl the same number is its depth below the rim. R^2 - x^2 is taken as
    (a^2 - x^2) + (R - h)^2, which no rounding brings below zero at the rim.

    Examples
    --------
    >>> cap_rise_at(3.0, 1.0, 0.0)
    1.0
    """
    if not abs(distance) <= rim_radius:
        raise OutOfRange("distance", distance, 0, rim_radius, "m")
    radius = cap_sphere_radius(rim_radius, rise)
    return (rim_radius**2 - distance**2 + (radius - rise) ** 2) ** 0.5 - (radius - rise)


def cap_rim_radius(sphere_radius, rise):
    """Return the rim radius [m] of a cap of `rise` [m] cut from a sphere of `sphere_radius` [m].

    Raises
    ------
    OutOfRange
        If the rise is not between zero and the diameter of the sphere.

    Examples
    --------
    >>> cap_rim_radius(5.0, 1.0)
    3.0
    """
    if not (sphere_radius > 0 and rise > 0):
        raise _not_above_zero(sphere_radius=sphere_radius, rise=rise)
    if not rise <= 2 * sphere_radius:
        raise OutOfRange("rise", rise, 0, 2 * sphere_radius, "m")
    return (2 * sphere_radius * rise - rise**2) ** 0.5


def sphere_depth(sphere_radius, volume):
    """Return the depth below the top of a sphere [m] at which the part above holds `volume` [m3].

    Raises
    ------
    OutOfRange
        If the volume is not between zero and that of the sphere.

    Notes
    -----
    Root between 0 and 2 R of pi t^2 (3 R - t) / 3 = V, in trigonometric form.

    Examples
    --------
    Half the sphere ends at its equator:

    >>> round(sphere_depth(1.0, 2.0943951023931953), 6)
    1.0
    """
    if not (sphere_radius > 0 and volume > 0):
        raise _not_above_zero(sphere_radius=sphere_radius, volume=volume)
    share = volume / (4 * pi * sphere_radius**3 / 3)
    if not share <= 1:
        raise OutOfRange("volume", volume, 0, 4 * pi * sphere_radius**3 / 3, "m3")
    return sphere_radius * (1 + 2 * cos((2 * pi - acos(1 - 2 * float(share))) / 3))


def sphere_cap_volume(sphere_radius, depth):
    """Return the volume [m3] of the part of a sphere within `depth` [m] of its top.

    Raises
    ------
    OutOfRange
        If the depth is not between zero and the diameter.

    Notes
    -----
    V = pi t^2 (3 R - t) / 3.

    Examples
    --------
    >>> round(sphere_cap_volume(2.0, 1.0), 3)
    5.236
    """
    if not sphere_radius > 0:
        raise _not_above_zero(sphere_radius=sphere_radius)
    if not 0 <= depth / sphere_radius <= 2:
        raise OutOfRange("depth", depth, 0, 2 * sphere_radius, "m")
    return pi * depth**2 * (3 * sphere_radius - depth) / 3


def cylinder_volume(radius, height):
    """Return the volume of a cylinder [m3].

    Examples
    --------
    >>> round(cylinder_volume(1.5, 2.0), 2)
    14.14
    """
    if not (radius > 0 and height > 0):
        raise _not_above_zero(radius=radius, height=height)
    return pi * radius**2 * height


def cylinder_wall_area(radius, height):
    """Return the curved area of a cylinder [m2]: 2 pi r h.

    Examples
    --------
    >>> round(cylinder_wall_area(1.0, 1.0), 4)
    6.2832
    """
    if not (radius > 0 and height > 0):
        raise _not_above_zero(radius=radius, height=height)
    return 2 * pi * radius * height


def cone_volume(rim_radius, depth):
    """Return the volume of a cone [m3]: pi a^2 t / 3.

    Examples
    --------
    >>> round(cone_volume(1.35, 0.15), 4)
    0.2863
    """
    if not (rim_radius > 0 and depth > 0):
        raise _not_above_zero(rim_radius=rim_radius, depth=depth)
    return pi * rim_radius**2 * depth / 3


def cone_area(rim_radius, depth):
    """Return the curved area of a cone [m2]: pi a sqrt(a^2 + t^2).

    Examples
    --------
    >>> round(cone_area(3.0, 4.0), 3)
    47.124
    """
    if not (rim_radius > 0 and depth > 0):
        raise _not_above_zero(rim_radius=rim_radius, depth=depth)
    return pi * rim_radius * (rim_radius**2 + depth**2) ** 0.5


def frustum_volume(lower_radius, upper_radius, height):
    """Return the volume of a cone cut off parallel to its base [m3].

    Notes
    -----
    V = pi h (r1^2 + r1 r2 + r2^2) / 3. Also a bucket, from its two inside diameters and depth.

    Examples
    --------
    >>> round(frustum_volume(1.5, 3.0, 2.0), 2)
    32.99
    """
    if not (lower_radius > 0 and upper_radius > 0 and height > 0):
        raise _not_above_zero(lower_radius=lower_radius, upper_radius=upper_radius, height=height)
    return pi * height * (lower_radius**2 + lower_radius * upper_radius + upper_radius**2) / 3


def shell_volume(inside_radius, inside_rise, thickness):
    """Return the volume of material in a dome of even `thickness` [m] over the inside cap [m3].

    Notes
    -----
    The outer face is the sphere of R + t cut by the same rim plane, so that the foot stands flat:
    V = pi/3 [(h+t)^2 (3(R+t) - (h+t)) - h^2 (3R - h)].

    Examples
    --------
    A hemisphere of 1.275 m, 75 mm thick:

    >>> round(shell_volume(1.275, 1.275, 0.075), 4)
    0.812
    """
    if not (inside_radius > 0 and inside_rise > 0 and thickness > 0):
        raise _not_above_zero(inside_radius=inside_radius, inside_rise=inside_rise, thickness=thickness)
    radius = cap_sphere_radius(inside_radius, inside_rise)
    outer = sphere_cap_volume(radius + thickness, inside_rise + thickness)
    return outer - sphere_cap_volume(radius, inside_rise)


def ring_volume(inside_radius, thickness, height):
    """Return the volume of material in a round wall [m3]: pi ((r + t)^2 - r^2) h.

    Examples
    --------
    >>> round(ring_volume(1.5, 0.11, 1.0), 4)
    1.0747
    """
    if not (inside_radius > 0 and thickness > 0 and height > 0):
        raise _not_above_zero(inside_radius=inside_radius, thickness=thickness, height=height)
    return pi * ((inside_radius + thickness) ** 2 - inside_radius**2) * height
