"""How fast one plant is: design, levels, bill and course of the works. Run by hand, prints figures and ratios.

    .venv/bin/python -m tests.bench.works [designs]

Beside it, in the same run, the same arithmetic written out by hand with plain floats, tuples and dictionaries: one shape,
one kind of dome, one crew, no checks, no units, no names of books. Both answer the same to a billionth, or it stops.
Every design is another one. Goal: under 2 ms, and under 3 times the plain version.
"""

import gc
import sys
import time
from math import acos, ceil, cos, inf, pi, sqrt

from bot.stages import STAGES
from calc import sources as s
from calc import works
from calc.bill import bill
from calc.curing import wait_d
from calc.designs import for_gas
from calc.labour import days, labour
from calc.needs import team_lift_kg
from calc.takeoff import takeoff
from calc.vessel import shape

ROUND = shape("cylinder_cap")
MASONS, LABOURERS, DAYS_A_WEEK = 1, 2, 6
WAITS = {name: {wait.since: float(wait_d(wait.event, "opc")) for wait in stage.waits} for name, stage in STAGES.items()}
AFTER = {name: tuple(each for each in stage.after if each not in WAITS[name]) for name, stage in STAGES.items()}
LINKS = [(name, [(each, 0.0) for each in AFTER[name]] + list(WAITS[name].items())) for name in STAGES]


def ours(gas_m3_per_day):
    """One plant by calc: (Design, rows of the bill, slots of the works)."""
    made = for_gas(gas_m3_per_day, form=ROUND)
    taken = takeoff(made)
    rows = bill(made, taken=taken)
    work = labour(made, taken=taken)
    tasks = [
        works.Task(name, works.calendar_days(days(work.get(name, (0.0, 0.0)), MASONS, LABOURERS), DAYS_A_WEEK), AFTER[name], WAITS[name])
        for name in STAGES
    ]
    return made, rows, works.schedule(tasks)


# ---- the same by hand

