"""The one short question that goes back where a message has two readings or something is missing.

Every question says that nothing is saved; examples show nnn, never a number that could come back as a reading.
"""

from datetime import datetime
from re import sub

from bot.forms import Ask, Asked, Form, Understood, Unread
from bot.phrases import T_, Length, Number, Series, Size, Text
from bot.reading import answers
from bot.reading.clean import clean
from bot.reading.measures import Measure, gather
from bot.reading.words import tag
from bot.titles import CONTAINERS, titled

_TEXTS = {
    "empty": lambda v: T_("Empty message. Send HELP for what to write."),
    "too_long": lambda v: T_("Too long to read. Nothing saved. Send one thing at a time, under 160 letters."),
    "two_sites": lambda v: T_("Two sites in one message: %(sites)s. Nothing saved. Send one message for each site.", **v),
    "which_site": lambda v: T_("Which site: %(sites)s? Nothing saved. Send the code.", **v),
    "unclear_number": lambda v: T_("Cannot read the number %(text)s without guessing. Nothing saved. Send one number with one unit.", **v),
    "unclear_readings": lambda v: T_("Cannot read %(text)s without guessing. Nothing saved. Send each reading as number and unit.", **v),
    "left_over": lambda v: T_("What is %(text)s? Nothing saved. Send again with a word for every number.", **v),
    "other_field": lambda v: T_("%(text)s: no such measure of that part. Nothing saved. Send HELP and the part, as: help pit.", **v),
    "of_what": lambda v: T_("%(text)s: of what? Nothing saved. Send the word too, as: pit wide nnn nnn nnn cm.", **v),
    "slope_run": lambda v: T_("Slope %(text)s: how far back does the edge stand? Nothing saved. Measure it, send: slope nnn cm.", **v),
    "reading_or_question": lambda v: T_("%(text)s: a reading, or a question? Nothing saved. Send the reading alone.", **v),
    "other_dung": lambda v: T_(
        "The plan is for cattle dung, not %(animal)s. Nothing saved. Ask your supervisor before other dung goes in.", **v
    ),
    "cast_when": lambda v: T_("How long ago? Nothing saved. Send: dome cast nn hours ago, or n days ago."),
    "no_reading": lambda v: T_("No reading found. Nothing saved. Send number and unit, as nnn cm."),
    "unit_missing": lambda v: T_("%(text)s: which unit, m, cm or ft? Nothing saved. Send the unit or all again.", **v),
    "which_unit": lambda v: T_("%(text)s: which unit, m, cm, mm, ft or in? Nothing saved. Send the unit or all again.", **v),
    "which_field": lambda v: T_("%(text)s: which is the depth, which the width? Nothing saved. Send a word with each number.", **v),
    "tape_reading": lambda v: T_("%(text)s is no tape reading. Nothing saved. Use the tape, send cm or ft and in.", **v),
    "denied": lambda v: T_("%(text)s: it says not. Nothing saved. Send the reading that is right.", **v),
    "container_litres": lambda v: T_(
        "How many litres in one %(container)s? Nothing saved. Send the amount in m3, litres or kg.",
        container=CONTAINERS[v["container"]][0] if v["container"] in CONTAINERS else v["container"],
    ),
    "total_or_each": lambda v: T_(
        "%(text)s of dung: from all animals together, or from each? Nothing saved. Send kg from all in one day.", **v
    ),
    "cows_or_m3": lambda v: T_("%(number)s cows or %(number)s m3? Nothing saved. Send: size %(number)s cows, or size %(number)s m3.", **v),
    "cows_or_dung": lambda v: T_("Which size for? Send the animals and the people, or kg of dung in a day."),
    "animals_left": lambda v: T_("How many animals are there now? Nothing saved. Send: number, animal, number, people."),
    "animals_unclear": lambda v: T_("Which number is which animal? Nothing saved. Send: number, animal, number, people."),
    "which_item": lambda v: T_("Which material? Nothing saved. Send: number, unit, material, came or used."),
    "how_many": lambda v: T_("How much %(item)s? Nothing saved. Send number, unit, material.", **v),
    "bag_mass": lambda v: T_("How many kg is one bag here? Nothing saved. Send the cement in kg."),
    "bags_or_kg": lambda v: T_("%(text)s of cement: bags or kg? Nothing saved. Send the unit.", **v),
    "item_unit": lambda v: T_("%(text)s of %(item)s: which unit? Nothing saved. Send bags, pieces, kg, m3 or litres.", **v),
    "in_or_used": lambda v: T_("Came or used? Nothing saved. Send CAME or USED."),
    "which_job": lambda v: T_("Mix for which job: base, wall, dome, plaster, outlet, covers? Nothing saved. Send the job or a ratio."),
    "mix_by_cement": lambda v: T_("A mix starts from cement in bags or kg. Send: mix, job, number of bags."),
    "no_measure": lambda v: T_("%(text)s is no measure here. Send: mix base in buckets, or in pans.", **v),
    "weighed_unclear": lambda v: T_("Cannot sort this mix: %(text)s. Send kg cement, kg sand, kg gravel, l water.", **v),
    "which_stage": lambda v: T_("Which stage? Nothing saved. Send: base done, wall done, dome done."),
    "done_or_not": lambda v: T_("Is the %(stage)s finished now? Nothing saved. Send: %(stage)s done, or %(stage)s not done.", **v),
    "which_role": lambda v: T_("A code for whom? Nothing done. Send: code, the site, mason or farmer."),
    "release_or_refuse": lambda v: T_("Release or refuse? Nothing saved. Send RELEASE or REFUSE with site and stage."),
    "undo_or_amount": lambda v: T_(
        "Take back the last entry, or is %(text)s an amount? Nothing changed. Send UNDO alone, or the amount again.", **v
    ),
    "what_is_wrong": lambda v: T_("What is wrong? Nothing changed. Send UNDO, or: wrong, the reading, the right number."),
    "one_number": lambda v: T_("One correction at a time. Nothing changed. Send: wrong, the reading, the right number."),
    "nothing_to_change": lambda v: T_("No such number in your entries here. Nothing changed. Send LOG to see them."),
    "which_language": lambda v: T_("Which language? English, Hindi, Kiswahili or French."),
    "which_units": lambda v: T_("Which units? Send: units metric, or units feet."),
    "money_kept": lambda v: T_("No payment or price is kept here. Nothing saved. For what a sum buys send: i have nnn."),
    "which_money": lambda v: T_("%(text)s: how much money? Nothing saved. Send one number, no comma, no letters, as: i have nnn.", **v),
    "how_long": lambda v: T_("How many hours between the two readings? Nothing saved. Send the hours."),
    "gauge_unit": lambda v: T_("Read the water tube in cm, both legs. Nothing saved. Send start and end as nnn cm."),
    "which_seal": lambda v: T_("Sealed, or water seal? Nothing saved. Send: gas test sealed, or gas test water seal."),
    "both_legs": lambda v: T_("Both legs: how far did each move from rest? Nothing saved. Send: left nn right nn cm."),
    "pipe_readings": lambda v: T_(
        "Pipe test: which pressure at the start, which at the end, how many minutes between? Nothing saved. "
        "Send: pipe test nnn cm nn min nnn cm temp nn nn."
    ),
    "sides_stand": lambda v: T_(
        "The bot cannot see the sides. Nothing saved. Look from above, then send the depth, the soil, crack yes or no, water yes or no."
    ),
    "pipe_length": lambda v: T_("How long is the gas pipe? Nothing saved. Send its length in m, then stoves and lamps that burn at once."),
    "pipe_inches": lambda v: T_("Pipe %(text)s: which size in inches, half, three quarter or one? Nothing saved. Or leave it out.", **v),
    "which_burners": lambda v: T_("How many stoves, how many lamps burn at the same time? Nothing saved. Send a number before each."),
    "cooking_times": lambda v: T_(
        "%(text)s: when does it burn? Nothing saved. Send from - to for each time, 24-hour clock or am and pm, then the stoves.", **v
    ),
    "crew_unclear": lambda v: T_("How many masons, how many labourers? Nothing saved. Send: crew n mason n labour."),
    "how_many_days": lambda v: T_("How many days? Nothing saved. Send: n days lost, or: no work n days."),
    "water_down": lambda v: T_("How far down from the ground does the water stand? Nothing saved. Send: ground water nnn cm down."),
    "layer_or_cover": lambda v: T_("%(text)s: 1) one layer, or 2) the soil over the dome? Nothing saved. Send 1 or 2.", **v),
    "one_fault": lambda v: T_("One fault at a time. Nothing saved. Send the first thing that is wrong, as: no gas."),
    "which_temp": lambda v: T_("%(text)s: which is the night, which the day? Nothing saved. Send: night nn day nn.", **v),
    "mixed_when": lambda v: T_(
        "How long ago did water go in? Do not guess. Send: mixed nn min ago. Not known, or stiff: throw it away, no water on it."
    ),
    "cement_date": lambda v: T_("%(text)s: how old, by its bag? Nothing saved. Send: cement nn months old, or: cement dated, month.", **v),
    "silt_heights": lambda v: T_("%(text)s: how high is the silt, how high the sand? Nothing saved. Send: silt nn sand nnn mm.", **v),
    "jar_heights": lambda v: T_(
        "%(text)s: how high was the damp sand, how high the same sand under water? Nothing saved. Send: jar damp nn flooded nn.", **v
    ),
    "container_how": lambda v: T_(
        "%(text)s: what does it hold? Nothing saved. Send: bucket nn l, or: bucket top nn bottom nn deep nn cm; or: one bag fills nn pans.",
        **v,
    ),
    "above_string": lambda v: T_(
        "%(text)s: only cm below the peg string are kept. Nothing saved. Measure down, send: overflow nn cm below string.",
        **v,
    ),
    "zero_line": lambda v: T_("The zero line is not kept from a message. Nothing saved. Send LEVELS: overflow and outlet floor set it."),
    "who_writes": lambda v: T_("Who writes: %(people)s? Nothing saved yet. Send the number. For half a day send: i am, and the name.", **v),
    "one_day": lambda v: T_("Two days in one message. Nothing saved. Send each alone: wet yesterday; then: wet today."),
    "dry_part": lambda v: T_(
        "%(text)s: a dry day does not count while it hardens. Nothing saved. Wet it now, cover it, send: wet today.", **v
    ),
    "ordered": lambda v: T_("Ordered is not come: nothing is counted. Nothing saved. When it is here send: nn bags cement came."),
    "cement_wet": lambda v: T_(
        "Wet cement: keep it apart, throw out what is hard or lumpy, no sieving. Not taken off the stock. "
        "To take it off send: nn bags cement spoiled."
    ),
    "sick_where": lambda v: T_(
        "Sick in or near the pit, tank or gas? Nothing saved. If so: all out, nobody goes in, send YES. If not, send: sick at home."
    ),
    "range": lambda v: _out_of_range(v),
    "odd_shape": lambda v: T_(
        "STOP. %(lengths)s do not go together here: words changed, or too deep for its width? Nobody goes in. Not saved. Measure again. "
        "If it is right send: YES and one of the numbers with its unit.",
        lengths=Series(tuple(titled(name, values) for name, values in v["readings"])),
    ),
    "change": lambda v: T_(
        "Change %(old)s to %(new)s? Nothing changed yet. Send YES or NO.", old=Number(v["old"], 3), new=Number(v["new"], 3)
    ),
}


