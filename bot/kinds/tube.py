"""Two points levelled with a water tube: which is higher and by how much; set-ups that disagree are read again."""

from bot import foreman
from bot.forms import Answer, Entry, Kind
from bot.phrases import T_, Length, Size, lines
from bot.tape import Bound, Fine
from calc.checks import spread
from calc.errors import OutOfRange
from calc.setting_out import tube_level
from calc.sources import TUBE_M


def answer(form, site, sender, now):
    read = form.get("tube_m", ())
    if len(read) < 2 or len(read) % 2:
        head = foreman.head(site, T_("tube level"))
        return Answer(lines([head, T_("Nothing saved. Send water over first and second point, set-up after set-up: tube level nn nn cm.")]))
    pairs = list(zip(read[::2], read[1::2], strict=True))
    try:
        rise_m = tube_level(pairs)
    except OutOfRange:
        apart = {"apart": Fine(spread([first - second for first, second in pairs])), "most": Bound(2 * TUBE_M)}
        told = T_("Set-ups differ by %(apart)s, at most %(most)s: a bubble, or the tube moved. Nothing saved. Measure again.", **apart)
        return Answer(lines([foreman.head(site, T_("tube level")), told]))
    head = foreman.head(site, T_("tube level"), site.next_number)
    said = {"first": Length(tuple(read[::2])), "second": Length(tuple(read[1::2]))}
    texts = [T_("Water over first %(first)s, over second %(second)s.", **said), _stands(rise_m)]
    if len(pairs) == 1:
        texts.append(T_("Turn the tube end for end and send both set-ups."))
    return Answer(lines([head, *texts]), (Entry("tube", form.fields | {"rise_m": rise_m}),))


def _stands(rise_m):
    if abs(rise_m) <= TUBE_M:
        return T_("Level, as far as the tube can tell: %(most)s.", most=Bound(TUBE_M))
    if rise_m > 0:
        return T_("The second point is %(rise)s higher.", rise=Size(rise_m))
    return T_("The second point is %(rise)s lower.", rise=Size(-rise_m))


KIND = Kind(
    name="tube",
    about=T_("Tube level: water over the first and over the second point."),
    example=T_("tube level nn nn cm"),
    cues=("act.tube_level",),
    grammar="pegs",
    answer=answer,
)
