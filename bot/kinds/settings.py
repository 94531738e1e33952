"""The language and the units somebody reads."""

from bot.forms import Answer, Kind
from bot.phrases import T_, Series, Text

LANGUAGES = {
    "en": T_("English"),
    "sw": T_("Kiswahili"),
    "hi": T_("Hindi"),
    "hi-Latn": T_("Hindi in Latin letters"),
    "fr": T_("French"),
}
IF_UNREADABLE = {"hi": T_("If a phone does not show the letters, send: hindi roman.")}


def language(form, site, sender, now):
    wanted, here = form.get("lang"), site.rules.languages if site else None
    if here and wanted not in here:
        return Answer(T_("Here: %(list)s. Nothing changed.", list=Series(tuple(LANGUAGES[code] for code in here))))
    text = T_("Language noted: %(language)s.", language=LANGUAGES[wanted]) + IF_UNREADABLE.get(wanted, Text())
    return Answer(text, changes=(("language", wanted),))


def units(form, site, sender, now):
    wanted = form.get("units")
    text = (
        T_("Lengths come in m and cm from now on.") if wanted == "metric" else T_("Lengths come in m and in feet and inches from now on.")
    )
    return Answer(text, changes=(("units", wanted),))


LANGUAGE = Kind(
    name="lang",
    about=T_("Language: english, hindi, hindi roman, kiswahili, francais."),
    example=T_("language english"),
    cues=("act.language language", "language -number", "act.language"),
    grammar="setting",
    roles=(),
    answer=language,
    needs_site=False,
)
UNITS = Kind(
    name="units",
    about=T_("Units: metric or feet."),
    example=T_("units feet"),
    cues=("act.units unit -number", "act.units style", "style -number -part", "act.units -number"),
    grammar="setting",
    roles=(),
    answer=units,
    needs_site=False,
)
