"""One more point of a hold reading, asked of sites that are drawn by lot: the stage is not complete before it came."""

from dataclasses import replace

from bot import draw
from bot.days import date_at
from bot.phrases import T_, Text
from bot.stages import STAGES, verdict
from calc import sources as s
from calc.checks import WITHIN

FIELDS = {"pit": "pit_dia_m", "dome": "dome_radius_m"}  # the reading of a hold that is taken at several points
ASKED = {
    "pit_dia_m": T_("Measure once more, to the outlet side, and send: pit wide nnn cm."),
    "dome_radius_m": T_("Swing the string once more, at the outlet side, and send: dome string nnn cm."),
}


def open_at(stage, site):
    """The entry that asked for one more point of a stage and was not answered, or None."""
    asked = next((e for e in reversed(site.live) if e.kind == "extra" and e.fields["of"] == stage), None)
    answered = asked and any(e.number > asked.number and e.kind == stage and FIELDS[stage] in e.fields for e in site.live)
    return None if answered else asked


def joined(kind, form, site):
    """The form with the one point that was asked for beside those it was asked after; any other form as it is."""
    field = FIELDS.get(kind)
    points = form.get(field) if field else None
    if points is None or len(points) != 1 or open_at(kind, site) is None:
        return form
    before = site.reading(field, (kind,))[0] or ()  # none where they were taken back since
    return replace(form, fields=form.fields | {field: (*before, *points), "extra": field})


def wanted(kind, form, site, now):
    """What is said where one more point is asked for now, else an empty Text.

    A site is asked at most once for a stage, and only where all its readings are within plan.
    """
    field, rules = FIELDS.get(kind), site.rules
    if not form.get(field) or rules.draw_seed is None or any(e.kind == "extra" and e.fields["of"] == kind for e in site.log):
        return Text()
    share = float(s.EXTRA_SHARE) if rules.extra_share is None else rules.extra_share
    drawn = draw.lot(rules.draw_seed, site.code, kind, date_at(now, site)) < share
    return ASKED[field] if drawn and all(_within(name, form, site) for name in STAGES[kind].wants) else Text()


def _within(name, form, site):
    found = verdict(site, name, form.get(name) or site.reading(name)[0] or ())
    return found is not None and found.stands == WITHIN
