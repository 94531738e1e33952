"""Setting out: sides and diagonals, string tables and courses, levels below the peg string, the inlet pipe."""

from bot import foreman
from bot.forms import Answer, Entry, Kind
from bot.phrases import T_, Amount, Head, Number, Series, Size, Span, lines
from bot.tape import Bound, Fine, Mark, TapeUnit
from bot.titles import DOMES
from calc import rings, setting_out, strings
from calc.errors import OutOfRange
from calc.masonry import Brick
from calc.sources import BRICK_M, INLET_END_RANGE_M, INLET_SLOPE_DEG, JOINT_M, OUTLET_LEVEL_M
from calc.units import si

MOST_STEPS = 8  # pairs of a table that fit two messages
STEPS_M = (0.2, 0.25, 0.3, 0.4, 0.5)
STEPS_FEET_M = tuple(si(inches, "in") for inches in (8, 10, 12, 16, 20))
NEAR_M = 0.01
ALIKE_M = 0.0005  # less cannot be read off a tape
PLACES = {
    "inlet_floor": T_("inlet floor"),
    "overflow": T_("overflow"),
    "outlet_floor": T_("outlet floor"),
    "crown": T_("crown"),
    "spring": T_("dome start"),
    "inlet_end": T_("inlet pipe end"),
    "passage_top": T_("passage top"),
    "floor_edge": T_("floor edge"),
    "floor_middle": T_("floor middle"),
    "pit_edge": T_("pit edge"),
}


# ---- right angles


def layout(form, site, sender, now):
    sides, diagonals = form.get("sides_m", ()), form.get("diagonals_m", ())
    head = foreman.head(site, T_("layout"), site.next_number)
    if len(sides) == 3 and not diagonals:
        off_m, right = setting_out.right_angle(*sorted(sides))
        told = _corner(off_m, right, sorted(sides))
    elif len(sides) == 2 and len(diagonals) == 2:
        found = setting_out.rectangle(*sorted(sides, reverse=True), *diagonals)
        right, told = found.within and _fit(found, diagonals), _rectangle(found, diagonals)
    elif len(diagonals) == 2 and not sides:
        differ_m, allowed_m = abs(diagonals[0] - diagonals[1]), setting_out.diagonals_allowed_m()
        right = differ_m <= allowed_m + 1e-9
        told = _differ(differ_m, allowed_m, right) + T_("Send the sides too for the right length.")
    else:
        return Answer(
            T_("%(site)s LAYOUT: nothing saved. Send both sides and both diagonals, or the three sides of a 3-4-5.", site=site.code)
        )
    return Answer(lines([head, told]), (Entry("layout", form.fields, "within" if right else "outside"),))


def _corner(off_m, right, sides):
    said = {"across": Size(sides[2]), "wanted": Size((sides[0] ** 2 + sides[1] ** 2) ** 0.5), "off": Size(abs(off_m))}
    if right:
        return T_("right angle: %(across)s, wanted %(wanted)s.", **said)
    return T_("no right angle: %(across)s, wanted %(wanted)s, %(off)s off. Move the corner peg, measure again.", **said)


def _differ(differ_m, allowed_m, right):
    said = {"off": Fine(differ_m), "most": Bound(allowed_m)}
    if differ_m < ALIKE_M:
        return T_("diagonals alike.")
    if right:
        return T_("diagonals differ by %(off)s: within, at most %(most)s.", **said)
    return T_("diagonals differ by %(off)s: outside, at most %(most)s. Shift two pegs so that the longer one gets shorter.", **said)


def _rectangle(found, diagonals):
    wanted = T_("Right diagonal %(wanted)s.", wanted=Size(found.wanted_m))
    if not _fit(found, diagonals):
        said = {"mean": Size(sum(diagonals) / 2), "wanted": Size(found.wanted_m)}
        return T_("outside: diagonals %(mean)s do not fit the sides, right is %(wanted)s. Measure all four again.", **said)
    return _differ(abs(found.differ_m), found.allowed_m, found.within) + wanted


def _fit(found, diagonals):
    return abs(sum(diagonals) / 2 - found.wanted_m) <= 0.02


# ---- strings


def string(form, site, sender, now):
    made = site.design
    if made is None:
        return Answer(foreman.no_plan(site))
    vessel, head = made.vessel, foreman.head(site, T_("string"))
    step_m = _step(vessel, form.feet or sender.person.units == "feet")
    if form.get("course") is not None or form.get("part") is None and form.get("bricks"):
        return Answer(lines([head, _courses(form.get("course"), made)]))
    if form.get("part") in ("pit", "base", "bowl"):
        if not vessel.bottom_depth_m:
            return Answer(lines([head, T_("The floor is flat: no table.")]))
        table = _pairs(strings.bowl_table(vessel, step_m))
        return Answer(lines([head, T_("Floor, %(unit)s from the middle: below the rim. %(table)s.", unit=TapeUnit(), table=table)]))
    table, centre_m = strings.dome_table(vessel, step_m), strings.dome_centre_m(vessel)
    said = {"string": Size(vessel.sphere_radius_m), "table": _pairs(table), "unit": TapeUnit()}
    told = T_("String %(string)s. Dome, %(unit)s from the middle: over its start. %(table)s.", **said)
    return Answer(lines([head, _peg(vessel, centre_m), told]))