AGREES = 1e-9
RETENTION_D, YIELD, STORE, DEAD = map(float, (s.NOMINAL_RETENTION_D, s.NOMINAL_YIELD_M3_KG, s.STORE_SHARE, s.DEAD_SHARE))
LONG, BROAD, HIGH = map(float, s.BRICK_M)
JOINT, LEAF, CEMENT = float(s.JOINT_M), float(s.SINGLE_LEAF_MORTAR), float(s.CEMENT_BULK_KG_M3)
BRICK_M3, BRICKS_M3 = LONG * BROAD * HIGH, 1 / ((LONG + JOINT) * (BROAD + JOINT) * (HIGH + JOINT))
WALL, DISH, RISE = ROUND.wall_m, ROUND.bottom_depth, ROUND.rise
BASE, SLAB, OUTSIDE, WATER_COAT, TIGHT_COAT = map(
    float, (s.BASE_THICKNESS_M, s.SLAB_THICK_M, s.OUTSIDE_PLASTER_M, s.WATER_COAT_M, s.TIGHT_COAT_M)
)
ON = {name: float(extra) for name, extra in s.PLASTER_EXTRA_M.items()}
WASTE, PACKS = ({name: float(each) for name, each in table.items()} for table in (s.WASTE, s.PACKS))
SMALL = {name: tuple(map(float, pair)) for name, pair in s.SMALL_D.items()}
BRICKWORK_D, CONCRETE_D, PLASTER_D, SLAB_D = (
    tuple(map(float, pair)) for pair in (s.BRICKWORK_D_M3, s.CONCRETE_D_M3, s.PLASTER_D_M2, s.SLAB_D_M3)
)
SOIL_WASTE, DRY, SAND_M3, DRY_GREATEST = map(float, (s.SOIL_WASTE, s.DRY_VOLUME_BUYING, s.MORTAR_SAND_M3, s.MORTAR_DRY_GREATEST))
SHAFT, TANK, TANK_D, HEAD, ASPECT = map(float, (s.SHAFT_M, s.TANK_DEPTH_M, s.MIXING_TANK_DAYS[1], s.WORKING_HEAD_M, s.CHAMBER_ASPECT))
LEAST_DEPTH, ABOVE, SPACE = map(float, (s.CHAMBER_LEAST_DEPTH_M, s.OVERFLOW_ABOVE_GROUND_M, s.WORKING_SPACE_M))
BAR_SPACE, BAR_COVER, BAND, WASH = map(float, (s.SLAB_SPACING_M, s.SLAB_COVER_M, s.TIGHT_BAND_M, s.WASHES * s.THIN_WASH_KG_M2))
PIPE_TOP, PIPE_SLOPE, PROOFER = float(s.INLET_ABOVE_OVERFLOW_M - s.INLET_END_M), float(s.INLET_SLOPE), float(s.WATERPROOFER_L_KG)
DIG, DEEP, DEEP_SHARE, FILL = float(s.DIG_M3_D["ordinary"]), float(s.DEEP_M), float(s.DEEP_SHARE), float(s.FILL_D_M3)
COVER, UPLIFT, SLURRY, GRAVITY, BRICK_N, SOIL_N = map(
    float, (s.COVER_LEAST_M, s.UPLIFT_FACTOR, s.SLURRY_LOAD_KG_M3, s.GRAVITY_M_S2, s.BRICKWORK_N_M3, s.SOIL_LOOSE_N_M3)
)
LIFT, NARROW, SLAB_KG = map(float, (team_lift_kg(s.COVER_LIFTERS), s.COVER_WIDTH_LEAST_M, s.SLAB_KG_M3))
COATS, HALL = int(s.INSIDE_COATS), ("cement_kg", "sand_m3", "gravel_m3", "bricks", "bar_m", "waterproofer_l", "pipe_m", "gas_pipe", "valve")
UNITS = dict(zip(HALL, ("kg", "m3", "m3", "piece", "m", "l", "m", "piece", "piece"), strict=True))


def cap(a, h):
    return pi * h * (3 * a * a + h * h) / 6


def depth_of(sphere, volume):
    return sphere * (1 + 2 * cos((2 * pi - acos(1 - 2 * volume / (4 * pi * sphere**3 / 3))) / 3))


def radius_of(inside):
    cubic, square = cap(1.0, RISE) + cap(1.0, DISH), pi * WALL
    r = (inside / cubic) ** (1 / 3)
    while True:
        step = ((cubic * r + square) * r * r - inside) / ((3 * cubic * r + 2 * square) * r)
        r -= step
        if step <= 1e-12 * r:
            return r


def level(r, rise, dish, inside, volume):
    bowl, wall = cap(r, dish), pi * r * r * WALL
    if volume > bowl + wall:
        return dish + WALL + rise - depth_of((r * r + rise * rise) / (2 * rise), inside - volume)
    if volume >= bowl:
        return dish + (volume - bowl) / wall * WALL
    return depth_of((r * r + dish * dish) / (2 * dish), volume)


def dimensions(gas):
    slurry = 2 * gas / YIELD / 1000
    store = STORE * gas
    inside = (1 + DEAD) * (slurry * RETENTION_D + store)
    r = radius_of(inside)
    rise, dish = RISE * r, DISH * r
    dead = inside * DEAD / (1 + DEAD)
    zero = level(r, rise, dish, inside, inside - dead)
    low = level(r, rise, dish, inside, inside - dead - store)
    deep = max(low + HEAD - zero, LEAST_DEPTH)
    wide = sqrt(store / deep / ASPECT)
    over = zero + deep
    pit_r = r + max(HIGH, BROAD) + OUTSIDE + SPACE
    pit_deep = over - ABOVE - dish + BASE
    pit = pi * pit_r * pit_r * pit_deep + cap(pit_r, dish)
    return slurry, inside, r, rise, dish, zero, low, over, wide * ASPECT, wide, pit_deep + dish, pit, pi * (pit_r**2 + dish**2) * BASE


