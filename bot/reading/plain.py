"""Messages without readings: stages, releases, corrections, status, help, settings."""

from bot.forms import Ask, Confirm, Form
from bot.reading import doubt
from bot.reading.measures import Measure
from bot.reading.things import tags_of
from calc.units import from_si, si

NO_STAGE = ("kitchen", "manhole", "sides")
OPEN = {"link.or", "day.tomorrow", "act.outside_limit", "act.when"}
AGO = {"act.ago", "act.since"}
RUN_OUT = {"item.cement", "item.sand", "item.gravel"}
LOOKED = {"danger.crack": "crack", "danger.water": "water", "item.water": "water"}
CONDITIONS = ("if", "once", "after", "unless", "when")
ALL = 100.0  # percent
SHARES = ("share", "percent")  # a half or 80 % of a stage is not all of it


def stage(line, used, kind, hints):
    """A stage that is finished or not; a doubtful word, a question or a word nobody knows beside it is never "done"."""
    line = line[:-1] if len(line) > 1 and getattr(line[-1], "text", "") == "h" else line  # "baki h" is that it is so
    tags = tags_of(line)
    named = list(dict.fromkeys(p.concept("part") for p in words(line) if p.has("part") and p.concept("part") not in NO_STAGE))
    if not named and "act.site" in tags and "act.whole" not in tags:
        named = ["site"]
    if len(named) != 1:
        return Ask(kind.name, "sides_stand" if "part.sides" in tags else "which_stage", {}, partial(kind, tags))
    state = _state(line, tags)
    measured = (_has(tags, "field") or "act.measured" in tags) and "act.done" not in tags  # says nothing of the digging
    if state is None or measured:
        return Ask(kind.name, "done_or_not", {"stage": named[0]})
    fields = {"stage": named[0], "state": state} | ({"note": "rain"} if "act.rain" in tags else {})
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) and piece.values and (piece.unit == "d" or (tags & AGO and piece.unit == "h")):
            name = "ago_d" if tags & AGO else "took_d"
            fields |= {name: from_si(si(piece.value, piece.unit), "d")} if state == "done" else {}
            used.add(at)
    used.update(at for at, piece in enumerate(line) if isinstance(piece, Measure) and piece.kind in SHARES)
    day = next((p.concept("day") for p in words(line) if p.has("day")), None)
    return Form(kind.name, fields | ({"day": day} if day else {}))


def _state(line, tags):
    """ "done", "not_done", or None where the words go against each other or nobody knows one of them."""
    asked = "unsure.think" in tags or _asks(line) or doubt.asks_so(line) or any(piece.text == "?" for piece in words(line))
    asked |= any(piece.has("link.or") and behind.has("act.not_yet", "not", "state.no") for piece, behind in pairs(line))
    if any(_of_strange(piece, behind) or (piece.has("danger") and behind.has("act.done")) for piece, behind in pairs(line)):
        return None  # "chakkar ho gaya gaddhe me" ends no digging
    if "act.not_yet" in tags or any(_denies(line, at) for at in range(len(line))):
        return None if asked else "not_done"
    shared = any(isinstance(piece, Measure) and piece.kind in SHARES and piece.value != ALL for piece in line)
    days_more = any(isinstance(piece, Measure) and piece.kind == "time" for piece in line) and tags & {"act.need", "act.more"}
    begun = "unsure.begun" in tags or "act.left" in tags or shared or days_more
    doubted = any(tag.startswith("unsure.") and tag != "unsure.begun" for tag in tags) or bool(tags & OPEN)
    if asked or doubted or (begun and "act.done" in tags) or _strange(line) or any(_lacks(line, at) for at in range(len(line))):
        return None
    if "act.broken" in tags and not _has(tags, "item"):
        return None  # done, and broken since
    said = "act.done" in tags or "act.cast" in tags  # "no crack in dome" says nothing of the dome being finished
    ran_out = said and bool(tags & RUN_OUT) and "act.used" not in tags  # "the cement of the wall is finished"
    return "not_done" if begun else "done" if said and not ran_out else None


def _of_strange(piece, behind):
    """True for a not before a word nobody knows: "wall not drot" may say that it is not straight."""
    return piece.has("not.plain") and behind.sort == "word" and not behind.tags


def pairs(line):
    """Each word with the one behind it, numbers left out."""
    return zip(words(line), words(line)[1:], strict=False)


def _asks(line):
    """True for a question without its mark, "is base done": a word that asks before all others, and no done behind it."""
    for piece, behind in pairs(line):
        if piece.has("part", "act.done", "subject", "not"):
            return False
        if piece.has("asks") and not behind.has("act.done", "not"):
            return True
    return False