def _peg(vessel, centre_m):
    """Where the string is fixed; a flat dome over a low wall has its centre under the floor, where no peg stands."""
    if centre_m >= -0.005:
        return T_("Peg level with the dome start.")
    said, over_floor_m = {"under": Size(-centre_m)}, vessel.spring_m + centre_m
    if over_floor_m < 0:
        return T_("The centre lies %(deep)s under the floor: no peg. Build by a template cut to this table.", deep=Size(-over_floor_m))
    return T_("Peg %(under)s under the dome start, in the middle.", **said)


def _step(vessel, feet):
    return next(step for step in (STEPS_FEET_M if feet else STEPS_M) if vessel.radius_m / step <= MOST_STEPS - 1)


def _pairs(table):
    """The rows of a table, without one so near the rim that both would print alike."""
    table = [row for row in table[:-1] if table[-1][0] - row[0] >= NEAR_M] + list(table[-1:])
    return Series(tuple(T_("%(x)s: %(y)s", x=Mark(x, 0), y=Mark(y)) for x, y in table))


def _courses(number, made):
    """One course with its bricks, or how many there are."""
    if made.dome != "brick":
        return T_("No courses: the dome is of %(dome)s.", dome=DOMES[made.dome])
    vessel, brick = made.vessel, Brick(*BRICK_M)
    laid = rings.courses(vessel, brick)
    found = next((each for each in laid if each.number == number), None)
    if found is None:
        said = {"all": len(laid), "first": rings.ring(vessel, 1, brick).bricks}
        return T_("The dome has %(all)s courses, the first of %(first)s bricks. Send: course n.", **said)
    said = {
        "number": number,
        "all": len(laid),
        "radius": Size(found.radius_m),
        "height": Fine(found.height_m),
        "string": Size(vessel.sphere_radius_m),
    }
    told = T_(
        "Course %(number)s of %(all)s: inside radius %(radius)s, top %(height)s over the dome start. Every brick at the string %(string)s.",
        **said,
    )
    return told + _bricks(number, vessel, brick)


def _bricks(number, vessel, brick):
    """The bricks of a course, long side round the ring, whole or halved, or cut to wedges where their joints would open too far."""
    for title, halves in ((T_("bricks"), False), (T_("half bricks"), True)):
        try:
            laid = rings.ring(vessel, number, brick, halves=halves)
        except OutOfRange:
            continue
        if not laid.cut:
            joints = {"inside": _mm(laid.inside_joint_m), "outside": _mm(laid.outside_joint_m)}
            return T_("%(count)s %(title)s, joint %(inside)s inside, %(outside)s outside.", count=laid.bricks, title=title, **joints)
    for title, halves in ((T_("bricks"), False), (T_("half bricks"), True)):
        try:
            cut = rings.wedges(vessel, number, brick, halves=halves)
        except OutOfRange:
            continue
        faces = {"outside": _mm(cut.outside_m), "inside": _mm(cut.inside_m), "joint": _mm(JOINT_M), "count": cut.bricks, "title": title}
        return T_("Cut %(count)s %(title)s to wedges, %(outside)s outside, %(inside)s inside: joints %(joint)s all through.", **faces)
    return T_("Too narrow for whole or half bricks: close the crown as your drawing says.")


def _mm(value_m):
    return Fine(value_m, "mm")


# ---- levels


def levels(form, site, sender, now):
    made = site.design
    if made is None:
        return Answer(foreman.no_plan(site))
    string_m = form.get("string_m") or site.reading("string_m")[0]
    if string_m is None:
        return Answer(T_("%(site)s LEVELS: how high is the peg string over the ground? Send: levels string nn cm.", site=site.code))
    entry = (Entry("levels", {"string_m": string_m}),) if form.get("string_m") else ()
    below = strings.below_string(made, string_m)
    if form.get("place") is None:
        head = foreman.head(site, T_("levels"), site.next_number if entry else None)
        told = Series(tuple(T_("%(place)s %(mark)s", place=PLACES[name], mark=Mark(value, 0)) for name, value in below.items()))
        return Answer(lines([head, T_("%(unit)s below the string: %(list)s.", unit=TapeUnit(), list=told)]), entry)
    return _level(form, site, below, made)


