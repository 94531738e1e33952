"""How a site stands in the stages, by its log: what is finished, missing, held, waiting to harden.

A stage is finished when it was reported done with its readings within plan and, at a hold point, released.
"""

from dataclasses import dataclass
from datetime import datetime, timedelta
from math import ceil

from bot import extra
from bot.days import DAY, all_known, kept_wet, wait_days
from bot.stages import DISTANCES, HOLD, PLANNED, STAGES, Stage, limits, verdict
from calc import sources as s
from calc.checks import OUTSIDE, WITHIN
from calc.curing import strip_dome_d, wait_d, wet_days

HARDENS = ("base", "wall", "dome", "outlet", "inlet", "plaster", "covers")
PIT = {"pit_dia_m", "pit_depth_m", "pit_dish_m", "pit_top_dia_m", "pit_bottom_dia_m"}
JUDGED = ("water_drop_m", "gauge_end_pa", "pipe_end_pa")  # tests whose verdict stands with their entry


@dataclass(frozen=True)
class Standing:
    """How a stage stands: what stops it (stages before it, readings, waits), what was said of it, who released it."""

    stage: Stage
    blocked_by: tuple = ()
    missing: tuple = ()
    outside: tuple = ()
    until: datetime | None = None
    waiting: str | None = None
    cold_d: int = 0  # days of the wait until then that the cold adds
    unread: bool = False  # no temperature is known for a day of that wait: it counts as 20 C
    undated: tuple = ()  # (stage, days) of waits whose beginning is not on record
    dry: tuple = ()  # (stage, days kept wet by the log, days wanted) where too few are on record
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


def blocked_by(stage, site):
    """The names of the stages right before one that are not finished."""
    return tuple(earlier.name for earlier in before(stage, site) if not finished(earlier.name, site))


def finished(name, site):
    """True where a stage is finished, by the log or since before the site was loaded."""
    names = list(STAGES)
    if site.started_at == "use" or names.index(name) < names.index(site.started_at):
        return True
    reported = reported_done(name, site)
    return reported is not None and (STAGES[name].hold != HOLD or release_of(name, site, reported) is not None)


def reported_done(name, site):
    """The entry by which a stage was last reported done and recorded so, or None."""
    last = next((e for e in reversed(site.live) if e.kind == "stage" and e.fields.get("stage") == name), None)
    return last if last is not None and last.verdict == "recorded" else None


def standing(stage, site, now):
    """Return the Standing of a stage from the log of its site."""
    done = reported_done(stage.name, site)
    missing, outside = _readings(stage, site)
    until, waiting, cold_d, unread, undated = _waits(stage, site, now)
    return Standing(
        stage,
        blocked_by(stage, site),
        missing,
        outside,
        until,
        waiting,
        cold_d,
        unread,
        undated,
        _dry(stage, site),
        done,
        release_of(stage.name, site, done),
        _refusal(stage.name, site, done),
    )


def _readings(stage, site):
    missing, outside = [], []
    for name in stage.wants:
        values, entry = site.reading(name, stage.kinds if name in JUDGED else ())
        if values is None:
            if limits(site, name) is not None or name not in (*PLANNED, *DISTANCES):
                missing.append((name, s.READINGS_WANTED.get(name, 1)))
            continue
        if name in JUDGED and (entry.verdict != WITHIN or _outlived(entry, stage, site)):
            missing.append((name, 1))
            continue
        found = verdict(site, name, values)
        if found is not None and found.stands == OUTSIDE:
            outside.append((name, found))
        elif found is not None and found.stands != WITHIN:
            missing.append((name, found.missing or 1))
    if stage.name in extra.FIELDS and extra.open_at(stage.name, site) is not None:
        missing.append((f"extra_{extra.FIELDS[stage.name]}", 1))
    return tuple(missing), tuple(outside)


def _outlived(entry, stage, site):
    """True where a pressure was read after a test within: over the limit, or the start of another test."""
    later = (e for e in site.live if e.kind in stage.kinds and e.number > entry.number)
    return any(e.verdict == "stop" or e.fields.get("gauge_start_pa") is not None for e in later)


def release_of(name, site, reported=None):
    """The release in force of a stage: given after it was reported, and not outlived by a new reading."""
    given = [e for e in site.live if e.kind in ("release", "refuse") and e.fields.get("stage") == name]
    if not given or given[-1].kind == "refuse" or (reported is not None and given[-1].number < reported.number):
        return None
    stage = STAGES.get(name)
    later = [e for e in site.live if stage and e.kind in stage.kinds and e.number > given[-1].number]
    # the daily look at ladder, edge and watcher measures nothing that was released
    measured = [e for e in later if e.kind != "pit" or PIT & set(e.fields)]
    return None if measured or _fallen(name, site, given[-1]) else given[-1]


