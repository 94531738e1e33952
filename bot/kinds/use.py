"""When a family cooks, against what its plant makes and stores: gas missing, gas lost, the pressure left at the stove."""

from bot import foreman
from bot.forms import Answer, Entry, Kind
from bot.kinds.pipe import burning, water
from bot.phrases import T_, Amount, Between, Series, Text, lines
from calc import sources as s
from calc.gas_use import Session, large_enough, store_needed_m3, week
from calc.units import from_si, si

DAYS = 7
LITTLE_M3 = 0.05  # a day: what is not told


def answer(form, site, sender, now):
    made = site.design
    if made is None or made.gas_m3_per_day is None:
        return Answer(T_("%(site)s: no gas figure in the plan. Send: size, animals, people; your supervisor fixes it.", site=site.code))
    head = foreman.head(site, T_("gas use"), site.next_number)
    return Answer(lines([head, *told(form, site)]), (Entry("use", form.fields),))


def told(form, site):
    """What a day's cooking does to the gas of a site, as Texts."""
    made = site.design
    pipe = _pipe(site)
    days = [sessions(form, rate) for rate in s.STOVE_GAS_M3_H]
    small, big = (week(made, each, pipe=pipe, days=DAYS) for each in days)
    asked = Between(small.asked_m3 / DAYS, big.asked_m3 / DAYS, "m3")
    said = {"times": _times(form), "asked": asked, "made": Amount(made.gas_m3_per_day, "m3")}
    takes = T_("%(times)s: takes %(asked)s a day, plan gives %(made)s.", **said)
    return [takes, _short(small, big), _store(made, days), _lost(small, big), _pressure(site, (small, big), pipe)]


def _pipe(site):
    """(length [m], size) of the gas pipe last reckoned for the site, or None."""
    last = site.last("pipe")
    return (last.fields["pipe_length_m"], last.fields["pipe_size"]) if last else None


def sessions(form, stove_m3_h):
    """The Sessions of a form, or of the fields of its entry, with stoves that burn so much [m3/h]."""
    told = zip(form.get("start_h"), form.get("hours_h"), _counts(form), strict=True)
    return [Session(start, hours, stoves * stove_m3_h + lamps * s.LAMP_GAS_M3_H) for start, hours, (stoves, lamps) in told]


def _counts(form):
    """(stoves, lamps) at each time; one stove where nothing is said."""
    times = len(form.get("start_h"))
    stoves = form.get("stoves", (0 if form.get("lamps") else 1,) * times)
    return list(zip(stoves, form.get("lamps", (0,) * times), strict=True))


def _times(form):
    """ "6-8, 12-13, 18-20, stoves 2", or what burns behind each time where it differs."""
    spans = [f"{_clock(start)}-{_clock(start + hours)}" for start, hours in zip(form.get("start_h"), form.get("hours_h"), strict=True)]
    counts = _counts(form)
    if len(set(counts)) == 1:
        return Series((*spans, burning(*counts[0])))
    return Series(tuple(T_("%(span)s %(burning)s", span=span, burning=burning(*each)) for span, each in zip(spans, counts, strict=True)))


def _clock(hour_h):
    hour, minute = divmod(round(from_si(si(hour_h, "h"), "min")), 60)
    return f"{hour % 24}:{minute:02d}" if minute else f"{hour % 24}"


def _short(small, big):
    low, high = small.short_m3 / DAYS, big.short_m3 / DAYS
    if high < LITTLE_M3:
        return T_("Enough gas.")
    if low < LITTLE_M3:
        return T_("Enough with small flames, big ones %(short)s short.", short=Amount(high, "m3"))
    return T_("Short of %(short)s a day: cook less or keep the old stove.", short=Between(low, high, "m3"))


def _store(made, days):
    store_m3, gas_m3 = made.levels.store_m3, made.gas_m3_per_day
    said = {"store": Amount(store_m3, "m3", 2), "needed": Amount(max(store_needed_m3(day, gas_m3) for day in days), "m3", 2)}
    if all(large_enough(store_m3, day, gas_m3) for day in days):
        return T_("Store %(store)s is large enough.", **said)
    return T_("Store %(store)s is too small, needs %(needed)s: cook in shorter turns.", **said)


def _lost(small, big):
    low, high = big.lost_m3 / DAYS, small.lost_m3 / DAYS
    return Text() if high < LITTLE_M3 else T_("Lost unburnt %(lost)s a day.", lost=Between(low, high, "m3"))


def _pressure(site, runs, pipe):
    """The lowest pressure while gas is there, where somebody stands for the plan."""
    held = [each.stove_pa for each in runs if each.short_m3 / DAYS < LITTLE_M3]
    if not held or not site.plan_released_by:
        return Text()
    lowest_pa = min(held)
    if lowest_pa <= 0:
        return T_("At the end no pressure is left at the stove.")
    said = {"head": water(lowest_pa)}
    told = T_("Lowest at the stove %(head)s.", **said) if pipe else T_("Lowest %(head)s, pipe not counted.", **said)
    return told + T_("Weak flame.") if lowest_pa < s.STOVE_PRESSURE_PA else told


KIND = Kind(
    name="use",
    about=T_("Cooking: the hours and the stoves; is gas and store enough, what is lost."),
    example=T_("cook nn to nn, nn to nn, n stoves"),
    cues=("act.cook number",),
    grammar="use",
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
