"""Gas on its way to the stove: the pipe, the hours a family cooks, the fuels it saves."""

from itertools import permutations

from bot.forms import Ask, Form
from bot.reading.hours import stretches
from bot.reading.measures import Measure
from bot.reading.things import tags_of
from calc.units import from_si, si

SIZES = {0.5: "1/2", 0.75: "3/4", 1.0: "1"}  # inches
MOST = 10  # stoves or lamps
TIMES = 4  # a day, as many as one answer holds
BETWEEN = ("filler", "act.gas")  # words between a number and its stove


def pipe(line, used, kind, hints):
    """Its length, what burns at its end, its size in inches where named."""
    if _denied(line):
        return Ask(kind.name, "denied", {"text": _said(line)})
    burners = _burners(line, used)
    fields = {}
    for at, piece in enumerate(line):
        if not isinstance(piece, Measure) or at in used:
            continue
        size = SIZES.get(piece.value) if piece.unit == "in" or (piece.form == "fraction" and piece.unit is None) else None
        if piece.unit in ("in", "mm", "cm") and size is None:
            return Ask(kind.name, "pipe_inches", {"text": piece.text})
        name, value = ("pipe_size", size) if size else ("pipe_length_m", piece.readings[0] if len(piece.readings) == 1 else None)
        if value is None or name in fields:
            return Ask(kind.name, "unclear_number", {"text": piece.text})
        fields[name] = value
        used.add(at)
    if "pipe_length_m" not in fields:
        return Ask(kind.name, "pipe_length", {})
    if not any(count for *_, count in burners) or not _once(burners) or _uncounted(line, burners, "burner"):
        return Ask(kind.name, "which_burners", {})
    return Form(kind.name, fields | {f"{name}s": count for _, name, count in burners})


def use(line, used, kind, hints):
    """When a family cooks, on how many stoves: one number for all times, or one behind each."""
    if _denied(line) or tags_of(line) & {"link.or", "unsure.about"}:
        return Ask(kind.name, "unclear_readings", {"text": _said(line)})
    burners = _burners(line, used)
    times, places = stretches(line, used)
    loose = any(not isinstance(p, Measure) and at not in used and _number_word(p) for at, p in enumerate(line))
    if not times or loose or len(times) > TIMES:
        return Ask(kind.name, "cooking_times", {"text": _said(line)})
    shared = _shared(burners, places)
    if shared is None or _uncounted(line, burners, "burner.lamp"):
        return Ask(kind.name, "which_burners", {})
    if any(_over(times, counts) for counts in shared.values()):
        return Ask(kind.name, "cooking_times", {"text": _said(line)})
    starts, hours = zip(*times, strict=True)
    said = {name: counts for name, counts in shared.items() if burners and any(counts)}
    return Form(kind.name, {"start_h": starts, "hours_h": hours, **said}, () if burners else ("stoves=1",))


def replaces(line, used, kind, hints):
    """The fuel that is asked about, and the gas it is asked for, where named."""
    fields = {}
    named = {piece.concept("fuel") for piece in line if not isinstance(piece, Measure) and piece.has("fuel")}
    if len(named) == 1:
        fields["fuel"] = named.pop()
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) and piece.kind == "volume" and len(piece.values) == 1 and "gas_m3_per_d" not in fields:
            fields["gas_m3_per_d"] = from_si(si(piece.value, piece.unit), "m3")
            used.add(at)
    return Form(kind.name, fields)


def _burners(line, used):
    """[(place, "stove" or "lamp", how many), ...] of those with a number before or behind them."""
    found = []
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) or not piece.has("burner"):
            continue
        place = _before(line, at, used)
        if place is None:
            place = _behind(line, at, used)
        if place is not None:
            used.add(place)
            count = line[place].value if isinstance(line[place], Measure) else float(line[place].concept("number"))
            found.append((at, piece.concept("burner"), int(count)))
    return found


def _uncounted(line, burners, sort):
    """The places of stoves or lamps whose number is not said."""
    return {at for at, piece in enumerate(line) if not isinstance(piece, Measure) and piece.has(sort)} - {at for at, *_ in burners}


def _before(line, at, used):
    """The place of the number before a stove, unless it is the hour at which something ends."""
    place = at - 1
    while place > 0 and not isinstance(line[place], Measure) and line[place].has(*BETWEEN) and not _number_word(line[place]):
        place -= 1
    if place < 0 or not _counts(line[place]) or place in used:
        return None
    return None if place and _until(line[place - 1]) else place


def _behind(line, at, used):
    """The place of the number behind a stove, unless it is an hour or belongs to what comes next."""
    place = at + 1
    if place >= len(line) or place in used or not _counts(line[place]):
        return None
    after = line[place + 1] if place + 1 < len(line) else None
    own = after is not None and (_until(after) or (isinstance(after, Measure) and after.kind == "time"))
    return None if own else place


def _counts(piece):
    """True for a whole number that may count stoves."""
    if isinstance(piece, Measure):
        return piece.unit in (None, "piece") and piece.form in ("plain", "word") and piece.value % 1 == 0 and piece.value <= MOST
    return _number_word(piece)


def _number_word(piece):
    return piece.has("number") and not piece.has("filler")


def _until(piece):
    return not isinstance(piece, Measure) and (piece.has("link.to", "act.until") or piece.text == "-")


def _once(burners):
    names = [name for _, name, _ in burners]
    return len(set(names)) == len(names)


def _shared(burners, places):
    """{"stoves": how many at each time, "lamps": ...}, one stove where none is said; None where they cannot be shared out."""
    if not burners or (len(burners) == 1 and burners[0][1] == "stove"):
        return {"stoves": (burners[0][2] if burners else 1,) * len(places)}
    behind = [[each for each in burners if place < each[0] < after] for place, after in zip(places, (*places[1:], 10**6), strict=True)]
    if not all(behind) or sum(map(len, behind)) < len(burners) or not all(map(_once, behind)):
        return None
    counts = [{name: count for _, name, count in each} for each in behind]
    return {f"{name}s": tuple(each.get(name, 0) for each in counts) for name in ("stove", "lamp")}


def _over(times, counts):
    """True where two times of the same burner lie over each other."""
    burning = [time for time, count in zip(times, counts, strict=True) if count]
    return any((other - start) % 24 < hours for (start, hours), (other, _) in permutations(burning, 2))


def _denied(line):
    return any(not isinstance(piece, Measure) and piece.has("not") for piece in line)


def _said(line):
    return " ".join(piece.text for piece in line)[:40]
