"""What to write: the list, or one kind with one example that is no reading."""

from bot import stops
from bot.cautions import CAUTIONS
from bot.forms import Answer, Kind
from bot.kinds import why
from bot.phrases import T_

TOPICS = {
    "plaster": "coats", "cure": "curing", "sides": "release", "outlet": "levels", "inlet": "inlet_pipe", "gas": "gas_test",
    "gauge": "gas_test", "kitchen": "pipe", "days": "idle", "works": "finish", "first_fill": "fill", "first_gas": "vent",
    "handover": "record", "no_gas": "fault",
}  # fmt: skip


def answer(form, site, sender, now):
    from bot.kinds import BY_NAME

    topic = form.get("topic", "menu")
    topic = form.get("said", topic) if topic == "menu" else topic
    if topic in CAUTIONS and site is not None:
        return why.told(topic, site)
    kind = BY_NAME.get(TOPICS.get(topic, topic))
    if kind is None or topic == "menu":
        return Answer(
            T_(
                "Send HELP and one of: size, plan, layout, pit, base, wall, dome, string, levels, plaster, mix, buy, stock, cure, "
                "water test, gas test, pipe, fill, vent, fault, today, finish, crew, status, log, undo, why. Send readings with "
                "their units. Danger: in your own words."
            )
        )
    return Answer(kind.about + T_("Example: %(example)s.", example=kind.example), then=stops.card(topic))


KIND = Kind(
    name="help",
    about=T_("Help: what to write."),
    example="help pit",
    cues=("act.help", "act.how_write"),
    grammar="help",
    roles=(),
    answer=answer,
    needs_site=False,
)
LAST = Kind(
    name="help",
    about=T_("Help: what to write."),
    example="help pit",
    cues=("question -number -part -item",),
    grammar="help",
    roles=(),
    answer=answer,
    needs_site=False,
)
