"""What a day at the site was like: its temperatures, and what was kept wet on it."""

from datetime import date

from bot import foreman, stops
from bot.days import DAY, date_at, kept_wet, mean_c
from bot.forms import Answer, Ask, Entry, Field, Form, Kind
from bot.phrases import T_, Amount, Day, Number, Series, Text, lines
from bot.stages import STAGES
from bot.standing import HARDENS, done_at, hardening, open_stages, standing, wet_for
from calc import sources as s
from calc.maturity import day_credit

ROLES = ("mason", "supervisor", "farmer")  # who wets it may say so
TITLES = {"least_temp_c": T_("night"), "most_temp_c": T_("day"), "temp_c": T_("read")}


def _when(form, site, now):
    """The moment a message is about: now, the same hour of the day before, or of the day of the entry that is corrected."""
    if form.get("date"):
        return now - (date_at(now, site) - date.fromisoformat(form.get("date")))
    return now - DAY if form.get("day") == "yesterday" else now


def temp(form, site, sender, now):
    at = _when(form, site, now)
    read = {name: form.get(name) for name in TITLES if form.get(name) is not None}
    hazards = stops.at(site, form, now)
    caution, rules = stops.reminder(hazards, site, now, "D")
    entry = Entry("temp", {**read, "date": date_at(at, site).isoformat()}, None, rules, held=stops.held(hazards))
    after = site.with_entries([entry], now, sender.person)
    mean = mean_c(date_at(at, site), after)
    credit = day_credit(mean)
    told = Series(tuple(T_("%(title)s %(value)s", title=TITLES[name], value=Amount(value, "C")) for name, value in read.items()))
    texts = [
        foreman.head(site, T_("temp"), site.next_number),
        T_("%(day)s: %(list)s.", day=Day(at), list=told),
        T_("Mean %(mean)s counts %(credit)s of a day of hardening.", mean=Amount(mean, "C"), credit=Number(credit, 2)),
        _more(read, credit, site, after, now),
    ]
    return Answer(lines(texts), (entry,), then=caution)


def _more(read, credit, site, after, now):
    """What to do about a cold day, and what it does to the next stage."""
    if credit == 1:
        return Text()
    texts = []
    if "least_temp_c" in read and "most_temp_c" not in read:
        texts.append(T_("By the night alone: send night nn day nn."))
    if min(read.values()) < s.NO_CREDIT_BELOW_C:
        texts.append(T_("Below 5 C cast nothing, cover what is fresh."))
    for stage in open_stages(after):
        stands = standing(stage, after, now)
        if stands.until is not None:
            texts.append(T_("The %(stage)s not before %(day)s.", stage=stage.title, day=Day(stands.until)) + foreman.colder(stands))
            break
    return lines(texts)


def wet(form, site, sender, now):
    at, names = _when(form, site, now), tuple(hardening(site, now))
    if form.get("stage"):
        names = (form.get("stage"),)
    elif len(names) > 1 and not form.get("all"):
        return _of_which(form, names)
    fields = {"wet": "yes", "date": date_at(at, site).isoformat()}
    fields |= {"times": form.get("times")} if form.get("times") is not None else {}
    entries = tuple(Entry("wet", fields | {"stage": name}) for name in names) or (Entry("wet", fields),)
    after = site.with_entries(entries, now, sender.person)
    told = [_of(name, after) for name in names if name in HARDENS and done_at(name, after)]
    texts = [foreman.head(site, T_("wet"), site.next_number), T_("%(day)s noted.", day=Day(at))]
    if told:
        texts.append(T_("Wet days on record: %(list)s. A day counts once.", list=Series(tuple(told))))
    else:
        texts.append(T_("Nothing that hardens is on record as done: send, as base done."))
    few = form.get("times") is not None and form.get("times") < s.WETTINGS_A_DAY
    return Answer(lines([*texts, T_("Wet it 3 times a day, shade it.") if few else Text()]), entries)


def _of_which(form, names):
    """The question which of the stages that harden was kept wet, or all of them."""
    titles = (*(STAGES[name].title for name in names), T_("all of them"))
    listed = Series(tuple(T_("%(n)s) %(what)s", n=n, what=title) for n, title in enumerate(titles, 1)))
    options = (*({"stage": name} for name in names), {"all": "yes"})
    forms = tuple(Form("wet", form.fields | option) for option in options)
    text = T_("Kept wet: %(list)s? Nothing saved. Send one number, or the part.", list=listed)
    return Answer(text, question=Ask("wet", "which_wet", {}, forms))


def _of(stage, site):
    since = done_at(stage, site)
    said = {"have": kept_wet(stage, site, since), "need": wet_for(stage, site, since)}
    return T_("%(stage)s %(have)s of %(need)s", stage=STAGES[stage].title, **said)


TEMP = Kind(
    name="temp",
    about=T_("Temperature: night and day, for what hardens."),
    example=T_("night nn day nn"),
    cues=tuple(
        f"{sign} -length -pressure -part -animal -item -leg -act.gauge -act.barometer -act.strip -act.wbgt -act.heat_index -act.size "
        "-act.sealed -act.open_seal -act.cook -act.cast -act.mix"
        for sign in ("act.temp C", "act.temp bare", "act.night C", "act.night time bare", "act.night bare -time",
                     "act.least bare", "act.least C",
                     "act.most bare", "act.most C")
    ),
    grammar="temp",
    roles=ROLES,
    fields=tuple(Field(name, (), -40, 50, "amount") for name in TITLES),
    answer=temp,
)  # fmt: skip
WET = Kind(
    name="wet",
    about=T_("Wet: a day something was kept wet."),
    example=T_("dome wet today"),
    cues=tuple(
        f"dryness {part} -number -act -item -danger -not -state -unsure -near"
        for part in ("part.base", "part.wall", "part.dome", "part.plaster")
    )
    + tuple(
        f"{sign} -time -length -container -mass -volume -item -act.strip -asked"
        for sign in ("act.watered -bare", "act.cure act.times", "act.wet act.times", "act.watered act.times", "act.wet day -bare",
                     "act.cure day -bare")
    ),
    grammar="wet",
    roles=ROLES,
    fields=(Field("times", (), 1, 12, "amount"),),
    answer=wet,
)  # fmt: skip
