"""The stages of a plant as records: what each asks, checks, holds, waits for; and how a site stands in them.

A stage is finished when it was reported done with its readings within plan and, at a hold point, released.
"""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from math import ceil

from bot.phrases import T_, Text
from calc import sources as s
from calc.checks import OUTSIDE, WITHIN, Limits, judge
from calc.curing import days_needed, strip_dome_d, wait_d, wet_days
from calc.errors import CalcError

HOLD, WITNESS = "hold", "witness"
LOOSE = 1.7  # a reading may be taken for another unit only within this factor of its plan


@dataclass(frozen=True)
class Wait:
    """Something that must harden first: an event of calc.curing, counted from the day a stage was done."""

    event: str
    since: str


@dataclass(frozen=True)
class Stage:
    """One stage: its title, what comes before it, what is read, where it waits and who must release it."""

    name: str
    title: Text
    order: Text  # what to do, as a foreman says it
    after: tuple = ()
    wants: tuple = ()  # readings without which it is not done
    hold: str | None = None
    waits: tuple = ()
    unchecked: Text = Text()  # which check the bot does not make yet
    kinds: tuple = ()  # entries that are readings of this stage


_NOT_YET = {
    "site": T_("The bot does not check distances yet: measure well, house, trees with your supervisor."),
    "layout": T_("The bot does not check the setting out yet: measure both diagonals and the centre peg."),
    "inlet": T_("The bot does not check the inlet pipe yet: a 2 m pole must reach the digester."),
    "outlet": T_("The bot does not check the outlet levels yet: level floor and overflow from the peg."),
    "backfill": T_("The bot does not check the fill yet: layers of 15 to 30 cm, even all round."),
    "water_test": T_("The bot does not judge the water test yet: your supervisor does."),
    "gas_test": T_("The bot does not judge the gas test yet: your supervisor does."),
    "pipe": T_("The bot does not check gas pipes: a licensed or approved fitter fits and signs."),
    "first_fill": T_("The bot does not reckon the start-up yet: fill with the gas valve open."),
    "first_gas": T_("The bot does not judge the gas yet: let the first two fillings off outside, no flame."),
    "handover": T_("The bot does not check the handover list yet: go through it with the farmer."),
}

STAGES = {
    stage.name: stage
    for stage in (
        Stage("site", T_("site"), T_("Choose the site: 30 m from a well, 3 m from a house."), unchecked=_NOT_YET["site"]),
        Stage("layout", T_("layout"), T_("Set out pit, inlet and outlet in one line."), ("site",), unchecked=_NOT_YET["layout"]),
        Stage("pit", T_("pit"), T_("Dig the pit."), ("layout",), ("pit_depth_m", "pit_dia_m"), HOLD, kinds=("pit",)),
        Stage("base", T_("base"), T_("Cast the base."), ("pit",), ("base_thick_m",), WITNESS, kinds=("base",)),
        Stage(
            "wall", T_("wall"), T_("Build the wall."), ("base",), ("wall_height_m",), WITNESS,
            (Wait("wall on base", "base"),), kinds=("wall",),
        ),
        Stage(
            "dome", T_("dome"), T_("Build the dome."), ("wall",), ("dome_radius_m", "dome_height_m"), HOLD,
            (Wait("wall on base", "base"), Wait("dome on wall", "wall")), kinds=("dome",),
        ),
        Stage("inlet", T_("inlet"), T_("Build the mixing tank and lay the inlet pipe."), ("base",), unchecked=_NOT_YET["inlet"]),
        Stage("outlet", T_("outlet"), T_("Build the outlet chamber."), ("base",), hold=WITNESS, unchecked=_NOT_YET["outlet"]),
        Stage(
            "plaster", T_("plaster"), T_("Plaster inside, coat by coat."), ("dome",), ("coats",), HOLD,
            (Wait("tight plaster on masonry", "dome"), Wait("strip dome", "dome")), kinds=("coats",),
        ),
        Stage("covers", T_("covers"), T_("Cast the cover slabs on flat ground."), ("outlet",)),
        Stage(
            "backfill", T_("backfill"), T_("Fill soil evenly all round, then cover the dome."), ("dome",), hold=WITNESS,
            waits=(Wait("backfill wall", "wall"), Wait("cover dome", "dome")), unchecked=_NOT_YET["backfill"],
        ),
        Stage(
            "water_test", T_("water test"), T_("Fill with water to the zero line."), ("plaster", "inlet", "outlet"), hold=HOLD,
            waits=(Wait("water test", "plaster"),), unchecked=_NOT_YET["water_test"], kinds=("water_test",),
        ),
        Stage(
            "gas_test", T_("gas test"), T_("Make the gas test with a water tube."), ("water_test", "backfill"), hold=HOLD,
            unchecked=_NOT_YET["gas_test"], kinds=("gas_test",),
        ),
        Stage("pipe", T_("gas pipe"), T_("Let the fitter lay and test the gas pipe."), ("gas_test",), hold=HOLD, unchecked=_NOT_YET["pipe"]),
        Stage(
            "first_fill", T_("first fill"), T_("Fill with dung and water."), ("water_test", "gas_test", "pipe", "covers"),
            unchecked=_NOT_YET["first_fill"],
        ),
        Stage("first_gas", T_("first gas"), T_("Wait for gas, let two fillings off outside."), ("first_fill",), unchecked=_NOT_YET["first_gas"]),
        Stage("handover", T_("handover"), T_("Hand the plant over to the farmer."), ("first_gas",), hold=HOLD, unchecked=_NOT_YET["handover"]),
    )
}  # fmt: skip

