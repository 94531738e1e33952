"""The record of a site as a PDF and as a table: who, plan, stages, readings, releases, photos, cautions, edition of the figures."""

import csv
import json
import re
from datetime import datetime
from functools import partial
from itertools import zip_longest
from zoneinfo import ZoneInfo

from bot import stops
from bot.cautions import CAUTIONS
from bot.drawing import section
from bot.pages import Pages
from bot.phrases import T_, Amount, Head, Number, Size, Text, Volume, plain, show, word
from bot.stages import HOLD, STAGES
from bot.standing import applies, current, done_at, finished, standing
from bot.titles import TITLES, VERDICTS, entry_title, spoken
from calc.sources import EDITION

ROLES = (("supervisor", T_("Supervisor")), ("mason", T_("Mason")), ("farmer", T_("Farmer")))
NO_VALUES = {"answers", "rush", "plan", "photo", "channel", "stage", "entry", "until", "corrected", "looked_at", "at_stage"}
PRINTED = {  # how a value is printed, by the end of its name
    "m": Size, "m3": Volume, "pa": Head,
    "kg": partial(Amount, unit="kg"), "l": partial(Amount, unit="l"), "h": partial(Amount, unit="h"), "c": partial(Amount, unit="C"),
    "d": partial(Amount, unit="days"),
}  # fmt: skip


def moment(at, reader):
    """A moment with its year, in the site's time."""
    return at.astimezone(ZoneInfo(reader.zone)).strftime("%Y-%m-%d %H:%M")


def values(entry, reader):
    """What an entry says, as it is printed: "Deep 1.83 m; ladder yes"."""
    return "; ".join(_value(name, value, reader) for name, value in entry.fields.items() if name not in NO_VALUES and value is not None)


def _value(name, value, reader):
    title = word(TITLES[name][0], reader) if name in TITLES else spoken(name)
    each = value if isinstance(value, list | tuple) else [value]
    return f"{title} {', '.join(_one(name, one, reader) for one in each)}"


def _one(name, value, reader):
    if isinstance(value, bool) or not isinstance(value, int | float):
        return str(value)
    return show(PRINTED.get(name.rpartition("_")[2], lambda given: Number(given, 2))(value), reader)


# ---- the document


def document(path, site, team, reader, now):
    """Write the record of a site as a PDF; `team` are (role, name) of its people."""
    title = word(T_("%(site)s: record of the plant", site=site.code), reader)
    pages = Pages(path, "record", title, f"{title}, {moment(now, reader)}")
    pages.title(title)
    _who(pages, site, team, reader, now)
    _plan(pages, site, reader)
    _stages(pages, site, reader, now)
    _readings(pages, site, reader)
    _releases(pages, site, reader)
    _photos(pages, site, reader)
    _cautions(pages, site, reader)
    pages.heading(word(T_("Figures"), reader))
    pages.text(word(T_("Edition of the figures: %(edition)s.", edition=EDITION), reader))
    pages.text(word(T_("The bot sees nothing: this record holds what people sent. It lets nobody in and replaces no engineer."), reader))
    pages.save()


def _who(pages, site, team, reader, now):
    pages.text(site.name)
    pages.text(site.rules.programme)
    stage = current(site)
    at = T_("At: %(stage)s.", stage=stage.title) if stage else T_("All stages are done.")
    pages.text(word(at, reader) + " " + moment(now, reader))
    for role, title in ROLES:
        names = ", ".join(name for held, name in team if held == role)
        pages.row((0.25, 0.75), (word(title, reader), names or "-"))


def _plan(pages, site, reader):
    pages.heading(word(T_("Plan"), reader))
    if site.design is None:
        pages.text(word(T_("No plan yet."), reader))
        return
    by = T_("Released by %(name)s.", name=site.plan_released_by) if site.plan_released_by else T_("Nobody stands for this plan.")
    pages.text(word(by, reader))
    made = site.design
    said = {"inside": Volume(made.vessel.inside_m3), "store": Volume(made.levels.store_m3)}
    pages.text(word(T_("Inside %(inside)s, gas store %(store)s.", **said), reader))
    if site.plan_released_by:
        pages.text(word(T_("Gas never above %(head)s.", head=Head(made.levels.greatest_pressure_pa)), reader))
    pages.picture(section.sketch(site, reader).image, 0.72 * pages.wide)
    sizes, levels = (section.told(listed, reader) for listed in section.rows(made))
    pages.row((0.5, 0.5), (word(T_("Dimensions"), reader), word(T_("Levels from the ground, - is under it:"), reader)), bold=True)
    for left, right in zip_longest(sizes, levels, fillvalue=("", "", "")):
        pages.row((0.05, 0.25, 0.2, 0.05, 0.25, 0.2), (*left, *right))


def _stages(pages, site, reader, now):
    pages.heading(word(T_("Stages"), reader))
    shares = (0.25, 0.45, 0.3)
    for stage in STAGES.values():
        if applies(stage, site):
            stands = standing(stage, site, now)
            done = done_at(stage.name, site)
            pages.row(shares, (word(stage.title, reader), word(_state(stage, stands, site), reader), moment(done, reader) if done else ""))


def _state(stage, stands, site):
    if stands.held:
        return T_("reported done #%(number)s, waits for release", number=stands.reported.number)
    if stands.release is not None:
        return T_("done, released by %(name)s #%(number)s", name=stands.release.name, number=stands.release.number)
    if stands.reported is not None:
        return T_("done #%(number)s", number=stands.reported.number)
    if finished(stage.name, site):
        return T_("before this log began")
    return T_("not done; hold") if stage.hold == HOLD else T_("not done")


