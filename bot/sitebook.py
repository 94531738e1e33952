"""Every query on sites, their logs and the programme."""

import json

import sqlalchemy as sa

from bot.site import Logged, Rules, Site, Waits
from bot.tables import entry, person, programme, role, site

_GIVEN = sa.bindparam("given")
_WAITS = sa.exists().where((role.c.site == site.c.code) & (role.c.state == "pending"))
_SITE = sa.select(site, _WAITS.label("waits")).where(site.c.code == _GIVEN)
_SITE_LOCKED = _SITE.with_for_update(of=site)
_LOG = sa.select(entry, person.c.name).outerjoin(person, person.c.id == entry.c.person_id)
_LOG = _LOG.where((entry.c.site == _GIVEN) & (entry.c.number > sa.bindparam("after"))).order_by(entry.c.number)
_WRITE = sa.insert(entry).inline()
_CODES = sa.select(site.c.code).order_by(site.c.code)
_RULES = sa.select(programme.c.rules).order_by(programme.c.id.desc()).limit(1)


class Sites:
    """The part of a page that holds sites; `_ask` and `_run` execute, `_at_hand` and `_shelf` keep what was read."""

    # ---- sites
    def save_site(self, **values):
        """Write a site down as the programme file has it, new or changed."""
        self._wrote = True
        row = self._insert(site).values(values)
        changed = {k: v for k, v in values.items() if k not in ("code", "started_at")}
        self._run(row.on_conflict_do_update(index_elements=["code"], set_=changed))

    def codes(self):
        """The codes of all sites, in order."""
        return self._at_hand("codes", lambda: tuple(self._ask(_CODES).scalars()))

    def site(self, code, lock=False):
        """The Site as its log tells it, or None; `lock` keeps other messages of the site waiting."""
        row = self._ask(_SITE_LOCKED if lock else _SITE, given=code).mappings().first()
        if row is None:
            return None
        rules = {**self.rules(), **row["rules"]}
        named = (row["code"], row["name"], Rules(**rules), row["plan"], row["planned_by"], row["started_at"])
        waiting = tuple(Waits(*each, self._others(each)) for each in self.asking(code)) if row["waits"] else ()
        return Site(*named, log=self.entries(code), waiting=waiting)

    def _others(self, waits):
        return sum(bool(each.roles) and each.id != waits.id for each in self.people_at(waits.number))

    def entries(self, code):
        """The log of a site, in order."""
        known = () if self._wrote else self._shelf.log(code, self._edition)
        rows = self._ask(_LOG, given=code, after=known[-1].number if known else 0)
        more = tuple(
            Logged(r.number, r.kind, r.at, r.person_id, r.name or "", r.fields, r.verdict, tuple(r.cautions), r.refers, r.held)
            for r in rows
        )
        if more and not self._wrote:
            self._shelf.keep_log(code, self._edition, known + more)
        return known + more

    def released(self, person_id, since):
        """How many holds somebody has released since a moment, at any site."""
        here = (entry.c.person_id == person_id) & (entry.c.kind == "release") & (entry.c.at >= since)
        return self._run(sa.select(sa.func.count()).select_from(entry).where(here)).scalar_one()

    def write(self, code, number, made, now, person_id, edition, message):
        """Add an entry to the log of a site under its number."""
        self._wrote = True
        row = {
            "site": code,
            "number": number,
            "kind": made.kind,
            "at": now,
            "person_id": person_id,
            "fields": made.fields,
            "verdict": made.verdict,
            "cautions": list(made.cautions),
            "held": json.dumps(made.held),
            "refers": made.refers,
            "edition": edition,
            "channel": message.channel,
            "wire_id": message.wire_id,
        }
        self._ask(_WRITE, **row)

    # ---- the programme
    def rules(self):
        """The settings of the programme loaded last, or {} where none is."""
        return self._at_hand("rules", lambda: self._ask(_RULES).scalar() or {})

    def digest(self):
        """The digest of the programme file loaded last, or None."""
        return self._run(sa.select(programme.c.digest).order_by(programme.c.id.desc()).limit(1)).scalar()

    def save_programme(self, digest, rules, now):
        """Write down that a programme was loaded, with its settings."""
        self._wrote = True
        self._run(sa.insert(programme).values(digest=digest, rules=rules, loaded_at=now))
