"""The courses of a brick dome: radius and height of each, its bricks, and how far their joints open."""

from dataclasses import dataclass
from math import ceil, cos, floor, pi, sin

from calc import geometry as g
from calc import sources as s
from calc.errors import OutOfRange, require
from calc.strings import dome_centre_m


@dataclass(frozen=True)
class Course:
    """One course of a brick dome: its number from the spring, inside radius and height over the spring [m]."""

    number: int
    radius_m: float
    height_m: float


def courses(vessel, brick, joint_m=s.JOINT_M):
    """Return the Courses of a brick dome as thick as a brick is high, from the spring to the last below the crown.

    Parameters
    ----------
    vessel : Vessel
        The digester.
    brick : Brick
        Its breadth stands along the curve [m], its length round the ring.
    joint_m : float
        Joint [m].

    Raises
    ------
    OutOfRange
        If the joint is negative.

    Notes
    -----
    Each course takes brick and joint along the curve; radius and height are those of its upper inner edge, on the
    sphere, so every course is checked by the one string.

    Examples
    --------
    >>> from calc.masonry import Brick
    >>> from calc.vessel import Vessel
    >>> rings = courses(Vessel(1.35, 0.70, 1.05, "flat"), Brick(0.23, 0.11, 0.07))
    >>> rings[0].radius_m < 1.35, rings[-1].height_m < 0.70, [ring.number for ring in rings[:3]]
    (True, True, [1, 2, 3])
    """
    require("joint_m", joint_m, low=0, unit="m")
    sphere_m, centre_m = vessel.sphere_radius_m, dome_centre_m(vessel)
    step = (brick.breadth_m + joint_m) / sphere_m
    slant = g.cap_slant(vessel.radius_m, vessel.dome_rise_m) / sphere_m
    found = []
    for number in range(1, floor(slant / step + 1e-9) + 1):
        from_crown = max(slant - number * step, 0.0)
        found.append(Course(number, sphere_m * sin(from_crown), centre_m + sphere_m * cos(from_crown)))
    return found


@dataclass(frozen=True)
class Ring:
    """The bricks of one course: how many, and their joints where they are tightest and widest [m]."""

    number: int
    bricks: int
    inside_joint_m: float
    outside_joint_m: float

    @property
    def cut(self):
        """Whether the joints open so far that bricks are cut to a wedge."""
        return self.outside_joint_m > s.WEDGE_JOINT_M + 1e-9


def ring(vessel, number, brick, joint_m=s.JOINT_M, halves=False):
    """Return the Ring of one course of a brick dome.

    Parameters
    ----------
    vessel : Vessel
        The digester.
    number : int
        The course, from 1 at the spring.
    brick : Brick
        Length round the ring, breadth along the curve, height through the shell [m].
    joint_m : float
        Joint where it is tightest [m].
    halves : bool
        Bricks halved across their length, a joint less than two make a whole one.

    Raises
    ------
    OutOfRange
        If the dome has no such course, or fewer than three bricks fill it, next to the crown.

    Notes
    -----
    As many whole bricks as the inside edge takes that is nearest to the axis, each with its joint; what is left over
    widens all joints. The widest is that at the other edge on the outer face, a ring (R + t) / R wider. The arc is
    taken for the brick's chord.

    Examples
    --------
    A hemisphere of 1.5 m, first course: 9.3946 m round at its upper edge take 39 bricks of 230 and 10 mm:

    >>> from calc.masonry import Brick
    >>> from calc.vessel import Vessel
    >>> first = ring(Vessel(1.5, 1.5, 0.0, "bowl", 0.4), 1, Brick(0.230, 0.110, 0.070))
    >>> first.bricks, round(first.inside_joint_m, 4), round(first.outside_joint_m, 4), first.cut
    (39, 0.0109, 0.0229, True)
    """
    narrow_m, wide_m = _around_m(vessel, number, brick, joint_m)
    face_m = (brick.length_m - joint_m) / 2 if halves else brick.length_m
    bricks = floor(narrow_m / (face_m + joint_m) + 1e-9)
    if bricks < 3:
        raise OutOfRange("bricks", bricks, 3)
    return Ring(number, bricks, narrow_m / bricks - face_m, wide_m / bricks - face_m)


