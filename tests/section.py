"""The inside of a digester as a general reader of its drawing would work it out, for tests."""


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
