"""Every query on timers."""

from functools import cache

import sqlalchemy as sa

from bot.tables import timer


class Clockwork:
    """The part of a page that holds timers; `_ask` and `_run` execute."""

    def new_timer(self, **values):
        """Write an armed timer down and return its id."""
        return self._run(sa.insert(timer).values(state="armed", **values).returning(timer.c.id)).scalar_one()

    def timer(self, timer_id):
        """One timer as a mapping, or None."""
        return self._run(sa.select(timer).where(timer.c.id == timer_id)).mappings().first()

    def fire(self, timer_id, gen, state):
        """End one generation of an armed timer; its row, or None where it is not armed any more."""
        here = (timer.c.id == timer_id) & (timer.c.gen == gen) & (timer.c.state == "armed")
        return self._run(sa.update(timer).where(here).values(state=state).returning(timer)).mappings().first()

    def rearm(self, timer_id, gen, due):
        """Arm a timer for its next generation."""
        self._run(sa.update(timer).where(timer.c.id == timer_id).values(state="armed", gen=gen, due=due))

    def keep_fields(self, timer_id, fields):
        """Keep other values with a timer."""
        self._run(sa.update(timer).where(timer.c.id == timer_id).values(fields=fields))

    def next_timer(self, until, kinds):
        """The armed timer of these kinds that is due first, up to a moment, or None."""
        here = (timer.c.state == "armed") & (timer.c.due <= until) & timer.c.kind.in_(kinds)
        return self._run(sa.select(timer).where(here).order_by(timer.c.due, timer.c.id).limit(1)).mappings().first()

    def disarm(self, kind, **by):
        """Call off the armed timers of a kind that have these values; return how many."""
        return len(self._run(sa.update(timer).where(_armed(kind, by)).values(state="cancelled").returning(timer.c.id)).all())

    def armed(self, kind, **by):
        """The armed timers of a kind that have these values, the next one first."""
        return self._ask(_armed_by(tuple(by)), kind=kind, **by).mappings().all()

    def unset_timers(self):
        """Armed timers that no engine has: their generation is 0."""
        here = (timer.c.state == "armed") & (timer.c.gen == 0)
        return self._run(sa.select(timer).where(here).order_by(timer.c.id)).mappings().all()


def _armed(kind, by):
    return sa.and_(timer.c.kind == kind, timer.c.state == "armed", *(timer.c[column] == value for column, value in by.items()))


@cache
def _armed_by(columns):
    """The query for the armed timers of a kind with values in these columns, put together once: every message asks it."""
    by = (timer.c[column] == sa.bindparam(column) for column in columns)
    here = sa.and_(timer.c.kind == sa.bindparam("kind"), timer.c.state == "armed", *by)
    return sa.select(timer).where(here).order_by(timer.c.due)
