"""A gas or pipe test told in one line: the water tube, its legs, the hours, the weather, how the plant was closed."""

from dataclasses import replace

from bot.forms import Ask, Form
from bot.reading import doubt
from bot.reading.measures import Measure
from bot.reading.things import tags_of
from calc.units import dimension, from_si, si

LEG_M = (0.05, 0.75)  # without a unit a leg that moved lies here: twice as much is the most a household plant is pressed to
TWICE = 2
MOST_CM = 300  # a tube is no longer: more is a slip of the pen; in kPa or bar it may be what a pump shows
METRES = (1.2, 3.0)  # of water: 12 kPa and more; less may be a slip for cm
BAROMETER = (600, 1060)  # hectopascal: a bare number beside its word lies here


def take(line, used, kind, hints):
    """Gauge at the start and at the end, or both legs of the tube; hours; temperature and barometer; sealed or not."""
    line, tags = _bars(line), tags_of(line)
    strange = next((line[at].text for at in _beside(line, "act.barometer") if _no_air(line[at])), None)
    if strange:
        return Ask(kind.name, "unclear_number", {"text": strange})
    fields = _weather(line, used) | _time(line, used)
    if "act.sealed" in tags or "act.open_seal" in tags:
        if {"act.sealed", "act.open_seal"} <= tags:
            return Ask(kind.name, "which_seal", {})
        fields["sealed"] = "yes" if "act.sealed" in tags else "no"
    pumped = next((at for at, piece in enumerate(line) if not isinstance(piece, Measure) and piece.has("act.compressor")), None)
    if pumped is not None and doubt.denial(line, pumped, "not") is None:
        fields["press_source"] = "compressor"
    elif pumped is not None and not any(_reads(piece) for piece in line):
        return Ask(kind.name, "denied", {"text": " ".join(piece.text for piece in line)[:40]})
    if "act.pump_to" in tags:
        fields["wanted"] = "yes"
    if "act.begin" in tags:
        fields["begin"] = "yes"
    legs = _legs(line, used, kind)
    if legs is not None:
        return legs if isinstance(legs, Ask) else replace(legs, fields=legs.fields | fields)
    readings = [at for at, p in enumerate(line) if at not in used and _reads(p)]
    if not readings and set(fields) - {"wait_h"}:
        return Form(kind.name, fields)
    return _gauges(line, used, kind, readings, fields)


def _bars(line):
    """The line with a number before "bar" as a pressure: elsewhere the word is a steel rod."""
    out = list(line)
    for at, (piece, behind) in enumerate(zip(line, line[1:], strict=False)):
        word = "" if isinstance(behind, Measure) else behind.text
        if isinstance(piece, Measure) and piece.unit is None and word in ("bar", "bars"):
            out[at] = piece._replace(unit="mbar", values=tuple(1000 * value for value in piece.values))
    return tuple(out)


def _head(piece, unit):
    """The unit and number a reading is taken in: metres only where they are a head that no household plant stands."""
    if unit == "m" and METRES[0] < piece.value <= METRES[1]:
        return "cm", 100 * piece.value
    return unit, piece.value


def _reads(piece):
    return isinstance(piece, Measure) and (piece.unit is None or piece.kind in ("length", "pressure"))


def _time(line, used):
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) and piece.kind == "time" and piece.values:
            used.add(at)
            return {"wait_h": from_si(si(piece.value, piece.unit), "h")}
    return {}


def _weather(line, used):
    """Degrees, one or two, and the barometer."""
    degrees = [at for at, p in enumerate(line) if isinstance(p, Measure) and p.kind == "C" and p.values]
    degrees += [at for at in _beside(line, "act.temp") if at not in degrees and line[at].unit is None and 0 <= line[at].value <= 60]
    fields = {name: line[at].value for name, at in zip(("temp_c", "end_temp_c"), sorted(degrees), strict=False)}
    used.update(sorted(degrees)[:2])
    air = [at for at in _beside(line, "act.barometer") if at not in used and _air(line[at])]
    fields |= {
        name: si(line[at].value, line[at].unit or "mbar") for name, at in zip(("barometer_pa", "end_barometer_pa"), air, strict=False)
    }
    used.update(air[:2])
    return fields


def _air(piece):
    """True for a number behind the word of the barometer that one may show."""
    pressure = piece.kind == "pressure" and piece.unit != "cmH2O"
    return (piece.unit is None or pressure) and BAROMETER[0] <= from_si(si(piece.value, piece.unit or "mbar"), "mbar") <= BAROMETER[1]