_PIECES = {  # what an answer to these must bring
    "unit_missing": ("unit",),
    "which_unit": ("unit",),
    "of_what": ("part", "field", "item", "act"),
    "which_field": ("field",),
    "which_job": ("part", "act.mix"),
    "which_wet": ("part",),
}


def _out_of_range(values):
    value, low, high, likely = (values[name] for name in ("value_m", "low_m", "high_m", "likely_m"))
    named = {"value": Length(value), "low": Size(low), "high": Size(high)}
    said = T_("STOP. %(value)s is outside %(low)s to %(high)s. Not saved. Check unit and tape, measure again.", **named)
    if values["believable"]:
        return said + T_("If it is right send: YES and the number with its unit.")
    return said + (T_("Is it %(likely)s? Send YES or the right one.", likely=Length(likely)) if likely else Text())


def _feet(question):
    """The two readings of feet with a point, side by side."""
    first, second = (tuple(answers.lengths(option)) for option in question.options[:2])
    named = {"text": question.values["text"], "first": Length(first, feet=True), "second": Series(tuple(map(Size, second)))}
    return T_("%(text)s: is it 1) %(first)s, or 2) %(second)s? Nothing saved. Send 1 or 2, or metres.", **named)


def asked(question):
    """Return the Text of an Ask or Confirm."""
    if question.code == "feet_inch_or_decimal" and len(question.options) > 1:
        return _feet(question)
    return _TEXTS[question.code]({name: _tidy(value) for name, value in question.values.items()})


