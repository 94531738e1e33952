"""One plant being built, as its log tells it: plain values, derived afresh for every message, stored nowhere."""

import json
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from functools import cache, cached_property, lru_cache
from typing import NamedTuple

from calc import designs, sizing
from calc.design import Design
from calc.errors import Missing
from calc.vessel import Vessel, shape

SHIFT = timedelta(hours=12)  # a check of the pit sides, a count of people in the pit, holds for one shift


@dataclass(frozen=True)
class Rules:
    """The programme's settings that answers depend on; see programme.py for what each means."""

    programme: str = ""
    zone: str = "UTC"
    emergency_text: str | None = None
    emergency_texts: dict = field(default_factory=dict)  # the same in other languages
    size_basis: str | None = None
    mean_temp_c: float | None = None
    monthly_mean_c: list | None = None  # of January to December
    cow: str = "local_cow"
    kept: str = "stabled"
    cement: str = "unknown"
    hot_dry: bool = False
    soil: str | None = None
    bag_kg: float | None = None
    litres: dict = field(default_factory=dict)
    bucket: str = "bucket"
    packs: dict = field(default_factory=dict)
    tolerances: dict = field(default_factory=dict)
    siting: dict = field(default_factory=dict)
    strip_d: float | None = None
    crew_masons: int | None = None
    crew_labourers: int | None = None
    working_days_per_week: int = 6
    prices: tuple = ()
    currency_word: str | None = None
    price_old_d: int | None = None
    cement_ahead_d: float | None = None
    region: str | None = None
    answers_per_hour: int | None = None
    confirm_by_sms: bool = True
    duty: str = "{}"  # JSON of duty.Duty
    languages: tuple | None = None
    contacts: tuple = ()
    danger_words: tuple = ()
    draw_seed: str | None = None
    extra_share: float | None = None
    audit_share: float | None = None


class Waits(NamedTuple):
    """Somebody who asked to join, as what, and how many others write from his number."""

    id: int
    name: str
    role: str
    number: str
    others: int


@dataclass(frozen=True, slots=True)
class Logged:
    """An entry as it stands in the log of its site."""

    number: int
    kind: str
    at: datetime
    by: int | None
    name: str
    fields: dict
    verdict: str | None = None
    cautions: tuple = ()
    refers: int | None = None
    held_text: str = "[]"  # JSON of (rule, level, values), read only where somebody asks why

    @property
    def held(self):
        """The rules that held with this entry, as (rule, level, values)."""
        return _held(self.held_text)


@lru_cache(1024)
def _held(text):
    return json.loads(text)


@dataclass(frozen=True)
class Site:
    """A site: its plan, the programme's rules, the stage it stood at when loaded, and its log."""

    code: str
    name: str
    rules: Rules
    plan: dict | None = None
    planned_by: str | None = None  # who released the plan: without a name there is no pressure figure
    started_at: str = "site"
    log: tuple = ()
    waiting: tuple = ()  # of Waits

    @cached_property
    def live(self):
        """The entries that count: without those taken back or replaced, unless that was taken back itself."""
        if {entry.kind for entry in self.log}.isdisjoint(("undo", "correction")):
            return self.log
        taking = {entry.number: entry.refers for entry in self.log if entry.kind in ("undo", "correction") and entry.refers}
        void = {refers for number, refers in taking.items() if number not in taking.values()}
        return tuple(entry for entry in self.log if entry.number not in void and entry.kind != "undo")

    @cached_property
    def next_number(self):
        """The number the next entry will have."""
        return 1 + max((entry.number for entry in self.log), default=0)

    @cached_property
    def litres(self):
        """What each container holds here [l]: as it was measured at the site, else as the programme says."""
        measured = self.live if "measure_l" in self._told else ()
        return {**self.rules.litres, **{e.fields["container"]: e.fields["measure_l"] for e in measured if "measure_l" in e.fields}}

    @cached_property
    def plan_now(self):
        """The plan in force: the last one fixed by message, else the programme file's."""
        fixed = [entry for entry in self.live if entry.kind == "fix"]
        return fixed[-1].fields["plan"] if fixed else self.plan

    @cached_property
    def design(self):
        """The Design of the plan in force, or None while none is fixed."""
        return design_of(plan_key(self.plan_now)) if self.plan_now else None

    @cached_property
    def plan_released_by(self):
        """Who stands for the plan in force."""
        fixed = [entry for entry in self.live if entry.kind == "fix"]
        return fixed[-1].name if fixed else self.planned_by

    def with_entries(self, entries, now, person):
        """The site as it will be with these entries in its log."""
        first = self.next_number
        by = (person.id, person.name) if person else (None, "")
        more = (
            Logged(first + n, e.kind, now, *by, e.fields, e.verdict, e.cautions, e.refers, json.dumps(e.held))
            for n, e in enumerate(entries)
        )
        return replace(self, log=self.log + tuple(more))

    def last(self, *kinds):
        """The last live entry of one of these kinds, or None."""
        return next((entry for entry in reversed(self.live) if entry.kind in kinds), None)

    def reading(self, name, kinds=()):
        """(value, entry) of the last live reading of a field, of these kinds where some are named, or (None, None)."""
        if name in self._told:
            for entry in reversed(self.live):
                if entry.kind != "release" and name in entry.fields and (not kinds or entry.kind in kinds):
                    return entry.fields[name], entry
        return None, None

    @cached_property
    def _told(self):
        """The fields that stand anywhere in the log: most that are asked for do not."""
        return set().union(*(entry.fields for entry in self.log))

    def fresh(self, name, now, life=SHIFT):
        """The last value of a field that was said within its life, else None: not reported."""
        value, entry = self.reading(name)
        return value if entry is not None and now - entry.at <= life else None

    def since(self, moment, *names):
        """True if one of the fields was reported "yes" after a moment."""
        told = [name for name in names if name in self._told]
        return bool(told) and any(e.at >= moment and any(e.fields.get(name) == "yes" for name in told) for e in self.live)

    @cached_property
    def ever_filled(self):
        """True once slurry was ever reported, also in an entry taken back since: nothing sets it back."""
        stages = {entry.fields.get("stage") for entry in self.log if entry.fields.get("state") == "done"}
        from_start = self.started_at in ("first_gas", "handover", "use")
        return from_start or bool(stages & {"first_fill", "first_gas", "handover"})


