"""The inside of a digester: its shape, its volume up to a level, and the level of a volume.

Levels are metres above the inside floor at its centre.
"""

from dataclasses import dataclass
from functools import cached_property

from calc import geometry as g
from calc import sources as s
from calc.errors import Unknown, require

SHAPES = ("cap_on_bowl", "cylinder_cap")
BOTTOMS = ("bowl", "flat", "cone")
_SHARP = 1e-12  # share of the radius; a step under it leaves nothing but rounding


@dataclass(frozen=True)
class Vessel:
    """The inside of a digester: bottom, wall (0 without) and dome on one rim radius; all lengths [m]."""

    radius_m: float
    dome_rise_m: float
    wall_height_m: float = 0.0
    bottom: str = "bowl"
    bottom_depth_m: float = 0.0

    def __post_init__(self):
        require("radius_m", self.radius_m, 1e-9, None, "m")
        require("dome_rise_m", self.dome_rise_m, 1e-9, None, "m")
        require("wall_height_m", self.wall_height_m, 0, None, "m")
        if self.bottom not in BOTTOMS:
            raise Unknown(self.bottom, BOTTOMS)
        low, high = (0, 0) if self.bottom == "flat" else (1e-9, None)
        require("bottom_depth_m", self.bottom_depth_m, low, high, "m")

    @property
    def spring_m(self):
        """Level at which the dome begins [m]."""
        return self.bottom_depth_m + self.wall_height_m

    @property
    def crown_m(self):
        """Level of the inside of the crown [m]."""
        return self.spring_m + self.dome_rise_m

    @cached_property
    def sphere_radius_m(self):
        """Radius of the dome's sphere [m]: the string for the dome."""
        return g.cap_sphere_radius(self.radius_m, self.dome_rise_m)

    @property
    def bottom_m3(self):
        """Volume of the bowl or cone below the wall [m3]."""
        if self.bottom == "flat":
            return 0.0
        shape = g.cap_volume if self.bottom == "bowl" else g.cone_volume
        return shape(self.radius_m, self.bottom_depth_m)

    @property
    def wall_m3(self):
        """Volume inside the wall [m3]."""
        return g.cylinder_volume(self.radius_m, self.wall_height_m) if self.wall_height_m else 0.0

    @property
    def dome_m3(self):
        """Volume under the dome [m3]."""
        return g.cap_volume(self.radius_m, self.dome_rise_m)

    @cached_property
    def inside_m3(self):
        """The whole inside volume [m3]."""
        return self.bottom_m3 + self.wall_m3 + self.dome_m3


def volume_below(vessel, level_m):
    """Return the inside volume below a level [m3].

    Parameters
    ----------
    vessel : Vessel
        The digester.
    level_m : float
        Level above the inside floor at its centre [m].

    Raises
    ------
    OutOfRange
        If the level lies below the floor or above the crown.

    Notes
    -----
    Sphere cap in the bowl, cylinder in the wall, whole volume less the sphere cap above the level in the dome.

    Examples
    --------
    >>> tank = Vessel(1.0, 1.0, 1.0, "flat")
    >>> round(volume_below(tank, 0.5), 4)
    1.5708
    """
    require("level_m", level_m, 0, vessel.crown_m, "m")
    if level_m >= vessel.spring_m:
        return vessel.inside_m3 - g.sphere_cap_volume(vessel.sphere_radius_m, vessel.crown_m - level_m)
    if level_m >= vessel.bottom_depth_m:
        return vessel.bottom_m3 + vessel.wall_m3 * (level_m - vessel.bottom_depth_m) / vessel.wall_height_m
    if vessel.bottom == "cone":
        return vessel.bottom_m3 * (level_m / vessel.bottom_depth_m) ** 3
    return g.sphere_cap_volume(g.cap_sphere_radius(vessel.radius_m, vessel.bottom_depth_m), level_m)


