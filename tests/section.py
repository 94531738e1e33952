"""The inside of a digester as a general reader of its drawing would work it out, for tests."""


def radius_m(vessel, level_m):
    """Inside radius at a level of the wall or the dome [m]."""
    if level_m < vessel.spring_m:
        return vessel.radius_m
    sphere_m = (vessel.radius_m**2 + vessel.dome_rise_m**2) / (2 * vessel.dome_rise_m)
    centre_m = vessel.spring_m + vessel.dome_rise_m - sphere_m
    return max(sphere_m**2 - (level_m - centre_m) ** 2, 0) ** 0.5
