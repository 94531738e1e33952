"""How far a site is, the last lines of its log, and which site a person speaks of."""

from bot import foreman, stops
from bot.forms import Answer, Kind
from bot.phrases import T_, Clock, Series, lines
from bot.stages import STAGES
from bot.standing import applies, current, finished, standing
from bot.titles import ENTRIES, VERDICTS, entry_title

MOST = 5
HIDDEN = ("asked",)


def answer(form, site, sender, now):
    return _log(form, site, now) if form.get("what") == "log" else Answer(_status(site, now))


def _status(site, now):
    stage = current(site)
    of = [name for name in STAGES.values() if applies(name, site)]
    done = sum(finished(each.name, site) for each in of)
    said = {"site": site.code, "name": site.name, "done": done, "all": len(of)}
    texts = [T_("%(site)s %(name)s: %(done)s of %(all)s stages done.", **said)]
    grave = stops.standing(site, now)
    if stage is not None:
        texts.append(T_("At: %(stage)s.", stage=stage.title))
        texts.append(_standing(standing(stage, site, now), stage, site, now, grave))
    if site.design is None:
        texts.append(T_("No plan yet."))
    last = next((entry for entry in reversed(site.log) if entry.kind not in HIDDEN), None)
    if last is not None:
        called = ENTRIES.get(last.kind) or entry_title(last)
        texts.append(T_("Last #%(number)s %(kind)s %(time)s.", number=last.number, kind=called, time=Clock(last.at, now)))
    return lines([stops.opening(grave, site)[0], *texts])


def _standing(stands, stage, site, now, grave):
    if stands.held:
        return T_("Reported done, waits for release.")
    if grave:
        return T_("No work in the pit while this stands.")
    if stands.outside:
        name, found = stands.outside[0]
        return foreman.reading(name, (found.worst,), found)
    if stands.missing:
        return foreman.wanted(stands.missing)
    return foreman.next_step(site, now)


def _log(form, site, now):
    wanted = min(form.get("n", MOST), MOST)
    shown = [entry for entry in site.log if entry.kind not in HIDDEN][-wanted:]
    if not shown:
        return Answer(T_("%(site)s: the log is empty.", site=site.code))
    told = Series(tuple(_line(entry, site, now) for entry in shown))
    return Answer(T_("%(site)s log: %(list)s.", site=site.code, list=told))


def _line(entry, site, now):
    said = {"number": entry.number, "kind": entry_title(entry), "time": Clock(entry.at, now), "name": entry.name}
    if entry.kind == "undo":
        return T_("#%(number)s undo of #%(refers)s %(time)s", refers=entry.refers, **said)
    return T_("#%(number)s %(kind)s %(verdict)s %(time)s", verdict=VERDICTS[entry.verdict], **said)


def place(form, site, sender, now):
    return Answer(_status(site, now) + T_("Your next messages are for this site."))


STATUS = Kind(
    name="status",
    about=T_("Status, or log: how far the site is."),
    example=T_("status"),
    cues=(
        "act.status -act.buy",
        "act.of_site code -number -part -item",
        "act.log act.last",
        "act.message act.last",
        "logging",
        "act.log -number -animal.cattle",
        "act.logbook bare",
    ),
    grammar="status",
    roles=("mason", "supervisor", "farmer", "deputy", "head"),
    answer=answer,
)
SITE = Kind(
    name="site",
    about=T_("Site: choose the site you write about."),
    example=T_("site SITE"),
    cues=("act.site code -act.need", "act.site -number -act.need"),
    roles=("mason", "supervisor", "farmer", "deputy", "head"),
    answer=place,
)
