"""The long text and the source of a caution, or of the figures behind the last reading."""

from bot import stops
from bot.cautions import CAUTIONS, caution
from bot.forms import Answer, Kind
from bot.phrases import T_
from bot.stages import limits
from calc.hazards import STOP, WARN, Hazard


def answer(form, site, sender, now):
    rule = form.get("rule") or _last_rule(site)
    if rule is not None:
        return told(rule, site)
    reading = next((e for e in reversed(site.live) if any(limits(site, name) for name in e.fields)), None)
    if reading is None:
        return Answer(T_("%(site)s: no caution and no checked reading on record.", site=site.code))
    name = next(name for name in reading.fields if limits(site, name))
    named = {"site": site.code, "number": reading.number, "source": limits(site, name).source}
    return Answer(T_("%(site)s #%(number)s: limits from %(source)s.", **named))


def _last_rule(site):
    told = next((entry for entry in reversed(site.log) if entry.cautions), None)
    return told.cautions[0] if told else None


def told(rule, site):
    """The Answer that tells a rule whole, with what held when it was last said at the site."""
    if rule not in CAUTIONS:
        return Answer(T_("%(site)s: no rule %(rule)s. Send WHY for the last caution.", site=site.code, rule=rule))
    found = next((Hazard(*each) for entry in reversed(site.log) for each in entry.held if each[0] == rule), None)
    level = found.level if found else STOP if CAUTIONS[rule].short.startswith("STOP") else WARN
    source = caution(rule, level).source
    return Answer(stops.told(found or Hazard(rule, level), site), then=T_("%(rule)s after: %(source)s.", rule=rule, source=source))


KIND = Kind(
    name="why",
    about=T_("Why: the long text and the source of the last caution."),
    example=T_("why"),
    cues=("act.why",),
    grammar="why",
    roles=("mason", "supervisor", "farmer", "deputy", "head"),
    answer=answer,
)
