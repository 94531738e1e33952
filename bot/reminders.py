"""What a site is reminded of: keep wet, read a test again, a wait is over, nothing heard. Each is one armed timer.

A message of the site sets them and calls off what it makes moot; what is due is looked up afresh in the log when it rings.
"""

from datetime import timedelta

from bot import foreman, notices, outbox
from bot.days import date_at, kept_wet, whole_days
from bot.duty import DAY, duty_of, next_at
from bot.phrases import T_, Amount, Clock, Series, lines
from bot.stages import STAGES
from bot.standing import current, done_at, finished, hardening, open_stages, standing, wet_for

WET, AGAIN, OVER, QUIET = "wet", "again", "over", "quiet"
TESTS = {"water_begun": "water_test", "water_test": "water_test", "gas_test": "gas_test"}
WAITS_FOR_END = ("no_start", "no_seal", "same_hour", "")  # how a gas test stands whose second reading is still to come
BEFORE = timedelta(minutes=15)  # a reading wants its hour: the text comes before it


def followed(page, site, entries, now):
    """Set and call off the reminders of a site after these entries, (number, Entry) each; `site` has them in its log."""
    kinds = {entry.kind for _, entry in entries}
    if not kinds:
        return
    duty, zone = duty_of(page.rules()), site.rules.zone
    if not page.armed(QUIET, site=site.code):
        outbox.arm(page, QUIET, site.code, None, _morning(now + duty.quiet_site_d * DAY, duty, zone), {})
    if kinds & {"stage", "release", "undo", "dome"}:
        _waits(page, site, duty, now)
        if not page.armed(WET, site=site.code) and next(hardening(site, now), None):
            outbox.arm(page, WET, site.code, None, next_at(now, (duty.remind_at,), zone), {})
    if kinds & {*TESTS, "undo"}:
        _second(page, site, duty, now)


def _morning(moment, duty, zone):
    """A moment, or the hour of reminders after it."""
    return next_at(moment - timedelta(microseconds=1), (duty.remind_at,), zone)


def _tell(page, site, text, row, now):
    """Say a reminder to the masons of a site."""
    for person in page.team(site.code, "mason"):
        worded = outbox.fitted(text, outbox.reader(page, person, site))
        notices.tell(page, duty_of(page.rules()), person, "mason", worded, notices.notice(row, person), now)


# ---- keep wet


def ring_wet(page, row, now):
    """Every morning while something hardens, until long after it should have."""
    site, duty = page.site(row["site"]), duty_of(page.rules())
    names = [name for name in hardening(site, now) if _lately(name, site, duty, now)]
    due = [name for name in names if not _wet_on(date_at(now, site), name, site)]
    if due:
        told = Series(tuple(_days_of(name, site) for name in due))
        _tell(
            page,
            site,
            T_("%(site)s: keep wet today, 3 times, shade it: %(list)s. Then send: wet today.", site=site.code, list=told),
            row,
            now,
        )
    return next_at(now, (duty.remind_at,), site.rules.zone) if names else None


def _lately(name, site, duty, now):
    since = done_at(name, site)
    return now - since < (wet_for(name, site, since) + duty.quiet_site_d) * DAY


def _wet_on(day, name, site):
    told = (e for e in site.live if e.kind == "wet" and e.fields.get("stage", name) == name)
    return any(entry.fields["date"] == day.isoformat() for entry in told)


def _days_of(name, site):
    since = done_at(name, site)
    said = {"stage": STAGES[name].title, "have": kept_wet(name, site, since), "need": wet_for(name, site, since)}
    return T_("%(stage)s %(have)s of %(need)s days on record", **said)


# ---- the second reading of a test


def _second(page, site, duty, now):
    """The reminder of the reading a day after the last start; none where no start waits for its end."""
    outbox.disarm(page, AGAIN, site=site.code)
    found = _waiting(site)
    if found is not None and found.at + DAY > now:
        due = _by_day_before(found.at + DAY - BEFORE, duty, site.rules.zone)
        outbox.arm(page, AGAIN, site.code, None, due, {"entry": found.number})