_TOLERANCES = {
    "pit_depth_m": (*s.PIT_DEPTH_M, s.TAPE_M),
    "pit_dia_m": (*s.PIT_WIDTH_M, s.TAPE_M),
    "base_thick_m": (*s.BASE_TOLERANCE_M, s.TAPE_M),
    "wall_height_m": (s.LEVEL_TOLERANCE_M, s.LEVEL_TOLERANCE_M, s.TAPE_M),
    "dome_height_m": (s.LEVEL_TOLERANCE_M, s.LEVEL_TOLERANCE_M, s.TAPE_M),
    "dome_radius_m": (s.LEVEL_TOLERANCE_M, s.LEVEL_TOLERANCE_M, s.STRING_M),
    "coat_thick_m": (s.COAT_TOLERANCE_M, s.COAT_TOLERANCE_M, s.FINE_M),
}
_PLANNED = {
    "pit_depth_m": lambda design: design.pit_depth_m,
    "pit_dia_m": lambda design: design.pit_diameter_m,
    "base_thick_m": lambda design: design.base_thickness_m,
    "wall_height_m": lambda design: design.vessel.wall_height_m,
    "dome_height_m": lambda design: design.vessel.dome_rise_m,
    "dome_radius_m": lambda design: design.vessel.sphere_radius_m,
    "coat_thick_m": lambda design: float(s.TIGHT_COAT_M),
}


def house_tolerance(name):
    """(below, above) of the house for a reading [m], or None where there is no such reading."""
    found = _TOLERANCES.get(name)
    return None if found is None else (float(found[0]), float(found[1]))


def limits(site, name):
    """The Limits of a reading at a site, or None where its plan has no such number."""
    if site.design is None or name not in _PLANNED:
        return None
    plan = _PLANNED[name](site.design)
    if not plan:
        return None
    below, above, uncertainty = map(float, _TOLERANCES[name])
    own = site.rules.tolerances.get(name, {})
    said = own.get("source", _TOLERANCES[name][0].source)
    named = own.get("below", below), own.get("above", above), own.get("uncertainty") or uncertainty
    return Limits(plan, *named, s.READINGS_WANTED.get(name, 1), said)


def ranges(site):
    """Field -> (low, high) [m] in which a number without a unit may lie, from the plan of a site."""
    if site is None or site.design is None:
        return {}
    plans = {name: planned(site.design) for name, planned in _PLANNED.items()}
    return {name: (plan / LOOSE, plan * LOOSE) for name, plan in plans.items() if plan and name != "pit_depth_m"}


def verdict(site, name, values):
    """The Verdict on readings of a field, or None where the plan has no number for it."""
    held = limits(site, name)
    return None if held is None else judge(values, held)


@dataclass(frozen=True)
class Standing:
    """How a stage stands: what stops it (stages before it, readings, waits), what was said of it, who released it."""

    stage: Stage
    blocked_by: tuple = ()
    missing: tuple = ()
    outside: tuple = ()
    until: datetime | None = None
    waiting: str | None = None
    reported: object = None
    release: object = None
    refused: object = None

    @property
    def finished(self):
        """True where nothing is missing any more."""
        return self.reported is not None and (self.stage.hold != HOLD or self.release is not None)

    @property
    def held(self):
        """True where only the release is missing."""
        return self.reported is not None and self.stage.hold == HOLD and self.release is None


def applies(stage, site):
    """True where a plant has this stage: a dome on a bowl has no wall."""
    return stage.name != "wall" or site.design is None or site.design.vessel.wall_height_m > 0


def before(stage, site):
    """The stages that come right before one, passing over those the plant does not have."""
    for name in stage.after:
        earlier = STAGES[name]
        yield from (earlier,) if applies(earlier, site) else before(earlier, site)


def finished(name, site):
    """True where a stage is finished, by the log or since before the site was loaded."""
    names = list(STAGES)
    if site.started_at == "use" or names.index(name) < names.index(site.started_at):
        return True
    return standing(STAGES[name], site).finished


