"""The record that is handed over with a plant: its numbers as built, its tests, what is missing, what the farmer must show."""

from bot import foreman
from bot.forms import Answer, Kind
from bot.phrases import T_, Head, Series, Size, lines
from bot.stages import HOLD, STAGES, limits
from bot.standing import applies, standing

MEASURED = {
    "pit_depth_m": T_("pit deep"),
    "pit_dia_m": T_("pit wide"),
    "base_thick_m": T_("base"),
    "wall_height_m": T_("wall"),
    "dome_height_m": T_("dome rise"),
    "dome_radius_m": T_("dome string"),
}
TESTS = {"water_test": T_("water test"), "gas_test": T_("gas test"), "pipe_test": T_("pipe test")}


def answer(form, site, sender, now):
    head = foreman.head(site, T_("record"))
    built = [_built(name, site) for name in MEASURED if site.reading(name)[0]]
    tested = [_tested(kind, title, site) for kind, title in TESTS.items() if site.last(kind)]
    texts = [head]
    if built:
        texts.append(T_("As built: %(list)s.", list=Series(tuple(built))))
    if tested:
        texts.append(T_("Tests: %(list)s.", list=Series(tuple(tested))))
    if site.design is not None and site.plan_released_by:
        limit = Head(site.design.levels.greatest_pressure_pa)
        texts.append(T_("Gas never above %(head)s, plan of %(name)s.", head=limit, name=site.plan_released_by))
    return Answer(lines(texts), then=lines([head, _missing(site), _shown()]))


def _built(name, site):
    values, entry = site.reading(name)
    values = values if isinstance(values, list | tuple) else (values,)
    mean_m = sum(values) / len(values)
    return T_("%(title)s %(value)s #%(number)s", title=MEASURED[name], value=Size(mean_m), number=entry.number)


def _tested(kind, title, site):
    entry = site.last(kind)
    said = {"title": title, "verdict": entry.verdict or T_("noted"), "number": entry.number}
    return T_("%(title)s %(verdict)s #%(number)s", **said)


def _missing(site):
    """Readings that the plan asks for and nobody sent, and holds that nobody released."""
    unread = [title for name, title in MEASURED.items() if limits(site, name) and not site.reading(name)[0]]
    holds = [stage for stage in STAGES.values() if stage.hold == HOLD and stage.name != "handover" and applies(stage, site)]
    unreleased = [stage.title for stage in holds if standing(stage, site, None).release is None and not _before(stage, site)]
    said = []
    if unread:
        said.append(T_("Not measured: %(list)s.", list=Series(tuple(unread))))
    if unreleased:
        said.append(T_("Not released: %(list)s.", list=Series(tuple(unreleased))))
    return lines(said) if said else T_("Nothing missing in the log.")


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
    example="record",
    cues=("act.record -number",),
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
