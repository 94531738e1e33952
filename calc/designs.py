"""Ways to a Design: for a gas yield, a volume or a feed by calculation, or from a programme's own drawing."""

from calc import digestion, sizing
from calc import sources as s
from calc.design import Design, checked, shell_thickness
from calc.errors import Unknown, require
from calc.levels import Levels, solve
from calc.vessel import SHAPES, level_of, shape, vessel_of


def design(inside_m3, store_m3, form=None, dome="brick", feed=None, gas_m3_per_day=None, retention_d=None):
    """Return the Design of a plant that holds `inside_m3` and stores `store_m3` of gas.

    Parameters
    ----------
    inside_m3, store_m3 : float
        Inside volume and gas store [m3]; dead space is a sixth of the inside volume.
    form : Shape, optional
        Proportions; hemisphere on a bowl unless said.
    dome : {"brick", "ferrocement", "concrete"}
        How the dome is built.
    feed, gas_m3_per_day, retention_d : optional
        What the plant is fed and gives, kept with the design.

    Returns
    -------
    Design
        All dimensions and levels.

    Raises
    ------
    OutOfRange
        If the size is outside the household range, the crown would be drowned, or the pressure passes 12 kPa.
    Unknown
        If a shape or dome has no record.

    Notes
    -----
    The zero line leaves the dead space under the crown. The overflow stands 0.80 m above the lowest slurry level
    (8 kPa with the store full), or 0.30 m above the zero line where that is higher; the chamber's area follows
    from the store and its length is 1.3 of its breadth.

    References
    ----------
    Dead space: ter Heegde 2010. Working pressure 8 kPa: GB/T 4750-2002 as quoted in the Guangxi study.

    Examples
    --------
    >>> plant = design(6.24, 1.2)
    >>> round(plant.levels.greatest_head_m, 2), round(plant.vessel.inside_m3, 2)
    (0.8, 6.24)
    """
    require("store_m3", store_m3, low=1e-9, unit="m3")
    form = form or shape()
    vessel = vessel_of(inside_m3, form)
    levels = _levels(vessel, inside_m3 * s.DEAD_SHARE / (1 + s.DEAD_SHARE), store_m3)
    width_m = (store_m3 / (levels.overflow_m - levels.zero_line_m) / s.CHAMBER_ASPECT) ** 0.5
    made = Design(
        shape=form.name,
        dome=dome,
        vessel=vessel,
        shell_thickness_m=shell_thickness(dome),
        wall_thickness_m=float(s.BRICK_M[1]),
        base_thickness_m=float(s.BASE_THICKNESS_M),
        chamber_length_m=width_m * s.CHAMBER_ASPECT,
        chamber_width_m=width_m,
        levels=levels,
        feed=feed,
        gas_m3_per_day=gas_m3_per_day,
        retention_d=retention_d,
    )
    return checked(made)


def _levels(vessel, dead_m3, store_m3):
    zero_line_m = level_of(vessel, vessel.inside_m3 - dead_m3)
    lowest_m = level_of(vessel, vessel.inside_m3 - dead_m3 - store_m3)
    depth_m = max(lowest_m + s.WORKING_HEAD_M - zero_line_m, float(s.CHAMBER_LEAST_DEPTH_M))
    return Levels(lowest_m, zero_line_m, zero_line_m + depth_m, store_m3)


