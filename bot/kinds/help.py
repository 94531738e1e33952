"""What to write: the list, or one kind with one example that is no reading."""

from bot import stops
from bot.cautions import CAUTIONS
from bot.forms import Answer, Kind
from bot.kinds import why
from bot.phrases import T_, Text

TOPICS = {
    "plaster": "coats", "cure": "curing", "sides": "release", "outlet": "levels", "inlet": "inlet_pipe", "gas": "gas_test",
    "gauge": "gas_test", "kitchen": "pipe", "days": "idle", "works": "finish", "first_fill": "fill", "first_gas": "vent",
    "handover": "record", "no_gas": "fault", "sand": "silt", "cement": "stock", "bucket": "container",
    "containers": "container", "pan": "container",
    "distances": "siting", "money": "first", "price": "cost", "prices": "cost", "bill": "buy", "slab": "slabs", "ring": "ring",
    "temperature": "temp", "ground": "ground_water", "water": "water_test", "test": "gas_test", "mixed": "age", "bulking": "jar",
    "when_finish": "finish", "picture": "draw", "pictures": "draw", "drawing": "draw",
    "phone": "unlink", "lost": "unlink", "lost_phone": "unlink", "new_site": "newsite", "reported": "story",
    "materials": "account", "what_is_used": "account", "used": "account", "phases": "phase",
}  # fmt: skip


def answer(form, site, sender, now):
    from bot.kinds import BY_NAME

    topic, said = form.get("topic", "menu"), form.get("said", "").replace(" ", "_")
    said = TOPICS.get(said, said)
    topic = said or topic if topic == "menu" or said in BY_NAME else topic
    if topic in CAUTIONS and site is not None:
        return why.told(topic, site)
    kind = BY_NAME.get(TOPICS.get(topic, topic))
    if kind is None or topic == "menu":
        return Answer(
            T_(
                "Send HELP and one of: size, cost, first, buy, stock, siting, layout, plan, pit, base, wall, dome, string, levels, "
                "plaster, slabs, backfill, mix, sand, cement, bucket, temp, wet, water test, gas test, pipe, fill, vent, fault, today, "
                "when finish, log, undo. Readings with units. Danger: in your own words."
            ),
            then=_more(sender),
        )
    return Answer(kind.about + T_("Example: %(example)s.", example=kind.example), then=stops.card(form.get("topic", "menu")))


def _more(sender):
    """What a supervisor or a farmer may ask about besides."""
    roles = {role for _, role in sender.person.roles} if sender.person else set()
    if "supervisor" in roles:
        return T_("Supervisors also: release, refuse, fix, new site, admit, code, remove, lost phone, odd, audit. HELP and one says how.")
    return T_("Farmers also: phase, storage, what is used, reported, feed. Send HELP and one of them.") if "farmer" in roles else Text()


KIND = Kind(
    name="help",
    about=T_("Help: what to write."),
    example=T_("help pit"),
    cues=("act.help -act.size", "act.help -number", "act.how_write"),
    grammar="help",
    roles=(),
    answer=answer,
    needs_site=False,
)
LAST = Kind(
    name="help",
    about=T_("Help: what to write."),
    example=T_("help pit"),
    cues=("question -number -part -item",),
    grammar="help",
    roles=(),
    answer=answer,
    needs_site=False,
)
