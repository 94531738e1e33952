"""Sand looked at in a bottle or a jar: its silt, and how much it has swollen in the wet."""

from bot import foreman
from bot.days import date_at
from bot.forms import Answer, Entry, Field, Kind
from bot.phrases import T_, Number, lines
from calc import sources as s
from calc.errors import OutOfRange
from calc.measuring import bulking_from_jar, damp_volume, half_place, moisture_of, silt_share, silt_stands, wettest_moisture

TEN = 10.0  # measures of dry sand in the example that is told


def silt(form, site, sender, now):
    share, measured = _measured(form)
    stands = silt_stands(share, measured)
    said = {"silt": Number(100 * share), "most": Number(100 * s.SILT_GREATEST)}
    text = {
        "within": T_("silt %(silt)s %%: within, at most %(most)s %%.", **said),
        "outside": T_("silt %(silt)s %%: outside, at most %(most)s %%. Wash the sand or buy other sand, then test again.", **said),
        "not_enough": T_("silt %(silt)s %%: on the limit of %(most)s %%. Fill the bottle higher with sand, read again.", **said),
    }[stands]
    return Answer(lines([foreman.head(site, T_("silt"), site.next_number), text]), (Entry("silt", {"silt_share": share}, stands),))


def _measured(form):
    """(silt as a share of the sand, how well it was read off): by a rule, else by the places of the numbers told."""
    if form.get("silt_percent") is not None:
        return form.get("silt_percent") / 100, half_place(form.get("silt_percent")) / 100
    if form.get("sand_m"):
        return silt_share(form.get("silt_m"), form.get("sand_m")), s.FINE_M / form.get("sand_m")
    silt_high, sand_high = form.get("silt"), form.get("sand")
    return silt_share(silt_high, sand_high), min(half_place(silt_high), half_place(sand_high)) / sand_high  # one rule for both


def jar(form, site, sender, now):
    try:
        bulking = bulking_from_jar(form.get("damp"), form.get("flooded"))
    except OutOfRange as fault:
        read = Number(100 * fault.value)
        text = T_("sand does not bulk %(bulking)s %%: stir it well under water, let it settle, read again. Not saved.", bulking=read)
        return Answer(lines([foreman.head(site, T_("jar")), text]))
    texts = [
        foreman.head(site, T_("jar"), site.next_number),
        T_(
            "sand bulks %(bulking)s %%: 10 dry measures are %(damp)s damp. Mixes count it today only, for sand of this heap.",
            bulking=Number(100 * bulking),
            damp=Number(damp_volume(TEN, bulking)),
        ),
    ]
    return Answer(lines(texts), (Entry("jar", {"bulking": bulking, "date": date_at(now, site).isoformat()}),))


def jar_of(site, now):
    """The bulking by a jar test of this date [share], or None: sand of another day holds other water."""
    tested = site.last("jar")
    return tested.fields["bulking"] if tested is not None and tested.fields["date"] == date_at(now, site).isoformat() else None


def moisture_of_day(form, site, now):
    """The water in the sand by the jar of today, else by the word it is called with [share of its dry mass], or None."""
    jar = jar_of(site, now)
    if jar:
        return wettest_moisture(jar)
    if form.get("sand"):
        return float(moisture_of(form.get("sand")))
    return None if jar is None else 0.0


SILT = Kind(
    name="silt",
    about=T_("Silt: mud on the sand in the bottle test."),
    example=T_("silt nn sand nnn mm"),
    cues=("act.silt number",),
    grammar="silt",
    fields=(Field("silt_percent", (), 0, 100, "amount"), Field("sand_m", (), 0.01, 1, "amount")),
    answer=silt,
)
JAR = Kind(
    name="jar",
    about=T_("Jar: how much damp sand has swollen."),
    example=T_("jar damp nn flooded nn"),
    cues=("act.jar number -ratio -container", "act.damp act.flooded number"),
    grammar="jar",
    answer=jar,
)
