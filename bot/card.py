"""The pocket card of a mason: eight texts to write, what to do in danger, whom to call; one small page."""

import re

from bot.pages import Pages
from bot.phrases import T_, show, word
from bot.titles import emergency

WIDE = {"metric": "nnn nnn nnn cm", "feet": "nn ft nn in nn ft nn in nn ft nn in"}
DEEP = {"metric": "nnn cm", "feet": "nn ft nn in"}
THICK = {"metric": "nn nn nn cm", "feet": "n in n in n in"}
TEXTS = {  # language -> (kind, what is written); n stands for the digit that was measured
    "en": (
        ("pit", "pit wide {wide} deep {deep}"), ("base", "base thick {thick}"), ("dome", "dome string {wide}"), ("stage", "pit done"),
        ("mix", "mix base n bags"), ("stock", "cement came nn bags"), ("today", "today"), ("undo", "undo"),
    ),
    "sw": (
        ("pit", "shimo upana {wide} kina {deep}"), ("base", "sakafu unene {thick}"), ("dome", "kuba kamba {wide}"),
        ("stage", "shimo tayari"), ("mix", "changanya sakafu mifuko n"), ("stock", "saruji imefika mifuko nn"), ("today", "leo"),
        ("undo", "futa"),
    ),
    "hi": (
        ("pit", "gaddha chaudai {wide} gehrai {deep}"), ("base", "farsh motai {thick}"), ("dome", "gumbad rassi {wide}"),
        ("stage", "gaddha ho gaya"), ("mix", "masala farsh n bori"), ("stock", "cement aaya nn bori"), ("today", "aaj"), ("undo", "hatao"),
    ),
    "fr": (
        ("pit", "fosse largeur {wide} profondeur {deep}"), ("base", "radier epaisseur {thick}"), ("dome", "coupole corde {wide}"),
        ("stage", "fosse finie"), ("mix", "melange radier n sacs"), ("stock", "ciment recu nn sacs"), ("today", "aujourd hui"),
        ("undo", "efface"),
    ),
}  # fmt: skip
HELP = {"en": "help", "sw": "msaada", "hi": "madad", "fr": "aide"}
ABOUT = {
    "pit": T_("Pit"),
    "base": T_("Base"),
    "dome": T_("Dome"),
    "stage": T_("A stage is done"),
    "mix": T_("Mix"),
    "stock": T_("Material came"),
    "today": T_("What to do today"),
    "undo": T_("Take back the last one"),
}


def texts(language, units):
    """(kind, example) of the card in a language, romanised where it has letters of its own."""
    named = {"wide": WIDE[units], "deep": DEEP[units], "thick": THICK[units]}
    return [(kind, text.format(**named)) for kind, text in TEXTS[_spoken(language)]]


def _spoken(language):
    return language.partition("-")[0]


def document(path, site, team, reader):
    """Write the card of a site as a PDF; `team` are (name, number) of its supervisors."""
    pages = Pages(path, "card", f"{site.code} card", site.rules.programme, letter=9.5, margin=18, single=True)
    pages.title(word(T_("%(site)s: what to write", site=site.code), reader))
    pages.text(word(T_("Put your own numbers on the lines, with their units."), reader))
    for kind, example in texts(reader.language, reader.units):
        pages.row((0.27, 0.73), (word(ABOUT[kind], reader), re.sub(r"\bn+\b", lambda found: "_" * (len(found[0]) + 1), example)))
    pages.heading(word(T_("DANGER: write it at once in your own words, as it is."), reader))
    pages.text(word(T_("Crack, water, gas smell, somebody down: all out first, then write. Nobody goes in to help."), reader))
    pages.text(word(T_("The bot answers STOP: stop, all out, call the supervisor."), reader), bold=True)
    pages.heading(word(T_("Supervisor"), reader))
    for name, number in team:
        pages.row((0.5, 0.5), (name, number), bold=True)
    pages.text(word(T_("What to write for a thing: send %(help)s and its name.", help=HELP[_spoken(reader.language)].upper()), reader))
    pages.text(show(emergency(site), reader))
    pages.save()
    return pages.count