def _waiting(site):
    """The entry of a start whose second reading is still to come, or None."""
    last = next((entry for entry in reversed(site.live) if entry.kind in TESTS), None)
    if last is None or last.verdict in ("within", "outside", "stop"):
        return None
    begun = last.kind != "gas_test" or ("begun" in last.fields and last.fields.get("gauge_end_pa") is None)
    return last if begun and last.fields.get("found", "") in WAITS_FOR_END else None


def _by_day_before(moment, duty, zone):
    """A moment, or where it lies in the quiet hours the quarter of an hour before they begin."""
    return next_at(moment, (duty.quiet_from,), zone) - DAY - BEFORE if duty.quiet(moment, zone) else moment


def ring_again(page, row, now):
    site = page.site(row["site"])
    found = _waiting(site)
    if found is None or found.number != row["fields"]["entry"]:
        return
    name = TESTS[found.kind]
    said = {"site": site.code, "test": STAGES[name].title, "time": Clock(found.at + DAY, now), "number": found.number}
    text = T_("%(site)s: read the %(test)s of #%(number)s again at %(time)s, the same hour as the start.", **said)
    wanted = "water_drop_m" if name == "water_test" else "gauge_end_pa"
    how = foreman.wanted(((wanted, 1),)) if wanted == "water_drop_m" else T_("Send: gauge nn cm temp nn air nnnn.")
    _tell(page, site, lines([text, how]), row, now)


# ---- a wait is over


def _waits(page, site, duty, now):
    """The reminder of the next wait that will be over, for the stages that may then begin."""
    outbox.disarm(page, OVER, site=site.code)
    ends = [(standing(stage, site, now).until, stage.name) for stage in open_stages(site)]
    ends = [(until, name) for until, name in ends if until is not None]
    if ends:
        due = _morning(min(until for until, _ in ends), duty, site.rules.zone)
        outbox.arm(page, OVER, site.code, None, due, {"stages": [name for _, name in ends]})


def ring_over(page, row, now):
    """Said once of each stage; a wait that the cold has made longer since rings again at its end."""
    site, duty = page.site(row["site"]), duty_of(page.rules())
    open_now = {stage.name: standing(stage, site, now) for stage in open_stages(site) if stage.name in row["fields"]["stages"]}
    later = {name: stands.until for name, stands in open_now.items() if stands.until is not None}
    over = [stands for name, stands in open_now.items() if name not in later and stands.reported is None]
    for stands in over:
        text = T_("%(site)s: the wait before the %(stage)s is over by the calendar.", site=site.code, stage=stands.stage.title)
        then = foreman.too_dry(stands) if stands.dry else T_("Next: %(order)s", order=stands.stage.order)
        _tell(page, site, lines([text, then]), row, now)
    page.keep_fields(row["id"], {"stages": list(later)})
    return _morning(min(later.values()), duty, site.rules.zone) if later else None


# ---- nothing heard


def heard(site):
    """The moment of the last message of a site, or the end of the days without work it told of; None where it never wrote."""
    if not site.log:
        return None
    told = site.last("idle")
    last = max((entry.at for entry in site.log if entry.kind not in ("seen", "closed", "foreign")), default=None)
    return last if told is None or last is None else max(last, told.at + told.fields["idle_d"] * DAY)


def silent_d(site, now):
    """The full days nothing was heard of a site that is being built; 0 for one not begun, finished or in use."""
    last = heard(site)
    return 0 if last is None or finished("handover", site) or current(site) is None else max(whole_days(now - last), 0)


def ring_quiet(page, row, now):
    """The mason is asked once; from then on the digest names the site."""
    site, duty = page.site(row["site"]), duty_of(page.rules())
    last = heard(site)
    if last is None or current(site) is None or finished("handover", site):
        return None
    due = _morning(last + duty.quiet_site_d * DAY, duty, site.rules.zone)
    if due > now:
        return due
    text = T_(
        "%(site)s: nothing heard for %(days)s. Send what was done, or: no work n days.",
        site=site.code, days=Amount(silent_d(site, now), "days"),
    )  # fmt: skip
    _tell(page, site, text, row, now)
    return None
