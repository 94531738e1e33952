"""A stage reported finished or not: missing readings, waits, hold or go."""

from bot import foreman, stops
from bot.days import DAY, date_at
from bot.forms import Alert, Answer, Entry, Field, Kind
from bot.phrases import T_, Amount, Clock, Day, Text, lines
from bot.stages import HOLD, STAGES, verdict
from bot.standing import JUDGED, applies, before, done_at, standing
from bot.titles import TITLES, WAITS


def answer(form, site, sender, now):
    stage = STAGES[form.get("stage")]
    head = foreman.head(site, stage.title, site.next_number)
    if form.get("state") != "done":
        rain = (
            T_("After rain look at sides, edge and water from above first.")
            if form.get("note") == "rain" and stops.stage_of(site) in stops.OPEN
            else Text()
        )
        text = lines([head, T_("noted as not done."), rain])
        return Answer(text, (Entry("stage", form.fields, "not_done"),))
    if not applies(stage, site):
        return Answer(T_("%(site)s: this plant has no %(stage)s. Nothing saved.", site=site.code, stage=stage.title))
    at = now - (form.get("ago_d") or 0) * DAY
    stands = standing(stage, site, at)
    stopped = _stopped(stands, stage, site) or _too_long_ago(stage, site, at)
    if stopped:
        return Answer(lines([head, T_("not complete yet."), *stopped]), (Entry("stage", form.fields, "not_enough"),))
    return _recorded(form, stage, site, sender, now, head)


def _stopped(stands, stage, site):
    """What stands against calling it done: earlier stages, readings, the time something must harden."""
    texts = []
    if stands.blocked_by:
        texts.append(foreman.first_finish(stands))
    if stands.outside:
        name, found = stands.outside[0]
        texts.append(foreman.reading(name, (found.worst,), found))
    if stands.missing:
        texts.append(foreman.wanted(stands.missing))
    if stands.until is not None and not texts:
        texts.append(T_("It may begin on %(day)s at the earliest: %(event)s.", day=Day(stands.until), event=WAITS[stands.waiting]))
        texts.append(foreman.colder(stands))
    if stands.dry and not texts:
        texts.append(foreman.too_dry(stands))
    return texts


def _too_long_ago(stage, site, at):
    """The text that a stage before it was done on a later day, or none."""
    for earlier in before(stage, site):
        done = done_at(earlier.name, site)
        if done is not None and date_at(done, site) > date_at(at, site):
            said = {"earlier": earlier.title, "done": Day(done), "day": Day(at)}
            return [T_("%(earlier)s was done %(done)s, after %(day)s. Count the days again.", **said)]
    return []


def _recorded(form, stage, site, sender, now, head):
    entry = Entry("stage", form.fields, "recorded")
    after = site.with_entries([entry], now, sender.person)
    stands, at = standing(stage, after, now), done_at(stage.name, after)
    ago = Amount(form.get("ago_d"), "days") if form.get("ago_d") else None
    done = T_("done %(days)s ago, recorded.", days=ago) if ago else T_("done, recorded.")
    texts, then = [head, done, stage.unchecked], Text()
    alerts = []
    if stage.hold == HOLD:
        texts.append(T_("HOLD: no next step before your supervisor releases it. Asked %(time)s.", time=Clock(now, now)))
        alerts.append(Alert("supervisor", _asked(after, stage, now, sender, ago)))
    elif stands.finished:
        texts += [foreman.keep_wet(stage.name, site, at), foreman.next_step(after, now)]
        then = foreman.card(after)
    if stage.hold == HOLD:
        texts.append(foreman.keep_wet(stage.name, site, at))
    elif stage.hold is not None or ago is not None:
        alerts.append(Alert("supervisor", _told(site, stage, sender, ago)))
    if stage.name == "first_fill":
        texts.append(T_("From now on NOBODY EVER goes in."))
    alerts.append(Alert("farmer", T_("%(site)s: %(stage)s reported done.", site=site.code, stage=stage.title)))
    return Answer(lines(texts), (entry,), tuple(alerts), then)


def _told(site, stage, sender, ago):
    """What the supervisor hears of a stage that needs no release: he may look at it, and how late it was told."""
    said = {"site": site.code, "stage": stage.title, "name": sender.name}
    done = T_("%(site)s %(stage)s done by %(name)s.", **said)
    if ago is not None:
        done = T_("%(site)s %(stage)s done %(days)s ago, says %(name)s only now. Waits count from then.", days=ago, **said)
    return done + T_("You may look at it; work goes on.")


def _asked(site, stage, now, sender, ago):
    """The request to release a hold, with the readings it is about."""
    named = {"site": site.code, "stage": stage.title, "name": sender.name, "time": Clock(now, now)}
    said = [T_("HOLD %(site)s %(stage)s, done by %(name)s %(time)s.", **named)]
    if ago is not None:
        said.append(T_("Done %(days)s ago, he says only now.", days=ago))
    for name in stage.wants:
        values, entry = site.reading(name, stage.kinds if name in JUDGED else ())
        if values is not None and name in JUDGED:
            said.append(foreman.tested(entry))
        elif values is not None and name in TITLES:
            said.append(foreman.reading(name, values, verdict(site, name, values)))
    stands = stops.standing(site, now)
    if stands:
        said.append(T_("STOP %(rules)s stands.", rules=", ".join(hazard.rule for hazard in stands[: stops.MORE])))
    said.append(T_("Send: release %(site)s %(stage)s, or refuse with the reason.", site=site.code, stage=stage.title))
    return lines(said)


KIND = Kind(
    name="stage",
    about=T_("Stages: say what is done, or not done."),
    example=T_("base done"),
    cues=(
        "part act.done",
        "part.base act.cast time",
        "part.base act.cast day",
        "part not",
        "part act.not_yet",
        "act.done",
        "act.site not",
        "part unsure",
        "part state.no",
        "part act.left",
        "part time act.need",
        "part time act.more",
        "part fraction",
        "part unit.percent",
    ),
    grammar="stage",
    fields=(Field("ago_d", (), 0, 60, "amount"),),
    answer=answer,
)
