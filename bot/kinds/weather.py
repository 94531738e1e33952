"""Heat and thunder at a site: when to stop, when to rest."""

from bot import foreman, stops
from bot.forms import Answer, Entry, Field, Kind
from bot.phrases import T_, Amount, Series, lines
from bot.titles import WORK

TITLES = {"wbgt_c": T_("WBGT"), "air_c": T_("air"), "heat_index_c": T_("heat index")}


def answer(form, site, sender, now):
    told = {name: form.get(name) for name in ("wbgt_c", "air_c", "heat_index_c", "work", "acclimatised_d", "thunder_min")}
    told = {name: value for name, value in told.items() if value is not None}
    hazards = tuple(hazard for hazard in stops.at(site, form, now, **told) if hazard.rule[0] == "V")
    first, rules = stops.opening(hazards, site)
    head = foreman.head(site, T_("weather"), site.next_number, now if first else None)
    said = lines([head, _said(form)])
    alerts = foreman.alert_stop(site, hazards, said, now, sender)
    caution = None
    if not first:
        caution, rules = stops.reminder(hazards, site, now, "V")
    entry = Entry("weather", form.fields, None, rules, held=stops.held(hazards))
    return Answer(lines([first, said, *([caution] if caution else [])]), (entry,), alerts, stops.hint(hazards) if first else None)


def _said(form):
    parts = [
        T_("%(title)s %(value)s", title=title, value=Amount(form.get(name), "C"))
        for name, title in TITLES.items()
        if form.get(name) is not None
    ]
    if form.get("thunder_min") is not None:
        parts.append(T_("thunder %(ago)s ago", ago=Amount(form.get("thunder_min"), "min", 0)))
    if form.get("work"):
        parts.append(T_("work %(work)s", work=WORK[form.get("work")]))
    if form.get("acclimatised_d") is not None:
        parts.append(T_("day %(day)s in this heat", day=int(form.get("acclimatised_d"))))
    return T_("%(list)s.", list=Series(tuple(parts)))


KIND = Kind(
    name="weather",
    about=T_("Weather: thunder and minutes ago, WBGT, kind of work, day in the heat."),
    example=T_("thunder"),
    cues=("act.thunder", "act.wbgt number", "act.heat_index number"),
    grammar="weather",
    fields=(
        Field("thunder_min", (), 0, 1440, "amount"),
        Field("wbgt_c", (), 5, 45, "amount"),
        Field("heat_index_c", (), 10, 70, "amount"),
        Field("acclimatised_d", (), 0, 400, "amount"),
    ),
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
