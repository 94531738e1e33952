"""One text -> what was understood: Understood, Ask, Confirm or Unread; the dangers in it are heard in any case."""

from dataclasses import replace
from functools import cache

from bot.forms import Ask, Confirm, Form, Understood, Unread
from bot.reading import (
    containers,
    cues,
    danger,
    doubt,
    fill,
    gas,
    gauge,
    inside,
    lengths,
    marks,
    money,
    newcomers,
    orders,
    pegs,
    plain,
    running,
    second,
    sitecodes,
    things,
    trials,
    twins,
    watching,
)  # fmt: skip
from bot.reading.clean import LONGEST, clean, tokens
from bot.reading.measures import Measure, gather
from bot.reading.things import Hints, tags_of
from bot.reading.words import tag, with_sections

GRAMMARS = {
    "size": things.size,
    "stock": things.stock,
    "fix": things.fix,
    "gauge": gauge.take,
    "enter": things.enter,
    "mix": containers.mix,
    "container": containers.measure,
    "temp": trials.temp,
    "wet": trials.wet,
    "age": trials.age,
    "cement": trials.cement,
    "silt": trials.silt,
    "jar": trials.jar,
    "buy": orders.buy,
    "cost": money.cost,
    "first": money.first,
    "stage": plain.stage,
    "when": plain.when,
    "release": plain.release,
    "undo": plain.undo,
    "join": newcomers.join,
    "admit": newcomers.admit,
    "code": newcomers.code,
    "issue": newcomers.issue,
    "unlink": newcomers.unlink,
    "remove": newcomers.remove,
    "newsite": newcomers.newsite,
    "status": plain.status,
    **watching.GRAMMARS,
    "plan": plain.plan,
    "topic": plain.topic,
    "nth": plain.nth,
    "dung": running.dung,
    "vent": running.vent,
    "fault": running.fault,
    "weather": running.weather,
    "crew": running.crew,
    "idle": running.idle,
    "pipe": gas.pipe,
    "use": gas.use,
    "replaces": gas.replaces,
    "pegs": pegs.take,
    "fill": fill.take,
    "ground": fill.ground,
    "lifters": fill.lifters,
    "ring": fill.ring,
    "help": plain.help_,
    "why": plain.why,
    "setting": plain.setting,
    "words": plain.bare,
}


COUNTS = ("count", "counted", "order", "days", "amount", "pressure")  # fields whose range holds for what is counted
OF_A_STAGE = {"share": "fraction", "percent": "unit.percent"}  # a half and 80 % are no readings
BEYOND = {"size": "cows_or_dung", "stock": "item_unit"}  # what is asked where a count is too great to be believed


def read(text, kinds, words, hints=Hints(), expected=None):
    """Return what a text says.

    `kinds` are the Kinds in the order in which they are tried, `expected` the name of the kind an open question
    waits for. Every number in the text is accounted for, or nothing is understood and one question goes back.
    """
    cleaned = clean(text[: 3 * LONGEST])
    line = gather(sitecodes.entries(sitecodes.joined(tag(cleaned, words, hints.names, mend=len(text) <= LONGEST), hints)), words)
    alarm = danger.heard(line, words)
    if len(text) > LONGEST:
        return Ask(None, "too_long", alarm=alarm)
    alarm = alarm or _heard_in_english(cleaned, words)
    codes = [piece.text for piece in line if not isinstance(piece, Measure) and piece.sort == "code"]
    if len(set(codes)) > 1:
        return Ask(None, "two_sites", {"sites": ", ".join(sorted(set(codes)))}, alarm=alarm)
    rest = tuple(piece for piece in line if isinstance(piece, Measure) or piece.sort != "code")
    rest = inside.counted(rest, words)
    outcome = _outcome(rest, codes, kinds, words, hints, expected)
    outcome = twins.read(outcome, rest, lambda other: _outcome(other, codes, kinds, words, hints, expected))
    if not alarm and danger.off_work(line, words) and not any(isinstance(p, Measure) and p.value == 0 for p in line):
        outcome = Ask(None, "sick_where")
    return _at_site(outcome, codes[0] if codes else None, alarm, danger.where(rest) if alarm else None)


