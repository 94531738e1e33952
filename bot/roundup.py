"""How the sites of somebody of the office stand: what must be answered, signed, looked at; and the digest twice a day."""

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from bot import cases, notices, outbox, reminders
from bot.duty import DAY, duty_of
from bot.items import Item, digest, ranked
from bot.kinds.answering import called
from bot.kinds.buy import packs
from bot.phrases import T_, Amount, Size
from bot.stages import HOLD, STAGES
from bot.standing import applies, open_stages, release_of, reported_done, standing
from bot.stock import moves
from bot.titles import TITLES
from calc.bill import bill, needed

HOUR = timedelta(hours=1)
MONDAY, ALIKE = 0, 3  # ALIKE: so many readings of one thing, the same to the centimetre


def found(page, codes, now):
    """The Items of these sites, the worst first."""
    duty = duty_of(page.rules())
    items = [_case(row, now) for row in page.armed(cases.CASE) if row["site"] in codes]
    for code in codes:
        items += _looked(page.site(code), duty, now)
    return ranked(items)


def _case(row, now):
    told = row["fields"]
    hours = (now - datetime.fromisoformat(told["at"])) / HOUR
    said = {"site": row["site"], "number": told["entry"], "what": called(told), "hours": Amount(hours, "h", 0)}
    weight = hours + 10_000 * told["life"] + 1000 * told["stop"]
    return Item("seen" if told["seen"] else "open", weight, row["site"], T_("%(site)s #%(number)s %(what)s %(hours)s", **said))


def _looked(site, duty, now):
    """Yield the Items of one site by its log."""
    yield from _holds(site, duty, now)
    silent = reminders.silent_d(site, now)
    if silent >= duty.quiet_site_d:
        yield _item("quiet", silent, site, T_("%(site)s %(days)s", site=site.code, days=Amount(silent, "days")))
    stands = [standing(stage, site, now) for stage in open_stages(site)]
    outside = next((each for each in stands if each.outside), None)
    if outside is not None:
        yield _outside(*outside.outside[0], site)
    dry = next((each for each in stands if each.dry and each.until is None), None)
    if dry is not None:
        name, have, need = dry.dry[0]
        said = {"site": site.code, "stage": STAGES[name].title, "have": have, "need": need}
        yield _item("wet", need - have, site, T_("%(site)s %(stage)s %(have)s of %(need)s", **said))
    over = _cement_over(site)
    if over is not None and over > duty.over_plan:
        yield _item("cement", over, site, T_("%(site)s +%(share)s", site=site.code, share=Amount(100 * over, "%", 0)))
    yield from _odd(site, duty, now)


def _item(head, weight, site, text):
    return Item(head, weight, site.code, text)


def _holds(site, duty, now):
    for stage in STAGES.values():
        reported = reported_done(stage.name, site) if stage.hold == HOLD and applies(stage, site) else None
        if reported is None or release_of(stage.name, site, reported) is not None:
            continue
        if any(e.kind == "refuse" and e.fields.get("stage") == stage.name and e.number > reported.number for e in site.live):
            continue
        hours = (now - reported.at) / HOUR
        said = {"site": site.code, "stage": stage.title, "hours": Amount(hours, "h", 0)}
        if hours > duty.late_release_h:
            yield _item("late", hours, site, T_("%(site)s %(stage)s %(hours)s", **said))
        else:
            yield _item("hold", hours, site, T_("%(site)s %(stage)s", site=site.code, stage=stage.title))


def _outside(name, reading, site):
    _, much, little = TITLES[name]
    said = {"site": site.code, "way": much if reading.by > 0 else little}
    if not name.endswith("_m"):
        return _item("outside", 0, site, T_("%(site)s %(way)s", **said))
    return _item("outside", abs(reading.by), site, T_("%(site)s %(by)s %(way)s", by=Size(abs(reading.by)), **said))


def _cement_over(site):
    """By what share the cement used is more than the whole bill of the plan, or None where either is not known."""
    used = sum(
        amount for e in site.live if e.kind == "stock" for way, item, amount in moves(e.fields) if way == "out" and item == "cement_kg"
    )
    if not used or site.design is None:
        return None
    wanted = needed(bill(site.design, packs(site))).get("cement_kg")
    return used / wanted - 1 if wanted else None


def _odd(site, duty, now):
    """What was sent since the same hour yesterday and looks odd: flags, never accusations."""
    lately = [entry for entry in site.log if now - entry.at <= DAY]
    back = _in_a_row(lately)
    if back >= duty.taken_back:
        yield _item("undone", back, site, T_("%(site)s %(count)s", site=site.code, count=back))
    alike = [entry for entry in lately if any(_alike(value) for value in entry.fields.values())]
    if alike:
        yield _item("same", len(alike), site, T_("%(site)s #%(number)s", site=site.code, number=alike[-1].number))
    rushed = [entry for entry in lately if entry.kind == "release" and entry.fields.get("rush")]
    if rushed:
        said = {"site": site.code, "count": rushed[-1].fields["rush"] + 1, "name": rushed[-1].name}
        yield _item("rush", said["count"], site, T_("%(site)s %(name)s %(count)s", **said))


def _in_a_row(entries):
    """The most entries that were taken back one after the other, by the same person; one that was only corrected does not count."""
    most, run, by = 0, 0, None
    for entry in entries:
        back = entry.kind == "undo" and not entry.fields.get("corrected")
        run = (run + 1 if entry.by == by else 1) if back else 0
        most, by = max(most, run), entry.by
    return most


def _alike(values):
    """True for several readings of a length that are the same to the centimetre."""
    if not isinstance(values, list | tuple) or len(values) < ALIKE or not all(isinstance(value, float) for value in values):
        return False
    return len({round(100 * value) for value in values}) == 1


# ---- the digest


def ring(page, row, now):
    """A digest to each supervisor, one for all his sites; on Monday morning one to each head of the programme too.

    In the morning there is always one, later only where something is open.
    """
    rules = page.rules()
    duty, zone = duty_of(rules), rules.get("zone", "UTC")
    if duty.quiet(now, zone):  # the bot was away
        return duty.next_digest(now, zone)
    due = row["due"].astimezone(ZoneInfo(zone))
    first, since = f"{due:%H:%M}" == duty.digest_at[0], duty.last_digest(row["due"], zone)
    for person in page.office("supervisor"):
        _send(page, person, "supervisor", first, since, row, now)
    for person in page.office("head") if first and due.weekday() == MONDAY else ():
        _send(page, person, "head", True, due - 7 * DAY, row, now)
    return duty.next_digest(now, zone)


def _send(page, person, role, always, since, row, now):
    codes = tuple(code for code, held in person.roles if held == role)
    items = found(page, codes, now)
    if items or always:
        lately = [entry for code in codes for entry in page.entries(code) if entry.at > since]
        stages = sum(entry.kind == "stage" and entry.verdict == "recorded" for entry in lately)
        came = sum(entry.kind == "stock" and any(way == "in" for way, *_ in moves(entry.fields)) for entry in lately)
        text = digest(items, len(codes), stages, came, now, outbox.reader(page, person))
        outbox.say(page, text, None, person, role, notices.notice(row, person), now)