def one_m3(sand, stone=0):
    part = (DRY if stone else min(SAND_M3 * (1 + 1 / sand), DRY_GREATEST)) / (1 + sand + stone)
    return CEMENT * part, sand * part, stone * part


MORTAR, CONCRETE = {sand: one_m3(sand) for sand in (3, 4)}, {sand: one_m3(sand, 2 * sand) for sand in (1.5, 2)}


def mortar(volume, sand):
    cement_kg, sand_m3, _ = MORTAR[sand]
    return cement_kg * volume, sand_m3 * volume


def concrete(volume, sand):
    cement_kg, sand_m3, stone_m3 = CONCRETE[sand]
    return cement_kg * volume, sand_m3 * volume, stone_m3 * volume


def leaf(number, volume):
    return number, LEAF * (volume - number * BRICK_M3)


def ring(r, h):
    return leaf(2 * pi * r * h / ((LONG + JOINT) * (HIGH + JOINT)), pi * ((r + BROAD) ** 2 - r * r) * h)


def quantities(found):
    slurry, _, r, rise, dish, zero, low, over, long, wide, _, _, base_m3 = found
    sphere = (r * r + rise * rise) / (2 * rise)
    base = concrete(base_m3 * SOIL_WASTE, 2)
    wall_bricks, wall_m3 = ring(r, WALL)
    wall = mortar(wall_m3, 4)
    over_dome = 2 * pi * (sphere + HIGH) * (rise + HIGH)
    top, shell = sphere + HIGH, rise + HIGH
    shell_m3 = pi * shell**2 * (3 * top - shell) / 3 - pi * rise**2 * (3 * sphere - rise) / 3
    dome_bricks, dome_m3 = leaf(pi * (r * r + rise * rise) / ((LONG + JOINT) * (BROAD + JOINT)), shell_m3)
    dome, coat = mortar(dome_m3, 3), mortar(over_dome * (OUTSIDE + ON["brick"]), 4)
    tank_r = sqrt(TANK_D * slurry / pi / TANK)
    tank_bricks, tank_m3 = ring(tank_r, TANK)
    tank, floor = mortar(tank_m3, 4), concrete(pi * (tank_r + BROAD) ** 2 * SLAB, 2)
    deep = over - zero
    face = 2 * (long + wide + 2 * BROAD) * deep + 3 * (SHAFT + BROAD) * zero
    out_bricks, out_m3 = leaf(face / ((LONG + JOINT) * (HIGH + JOINT)), face * BROAD)
    out, ground = mortar(out_m3, 4), concrete((long + 2 * BROAD) * (wide + 2 * BROAD) * SLAB, 2)
    skin = mortar((2 * (long + wide) * deep + long * wide + 4 * SHAFT * zero) * (WATER_COAT + ON["brick"]), 3)
    all_m2 = pi * (r * r + rise * rise) + 2 * pi * r * WALL + pi * (r * r + dish * dish)
    from_m = low - BAND
    if from_m >= dish:
        tight_m2 = pi * (r * r + rise * rise) + 2 * pi * r * (dish + WALL - from_m)
    else:
        tight_m2 = all_m2 - pi * (r * r + dish * dish) * from_m / dish
    tight = mortar(tight_m2 * (TIGHT_COAT + ON["brick"]) + (COATS - 1) * tight_m2 * (TIGHT_COAT + ON["smooth"]), 3)
    below = mortar((all_m2 - tight_m2) * (WATER_COAT + ON["brick"]), 3)
    tight_kg = tight[0] + tight_m2 * WASH
    across, along = min(long, wide) + 2 * BROAD, max(long, wide) + 2 * BROAD
    slabs = max(ceil(along / max(LIFT / (across * SLAB * SLAB_KG), NARROW) - 1e-9), 1)
    slabs -= along / slabs < NARROW
    cover = concrete(across * along * SLAB, 1.5)
    in_long, in_wide = across - 2 * BAR_COVER, along / slabs - 2 * BAR_COVER
    bars = slabs * ((ceil(in_wide / BAR_SPACE - 1e-9) + 1) * in_long + (ceil(in_long / BAR_SPACE - 1e-9) + 1) * in_wide)
    return tight_m2, {
        "base": {"cement_kg": base[0], "sand_m3": base[1], "gravel_m3": base[2]},
        "wall": {"cement_kg": wall[0], "sand_m3": wall[1], "bricks": wall_bricks},
        "dome": {"cement_kg": dome[0] + coat[0], "sand_m3": dome[1] + coat[1], "bricks": dome_bricks},
        "inlet": {
            "cement_kg": tank[0] + floor[0], "sand_m3": tank[1] + floor[1], "gravel_m3": floor[2], "bricks": tank_bricks,
            "pipe_m": (over + PIPE_TOP) / PIPE_SLOPE,
        },
        "outlet": {
            "cement_kg": out[0] + ground[0] + skin[0], "sand_m3": out[1] + ground[1] + skin[1], "gravel_m3": ground[2],
            "bricks": out_bricks,
        },
        "plaster": {"cement_kg": tight_kg + below[0], "sand_m3": tight[1] + below[1], "waterproofer_l": tight_kg * PROOFER},
        "covers": {"cement_kg": cover[0], "sand_m3": cover[1], "gravel_m3": cover[2], "bar_m": bars},
        "pipe": {"gas_pipe": 1.0, "valve": 1.0},
    }  # fmt: skip