def _denies(line, at):
    """True for a not, or a no that stands at no danger, leak or rain: "wall done no crack" is done."""
    piece = line[at]
    if isinstance(piece, Measure) or not piece.has("not", "state.no"):
        return False
    other = line[at + 1] if at + 1 < len(line) else None
    if other is None and at and _of_leak(line, at):
        return False
    own = piece.has("not.done") or other is None or isinstance(other, Measure)  # "haijaisha mvua" denies by itself
    return own or not (_of_danger(other) or _lacks(line, at))


def _of_leak(line, at):
    """True for the one no of a line, at its end behind a leak or a danger: "wall done leak no" is done."""
    denials = [p for p in line if not isinstance(p, Measure) and p.has("not", "state.no", "act.not_yet")]
    named = not isinstance(line[at - 1], Measure) and line[at - 1].has("act.leak", "danger")
    return named and len(denials) == 1 and not line[at].has("not.done")


def _of_danger(piece):
    return piece.has("danger", "act.leak", "act.rain", "act.seep")


def _lacks(line, at):
    """True for a no before a material, a damage or an unknown thing: "no cement for base" says nothing of the base."""
    piece, other = line[at], line[at + 1] if at + 1 < len(line) else None
    if isinstance(piece, Measure) or not piece.has("state.no") or other is None or isinstance(other, Measure):
        return False
    return other.has("item", "material", "act.broken", "danger.water") or (other.sort == "word" and not other.tags)


def _strange(line):
    """True where a word nobody knows stands between stage and done, or beside done: it may deny it."""
    marks = [at for at, piece in enumerate(line) if not isinstance(piece, Measure) and piece.has("part", "act.done")]
    done = [at for at in marks if line[at].has("act.done")]
    if not done:
        return False
    place = range(min(marks), len(line)) if max(done) == max(marks) else range(max(min(done) - 1, 0), max(marks))
    return any(not isinstance(line[at], Measure) and line[at].sort == "word" and not line[at].tags for at in place)


def when(line, used, kind, hints):
    """When a stage may begin: the question comes before all else, else it may be a report."""
    first = next((piece for piece in words(line) if not piece.has("filler")), None)
    named = list(dict.fromkeys(p.concept("part") for p in words(line) if p.has("part") and p.concept("part") not in NO_STAGE))
    if len(named) != 1:
        return Ask("stage", "which_stage", {})
    asked = first is not None and first.has("act.when")
    return Form(kind.name, {"stage": named[0]}) if asked else Ask("stage", "done_or_not", {"stage": named[0]})


def partial(kind, tags):
    """What is known of a stage report that names no stage."""
    done = "act.done" in tags and not _has(tags, "not")
    return (Form(kind.name, {"state": "done"}),) if done else ()


def words(line):
    """The pieces of a line that are not numbers."""
    return [piece for piece in line if not isinstance(piece, Measure)]


def _has(tags, section):
    return any(tag == section or tag.startswith(section + ".") for tag in tags)


def release(line, used, kind, hints):
    """A hold point released or refused: stage, entry number and value where quoted, the reason of a refusal."""
    tags = tags_of(line)
    named = list(dict.fromkeys(p.concept("part") for p in words(line) if p.has("part")))
    protection = "slope" if "field.slope" in tags else "support" if "act.support" in tags else None
    if "sides" in named or protection:
        named = ["sides"]
    if len(named) != 1 or named[0] in ("kitchen", "manhole"):
        return Ask(kind.name, "which_stage", {})
    fields = {"stage": named[0]} | ({"protection": protection} if protection else {})
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) and at not in used and piece.kind == "length" and len(piece.readings) == 1:
            fields["value_m"] = piece.readings[0]
            used.add(at)
    entry = next((piece.text for piece in words(line) if piece.sort == "entry"), None)
    if entry:
        fields["entry"] = int(entry)
    if kind.name == "refuse":
        reason = [p.text for p in words(line) if p.sort == "word" and not p.has("act.refuse", "part")]
        return Form(kind.name, fields | ({"reason": " ".join(reason)[:40]} if reason else {}))
    if _has(tags, "not") or _open(line, tags):
        return Ask(kind.name, "release_or_refuse", {"stage": named[0]})
    looked = tuple(sorted({LOOKED[tag] for tag in tags if tag in LOOKED})) if "looked.checked" in tags else ()
    return Form(kind.name, fields | ({"looked": looked} if looked else {}))


def _open(line, tags):
    """True where a release is asked about, planned, tied to a condition, or put into words nobody knows."""
    tied = any(piece.text in CONDITIONS for piece in words(line))
    return tied or doubt.asked(line) or bool(tags & OPEN) or any(tag.startswith("unsure.") for tag in tags)