def _level(form, site, below, made):
    place, read_m = form.get("place"), form.get("below_m")
    if read_m is None:
        return Answer(lines([foreman.head(site, PLACES[place]), T_("Plan %(plan)s below the string.", plan=Fine(below[place]))]))
    head = foreman.head(site, PLACES[place], site.next_number)
    off_m = below[place] - read_m
    way = T_("too high") if off_m > 0 else T_("too low")
    said = {"read": Fine(read_m), "plan": Fine(below[place]), "off": Fine(abs(off_m)), "way": way}
    told = T_("%(read)s below the string, plan %(plan)s: %(off)s %(way)s.", **said)
    if abs(off_m) < ALIKE_M:
        told = T_("%(read)s below the string, as planned.", **said)
    if place == "inlet_floor":
        lower = off_m < -1e-6
        text = T_("Outside: feed can come back. Raise it.") if lower else T_("Within.")
        return Answer(lines([head, told, text]), (Entry("level", form.fields, "outside" if lower else "within"),))
    stands = strings.level_verdict(place, off_m)
    built = strings.as_built(made, **{{"overflow": "overflow_off_m", "outlet_floor": "floor_off_m"}[place]: off_m})
    fine, rebuild = (Bound(float(value)) for value in OUTLET_LEVEL_M)
    does = {"head": Head(built.greatest_pressure_pa), "store": Amount(built.store_m3, "m3", 2), "fine": fine, "rebuild": rebuild}
    text = {
        "within": T_("Within, at most %(fine)s.", **does),
        "outside": T_("Outside, at most %(fine)s: gas up to %(head)s, store %(store)s. Correct it while the mortar is fresh.", **does),
        "rebuild": T_("More than %(rebuild)s off: rebuild it. As it is: gas up to %(head)s, store %(store)s.", **does),
    }[stands]
    return Answer(lines([head, told, text]), (Entry("level", form.fields, "within" if stands == "within" else "outside"),))


def inlet(form, site, sender, now):
    made = site.design
    if made is None:
        return Answer(foreman.no_plan(site))
    if form.get("end_m") is None or form.get("slope_deg") is None:
        return Answer(T_("%(site)s INLET PIPE: nothing saved. Send: inlet pipe nn cm over floor slope nn deg.", site=site.code))
    wrong = strings.inlet_pipe(form.get("end_m"), form.get("slope_deg"), made)
    span = Span(*map(float, INLET_END_RANGE_M))
    texts = {
        "low": T_("Too low: lower end %(span)s over the floor.", span=span),
        "high": T_("Too high: lower end %(span)s over the floor.", span=span),
        "dry": T_("Its end would stand out of the slurry: gas leaves there. Lower it."),
        "flat": T_("Too flat: at least %(least)s degrees.", least=int(INLET_SLOPE_DEG[0])),
        "shallow": T_("60 degrees are better: a pole must reach the digester."),
    }
    head = foreman.head(site, T_("inlet pipe"), site.next_number)
    said = T_("end %(end)s over the floor, slope %(slope)s degrees.", end=Size(form.get("end_m")), slope=Number(form.get("slope_deg"), 0))
    outside = bool(set(wrong) - {"shallow"})
    told = [texts[name] for name in wrong] or [T_("Within. Straight, a 2 m pole must reach the digester.")]
    return Answer(lines([head, said, *told]), (Entry("inlet_pipe", form.fields, "outside" if outside else "within"),))


LAYOUT = Kind(
    name="layout",
    about=T_("Layout: both sides and both diagonals, or 3-4-5."),
    example=T_("layout n.nn n.nn m diagonal n.nn n.nn m"),
    cues=("part.layout number", "act.diagonal length", "act.right_angle length"),
    grammar="pegs",
    answer=layout,
)
STRING = Kind(
    name="string",
    about=T_("String: table of the dome or the floor, or one course."),
    example=T_("string table dome"),
    cues=("act.string_table", "act.course number -length", "act.course item.bricks -act.arrived -act.used -act.done -not"),
    grammar="pegs",
    answer=string,
)
LEVELS = Kind(
    name="levels",
    about=T_("Levels: cm below the peg string; or one level to check."),
    example=T_("levels string nn cm"),
    cues=(
        "act.levels",
        "level length -part.dome",
        "level act.below",
        "level -number -part -not -act.done",
        "act.zero_line length -item -act.fell -act.filled -part",
    ),
    grammar="pegs",
    answer=levels,
)
INLET = Kind(
    name="inlet_pipe",
    about=T_("Inlet pipe: lower end over the floor, slope."),
    example=T_("inlet pipe nn cm over floor slope nn deg"),
    cues=("part.inlet length", "part.inlet field.slope"),
    grammar="pegs",
    answer=inlet,
)
