"""The record that is handed over with a plant: its numbers as built, its tests, what is missing, what the farmer must show."""

from bot import foreman
from bot.forms import Answer, Kind
from bot.kinds import signed
from bot.phrases import T_, Between, Head, Series, Size, Volume, lines
from bot.stages import HOLD, STAGES, limits
from bot.standing import applies, release_of, reported_done
from bot.titles import VERDICTS
from calc.as_built import as_built, mean_length
from calc.errors import OutOfRange

MEASURED = {
    "pit_depth_m": T_("pit deep"),
    "pit_dia_m": T_("pit wide"),
    "base_thick_m": T_("base"),
    "wall_height_m": T_("wall"),
    "dome_height_m": T_("dome rise"),
    "dome_radius_m": T_("dome string"),
    "cover_m": T_("soil cover"),
}
TESTS = {"water_test": T_("water test"), "gas_test": T_("gas test"), "pipe_test": T_("pipe test")}


def answer(form, site, sender, now):
    head = foreman.head(site, T_("record"))
    built = [_built(name, site) for name in MEASURED if site.reading(name)[0]]
    tested = [_tested(kind, title, site) for kind, title in TESTS.items() if site.last(kind)]
    texts = [head]
    if built:
        texts.append(T_("As built: %(list)s.", list=Series(tuple(built))))
    inside, here = _inside(site), bool(_unread(site))
    if here:  # the list of what was not measured leaves no room behind it, and a short list of readings does
        texts += inside
    if tested:
        texts.append(T_("Tests: %(list)s.", list=Series(tuple(tested))))
    if site.design is not None and site.plan_released_by:
        limit = Head(site.design.levels.greatest_pressure_pa)
        texts.append(T_("Gas never above %(head)s, plan of %(name)s.", head=limit, name=site.plan_released_by))
    then = lines([head, *([] if here else inside), _missing(site), signed.steps(site), _shown()])
    return Answer(lines(texts), then=then, paper="record")


def _built(name, site):
    values, entry = site.reading(name)
    values = values if isinstance(values, list | tuple) else (values,)
    mean_m = sum(values) / len(values)
    return T_("%(title)s %(value)s #%(number)s", title=MEASURED[name], value=Size(mean_m), number=entry.number)


def _inside(site):
    """The inside volume that string, rise and wall give, as far as they can be measured; nothing where one was not."""
    plan = None if site.design is None else site.design.vessel
    names = ("dome_radius_m", "dome_height_m", *(("wall_height_m",) if plan and plan.wall_height_m else ()))
    if plan is None or not all(site.reading(name)[0] for name in names):
        return []
    try:
        found = as_built(plan, *(mean_length(site.reading(name)[0], limits(site, name).uncertainty) for name in names))
    except OutOfRange:
        return [T_("String and rise do not fit: measure both again.")]
    low_m3, high_m3 = found.inside_m3 - found.uncertainty_m3, found.inside_m3 + found.uncertainty_m3
    return [T_("Inside %(range)s, plan %(plan)s.", range=Between(low_m3, high_m3, "m3", 2), plan=Volume(plan.inside_m3))]


def _tested(kind, title, site):
    entry = site.last(kind)
    said = {"title": title, "verdict": VERDICTS[entry.verdict], "number": entry.number}
    return T_("%(title)s %(verdict)s #%(number)s", **said)


def _unread(site):
    return [title for name, title in MEASURED.items() if limits(site, name) and not site.reading(name)[0]]


def _missing(site):
    """Readings that the plan asks for and nobody sent, and holds that nobody released."""
    unread = _unread(site)
    holds = [stage for stage in STAGES.values() if stage.hold == HOLD and stage.name != "handover" and applies(stage, site)]
    unreleased = [stage.title for stage in holds if not (_released(stage.name, site) or _before(stage, site))]
    said = []
    if unread:
        said.append(T_("Not measured: %(list)s.", list=Series(tuple(unread))))
    if unreleased:
        said.append(T_("Not released: %(list)s.", list=Series(tuple(unreleased))))
    return lines(said) if said else T_("Nothing missing in the log.")


def _released(name, site):
    return release_of(name, site, reported_done(name, site)) is not None


def _before(stage, site):
    """True for a stage that was over when the log of this site began."""
    names = list(STAGES)
    return names.index(stage.name) < names.index(site.started_at) if site.started_at in names else True


def _shown():
    return T_(
        "Farmer shows: feed, drain the trap, light the stove; valve shut at night; gas smell: no flame, no switch, valve shut, out. "
        "Nobody ever goes in."
    )


KIND = Kind(
    name="record",
    about=T_("Record: the plant as built, tests, what is missing."),
    example=T_("record"),
    cues=("act.record -number",),
    roles=("mason", "supervisor", "farmer", "deputy", "head"),
    answer=answer,
)
