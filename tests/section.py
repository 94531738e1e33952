"""Plants for tests, and the inside of a digester as a general reader of its drawing would work it out."""

from calc.designs import drawing, for_gas, for_volume
from calc.vessel import Vessel, shape

DRAWN = drawing(Vessel(1.30, 0.55, 1.10, "flat"), 1.22, (1.65, 1.25, 0.53), pit_diameter_m=3.05, pit_depth_m=1.80)
ROUND = drawing(Vessel(1.35, 0.70, 1.05, "flat"), 1.27, (1.70, 1.30, 0.65), dome="concrete")
CONE = for_volume(6.0, 24, form=shape("cylinder_cap", "cone"))
BOWL = for_gas(2.0)
LIGHT = for_gas(2.0, dome="ferrocement")
PLANTS = [DRAWN, ROUND, CONE, BOWL, LIGHT]


def radius_m(vessel, level_m):
    """Inside radius at a level, from the circles and lines of the section [m]."""
    if level_m >= vessel.spring_m:
        sphere_m = (vessel.radius_m**2 + vessel.dome_rise_m**2) / (2 * vessel.dome_rise_m)
        centre_m = vessel.spring_m + vessel.dome_rise_m - sphere_m
        return max(sphere_m**2 - (level_m - centre_m) ** 2, 0) ** 0.5
    if level_m >= vessel.bottom_depth_m:
        return vessel.radius_m
    if vessel.bottom == "cone":
        return vessel.radius_m * level_m / vessel.bottom_depth_m
    sphere_m = (vessel.radius_m**2 + vessel.bottom_depth_m**2) / (2 * vessel.bottom_depth_m)
    return max(2 * sphere_m * level_m - level_m**2, 0) ** 0.5
