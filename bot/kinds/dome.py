"""The dome: rise and string against plan, when it was cast, and taking its form out."""

from datetime import timedelta

from bot import foreman
from bot.days import kept_wet
from bot.forms import Field, Kind
from bot.phrases import T_, Amount, Text, lines
from bot.standing import days_of, done_at, wet_for
from calc.checks import NOT_ENOUGH, OUTSIDE, WITHIN

READINGS = ("dome_height_m", "dome_radius_m")


def fits(values):
    """A dome rises no more than its string is long, by a hand's breadth at most."""
    rise, string = values.get("dome_height_m"), values.get("dome_radius_m")
    return not (rise and string) or max(rise) <= 1.1 * min(string)


def answer(form, site, sender, now):
    def order(stands):
        return _order(form, stands)

    told = _cast(form, site, now)
    return foreman.check("dome", T_("dome"), READINGS, order, site, form, sender, now, _others(form), about="DCI", **told)


def _cast(form, site, now):
    """What the rules must know of the age of the dome and of taking out its form."""
    cast_at = done_at("dome", site)
    age_h = form.get("cast_h")
    if age_h is None and cast_at is not None:
        age_h = (now - cast_at).total_seconds() / 3600
    since = cast_at if form.get("cast_h") is None else now - timedelta(hours=form.get("cast_h"))
    told = {"cast_h": age_h, "form_least_d": days_of("strip dome", site, since, now), "stage": "dome"}
    told["cure_least_d"] = wet_for("dome", site, since, now)
    if form.get("strip_age_d") is not None:  # planned: the age it will have then
        told["cast_h"] = 24 * form.get("strip_age_d")
    told["strip_asked"] = True if form.get("strip") == "yes" else None
    told["cured_d"] = form.get("curing_d")
    if told["cured_d"] is None and cast_at is not None:
        told["cured_d"] = kept_wet("dome", site, cast_at) or None  # a log without wet days says nothing of them
    return told


def _others(form):
    texts = []
    if form.get("cast_h") is not None:
        texts.append(T_("Cast %(age)s ago.", age=Amount(form.get("cast_h"), "h", 0)))
    if form.get("curing_d") is not None:
        texts.append(T_("Kept wet %(days)s.", days=Amount(form.get("curing_d"), "days")))
    if form.get("least_temp_c") is not None:
        texts.append(T_("Night %(temp)s.", temp=Amount(form.get("least_temp_c"), "C")))
    if form.get("strip_age_d") is not None:
        texts.append(T_("Form out after %(age)s: asked.", age=Amount(form.get("strip_age_d"), "days")))
    elif form.get("strip"):
        texts.append(T_("Form out: asked."))
    return lines(texts)


def _order(form, stands):
    if stands == OUTSIDE:
        return T_("No deviation is accepted by SMS. Stop building up, call your supervisor.")
    if stands == NOT_ENOUGH:
        return T_("Swing the string at 8 places.") if form.get("dome_radius_m") else T_("Measure the rise again.")
    if form.get("strip"):
        return T_("Only your supervisor decides on the form. Ask him.")
    return T_("Size check only. Send: dome done.") if stands == WITHIN else Text()


KIND = Kind(
    name="dome",
    about=T_("Dome: rise, string at 3 places or more, cast when."),
    example=T_("dome high nnn cm string nnn nnn nnn cm"),
    cues=(
        "part.dome length",
        "part.dome bare",
        "part.dome act.cast",
        "field.radius number -part.pit -part.wall -part.base",
        "field.rope number",
        "act.strip",
    ),  # fmt: skip
    grammar="lengths",
    fields=(
        Field(
            "dome_height_m",
            ("field.height", "field.height_letter", "field.height_or_length", "field.rise"),
            0.2,
            2.0,
            many=True,
            bare=True,
            usual=(0.2, 1.2),
        ),  # fmt: skip
        Field("dome_radius_m", ("field.radius", "field.rope"), 0.9, 2.5, many=True, bare=True),
        Field("cast_h", ("act.cast",), 0, 2160, "hours"),
        Field("curing_d", ("act.cure",), 0, 28, "days"),
        Field("least_temp_c", ("act.night", "act.temp"), 0, 0, "celsius"),
        Field("strip", ("act.strip",), 0, 0, "flag"),
        Field("strip_age_d", ("act.strip",), 0, 90, "age"),
    ),
    answer=answer,
    fits=fits,
)
