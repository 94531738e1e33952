"""The Design: every dimension and level of one plant, and what to look at before it is built."""

from dataclasses import dataclass, field
from functools import cached_property

from calc import geometry as g
from calc import sizing, stability
from calc import sources as s
from calc.errors import OutOfRange, Unknown, require
from calc.levels import Levels
from calc.steel import ferrocement
from calc.vessel import Vessel, volume_below

THICKNESS_M = {"brick": float(s.BRICK_M[2]), "ferrocement": float(s.FERROCEMENT_DOME_M), "concrete": float(s.CONCRETE_DOME_M)}
DOMES = tuple(THICKNESS_M)


@dataclass(frozen=True)
class Design:
    """One plant: its inside, its shell, its outlet chamber, its feed, and the levels that follow [m, m3, Pa].

    Lengths and levels in metres, levels above the inside floor at its centre. `feed`, `gas_m3_per_day` and
    `retention_d` are None for a drawing that does not say what the plant is fed.
    """

    shape: str
    dome: str
    vessel: Vessel
    shell_thickness_m: float
    wall_thickness_m: float
    base_thickness_m: float
    chamber_length_m: float
    chamber_width_m: float
    levels: Levels
    feed: sizing.Feed | None = None
    gas_m3_per_day: float | None = None
    retention_d: float | None = None
    outside_plaster_m: float = float(s.OUTSIDE_PLASTER_M)
    working_space_m: float = float(s.WORKING_SPACE_M)
    drawn: dict = field(default_factory=dict, hash=False)

    @property
    def ground_m(self):
        """Level of finished ground [m]: just under the overflow."""
        return self.levels.overflow_m - s.OVERFLOW_ABOVE_GROUND_M

    @property
    def outer_radius_m(self):
        """Greatest outer radius of wall and dome with the outside plaster [m]."""
        inside = self.vessel.radius_m
        if self.vessel.dome_rise_m > inside:  # a cap of more than a hemisphere is widest above its rim
            inside = self.vessel.sphere_radius_m
        thickness = max(self.shell_thickness_m, self.wall_thickness_m if self.vessel.wall_height_m else 0.0)
        return inside + thickness + self.outside_plaster_m

    @cached_property
    def pit_diameter_m(self):
        """Width of the pit [m]; the drawing's number where it has one."""
        return self.drawn.get("pit_diameter_m", 2 * (self.outer_radius_m + self.working_space_m))

    @cached_property
    def pit_depth_m(self):
        """Depth of the pit at its edge, from finished ground to the underside of the base [m]."""
        floor_edge_m = self.vessel.bottom_depth_m - self.base_thickness_m
        return self.drawn.get("pit_depth_m", self.ground_m - floor_edge_m)

    @property
    def deepest_m(self):
        """Depth of the pit at the deepest point of its dish [m]."""
        return self.pit_depth_m + self.vessel.bottom_depth_m

    @cached_property
    def pit_volume_m3(self):
        """Volume of the digester pit with upright sides, its dish over the whole floor [m3]."""
        radius_m = self.pit_diameter_m / 2
        return g.cylinder_volume(radius_m, self.pit_depth_m) + _dish(g.cap_volume, g.cone_volume, self, radius_m)

    @property
    def base_area_m2(self):
        """Area of the base, which covers the pit floor and follows its dish [m2]."""
        radius_m = self.pit_diameter_m / 2
        flat = g.pi * radius_m**2
        return _dish(g.cap_area, g.cone_area, self, radius_m) or flat

    @cached_property
    def base_volume_m3(self):
        """Concrete in the base at even thickness [m3]."""
        return self.base_area_m2 * self.base_thickness_m

    @property
    def passage_top_m(self):
        """Highest level [m] for the top of the outlet passage: gas must not reach it."""
        return self.levels.lowest_m - s.SEAL_M

    @property
    def cover_m(self):
        """Soil over the crown [m]: at least 0.60, more where the gas would lift the dome."""
        cover_m = stability.soil_cover(self.load_pa, self.shell_thickness_m, self.shell_n_m3)
        return max(float(s.COVER_LEAST_M), cover_m)

    @property
    def load_pa(self):
        """Greatest gas pressure as a load on the dome [Pa]: the head in slurry heavier than water."""
        return self.levels.greatest_head_m * s.SLURRY_LOAD_KG_M3 * s.GRAVITY_M_S2

    @property
    def shell_n_m3(self):
        """Weight of the dome's material [N/m3]."""
        return s.BRICKWORK_N_M3 if self.dome == "brick" else s.SHELL_N_M3

    def crown_tension_pa(self, cover_m=0.0):
        """Return the tension in the crown [Pa] at the greatest pressure under a cover of soil [m]; bare where not given."""
        vessel = self.vessel
        return stability.crown_tension_pa(self.load_pa, cover_m, vessel.sphere_radius_m, self.shell_thickness_m, self.shell_n_m3)

    @property
    def volume_to_zero_line_m3(self):
        """Inside volume filled without gas pressure [m3]: the first fill."""
        return volume_below(self.vessel, self.levels.zero_line_m)

    @property
    def retention_times_d(self):
        """(to the zero line, below the lowest slurry level) [d]: the two figures both called retention time."""
        if self.feed is None:
            return None
        slurry = self.feed.slurry_m3_per_day
        return self.volume_to_zero_line_m3 / slurry, volume_below(self.vessel, self.levels.lowest_m) / slurry


