"""What the mason reported, one line for each stage: for the farmer, in his language."""

from bot import foreman
from bot.forms import Answer, Field, Kind
from bot.phrases import T_, Day, lines
from bot.stages import HOLD, STAGES
from bot.standing import applies, done_at, release_of, reported_done
from bot.titles import VERDICTS

PAGE = 6  # stages at a time: so many lines fit two messages in any script
HALF = PAGE // 2


def answer(form, site, sender, now):
    told = [text for stage in STAGES.values() if applies(stage, site) and (text := _stage(stage, site))]
    head = foreman.head(site, T_("reported"))
    if not told:
        return Answer(lines([head, T_("nothing of a stage yet.")]))
    end = len(told) - PAGE * (form.get("n", 1) - 1)
    page = told[max(end - PAGE, 0) : max(end, 0)]
    if not page:
        return Answer(lines([head, T_("nothing before that. Send: reported.")]))
    earlier = [T_("Before that send: reported %(n)s.", n=form.get("n", 1) + 1)] if end > PAGE else []
    if len(page) <= HALF:
        return Answer(lines([head, *page, *earlier]))
    return Answer(lines([head, *page[:HALF]]), then=lines([head, *page[HALF:], *earlier]))


def _stage(stage, site):
    """How a stage stands by what was sent of it; nothing where nothing was."""
    done = reported_done(stage.name, site)
    said = {"stage": stage.title}
    if done is not None:
        said["day"] = Day(done_at(stage.name, site))
        if stage.hold != HOLD:
            return T_("%(stage)s: done %(day)s.", **said)
        release = release_of(stage.name, site, done)
        if release is None:
            return T_("%(stage)s: done %(day)s, not released yet.", **said)
        return T_("%(stage)s: done %(day)s, released by %(name)s.", name=release.name, **said)
    last = next((e for e in reversed(site.live) if _of(stage, e)), None)
    if last is None:
        return None
    said["day"] = Day(last.at)
    if last.kind == "stage":
        return T_("%(stage)s: not done yet, said %(day)s.", **said)
    return T_("%(stage)s: read %(day)s, %(verdict)s.", verdict=VERDICTS[last.verdict], **said)


def _of(stage, entry):
    return entry.kind in stage.kinds or (entry.kind == "stage" and entry.fields.get("stage") == stage.name)


KIND = Kind(
    name="story",
    about=T_("Reported: what the mason reported, one line for each stage."),
    example=T_("reported"),
    cues=("act.told -part -item -field -act.done -act.arrived -act.used -not -length -mass -unit -animal -act.log -act.status",),
    grammar="nth",
    fields=(Field("n", (), 1, 9, "count"),),
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