def to_buy(taken):
    rows = []
    for stage, items in taken.items():
        for item in HALL:
            if item in items:
                quantity = items[item] * WASTE.get(item, 1.0)
                rows.append((stage, item, quantity, UNITS[item], ceil(quantity / PACKS[item] - 1e-9), PACKS[item]))
    return rows


def rammed(r, rise, dish, low, over, pit_deep):
    load = (over - low) * SLURRY * GRAVITY
    cover = max(COVER, (UPLIFT * load - BRICK_N * HIGH) / SOIL_N)
    mound = max(dish + WALL + rise + HIGH + cover - (over - ABOVE), 0.0)
    sphere = (r * r + rise * rise) / (2 * rise)
    top, shell = sphere + HIGH, rise + HIGH
    pit_r = r + max(HIGH, BROAD) + OUTSIDE + SPACE
    dome = pi * shell**2 * (3 * top - shell) / 3
    return pi * pit_r**2 * (pit_deep - BASE + mound / 3) - pi * (r + BROAD) ** 2 * WALL - dome


def person_days(found, tight_m2, taken):
    _, _, r, rise, dish, _, low, over, long, wide, deepest, pit, base_m3 = found
    digging = pit / DIG
    if deepest > DEEP:
        share = 1 - DEEP / deepest
        digging *= 1 - share + share / DEEP_SHARE
    work = {stage: [rate * taken[stage]["bricks"] / BRICKS_M3 for rate in BRICKWORK_D] for stage in ("wall", "inlet", "outlet", "dome")}
    work["base"] = [rate * base_m3 for rate in CONCRETE_D]
    work["plaster"] = [rate * COATS * tight_m2 for rate in PLASTER_D]
    work["covers"] = [rate * long * wide * SLAB for rate in SLAB_D]
    return {**SMALL, **work, "pit": (0.0, digging), "backfill": (0.0, rammed(r, rise, dish, low, over, deepest - dish) * FILL)}


