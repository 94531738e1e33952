"""The days of a site: how warm each was, on which something was kept wet, and how many of them a wait takes."""

from datetime import date, timedelta
from itertools import count
from zoneinfo import ZoneInfo

from calc import sources as s
from calc.curing import days_kept_wet
from calc.maturity import day_mean, days_needed

DAY = timedelta(days=1)


def whole_days(span):
    """The full 24-hour days in a time span, never rounded up."""
    return span // DAY


def date_at(moment, site):
    """The date of a moment at the site."""
    return moment.astimezone(ZoneInfo(site.rules.zone)).date()


def usual_c(day, site):
    """The mean temperature the programme gives for a date: of its month, else of the year, else None."""
    monthly = site.rules.monthly_mean_c
    return monthly[day.month - 1] if monthly else site.rules.mean_temp_c


def own_c(site):
    """date -> (lowest, highest, other) readings of the days of which temperatures were sent."""
    found = {}
    for entry in site.live:
        if entry.kind == "temp":
            day = date.fromisoformat(entry.fields["date"])
            if {"least_temp_c", "most_temp_c"} <= entry.fields.keys():  # both ends of the day say all: what came before is replaced
                found.pop(day, None)
            of_day = found.setdefault(day, ([], [], []))
            for name, values in zip(("least_temp_c", "most_temp_c", "temp_c"), of_day, strict=True):
                values += [entry.fields[name]] if name in entry.fields else []
    return found


def mean_c(day, site, own=None):
    """The mean temperature of a date at the site: by its own readings, else the programme's, else None.

    A night alone counts as the whole day, and a reading of the day alone never as warmer than usual: what is not
    known of a day makes no wait shorter.
    """
    least, most, other = (own_c(site) if own is None else own).get(day, ((), (), ()))
    values, usual = (*least, *most, *other), usual_c(day, site)
    if not values:
        return usual
    if least and not most:
        return min(values)
    mean = day_mean(min(values), max(values))
    return mean if (least and most) or usual is None else min(mean, usual)


def wait_days(wait_d, site, since, now=None):
    """The full days a wait takes from a moment, each by its temperature; where none is known the clock alone counts.

    Where the beginning is not on record, the longest of any beginning up to now from which the wait is not over yet.
    """
    own = own_c(site)
    if since is not None:
        return _from(date_at(since, site), wait_d, site, own)
    today, ago, longest = date_at(now, site), 0, 0
    while (days := _from(today - ago * DAY, wait_d, site, own)) > ago:  # once it is over, whatever began earlier is over too
        ago, longest = ago + 1, max(longest, days)
    return longest


def _from(first, wait_d, site, own):
    return days_needed(wait_d, (_or_clock(mean_c(first + n * DAY, site, own)) for n in count()))


def all_known(site, since, days):
    """True where a temperature is known for each of so many days from a moment: read there, or of the programme."""
    first, own = date_at(since, site), own_c(site)
    return all(mean_c(first + n * DAY, site, own) is not None for n in range(days))


def _or_clock(temp_c):
    return float(s.REFERENCE_C) if temp_c is None else temp_c


def kept_wet(name, site, since):
    """On how many days since a moment a stage was kept wet by the log, said day by day or as a number."""
    first = date_at(since, site)
    logged, counts = [], []
    for entry in site.live:
        if entry.kind == "wet" and entry.fields.get("stage", name) == name:
            logged.append(date.fromisoformat(entry.fields["date"]))
        days = entry.fields.get("curing_d")
        if (
            days is not None
            and entry.fields.get("stage", entry.kind) == name
            and entry.at >= since
            and days <= (entry.at - since) / DAY + 1
        ):
            counts.append((date_at(entry.at, site).toordinal(), days))
    return int(days_kept_wet([day.toordinal() for day in logged if day >= first], counts))
