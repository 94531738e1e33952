"""Whom the programme names, told where a text says that an engineer or a gas fitter must do it."""

from bot.phrases import T_, Text, lines

SAID = {"engineer": ("engineer",), "gas fitter": ("fitter",)}  # words of the sentences that call for one


def named(text, site):
    """The people to call for a text, as a Text: the first of each trade who is there for the site."""
    if not text or site is None or not site.rules.contacts:
        return Text()
    said = " ".join(str(source) for source, _ in text.sentences)
    wanted = [does for does, marks in SAID.items() if any(mark in said for mark in marks)]
    return lines(_told(row) for does in wanted for row in _first(does, site))


def _first(does, site):
    return [row for row in site.rules.contacts if row["does"] == does and (not row["sites"] or site.code in row["sites"])][:1]


def _told(row):
    said = {"name": row["name"], "number": row["number"]}
    return T_("Engineer: %(name)s, %(number)s.", **said) if row["does"] == "engineer" else T_("Gas fitter: %(name)s, %(number)s.", **said)
