"""What in the log of a site is worth a look: flags as plain values, each with its numbers and the entries it rests on.

A flag says what was seen, never why: round readings, a quick second reading, a night's message all have honest reasons.
"""

from dataclasses import dataclass, replace
from math import ceil, floor
from zoneinfo import ZoneInfo

from bot.days import DAY
from bot.stages import PLANNED, STAGES, limits
from bot.standing import HARDENS, before, done_at, finished, reported_done, standing
from bot.stock import balances, moves
from bot.timeline import crew_of
from calc import sources as s
from calc.bill import bill, needed
from calc.checks import WITHIN
from calc.errors import CalcError
from calc.hazards import STOP
from calc.labour import days, labour

OF_STAGE = {kind: stage for stage in STAGES.values() for kind in stage.kinds}
COUNTED = ("cement_kg", "bricks")  # what is bought by number and reported in bags and pieces
NEAR = 1e-6


@dataclass(frozen=True)
class Flag:
    """One thing to look at: its name, what was seen, the numbers of the entries it rests on."""

    name: str
    seen: dict
    entries: tuple = ()


def flags(site):
    """Return everything worth a look in the log of a site, in the order in which a supervisor should see it."""
    found = (*_changed(site), *_early(site), *_used(site), *_fast(site), *_same(site), *digits(readings(site)), *_night(site))
    return tuple(found)


# ---- readings that are too much alike


def _points(entry):
    """Yield (field, [values]) of the readings of an entry that have a plan."""
    for name, value in entry.fields.items():
        if name in PLANNED and name.endswith("_m"):
            values = [value] if isinstance(value, int | float) else list(value)
            yield name, values[-1:] if entry.fields.get("extra") == name else values  # those before it stand in their own entry


def _cm(value_m):
    return round(value_m * 100)


def _same(site):
    for entry in site.live:
        for name, values in _points(entry) if entry.kind in OF_STAGE else ():
            if len(values) < s.ODD_POINTS or len({_cm(value) for value in values}) > 1:
                continue
            plan = limits(site, name)
            met = plan is not None and _cm(plan.plan) == _cm(values[0])
            yield Flag("as_plan" if met else "same", {"field": name, "count": len(values), "value_m": values[0]}, (entry.number,))


@dataclass(frozen=True)
class Reading:
    """One reading to the centimetre: whether it ends in 0 or 5, how likely that is within its plan, of whom, in which entry."""

    round: bool
    chance: float
    entry: int
    name: str
    site: str


def readings(site):
    """Return the Readings of a site whose plan leaves room enough for any last digit."""
    found = []
    for entry in site.live:
        for name, values in _points(entry) if entry.kind in OF_STAGE else ():
            chance = _round_share(limits(site, name))
            found += [Reading(_is_round(v), chance, entry.number, entry.name, site.code) for v in values] if chance else []
    return found


def _is_round(value_m):
    return abs(value_m * 20 - round(value_m * 20)) < NEAR * 20


def _round_share(plan):
    """How many of the whole centimetres within a plan end in 0 or 5, never under a fifth; None where the plan leaves few."""
    if plan is None:
        return None
    whole = range(ceil(plan.low * 100 - NEAR), floor(plan.high * 100 + NEAR) + 1)
    return max(0.2, sum(cm % 5 == 0 for cm in whole) / len(whole)) if len(whole) > s.ODD_SPREAD else None


def digits(found):
    """Yield the flag of readings that end in 0 or 5 more often than once in a thousand by chance, over enough of them."""
    count = sum(reading.round for reading in found)
    usual = sum(reading.chance for reading in found)  # no more than that is never seldom
    if len(found) < s.ODD_DIGITS or count <= usual or at_least(count, [reading.chance for reading in found]) >= s.ODD_CHANCE:
        return
    entries = tuple(dict.fromkeys(reading.entry for reading in found if reading.round))
    yield Flag("digits", {"count": count, "all": len(found), "odds": round(1 / s.ODD_CHANCE)}, entries)


def at_least(count, chances):
    """Return how likely at least so many of independent events are, each with its own chance: the exact sum, no bound."""
    ways = [1.0]  # how likely 0, 1, 2, ... of the events so far are
    for chance in chances:
        ways = [a * (1 - chance) + b * chance for a, b in zip([*ways, 0.0], [0.0, *ways], strict=True)]
    return sum(ways[count:])


# ---- readings that were changed


def _stops(entry):
    """The rules of which an entry was a STOP."""
    return {rule for rule, level, _ in entry.held if level == STOP}


def _put_right(first, later):
    """The next entry of its kind within plan, where the first was outside or under a STOP that is gone there; else None."""
    second = next((e for e in later if e.kind == first.kind and e.verdict in (WITHIN, None)), None)
    outside = first.verdict in ("outside", "stop")
    return second if second and (outside or _stops(first) - _stops(second)) else None


