"""Cement that is old or lumpy, and a mixing that stood: what may still be used."""

from calendar import monthrange
from datetime import date, timedelta
from math import floor

from bot import foreman
from bot.days import DAY, date_at, own_c
from bot.forms import Alert, Answer, Ask, Entry, Field, Kind
from bot.phrases import T_, Amount, Clock, Number, Text, lines
from calc import sources as s
from calc.cement import MIXINGS, cement_retention, cement_usable, use_within_min
from calc.units import from_si, si

AGES = ("age_d", "age_months", "age_years")
MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
NAMES = {"concrete": T_("concrete"), "mortar": T_("mortar"), "tight": T_("mortar of tight coats"), None: T_("mix")}


def stood(form, site, sender, now):
    """A mixing, by the minutes since water met cement; which one it was matters only between the limits."""
    age_min = sum(from_si(si(form.get(f"mixed_{unit}", 0.0), unit), "min") for unit in ("d", "h", "min"))
    mixing, hot = form.get("mixing"), _hot(site, now)
    limits = [use_within_min(name, hot is not False) for name in ([mixing] if mixing else MIXINGS)]
    head = foreman.head(site, T_("mix age"))
    said = {"what": NAMES[mixing], "age": Amount(age_min, "min", 0)}
    if age_min >= max(limits):
        limit = Amount(max(limits), "min", 0)
        text = T_("%(what)s %(age)s old, limit %(limit)s: throw it away. No water on it, water does not mend it.", limit=limit, **said)
    elif age_min >= min(limits):
        said |= {"least": Amount(min(limits), "min", 0), "most": Amount(max(limits), "min", 0)}
        text = T_("%(age)s old, limit %(least)s to %(most)s: concrete, mortar of walls, or plaster? Send which.", **said)
        return Answer(lines([head, text]), question=Ask("age", "which_mixing", {}))
    else:
        left = min(limits) - age_min
        until = Clock(now + timedelta(minutes=left), now)
        text = T_(
            "%(what)s %(age)s old: use it within %(left)s, by %(time)s. Add no water.", left=Amount(left, "min", 0), time=until, **said
        )
    return Answer(lines([head, text, _heat(hot)]))


def _hot(site, now):
    """True where the day is hot by the programme or by its own readings, False where they say it is not, else None."""
    _, most, other = own_c(site).get(date_at(now, site), ((), (), ()))
    if site.rules.hot_dry:
        return True
    if any(read >= s.HOT_MIX_C for read in (*most, *other)):
        return True
    return False if most else None  # a cool hour says nothing of noon


def _heat(hot):
    if hot is None:
        return T_("Reckoned for 30 C; cooler: send temp nn.")
    return T_("It is hot: less time.") if hot else Text()


def old(form, site, sender, now):
    """Cement by its age and its lumps."""
    lumps = form.get("lumps") == "yes"
    months = _months(form, date_at(now, site))
    if months is None and not lumps:
        return Answer(T_("No such date, or it is yet to come. Nothing saved. Read the bag again, send: cement dated, day, month, year."))
    head = foreman.head(site, T_("cement"), site.next_number)
    fields = {"lumps": form.get("lumps")} if "lumps" in form.fields else {}
    fields |= {} if months is None else {"age_months": round(months, 2)}
    tight, plain = (cement_usable(months or 0.0, part, lumps) for part in (True, False))
    verdict = "within" if tight else "outside"
    text = lines([head, *_told(months, lumps, tight, plain)])
    alerts = () if tight else (Alert("supervisor", text),)
    return Answer(text, (Entry("cement", fields, verdict),), alerts)


def _told(months, lumps, tight, plain):
    if months is not None:
        yield T_("age in months %(months)s.", months=Number(floor(10 * months + 1e-9) / 10, 1))  # never up across a limit
    if lumps:
        yield T_("Crush a lump between two fingers: if it does not crush, outside, throw the bag out. Sieving does not mend it.")
    elif tight:
        yield T_("Within: under 3 months. Oldest bag first, dry, off the floor. Lumps: throw it out.")
    elif plain:
        yield T_(
            "Outside for base, wall, dome, plaster, outlet, covers: 3 months or more. Keeps %(share)s %% at best; more does not help.",
            share=Number(100 * cement_retention(months), 0),
        )
    else:
        yield T_("Outside: 6 months or more, for nothing. More of it does not help.")


def _months(form, today):
    """The age in calendar months, by the earliest day the date may mean; None where there is none, or it is yet to come."""
    told = {name: form.get(name) for name in AGES if form.get(name) is not None}
    if told:
        old = told.get("age_months", 0.0) + 12 * told.get("age_years", 0.0)
        return old + _calendar_months(today - told.get("age_d", 0.0) * DAY, today)
    if form.get("month") is None:
        return None
    years = [form.get("year")] if form.get("year") else [today.year, today.year - 1]
    for year in years:
        try:
            made = date(year, MONTHS.index(form.get("month")) + 1, form.get("day_of_month", 1))
        except ValueError:
            return None
        if made <= today:
            return _calendar_months(made, today)
    return None


def _calendar_months(made, today):
    """The months between two dates: whole ones, and the days over as a share of the month they are in."""
    whole = 12 * (today.year - made.year) + today.month - made.month - (today.day < made.day)
    year, month = divmod(12 * made.year + made.month - 1 + whole, 12)
    days = monthrange(year, month + 1)[1]
    since = date(year, month + 1, min(made.day, days))
    return whole + (today - since).days / days


AGE = Kind(
    name="age",
    about=T_("Mix age: may a mixing that stood still be used."),
    example=T_("mortar mixed nn min ago"),
    cues=tuple(
        f"{sign} -container -mass -volume -ratio -length -act.arrived"
        for sign in ("act.mixed -act.done -not", "act.add_water", "act.mix time act.ago", "act.mix time act.left", "act.mix time question",
                     "act.mix time act.used", "material time act.ago", "material time act.old", "material time act.after",
                     "material time question")
    ),
    grammar="age",
    answer=stood,
)  # fmt: skip
OLD = Kind(
    name="cement",
    about=T_("Cement: its age, the date on the bag, lumps."),
    example=T_("cement nn months old"),
    cues=tuple(
        f"{sign} -act.arrived -act.buy -act.need -act.how_many -act.mix -act.mixed -container -mass"
        for sign in ("item.cement act.old", "item.cement month", "item.cement act.dated", "item.cement act.lumps", "unit.bag act.dated",
                     "unit.bag month", "unit.bag act.lumps", "unit.bag act.old",
                     "item.cement act.wet -day -act.used -part -act.cure -material", "item.cement act.flooded -part",
                     "item.cement time -unsure -part -act.left -act.lost -act.no_work -act.cure -act.wet -act.done -act.ago")
    )
    + tuple(
        f"act.wet {thing} -act.used -act.arrived -act.mix -act.mixed -act.cure -act.watered -part -day -material"
        for thing in ("container -item", "container item.cement", "unit.bag")
    ),
    grammar="cement",
    fields=(Field("age_d", (), 0, 3700, "amount"), Field("age_months", (), 0, 120, "amount"), Field("age_years", (), 0, 10, "amount")),
    answer=old,
)  # fmt: skip
