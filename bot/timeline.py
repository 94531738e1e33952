"""The course of the works at a site: its stages as tasks with crew and waits, what is done where it was done."""

from dataclasses import dataclass
from datetime import datetime

from bot.days import DAY, kept_wet
from bot.stages import STAGES
from bot.standing import applies, before, concerns, days_of, done_at, finished, wet_wanted
from calc import sources as s
from calc import startup, works
from calc.errors import Missing, OutOfRange
from calc.labour import days, labour

PASSES = 4  # a wait is as long as its days are cold, and when it begins follows from the waits before it


@dataclass(frozen=True)
class Timeline:
    """The slots of all stages counted from a moment [d], the crew, and whether the wait for gas is in it."""

    now: datetime
    slots: dict
    crew: tuple
    gas_counted: bool

    @property
    def finish(self):
        """The moment everything is finished."""
        return self.now + works.finish_d(self.slots) * DAY

    def left(self):
        """Yield (stage name, slot) of what is not done yet, in the order of its start."""
        undone = ((name, slot) for name, slot in self.slots.items() if slot.finish_d > 0 or slot.start_d >= 0)
        yield from sorted(undone, key=lambda pair: (pair[1].start_d, pair[1].finish_d))


def crew_of(site):
    """(masons, labourers) last told, else of the programme, else None."""
    told = site.last("crew")
    if told is not None:
        return told.fields["masons"], told.fields["labourers"]
    rules = site.rules
    return None if rules.crew_masons is None or rules.crew_labourers is None else (rules.crew_masons, rules.crew_labourers)


def timeline(site, now):
    """Return the Timeline of a site.

    Raises Missing where no crew is known, OutOfRange where the crew lacks a mason or a labourer.
    """
    crew = crew_of(site)
    if crew is None:
        raise Missing("crew")
    work = labour(site.design)
    waits_for_gas, counted = _gas_wait(site)
    stages = [stage for stage in STAGES.values() if applies(stage, site)]
    done = {stage.name: _done_d(stage.name, site, now) for stage in stages if finished(stage.name, site)}
    slots, tasks = {}, None
    for _ in range(PASSES):
        drawn = tasks
        tasks = []
        for stage in stages:
            waits = {wait.since: _wait_d(wait, site, now, slots) for wait in stage.waits if concerns(wait, site)}
            waits |= {"first_fill": waits_for_gas} if stage.name == "first_gas" else {}
            after = tuple(dict.fromkeys(earlier.name for earlier in before(stage, site)))
            tasks.append(works.Task(stage.name, _days(stage.name, work, crew, site), after, waits))
        if tasks == drawn:
            break
        slots = works.schedule(tasks, done, _idle_d(site, now))
    return Timeline(now, slots, crew, counted)


def _done_d(name, site, now):
    """The day a finished stage was done [d from now, not above zero]; today where that is not on record."""
    at = done_at(name, site)
    return 0.0 if at is None else min((at - now) / DAY, 0.0)


def _wait_d(wait, site, now, slots):
    """The days of a wait from the moment it begins, as far as that is known; wet days that are missing make it longer."""
    done = done_at(wait.since, site)
    if done is None:
        begin = now + slots[wait.since].finish_d * DAY if wait.since in slots else now
        return days_of(wait.event, site, begin)
    short = wet_wanted(wait, site) - kept_wet(wait.since, site, done)
    days = days_of(wait.event, site, done)
    return max(days, (now - done) // DAY + short) if short > 0 else days


def _days(name, work, crew, site):
    working = days(work.get(name, (0.0, 0.0)), *crew)
    return max(works.calendar_days(working, site.rules.working_days_per_week), float(s.TEST_DAYS.get(name, 0.0)))


def _gas_wait(site):
    """(days from the fill to the gas, whether there is a figure)."""
    if site.rules.mean_temp_c is None:
        return 0.0, False
    try:
        return startup.first_gas_d(site.rules.mean_temp_c)[1], True
    except OutOfRange:
        return 0.0, False


def _idle_d(site, now):
    """Days from now in which nobody works, as last told."""
    told = site.last("idle")
    return 0.0 if told is None else max((told.at - now) / DAY + told.fields["idle_d"], 0.0)
