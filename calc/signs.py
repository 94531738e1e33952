"""What is dangerous at a site, one question each: a deep pit, a steep side, a fresh wall, a plant that held slurry.

Each takes `Facts`. A measure that must be there is dangerous when it is missing; a danger nobody reported is not
there; whatever was reported and is not a number, or not one of the words known here, is dangerous.
"""

from calc import needs as n
from calc import sources as s
from calc.facts import INSIDE_TASKS, STAGES, yes

TO_DIG = ("site", "layout", "pit")
OPEN_PIT = ("pit", "base", "wall", "inlet", "outlet", "backfill")
BUILT = STAGES[STAGES.index("wall") :]  # an opening exists from here on
IN_USE = ("first_fill", "first_gas", "handover", "use")
OUTDOORS = ("dome", "pipe", "outlet", "yard")


def said(*values):
    """Return whether any of these was reported."""
    return any(value is not None for value in values)


def short(value, limit):
    """Return whether `value` is under `limit`; true where either is missing or not a number."""
    return not (said(value) and said(limit) and round(value - limit, 6) >= 0)


def over(value, limit):
    """Return whether `value` is above `limit`; true where either is missing or not a number."""
    return not (said(value) and said(limit) and round(value - limit, 6) <= 0)


def reaches(value, limit):
    """Return whether `value` is at or above `limit`; true where either is missing or not a number."""
    return not (said(value) and said(limit) and round(value - limit, 6) < 0)


def open_pit(f):
    """Whether the rules of the open pit are on: by the stage, a depth, or people in it."""
    return f.stage in OPEN_PIT or said(f.depth_m) or f.people_in_pit not in (None, 0)


def deep(f, limit_m):
    """Whether the open pit is this deep or deeper, or its depth is not known."""
    return open_pit(f) and reaches(n.reckoned_m(f), limit_m)


def occupied(f):
    """Whether people are in the pit; not reported means there may be."""
    return f.people_in_pit != 0


def entered(f):
    """Whether people are in the pit or about to go in."""
    return occupied(f) or yes(f.entry_next)


def changed(f):
    """Whether something happened since the pit sides were last looked at."""
    deeper = said(f.depth_change_m) and reaches(f.depth_change_m, s.DEPTH_CHANGE_M)
    return deeper or any(map(yes, (f.new_shift, f.rain_since_check, f.freeze, f.blasting)))


def released(f):
    """Whether a signed slope or support still holds: one shift, and only while nothing changed."""
    signed = f.side_protection in ("slope", "support") and not over(f.release_h, s.RELEASE_LIFE_H)
    weaker = n.wet(f) or n.moving(f) or any(map(yes, (f.vibration, f.fissured, f.disturbed, f.layers_dip_in)))
    return signed and not weaker and not changed(f)


def steep(f):
    """Whether an unsupported side stands steeper than its soil allows."""
    if n.soil_class(f) == "rock" or (f.side_protection == "support" and released(f)):
        return False
    return open_pit(f) and short(f.slope_run_m, n.slope_need_m(f))


def too_deep(f):
    """Whether the pit is deeper than that of any household plant."""
    return said(f.depth_m) and over(n.deepest_m(f), s.HOUSEHOLD_DEPTH_M)


def bad_ladder(f):
    """Whether a reported ladder ends too low, stands too far away, or leans wrongly."""
    far = said(f.ladder_travel_m) and over(f.ladder_travel_m, s.LADDER_TRAVEL_M)
    height, foot = f.ladder_height_m, f.ladder_foot_out_m
    low, high = s.LADDER_PITCH
    leans = said(height, foot) and (None in (height, foot) or not foot * low <= height <= foot * high)
    return yes(f.ladder) and (short(f.ladder_above_edge_m, s.LADDER_RISE_M) or far or leans)


def near_building(f):
    """Whether something stands closer to the pit than the pit is, or will be, deep."""
    depths = [depth for depth in (f.planned_depth_m, n.deepest_m(f)) if said(depth)]
    return said(f.neighbour_m) and (not depths or any(short(f.neighbour_m, depth) for depth in depths))


def heap_near(f, limit_m):
    """Whether the soil heap is nearer than this, or its distance is not known while the pit is open."""
    return (open_pit(f) or said(f.spoil_edge_m)) and short(f.spoil_edge_m, limit_m)