def level_of(vessel, volume_m3):
    """Return the level [m] below which the vessel holds `volume_m3`; inverse of `volume_below`.

    Raises
    ------
    OutOfRange
        If the vessel does not hold so much.

    Examples
    --------
    >>> tank = Vessel(1.0, 1.0, 1.0, "flat")
    >>> round(level_of(tank, volume_below(tank, 1.4)), 9)
    1.4
    """
    require("volume_m3", volume_m3, 0, vessel.inside_m3, "m3")
    bottom_m3, wall_m3 = vessel.bottom_m3, vessel.wall_m3
    if volume_m3 > bottom_m3 + wall_m3:
        above = vessel.inside_m3 - volume_m3
        return vessel.crown_m - (g.sphere_depth(vessel.sphere_radius_m, above) if above > 0 else 0.0)
    if volume_m3 >= bottom_m3:
        share = (volume_m3 - bottom_m3) / wall_m3 if wall_m3 else 0.0
        return vessel.bottom_depth_m + share * vessel.wall_height_m
    if volume_m3 == 0:
        return 0.0
    if vessel.bottom == "cone":
        return vessel.bottom_depth_m * (volume_m3 / bottom_m3) ** (1 / 3)
    return g.sphere_depth(g.cap_sphere_radius(vessel.radius_m, vessel.bottom_depth_m), volume_m3)


@dataclass(frozen=True)
class Shape:
    """The proportions of a plant without its size.

    `rise` and `bottom_depth` are shares of the rim radius, `wall_m` is a height [m]; a hemisphere has rise 1.
    """

    name: str
    rise: float
    wall_m: float
    bottom: str
    bottom_depth: float

    def vessel(self, radius_m):
        """The Vessel of these proportions on a rim radius [m]."""
        return Vessel(radius_m, self.rise * radius_m, self.wall_m, self.bottom, self.bottom_depth * radius_m)


def shape(name="cap_on_bowl", bottom=None, rise=None):
    """Return the Shape of a name, with its usual proportions unless others are given.

    Parameters
    ----------
    name : {"cap_on_bowl", "cylinder_cap"}
        Dome on a bowl without a wall, or dome on a round wall.
    bottom : {"bowl", "flat", "cone"}, optional
        Bottom of the cylinder; a bowl unless said.
    rise : float, optional
        Dome rise over rim radius [1]; 1 (hemisphere) on a bowl, 0.4 on a cylinder.

    Raises
    ------
    Unknown
        If there is no such shape.
    OutOfRange
        If the rise is not between 0.3 and 1.2 of the radius.

    References
    ----------
    Bowl: Fulford's 1.275 / 2.015 m. Cylinder: f1 = D/5, f2 = D/8, H = 1 m of GB/T 4750-2002.

    Examples
    --------
    >>> shape().rise, round(shape().bottom_depth, 4)
    (1.0, 0.3566)
    """
    if rise is not None:
        require("rise", rise, 0.3, 1.2, "radius")
    if name == "cap_on_bowl":
        if bottom not in (None, "bowl"):
            raise Unknown(bottom, ("bowl",))
        rim, sphere = s.DOME_RADIUS_STANDARD_M, s.BOWL_SPHERE_STANDARD_M
        return Shape(name, 1.0 if rise is None else rise, 0.0, "bowl", (sphere - (sphere**2 - rim**2) ** 0.5) / rim)
    if name != "cylinder_cap":
        raise Unknown(name, SHAPES)
    bottom = bottom or "bowl"
    depth = 0.0 if bottom == "flat" else 2 * s.ROUND_BOWL_DEPTH
    return Shape(name, 2 * s.ROUND_CAP_RISE if rise is None else rise, float(s.ROUND_WALL_M), bottom, depth)


def vessel_of(inside_m3, form):
    """Return the Vessel of a Shape that holds `inside_m3` [m3].

    Raises
    ------
    OutOfRange
        If the volume is not between 1 and 25 m3, the household range.

    Notes
    -----
    Dome and bottom grow with the cube of the rim radius, the wall with its square: A r^3 + B r^2 = V, by Newton's steps
    from (V/A)^(1/3), which lies on the outer side and is the answer itself where there is no wall.

    Examples
    --------
    >>> round(vessel_of(5.551, shape()).radius_m, 3)
    1.275
    """
    require("inside_m3", inside_m3, s.LEAST_PLANT_M3, s.GREATEST_PLANT_M3, "m3", s.GREATEST_PLANT_M3)
    one_m = form.vessel(1.0)
    cubic, square = one_m.dome_m3 + one_m.bottom_m3, one_m.wall_m3
    radius_m, step_m = (inside_m3 / cubic) ** (1 / 3), 1.0
    while step_m > _SHARP * radius_m:
        step_m = ((cubic * radius_m + square) * radius_m**2 - inside_m3) / ((3 * cubic * radius_m + 2 * square) * radius_m)
        radius_m -= step_m
    return form.vessel(radius_m)
