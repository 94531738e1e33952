"""The programme file: sites, people, plans, containers, prices, limits; checked as a whole, then written to the book.

A limit without a source does not load, and none may be looser than the house's own without a named engineer.
"""

import hashlib
import tomllib
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Annotated, Literal
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from pydantic import Field, ValidationError, field_validator, model_validator

from bot import ownwords, places
from bot import site as sites
from bot.duty import Duty
from bot.roster import PersonRow, Region, Said, Strict, crowded, overlooked, stored, whole_numbers
from bot.stages import STAGES, TOLERANCES, house_tolerance
from calc.cost import LABOUR
from calc.errors import CalcError
from calc.sources import DRY_CEMENT_AHEAD_D
from calc.takeoff import ITEMS

Positive = Annotated[float, Field(gt=0, allow_inf_nan=False)]
Code = Annotated[str, Field(pattern=r"^[A-Z]{2}[0-9]{2}$")]


class Head(ownwords.Own):
    """What holds for every site of the programme."""

    name: Said
    zone: str = "UTC"
    emergency_text: Annotated[str, Field(max_length=40, pattern=r"^[ -~]*$")] | None = None
    size_basis: Literal["gas_per_day", "inside_volume"] | None = None
    mean_temp_c: Annotated[float, Field(ge=-10, le=45)] | None = None
    monthly_mean_c: Annotated[list[Annotated[float, Field(ge=-30, le=45)]], Field(min_length=12, max_length=12)] | None = None
    cow: Literal["local_cow", "cow"] = "local_cow"
    kept: Literal["stabled", "night"] = "stabled"
    cement: Literal["opc", "blended", "unknown"] = "unknown"
    hot_dry: bool = False
    bag_kg: Positive | None = None
    bucket: str = "bucket"
    strip_d: Annotated[float, Field(ge=7)] | None = None
    crew_masons: Annotated[int, Field(ge=0, le=10)] | None = None
    crew_labourers: Annotated[int, Field(ge=0, le=30)] | None = None
    working_days_per_week: Annotated[int, Field(ge=1, le=7)] = 6
    currency_word: Annotated[str, Field(min_length=1, max_length=10, pattern=r"^[A-Za-z][A-Za-z .]*$")] | None = None
    price_old_d: Annotated[int, Field(ge=1, le=365)] | None = None
    cement_ahead_d: Annotated[float, Field(ge=1, le=DRY_CEMENT_AHEAD_D)] | None = None
    region: Region | None = None
    answers_per_hour: Annotated[int, Field(ge=10, le=100_000)] | None = None
    confirm_by_sms: bool = True

    @field_validator("zone")
    @classmethod
    def _zone_exists(cls, name):
        try:
            return ZoneInfo(name).key
        except ZoneInfoNotFoundError:
            raise ValueError(f"no time zone {name}") from None


class Tolerance(Strict):
    """How far a reading may lie below and above its plan, how well it can be measured [m], and who says so."""

    below: Annotated[float, Field(ge=0, allow_inf_nan=False)]
    above: Annotated[float, Field(ge=0, allow_inf_nan=False)]
    uncertainty: Positive | None = None
    source: Said
    engineer: Said | None = None


class Siting(Strict):
    """How near or how far from something a plant may stand [m], and who says so."""

    at_least_m: Positive | None = None
    at_most_m: Positive | None = None
    source: Said

    @model_validator(mode="after")
    def _one_bound(self):
        if (self.at_least_m is None) == (self.at_most_m is None):
            raise ValueError("give one of at_least_m, at_most_m")
        return self


