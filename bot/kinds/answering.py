"""An alarm answered by somebody of the office: seen, or closed with what was done. Neither clears anybody to go in."""

from bot import foreman
from bot.forms import Alert, Answer, Entry, Kind
from bot.people import OFFICE
from bot.phrases import T_, Clock, Series, lines
from bot.stages import STAGES
from bot.titles import ENTRIES

SIDES = ("E", "P", "X")  # first letters of the rules that a signature of the pit sides answers
UNNAMED = "X4"
TOLD = 5  # cases named in one text
NONE = T_("No alarm is open here.")


def called(case, whole=False):
    """What a case is about, in few letters: its gravest rule and how many more, or all of them; else the reading."""
    rules = case["rules"][:TOLD]
    if not rules:
        return ENTRIES.get(case["kind"], case["kind"])
    return ", ".join(rules) if whole or len(rules) == 1 else f"{rules[0]} +{len(rules) - 1}"


def by_release(case, stage):
    """True where the release of a stage, or of the pit sides, answers a case."""
    if stage == "sides":
        return bool(case["rules"]) and UNNAMED not in case["rules"] and all(rule[0] in SIDES for rule in case["rules"])
    return not case["rules"] and stage in STAGES and case["kind"] in STAGES[stage].kinds


def _listed(cases):
    return Series(tuple(T_("#%(number)s %(what)s", number=case["entry"], what=called(case)) for case in cases[:TOLD]))


def seen(form, site, sender, now):
    cases = [case for case in form.get("cases", ()) if form.get("entry") in (None, case["entry"])]
    if not cases:
        return Answer(T_("%(site)s:", site=site.code) + NONE)
    head = foreman.head(site, T_("seen"), site.next_number)
    said = {"list": _listed(cases), "name": sender.name, "time": Clock(now, now)}
    text = T_("%(list)s seen by %(name)s %(time)s.", **said)
    to_do = T_(
        "It stays on your list. When it is mended send: closed %(site)s #%(number)s, and what was done.",
        site=site.code,
        number=cases[0]["entry"],
    )
    entry = Entry("seen", {"cases": [case["entry"] for case in cases]}, None, (), cases[0]["entry"])
    told = Alert("mason", lines([head, text, T_("What was said stands.")]))
    return Answer(lines([head, text, to_do]), (entry,), (told,))


def closed(form, site, sender, now):
    cases = form.get("cases", ())
    wanted = [case for case in cases if form.get("entry") in (None, case["entry"])]
    if not wanted:
        return Answer(T_("%(site)s:", site=site.code) + NONE)
    if len(wanted) > 1:
        text = T_("%(site)s has %(count)s open: %(list)s. Nothing closed. Send: closed %(site)s, the # of one, and what was done.",
                  site=site.code, count=len(wanted), list=_listed(wanted))  # fmt: skip
        return Answer(text)
    (case,) = wanted
    if not form.get("reason"):
        text = T_(
            "%(site)s: why? Nothing closed. Send: closed %(site)s #%(number)s, and what was done.", site=site.code, number=case["entry"]
        )
        return Answer(text)
    head = foreman.head(site, T_("closed"), site.next_number)
    said = {"number": case["entry"], "what": called(case), "name": sender.name, "time": Clock(now, now), "reason": form.get("reason")}
    text = T_("#%(number)s %(what)s closed by %(name)s %(time)s: %(reason)s.", **said)
    stands = T_("It stays in the log. A STOP at the site stands until its readings or a release end it.")
    entry = Entry("closed", {"reason": form.get("reason")}, None, (), case["entry"])
    return Answer(lines([head, text, stands]), (entry,), (Alert("mason", lines([head, text, stands])),))


SEEN = Kind(
    name="seen",
    about=T_("Seen: an alarm was read; it stays on the list."),
    example=T_("seen SITE"),
    cues=("seeing code", "seeing_alone"),
    grammar="seen",
    roles=OFFICE,
    answer=seen,
    book="cases",
)
CLOSED = Kind(
    name="closed",
    about=T_("Closed: an alarm was mended, with what was done."),
    example=T_("closed SITE, what was done"),
    cues=("closing code",),
    grammar="closed",
    roles=OFFICE,
    answer=closed,
    book="cases",
    private=True,
    proof=True,
)