def filled_at(site):
    """When the plant was filled last by its log, or None."""
    done = [entry.at for entry in site.live if entry.fields.get("stage") == "first_fill" and entry.verdict == "recorded"]
    return done[-1] if done else None


def plan_key(plan):
    """A plan as one text, the same for the same plan."""
    return json.dumps(plan, sort_keys=True)


def plan_asked(form, site):
    """The plan of a plant named by its gas or its volume, by the programme's meaning of size; None where none is named."""
    if form.get("gas_m3_per_d"):
        return {"gas_m3_per_day": form.get("gas_m3_per_d")}
    if form.get("volume_m3"):
        return {"volume_m3": form.get("volume_m3")}
    if not form.get("plant_m3"):
        return None
    if site.rules.size_basis is None:
        raise Missing("size_basis")
    return {"gas_m3_per_day" if site.rules.size_basis == "gas_per_day" else "volume_m3": form.get("plant_m3")}


@cache
def design_of(plan):
    """Return the Design of a plan given as JSON: gas a day, a volume, weighed dung, or a drawing."""
    wanted = json.loads(plan)
    if "radius_m" in wanted:
        return _drawn(wanted)
    how = {"form": shape(wanted.get("shape", "cap_on_bowl"), wanted.get("bottom")), "dome": wanted.get("dome", "brick")}
    temp_c = wanted.get("temp_c")
    if "gas_m3_per_day" in wanted:
        return designs.for_gas(wanted["gas_m3_per_day"], temp_c, **how)
    if "volume_m3" in wanted:
        return designs.for_volume(wanted["volume_m3"], temp_c, **how)
    return designs.for_feed(sizing.feed_from_dung(wanted["dung_kg_per_day"]), temp_c, **how)


def _drawn(wanted) -> Design:
    bottom = wanted.get("bottom", "flat")
    vessel = Vessel(wanted["radius_m"], wanted["dome_rise_m"], wanted.get("wall_height_m", 0.0), bottom, wanted.get("bottom_depth_m", 0.0))
    chamber_m = (wanted["chamber_length_m"], wanted["chamber_width_m"], wanted["chamber_depth_m"])
    feed = sizing.feed_from_dung(wanted["dung_kg_per_day"]) if "dung_kg_per_day" in wanted else None
    pit = {name: wanted[name] for name in ("pit_diameter_m", "pit_depth_m") if name in wanted}
    form = "cylinder_cap" if wanted.get("wall_height_m") else "cap_on_bowl"
    return designs.drawing(
        vessel,
        wanted["zero_line_m"],
        chamber_m,
        dome=wanted.get("dome", "brick"),
        form=form,
        feed=feed,
        gas_m3_per_day=wanted.get("gas_m3_per_day"),
        **pit,
    )