class Plan(Strict):
    """What is built: gas a day, an inside volume, or weighed dung to calculate from; or the name of a drawing."""

    gas_m3_per_day: Positive | None = None
    volume_m3: Positive | None = None
    dung_kg_per_day: Positive | None = None
    drawing: str | None = None
    temp_c: float | None = None
    shape: Literal["cap_on_bowl", "cylinder_cap"] | None = None
    bottom: Literal["bowl", "flat", "cone"] | None = None
    dome: Literal["brick", "ferrocement", "concrete"] = "brick"

    @model_validator(mode="after")
    def _one_basis(self):
        given = [self.gas_m3_per_day, self.volume_m3, self.dung_kg_per_day, self.drawing]
        if sum(value is not None for value in given) != 1:
            raise ValueError("give one of gas_m3_per_day, volume_m3, dung_kg_per_day, drawing")
        return self


class Drawing(Strict):
    """A plant as the programme has drawn it [m]; these numbers rule, the calculation checks them."""

    name: Said
    radius_m: Positive
    dome_rise_m: Positive
    wall_height_m: float = 0.0
    bottom: Literal["bowl", "flat", "cone"] = "flat"
    bottom_depth_m: float = 0.0
    zero_line_m: Positive
    chamber_length_m: Positive
    chamber_width_m: Positive
    chamber_depth_m: Positive
    pit_diameter_m: Positive | None = None
    pit_depth_m: Positive | None = None
    dome: Literal["brick", "ferrocement", "concrete"] = "brick"
    dung_kg_per_day: Positive | None = None
    gas_m3_per_day: Positive | None = None


class SiteRow(Strict):
    """A site: where it stands, what is built, who released the plan."""

    code: Code
    name: Said
    stage: Literal[(*STAGES, "use")] = "site"
    plan: Plan | None = None
    released_by: Said | None = None
    soil: Literal["A", "B", "C", "rock"] | None = None


class Price(Strict):
    """What one pack of an item costs, how much of the item's unit it holds, on which day, at whose shop."""

    item: Literal[*ITEMS, *LABOUR]
    pack: Annotated[str, Field(min_length=1, max_length=20)]
    holds: Positive
    price: Annotated[Decimal, Field(gt=0)]
    currency: Annotated[str, Field(pattern=r"^[A-Z]{3}$")]
    seen_on: date
    supplier: Said


class Programme(ownwords.Tables):
    """A whole programme file."""

    programme: Head
    containers: dict[str, Positive] = {}
    packs: dict[str, Positive] = {}
    tolerance: dict[str, Tolerance] = {}
    siting: dict[Literal["well_m", "house_m", "tree_m", "road_m", "kitchen_m", "stable_m"], Siting] = {}
    drawing: list[Drawing] = []
    site: list[SiteRow]
    person: list[PersonRow]
    price: list[Price] = []
    duty: Duty = Duty()

    @model_validator(mode="before")
    @classmethod
    def _numbers(cls, told):
        return whole_numbers(told)

    @model_validator(mode="after")
    def _holds_together(self):
        codes = [row.code for row in self.site]
        faults = [f"site {code} stands there twice" for code in set(codes) if codes.count(code) > 1]
        for row in self.person:
            faults += [f"{row.name}: no site {role[-4:]}" for role in row.roles if role[-4:] not in (*codes, " all")]
        for code in codes:
            if not any({f"supervisor {code}", "supervisor all"} & set(row.roles) for row in self.person):
                faults.append(f"site {code} has no supervisor")
        faults += self._plans() + [_looser(name, row) for name, row in self.tolerance.items() if _looser(name, row)]
        faults += [*_unmeetable(self.tolerance), *crowded(self.person), *overlooked(self.person), *ownwords.faults(self)]
        currencies = sorted({row.currency for row in self.price})
        faults += [f"prices in {', '.join(currencies)}: one currency only"] if len(currencies) > 1 else []
        if faults:
            raise ValueError("; ".join(sorted(faults)))
        return self

    def _plans(self):
        faults = []
        for row in self.site:
            try:
                plan = self.plan_of(row)
                if plan:
                    sites.design_of(sites.plan_key(plan))
            except (CalcError, LookupError) as fault:
                faults.append(f"site {row.code}: {fault}")
        return faults

    def plan_of(self, row):
        """The plan of a site as plain values, a drawing written out."""
        if row.plan is None:
            return None
        if row.plan.drawing is None:
            return row.plan.model_dump(exclude_none=True)
        drawn = [drawing for drawing in self.drawing if drawing.name == row.plan.drawing]
        if not drawn:
            raise LookupError(f"no drawing {row.plan.drawing}")
        return drawn[0].model_dump(exclude_none=True, exclude={"name"})


