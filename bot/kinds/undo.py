"""The last entry taken back, or one number of it changed; both stay in the log."""

from bot import foreman
from bot.forms import Answer, Entry, Form, Kind
from bot.phrases import T_, Number, Text, lines
from bot.titles import TITLES, entry_title, titled
from calc.units import from_si, si

UNDOABLE = (
    "pit", "base", "wall", "dome", "coats", "curing", "water_test", "gas_test", "leak", "covers", "stock", "stage", "size",
    "fix", "layout", "round", "levels", "level", "inlet_pipe", "pipe_test", "crew", "idle", "lost", "feed", "collected", "vent", "weather",
    "backfill", "ground_water", "siting", "water_begun", "temp", "wet",
    "silt", "jar", "container", "cement",
)  # fmt: skip
WHOLE = ("silt", "jar", "container", "cement")  # worked out from several numbers: sent again, not changed by one
FOLLOWS = {"leg_left_m": "gauge_start_pa", "leg_right_m": "gauge_start_pa"}  # worked out again from what was changed
UNITS = {"_m": (None, "m", "cm", "mm", "ft", "in"), "_pa": (None, "cmH2O", "kPa", "mbar")}


def answer(form, site, sender, now):
    own = [e for e in site.live if e.by == sender.person.id and e.kind in UNDOABLE]
    if form.get("target") == "last":
        return _take_back(own[-1] if own else None, site)
    if form.get("target") == "entry":
        return _take_back(next((e for e in own if e.number == form.get("entry")), None), site)
    for entry in reversed(own):
        changed = _changed(form, entry)
        if changed is not None:
            return _corrected(entry, changed, form, site, sender, now)
    return Answer(T_("No such number in your entries here. Nothing changed. Send LOG to see them."))


def _unknown(form, site, sender, now):
    """What is stored in place of the number that is to be changed, or None where that number is there."""
    if any(_changed(form, e) is not None for e in site.live if e.by == sender.person.id and e.kind in UNDOABLE):
        return None
    numbers, named = {"old": Number(form.get("old"), 3), "new": Number(form.get("new"), 3)}, _named(form)
    stored = next(((name, *site.reading(name)) for name in TITLES if name in named and site.reading(name)[0]), None)
    if stored is None:
        text = T_("%(site)s: no %(old)s in your entries here. Heard: %(new)s. Nothing changed.", site=site.code, **numbers)
        return Answer(text + T_("If that is right send it as a new reading, its word and its unit with it."))
    name, values, entry = stored
    values = tuple(values) if isinstance(values, list | tuple) else (values,)
    said = {"site": site.code, "stored": titled(name, values), "number": entry.number, "name": entry.name, **numbers}
    text = T_("%(site)s: no %(old)s of yours. Stored: %(stored)s, #%(number)s by %(name)s. Heard: %(new)s. Nothing changed.", **said)
    return Answer(text + T_("If that is right send it as a new reading, its word and its unit with it."))


def _named(form):
    """The fields that the words beside a changed number may mean; none where no such word was said."""
    from bot.kinds import KINDS

    said = set(form.get("about", ()))
    return {field.name for kind in KINDS for field in kind.fields if said & set(field.words)}


def _take_back(entry, site):
    if entry is None:
        return Answer(T_("%(site)s: no entry of yours to take back. Nothing changed.", site=site.code))
    head = foreman.head(site, T_("undo"), site.next_number)
    said = {"number": entry.number, "kind": entry_title(entry)}
    before = _corrected_by(entry, site)
    if before is not None:
        text = T_("#%(number)s %(kind)s does not count any more, #%(before)s counts again.", before=before.refers, **said)
        return Answer(lines([head, text]), (Entry("undo", {}, None, (), entry.number), Entry("undo", {}, None, (), before.number)))
    text = T_("#%(number)s %(kind)s does not count any more. It stays in the log. Send the right one.", **said)
    return Answer(lines([head, text]), (Entry("undo", {}, None, (), entry.number),))


def _corrected_by(entry, site):
    """The undo that made room for an entry, where that entry was a correction of one of the same kind; else None."""
    before = {each.number: each for each in site.log}
    undo = before.get(entry.number - 1)
    made = undo is not None and undo.kind == "undo" and undo.fields.get("corrected") and undo.by == entry.by
    return undo if made and undo.refers in before and before[undo.refers].kind == entry.kind else None


def _changed(form, entry):
    """The fields of an entry with the number changed, or None where it is not in it."""
    name, new, old = form.get("fix"), form.get("new"), form.get("old")
    if entry.kind in WHOLE:
        return None
    if form.get("dir", entry.fields.get("dir")) != entry.fields.get("dir"):
        return None
    if name in entry.fields and old is None:
        return entry.fields | {name: _like(entry.fields[name], new)}
    if old is None:
        return None
    named = _named(form)
    for key, value in entry.fields.items():
        if named and key not in named:
            continue
        fresh = _swapped(key, value, old, new)
        if fresh is not None:
            return {name: each for name, each in entry.fields.items() if name != FOLLOWS.get(key)} | {key: fresh}
    return None


def _like(value, new):
    return [new] if isinstance(value, list | tuple) and not isinstance(new, list | tuple) else new


def _swapped(key, value, old, new):
    """A value with the old number replaced by the new one, in the unit in which the old one was said."""
    values = value if isinstance(value, list | tuple) else [value]
    if not all(isinstance(each, int | float) and not isinstance(each, bool) for each in values):
        return None
    for unit in next((units for ending, units in UNITS.items() if key.endswith(ending)), (None,)):
        said = [from_si(each, unit) if unit else each for each in values]
        if any(abs(each - old) < 1e-6 * max(abs(old), 1) for each in said):
            fresh = [new if abs(each - old) < 1e-6 * max(abs(old), 1) else each for each in said]
            back = [si(each, unit) if unit else each for each in fresh]
            return back if isinstance(value, list | tuple) else back[0]
    return None


def _corrected(entry, fields, form, site, sender, now):
    """The old entry taken back and the changed one answered as if it had just come."""
    from bot.kinds import BY_NAME

    undo = Entry("undo", {"corrected": True}, None, (), entry.number)
    after = site.with_entries([undo], now, sender.person)
    if entry.kind == "stock":
        fields = _cement(fields, form, site)
    values = {name: tuple(value) if isinstance(value, list) else value for name, value in fields.items()}
    again = BY_NAME[entry.kind].answer(Form(entry.kind, values, (), form.feet), after, sender, now)
    note = T_("It corrects #%(number)s, which stays in the log.", number=entry.number)
    return Answer(again.reply, (undo, *again.entries), again.alerts, lines([again.then or Text(), note]))


def _cement(fields, form, site):
    """Bags and kilograms of cement say the same."""
    bags = next((name for name in fields if name.endswith("cement_bags")), None)
    if bags and site.rules.bag_kg:
        return fields | {bags.replace("bags", "kg"): fields[bags] * site.rules.bag_kg}
    return fields


def drop(form, site, sender, now):
    return Answer(T_("Nothing changed."))


DROP = Kind(
    name="drop",
    about=T_("No: leaves things as they are."),
    example=T_("no"),
    cues=("state.no alone",),
    roles=(),
    answer=drop,
    needs_site=False,
)
KIND = Kind(
    name="undo",
    about=T_("Undo: take back your last entry, or change one number."),
    example=T_("undo"),
    cues=("act.undo", "act.wrong"),
    grammar="undo",
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
    beyond=_unknown,
)
