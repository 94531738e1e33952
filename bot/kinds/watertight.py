"""The water test: how far the water fell, what the plant lost of it in a day, what the days say, what to do next."""

from datetime import timedelta

from bot import foreman
from bot.forms import Answer, Entry, Field, Kind
from bot.phrases import T_, Amount, Clock, lines
from bot.stages import STAGES
from bot.standing import standing
from calc import sources as s
from calc import watertight
from calc.checks import NOT_ENOUGH, OUTSIDE, WITHIN
from calc.tightness import Found

LIFE = timedelta(days=4)  # days of one test lie no further apart
LATE = timedelta(hours=float(s.SAME_HOUR_H))  # how late a reading may be sent
STANDS = {WITHIN: T_("within"), OUTSIDE: T_("outside"), NOT_ENOUGH: T_("not enough")}
NEXT = {
    "": T_("Send: water test done."),
    "no_plan": T_("No plan: no verdict. Your supervisor fixes one."),
    "too_soon": T_("Too soon: read 24 h after filling to the zero line."),
    "second_day": T_("Fill to the zero line, read again after 24 h: the second day counts."),
    "not_falling": T_("No less than the day before: fill to the zero line, read one more day."),
    "on_limit": T_("On the limit of 2 %%, the mark cannot tell: fill to the zero line, read one more day."),
    "repeat": T_("Over 1 %%: fill to the zero line, repeat a day."),
    "stops": T_("The leak is at the line where it stopped. Mark it, mend there, test again."),
    "loses_water": T_("Limit 2 %%. Mark the line where it stops, mend there, test again."),
    "loses_more": T_("More than the day before: look for the leak, mend, test again."),
}


def water(form, site, sender, now):
    found = _found(form, site, now)
    fields = {name: value for name, value in form.fields.items() if name != "share"}  # a corrected entry brings its old one
    if found.share is not None:
        fields["share"] = found.share
    said = [T_("In %(hours)s from the zero line.", hours=Amount(form.get("wait_h"), "h"))]
    if found.share is not None:
        lost = {"share": Amount(100 * found.share, "%", 2), "stands": STANDS[found.stands]}
        said.append(T_("Lost %(share)s of the inside in a day: %(stands)s.", **lost))
    answer = foreman.check(
        "water_test",
        T_("water test"),
        ("water_drop_m", "rain_fall_m", "pan_fall_m"),
        lambda stands: NEXT[found.reason],
        site,
        form,
        sender,
        now,
        lines(said),
        about="TD",
        stage="water_test",
    )
    (entry,) = answer.entries
    kept = Entry(entry.kind, fields, found.stands, entry.cautions, held=entry.held)
    return Answer(answer.reply, (kept,), answer.alerts, answer.then)


def _found(form, site, now):
    hours = form.get("wait_h")
    if site.design is None:
        return Found(NOT_ENOUGH, "no_plan")
    if hours < s.WATER_TEST_H:
        return Found(NOT_ENOUGH, "too_soon")
    weather = {"rain_m": (form.get("rain_fall_m") or (0.0,))[0], "pan_m": (form.get("pan_fall_m") or (0.0,))[0]}
    share = watertight.water_day(site.design, form.get("water_drop_m")[0], hours, **weather)
    about = watertight.unsure(site.design, hours)
    return watertight.water_test([*_days_before(site, now, hours), share], about, form.get("stopped") == "yes")


def _days_before(site, now, hours):
    """The shares of the days before this one, since the last that was outside; a day sent twice counts as sent last."""
    begun, shares = now - timedelta(hours=hours), []
    for entry in reversed(site.live):
        if entry.kind != "water_test" or "share" not in entry.fields:
            continue
        if entry.verdict == OUTSIDE or now - entry.at > LIFE:
            break
        if entry.at <= begun + LATE:
            shares.insert(0, entry.fields["share"])
            begun = entry.at - timedelta(hours=entry.fields["wait_h"])
    return shares


def begin(form, site, sender, now):
    blocked = standing(STAGES["water_test"], site, now)
    if blocked.blocked_by:
        return Answer(lines([foreman.head(site, T_("water test")), foreman.first_finish(blocked)]))
    head = foreman.head(site, T_("water test"), site.next_number)
    said = T_("filled to the zero line at %(time)s. Mark it. Read after 24 h, send: water fell nn cm in nn hours.", time=Clock(now, now))
    return Answer(lines([head, said]), (Entry("water_begun", form.fields),))


BEGIN = Kind(
    name="water_begun",
    about=T_("Water test begun: filled to the zero line."),
    example=T_("filled to zero line"),
    cues=("act.zero_line act.filled -number -asked -not -state -unsure", "act.zero_line item.water -number -asked -not -state -unsure"),
    answer=begin,
)
KIND = Kind(
    name="water_test",
    about=T_("Water test: how far the water fell, in how many hours; rain and pan too."),
    example=T_("water fell nn cm in nn hours"),
    cues=("item.water act.fell", "part.water_test act.fell", "item.water same", "part.water_test length"),
    grammar="lengths",
    fields=(
        Field("water_drop_m", ("act.fell",), 0.0, 0.3, bare=True),
        Field("water_drop_m", ("act.fell", "same.same"), 0.0, 0.0, "nil"),
        Field("rain_fall_m", ("act.rain",), 0.0, 0.3),
        Field("pan_fall_m", ("act.pan",), 0.0, 0.05),
        Field("stopped", ("act.stopped",), 0, 0, "flag"),
        Field("wait_h", (), 0, 0, "hours"),
    ),
    answer=water,
    needs=(("water_drop_m", "no_reading"), ("wait_h", "how_long")),
)