def course(work):
    takes, start, finish, held_by = {}, {}, {}, {}
    for name, links in LINKS:
        mason, labourer = work.get(name, (0.0, 0.0))
        takes[name] = ceil(max(mason / MASONS, labourer / LABOURERS) / 0.5 - 1e-9) * 0.5 * 7 / DAYS_A_WEEK
        free, held, waiting = 0.0, None, 0.0
        for each, wait in links:
            if finish[each] + wait >= free:
                free, held, waiting = finish[each] + wait, each, wait
        start[name], held_by[name] = free, (held, waiting)
        finish[name] = free + takes[name]
    latest = dict.fromkeys(finish, max(finish.values()))
    for name, links in reversed(LINKS):
        for each, wait in links:
            latest[each] = min(latest[each], latest[name] - takes[name] - wait)
    return {name: (start[name], finish[name], latest[name] - finish[name], *held_by[name]) for name in start}


def plain(gas):
    """One plant by hand: (dimensions, rows of the bill, course of the works)."""
    found = dimensions(gas)
    tight_m2, taken = quantities(found)
    return found, to_buy(taken), course(person_days(found, tight_m2, taken))


# ---- beside each other


def check(gas):
    """Stop where the two do not answer the same."""
    made, rows, slots = ours(gas)
    found, bought, when = plain(gas)
    vessel, levels = made.vessel, made.levels
    pairs = list(zip(found[1:10], (
        vessel.inside_m3, vessel.radius_m, vessel.dome_rise_m, vessel.bottom_depth_m, levels.zero_line_m, levels.lowest_m,
        levels.overflow_m, made.chamber_length_m, made.chamber_width_m,
    ), strict=True))  # fmt: skip
    assert [(row.stage, row.item, row.unit, row.packs, row.pack) for row in rows] == [row[:2] + row[3:] for row in bought]
    pairs += [(row.quantity, other[2]) for row, other in zip(rows, bought, strict=True)]
    assert set(slots) == set(when)
    assert {name: slot.held_by for name, slot in slots.items()} == {name: row[3] for name, row in when.items()}
    for name, (start_d, finish_d, slack_d, _, waiting_d) in slots.items():
        start, finish, slack, _, waiting = when[name]
        pairs += (start_d, start), (finish_d, finish), (slack_d, slack), (waiting_d, waiting)
    apart = max(abs(one - other) / max(1.0, abs(one)) for one, other in pairs)
    assert apart < AGREES, f"{apart:.1e} apart at {gas} m3 a day"
    return len(pairs)


def timed(call, sizes):
    """Milliseconds a call, over sizes that are all different."""
    started = time.perf_counter()
    for size in sizes:
        call(size)
    return 1000 * (time.perf_counter() - started) / len(sizes)


def least(calls, runs=800, designs=4):
    """The least milliseconds a call of each, in many short runs by turns: what else the machine does spoils some, not all."""
    shortest = [inf] * len(calls)
    for n in range(runs):
        run = sizes(designs, 0.8 + n / 1e3)
        shortest = [min(so_far, timed(call, run)) for so_far, call in zip(shortest, calls, strict=True)]
    return shortest


def sizes(count, first=0.8, last=4.5):
    return [first + (last - first) * n / count for n in range(count)]


def main(most=10_000):
    compared = sum(check(gas) for gas in sizes(200))
    print(f"same    {compared} numbers of 200 designs, apart by less than {AGREES:g}")
    gc.collect()
    best = least((ours, plain))
    print(f"one     {best[0]:8.3f} ms design, levels, bill and works; goal 2 ms")
    print(f"plain   {best[1]:8.3f} ms the same by hand")
    print(f"ratio   {best[0] / best[1]:8.2f} times; goal 3")
    count = 10
    while count <= most:
        each = timed(ours, sizes(count)), timed(plain, sizes(count))
        whole, ratio = each[0] * count / 1000, each[0] / each[1]
        print(f"{count:7} designs {whole:9.3f} s, {each[0]:.3f} ms each; by hand {each[1]:.3f} ms each, {ratio:.2f} times")
        count *= 10


if __name__ == "__main__":
    main(*map(int, sys.argv[1:2]))
