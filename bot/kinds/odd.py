"""What the supervisor may look at in the log of a site, and which finished sites the lot sends him to."""

from math import ceil

from bot import draw
from bot.forms import Answer, Kind
from bot.oddness import digits, flags, readings
from bot.phrases import T_, Amount, Day, Length, Number, Series, Text, lines
from bot.stages import STAGES
from bot.standing import finished
from bot.titles import MATERIALS, TITLES
from calc import sources as s

SHOWN, SITES = 3, 12  # flags of one site, and sites, that a message of two parts has room for
ENTRIES = 3  # numbers of entries that are named
POOLED = 2  # masons whose readings at several sites are told


def answer(form, site, sender, now):
    """The flags of one site, or how many each of his sites has."""
    if form.get("site"):
        if site is None or "supervisor" not in sender.roles:
            return Answer(T_("%(site)s: not a site of yours. Nothing shown.", site=form.get("site")))
        return _of_one(site)
    sites = form.get("across", ())
    if not sites:
        return Answer(T_("Only a supervisor sees what is worth a look at his sites. Nothing shown."))
    counts = sorted((-count, each.code) for each in sites if (count := len(flags(each))))
    if not counts:
        return Answer(T_("Nothing to look at in the logs of your sites. That says nothing of the work itself."))
    told = tuple(T_("%(site)s %(count)s", site=code, count=-count) for count, code in counts[:SITES])
    more = T_("%(count)s sites more.", count=len(counts) - SITES) if len(counts) > SITES else Text()
    head = T_("To look at, by site: %(list)s.", list=Series(told))
    return Answer(lines([head, more, *_pooled(sites), T_("Send: odd, and the site.")]))


def _of_one(site):
    found = flags(site)
    if not found:
        return Answer(T_("%(site)s: nothing to look at in the log. That says nothing of the work itself.", site=site.code))
    top = T_("%(site)s, to look at:", site=site.code)
    first, then = found[:SHOWN], found[SHOWN : 2 * SHOWN]
    more = [T_("%(count)s more in the log.", count=len(found) - 2 * SHOWN)] if len(found) > 2 * SHOWN else []
    rest = lines([top, *(_told(flag) for flag in then), *more]) if then else None
    return Answer(lines([top, *(_told(flag) for flag in first)]), then=rest)


def _pooled(sites):
    """Round readings of a mason over several sites, where one site alone has too few to tell."""
    of_all = [reading for site in sites for reading in readings(site)]
    for name in list(dict.fromkeys(reading.name for reading in of_all))[: POOLED * SITES]:
        own = [reading for reading in of_all if reading.name == name]
        if len({reading.site for reading in own}) > 1:
            for flag in digits(own):
                yield T_("%(name)s at all sites: %(count)s of %(all)s readings end in 0 or 5.", name=name, **_numbers(flag, "count", "all"))


def _numbers(flag, *names):
    return {name: flag.seen[name] for name in names}


def _told(flag):
    """One flag as a sentence: what was seen, in numbers, and the entries it rests on."""
    listed = ", ".join(f"#{number}" for number in flag.entries[:ENTRIES]) + ("..." if len(flag.entries) > ENTRIES else "")
    return SENTENCES[flag.name](flag.seen, listed)


def _alike(seen, entries):
    said = {"title": TITLES[seen["field"]][0], "value": Length(seen["value_m"]), "count": seen["count"], "entries": entries}
    return T_("%(title)s %(value)s at all %(count)s points, %(entries)s.", **said)


def _as_plan(seen, entries):
    said = {"title": TITLES[seen["field"]][0], "value": Length(seen["value_m"]), "count": seen["count"], "entries": entries}
    return T_("%(title)s %(value)s at all %(count)s points, as the plan to the cm, %(entries)s.", **said)


def _digits(seen, entries):
    said = {"count": seen["count"], "all": seen["all"], "odds": seen["odds"], "entries": entries}
    return T_("%(count)s of %(all)s readings end in 0 or 5, by chance under 1 in %(odds)s: %(entries)s.", **said)


def _changed(seen, entries):
    said = {"title": TITLES[seen["field"]][0], "old": Length(_few(seen["old_m"])), "new": Length(_few(seen["new_m"]))}
    time = Amount(seen["minutes"], "min", 0)
    return T_("%(title)s %(old)s not within, %(time)s later %(new)s: %(entries)s.", time=time, entries=entries, **said)


def _few(values):
    """Up to three readings, or the smallest and the largest of them."""
    return values if len(values) <= s.ODD_POINTS else (min(values), max(values))


def _used(seen, entries):
    unit = seen["item"].rpartition("_")[2] if "_" in seen["item"] else ""
    said = {"item": MATERIALS[seen["item"]], "used": Amount(seen["used"], unit, 0), "need": Amount(seen["need"], unit, 0)}
    return T_("%(item)s used: %(used)s, the finished stages take %(need)s: %(entries)s.", entries=entries, **said)


