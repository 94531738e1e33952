"""One text that says two things: readings with a stage that is done, or two halves that stand by themselves."""

from bot.forms import Ask, Form, Understood
from bot.reading import doubt, plain
from bot.reading.measures import Measure
from bot.reading.numbers import is_a
from bot.reading.things import tags_of

LONGEST = 24  # pieces; a longer text is no two halves
KEPT = ("wet", "stage")  # second halves that go into the log: never out of a text that doubts, denies or asks
LOOKED_UP = ("mix", "plan")
DOUBTS = ("unsure", "not", "state.no", "link.or", "day.tomorrow")


def forms(form, line, kind, kinds, hints, read_part):
    """The Understood of a form, with the second form where the text holds one; `read_part` reads a part of it alone."""
    one_coat = "coat_no" in form.fields  # that is done, not the plaster
    also = (None if one_coat else _stage(line, kind, kinds, hints)) or _half(line, kind, read_part)
    return Understood((form, also) if also else (form,))


def _stage(line, kind, kinds, hints):
    """The stage that readings also say is finished; soil over a dome says it of the backfill only."""
    if kind.name == "stage" or kind.grammar not in ("lengths", "fill") or "act.done" not in tags_of(line):
        return None
    stage = next((other for other in kinds if other.name == "stage"), None)
    if stage is None:
        return None
    also = plain.stage(line, set(), stage, hints)
    if not isinstance(also, Form) or (kind.grammar == "fill" and also.fields["stage"] != kind.name):
        return None
    return Form("stage", {name: also.fields[name] for name in ("stage", "state")})


def unfinished(outcome, line, kind, read_part):
    """The readings of a stage that the half before a mark says is not done: "pit not done yet, depth 1.6 m"."""
    if kind.grammar != "lengths" or not isinstance(outcome, Ask) or outcome.code != "denied" or doubt.asked(line):
        return outcome
    for at in (at for at, piece in enumerate(line) if _joint(piece) and not piece.has("link.and")):
        before, behind = line[:at], line[at + 1 :]
        named = tuple(piece for piece in before if is_a(piece, "part"))
        if len(named) != 1 or any(isinstance(piece, Measure) for piece in before) or any(is_a(piece, *DOUBTS) for piece in behind):
            continue
        stage, readings = _alone(before, read_part), _alone((*named, *behind), read_part)
        if stage is not None and stage.kind == "stage" and stage.get("state") == "not_done" and readings is not None:
            return Understood((readings, stage)) if readings.kind == kind.name else outcome
    return outcome


def stages(outcome, line, read_part):
    """The two stages of a line of which one is done and the other is not: "base done wall not done"; else the outcome."""
    parts = [at for at, piece in enumerate(line) if is_a(piece, "part")]
    said = [at for at, piece in enumerate(line) if is_a(piece, "act.done", "act.not_yet", "not", "state.no", "unsure")]
    if not isinstance(outcome, Ask) or outcome.code != "which_stage" or len(parts) != 2 or not said or said[0] < parts[0]:
        return outcome
    halves = line[: parts[1]], line[parts[1] :]
    open_ = doubt.asked(line) or doubt.asks_so(line) or any(is_a(piece, "unsure", "link.or", "day.tomorrow") for piece in line)
    if open_ or any(_denied_twice(half) for half in halves):
        return outcome
    told = [read_part(_trimmed(half)) for half in halves]
    forms = [found.forms[0] for found in told if isinstance(found, Understood) and len(found.forms) == 1]
    states = [form.get("state") for form in forms if isinstance(form, Form) and form.kind == "stage"]
    return Understood(tuple(forms)) if states == ["done", "not_done"] else outcome


def _denied_twice(half):
    """True where a no ends what another has denied: nobody knows of what it is."""
    denials = [piece for piece in half if is_a(piece, "not", "state.no", "act.not_yet")]
    return len(denials) > 1 and not denials[-1].has("not.done")


def _trimmed(half):
    """The half without what joins it to the other one."""
    while half and not isinstance(half[-1], Measure) and (half[-1].sort == "mark" or half[-1].has("link.and", "but")):
        half = half[:-1]
    return half


def _half(line, kind, read_part):
    """The form of a half without numbers, where the other half is of the kind the whole text was taken for; or None."""
    if len(line) > LONGEST or (kind.grammar not in doubt.KEPT and kind.name not in LOOKED_UP):
        return None
    places = [at for at in range(1, len(line)) if kind.grammar == "temp" or _joint(line[at])]
    plain_text = bool(places) and not doubt.asked(line) and not any(is_a(piece, *DOUBTS) for piece in line)
    for at in places:
        before, behind = line[:at], line[at + 1 :] if _joint(line[at]) else line[at:]
        for half, rest in ((behind, before), (before, behind)):
            found = _alone(half, read_part) if half and rest and not any(isinstance(piece, Measure) for piece in half) else None
            wanted = LOOKED_UP + (KEPT if plain_text else ())
            if found is not None and found.kind in wanted and found.kind != kind.name and _kind(rest, read_part) == kind.name:
                return found
    return None


def _alone(part, read_part):
    outcome = read_part(part)
    return outcome.forms[0] if isinstance(outcome, Understood) else None


def _kind(part, read_part):
    found = _alone(part, read_part)
    return found.kind if found else None


def _joint(piece):
    return not isinstance(piece, Measure) and (piece.has("link.and") or piece.text in (",", ";", "."))
