"""Money: what something costs, and what a sum buys. No sum that is sent is ever a reading or kept."""

import re
from decimal import Decimal

from bot.forms import Ask, Form
from bot.reading.measures import Measure
from bot.reading.things import tags_of, volume_of
from calc.units import si

_SUM = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,2})?")  # a comma or three digits behind a point may be thousands: asked
_SURE = re.compile(r"[0-9]{4,9}")  # a number so long, without a word for money, is money all the same
NO_STAGE = ("kitchen", "sides", "manhole", "site")


def cost(line, used, kind, hints):
    """Of what: the whole plant, its stages, one stage, things, labour, or a plant of another size."""
    words = [piece for piece in line if not isinstance(piece, Measure)]
    tags = tags_of(line)
    fields = {}
    for at, piece in enumerate(line):
        if isinstance(piece, Measure) and piece.kind == "volume" and piece.values:
            fields[volume_of(tags)] = si(piece.value, piece.unit)
            used.add(at)
        elif isinstance(piece, Measure):
            return Ask(kind.name, "money_kept", {})
    if "money.price" not in tags:
        return Ask(kind.name, "money_kept", {})
    items = [piece.concept("item") for piece in words if piece.has("item") and not piece.has("item.all", "item.dung", "item.water")]
    items += ["labour"] if any(piece.has("crew", "role.mason", "act.labour_days", "person.any") for piece in words) else []
    stage = next((p.concept("part") for p in words if p.has("part") and p.concept("part") not in NO_STAGE), None)
    if items:
        fields["item"] = ",".join(dict.fromkeys(items))
    elif stage:
        fields["stage"] = stage
    elif "item.all" in tags:
        fields["each"] = "stage"
    return Form(kind.name, fields)


def first(line, used, kind, hints):
    """What to buy first, with the sum where one is named; one clear number, or it is asked for."""
    tags = tags_of(line)
    numbers = [at for at, piece in enumerate(line) if isinstance(piece, Measure)]
    said = {"text": " ".join(piece.text for piece in line)[:40]}
    if "not.not" in tags or any(tag.startswith("item.") for tag in tags) or len(numbers) > 1:
        return Ask(kind.name, "which_money", said)
    if not numbers:
        return Ask(kind.name, "which_money", said) if any(tag.startswith("money.") for tag in tags) else Form(kind.name, {})
    piece, behind = line[numbers[0]], line[numbers[0] + 1] if numbers[0] + 1 < len(line) else None
    strange = behind is not None and behind.sort == "word" and not behind.tags
    if piece.unit is not None or strange or not _SUM.fullmatch(piece.text) or not Decimal(piece.text):
        return Ask(kind.name, "which_money", said)
    if not any(tag.startswith(("money.", "act.first_what")) for tag in tags) and not _SURE.fullmatch(piece.text):
        return Ask(None, "of_what", {"text": piece.text})
    used.add(numbers[0])
    return Form(kind.name, {"money": piece.text})