def _early(seen, entries):
    said = {"stage": STAGES[seen["stage"]].title, "before": STAGES[seen["before"]].title, "entries": entries}
    return T_("%(stage)s read, and nothing of the %(before)s in the log yet: %(entries)s.", **said)


def _in_wait(seen, entries):
    said = {"stage": STAGES[seen["stage"]].title, "day": Day(seen["until"]), "entries": entries}
    return T_("%(stage)s read before its wait was over on %(day)s: %(entries)s.", **said)


def _quick(seen, entries):
    said = {"stage": STAGES[seen["stage"]].title, "before": STAGES[seen["before"]].title, "entries": entries}
    said |= {"taken": Amount(seen["hours"], "h", 0), "work": Amount(seen["work_d"], "days")}
    return T_("%(stage)s done %(taken)s after the %(before)s, the crew takes %(work)s: %(entries)s.", **said)


def _wet(seen, entries):
    said = {"stage": STAGES[seen["stage"]].title, "told": Number(seen["told_d"]), "most": Number(seen["most_d"]), "entries": entries}
    return T_("%(stage)s: %(told)s wet days told, %(most)s have been since it was done: %(entries)s.", **said)


def _back(seen, entries):
    said = {"stage": STAGES[seen["stage"]].title, "days": Amount(seen["ago_d"], "days"), "entries": entries}
    return T_("%(stage)s told as done %(days)s ago, but read after that day: %(entries)s.", **said)


def _night(seen, entries):
    said = {"count": seen["count"], "from": int(s.NIGHT_H[0]), "to": int(s.NIGHT_H[1]), "entries": entries}
    return T_("Readings sent at night, %(from)s:00 to %(to)s:00: %(count)s, %(entries)s.", **said)


SENTENCES = {
    "same": _alike, "as_plan": _as_plan, "digits": _digits, "changed": _changed, "used": _used, "early": _early, "in_wait": _in_wait,
    "quick": _quick, "wet": _wet, "back": _back, "night": _night,
}  # fmt: skip


def audit(form, site, sender, now):
    """The finished sites that are visited this month, drawn by lot: more likely where there is more to look at."""
    sites = form.get("across", ())
    if not sites:
        return Answer(T_("Only a supervisor draws the sites to visit. Nothing drawn."))
    if sites[0].rules.draw_seed is None:
        return Answer(T_("No draw_seed in the programme file: your office sets it first. Nothing drawn."))
    seed, rows, of = drawn(sites, now)
    if not rows:
        return Answer(T_("No finished site to visit that was not drawn before."))
    told = tuple(T_("%(site)s (%(count)s)", site=code, count=count) for code, count in rows[:SITES])
    said = {"count": len(rows), "of": of, "list": Series(told), "seed": seed}
    text = T_("Visit %(list)s: %(count)s of %(of)s finished sites, drawn by lot, seed %(seed)s. In brackets: things to look at.", **said)
    new = new_rows(sites, seed, rows, of)
    return Answer(text, changes=(("audit", new),) if new else ())


def drawn(sites, now):
    """Return (seed, ((code, flags), ...), of how many finished sites): who was drawn this month stays, more come as sites finish."""
    rules = sites[0].rules
    seed = draw.of_month(rules.draw_seed, now)
    pool = [site for site in sites if finished("handover", site) and not _before(site, seed)]
    share = float(s.AUDIT_SHARE) if rules.audit_share is None else rules.audit_share
    told = {site.code: entry.fields["flags"] for site in pool for entry in site.log if entry.kind == "audit"}
    counts = {site.code: len(flags(site)) for site in pool if site.code not in told}
    names = draw.sample(seed, {code: 1 + count for code, count in counts.items()}, max(ceil(share * len(pool)) - len(told), 0))
    return seed, (*told.items(), *((code, counts[code]) for code in names)), len(pool)


def new_rows(sites, seed, rows, of):
    """(code, fields of the entry) of the sites that this seed draws and no entry tells of yet."""
    return tuple((code, {"seed": seed, "of": of, "flags": count}) for code, count in rows if not _drawn(sites, code, seed))


def _before(site, seed):
    """True for a site that was drawn in another month."""
    return any(entry.kind == "audit" and entry.fields["seed"] != seed for entry in site.log)


def _drawn(sites, code, seed):
    return any(entry.kind == "audit" and entry.fields["seed"] == seed for site in sites if site.code == code for entry in site.log)


ODD = Kind(
    name="odd",
    about=T_("Odd: what the supervisor may look at, of all his sites or of one."),
    example=T_("odd SITE"),
    cues=("act.odd -number",),
    roles=("supervisor",),
    answer=answer,
    needs_site=False,
    private=True,
    across="sites",
)
AUDIT = Kind(
    name="audit",
    about=T_("Audit: which finished sites the supervisor visits, drawn by lot."),
    example=T_("audit"),
    cues=("act.audit -number",),
    roles=("supervisor",),
    answer=audit,
    needs_site=False,
    private=True,
    across="sites",
)
