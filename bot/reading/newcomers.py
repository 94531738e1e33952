"""Who is who: joining, whom the supervisor takes in, codes, numbers given up."""

from bot.forms import Ask, Form
from bot.reading import plain
from bot.reading.measures import Measure
from bot.reading.things import tags_of

NO_NAME = ("role", "act.join", "act.code", "act.site", "asks", "day", "not", "unsure", "link", "state")  # what stands there is none
DIGITS = 6  # of a one-time code


def join(line, used, kind, hints):
    """Somebody new: role and name."""
    role = next((p.concept("role") for p in plain.words(line) if p.has("role")), None)
    code = _code(line, used)
    fields = {"role": role or "mason", "name": _name(line, kind)} | ({"code": code} if code else {})
    return Form(kind.name, fields, () if role else ("role=mason",))


def admit(line, used, kind, hints):
    """Whom the supervisor takes in: the name, and the last digits of the number where several wait under it."""
    fields = {"name": _name(line, kind)}
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) and piece.unit is None and piece.text.isdigit() and "end" not in fields:
            fields["end"] = piece.text
            used.add(at)
    return Form(kind.name, fields)


def _name(line, kind):
    """A name of at most two words: behind the word for name, else where one stands, then those that are no words of ours."""
    told = _told(line)
    if told:
        return " ".join(told[:2]).title()
    asked = next((at for at, piece in enumerate(line) if not isinstance(piece, Measure) and piece.has("act.join", "act.admit")), 0)
    behind = _first_run(line[asked:])  # a greeting before it may hold words nobody knows
    meant = _meant_as_name(line, kind)
    return " ".join((meant + (behind or ([] if meant else _first_run(line))))[:2]).title()


def _told(line):
    """The words behind the last "my name is": no word of ours but the first, as in "naam ram hai"."""
    places = [at for at, piece in enumerate(line) if not isinstance(piece, Measure) and piece.has("naming")]
    behind = [piece for piece in plain.words(line[places[-1] + 1 :]) if not piece.has("filler", "subject")] if places else []
    behind = behind[next((at for at, piece in enumerate(behind) if piece.sort == "word"), len(behind)) :]
    end = next((at for at, p in enumerate(behind) if p.sort != "word" or " " in p.text or (p.has(*NO_NAME) if at == 0 else p.tags)), None)
    return [piece.text for piece in behind[:end]]


def _strange(line):
    return [piece.text for piece in plain.words(line) if piece.sort == "word" and not piece.tags]


def _first_run(line):
    """The words that are no words of ours, the first of them and those right behind it: not the village behind a "from"."""
    known = [piece.sort != "word" or bool(piece.tags) for piece in plain.words(line)]
    start = known.index(False) if False in known else len(known)
    end = known.index(True, start) if True in known[start:] else len(known)
    return [piece.text for piece in plain.words(line)[start:end]]


def _meant_as_name(line, kind):
    """The word where a name stands, also where it is one of ours: Ram, Sita and Tano are people here."""
    said = [piece for piece in plain.words(line) if piece.sort != "mark" and not piece.has("filler", "subject")]
    role = next((at for at, piece in enumerate(said) if piece.has("role")), None)
    places = [role] if role is not None else []
    if kind.name == "admit" or places:
        places += [at for at, piece in enumerate(said) if piece.has("act.join", "act.admit")][:1]
    named = next((at + 1 for at in places if at + 1 < len(said) and _may_name(said[at + 1])), None)
    if named is None or not said[named].tags:
        return []
    both = named + 2 == len(said) and _may_name(said[-1]) and not said[-1].has("part", "item", "field")  # sita ram
    return [piece.text for piece in said[named : named + 1 + both]]


def _may_name(piece):
    return piece.sort == "word" and " " not in piece.text and not piece.has(*NO_NAME)


def code(line, used, kind, hints):
    """A one-time code that is asked for, or the one that was given out."""
    written = _code(line, used)
    return Form(kind.name, {"code": written} if written else {})


def unlink(line, used, kind, hints):
    """A number that is given up: whose, and its place in the list of them."""
    name = " ".join(_strange(line)[:2]).title()
    fields = ({"name": name} if name else {}) | ({} if "act.unlink" in tags_of(line) else {"lost": "yes"})
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) and piece.unit is None and piece.form == "plain" and piece.text.isdigit() and "n" not in fields:
            fields["n"] = int(piece.text)
            used.add(at)
    return Form(kind.name, fields)


def remove(line, used, kind, hints):
    """Whom the supervisor takes off a site, and in which role where one is named."""
    role = next((p.concept("role") for p in plain.words(line) if p.has("role")), None)
    return Form(kind.name, {"name": " ".join(_strange(line)[:2]).title()} | ({"role": role} if role else {}))


def newsite(line, used, kind, hints):
    """The farmer's name behind the code of a new site: also a word of ours, as Tano or Sita."""
    said = [p.text for p in plain.words(line) if p.sort == "word" and not p.has("act.new_site", "role", "link", "filler")]
    return Form(kind.name, {"name": " ".join(said[:2]).title()})


def issue(line, used, kind, hints):
    """A code for somebody new, for which role."""
    role = next((p.concept("role") for p in plain.words(line) if p.has("role")), None)
    return Form(kind.name, {"role": role}) if role else Ask(kind.name, "which_role", {})


def _code(line, used):
    """The one-time code in a line, written whole or in groups, or None; its numbers are accounted for."""
    found = [(at, piece) for at, piece in enumerate(line) if isinstance(piece, Measure) and piece.unit is None]
    written = "".join(piece.text.replace(" ", "") for _, piece in found)
    if len(written) != DIGITS or not written.isdigit():
        return None
    used.update(at for at, _ in found)
    return written