def load_near(f):
    """Whether a reported load stands too near the edge."""
    return (said(f.load_edge_m) or yes(f.vehicle_near)) and short(f.load_edge_m, n.load_need_m(f))


def fresh_wall(f):
    """Whether soil goes behind a wall too young for it, or unevenly."""
    uneven = over(f.backfill_step_m, s.BACKFILL_STEP_M)
    return (f.stage == "backfill" or yes(f.backfilling)) and (short(f.wall_age_h, f.wall_least_h) or uneven)


def cured_short(f):
    """Whether concrete or plaster was kept wet too short or cast too hot."""
    days = (said(f.cured_d) or yes(f.strip_asked)) and short(f.cured_d, n.cure_need_d(f))
    missed = said(f.cure_missed_d) and reaches(f.cure_missed_d, 1)
    return days or missed or (yes(f.casting) and reaches(f.air_c, s.HOT_CAST_C))


def inside_new(f):
    """Whether people work, or want to, inside a dome that never held slurry."""
    work = f.stage == "plaster" or f.tasks & INSIDE_TASKS or yes(f.inside) or yes(f.wants_entry)
    return bool(work) and not yes(f.slurry_ever_filled)


def fumes(f):
    """Whether something poisons or burns the air inside a new dome."""
    bad = f.paint not in (None, "water") or f.lamp not in (None, "battery") or yes(f.flame_inside)
    return (bad or yes(f.engine_inside)) and f.inside is not False and not yes(f.slurry_ever_filled)


def heavy_slab(f, limit_kg):
    """Whether a cover slab weighs more than this, or one of its sides is not known."""
    return said(f.slab_length_m, f.slab_width_m, f.slab_thickness_m) and over(n.slab_kg(f), limit_kg)


def uncovered(f):
    """Whether an opening without a cover is left alone or stands in a plant in use."""
    watched = f.stage in IN_USE or f.stage is None
    return f.covers_on is not True and (yes(f.leaving) and (said(f.covers_on) or f.stage in BUILT) or said(f.covers_on) and watched)


def no_limit(f):
    """Whether pressure is asked for or reported at a plant without a test limit on record."""
    pressed = f.stage == "gas_test" or yes(f.test_asked) or said(f.test_head_m, f.press_source)
    return pressed and not (said(f.test_limit_m) and f.test_limit_m > 0)


def poor_reading(f):
    """Whether a test that is to be judged shows neither tight nor leaking."""
    warmed = not (said(f.temp_change_c) and abs(f.temp_change_c) <= s.TEST_TEMP_C)
    bad = short(f.test_h, f.test_least_h) or warmed or f.valve_shut is not True
    return (yes(f.test_ended) or said(f.test_h)) and (bad or short(f.test_start_m, 0))


def gas_over(f):
    """Whether gas in use is above the limit, or pushes slurry out with nobody using it."""
    spilling = yes(f.outlet_spilling) and f.gas_used is not True
    return spilling or (said(f.gas_head_m) and over(f.gas_head_m, n.gas_head_limit_m(f)))


def gas_near(f):
    """Whether gas in use comes near its limit, or was measured at a plant without one on record."""
    near_m = None if f.gas_limit_m is None else n.gas_head_limit_m(f) * s.NEAR_LIMIT
    return said(f.gas_head_m) and reaches(f.gas_head_m, near_m)


def no_air(f):
    """Whether a stove burns, or is to, in a room without enough air."""
    on = f.stage in ("first_gas", "handover") or said(f.stove_vents)
    return on and short(f.stove_vents, s.STOVE_OPENINGS) or yes(f.sleeping_room) or yes(f.windows_closed)


def inside_used(f):
    """Whether somebody wants into a plant that held slurry, or that nobody knows never did."""
    wants = f.tasks & INSIDE_TASKS or yes(f.wants_entry) or yes(f.inside)
    return bool(wants) and f.slurry_ever_filled is not False


def hot(f, grade):
    """Whether heat index, or air temperature where humidity is not known, reaches grade 0, 1 or 2."""
    value, limits = (f.heat_index_c, s.HEAT_INDEX_C) if said(f.heat_index_c) else (f.air_c, s.AIR_HEAT_C)
    return said(value) and reaches(value, limits[grade])


def wbgt(f, over_c=0):
    """Whether the WBGT reaches the limit for this work and worker, or that plus `over_c`."""
    return said(f.wbgt_c) and reaches(f.wbgt_c, n.wbgt_limit_c(f) + over_c)
