"""Bricks, shells and round walls: how many, and how much mortar.

What goes into slabs and ferrocement lives in `steel` and is had from here too.
"""

from dataclasses import dataclass
from typing import NamedTuple

from calc import geometry as g
from calc import sources as s
from calc.errors import Unknown, require
from calc.steel import Bars, Ferrocement, bar_mass_kg_m, ferrocement, round_slab_bars, slab_bars

__all__ = [
    "Bars",
    "Brick",
    "Ferrocement",
    "Masonry",
    "bar_mass_kg_m",
    "bricks_per_m3",
    "dome_shell",
    "ferrocement",
    "round_slab_bars",
    "round_wall",
    "single_leaf",
    "slab_bars",
]


JOINT_M = float(s.JOINT_M)


@dataclass(frozen=True)
class Brick:
    """A brick without its joints: length, breadth and height when laid flat [m]."""

    length_m: float
    breadth_m: float
    height_m: float

    def __post_init__(self):
        for name in ("length_m", "breadth_m", "height_m"):
            require(name, getattr(self, name), low=1e-9, unit="m")

    @property
    def volume_m3(self):
        """Volume of the brick [m3]."""
        return self.length_m * self.breadth_m * self.height_m


class Masonry(NamedTuple):
    """Bricks (not rounded), volume and mortar [m3] of one piece of brickwork, without breakage.

    `mortar_m3` is what the gaps take, `mortar_to_buy_m3` what is used, with frogs, backs and droppings.
    `outer_joints_m` are the joints at the outer face of a curved leaf, along the face's length and across it.
    """

    bricks: float
    volume_m3: float
    mortar_m3: float
    mortar_to_buy_m3: float
    outer_joints_m: tuple = ()


def bricks_per_m3(brick, joint_m=JOINT_M):
    """Return the bricks in a cubic metre of solid brickwork [1/m3].

    Parameters
    ----------
    brick : Brick
        The brick.
    joint_m : float
        Thickness of the joints [m].

    Raises
    ------
    OutOfRange
        If a length is negative.

    Notes
    -----
    N = 1 / ((L+j)(B+j)(H+j)): each brick takes a joint at one end, one side and below.

    Examples
    --------
    A brick of 190 x 90 x 90 mm and 10 mm of mortar fill 0.2 x 0.1 x 0.1 m:

    >>> round(bricks_per_m3(Brick(0.190, 0.090, 0.090), 0.010))
    500
    """
    require("joint_m", joint_m, low=0, unit="m")
    return 1 / ((brick.length_m + joint_m) * (brick.breadth_m + joint_m) * (brick.height_m + joint_m))


def single_leaf(area_m2, brick, leaf="half", joint_m=JOINT_M):
    """Return the Masonry in a flat leaf one brick deep.

    Parameters
    ----------
    area_m2 : float
        Area of the face [m2].
    brick : Brick
        The brick.
    leaf : {"half", "quarter"}
        Bricks laid flat, breadth through the leaf; or on edge, height through the leaf.
    joint_m : float
        Thickness of the joints [m].

    Raises
    ------
    Unknown
        If there is no such leaf.
    OutOfRange
        If the area is negative or the joint is not 3 to 25 mm.

    Notes
    -----
    Published rates for half-brick walls use half as much mortar again as the gaps take.

    Examples
    --------
    One brick of 190 x 90 mm and its joints cover 0.2 x 0.1 m:

    >>> round(single_leaf(1.0, Brick(0.190, 0.090, 0.090), "half", 0.010).bricks)
    50
    """
    require("area_m2", area_m2, low=0, unit="m2")
    faces, thickness = _face(brick, leaf, joint_m)
    return _leaf(area_m2 / _laid(faces, joint_m), area_m2 * thickness, brick)


