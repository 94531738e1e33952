"""Weight against gas and water: soil over the dome, the empty plant in ground water, the mass of a slab."""

from math import pi

from calc import sources as s
from calc.errors import require


def soil_cover(pressure_pa, shell_thickness_m, shell_n_m3=s.SHELL_N_M3):
    """Return the depth of loose soil over the crown [m] that keeps a dome pressed down.

    Parameters
    ----------
    pressure_pa : float
        Greatest gas pressure [Pa]; slurry heavier than water is covered to the limit of 12 kPa of water.
    shell_thickness_m : float
        Thickness of the dome at the crown [m].
    shell_n_m3 : float
        Weight of the dome's material [N/m3]; brickwork is lighter than concrete.

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
    1.2 p = soil weight + shell weight on each square metre, soil 15 kN/m3 loose, concrete 24 kN/m3.

    Examples
    --------
    >>> round(soil_cover(8000, 0.075), 2)
    0.52
    """
    _check_shell(pressure_pa, shell_thickness_m, shell_n_m3)
    return (s.UPLIFT_FACTOR * pressure_pa - shell_n_m3 * shell_thickness_m) / s.SOIL_LOOSE_N_M3


def crown_tension_pa(pressure_pa, cover_m, sphere_radius_m, shell_thickness_m, shell_n_m3=s.SHELL_N_M3):
    """Return the tension in the crown of a dome under gas [Pa]; 0 where soil and shell weigh as much as the gas lifts.

    Parameters
    ----------
    pressure_pa : float
        Gas pressure [Pa], covered as in `soil_cover`.
    cover_m : float
        Soil over the crown [m]; 0 on a bare dome.
    sphere_radius_m, shell_thickness_m : float
        Radius of the sphere, thickness of the dome [m].
    shell_n_m3 : float
        Weight of the dome's material [N/m3].

    Raises
    ------
    OutOfRange
        If a length is not above zero, the cover is below it, or the pressure is above 12.6 kPa.

    Notes
    -----
    sigma = (p - weight on each square metre) R / (2 t), the membrane of a thin sphere, without the factor of 1.2.
    Of a dome without steel no tension is counted on (common practice), so that anything above 0 is too much. It
    holds at the crown; rim and ring are not judged by it.

    Examples
    --------
    9.1 kPa under 75 mm of concrete, bare: (9100 - 1800) x 1.6518 / 0.15; and under 60 cm of soil:

    >>> round(crown_tension_pa(9100, 0, 1.6518, 0.075) / 1000, 1), crown_tension_pa(9100, 0.60, 1.6518, 0.075)
    (80.4, 0.0)
    """
    _check_shell(pressure_pa, shell_thickness_m, shell_n_m3)
    require("cover_m", cover_m, low=0, unit="m")
    require("sphere_radius_m", sphere_radius_m, low=1e-9, unit="m")
    net_pa = pressure_pa - s.SOIL_LOOSE_N_M3 * cover_m - shell_n_m3 * shell_thickness_m
    return max(float(net_pa), 0.0) * sphere_radius_m / (2 * shell_thickness_m)


def _check_shell(pressure_pa, shell_thickness_m, shell_n_m3):
    limit_pa = s.PRESSURE_LIMIT_PA * s.SLURRY_LOAD_KG_M3 / s.WATER_KG_M3
    require("pressure_pa", pressure_pa, 1e-9, limit_pa, "Pa", s.PRESSURE_LIMIT_PA.source)
    require("shell_thickness_m", shell_thickness_m, low=1e-9, unit="m")
    require("shell_n_m3", shell_n_m3, low=1e-9, unit="N/m3")


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
    require("length_m", length_m, 1e-9, None, "m")
    require("width_m", width_m, 1e-9, None, "m")
    require("thickness_m", thickness_m, 1e-9, None, "m")
    return length_m * width_m * thickness_m * s.SLAB_KG_M3