def undo(line, used, kind, hints):
    """The last entry taken back, or one number of it changed."""
    tags, numbers = tags_of(line), [at for at, p in enumerate(line) if isinstance(p, Measure)]
    doubted = _has(tags, "not") or "unsure.think" in tags
    if doubted and ("act.undo" in tags or not numbers):
        return Ask(kind.name, "what_is_wrong", {})
    swap = doubt.swap(line)
    if swap:
        used.update(numbers)
        item = next((p.concept("item") for p in words(line) if p.has("item")), None)
        unit = {"cement": "cement_bags", "bricks": "bricks"}.get(item)
        fields = {
            "fix": unit or "last_number",
            "new": swap[0],
            "old": swap[1],
            "about": tuple(sorted(t for t in tags if t.startswith(("near.", "field.")))),
        }
        return Confirm(Form(kind.name, fields), "change", {"old": swap[1], "new": swap[0]})
    if not numbers and (_has(tags, "part") or _has(tags, "item")):
        return Ask(kind.name, "what_is_wrong", {})  # "base done wrong" takes nothing back
    named = next((int(piece.text) for piece in words(line) if piece.sort == "entry"), None)
    if named is not None and not numbers:
        return Form(kind.name, {"target": "entry", "entry": named})
    if not numbers and _has(tags, "number"):
        return Ask(kind.name, "what_is_wrong", {})
    if not numbers:
        return Form(kind.name, {"target": "last"})
    return Ask(kind.name, "undo_or_amount", {"text": line[numbers[0]].text}) if "act.undo" in tags else None


def status(line, used, kind, hints):
    """How far the site is, or the last lines of its log."""
    tags = tags_of(line)
    if not tags & {"act.log", "act.message"} or "act.status" in tags:
        return Form(kind.name, {"what": "status"})
    fields = {"what": "log"}
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) and piece.unit is None and piece.form == "plain":
            fields["n"] = int(piece.value)
            used.add(at)
    return Form(kind.name, fields)


def plan(line, used, kind, hints):
    """The measures of a stage: the one named, else the one the site stands at."""
    stage = next((p.concept("part") for p in words(line) if p.has("part")), None)
    return Form(kind.name, {"stage": stage} if stage else {})


def topic(line, used, kind, hints):
    """Something the bot hands over to others."""
    return Form(kind.name, {"topic": next(p.concept("topic") for p in words(line) if p.has("topic"))})


def help_(line, used, kind, hints):
    """What to write about: a part or an act named beside the call for help, a rule, the words said, else the list."""
    topics = [p.concept("part") for p in words(line) if p.has("part")]
    acts = [
        p.concept("act")
        for p in words(line)
        if p.concept("act") in ("size", "mix", "buy", "join", "release", "link", "unlink", "code", "cure", "undo", "status", "why")
    ]
    items = ["stock" for p in words(line) if p.has("item.cement", "item.sand", "item.bricks", "act.have", "act.arrived", "act.used")]
    rule = _rule(line, used)
    said = "_".join(piece.text for piece in words(line) if piece.sort == "word" and not piece.has("act.help", "act.how_write"))
    return Form(kind.name, {"topic": rule or (topics + acts + items or ["menu"])[0]} | ({"said": said[:40]} if said else {}))


def why(line, used, kind, hints):
    """The long text of the last caution, of a rule named ("why e3") or of an entry ("why #14")."""
    rule = _rule(line, used)
    return Form(kind.name, {"rule": rule} if rule else {})


def _rule(line, used):
    """The rule named by its letter and number, "e3", or None."""
    for at, piece in enumerate(line[:-1]):
        following = line[at + 1]
        if (
            not isinstance(piece, Measure)
            and len(piece.text) == 1
            and isinstance(following, Measure)
            and following.glued
            and following.values
        ):
            used.add(at + 1)
            return f"{piece.text.upper()}{int(following.value)}"
    return None


def setting(line, used, kind, hints):
    """The language or the units somebody wants his answers in."""
    language = next((p.concept("language") for p in words(line) if p.has("language")), None)
    style = next((p.concept("style") for p in words(line) if p.has("style")), None)
    if kind.name == "lang":
        return Form(kind.name, {"lang": language}) if language else Ask(kind.name, "which_language", {})
    if style is None and any(p.has("unit.ft", "unit.in") for p in words(line)):
        style = "feet"
    if style is None and any(p.has("unit.m", "unit.cm") for p in words(line)):
        style = "metric"
    return Form(kind.name, {"units": style}) if style else Ask(kind.name, "which_units", {})


def bare(line, used, kind, hints):
    """A message that is its own meaning."""
    return Form(kind.name, {})


def nth(line, used, kind, hints):
    """A message that may say which one: "phase 2"."""
    fields = {}
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) and piece.unit is None and piece.form == "plain" and piece.text.isdigit() and not fields:
            fields["n"] = int(piece.text)
            used.add(at)
    return Form(kind.name, fields)