@dataclass(frozen=True)
class Wedges:
    """The bricks of one course cut to wedges: how many, and their faces outside and inside the dome [m]."""

    number: int
    bricks: int
    outside_m: float
    inside_m: float


def wedges(vessel, number, brick, joint_m=s.JOINT_M, halves=False):
    """Return the Wedges that close one course of a brick dome with even joints.

    Parameters
    ----------
    vessel, number, brick, joint_m, halves
        As for `ring`.

    Raises
    ------
    OutOfRange
        If the dome has no such course, or so close to the crown that the inside face is under a quarter of a brick.

    Notes
    -----
    The fewest bricks whose length is not too short for the widest edge, outside: n = ceil(around / (length + joint)).
    Both faces are the share of a brick of its edge less the joint, so all joints are alike.

    Examples
    --------
    A hemisphere of 1.5 m, first course: 9.865 m round outside are 42 bricks, 0.224 less the joint inside:

    >>> from calc.masonry import Brick
    >>> from calc.vessel import Vessel
    >>> found = wedges(Vessel(1.5, 1.5, 0.0, "bowl", 0.4), 1, Brick(0.230, 0.110, 0.070))
    >>> found.bricks, round(found.outside_m, 4), round(found.inside_m, 4)
    (42, 0.2249, 0.2137)
    """
    narrow_m, wide_m = _around_m(vessel, number, brick, joint_m)
    face_m = (brick.length_m - joint_m) / 2 if halves else brick.length_m
    bricks = ceil(wide_m / (face_m + joint_m) - 1e-9)
    inside_m = narrow_m / bricks - joint_m
    require("inside_m", inside_m, s.WEDGE_FACE * brick.length_m, None, "m")
    return Wedges(number, bricks, wide_m / bricks - joint_m, inside_m)


def _around_m(vessel, number, brick, joint_m):
    """The shorter edge of a course inside and its longer edge outside, all round [m]."""
    found = courses(vessel, brick, joint_m)
    require("number", number, 1, len(found))
    edges = (found[number - 2].radius_m if number > 1 else vessel.radius_m), found[number - 1].radius_m
    outer = (vessel.sphere_radius_m + brick.height_m) / vessel.sphere_radius_m
    return 2 * pi * min(edges), 2 * pi * max(edges) * outer


def weak_ring_m3(cement_kg):
    """Return the loose volumes of a mixing of the weak ring, as {"cement", "lime", "sand": volume [m3]}.

    Parameters
    ----------
    cement_kg : float
        Cement in it [kg].

    Notes
    -----
    Sand, lime and cement 15 : 3 : 1 by loose volume, soft on purpose: the dome parts from the wall in it.

    References
    ----------
    Biogas Digest vol. II, p. 29.

    Examples
    --------
    144 kg of cement are 0.1 m3:

    >>> {name: round(volume, 3) for name, volume in weak_ring_m3(144).items()}
    {'cement': 0.1, 'lime': 0.3, 'sand': 1.5}
    """
    require("cement_kg", cement_kg, low=0, unit="kg")
    return {name: float(parts * cement_kg / s.CEMENT_BULK_KG_M3) for name, parts in s.RINGS["weak"].items()}


def strong_ring_width_m(shell_m):
    """Return about how wide the header bricks of the strong ring lie, across the wall [m].

    Parameters
    ----------
    shell_m : float
        Thickness of the brick dome above [m].

    References
    ----------
    Biogas Digest vol. II, p. 29: about three times the brickwork of the upper wall.

    Examples
    --------
    A dome of bricks on their bed, 70 mm, stands on a ring of about 210 mm, a brick of 230 mm laid as a header:

    >>> round(strong_ring_width_m(0.070), 3)
    0.21
    """
    return float(s.RINGS["strong"]["width"] * require("shell_m", shell_m, low=0, unit="m"))