def _changed(site):
    for place, first in enumerate(site.log):
        second = _put_right(first, site.log[place + 1 :]) if first.kind in OF_STAGE else None
        minutes = (second.at - first.at).total_seconds() / 60 if second else None
        if second is None or minutes > s.ODD_AGAIN_MIN:
            continue
        after = dict(_points(second))
        for name, values in _points(first):
            new = after.get(name)
            if new and [_cm(v) for v in new] != [_cm(v) for v in values]:
                seen = {"field": name, "old_m": tuple(values), "new_m": tuple(new), "minutes": round(minutes)}
                yield Flag("changed", seen, (first.number, second.number))


# ---- what was used


def _used(site):
    if site.design is None:
        return
    rows, held = bill(site.design), balances(site)
    names = list(STAGES)
    logged = names[names.index(site.started_at) :] if site.started_at in names else []
    done = [name for name in logged if finished(name, site)]
    begun = done + [name for name in logged if name not in done and all(finished(e.name, site) for e in before(STAGES[name], site))]
    for item in COUNTED:
        row = held.get(item)
        if row is None or not row.used or not done:
            continue
        least, most = needed(rows, item, done).get(item, 0.0), needed(rows, item, begun).get(item, 0.0)
        if least and not least * (1 - s.ODD_USED) <= row.used <= most * (1 + s.ODD_USED):
            entries = tuple(e.number for e in site.live if e.kind == "stock" and ("out", item) in {move[:2] for move in moves(e.fields)})
            yield Flag("used", {"item": item, "used": row.used, "need": least, "most": most}, entries)


# ---- what came sooner than it can


def _early(site):
    """Readings of a stage of which the stage before it has neither a reading nor a word in the log, or still hardens."""
    told, first, live = _before_log(site), set(), {entry.number for entry in site.live}
    for place, entry in enumerate(site.log):
        stage = OF_STAGE.get(entry.kind)
        if entry.kind == "stage" and entry.fields.get("state") == "done":
            told.add(entry.fields["stage"])
        if stage is None or entry.number not in live:
            continue
        told.add(stage.name)
        if stage.name in first:
            continue
        first.add(stage.name)
        missing = [earlier.name for earlier in before(stage, site) if earlier.kinds and earlier.name not in told]
        until = standing(stage, replace(site, log=site.log[:place]), entry.at).until if stage.waits and not missing else None
        if missing:
            yield Flag("early", {"stage": stage.name, "before": missing[0]}, (entry.number,))
        elif until is not None:
            yield Flag("in_wait", {"stage": stage.name, "until": until}, (entry.number,))


def _before_log(site):
    """The stages that were over when the log began."""
    names = list(STAGES)
    return set(names[: names.index(site.started_at)]) if site.started_at in names else set(names)


def _fast(site):
    yield from _quick(site)
    for entry in site.live:
        name, told_d = entry.fields.get("stage", entry.kind), entry.fields.get("curing_d")
        done = done_at(name, site) if told_d is not None and name in HARDENS else None
        if done is not None and told_d > (entry.at - done) / DAY + 1 > 0:
            yield Flag("wet", {"stage": name, "told_d": told_d, "most_d": (entry.at - done) // DAY + 1}, (entry.number,))
    for stage in STAGES.values():
        done, at = reported_done(stage.name, site), done_at(stage.name, site)
        late = [e.number for e in site.live if done and done.fields.get("ago_d") and e.kind in stage.kinds and at + DAY < e.at <= done.at]
        if late:
            yield Flag("back", {"stage": stage.name, "ago_d": done.fields["ago_d"]}, (done.number, *late))


def _quick(site):
    """Stages told one after the other faster than the crew works."""
    crew = crew_of(site)
    if site.design is None or crew is None:
        return
    work = labour(site.design)
    reports = {name: report for name in STAGES if (report := reported_done(name, site)) is not None}
    for name in reports.keys() & work.keys():
        earlier = max(((done_at(e.name, site), e.name) for e in before(STAGES[name], site) if e.name in reports), default=None)
        work_d = _days(work[name], crew)
        if earlier is None or work_d is None or work_d < 1:
            continue
        taken = done_at(name, site) - earlier[0]
        if taken < s.ODD_PACE * work_d * DAY:
            seen = {"stage": name, "before": earlier[1], "hours": max(taken / DAY, 0.0) * 24, "work_d": work_d}
            yield Flag("quick", seen, (reports[earlier[1]].number, reports[name].number))


def _days(work, crew):
    """The days a crew takes, or None where it lacks a mason or a labourer."""
    try:
        return days(work, *crew)
    except CalcError:
        return None


def _night(site):
    begins, ends = s.NIGHT_H
    zone = ZoneInfo(site.rules.zone)
    hours = {entry.number: entry.at.astimezone(zone).hour for entry in site.live if entry.kind in OF_STAGE}
    sent = tuple(number for number, hour in hours.items() if hour >= begins or hour < ends)
    if sent:
        yield Flag("night", {"count": len(sent)}, sent)
