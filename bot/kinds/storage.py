"""How cement is kept at a site until it is used."""

from bot.forms import Answer, Kind
from bot.phrases import T_, Size, lines
from calc import sources as s


def answer(form, site, sender, now):
    said = {"floor": Size(float(s.STORE_FLOOR_M)), "wall": Size(float(s.STORE_WALL_M)), "bags": int(s.STORE_BAGS)}
    kept = T_(
        "Cement under a roof, on planks %(floor)s off the floor, %(wall)s off the walls, at most %(bags)s bags high, covered.", **said
    )
    age = T_("Oldest bag first. Over %(months)s months test it: send its age.", months=int(s.CEMENT_TIGHT_MONTHS))
    return Answer(lines([kept, age, T_("Lumps that do not crush: throw the bag out.")]))


KIND = Kind(
    name="storage",
    about=T_("Storage: how to keep cement until it is used."),
    example=T_("how to store cement"),
    cues=("act.storage -number",),
    roles=(),
    answer=answer,
    needs_site=False,
)
