"""Faults of a plant in use: what to look at next, one question at a time, the commonest cause first.

A look that is found ends the search with what to do; where nothing is found, or the find is not for a household to
mend, the supervisor is told. Nothing here sends anybody into a plant or a flame to a leak.
"""

from dataclasses import dataclass

from bot.phrases import T_, Text


@dataclass(frozen=True)
class Look:
    """One thing to look at: the question, what to do where the answer is yes, whether the supervisor is told.

    `facts` are what a yes reports to the danger rules: their STOP then stands before what to do.
    """

    ask: Text
    found: Text
    call: bool = False
    facts: tuple = ()


@dataclass(frozen=True)
class Fault:
    """A symptom: its title, its looks in order, the facts its danger rules read, the letters of those rules."""

    title: Text
    looks: tuple
    facts: tuple = ()
    about: str = ""


_LEAK = T_("Leak. Close the main valve, no flame within 10 m, soap water only. Your supervisor is told.")
_FITTER = T_("Close the main valve. Only the gas fitter mends it. Your supervisor is told.")
_DUNG = T_("Keep it out of the dung. Feed fresh dung and water every day, look again after 14 days.")
_PLAN = T_("Feed the dung and water of the plan every day. Send FEED for the amounts.")
_POISON = Look(T_("Medicine, soap or disinfectant in stable or dung these weeks?"), _DUNG)
_SOAP = Look(T_("Soap water on neck, valve and every joint: does it bubble?"), _LEAK, call=True)
_TRAP = Look(
    T_("Is there water in the trap, or does the pipe sag?"), T_("Drain the trap. Back again soon: the fitter lays the pipe with slope.")
)
_BLOCKED = Look(T_("Does the gauge show pressure, and the stove has no gas?"), _FITTER, call=True)
_LITTLE = Look(T_("Has less dung been fed than planned?"), _PLAN)

FAULTS = {
    "no_gas": Fault(
        T_("no gas"),
        (
            Look(
                T_("Filled less than 30 days ago, or is it cold?"),
                T_("Wait: 10 to 40 days, longer in the cold. No new dung until the gas burns."),
            ),
            Look(T_("Is the main valve or a stove cock closed?"), T_("Open it. No gas still: drain the water trap.")),
            _TRAP,
            _LITTLE,
            _BLOCKED,
            _SOAP,
            _POISON,
        ),
    ),
    "no_flame": Fault(
        T_("gas does not burn"),
        (
            Look(
                T_("Fewer than two full fillings let off outside since the fill?"),
                T_("Let them off outside, nobody near, no flame. Then try at the stove only."),
            ),
            _TRAP,
            Look(T_("Is the air hole of the burner wide open?"), T_("Close it half. Match first, then gas, at the stove only.")),
        ),
        (("first_gas", True),),
        "G",
    ),
    "low_pressure": Fault(
        T_("pressure low"),
        (
            Look(T_("Main valve closed 1 hour: does the gauge before it fall?"), _LEAK, call=True),
            Look(T_("Valve open, stoves closed 1 hour: does the gauge fall?"), _FITTER, call=True),
            _LITTLE,
            Look(
                T_("Is the overflow of the outlet blocked?"),
                T_("Clear it from outside with a pole: two people, wind at the back, never lean over."),
            ),
        ),
    ),
    "flame_jumps": Fault(T_("flame jumps"), (_TRAP,)),
    "yellow_flame": Fault(
        T_("yellow flame"),
        (
            Look(
                T_("Has anybody a headache, or feels weak or sick?"),
                T_("Get medical help."),
                call=True,
                facts=(("flame", "yellow"), ("symptom", True)),
            ),
            Look(
                T_("Is the air hole closed or the burner dirty?"),
                T_("Close the gas, let it cool, clean it, open the air hole. Yellow still: gas fitter."),
            ),
        ),
        (("flame", "yellow"),),
        "G",
    ),
    "flame_lifts": Fault(
        T_("flame lifts off"),
        (
            Look(T_("Does it sit when the cock is turned down?"), T_("Cook with the cock turned down.")),
            Look(T_("Is the air hole wide open?"), T_("Close it half. Match first, then gas.")),
        ),
        (("flame", "lifts"),),
        "G",
    ),
    "weak_flame": Fault(
        T_("flame weak"),
        (
            Look(
                T_("Is the gauge high while the flame is weak?"), T_("Jet or pipe is blocked. Close the valve, the gas fitter cleans it.")
            ),
            _TRAP,
            _LITTLE,
        ),
    ),
    "outlet_bubbles": Fault(
        T_("outlet bubbles"),
        (
            Look(
                T_("Was the gas not used for a day or more?"),
                T_("Cook, or let gas off outside, no flame within 10 m. Do not feed today."),
            ),
        ),
    ),
    "slurry_in_pipe": Fault(
        T_("slurry in gas pipe"),
        (
            Look(
                T_("Is the outlet brim-full and the gauge near zero?"),
                T_("Overfilled. Close the main valve, do not feed. Your supervisor is told."),
                call=True,
            ),
        ),
    ),
    "inlet_overflows": Fault(
        T_("slurry at the inlet"),
        (
            Look(
                T_("Is the overflow or the inlet pipe blocked?"),
                T_("Clear it from outside with a pole: two people, wind at the back, never lean over."),
            ),
            Look(T_("Is the gauge above its limit?"), T_("Use or let off gas outside, no flame within 10 m. Do not feed."), call=True),
        ),
    ),
    "no_overflow": Fault(
        T_("outlet never overflows"),
        (
            _LITTLE,
            Look(
                T_("Gas not used overnight: does the outlet level fall?"),
                T_("Slurry or gas is lost. Mark the level, measure again. Your supervisor is told."),
                call=True,
            ),
        ),
    ),
    "raw_slurry": Fault(
        T_("raw dung comes out"),
        (Look(T_("Is more fed than planned?"), _PLAN), Look(T_("Is dung put in at once, not mixed?"), T_("Mix dung and water 1:1 first."))),
    ),
    "scum": Fault(
        T_("scum"),
        (
            Look(
                T_("Is there straw or dry dung in the feed?"),
                T_("Take it out before mixing. Stir from the inlet with a pole: two people, wind at the back, no flame."),
            ),
            Look(T_("Is less water than dung fed?"), _PLAN),
        ),
    ),
    "less_gas": Fault(
        T_("less gas"),
        (
            Look(T_("Has it become colder?"), T_("Gas falls with the cold. Feed at noon, no more dung than the plan.")),
            _POISON,
            _LITTLE,
            _SOAP,
        ),
    ),
    "soil_bubbles": Fault(
        T_("bubbles on the soil"),
        (Look(T_("Does soap water bubble on the soil over the dome?"), _LEAK, call=True),),
    ),
    "plant_lifts": Fault(
        T_("plant lifts or tilts"),
        (
            Look(
                T_("Is it empty, and the ground wet?"),
                T_("Do not pump it. Keep everybody off and away. An engineer decides. Your supervisor is told."),
                call=True,
            ),
        ),
        (("groundwater_above_floor", True),),
        "O",
    ),
    "rust": Fault(T_("rust, sulphur"), (Look(T_("Are there iron parts in valve or stove?"), _FITTER, call=True),)),
    "seal_dry": Fault(T_("neck seal dry"), (Look(T_("Is there no water over the lid?"), T_("Top it up from outside, every week.")),)),
}
