"""When whom what is told: the [duty] section of a programme file, each setting with where its usual value comes from.

practice: a habit of such offices without a printed source; the programme sets its own.
"""

from datetime import time, timedelta
from functools import lru_cache
from typing import Annotated, Literal
from zoneinfo import ZoneInfo

from pydantic import BaseModel, ConfigDict, Field, field_validator, model_validator

from bot.stages import HOLD, STAGES

HOLDS = tuple(stage.name for stage in STAGES.values() if stage.hold == HOLD)
DAY = timedelta(days=1)
Hours = Annotated[float, Field(gt=0, le=168)]
Minutes = Annotated[float, Field(gt=0, le=1440)]
Clock = Annotated[str, Field(pattern=r"^([01][0-9]|2[0-3]):[0-5][0-9]$")]
Step = Annotated[str, Field(min_length=1, max_length=20, pattern=r"^[ -~]+$")]


class Duty(BaseModel):
    """The settings of the office; a programme that says nothing has these."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    repeat_h: Hours = 4.0  # practice: an alarm nobody answers is said once more after half a working day
    deputy_min: Minutes = 30.0  # practice: minutes after that before the next in the list hears of it
    head_h: Hours = 24.0  # practice: a day more before the head of the programme does; also for one seen and not closed
    life_min: Minutes = 5.0  # practice: a person down, gas or moving ground goes to the next in the list after this
    interrupts_a_day: Annotated[int, Field(ge=2, le=100)] = 10  # about one alarm in ten minutes is all a desk bears: EEMUA 191, from memory
    fold_min: Minutes = 30.0  # practice: what is over that number is gathered so long, then told in one text
    digest_at: Annotated[list[Clock], Field(min_length=1, max_length=4)] = ["06:30", "18:00"]  # practice: before leaving, at evening
    quiet_from: Clock = "20:00"  # practice: from then on only a STOP is sent unasked
    quiet_until: Clock = "06:00"
    remind_at: Clock = "07:00"  # practice: when masons are told what to do that day
    quiet_site_d: Annotated[int, Field(ge=1, le=60)] = 3  # practice
    late_release_h: Hours = 24.0  # practice
    over_plan: Annotated[float, Field(ge=0, le=1)] = 0.10  # practice: cement used beyond the bill of the plan
    taken_back: Annotated[int, Field(ge=2, le=20)] = 3  # practice: entries taken back one after the other
    releases_within_s: Annotated[int, Field(ge=10, le=3600)] = 60  # practice: nobody looks at two sites in a minute
    stage_texts_up_to_sites: Annotated[int, Field(ge=0, le=10_000)] = 30  # practice: beyond it stages are counted in the digest
    payment: dict[Literal[HOLDS], Step] = {}  # which payment step the release of a stage lets go, in words

    @field_validator("digest_at")
    @classmethod
    def _in_order(cls, told):
        return sorted(set(told))

    @model_validator(mode="after")
    def _by_day(self):
        asleep = [each for each in (*self.digest_at, self.remind_at) if self._quiet(time.fromisoformat(each))]
        if asleep:
            raise ValueError(f"{', '.join(asleep)} lies in the quiet hours {self.quiet_from}-{self.quiet_until}")
        return self

    def _quiet(self, hour):
        start, end = time.fromisoformat(self.quiet_from), time.fromisoformat(self.quiet_until)
        return start <= hour < end if start < end else hour >= start or hour < end

    @property
    def fold(self):
        """How long alarms over the day's number are gathered."""
        return timedelta(minutes=self.fold_min)

    def quiet(self, moment, zone):
        """True where only a STOP is sent unasked."""
        return self._quiet(moment.astimezone(ZoneInfo(zone)).time())

    def by_day(self, moment, zone):
        """A moment, or the end of the quiet hours it lies in."""
        return next_at(moment, (self.quiet_until,), zone) if self.quiet(moment, zone) else moment

    def next_digest(self, moment, zone):
        """When the next digest goes out."""
        return next_at(moment, self.digest_at, zone)

    def last_digest(self, moment, zone):
        """When the digest before this moment went out, or should have."""
        return max(at for each in self.digest_at if (at := next_at(moment, (each,), zone) - DAY) < moment)


def next_at(moment, hours, zone):
    """The next moment after this one at which a clock of the zone shows one of these hours."""
    here = moment.astimezone(ZoneInfo(zone))
    days = (here.date() + n * DAY for n in range(2))
    found = (here.replace(year=d.year, month=d.month, day=d.day, **_parts(hour)) for d in days for hour in hours)
    return min(at for at in found if at > moment)


def _parts(hour):
    at = time.fromisoformat(hour)
    return {"hour": at.hour, "minute": at.minute, "second": 0, "microsecond": 0}


@lru_cache(8)
def _read(told):
    return Duty.model_validate_json(told)


def duty_of(rules):
    """The Duty in the settings of a programme as the book keeps them."""
    return _read(rules.get("duty") or "{}")
