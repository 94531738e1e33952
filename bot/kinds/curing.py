"""Curing: the days something was kept wet, against the days it needs."""

from bot import foreman, stops
from bot.days import kept_wet, whole_days
from bot.forms import Answer, Entry, Field, Kind
from bot.phrases import T_, Amount, Number, lines
from bot.stages import STAGES
from bot.standing import done_at, wet_for

LAST_FIRST = ("plaster", "dome", "outlet", "wall", "base")


def answer(form, site, sender, now):
    name = form.get("stage") or next((stage for stage in LAST_FIRST if done_at(stage, site) is not None), None)
    days = form.get("curing_d")
    head = foreman.head(site, T_("curing"), site.next_number)
    if name is None or wet_for(name, site, now) is None:
        text = T_("Kept wet %(days)s. Nothing that hardens is on record as done: send, as base done.", days=Amount(days, "days"))
        return Answer(lines([head, text]), (Entry("curing", form.fields),))
    fields = form.fields | {"stage": name}
    since = done_at(name, site)
    hazards = stops.at(site, form, now, cured_d=days, cure_least_d=wet_for(name, site, since, now))
    caution, rules = stops.reminder(hazards, site, now, "D")
    entry = Entry("curing", fields, None, rules, held=stops.held(hazards))
    after = site.with_entries([entry], now, sender.person)
    have = days if since is None else max(days, kept_wet(name, after, since))
    return Answer(lines([head, *_stands(name, days, have, since, site, now), caution]), (entry,))


def _stands(name, days, have, since, site, now):
    need = wet_for(name, site, since, now)
    said = {"stage": STAGES[name].title, "days": Amount(days, "days"), "need": need}
    yield T_("%(stage)s kept wet %(days)s of %(need)s.", **said)
    passed = None if since is None else whole_days(now - since)
    if passed is not None and days > passed + 1:
        ago = T_("It was done %(passed)s ago: count again.", passed=Amount(passed, "days"))
        yield ago if passed else T_("It was done today: count again.")
        return
    if have > days:
        yield T_("On record: %(have)s.", have=Amount(have, "days"))
    if have < need:
        yield T_("Wet it %(left)s days more, 3 times a day, shade it.", left=Number(need - have))
    else:
        yield T_("Wet curing complete by the days reported.")


KIND = Kind(
    name="curing",
    about=T_("Curing: days kept wet."),
    example=T_("base wet nn days"),
    cues=("act.cure number", "act.wet time", "act.watered time -item -container", "act.cure not", "act.cure state.no", "act.cure act.done"),
    grammar="lengths",
    fields=(Field("curing_d", ("act.cure", "act.wet", "act.watered"), 0, 28, "days"), Field("stage", (), 0, 0, "part")),
    answer=answer,
)
