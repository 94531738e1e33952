"""Who released what at a site: stage, when, on which readings, which payment step it lets go."""

from bot.duty import duty_of
from bot.forms import Answer, Kind
from bot.phrases import T_, Day, Series, Text, lines
from bot.stages import HOLD, STAGES
from bot.standing import applies, release_of, reported_done


def answer(form, site, sender, now):
    head = T_("%(site)s RELEASED:", site=site.code)
    told = [_told(stage, given) for stage, given in _given(site) if given is not None]
    if not told:
        return Answer(lines([head, T_("nothing yet.")]), then=payment(site))
    rushed = sum(entry.kind == "release" and bool(entry.fields.get("rush")) for entry in site.live)
    rush = T_("%(count)s within a minute of another release of the same person.", count=rushed) if rushed else Text()
    return Answer(lines([head, T_("%(list)s.", list=Series(tuple(told))), rush]), then=payment(site))


def _given(site):
    """(stage, release in force or None) of every hold of this plant."""
    for stage in STAGES.values():
        if stage.hold == HOLD and applies(stage, site):
            reported = reported_done(stage.name, site)
            yield stage, release_of(stage.name, site, reported) if reported is not None else None


def _told(stage, given):
    said = {"stage": stage.title, "number": given.number, "name": given.name, "day": Day(given.at)}
    on = sorted(set(given.fields.get("readings", {}).values()))
    if not on:
        return T_("%(stage)s #%(number)s %(name)s %(day)s", **said)
    return T_("%(stage)s #%(number)s %(name)s %(day)s on %(readings)s", readings=", ".join(f"#{number}" for number in on), **said)


def payment(site):
    """Which payment steps the releases let go, and which wait for one; nothing where the programme ties none to a stage."""
    steps = duty_of({"duty": site.rules.duty}).payment
    given = {stage.name: (stage, release) for stage, release in _given(site) if stage.name in steps}
    gone = [T_("%(step)s by %(stage)s #%(number)s", step=steps[name], stage=stage.title, number=release.number)
            for name, (stage, release) in given.items() if release is not None]  # fmt: skip
    waits = [
        T_("%(step)s for %(stage)s", step=steps[name], stage=stage.title) for name, (stage, release) in given.items() if release is None
    ]
    texts = [T_("Payment steps released: %(list)s.", list=Series(tuple(gone)))] if gone else []
    texts += [T_("Payment steps that wait: %(list)s.", list=Series(tuple(waits)))] if waits else []
    return lines(texts)


def steps(site):
    """How many payment steps are let go, in few letters; nothing where none is."""
    known = duty_of({"duty": site.rules.duty}).payment
    gone = sum(release is not None for stage, release in _given(site) if stage.name in known)
    return T_("Payment steps released: %(gone)s of %(all)s.", gone=gone, all=len(known)) if gone else Text()


KIND = Kind(
    name="releases",
    about=T_("Releases: who released what, on which readings, which payment step waits."),
    example=T_("releases SITE"),
    cues=("act.releases",),
    roles=("mason", "supervisor", "farmer", "deputy", "head"),
    answer=answer,
)
