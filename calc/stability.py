"""Weight against gas and water: soil over the dome, the empty plant in ground water, the mass of a slab."""

from math import pi

from calc import sources as s
from calc.errors import require


def soil_cover(pressure_pa, shell_thickness_m):
    """Return the depth of loose soil over the crown [m] that keeps a dome pressed down.

    Parameters
    ----------
    pressure_pa : float
        Greatest gas pressure [Pa]; slurry heavier than water is covered to the limit of 12 kPa of water.
    shell_thickness_m : float
        Thickness of the dome at the crown [m].

    Returns
    -------
    float
        Soil cover [m], as the balance gives it; the build takes the larger of this and 0.60 m.

    Raises
    ------
    OutOfRange
        If the pressure is above 12.6 kPa (slurry of 1050 kg/m3 at 12 kPa of water) or a value is not above zero.

    Notes
    -----
    1.2 p = soil weight + shell weight on each square metre, soil 15 kN/m3 loose, shell 24 kN/m3.

    Examples
    --------
    >>> round(soil_cover(8000, 0.075), 2)
    0.52
    """
    limit_pa = s.PRESSURE_LIMIT_PA * s.SLURRY_LOAD_KG_M3 / s.WATER_KG_M3
    require("pressure_pa", pressure_pa, 1e-9, limit_pa, "Pa", s.PRESSURE_LIMIT_PA.source)
    require("shell_thickness_m", shell_thickness_m, low=1e-9, unit="m")
    return (s.UPLIFT_FACTOR * pressure_pa - s.SHELL_N_M3 * shell_thickness_m) / s.SOIL_LOOSE_N_M3


def uplift_n(outer_radius_m, water_height_m):
    """Return the force [N] with which ground water lifts an empty plant.

    Parameters
    ----------
    outer_radius_m : float
        Outer radius of the base [m].
    water_height_m : float
        Ground water above the underside of the base [m].

    Notes
    -----
    Weight of the water pushed aside. Nobody empties a plant in wet ground without an engineer.

    References
    ----------
    Biogas Digest vol. II, underground water.

    Examples
    --------
    >>> round(uplift_n(1.58, 1.0) / 1000, 1)
    76.9
    """
    require("outer_radius_m", outer_radius_m, low=1e-9, unit="m")
    require("water_height_m", water_height_m, low=0, unit="m")
    return s.WATER_N_M3 * pi * outer_radius_m**2 * water_height_m


def slab_mass_kg(length_m, width_m, thickness_m):
    """Return the mass of a reinforced concrete slab [kg], at 2500 kg/m3.

    Examples
    --------
    >>> slab_mass_kg(0.60, 0.60, 0.075)
    67.5
    """
    for name, value in (("length_m", length_m), ("width_m", width_m), ("thickness_m", thickness_m)):
        require(name, value, low=1e-9, unit="m")
    return length_m * width_m * thickness_m * s.SLAB_KG_M3