def _heard_in_english(cleaned, words):
    """The dangers of a text that mixes languages, its things put into English: "shimo full of water"."""
    pieces = tokens(cleaned)
    if not any(piece.text in words.english for piece in pieces):
        return ()
    mixed = " ".join(words.english.get(piece.text, piece.text) for piece in pieces)
    return danger.heard(gather(tag(mixed, words, mend=False), words), words)


def _outcome(line, codes, kinds, words, hints, expected, alone=False):
    if not line:
        site = next((kind for kind in kinds if kind.name == "site"), None)
        return Understood((Form("site"),)) if codes and site else Unread()
    tags = signs(line) | ({"code"} if codes else set())
    kind = next(iter(cues.fitting(kinds, tags)), None)
    if kind is None and expected:
        kind = next((kind for kind in kinds if kind.name == expected), None)
    if kind is None:
        numbers = [piece.text for piece in line if isinstance(piece, Measure)]
        return Ask(None, "of_what", {"text": " ".join(numbers)[:40]}) if len(numbers) == len(line) else Unread()
    used = set()
    outcome = _take(line, used, kind, kinds, hints)
    if kind.grammar == "stage" and not alone:
        outcome = second.stages(outcome, line, lambda part: _outcome(part, codes, kinds, words, hints, None, alone=True))
    if isinstance(outcome, Form):
        outcome = _accounted(outcome if outcome.feet or not _in_feet(line) else replace(outcome, feet=True), line, used, kind, tags)
        if not alone:
            outcome = second.unfinished(outcome, line, kind, lambda part: _outcome(part, codes, kinds, words, hints, None, alone=True))
    elif doubt.asked(line) and kind.grammar in doubt.KEPT and kind.beyond is None and _storable(outcome):
        return Ask(kind.name, "reading_or_question", {"text": _joined(line)})
    if not isinstance(outcome, Form):
        return outcome
    if alone:
        return Understood((outcome,))
    return second.forms(outcome, line, kind, kinds, hints, lambda part: _outcome(part, codes, kinds, words, hints, None, alone=True))


def _storable(outcome):
    """True for a reading that a short answer, or two readings with one verdict, would still put into the log."""
    return isinstance(outcome, Confirm) or (isinstance(outcome, Ask) and bool(outcome.options))


def signs(line):
    """What a line is recognised by: its concepts, their sections ("part" of "part.pit"), the sorts of numbers in it."""
    found = set()
    for piece in line:
        if isinstance(piece, Measure):
            found |= {"number", OF_A_STAGE.get(piece.kind, piece.kind)} | ({"ratio"} if piece.form == "ratio" else set())
        else:
            found |= _of_word(piece.tags)
            found |= {"question"} if piece.text == "?" else {"vessel"} if containers.named(piece) else set()
    found |= {"act.wrong", "act"} if "not" in found and doubt.swap(line) else set()
    found |= cues.opened(line)
    return found | ({"asked"} if doubt.asked(line) else set())


@cache
def _of_word(tags):
    """The concepts of a word and their sections; a number word that is in no number counts nothing."""
    return with_sections(frozenset(tag for tag in tags if not tag.startswith(("number.", "fraction.", "decimal."))))


def _take(line, used, kind, kinds, hints):
    if kind.grammar != "lengths":
        taken = GRAMMARS[kind.grammar](line, used, kind, hints)
        return _fixed(line, used, kind, kinds, hints) if taken is None else taken
    refused = doubt.body_unit(line, kind) or doubt.steepness(line, kind)
    if refused:
        return refused
    found = marks.take(line, used, kind.fields)
    outcome = lengths.take(line, used, kind, hints.ranges)
    if outcome is None:
        return Form(kind.name, found) if found else Ask(kind.name, "cast_when" if "act.cast" in tags_of(line) else "no_reading", {})
    if isinstance(outcome, Form):
        return replace(outcome, fields=found | outcome.fields)
    if isinstance(outcome, Ask):
        return replace(outcome, options=tuple(replace(o, fields=found | o.fields) for o in outcome.options))
    return outcome