def standing(stage, site, now=None):
    """Return the Standing of a stage from the log of its site."""
    reported = next((e for e in reversed(site.live) if e.kind == "stage" and e.fields.get("stage") == stage.name), None)
    done = reported if reported is not None and reported.fields["state"] == "done" and reported.verdict == "recorded" else None
    missing, outside = _readings(stage, site)
    until, waiting = _waits(stage, site, now)
    return Standing(
        stage,
        tuple(earlier.name for earlier in before(stage, site) if not finished(earlier.name, site)),
        missing,
        outside,
        until,
        waiting,
        done,
        release_of(stage.name, site, done),
        _refusal(stage.name, site, done),
    )


def _readings(stage, site):
    missing, outside = [], []
    for name in stage.wants:
        values, _ = site.reading(name)
        if values is None:
            if limits(site, name) is not None or name not in _PLANNED:
                missing.append((name, s.READINGS_WANTED.get(name, 1)))
            continue
        found = verdict(site, name, values) if name in _PLANNED else _enough_coats(values)
        if found is not None and found.stands == OUTSIDE:
            outside.append((name, found))
        elif found is not None and found.stands != WITHIN:
            missing.append((name, found.missing or 1))
    return tuple(missing), tuple(outside)


def _enough_coats(coats):
    held = Limits(float(s.INSIDE_COATS), 0.0, float(s.COATS), 0.0)
    return judge([coats], replace(held, uncertainty=-1e-6)) if coats < s.INSIDE_COATS else None


def release_of(name, site, reported=None):
    """The release in force of a stage: given after it was reported, and not outlived by a new reading."""
    given = [e for e in site.live if e.kind in ("release", "refuse") and e.fields.get("stage") == name]
    if not given or given[-1].kind == "refuse" or (reported is not None and given[-1].number < reported.number):
        return None
    stage = STAGES.get(name)
    later = [e for e in site.live if stage and e.kind in stage.kinds and e.number > given[-1].number]
    return None if later else given[-1]


def _refusal(name, site, reported):
    given = [e for e in site.live if e.kind in ("release", "refuse") and e.fields.get("stage") == name]
    after = reported is not None and given and given[-1].number > reported.number
    return given[-1] if after and given[-1].kind == "refuse" else None


def _waits(stage, site, now):
    """(the moment the longest wait is over, its event), or (None, None) where nothing has to harden."""
    ends = []
    for wait in stage.waits:
        done = done_at(wait.since, site)
        if done is not None and _concerns(wait, site):
            ends.append((done + timedelta(days=days_of(wait.event, site)), wait.event))
    over = [end for end in ends if now is None or end[0] > now]
    return max(over) if over else (None, None)


def _concerns(wait, site):
    """A mould is struck only under concrete and ferrocement; a wall on the base only where there is one."""
    made = site.design
    if made is None:
        return True
    if wait.event == "strip dome":
        return made.dome != "brick"
    return not (wait.event == "tight plaster on masonry" and made.dome != "brick")


def days_of(event, site):
    """The full days an event waits at this site: cement, temperature and the released design count."""
    base_d = strip_dome_d(site.rules.cement, site.rules.strip_d) if event == "strip dome" else wait_d(event, site.rules.cement)
    temp_c = site.rules.mean_temp_c
    try:
        return ceil(base_d) if temp_c is None else days_needed(base_d, temp_c)
    except CalcError:
        return ceil(base_d)


def done_at(name, site):
    """When a stage was reported done, or None."""
    done = [e for e in site.live if e.kind == "stage" and e.fields.get("stage") == name and e.verdict == "recorded"]
    cast = [e for e in site.live if e.fields.get("cast_h") is not None] if name == "dome" else []
    if cast:
        return cast[-1].at - timedelta(hours=cast[-1].fields["cast_h"])
    return done[-1].at if done and done[-1].fields["state"] == "done" else None


def wet_for(name, site):
    """The days a stage must be kept wet, or None where nothing of it hardens."""
    if name not in ("base", "wall", "dome", "outlet", "inlet", "plaster", "covers"):
        return None
    tight = name in ("plaster",) or (name == "dome" and site.design is not None and site.design.dome == "ferrocement")
    return int(wet_days(site.rules.cement, tight, site.rules.hot_dry))


def current(site):
    """The first stage that is not finished, or None where all are."""
    return next((stage for stage in STAGES.values() if applies(stage, site) and not finished(stage.name, site)), None)


def open_stages(site):
    """The stages that may be worked on now: not finished, and everything before them finished."""
    return tuple(
        stage
        for stage in STAGES.values()
        if applies(stage, site) and not finished(stage.name, site) and all(finished(e.name, site) for e in before(stage, site))
    )