def _tidy(value):
    """A text of the sender without the spaces that reading put before its marks."""
    return sub(r" (?=[,.:;?!])", "", value) if isinstance(value, str) else value


_YES_NO = (T_("YES"), T_("NO"))
_NUMBERED = ("feet_inch_or_decimal", "layer_or_cover", "who_writes")  # their texts number the readings
_PRESSED = {"in_or_used": (T_("CAME"), T_("USED")), "change": _YES_NO, "yes_no": _YES_NO}  # one that wants a number repeated has no button


def buttons(question):
    """Return the words that answer a question and may be pressed, each the same as if it were sent; often none."""
    if question.code == "which_site":
        return tuple(code for code in question.values["sites"].split(", ") if code != "-")
    if question.code == "range":
        return _YES_NO if question.likely and not question.values["believable"] else ()
    if question.code in _NUMBERED and len(question.options) > 1:
        return tuple(str(place) for place, _ in enumerate(question.options, 1))
    return _PRESSED.get(question.code, ())


def kept(question, text, now):
    """Return an open question as plain values, to be kept with the person until it is answered."""
    options = question.options if isinstance(question, Ask) else tuple(form for form in (question.form, question.likely) if form)
    kind = question.kind if isinstance(question, Ask) else question.form.kind
    return {"kind": kind, "code": question.code, "options": rows(options), "text": text, "at": now.isoformat()}