def _fixed(line, used, kind, kinds, hints):
    """A correction with a whole new reading: the one field it names takes the new number."""
    tags = signs(line)
    fitting = cues.fitting(kinds, tags)
    stock = next((other for other in fitting if other.grammar == "stock"), None)
    if stock:
        outcome = GRAMMARS["stock"](line, used, stock, hints)
        first = next(((n, v) for n, v in outcome.fields.items() if n not in ("dir", "job")), None) if isinstance(outcome, Form) else None
        way = {"dir": outcome.get("dir")} if first and outcome.get("dir") else {}
        return Form(kind.name, {"fix": first[0], "new": first[1], **way}, outcome.inferred) if first else outcome
    known = [other for other in fitting if other.grammar == "lengths"]
    named = [other for other in kinds if other.grammar == "lengths" and any(tag in field.words for field in other.fields for tag in tags)]
    found = [(taken, outcome) for other in known or named for taken, outcome in _tried(line, other, kinds, hints)]
    forms = [(taken, form) for taken, form in found if isinstance(form, Form)]
    if len(forms) > 1 or not found:
        return Ask(kind.name, "what_is_wrong", {})
    if not forms:
        return found[0][1]
    (taken, form), *_ = forms
    if len(form.fields) > 1:
        return Ask(kind.name, "one_number", {})
    used.update(taken)
    (name, value), *_ = form.fields.items()
    value = value[0] if isinstance(value, tuple) and len(value) == 1 else value
    return Form(kind.name, {"fix": name, "new": value}, form.inferred, form.feet)


def _tried(line, kind, kinds, hints):
    """Yield (places taken, outcome) of a line read as another kind."""
    taken = set()
    yield taken, _take(line, taken, kind, kinds, hints)


def _accounted(form, line, used, kind, tags):
    """The form, or a question where a number, a denial or a doubtful unit is left over."""
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) and at not in used and not _how_many(piece, form):
            return Ask(kind.name, "left_over", {"text": piece.text})
    if kind.grammar == "lengths" and any(_odd(piece) for piece in line):
        return Ask(kind.name, "unclear_readings", {"text": _joined(line)})
    doubted = doubt.question(line, used, kind, tags)
    if doubted:
        return doubted
    missing = next((question for field, question in kind.needs if field not in form.fields), None)
    return Ask(kind.name, missing, {}, (form,)) if missing else _too_much(form, kind) or form


def _how_many(piece, form):
    """True for the number of places where as many readings are told: "dia at 3 places 3.10 3.12 3.09 m"."""
    return piece.unit == "place" and any(isinstance(value, tuple) and len(value) == piece.value for value in form.fields.values())


def _in_feet(line):
    """True where every length with a unit is in feet or inches."""
    units = {piece.unit for piece in line if isinstance(piece, Measure) and piece.kind == "length" and piece.unit}
    return bool(units) and units <= {"ft", "in", "soot"}


def _too_much(form, kind):
    """A count that no household plant has, or None; readings of the tape have been looked at before."""
    limits = {field.name: field for field in kind.fields if field.kind in COUNTS}
    for name, value in form.fields.items():
        field = limits.get(
            name.removeprefix("in_").removeprefix("out_").removeprefix("have_").removeprefix("broken_").removeprefix("stolen_")
        )
        if field and not field.low <= value <= field.high:
            return Ask(kind.name, BEYOND.get(kind.grammar, "unclear_number"), {"text": _short(value), "item": name.split("_")[0]})
    return None


def _short(value):
    return str(int(value)) if value == int(value) else str(value)


def _odd(piece):
    return not isinstance(piece, Measure) and piece.sort == "mark" and piece.text in "*^_~<>|\\$@%"


def _joined(line):
    return " ".join(piece.text for piece in line)[:40]


def _at_site(outcome, code, alarm, place):
    """The outcome with the site named in the text, and the dangers heard with their place."""
    if not (code or alarm):
        return outcome

    def placed(form):
        return replace(form, fields={"site": code, **form.fields}) if code else form

    heard = {"alarm": alarm, "place": place, "site": code}
    if isinstance(outcome, Understood):
        return replace(outcome, forms=tuple(map(placed, outcome.forms)), **heard)
    if isinstance(outcome, Ask):
        return replace(outcome, options=tuple(map(placed, outcome.options)), **heard)
    if isinstance(outcome, Confirm):
        return replace(outcome, form=placed(outcome.form), likely=outcome.likely and placed(outcome.likely), **heard)
    return replace(outcome, **heard)
