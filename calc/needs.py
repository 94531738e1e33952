"""What follows from the facts of a site by arithmetic: the depth that counts, and what a pit, lift or dome needs.

Each function takes `Facts` and returns one number, or None where a fact it stands on was not reported.
"""

from calc import sources
from calc.facts import yes


def deepest_m(f):
    """Return the depth of the deepest point [m]: at the edge plus the bowl."""
    return None if f.depth_m is None else f.depth_m + (0 if f.bowl_m is None else f.bowl_m)


def reckoned_m(f):
    """Return the depth that is held against limits [m]: the deepest point plus the allowance for tape and rounding.

    Examples
    --------
    >>> from calc.facts import Facts
    >>> round(reckoned_m(Facts(depth_m=1.46)), 2)
    1.51
    """
    return None if deepest_m(f) is None else deepest_m(f) + sources.TAPE_ALLOWANCE_M


def wet(f):
    """Return whether there is water in the pit or in its sides."""
    water = f.water_in_pit_m is not None and not f.water_in_pit_m <= 0
    return water or yes(f.seepage) or yes(f.submerged)


def moving(f):
    """Return whether the ground shows that a side may come in."""
    return any(map(yes, (f.crack, f.bulge, f.lumps_falling, f.edge_sinking)))


def soil_class(f):
    """Return the soil type that counts: C where not known, wet or dipping in; B at best where fissured or shaken.

    References
    ----------
    29 CFR 1926 subpart P app. A (b), which also lets rock fall to C and B so.

    Examples
    --------
    >>> from calc.facts import Facts
    >>> soil_class(Facts(soil="B")), soil_class(Facts(soil="B", seepage=True)), soil_class(Facts())
    ('B', 'C', 'C')
    """
    if f.soil not in sources.SLOPE_RUN or wet(f) or yes(f.layers_dip_in):
        return "C"
    if f.soil in ("rock", "A") and any(map(yes, (f.fissured, f.vibration, f.disturbed))):
        return "B"
    return f.soil


def slope_need_m(f):
    """Return the level run the side needs in this soil [m].

    Examples
    --------
    Type A, three quarters of the depth:

    >>> from calc.facts import Facts
    >>> slope_need_m(Facts(depth_m=2.0, soil="A"))
    1.5
    """
    return None if deepest_m(f) is None else deepest_m(f) * sources.SLOPE_RUN[soil_class(f)]


def heap_need_m(f):
    """Return the distance the soil heap should have from the edge [m]."""
    return _from_edge(f, sources.HEAP_TARGET_M, sources.HEAP_TARGET_SHARE)


def load_need_m(f):
    """Return the distance bricks, sand, animals and vehicles should have from the edge [m]."""
    return _from_edge(f, sources.LOAD_EDGE_M, 1)


def _from_edge(f, least_m, share):
    # the depth stands first: max() keeps it where it is not a number
    return None if deepest_m(f) is None else max(deepest_m(f) * share, least_m)


def lift_guide_kg(f):
    """Return the guideline load for the people who lift [kg].

    An unknown number of them counts as one, more than three as three; only a tighter limit of their own counts.

    Examples
    --------
    >>> from calc.facts import Facts
    >>> [round(lift_guide_kg(Facts(lifters=n)), 1) for n in (1, 2, 3)]
    [25.0, 33.3, 37.5]
    """
    return team_lift_kg(f.lifters, f.lift_limit_kg)


def team_lift_kg(lifters, own_kg=None):
    """Return the guideline load [kg] of so many people, as `lift_guide_kg`, with a limit of their own [kg] or without.

    Examples
    --------
    >>> round(team_lift_kg(2), 1), team_lift_kg(None, 20)
    (33.3, 20.0)
    """
    one = sources.LIFT_ONE_KG if own_kg is None or own_kg > sources.LIFT_ONE_KG else own_kg
    team = 3 if lifters is not None and lifters >= 3 else 2 if lifters == 2 else 1
    return one * team * sources.TEAM_SHARE[team - 1]


def slab_kg(f):
    """Return the mass of a cover slab [kg].

    Examples
    --------
    >>> from calc.facts import Facts
    >>> slab_kg(Facts(slab_length_m=0.6, slab_width_m=0.6, slab_thickness_m=0.075))
    67.5
    """
    sides = (f.slab_length_m, f.slab_width_m, f.slab_thickness_m)
    return None if None in sides else sides[0] * sides[1] * sides[2] * sources.SLAB_KG_M3


def form_age_d(f):
    """Return the full days of 24 h since casting [d].

    Examples
    --------
    >>> from calc.facts import Facts
    >>> form_age_d(Facts(cast_h=121))
    5
    """
    return None if f.cast_h is None else f.cast_h // 24


def form_need_d(f):
    """Return the least age before the dome form may go [d]: the table's, or a signed design's that keeps to the floor.

    Examples
    --------
    >>> from calc.facts import Facts
    >>> [float(form_need_d(Facts(form_least_d=days))) for days in (None, 10, 5)]
    [14.0, 10.0, 14.0]
    """
    return _design_d(f.form_least_d, sources.FORM_D)


def load_need_d(f):
    """Return the least age before a dome takes a load [d], from a signed design or the default."""
    return _design_d(f.load_least_d, sources.DOME_LOAD_D)


def _design_d(design_d, default_d):
    return design_d if design_d is not None and design_d >= sources.FORM_FLOOR_D else default_d


def cure_need_d(f):
    """Return the days concrete and plaster must be kept wet [d]; cement not known counts as blended.

    Examples
    --------
    >>> from calc.facts import Facts
    >>> [float(cure_need_d(Facts(cement="opc", cure_least_d=days))) for days in (None, 5, 14)]
    [7.0, 7.0, 14.0]
    """
    table_d = sources.WET_D[f.cement != "opc", yes(f.hot_dry)]
    return table_d if f.cure_least_d is None else max(table_d, f.cure_least_d)


def head_limit_m(f):
    """Return the head of water the plant may be tested to [m]; the ceiling where the record gives no lower one."""
    return _head(f.test_limit_m)


def gas_head_limit_m(f):
    """Return the head of water the gas may reach in use [m]; the ceiling where the record gives no lower one."""
    return _head(f.gas_limit_m)


def _head(limit_m):
    # a limit that is not a number stays one, so that every head is over it
    ceiling_m = sources.HEAD_CEILING_M
    return ceiling_m if limit_m is None or limit_m > ceiling_m else limit_m


def wbgt_limit_c(f):
    """Return the heat limit for the work and for how used to heat the worker is [C WBGT]; strictest where not known.

    Examples
    --------
    >>> from calc.facts import Facts
    >>> float(wbgt_limit_c(Facts(work="heavy", acclimatised_d=2)))
    23.0
    """
    used = f.acclimatised_d is not None and f.acclimatised_d >= sources.NEW_WORKER_D
    return sources.WBGT_C.get(f.work, sources.WBGT_C["very_heavy"])[0 if used else 1]
