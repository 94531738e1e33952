"""The gas pipe reckoned: the smallest bore, what it loses, the water trap. Who fits it is not the bot's to say."""

from datetime import timedelta

from bot import foreman, stops
from bot.cautions import CAUTIONS
from bot.forms import Answer, Entry, Field, Kind
from bot.phrases import T_, Amount, Size, Text, lines
from calc import sources as s
from calc.gas_pipe import design_flow_m3_h, loss_pa, smallest_size, trap_leg_m
from calc.levels import displaced
from calc.units import from_si

GAS_FITTER = ("G4",)


def answer(form, site, sender, now):
    stoves, lamps = form.get("stoves", 0), form.get("lamps", 0)
    flow_m3_h = design_flow_m3_h(stoves, lamps)
    length_m, least = form.get("pipe_length_m"), smallest_size(flow_m3_h, form.get("pipe_length_m"))
    size = form.get("pipe_size") or least
    lost_pa = loss_pa(flow_m3_h, length_m, size)
    within = lost_pa <= s.PIPE_LOSS_PA
    told = T_(
        "%(length)s, %(burners)s at once, %(flow)s.",
        length=Size(length_m, form.feet),
        burners=burning(stoves, lamps),
        flow=Amount(flow_m3_h, "m3/h", 2),
    )
    entry = Entry("pipe", form.fields | {"pipe_size": size}, "within" if within else "outside", GAS_FITTER)
    head = foreman.head(site, T_("gas pipe"), site.next_number)
    texts = [head, told, _bore(size, least, lost_pa), _at_half(site, lost_pa), _trap(site), T_(CAUTIONS["G4"].short)]
    return Answer(lines(texts), (entry,), then=_card(site, now))


def burning(stoves, lamps):
    """Stoves and lamps with their numbers."""
    said = {"stoves": int(stoves), "lamps": int(lamps)}
    if not lamps:
        return T_("stoves %(stoves)s", **said)
    return T_("stoves %(stoves)s + lamps %(lamps)s", **said) if stoves else T_("lamps %(lamps)s", **said)


def _card(site, now):
    """What to mind at the gas pipe, once a day."""
    last = site.last("pipe")
    return stops.card("pipe") if last is None or now - last.at >= timedelta(days=1) else None


def _bore(size, least, lost_pa):
    said = {"size": size, "least": least, "lost": water(lost_pa), "limit": water(s.PIPE_LOSS_PA)}
    if lost_pa > s.PIPE_LOSS_PA:
        return T_("Pipe %(size)s inch: outside, loses %(lost)s, at most %(limit)s. Take %(least)s inch.", **said)
    return T_("Pipe %(size)s inch: within, loses %(lost)s, at most %(limit)s.", **said)


def _at_half(site, lost_pa):
    """What the stove has left with the store half full, where that is little."""
    if site.design is None or not site.plan_released_by:
        return Text()
    levels = site.design.levels
    stove_pa = displaced(site.design.vessel, levels, levels.store_m3 / 2).pressure_pa - lost_pa
    if stove_pa >= s.STOVE_PRESSURE_PA:
        return Text()
    return T_("With half the gas only %(head)s at the stove: flame weak.", head=water(stove_pa))


def _trap(site):
    if site.design is None or not site.plan_released_by:
        return T_("Water trap: its depth follows from a fixed plan.")
    return T_("Water trap: %(leg)s of water or more.", leg=Size(trap_leg_m(site.design.levels.greatest_pressure_pa)))


def water(pressure_pa):
    """A small pressure as centimetres of water."""
    return Amount(from_si(pressure_pa, "cmH2O"), "cm water", 1)


KIND = Kind(
    name="pipe",
    about=T_("Gas pipe: its length and what burns at once; bore, loss and water trap come back for the fitter."),
    example=T_("pipe nn m n stoves n lamps"),
    cues=(
        "topic.gas_fitting burner length",
        "part.pipe burner number -act.test -act.pipe_test -act.leak -item -act.arrived -act.done",
        "part.pipe length -act.test -act.pipe_test -item -act.arrived -act.used -act.have -act.broken -act.buy -act.left -act.done "
        "-act.gauge -act.fell -field.heap -part.inlet -part.outlet -act.leak -act.cast -not",
    ),
    grammar="pipe",
    fields=(Field("stoves", (), 0, 10, "amount"), Field("lamps", (), 0, 10, "amount")),
    roles=("mason", "supervisor", "farmer"),
    answer=answer,
)