def _dish(bowl, cone, design, radius_m):
    depth_m = design.vessel.bottom_depth_m
    if not depth_m:
        return 0.0
    return (bowl if design.vessel.bottom == "bowl" else cone)(radius_m, depth_m)


def shell_thickness(dome):
    """Return the usual thickness of a dome [m]: a brick laid flat, mesh and mortar, or concrete at the crown.

    Raises
    ------
    Unknown
        If there is no such dome.

    Examples
    --------
    >>> shell_thickness("concrete")
    0.075
    """
    if dome not in THICKNESS_M:
        raise Unknown(dome, DOMES)
    return THICKNESS_M[dome]


def checked(made):
    """Return the same Design, or raise where it may not be built.

    Raises
    ------
    OutOfRange
        If the greatest pressure passes 12 kPa or the levels are out of order.
    """
    pressure_pa, levels = made.levels.greatest_pressure_pa, made.levels
    require("greatest_pressure_pa", pressure_pa, 0, s.PRESSURE_LIMIT_PA, "Pa", s.PRESSURE_LIMIT_PA)
    if not 0 < levels.lowest_m < levels.zero_line_m < made.vessel.crown_m:
        raise OutOfRange("zero_line_m", levels.zero_line_m, levels.lowest_m, made.vessel.crown_m, "m")
    return made


def findings(made):
    """Return what a Design should be looked at for, as (what, value, limit, unit) tuples; empty where nothing.

    Notes
    -----
    Pressure above 10 kPa; more soil wanted over the crown than the usual 0.60 m; crown less than 0.25 m over the zero
    line; less than 0.30 m between the floor's edge and the highest place the top of the outlet passage may have
    (0.05 m under the lowest slurry); a ferrocement dome with less mesh than is asked where liquid is held.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> findings(for_gas(2.0))
    ()
    """
    levels = made.levels
    found = []
    if not levels.greatest_pressure_pa <= s.PRESSURE_WARN_PA:
        found.append(("greatest_pressure", levels.greatest_pressure_pa, float(s.PRESSURE_WARN_PA), "Pa"))
    if not made.cover_m <= s.COVER_LEAST_M:
        found.append(("soil_cover", made.cover_m, float(s.COVER_LEAST_M), "m"))
    headroom_m = made.vessel.crown_m - levels.zero_line_m
    if not headroom_m >= s.HEADROOM_M:
        found.append(("headroom", headroom_m, float(s.HEADROOM_M), "m"))
    passage_m = made.passage_top_m - made.vessel.bottom_depth_m
    if not passage_m >= s.PASSAGE_LEAST_M:
        found.append(("passage", passage_m, float(s.PASSAGE_LEAST_M), "m"))
    return (*found, *_mesh(made))


def _mesh(made):
    """What the usual mesh of a ferrocement dome falls short of; nothing for another dome."""
    if made.dome != "ferrocement":
        return ()
    skin = ferrocement(1.0, made.shell_thickness_m, s.MESH_LAYERS, s.MESH_WIRE_M, s.MESH_SPACING_M)
    least, surface = map(float, s.FERROCEMENT_STEEL)
    rows = (("mesh_share", skin.steel_share, least, "1"), ("mesh_surface", skin.surface_m2_m3, surface, "m2/m3"))
    return tuple(row for row in rows if not row[1] >= row[2])