def _no_air(piece):
    """True for a number there, without a unit or in the barometer's own, that none shows."""
    return piece.unit in (None, "mbar") and not _air(piece)


def _beside(line, sign):
    """The places of one or two numbers right behind a word."""
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) or not piece.has(sign):
            continue
        for near in (at + 1, at + 2):
            if near < len(line) and isinstance(line[near], Measure) and len(line[near].values) == 1:
                yield near
            else:
                break


def _legs(line, used, kind):
    """A Form with what both legs moved, an Ask where one is missing or the unit is not known; None where no leg is named."""
    sides = [piece.concept("leg") for piece in line if not isinstance(piece, Measure) and piece.has("leg")]
    if not sides:
        return None
    places = {side: [at for at in _beside(line, f"leg.{side}") if at not in used and _reads(line[at])] for side in sides}
    pair = places["both"] if sides == ["both"] else [at for side in ("left", "right") for at in places.get(side, ())[:1]]
    pair = pair * 2 if sides == ["both"] and len(pair) == 1 else pair
    if len(pair) != 2 or len(sides) != len(set(sides)) or not set(sides) <= {"left", "right", "both"}:
        return Ask(kind.name, "both_legs", {})
    units, inferred = {line[at].unit for at in pair} - {None}, ()
    if not units:
        units = {unit for unit in ("mm", "cm", "m", "in") if all(LEG_M[0] <= si(line[at].value, unit) <= LEG_M[1] for at in pair)}
        inferred = tuple(f"leg_unit={unit}" for unit in sorted(units))
    borrowed = len({line[at].unit for at in pair}) > 1
    if len(units) != 1 or dimension(min(units)) != "length" or (borrowed and _apart(*(line[at].value for at in pair))):
        return Ask(kind.name, "gauge_unit", {})
    used.update(pair)
    left, right = pair
    return Form(kind.name, {"leg_left_m": si(line[left].value, min(units)), "leg_right_m": si(line[right].value, min(units))}, inferred)


def _apart(left, right):
    """True where the legs of a tube would have moved so differently that they are not told in one unit."""
    return not left or not right or max(left, right) > TWICE * min(left, right)


def _told_last(between):
    """True where the reading of before stands behind the one of now: "now 78 cm was 80 cm"."""
    return any(not isinstance(p, Measure) and p.has("act.was") for p in between) and "day.today" not in tags_of(between)


def _gauges(line, used, kind, readings, fields):
    inferred = ()
    if not readings:
        return Ask(kind.name, kind.needs[0][1] if kind.needs else "both_legs", {})
    fell = len(readings) == 1 and not tags_of(line).isdisjoint(("act.fell", "same.same"))  # by how much, not from where
    if fell or not 1 <= len(readings) <= 2 or any(len(line[at].values) != 1 for at in readings):
        return Ask(kind.name, "unclear_readings", {"text": " ".join(line[at].text for at in readings)[:40]})
    if len(readings) == 2 and _told_last(line[readings[0] + 1 : readings[1]]):
        readings = readings[::-1]
    units = [line[at].unit for at in readings]
    between = line[readings[0] + 1 : readings[-1]]
    if units[0] is None and len(between) == 1 and not isinstance(between[0], Measure) and between[0].has("link.to"):
        units[0], inferred = units[1], (f"start_unit={'cmH2O' if units[1] == 'cm' else units[1]}",)  # "90 to 88 cm"
    if units[0] is None:
        return Ask(kind.name, "gauge_unit", {})
    if len(units) == 2 and units[1] is None:
        units[1], inferred = units[0], (f"end_unit={'cmH2O' if units[0] == 'cm' else units[0]}",)
    for name, at, said in zip(("gauge_start_pa", "gauge_end_pa"), readings, units, strict=False):
        unit, value = _head(line[at], said)
        if unit == "m" and len(readings) == 1:  # a slip for cm, or a head that no plant stands
            return Ask(kind.name, "gauge_unit", {}, (Form(kind.name, fields | {name: si(100 * value, "cmH2O")}),))
        if unit is None or (unit != "cm" and dimension(unit) != "pressure"):
            return Ask(kind.name, "gauge_unit", {})
        if said == "cm" and value > MOST_CM:
            return Ask(kind.name, "unclear_number", {"text": line[at].text})
        fields[name] = si(value, "cmH2O" if unit == "cm" else unit)
    used.update(readings)
    return Form(kind.name, fields, inferred)