def dome_shell(inside_radius_m, inside_rise_m, brick, leaf="quarter", joint_m=JOINT_M):
    """Return the Masonry in a dome one brick deep.

    Parameters
    ----------
    inside_radius_m, inside_rise_m : float
        Inside radius at the rim and rise of the dome [m]; equal for a hemisphere.
    brick : Brick
        The brick.
    leaf : {"quarter", "half"}
        Thickness of the shell: the height of the brick, or its breadth.
    joint_m : float
        Joint at the inside face, where it is tightest [m].

    Raises
    ------
    Unknown
        If there is no such leaf.
    OutOfRange
        If a length is not above zero or the joint is not 3 to 25 mm.

    Notes
    -----
    N = inside area / ((f1+j)(f2+j)); mortar = shell less bricks; the joint outside is (f+j)(R+t)/R - f, with R the
    radius of the sphere. Breakage and cutting add 5 to 10 % of bricks.

    Examples
    --------
    A hemisphere of 1.5 m is 14.137 m2 inside; a brick of 230 x 110 with its joints covers 0.0288 m2:

    >>> found = dome_shell(1.5, 1.5, Brick(0.230, 0.110, 0.070), "quarter", 0.010)
    >>> round(found.bricks, 1), [round(joint, 4) for joint in found.outer_joints_m]
    (490.9, [0.0212, 0.0156])
    """
    faces, thickness = _face(brick, leaf, joint_m)
    number = g.cap_area(inside_radius_m, inside_rise_m) / _laid(faces, joint_m)
    sphere = g.cap_sphere_radius(inside_radius_m, inside_rise_m)
    opened = tuple(_outer_joint(face, joint_m, sphere, thickness) for face in faces)
    return _leaf(number, g.shell_volume(inside_radius_m, inside_rise_m, thickness), brick, opened)


def round_wall(inside_radius_m, height_m, brick, leaf="half", joint_m=JOINT_M):
    """Return the Masonry in a round wall one brick deep.

    Parameters
    ----------
    inside_radius_m, height_m : float
        Inside radius and height of the wall [m].
    brick : Brick
        The brick.
    leaf : {"half", "quarter"}
        Thickness of the wall: the breadth of the brick, or its height.
    joint_m : float
        Joint at the inside face [m].

    Notes
    -----
    As `dome_shell`, but only the joints between brick ends open outwards; bed joints stay as laid.

    Examples
    --------
    9.425 m2 inside, and a brick of 230 x 70 with its joints covers 0.0192 m2:

    >>> found = round_wall(1.5, 1.0, Brick(0.230, 0.110, 0.070), "half", 0.010)
    >>> round(found.bricks, 1), round(found.volume_m3, 4)
    (490.9, 1.0747)
    """
    faces, thickness = _face(brick, leaf, joint_m)
    number = g.cylinder_wall_area(inside_radius_m, height_m) / _laid(faces, joint_m)
    opened = (_outer_joint(faces[0], joint_m, inside_radius_m, thickness), joint_m)
    return _leaf(number, g.ring_volume(inside_radius_m, thickness, height_m), brick, opened)


def _face(brick, leaf, joint_m):
    # the two lengths seen on the inside face, and the one through the leaf
    require("joint_m", joint_m, *s.JOINT_RANGE_M, "m", s.JOINT_M)
    if leaf == "half":
        return (brick.length_m, brick.height_m), brick.breadth_m
    if leaf == "quarter":
        return (brick.length_m, brick.breadth_m), brick.height_m
    raise Unknown(leaf, ("half", "quarter"))


def _laid(faces, joint_m):
    return (faces[0] + joint_m) * (faces[1] + joint_m)


def _outer_joint(face, joint_m, radius_m, thickness_m):
    return (face + joint_m) * (radius_m + thickness_m) / radius_m - face


def _leaf(number, volume_m3, brick, opened=()):
    mortar = volume_m3 - number * brick.volume_m3
    return Masonry(number, volume_m3, mortar, mortar * s.SINGLE_LEAF_MORTAR, opened)