def _fallen(name, site, given):
    """True where a reading it rests on was taken back, or a crack was told since: of that part, of the pit until the base is cast."""
    if not set(given.fields.get("readings", {}).values()) <= {entry.number for entry in site.live}:
        return True
    later = [entry for entry in site.live if entry.number > given.number]
    if name == "pit":
        cast = next((entry.number for entry in later if entry.kind == "base"), None)
        return any(entry.fields.get("crack") == "yes" for entry in later if cast is None or entry.number < cast)
    return any(
        entry.kind == "danger" and entry.fields.get("place") == name and "crack" in entry.fields.get("danger", ()) for entry in later
    )


def _refusal(name, site, reported):
    given = [e for e in site.live if e.kind in ("release", "refuse") and e.fields.get("stage") == name]
    after = reported is not None and given and given[-1].number > reported.number
    return given[-1] if after and given[-1].kind == "refuse" else None


def _waits(stage, site, now):
    """(the moment the longest wait is over, its event, days the cold adds, temperature unread, undated waits) before a stage."""
    ends, undated = [], []
    for wait in stage.waits:
        if not concerns(wait, site):
            continue
        done = done_at(wait.since, site)
        if done is not None:
            days = days_of(wait.event, site, done)
            added = days - ceil(_asked_d(wait.event, site))
            ends.append((done + days * DAY, wait.event, added, not all_known(site, done, days)))
        elif finished(wait.since, site):
            undated.append((wait.since, days_of(wait.event, site, None, now)))
    over = [end for end in ends if end[0] > now]
    return *(max(over) if over else (None, None, 0, False)), tuple(undated)


def _dry(stage, site):
    """The waits before a stage for which too few wet days are on record: (stage that hardens, days, days wanted)."""
    short = {}
    for wait in stage.waits:
        done = done_at(wait.since, site)
        if done is None or not concerns(wait, site):
            continue
        need, have = wet_wanted(wait, site), kept_wet(wait.since, site, done)
        if have < need:
            short[wait.since] = (wait.since, have, max(need, short.get(wait.since, (None, 0, 0))[2]))
    return tuple(short.values())


def wet_wanted(wait, site):
    """The wet days that a dated wait asks for: as many as it is long, and no more than what hardens is kept wet."""
    return wait_days(min(_asked_d(wait.event, site), _wet_d(wait.since, site)), site, done_at(wait.since, site))


def concerns(wait, site):
    """A mould is struck only under concrete and ferrocement; a wall on the base only where there is one."""
    made = site.design
    if not applies(STAGES[wait.since], site):
        return False
    if made is None:
        return True
    if wait.event == "strip dome":
        return made.dome != "brick"
    return not (wait.event == "tight plaster on masonry" and made.dome != "brick")


def days_of(event, site, since, now=None):
    """The full days an event waits from a moment at this site, or from one not on record before now.

    Cement, temperatures and the released design count.
    """
    return wait_days(_asked_d(event, site), site, since, now)


def _asked_d(event, site):
    if event != "strip dome":
        return float(wait_d(event, site.rules.cement))
    span_m = None if site.design is None else 2 * site.design.vessel.radius_m
    return strip_dome_d(site.rules.cement, site.rules.strip_d, span_m)


def done_at(name, site):
    """When a stage was done: its cast where that was told, else its report; None where neither is on record."""
    cast = [e for e in site.live if e.fields.get("cast_h") is not None] if name == "dome" else []
    if cast:
        return cast[-1].at - timedelta(hours=cast[-1].fields["cast_h"])
    done = reported_done(name, site)
    return done.at - done.fields.get("ago_d", 0.0) * DAY if done else None


def wet_for(name, site, since, now=None):
    """The days a stage must be kept wet from a moment, more in the cold, or None where nothing of it hardens."""
    return wait_days(_wet_d(name, site), site, since, now) if name in HARDENS else None


def _wet_d(name, site):
    """The wet days of a stage at 20 C."""
    tight = name == "plaster" or (name == "dome" and site.design is not None and site.design.dome == "ferrocement")
    return wet_days(site.rules.cement, tight, site.rules.hot_dry)


def hardening(site, now):
    """Yield the stages whose wet days are not over: by the calendar, or by what is on record."""
    for name in HARDENS:
        since = done_at(name, site)
        if since is None:
            continue
        need = wet_for(name, site, since)
        if now - since < need * DAY or kept_wet(name, site, since) < need:
            yield name


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
