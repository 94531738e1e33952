"""Work by hand on a plant: person-days of masons and of labourers for each stage, from its quantities."""

from math import ceil, inf

from calc import geometry as g
from calc import sources as s
from calc.earth import fill_person_days, person_days
from calc.errors import require
from calc.ground import rammed_m3
from calc.masonry import Brick, bricks_per_m3
from calc.takeoff import takeoff, tight_area_m2

HALF_D = 0.5
_SMALL = {stage: (float(skilled), float(unskilled)) for stage, (skilled, unskilled) in s.SMALL_D.items()}
_CONCRETE, _BRICKWORK, _PLASTER, _SLAB, _MOULD, _FERROCEMENT = (  # (mason, labourer) for one of each
    (float(mason), float(labourer))
    for mason, labourer in (s.CONCRETE_D_M3, s.BRICKWORK_D_M3, s.PLASTER_D_M2, s.SLAB_D_M3, s.MOULD_D_M2, s.FERROCEMENT_D_M2)
)


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
    found, bricks_m3 = dict(_SMALL), bricks_per_m3(brick)
    found["pit"] = (0.0, person_days(design.pit_volume_m3, soil, design.deepest_m))
    found["base"] = _times(_CONCRETE, design.base_volume_m3)
    for stage in ("wall", "inlet", "outlet"):
        if stage in taken:
            found[stage] = _times(_BRICKWORK, taken[stage].get("bricks", 0.0) / bricks_m3)
    found["dome"] = _dome(design, taken["dome"], bricks_m3)
    found["plaster"] = _times(_PLASTER, int(s.INSIDE_COATS) * tight_area_m2(design))
    found["covers"] = _times(_SLAB, design.chamber_length_m * design.chamber_width_m * float(s.SLAB_THICK_M))
    found["backfill"] = (0.0, fill_person_days(rammed_m3(design)))
    return found


def _dome(design, taken, bricks_m3):
    if design.dome == "brick":
        return _times(_BRICKWORK, taken["bricks"] / bricks_m3)
    vessel = design.vessel
    area_m2 = g.cap_area(vessel.radius_m, vessel.dome_rise_m)
    mould = _times(_MOULD, area_m2)
    shell_m3 = g.shell_volume(vessel.radius_m, vessel.dome_rise_m, design.shell_thickness_m)
    shell = _times(_CONCRETE, shell_m3) if design.dome == "concrete" else _times(_FERROCEMENT, area_m2)
    return mould[0] + shell[0], mould[1] + shell[1]


def _times(rates, quantity):
    return rates[0] * quantity, rates[1] * quantity


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
    if not (1 if mason > 0 else 0) <= masons < inf:
        require("masons", masons, low=1 if mason > 0 else 0)
    if not (1 if labourer > 0 else 0) <= labourers < inf:
        require("labourers", labourers, low=1 if labourer > 0 else 0)
    longest = max(mason / masons if mason > 0 else 0.0, labourer / labourers if labourer > 0 else 0.0)
    return ceil(longest / HALF_D - 1e-9) * HALF_D
