"""Work by hand on a plant: person-days of masons and of labourers for each stage, from its quantities."""

from math import ceil

from calc import geometry as g
from calc import sources as s
from calc.earth import fill_person_days, person_days
from calc.errors import require
from calc.ground import fill
from calc.masonry import Brick, bricks_per_m3
from calc.takeoff import takeoff, tight_area_m2

HALF_D = 0.5


def labour(design, soil="ordinary", brick=Brick(*s.BRICK_M), taken=None):
    """Return the work of each stage, as {stage: (mason, labourer)} in person-days.

    Parameters
    ----------
    design : Design
        The plant.
    soil : str
        How hard the ground digs, see `earth.person_days`.
    brick : Brick
        Its bricks.
    taken : dict, optional
        The take-off of this design and brick where it is at hand; reckoned if not given.

    Raises
    ------
    Unknown
        If there is no rate for the soil.

    Notes
    -----
    Quantities of the take-off times rates of a labour sheet; plaster, ferrocement, moulds and small things by practice.

    Examples
    --------
    >>> from calc.designs import for_gas
    >>> work = labour(for_gas(2.0))
    >>> work["pit"][0], work["pit"][1] > 4, sorted(work)[:3]
    (0.0, True, ['backfill', 'base', 'covers'])
    """
    taken = takeoff(design, brick) if taken is None else taken
    found = {stage: (float(skilled), float(unskilled)) for stage, (skilled, unskilled) in s.SMALL_D.items()}
    found["pit"] = (0.0, person_days(design.pit_volume_m3, soil, design.deepest_m))
    found["base"] = _times(s.CONCRETE_D_M3, design.base_volume_m3)
    for stage in ("wall", "inlet", "outlet"):
        if stage in taken:
            found[stage] = _times(s.BRICKWORK_D_M3, taken[stage].get("bricks", 0.0) / bricks_per_m3(brick))
    found["dome"] = _dome(design, taken["dome"], brick)
    found["plaster"] = _times(s.PLASTER_D_M2, s.INSIDE_COATS * tight_area_m2(design))
    found["covers"] = _times(s.SLAB_D_M3, design.chamber_length_m * design.chamber_width_m * s.SLAB_THICK_M)
    found["backfill"] = (0.0, fill_person_days(fill(design).rammed_m3))
    return found


def _dome(design, taken, brick):
    vessel = design.vessel
    area_m2 = g.cap_area(vessel.radius_m, vessel.dome_rise_m)
    if design.dome == "brick":
        return _times(s.BRICKWORK_D_M3, taken["bricks"] / bricks_per_m3(brick))
    mould = _times(s.MOULD_D_M2, area_m2)
    shell_m3 = g.shell_volume(vessel.radius_m, vessel.dome_rise_m, design.shell_thickness_m)
    shell = _times(s.CONCRETE_D_M3, shell_m3) if design.dome == "concrete" else _times(s.FERROCEMENT_D_M2, area_m2)
    return mould[0] + shell[0], mould[1] + shell[1]


def _times(rates, quantity):
    return float(rates[0] * quantity), float(rates[1] * quantity)


def days(work, masons, labourers):
    """Return how many working days a crew takes [d], in half days, rounded up.

    Parameters
    ----------
    work : (float, float)
        Person-days of masons and of labourers.
    masons, labourers : int
        The crew.

    Raises
    ------
    OutOfRange
        If nobody is there for work that needs him.

    Examples
    --------
    >>> days((1.2, 4.1), 1, 2)
    2.5
    """
    mason, labourer = work
    require("masons", masons, low=1 if mason > 0 else 0)
    require("labourers", labourers, low=1 if labourer > 0 else 0)
    longest = max(mason / masons if mason > 0 else 0.0, labourer / labourers if labourer > 0 else 0.0)
    return ceil(longest / HALF_D - 1e-9) * HALF_D
