"""What was understood as plain values, under the keys of the labelled messages in tests/messages.tsv."""

from bot.forms import Ask, Confirm, Understood

CHECKS = {"gas_test", "water_test", "leak", "coats", "curing", "dome", "wall", "covers"}
STAGES = {"pit": "dig"}  # the labels call the stage after the work


def label(outcome):
    """Return {"outcome", "intent", "fields", "question", "alarm"} for an outcome of reading."""
    row = {"outcome": "unread", "intent": None, "fields": {}, "question": None, "alarm": list(outcome.alarm)}
    if isinstance(outcome, Understood):
        form = outcome.forms[0]
        row |= {"outcome": "infer" if form.inferred else "parse", **_form(form)}
        row |= {"inferred": list(form.inferred)} if form.inferred else {}
        row |= {"also": [_form(other) for other in outcome.forms[1:]]} if len(outcome.forms) > 1 else {}
    elif isinstance(outcome, Ask):
        row |= {"outcome": "ask", "intent": _intent(outcome.kind), "question": outcome.code}
        row |= {"options": [_form(option)["fields"] for option in outcome.options]} if outcome.options else {}
    elif isinstance(outcome, Confirm):
        row |= {"outcome": "confirm", "question": outcome.code, **_form(outcome.form)}
    return row


def _intent(kind):
    return "check" if kind in CHECKS else kind


def _form(form):
    fields = {name: list(value) if isinstance(value, tuple) else value for name, value in form.fields.items()}
    if form.kind == "stage" and "stage" in fields:
        fields["stage"] = STAGES.get(fields["stage"], fields["stage"])
    return {"intent": _intent(form.kind), "fields": fields}