def rows(forms):
    """Return forms as plain values."""
    return [{"kind": o.kind, "fields": o.fields, "inferred": o.inferred, "feet": o.feet} for o in forms]


def forms_of(rows):
    """Return the forms of what `rows` made plain."""
    return tuple(
        Form(o["kind"], {k: tuple(v) if isinstance(v, list) else v for k, v in o["fields"].items()}, tuple(o["inferred"]), o["feet"])
        for o in rows
    )


def open_question(row):
    """Return the Asked of what `kept` kept."""
    return Asked(row["kind"], row["code"], forms_of(row["options"]), datetime.fromisoformat(row["at"]), row["text"])


def choice(outcome, text, question, words):
    """The Understood or Unread that a short answer to an open question makes, or None where it is none.

    "1" and "second" choose a reading, "no" drops it, "yes" with the number confirms one out of range.
    """
    pieces = tag(clean(text), words)
    first = pieces[0] if pieces else None
    if first is not None and question.code == "yes_no":
        return _yes_or_no(pieces, question)
    if first is not None and question.code == "sick_where" and first.has("state.yes"):
        return Unread(alarm=("sick",))
    if first is None or isinstance(outcome, Understood):
        return None
    if question.code in ("range", "odd_shape", "change"):
        return _confirmed(pieces, question, words)
    order = answers.order(pieces) if len(question.options) > 1 else None
    if order and order <= len(question.options):
        return _taken(question.options[order - 1])
    form = answers.again(pieces, question.options, words)
    return _taken(form) if form else None


def completes(outcome, text, question, words):
    """True where a text may be the missing piece of the message that was asked about: no denial, no matter of its own."""
    pieces = tag(clean(text), words)
    if any(piece.has("not", "state.no") for piece in pieces):
        return False
    if isinstance(outcome, Ask) and outcome.kind and question.kind and outcome.kind != question.kind:
        return False
    wanted = _PIECES.get(question.code)
    if wanted is None:
        return True
    around = ("filler", "link", "number", "fraction", "decimal", "unit", "order")
    others = [piece for piece in pieces if piece.sort == "word" and not piece.has(*wanted, *around)]
    return not others and any(piece.has(*wanted) or piece.text in ("'", '"') for piece in pieces)


def fits(outcome, question):
    """True where an answer joined to the message asked about fills no other field than those that were asked about."""
    asked = {name for form in question.options for name in form.fields} | {"site"}
    forms = outcome.forms if isinstance(outcome, Understood) else (outcome.form,)
    same = all(form.kind == question.kind for form in forms[:1]) if question.kind else True
    return same and (question.code not in _PIECES or len(asked) == 1 or set(forms[0].fields) <= asked)


def _yes_or_no(pieces, question):
    """The form of a plain yes, or of a plain no; None where more is said."""
    said = [piece for piece in pieces if not piece.has("filler") and piece.sort != "mark"]
    plain = all(piece.has("danger.sick", "subject", "act.have") for piece in said[1:])  # "no headache", "yes i have"
    if not said or not plain or not said[0].has("state.yes", "state.no", "not.rather"):
        return None
    return _taken(question.options[0 if said[0].has("state.yes") else 1])


def _confirmed(pieces, question, words):
    said_yes = pieces[0].has("state.yes")
    if not said_yes:
        return None
    if question.code == "change":
        return _taken(question.options[0])
    if len(question.options) > 1 and all(piece.has("filler", "state.yes") or piece.sort == "mark" for piece in pieces):
        return _taken(question.options[1])
    numbers = [piece for piece in gather(pieces, words) if isinstance(piece, Measure) and piece.readings]
    return next((_taken(form) for form in question.options if numbers and _repeats(numbers[0].readings[0], form)), None)


def _repeats(value_m, form):
    """True where a length is one of a form's."""
    return any(abs(value_m - value) < 0.005 for value in answers.lengths(form))


def _taken(form):
    """A form that was asked about, understood; with the site it was about."""
    return Understood((form,), site=form.get("site"))
