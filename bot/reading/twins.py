"""Words on the same keys of a telephone with twelve: "sit 190 x 315" is a pit, "case 10 cm" a base."""

from dataclasses import replace

from bot.forms import Ask, Form, Understood, Unread
from bot.reading.measures import Measure

TWINS = {"sit": "part.pit", "case": "part.base", "care": "part.base", "food": "part.dome", "sad": "field.radius"}
NAMED = {**TWINS, "done": "part.dome"}  # before the name of a reading: "done ht 65cm"

DONE = "food"  # on the keys of done, but also food


def taken(line):
    """The line with the twin that begins it read as the word meant and that word, or (None, None): only before a number or its name."""
    if len(line) < 2 or isinstance(line[0], Measure) or not (isinstance(line[1], Measure) or line[1].has("field")):
        return None, None
    meant = (TWINS if isinstance(line[1], Measure) else NAMED).get(line[0].text)
    return ((line[0]._replace(tags=frozenset({meant})), *line[1:]), meant) if meant else (None, None)


def read(outcome, line, again):
    """The outcome; where nothing was understood, the one of the line with the twin in its place, told as inferred."""
    lost = isinstance(outcome, Unread) or (isinstance(outcome, Ask) and (outcome.kind is None or outcome.code == "which_stage"))
    if lost and [getattr(piece, "text", "") for piece in line[1:]] == [DONE] and line[0].has("part"):
        return Ask("stage", "done_or_not", {"stage": line[0].concept("part")})
    other, meant = taken(line) if lost else (None, None)
    if other is None:
        return outcome
    found = again(other)
    if not isinstance(found, Understood) or len(found.forms) != 1:
        return found if isinstance(found, Ask) else outcome
    (form,) = found.forms
    said = f"keyword={meant.partition('.')[2]}"
    return Understood((replace(form, inferred=(*form.inferred, said)),)) if isinstance(form, Form) else outcome