def drawing(vessel, zero_line_m, chamber_m, *, dome="brick", form="cylinder_cap", feed=None, gas_m3_per_day=None, **drawn):
    """Return the Design of a plant whose dimensions a programme has drawn; the calculation only finds its levels.

    Parameters
    ----------
    vessel : Vessel
        Inside dimensions [m].
    zero_line_m : float
        Floor of the outlet chamber above the inside floor [m].
    chamber_m : tuple of float
        Length, width and depth to the overflow of the outlet chamber [m].
    dome, form : str
        How the dome is built; name of the shape.
    feed, gas_m3_per_day : optional
        What the drawing is made for.
    **drawn : float
        Numbers of the drawing that rule over the calculated ones: pit_diameter_m, pit_depth_m [m].

    Raises
    ------
    OutOfRange
        If the levels are out of order or the greatest pressure passes 12 kPa.

    Examples
    --------
    >>> from calc.vessel import Vessel
    >>> tank = Vessel(1.35, 0.70, 1.05, "flat")
    >>> plant = drawing(tank, 1.27, (1.70, 1.30, 0.65))
    >>> round(plant.vessel.inside_m3, 3), round(plant.levels.greatest_head_m, 3)
    (8.195, 0.928)
    """
    if form not in SHAPES:
        raise Unknown(form, SHAPES)
    unknown = set(drawn) - {"pit_diameter_m", "pit_depth_m"}
    if unknown:
        raise Unknown(unknown.pop(), ("pit_diameter_m", "pit_depth_m"))
    length_m, width_m, depth_m = chamber_m
    return checked(
        Design(
            shape=form,
            dome=dome,
            vessel=vessel,
            shell_thickness_m=shell_thickness(dome),
            wall_thickness_m=float(s.BRICK_M[1]),
            base_thickness_m=float(s.BASE_THICKNESS_M),
            chamber_length_m=length_m,
            chamber_width_m=width_m,
            levels=solve(vessel, zero_line_m, length_m * width_m, depth_m),
            feed=feed,
            gas_m3_per_day=gas_m3_per_day,
            drawn=drawn,
        )
    )


def for_volume(inside_m3, temp_c=None, store_share=s.STORE_SHARE, **how):
    """Return the Design of a plant of `inside_m3` [m3] with the feed it can take.

    Parameters
    ----------
    inside_m3 : float
        Inside volume [m3].
    temp_c : float, optional
        Mean yearly air temperature [C]; without it the nominal 40 days and 40 l/kg of a warm place.
    store_share : float
        Gas store as a share of a day's gas [1].
    **how
        `form` and `dome` of `design`.

    Raises
    ------
    OutOfRange, Unknown
        As `design`, and outside the yield table.

    Examples
    --------
    >>> round(for_volume(6.24).feed.dung_kg_per_day, 1)
    50.0
    """
    one_kg = sizing.feed_from_dung(1.0)
    days, gas = _conditions(one_kg, temp_c)
    per_kg = sizing.volumes(one_kg.slurry_m3_per_day, days, gas, store_share).inside_m3
    require("inside_m3", inside_m3, s.LEAST_PLANT_M3, s.GREATEST_PLANT_M3, "m3", s.GREATEST_PLANT_M3.source)
    return _fed(sizing.feed_from_dung(inside_m3 / per_kg), temp_c, store_share, how, inside_m3)


def for_gas(gas_m3_per_day, temp_c=None, store_share=s.STORE_SHARE, **how):
    """Return the Design of a plant named after its gas a day [m3/d]; parameters as `for_volume`.

    Examples
    --------
    >>> round(for_gas(2.0).vessel.inside_m3, 2)
    6.24
    """
    require("gas_m3_per_day", gas_m3_per_day, low=1e-9, unit="m3/d")
    if temp_c is None:
        dung_kg = sizing.nominal_dung(gas_m3_per_day)
    else:
        dung_kg = gas_m3_per_day / _conditions(sizing.feed_from_dung(1.0), temp_c)[1]
    return for_feed(sizing.feed_from_dung(dung_kg), temp_c, store_share, **how)


def for_feed(feed, temp_c=None, store_share=s.STORE_SHARE, **how):
    """Return the Design of a plant for a Feed; parameters as `for_volume`.

    Examples
    --------
    >>> plant = for_feed(sizing.feed_from_dung(50), 26)
    >>> plant.retention_d, round(plant.volume_to_zero_line_m3 / 0.1, 1) >= 40
    (40.0, True)
    """
    return _fed(feed, temp_c, store_share, how)


def _fed(feed, temp_c, store_share, how, inside_m3=None):
    # a volume that was asked for stays as it was: reckoned back from its feed it may miss a limit by a rounding
    days, gas = _conditions(feed, temp_c)
    need = sizing.volumes(feed.slurry_m3_per_day, days, gas, store_share)
    inside_m3 = need.inside_m3 if inside_m3 is None else inside_m3
    return design(inside_m3, need.store_m3, feed=feed, gas_m3_per_day=gas, retention_d=float(days), **how)


def _conditions(feed, temp_c):
    if temp_c is None:
        return s.NOMINAL_RETENTION_D, feed.gas_dung_kg * s.NOMINAL_YIELD_M3_KG
    days = digestion.retention_d(temp_c)
    return days, digestion.gas_estimates(feed, temp_c, days).low
