"""What to write: the list, or one kind with one example that is no reading."""

from bot import stops
from bot.forms import Answer, Kind
from bot.phrases import T_

TOPICS = {"plaster": "coats", "cure": "curing", "sides": "release", "outlet": "covers", "inlet": "stage", "layout": "stage"}


def answer(form, site, sender, now):
    from bot.kinds import BY_NAME

    topic = form.get("topic", "menu")
    kind = BY_NAME.get(TOPICS.get(topic, topic))
    if kind is None or topic == "menu":
        return Answer(
            T_(
                "Send: size, plan, pit, base, wall, dome, plaster, mix, buy, stock, status, log, undo, why, with the numbers and "
                "their units. For one of them send HELP and its name. Danger: send it in your own words."
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
