"""The course of the works: when it is finished, what to do, bring and wet today, the crew, days without work, the labour."""

from bot import foreman, stops
from bot.days import DAY, date_at, kept_wet
from bot.forms import Answer, Entry, Field, Kind
from bot.phrases import T_, Amount, Day, Number, Series, Text, lines
from bot.stages import STAGES
from bot.standing import done_at, open_stages, standing, wet_for
from bot.stock import on_site
from bot.timeline import timeline
from bot.titles import MATERIALS
from calc.bill import bill, in_packs, needed, to_buy, unit_of
from calc.errors import CalcError, OutOfRange
from calc.labour import labour
from calc.works import critical_path

DAYS_A_WEEK = 7
LONGEST = 3  # pieces of the critical path that are told


def finish(form, site, sender, now):
    lacking = refused(site, now)
    return Answer(lacking) if lacking else Answer(lines([foreman.head(site, T_("works")), *_finish(timeline(site, now), site)]))


def refused(site, now):
    """What is missing for a timeline, as a Text, or None."""
    if site.design is None:
        return foreman.no_plan(site)
    try:
        timeline(site, now)
    except CalcError as fault:
        if isinstance(fault, OutOfRange) and fault.name == "wait_d":
            return T_("%(site)s: no finish date. Too cold there for concrete to harden. Ask your supervisor.", site=site.code)
        return T_("%(site)s: how many work there? Send: crew n mason n labour.", site=site.code)
    return None


def _finish(line, site):
    masons, labourers = line.crew
    left = list(line.left())
    if not left:
        yield T_("all stages are done.")
        return
    said = {
        "day": Day(line.finish),
        "days": Amount((date_at(line.finish, site) - date_at(line.now, site)) / DAY, "days", 0),
        "masons": masons,
        "labourers": labourers,
    }
    if site.rules.working_days_per_week < DAYS_A_WEEK:
        yield T_("Finish about %(day)s or the working day after, %(days)s from now, with masons %(masons)s, labour %(labourers)s.", **said)
    else:
        yield T_("Finish about %(day)s, %(days)s from now, with masons %(masons)s, labour %(labourers)s.", **said)
    path = [(name, line.slots[name]) for name in critical_path(dict(left))]
    longest = sorted(path, key=lambda piece: piece[1].start_d - piece[1].finish_d - piece[1].waiting_d)[:LONGEST]
    told = [_piece(*piece) for piece in path if piece in longest]
    yield T_("Longest: %(list)s.", list=Series(tuple(told)))
    if not line.gas_counted:
        yield T_("The wait for gas is not in it: no figure.")


def end(site, now):
    """When the works are finished, in one sentence."""
    return list(_finish(timeline(site, now), site))[:1]


def _piece(name, slot):
    said = {"stage": STAGES[name].title, "days": Amount(slot.finish_d - slot.start_d, "days")}
    if slot.waiting_d:
        wait = {"wait": Amount(slot.waiting_d, "days"), "before": STAGES[slot.held_by].title}
        return T_("%(stage)s %(days)s after %(wait)s on the %(before)s", **said, **wait)
    return T_("%(stage)s %(days)s", **said)


def todo(form, site, sender, now):
    head = foreman.head(site, T_("today"))
    open_now = open_stages(site)
    if not open_now:
        return Answer(lines([head, T_("all stages are done."), _wet(site, now)]))
    grave = stops.standing(site, now)
    if grave:
        first, rules = stops.opening(grave, site)
        return Answer(lines([first, head, T_("no work in the pit before that.")]), then=_wet(site, now))
    stands = {stage.name: standing(stage, site, now) for stage in open_now}
    ready = [each for each in open_now if not (stands[each.name].until or stands[each.name].held or stands[each.name].dry)]
    orders = [stage.order + foreman.plan_line(stage, site) for stage in ready[:2]] or [foreman.next_step(site, now)]
    return Answer(lines([head, *orders]), then=lines([_bring(ready[:2], site), _wet(site, now)]))


def _bring(stages, site):
    """What these stages take and the site does not have by its log."""
    if site.design is None:
        return Text()
    wanted = to_buy(needed(bill(site.design), stages=[stage.name for stage in stages]), on_site(site)) if stages else {}
    told = [_amount(item, quantity, site) for item, quantity in wanted.items() if quantity > 1e-9]
    return T_("Bring: %(list)s.", list=Series(tuple(told))) if told else Text()


