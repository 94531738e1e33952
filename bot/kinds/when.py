"""When a stage may begin by the log: what must be finished first, what must harden, which STOP stands."""

from bot import foreman, stops
from bot.forms import Answer, Kind
from bot.phrases import T_, Day, Text, lines
from bot.stages import STAGES
from bot.standing import applies, finished, standing
from bot.titles import WAITS


def answer(form, site, sender, now):
    stage = STAGES[form.get("stage")]
    if not applies(stage, site):
        return Answer(T_("%(site)s: this plant has no %(stage)s.", site=site.code, stage=stage.title))
    grave = stops.standing(site, now)
    first = stops.said(grave[0], site) if grave else Text()
    return Answer(lines([first, foreman.head(site, stage.title), *_stands(standing(stage, site, now), stage, site)]))


def _stands(stands, stage, site):
    if finished(stage.name, site):
        yield T_("done by the log.")
    elif stands.held:
        yield T_("done, waits for the release. Your supervisor has not answered yet.")
    elif stands.blocked_by:
        yield foreman.first_finish(stands)
    elif stands.until is not None:
        yield T_("not before %(day)s: %(event)s.", day=Day(stands.until), event=WAITS[stands.waiting]) + foreman.colder(stands)
    elif stands.dry:
        yield foreman.too_dry(stands)
    elif stands.undated:
        yield from (foreman.undated(name, days) for name, days in stands.undated[:1])
    else:
        yield T_("next by the log. %(order)s", order=stage.order) + foreman.plan_line(stage, site)


KIND = Kind(
    name="when",
    about=T_("When: what must be finished or harden before a stage."),
    example=T_("when plaster"),
    cues=("act.when part -act.done -act.not_yet -act.when_finish -number -not -state",),
    grammar="when",
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