def _readings(pages, site, reader):
    pages.heading(word(T_("Readings and reports"), reader))
    shares = (0.07, 0.18, 0.15, 0.14, 0.33, 0.13)
    heads = (Text(), T_("When"), T_("By"), T_("What"), T_("Said"), T_("Stands"))
    pages.row(shares, ["#", *(word(head, reader) for head in heads[1:])], bold=True)
    live = {entry.number for entry in site.live}
    for entry in site.log:
        title = entry_title(entry)
        stands = VERDICTS[entry.verdict] if entry.number in live or entry.kind == "undo" else T_("taken back")
        refers = f" #{entry.refers}" if entry.refers else ""
        what = (word(title, reader) if isinstance(title, Text) else title) + refers
        pages.row(shares, (f"{entry.number}", moment(entry.at, reader), entry.name, what, values(entry, reader), word(stands, reader)))
    if not site.log:
        pages.text(word(T_("The log is empty."), reader))


def _releases(pages, site, reader):
    given = [entry for entry in site.live if entry.kind in ("release", "refuse")]
    pages.heading(word(T_("Releases"), reader))
    for entry in given:
        of = word(T_("on entry #%(number)s", number=entry.refers), reader) if entry.refers else ""
        until = entry.fields.get("until")
        till = word(T_("until %(time)s", time=moment(datetime.fromisoformat(until), reader)), reader) if until else ""
        stage = entry.fields.get("stage")
        title = word(STAGES[stage].title, reader) if stage in STAGES else word(T_("sides"), reader)
        stands = word(VERDICTS[entry.verdict], reader)
        said = ", ".join(filter(None, (title, stands, of, values(entry, reader), till)))
        pages.row((0.07, 0.18, 0.15, 0.6), (f"{entry.number}", moment(entry.at, reader), entry.name, said))
    if not given:
        pages.text(word(T_("None."), reader))


def _photos(pages, site, reader):
    taken = [entry for entry in site.live if entry.kind == "photo"]
    pages.heading(word(T_("Photos"), reader))
    for entry in taken:
        stage = entry.fields.get("at_stage")
        title = word(STAGES[stage].title, reader) if stage in STAGES else ""
        row = (f"{entry.number}", moment(entry.at, reader), title, f"{entry.fields['channel']}: {entry.fields['photo']}")
        pages.row((0.07, 0.18, 0.15, 0.6), row)
    if not taken:
        pages.text(word(T_("None."), reader))


def _cautions(pages, site, reader):
    """Every rule whose warning was given, with the entries it went with."""
    given = {}
    for entry in site.log:
        for rule in entry.cautions:
            given.setdefault(rule, []).append(f"#{entry.number}")
    pages.heading(word(T_("Cautions given"), reader))
    for rule, numbers in given.items():
        pages.row((0.08, 0.62, 0.3), (rule, _short(rule, reader), " ".join(numbers)))
    if not given:
        pages.text(word(T_("None."), reader))


def _short(rule, reader):
    """The short text of a rule, without the values that held when it was said."""
    return re.sub(r"%\(\w+\)s", "...", word(Text(((CAUTIONS[rule].short, {}),)), reader)) if rule in CAUTIONS else ""


# ---- tables

LOG = ("site", "entry", "at", "by", "kind", "stage", "verdict", "counts", "refers", "cautions", "fields_si")
SITES = (
    "site",
    "name",
    "plan_m3",
    "gas_m3_per_day",
    "done",
    "stages",
    "at_stage",
    "waits_for_release",
    "stops",
    "entries",
    "last_entry_at",
)
SITES += tuple(role for role, _ in ROLES)


def log_rows(site):
    """The log of a site, one row an entry; numbers in SI under their names."""
    live = {entry.number for entry in site.live}
    for e in site.log:
        at = e.at.astimezone(ZoneInfo(site.rules.zone)).isoformat()
        counts = "yes" if e.number in live else "no"
        said = (e.verdict or "", counts, e.refers or "", " ".join(e.cautions), json.dumps(e.fields, ensure_ascii=False))
        yield (site.code, e.number, at, e.name, e.kind, e.fields.get("stage", ""), *said)


def site_row(site, team, now):
    """One site as a row."""
    of = [stage for stage in STAGES.values() if applies(stage, site)]
    stage, made, last = current(site), site.design, site.log[-1] if site.log else None
    held = [each.name for each in of if standing(each, site, now).held]
    stood = [hazard.rule for hazard in stops.standing(site, now)]
    plan = (f"{made.vessel.inside_m3:.2f}", plain(made.gas_m3_per_day, 2) if made.gas_m3_per_day else "") if made else ("", "")
    done = sum(finished(each.name, site) for each in of)
    at = last.at.astimezone(ZoneInfo(site.rules.zone)).isoformat() if last else ""
    people = (", ".join(name for held_role, name in team if held_role == role) for role, _ in ROLES)
    stands = (done, len(of), stage.name if stage else "", " ".join(held), " ".join(stood), len(site.log), at)
    return (site.code, site.name, *plan, *stands, *people)


def write(path, heads, rows):
    """Write rows as a CSV file; what a spreadsheet would take for a formula is quoted."""
    with open(path, "w", newline="", encoding="utf-8") as file:
        out = csv.writer(file)
        out.writerow(heads)
        out.writerows([_plain(value) for value in row] for row in rows)


def _plain(value):
    return f"'{value}" if isinstance(value, str) and value[:1] in ("=", "+", "-", "@", "\t", "\r") else value