def _looser(name, row):
    """What is wrong with a tolerance, or None."""
    house = house_tolerance(name)
    if house is None:
        return f"tolerance {name}: no such reading"
    loose = row.below > house[0] + 1e-9 or row.above > house[1] + 1e-9
    return f"tolerance {name} is looser than {house[0]:g}/{house[1]:g}: name the engineer" if loose and not row.engineer else None


def _unmeetable(rows):
    """A limit so narrow that the tape cannot tell: no reading could ever stand within it."""
    for name in TOLERANCES:
        below, above, measured = house_tolerance(name)
        row = rows.get(name)
        if row is not None:
            below, above, measured = row.below, row.above, row.uncertainty or measured
        if not below + above > 2 * measured:
            yield f"tolerance {name}: at {measured:g} m of uncertainty nothing can be within -{below:g}/+{above:g} m: set both"


class Refused(ValueError):
    """A programme file that does not load; `faults` says every reason."""

    def __init__(self, faults):
        self.faults = tuple(faults)
        super().__init__("\n".join(self.faults))


def read(path):
    """Return (Programme, digest) of a file, or raise Refused with everything that is wrong with it."""
    return _loaded(path, Programme, lambda told: told)


def drawings(path):
    """Return (name, plan) of every drawing in a file, a programme's or one of drawings alone; or raise Refused."""
    made = _loaded(path, _Drawings, lambda told: {"drawing": told.get("drawing", [])})[0]
    return [(drawn.name, drawn.model_dump(exclude_none=True, exclude={"name"})) for drawn in made.drawing]


class _Drawings(Strict):
    drawing: Annotated[list[Drawing], Field(min_length=1)]


def _loaded(path, model, wanted):
    try:
        raw = Path(path).read_bytes()
        text = raw.decode("utf-8")
        made = model.model_validate(wanted(tomllib.loads(text)))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as fault:
        raise Refused([f"{path}: {fault}"]) from None
    except ValidationError as fault:
        raise Refused(places.faults(text, fault, model)) from None
    return made, hashlib.sha256(raw).hexdigest()


def store(page, book, digest, now, back=()):
    """Write a programme to the book: its settings, sites and people; refused where a price is of a day to come.

    Return what `roster.stored` says of the people.
    """
    today = now.astimezone(ZoneInfo(book.programme.zone)).date()
    ahead = [f"price of {row.item}: {row.seen_on} is still to come" for row in book.price if row.seen_on > today]
    if ahead:
        raise Refused(ahead)
    head = book.programme.model_dump(exclude={"name"}, exclude_none=True)
    rules = head | {
        "programme": book.programme.name,
        "litres": book.containers,
        "packs": book.packs,
        "tolerances": {name: row.model_dump(exclude_none=True) for name, row in book.tolerance.items()},
        "siting": {name: row.model_dump(exclude_none=True) for name, row in book.siting.items()},
        "prices": [row.model_dump(mode="json") for row in book.price],
        "duty": book.duty.model_dump_json(),
        **ownwords.rules(book),
    }
    page.save_programme(digest, rules, now)
    for row in book.site:
        own = {"soil": row.soil} if row.soil else {}
        plan = book.plan_of(row)
        page.save_site(code=row.code, name=row.name, plan=plan, planned_by=row.released_by, started_at=row.stage, rules=own)
    return stored(page, book.person, [row.code for row in book.site], now, back)
