"""The language and the units somebody reads."""

from bot.forms import Answer, Kind
from bot.phrases import T_

LANGUAGES = {"en": T_("English"), "hi": T_("Hindi"), "sw": T_("Kiswahili"), "fr": T_("French")}


def language(form, site, sender, now):
    wanted = form.get("lang")
    text = T_("Language noted: %(language)s.", language=LANGUAGES[wanted])
    if wanted != "en":
        text += T_("Replies come in English for now; you may write in your own words.")
    return Answer(text, changes=(("language", wanted),))


def units(form, site, sender, now):
    wanted = form.get("units")
    text = (
        T_("Lengths come in m and cm from now on.") if wanted == "metric" else T_("Lengths come in m and in feet and inches from now on.")
    )
    return Answer(text, changes=(("units", wanted),))


LANGUAGE = Kind(
    name="lang",
    about=T_("Language: english, hindi, kiswahili, francais."),
    example="language english",
    cues=("act.language language", "language -number", "act.language"),
    grammar="setting",
    roles=(),
    answer=language,
    needs_site=False,
)
UNITS = Kind(
    name="units",
    about=T_("Units: metric or feet."),
    example="units feet",
    cues=("act.units unit -number", "act.units style", "style -number -part", "act.units -number"),
    grammar="setting",
    roles=(),
    answer=units,
    needs_site=False,
)