def _amount(item, quantity, site):
    if item == "cement_kg" and site.rules.bag_kg:
        return T_("cement %(bags)s", bags=Amount(quantity / site.rules.bag_kg, "bags"))
    unit = unit_of(item).replace("piece", "")
    return T_("%(item)s %(amount)s", item=MATERIALS[item], amount=Amount(quantity, unit, 1) if unit else Number(quantity, 0))


def _wet(site, now):
    """What is still in its wet days, and until when."""
    told = []
    for name, stage in STAGES.items():
        since = done_at(name, site)
        days = None if since is None else wet_for(name, site, since)
        if days is not None and now - since < days * DAY:
            said = {"stage": stage.title, "day": Day(since + days * DAY), "have": kept_wet(name, site, since), "need": days}
            told.append(T_("%(stage)s until %(day)s (%(have)s of %(need)s)", **said))
    return T_("Wet 3 times, shade: %(list)s.", list=Series(tuple(told))) if told else Text()


def crew(form, site, sender, now):
    head = foreman.head(site, T_("crew"), site.next_number)
    entry = Entry("crew", {"masons": form.get("masons"), "labourers": form.get("labourers")})
    after = site.with_entries([entry], now, sender.person)
    said = T_("masons %(masons)s, labour %(labourers)s.", masons=form.get("masons"), labourers=form.get("labourers"))
    told = () if refused(after, now) else end(after, now)
    return Answer(lines([head, said, *told]), (entry,))


def idle(form, site, sender, now):
    """Days without work: those to come move the rest, those lost are kept for the record."""
    head = foreman.head(site, T_("works"), site.next_number)
    entry = Entry("idle", {"idle_d": form.get("idle_d")}) if form.get("to_come") == "yes" else Entry("lost", {"lost_d": form.get("idle_d")})
    said = T_("%(days)s without work, noted.", days=Amount(form.get("idle_d"), "days"))
    after = site.with_entries([entry], now, sender.person)
    told = () if refused(after, now) else end(after, now)
    return Answer(lines([head, said, *told]), (entry,))


def hands(form, site, sender, now):
    if site.design is None:
        return Answer(refused(site, now))
    work = labour(site.design)
    masons, labourers = (sum(each[side] for each in work.values()) for side in (0, 1))
    most = sorted(work.items(), key=lambda pair: -sum(pair[1]))[:4]
    listed = [_hands(name, *each) for name, each in most]
    said = {"masons": in_packs(masons, 1), "labourers": in_packs(labourers, 1), "list": Series(tuple(listed))}
    text = T_("about %(masons)s mason days + %(labourers)s labour days. Most: %(list)s. Without carrying and waiting.", **said)
    return Answer(lines([foreman.head(site, T_("labour")), text]))


def _hands(name, mason, labour_d):
    return T_("%(stage)s %(mason)s + %(labour)s", stage=STAGES[name].title, mason=in_packs(mason, 1), labour=in_packs(labour_d, 1))


ROLES = ("mason", "supervisor", "farmer")
FINISH = Kind(
    name="finish",
    about=T_("Finish: when the works end, and what takes longest."),
    example=T_("when finish"),
    cues=(
        "act.when_finish -number",
        "act.done question -part -number -item -not -unsure -subject -state -asks -act.site -act.used -danger",
    ),
    roles=ROLES,
    answer=finish,
)
TODAY = Kind(
    name="today",
    about=T_("Today: what to do, bring and wet."),
    example=T_("today"),
    cues=("act.todo -number -act.done", "day.today -number -part -act -item -not -unsure -danger -state -animal -soil"),
    roles=ROLES,
    answer=todo,
)
CREW = Kind(
    name="crew",
    about=T_("Crew: how many masons and labourers work there."),
    example=T_("crew n mason n labour"),
    cues=("act.crew number", "crew number -act.join -act.admit -danger -act -part -item -asks -lookalike.in"),
    grammar="crew",
    fields=(Field("masons", (), 0, 10, "amount"), Field("labourers", (), 0, 30, "amount")),
    needs=(("masons", "crew_unclear"), ("labourers", "crew_unclear")),
    answer=crew,
)
IDLE = Kind(
    name="idle",
    about=T_("Days lost, or days without work to come."),
    example=T_("n days lost"),
    cues=("act.lost time", "act.no_work time"),
    grammar="idle",
    fields=(Field("idle_d", (), 0, 60, "amount"),),
    needs=(("idle_d", "how_many_days"),),
    answer=idle,
)
LABOUR = Kind(
    name="labour",
    about=T_("Labour: mason days and labour days of the plant."),
    example=T_("labour days"),
    cues=("act.labour_days",),
    roles=ROLES,
    answer=hands,
)
