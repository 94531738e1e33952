"""What is said about each danger: rule id -> a short and a long text, with the source of the rule.

A short text holds the action in 100 characters, a long one the reason in 300, both with their slots filled.
`%(name)s` slots bear the names of the values of `calc.hazards.Hazard`; whoever sends the text fills them with
worded values, and `OWN_SLOTS` with what only he knows. A long text whose slot has no value gives way to the short.
"""

from dataclasses import dataclass

OWN_SLOTS = ("emergency", "fact", "text", "release", "reading", "time", "stage", "facts")


def N_(text):
    """Mark a text for the catalogue."""
    return text


@dataclass(frozen=True)
class Caution:
    """The texts of one rule and the source it stands on."""

    short: str
    long: str
    source: str


def caution(rule, level):
    """Return the Caution for a rule at a level; most rules say the same at each of theirs."""
    return AT_LEVEL.get((rule, level), CAUTIONS[rule])


CAUTIONS = {
    "P1": Caution(
        N_("Before digging: ask owner and utility about buried cables, pipes, drains. Mark them."),
        N_(
            "Not yet reported: buried services. Ask the owner and the local utility where cables, water, gas and drain "
            "lines run. Mark them on the ground. Dig by hand near a mark. If you hit a cable or pipe, get out, keep "
            "everyone back and tell your supervisor."
        ),
        "29 CFR 1926.651(b)(1)-(4); ILO building code 1972, 31.1.2-31.1.4",
    ),
    "P2": Caution(
        N_("STOP. Old pit or bad smell near. All out of the pit. No one in until air is tested."),
        N_(
            "STOP. A latrine, manure pit or old digester is near, or the pit smells. Bad gas can seep in and lie at "
            "the bottom. All out now. No flame. Nobody goes back until a trained person with a gas meter has tested "
            "the air. No smell proves nothing."
        ),
        "29 CFR 1926.651(g)(1) (4 ft, oxygen 19.5 %); NIOSH 90-103; 5 m: practice of this house",
    ),
    "P3": Caution(
        N_("House or wall closer than the pit is deep. Ask an engineer before you dig deeper."),
        N_(
            "The pit is planned deeper than its distance to a house, wall, tree, road or pole. Digging can make it "
            "fall, or it can push the pit side in. Do not dig deeper. Move the pit or get an engineer to decide. The "
            "bot cannot judge foundations."
        ),
        "29 CFR 1926.651(i) (from memory); distance of one depth: practice of this house",
    ),
    "P4": Caution(
        N_("Power line near. Keep rods, pipes, ladders and tippers well away. Ask the line owner."),
        N_(
            "A power line is close. Keep long rods, pipes, ladders and tipping trucks well away. Electricity can jump "
            "across a gap. Never measure the height of a line with a rod or tape. The line owner must tell you the "
            "distance to keep."
        ),
        "29 CFR 1926.416, 1926.1408 and HSE GS6 (from memory); 10 m: practice of this house",
    ),
    "E1": Caution(
        N_("STOP. Pit 1.2 m or deeper and no ladder reported. Put a ladder in before anyone goes down."),
        N_(
            "STOP. At 1.2 m or deeper everyone needs a fixed way out. Put in a strong ladder or cut steps before "
            "anyone goes down. Rope, pole or a lift by hand does not count. When it stands and is tied send LADDER and "
            "the cm above the edge."
        ),
        "29 CFR 1926.651(c)(2); CPWD safety code (from memory); Norway 21-5",
    ),
    "E2": Caution(
        N_("Ladder: 1 m above the edge, foot out 1 for 4 up, tied at top, standing on the pit floor."),
        N_(
            "Check the ladder: top 1 m or more above the ground edge, foot 1 step out for every 4 up, tied at the top, "
            "standing firm on the pit floor, no broken rung, within 7 m of each worker. Fix it before the next person "
            "goes down."
        ),
        "29 CFR 1926.1053(b)(1), (b)(5)(i); 1926.651(c)(2); Quebec 3.15.4; IS 3696-2, IS 3764 (from memory)",
    ),
    "E3": Caution(
        N_("STOP. 1.5 m or deeper with no slope or support. Nobody in. Call your supervisor."),
        N_(
            "STOP. This pit is 1.5 m or deeper and no signed slope or support is on record. A side can fall without "
            "warning: one cubic metre of soil is about 1.5 tonnes or more. Keep everyone out. A competent person must "
            "choose slope or support."
        ),
        "29 CFR 1926.652(a)(1) (5 ft); IS 3764 and CPWD safety code (from memory); Norway 21-4 has 2.0 m",
    ),
    "E4": Caution(
        N_("STOP. Side too steep for this soil. Keep out. Supervisor must decide slope or support."),
        N_(
            "STOP. Reported: %(deepest_m)s deep, side goes back %(slope_run_m)s. For soil type %(soil_class)s it must "
            "go back at least %(slope_need_m)s from the floor edge. Keep everyone out. Cut back from the top, never "
            "from below. Then have a competent person check it."
        ),
        "29 CFR 1926 subpart P app. B table B-1; wet ground flatter: HSE Excavations",
    ),
    "E5": Caution(
        N_("Soil not known: treated as loose soil (type C). A trained person must look and test."),
        N_(
            "Soil type is not reported, so the bot uses the weakest type (C): 1.5 m back for each 1 m down. The bot "
            "cannot tell soil type. A competent person must look at it and do a hand test, again after rain or when "
            "the layer changes."
        ),
        "29 CFR 1926 subpart P app. A (b), (c)",
    ),
    "E6": Caution(
        N_("Water, cracks or filled ground: use the weaker soil type. Check slope again."),
        N_(
            "You reported water, cracks, shaking from traffic, or ground that was dug before. The soil now counts as a "
            "weaker type and the side needs a flatter slope. Old check is cancelled. Keep out until the side is "
            "checked again."
        ),
        "29 CFR 1926 subpart P app. A (b)",
    ),
    "E7": Caution(
        N_("STOP. Ground crack or movement. Everyone out now and back from the edge. Call supervisor."),
        N_(
            "STOP. Cracks, bulging or falling lumps mean the side may come in at any moment. Everyone out and well "
            "back from the edge. Do not go in to fetch tools. Keep children and animals away. Only a competent person "
            "may say the pit can be used again."
        ),
        "29 CFR 1926 subpart P app. B (b), signs of distress; ILO 1972 31.1.6",
    ),
    "E8": Caution(
        N_("STOP. Water in the pit. Come out. Sides get weak. Drain first, then have it checked."),
        N_(
            "STOP. Water in the pit makes sides soft and can hide a deep spot. Come out. Lead rain water away from the "
            "edge and drain from a side sump, pump standing on the ground outside. After draining, a competent person "
            "must check before work goes on."
        ),
        "29 CFR 1926.651(h)(1); OSHA letter of 23 March 1992; 29 CFR 1926 subpart P app. A, type C",
    ),
    "E9": Caution(
        N_("Old check no longer counts (rain, new day or deeper). Check the sides before going in."),
        N_(
            "The last pit check is no longer valid: a new shift started, it rained, or the pit changed. Nobody goes in "
            "until the sides, edge, water, ladder and support are looked at again from above. Then send CHECK with "
            "today's readings."
        ),
        "29 CFR 1926.651(k)(1); HSE Excavations; ILO 1972 31.1.6; 12 h and 0.1 m: practice of this house",
    ),
    "E10": Caution(
        N_("STOP. Soil heap at the edge. Move it back 1.5 m or half the depth, whichever is more."),
        N_(
            "STOP. The soil heap is too near. Its weight breaks the edge and lumps roll in. Nobody in the pit while it "
            "is moved. Put the foot of the heap at least 1.5 m back, or half the pit depth if that is more. Measure "
            "from the edge to the foot of the heap."
        ),
        "29 CFR 1926.651(j)(2) (2 ft); Norway 21-5 (1 m); CPWD safety code (from memory)",
    ),
    "E11": Caution(
        N_("Keep bricks, sand, animals and vehicles at least one pit depth from the edge."),
        N_(
            "Heavy things near the edge push the side in. Keep bricks, sand, mixer, animals and vehicles back by at "
            "least the depth of the pit, and never less than 1.5 m. No vehicle may come close while a person is in the "
            "pit."
        ),
        "29 CFR 1926.651(f), (j) (from memory); distance of one depth: practice of this house",
    ),
    "E12": Caution(
        N_("STOP. Pit is wider below than on top. Overhang can drop. All out. Supervisor decides."),
        N_(
            "STOP. Your readings show the pit wider at the bottom than at the top, so the side hangs over. It can drop "
            "with no warning. All out. If you swapped the two readings, send them again with TOP and BOT. If not, a "
            "competent person must decide."
        ),
        "29 CFR 1926 subpart P app. B table B-1: vertical only in stable rock",
    ),
    "E13": Caution(
        N_("STOP. No petrol or diesel engine in or near the pit. Exhaust kills without smell. All out."),
        N_(
            "STOP. Engine exhaust has carbon monoxide. It fills a pit, has no smell and kills fast. Bring everyone "
            "out, then stop the engine from outside. Put pump or generator on open ground, downwind, well away. "
            "Headache or dizzy means out at once and get help."
        ),
        "NIOSH criteria for carbon monoxide 1972; 3 m: practice of this house",
    ),
    "E14": Caution(
        N_("STOP. Electric pump in water: nobody in the pit. Unplug before anyone goes down."),
        N_(
            "STOP. Water plus a mains pump can kill. Nobody in the pit while the pump is connected. Plug out at the "
            "supply before anyone goes down or moves it. Cable joints stay dry and off the ground. Only an electrician "
            "may fit the supply and cut-out."
        ),
        "IEC 60364-7-704 and common site rule (from memory)",
    ),
    "E15": Caution(
        N_("STOP. Depth above 4 m is outside this bot. Check the reading. An engineer must decide."),
        N_(
            "STOP. %(deepest_m)s is deeper than any plant this bot covers. If it is a typing or unit mistake, send it "
            "again with the unit. If it is right, keep everyone out: an engineer must design the pit. The bot gives no "
            "further figures for it."
        ),
        "29 CFR 1926.652(b), (c), app. F (20 ft); 4 m: practice of this house",
    ),
    "E16": Caution(
        N_("Before you leave: strong fence or cover all round. Children and animals fall in."),
        N_(
            "The pit is open and no fence is reported. Before you leave, put a strong fence 1 m high all round, 1 m "
            "back from the edge, or a cover that cannot slide. Tell the family. Rain can fill it overnight. Take the "
            "ladder out. Send FENCE and its height in cm."
        ),
        "29 CFR 1926.501(b)(7) (from memory); WHO, Preventing drowning, 2017; 0.5 m: practice of this house",
    ),
    "E17": Caution(
        N_("Never alone in the pit. One grown person stays up and watches sides and edge."),
        N_(
            "Someone is in the pit and no watcher is reported. One grown person must stay at the top, look for cracks "
            "and falling soil, keep people back from the edge and call help. The watcher does not go in to rescue. "
            "Send WATCH YES."
        ),
        "Quebec 3.15.4",
    ),
    "E18": Caution(
        N_("Even a shallow side can bury a bent worker. Stay upright, look at the edge often."),
        N_(
            "This pit is under 1.5 m but loose soil can still bury a person who kneels or bends. Look for cracks at "
            "the edge before going in and after each break. Cut loose lumps down from the top. If unsure, slope it "
            "back."
        ),
        "HSE Excavations: no ground can be trusted to stand; guide of a plant-hire firm",
    ),
    "E19": Caution(
        N_("STOP. No one under 18 in the pit, in the dome, at height or on heavy lifts."),
        N_(
            "STOP. A person under 18 is reported for pit, dome, height or heavy lifting work. This is not allowed "
            "under international labour rules and most laws. Send the young person out and use a grown trained worker."
        ),
        "ILO C182 and R190 para 3 (from memory); ILO 1972 chapter 1.6",
    ),
    "W1": Caution(
        N_("STOP. Platform 2 m or higher with no rail. Fit a rail and toe board before work."),
        N_(
            "STOP. The working platform is 2 m or more above the level below and no rail is reported. Fit a firm top "
            "rail near waist height, a middle rail and a toe board, full-width planks and a tied ladder. Drums, loose "
            "bricks and a single plank are not a platform."
        ),
        "ILO code 1992 (from memory); 29 CFR 1926.451(g)(1); IS 3696-1, IS 4014-2 (from memory)",
    ),
    "W2": Caution(
        N_("Platform 1.5 m or more: use a tied ladder. Do not climb the frame or the wall."),
        N_(
            "Platforms 1.5 m or more above ground need a proper tied ladder. Do not climb the frame, the fresh wall or "
            "a barrel. Keep one hand free, bring bricks up with a bucket and rope, nobody below."
        ),
        "IS 3696-2:1991 foreword; 29 CFR 1926.451(e)(1) (from memory)",
    ),
    "W3": Caution(
        N_("Fill soil behind the wall in thin even layers all round, only when the mortar is hard."),
        N_(
            "Fill behind the wall evenly all round, in layers of 30 cm or less, tamped by hand. Filling one side high "
            "can push the fresh wall in on people. No vehicle or roller. Nobody inside while soil is tipped. Your "
            "design sheet says how old the wall must be."
        ),
        "fixed-dome manuals and 29 CFR 1926.706(b) (from memory); 0.3 m: practice of this house",
    ),
    "W4": Caution(
        N_("STOP. Nobody under a load. Empty the pit while bricks, buckets or stones go down."),
        N_(
            "STOP. People are below while things are lowered. Get them out from under the load first. Use a tied "
            "bucket, never throw bricks. Check the rope, knot and handle. Helmet on for all in the pit."
        ),
        "29 CFR 1926.651(e)",
    ),
    "C1": Caution(
        N_("Wet cement burns late and deep. Gloves, boots, long trousers. Wash off at once."),
        N_(
            "Wet cement eats skin and may not hurt until late. Waterproof gloves, boots, long trousers, knee boards. "
            "Do not kneel in it. Wash splashes off at once with clean water, change wet clothes, keep a full bucket of "
            "clean water near. Deep sore or burn: health post."
        ),
        "HSE CIS26 rev2",
    ),
    "C2": Caution(
        N_("STOP. Cement in eye: rinse with clean water 20 minutes, then go to a health post now."),
        N_(
            "STOP. Rinse the eye now with plenty of clean water for 20 minutes, lid held open, water running away from "
            "the other eye. Do not rub. Then go to a doctor or health post even if it feels better. %(emergency)s"
        ),
        "HSE CIS26 (serious eye burns); first-aid practice (from memory)",
    ),
    "C3": Caution(
        N_("Dust harms lungs for life. Wet it, stand upwind, wear a tight mask. No dry cutting."),
        N_(
            "Dust from stone, brick, sand and cement scars lungs for life. Wet the piece before cutting or chipping, "
            "cut outside the dome, stand upwind, wear a tight dust mask (N95, FFP2 or better), do not sweep dry. A "
            "cloth does not stop fine dust."
        ),
        "29 CFR 1926.1153",
    ),
    "C4": Caution(
        N_("Over 25 kg: use a barrow, split it or get help. A 50 kg bag is too much to lift alone."),
        N_(
            "A full 50 kg cement bag is twice the usual guide of 25 kg and over the guide even for two. Use a barrow "
            "or slide it, or carry half. Keep it close, bend knees, do not twist. Less when it is hot, far, on a "
            "ladder or often. A guide, not a promise."
        ),
        "HSE L23 and INDG143 (from memory); NIOSH lifting equation 1994; ILO R128 (from memory)",
    ),
    "D1": Caution(
        N_("STOP. Too early to take out the form: age %(form_age_d)s, least %(form_need_d)s. Dome can fall. Wait."),
        N_(
            "STOP. Cast %(form_age_d)s ago; least time on record is %(form_need_d)s. Leave form, earth and props "
            "alone. A young dome can fall on the people below. Days are full 24 h days from the end of casting. Cold, "
            "blended cement or poor curing need more time."
        ),
        "IS 456:2000 11.3.1; 29 CFR 1926.703(e) (from memory); least of 7 days: practice of this house",
    ),
    "D2": Caution(
        N_("Cold slows concrete. Under 15 C wait longer. Under 5 C do not cast."),
        N_(
            "Night temperature: %(least_temp_c)s. The day table holds only at 15 C or more. Under 15 C the designer "
            "must give a longer time before the form is taken out. Under 5 C do not cast; fresh concrete that freezes "
            "is lost."
        ),
        "IS 456:2000 11.3.1; IS 7861-2 (from memory)",
    ),
    "D3": Caution(
        N_("Keep concrete and plaster wet 7 days; 10 in hot dry air or with blended cement; 14 with both."),
        N_(
            "Wet curing: %(cured_d)s; target is %(cure_need_d)s: 7, or 10 in hot dry air or with blended cement, 14 "
            "with both. Dry concrete cracks and leaks gas. Cover with wet sacks, wet 3 or more times a day. Missed "
            "days do not count. Cast early or late when it is very hot."
        ),
        "IS 456:2000 13.5.1; IS 7861-1 (from memory)",
    ),
    "D4": Caution(
        N_("STOP. Keep off the dome. No people, bricks or soil dumps yet. No vehicle ever."),
        N_(
            "STOP. The dome is too young for load, or a vehicle is on or near it. Get off and take the load away by "
            "hand from the side. Nobody under the dome. Fence the plant so carts, tractors and cattle can never cross "
            "it."
        ),
        "practice of this house, on IS 456:2000 11.3.1",
    ),
    "D5": Caution(
        N_("STOP. Dome crack or sag. Nobody under or on it. Do not fill. Call supervisor."),
        N_(
            "STOP. A crack, sag or bulge is reported. Nobody under or on the dome. Do not plaster over it, do not fill "
            "with soil, water or dung. Send a photo to your supervisor by another way. An engineer decides repair or "
            "rebuild."
        ),
        "practice of this house: a crack is the engineer's to judge",
    ),
    "D6": Caution(
        N_("Take mould out from the opening inward. Watcher outside. Any crack or dust fall: out."),
        N_(
            "First hours after the earth comes out are the most dangerous. Work from the manhole inward, top of the "
            "heap first, never dig a cave under it. Ladder in the opening, watcher outside, helmet on. Any crack, dust "
            "fall or sound: out at once."
        ),
        "practice of this house; HSE Excavations on falling material",
    ),
    "I1": Caution(
        N_("Inside the dome: both openings open, ladder, watcher outside, short turns, no flame."),
        N_(
            "A closed dome holds bad air even when new. Open inlet, manhole and gas pipe. Blow fresh air in. Watcher "
            "stays outside all the time and never goes in. Battery lamp only. Short turns. Headache, dizzy or sleepy: "
            "out at once. Your local rules may need a permit."
        ),
        "29 CFR 1926.1201-1213 (part from memory); 29 CFR 1910.146(b)",
    ),
    "I2": Caution(
        N_("STOP. No solvent paint, wax melting, fuel lamp or engine in the dome. Out now."),
        N_(
            "STOP. Fumes and flame inside a dome can poison or explode. All out. Use only the water-based coat on your "
            "design sheet, with air blown in. Anything else needs a trained confined-space team. Melt wax outside, in "
            "the open. Battery lamp only."
        ),
        "29 CFR 1910.146(b), hazardous atmosphere; NIOSH criteria for carbon monoxide 1972",
    ),
    "I3": Caution(
        N_("STOP. Everyone out to fresh air now. If someone cannot move, do NOT go in. Get help."),
        N_(
            "STOP. Dizzy, headache, sleepy or sick means bad air. Everyone who can walk comes out now. Lie down in "
            "fresh air, loosen clothes. If someone cannot come out, do not go in after them: blow air in from outside "
            "and get rescue. %(emergency)s"
        ),
        "NIOSH 90-103; university extension text on symptoms",
    ),
    "L1": Caution(
        N_("Slab about %(slab_kg)s: too heavy by hand. Use bars, rollers or tripod. Keep feet away."),
        N_(
            "Slab %(slab_length_m)s x %(slab_width_m)s x %(slab_thickness_m)s weighs about %(slab_kg)s. Guide for so "
            "many people: %(lift_guide_kg)s. Do not lift it by hand. Cast smaller pieces, or slide on planks with bars "
            "and rollers. Nobody in the hole below. No fingers under it."
        ),
        "IS 875-1 and HSE L23 (from memory); NIOSH lifting equation 1994; 75 kg: practice of this house",
    ),
    "L2": Caution(
        N_("STOP. Open hole. Stand guard and cover it now. A child can fall in and die."),
        N_(
            "STOP. An inlet, outlet or manhole is open or its cover is broken. Stand guard now and close it with a "
            "slab or a strong cover that a child cannot move. Then fence it. If someone has fallen into a used plant, "
            "do not climb in. %(emergency)s"
        ),
        "WHO, Preventing drowning, 2017; 29 CFR 1926.501(b)(7) (from memory)",
    ),
    "T1": Caution(
        N_("STOP. No test pressure on record for this plant. Ask your supervisor for the figure."),
        N_(
            "STOP. This plant has no test pressure on record. The bot will not guess one: too much pressure lifts and "
            "cracks the dome. Ask your supervisor to enter the figure from the design sheet, in cm of water. Then send "
            "TEST again."
        ),
        "practice of this house",
    ),
    "T2": Caution(
        N_("STOP. %(test_head_m)s is over limit %(head_limit_m)s. Get back, open valve slowly."),
        N_(
            "STOP. Pressure of %(test_head_m)s water is above the plant limit of %(head_limit_m)s. Move everyone off "
            "and away from the dome and the openings. Let it down slowly at the valve, in the open, no flame. Look for "
            "cracks from outside only. Tell your supervisor."
        ),
        "the plant's own design; 1.5 m: practice of this house; GB/T 4751 has 8 kPa (from memory)",
    ),
    "T3": Caution(
        N_("STOP. Never use compressor, cylinder or engine. Hand pump and open water tube only."),
        N_(
            "STOP. A compressor or cylinder can burst a dome: 7 bar is about 70 times the usual test. Use water level "
            "or a hand pump only, with an open water U-tube that blows out above the test figure. One person watches "
            "the tube all the time. Never use oxygen."
        ),
        "arithmetic: 7 bar is 71 m of water; practice of this house",
    ),
    "T4": Caution(
        N_("STOP. Nobody on the dome or over an opening while it is under pressure."),
        N_(
            "STOP. While the plant is under test pressure nobody stands on the dome, leans over an opening or works in "
            "the outlet. 1 m of water under a 2.5 m dome pushes up with about 5 tonnes. Read the tube from the side."
        ),
        "practice of this house; uplift by arithmetic",
    ),
    "T5": Caution(
        N_("Reading not usable: time too short, temperature changed or valve state unknown. Repeat."),
        N_(
            "This reading does not show tight or leaking. Sun and night change the pressure by several cm. Read start "
            "and end at the same hour, shade the dome, valve shut, same tube, at least %(test_least_h)s. A closed or "
            "blocked tube shows no drop too. Repeat."
        ),
        "gas law, computed; practice of this house",
    ),
    "T6": Caution(
        N_("STOP. Never look for a leak with a flame. Use soapy water and watch for bubbles."),
        N_(
            "STOP. A flame at a leak can explode or run back into the pipe. Put the flame out. Close the valve. Wet "
            "each joint with soapy water and look for bubbles. Open doors and windows first when indoors."
        ),
        "general gas safety texts",
    ),
    "G1": Caution(
        N_("STOP. Gas smell: no flame, no switch. Close valve at plant. Open up. All out."),
        N_(
            "STOP. Gas smell indoors. No flame, no smoking, touch no switch, no phone inside. Close the main valve at "
            "the plant if you can do it from outside. Open doors and windows on your way out. All out and stay out. "
            "Use the phone outside. %(emergency)s"
        ),
        "home gas texts; IEC 60079-20-1 (from memory); 29 CFR 1910.146(b), 10 % of the lower limit",
    ),
    "G2": Caution(
        N_("Gas smell near plant: no flame within 10 m. Close valve. Keep people upwind."),
        N_(
            "Gas smell near the plant. No fire, smoking, engine or welding within 10 m. Keep people and animals "
            "upwind. Close the main valve. Do not lean over an opening. Wet joints with soapy water to find it. If the "
            "smell stops suddenly, go away: strong gas kills the sense of smell."
        ),
        "home gas texts; US EPA IRIS hydrogen sulfide 2003; 10 m: practice of this house",
    ),
    "G3": Caution(
        N_("First gas is mixed with air. Let it off outside, no flame near. Light only at the stove."),
        N_(
            "The first gas holds air and can flash back into the plant. Let it go outside through the open pipe, "
            "nobody smoking near, until your trainer says so. Never light at the dome pipe. Try the flame only at the "
            "stove, doors open, match first, then gas."
        ),
        "biogas safety texts (part from memory)",
    ),
    "G4": Caution(
        N_("Gas pipes and stoves: only a licensed gas fitter or the programme's own may fit and sign."),
        N_(
            "The bot does not advise on fitting gas pipes, stoves, lamps, heaters or regulators. A licensed gas fitter "
            "or the programme's own must fit, soap-test and sign. Keep the valve at the plant closed until that is "
            "done."
        ),
        "licensed work; local code",
    ),
    "G5": Caution(
        N_("STOP. Bad flame or headache: close gas, open doors, go outside. Fitter must check."),
        N_(
            "STOP. A yellow or sooty flame makes carbon monoxide. Headache, weak or sick means you breathe it. Close "
            "the gas, open doors, all go outside, get medical help. Do not use the stove again until a gas fitter has "
            "checked it. %(emergency)s"
        ),
        "NIOSH criteria for carbon monoxide 1972; WHO indoor air 2010 (from memory)",
    ),
    "G6": Caution(
        N_("Stove needs air: one low and one high opening. Never use it in a sleeping room."),
        N_(
            "Keep the stove in a kitchen with one low and one high opening to outside and a door or window open while "
            "it burns. Never in a room where people sleep. Never leave it burning alone. Close both valves, stove and "
            "wall, after cooking. Local code gives the sizes."
        ),
        "practice of this house; sizes are country rules",
    ),
    "G7": Caution(
        N_("STOP. Gas pressure above plant limit. Use or vent gas outdoors. No flame near. Stop feed."),
        N_(
            "STOP. Gas pressure %(gas_head_m)s, plant limit %(gas_head_limit_m)s. Cook to use it, or let gas off "
            "outdoors at the pipe end with no flame or engine within 10 m. Do not feed today. Check that the outlet is "
            "free. Do not stand on the dome. Tell the fitter."
        ),
        "Biogas Digest vol. II; 1.5 m: practice of this house",
    ),
    "G8": Caution(
        N_("Do not suck the plant empty with valves shut. Air in the dome can explode."),
        N_(
            "The gas gauge is below zero or slurry is being taken out with the valves shut. Air may be drawn into the "
            "dome and mix with gas. Stop taking slurry, close the stove valve, no flame near, let slurry and gas come "
            "back. Tell the fitter."
        ),
        "household biogas safety text",
    ),
    "N1": Caution(
        N_("STOP. NEVER go in a used plant, even empty or open for days. Gas kills in one breath."),
        N_(
            "STOP. Nobody enters a used plant, inlet, outlet or slurry pit: not empty, not after airing, not with a "
            "rope or cloth mask. Gas hides under crust and in sludge. Work from outside with long tools or call a "
            "trained entry team with meters, air and rescue gear."
        ),
        "29 CFR 1910.146; 29 CFR 1926.1201-1213 (part from memory); NIOSH FACE 92-28",
    ),
    "N2": Caution(
        N_("STOP. DO NOT GO IN. Call rescue now. Blow air in from outside. Pull by rope only."),
        N_(
            "STOP. Do not go in, you will fall too. Shout for help and call rescue now. Blow fresh air in from "
            "outside, no flame. If a rope is already on the person, pull from outside. Keep others back. Out in fresh "
            "air and not breathing: start CPR. %(emergency)s"
        ),
        "NIOSH FACE 92-28; NIOSH 90-103",
    ),
    "N3": Caution(
        N_("Reading noted. It is NOT permission. The bot never opens a plant. Trained team only."),
        N_(
            "Reading noted with time and sender. This is not permission to enter. Stirring sludge can free deadly gas "
            "in seconds after a good reading. Entry is for a trained team with a permit, a live meter, air supply, an "
            "outside person and rescue gear."
        ),
        "29 CFR 1910.146(c), (d), permit and attendant (from memory)",
    ),
    "O1": Caution(
        N_("Toilet slurry can carry worms for a year. Not on food eaten raw. Gloves, boots, soap."),
        N_(
            "Slurry from a plant with a toilet still carries germs and worm eggs; digestion does not kill them all, "
            "eggs may live over a year. Store or compost as your health office says. Never on crops eaten raw. Gloves, "
            "boots, wash with soap, keep children away."
        ),
        "WHO guidelines 2006 vol. 4 (from memory); review of pathogen reduction in onsite sanitation",
    ),
    "O2": Caution(
        N_("Dung and slurry carry germs. Gloves, boots, soap. Cover cuts. Not on salad crops."),
        N_(
            "Use gloves and boots for dung and slurry. Cover cuts. Wash with soap before eating and before holding a "
            "child. Keep tools apart from kitchen things. Do not put it on salad or fruit near harvest. Keep it away "
            "from wells and streams; ask the local office how far."
        ),
        "7 CFR 205.203(c)(1) (from memory); biogas safety text",
    ),
    "O3": Caution(
        N_("Wet ground: do not empty the plant. It can crack or lift. Ask an engineer."),
        N_(
            "Ground water or flood is above the plant floor. Do not pump the plant empty; water outside can crack or "
            "lift it. Keep people off and away, keep covers on. Flood water near is full of germs. An engineer decides "
            "the next step."
        ),
        "practice of this house, structural",
    ),
    "O4": Caution(
        N_("Stirring frees deadly gas. Stand upwind, never lean over, two people, no flame."),
        N_(
            "Stirring or pumping slurry can free a burst of deadly gas. Two grown people, wind at your back, never "
            "lean over or kneel at the hole, no flame, children and animals far away. Tools too short? Get longer "
            "tools, do not climb in. Dizzy: walk away upwind."
        ),
        "NIOSH 90-103; US EPA IRIS hydrogen sulfide 2003",
    ),
    "V1": Caution(
        N_("Heat over the limit for this work. Shade, water each 15-20 min, rest more each hour."),
        N_(
            "Heat of %(wbgt_c)s WBGT is over the limit %(wbgt_limit_c)s for this work (%(work)s). Hard work in "
            "the morning, shade, a cup of water each 15 to 20 minutes, rest each hour, in pairs. New workers do "
            "less. Confused or falls down: cool with water, get help. %(emergency)s"
        ),
        "NIOSH 2016-106 8.1 and table 5-1; 3 C: practice of this house",
    ),
    "V2": Caution(
        N_("Very hot. Drink a cup each 15-20 min, rest in shade, no heavy work at midday."),
        N_(
            "It is very hot for digging and mixing. Drink a cup of water each 15 to 20 minutes, rest in shade, do "
            "heavy work early or late, watch each other. A pit has no wind and is hotter than the air reading. Dizzy "
            "or confused: shade, wet the skin, get help."
        ),
        "OSHA heat index guide (91, 103, 115 F); NIOSH 2014; air temperatures: practice of this house",
    ),
    "V3": Caution(
        N_("New worker in heat: short turns first days (20 percent on day 1, then 20 more a day)."),
        N_(
            "A new or returning worker is on a hot job. Day 1 only about one fifth of the shift in the heat, then one "
            "fifth more each day. A worker back after a break: half, then 60, 80, 100 percent. Most heat deaths are in "
            "the first days. Work in pairs."
        ),
        "NIOSH poster on getting used to heat, July 2014",
    ),
    "V4": Caution(
        N_("STOP. Thunder: leave pit, metal and trees. Go inside. Wait 30 min after last thunder."),
        N_(
            "STOP. If you hear thunder, lightning can reach you. Out of the pit, off ladders, away from metal, trees, "
            "water and the gas vent. Go into a solid house or a closed car. Wait 30 minutes after the last thunder. "
            "Then check the pit again: rain weakens its sides."
        ),
        "OSHA/NOAA FS-3863",
    ),
    "V5": Caution(
        N_("Electric work: only an electrician. No switch or socket near dome, pipe or valve."),
        N_(
            "The bot gives no wiring or generator advice. An electrician must do it and keep switches, sockets and "
            "engines away from dome, outlets and gas pipes. Do not use damaged cables or wet plugs. A cut-out (RCD) on "
            "the site supply saves lives."
        ),
        "licensed work; local code",
    ),
    "V6": Caution(
        N_("Dark: come out of the pit. Battery lamp only, never a flame lamp. Mark the edge."),
        N_(
            "It is dark. Bring people out of the pit or the dome. If something must still be done, use a battery lamp, "
            "never a flame, and mark the edge and the fence so that nobody walks in. Wait for daylight for the rest."
        ),
        "practice of this house; ILO 1972 chapter 2.2",
    ),
    "X1": Caution(
        N_("Reading not understood. Nothing saved. Send one number and its unit: DEPTH nnn CM."),
        N_(
            "I could not read %(text)s without guessing, so nothing is saved and nothing is checked. Send one number "
            "with one unit: DEPTH nnn CM, or DEPTH n FT n IN. Until then act as if nobody had measured."
        ),
        "practice of this house",
    ),
    "X2": Caution(
        N_("STOP. %(value)s is outside %(low)s to %(high)s. Not saved. Check unit, measure again."),
        N_(
            "STOP. %(value)s for %(fact)s is outside what a plant of this kind can have (%(low)s to %(high)s). It is "
            "not saved. Check the unit and the tape, measure again and send again. If it is really so, stop work and "
            "call your supervisor."
        ),
        "practice of this house",
    ),
    "X3": Caution(
        N_("Not reported: %(fact)s. It counts as NO until you send it."),
        N_(
            "To check this stage I still need: %(facts)s. Not reported counts as NO. The stage stays not complete. If "
            "people are in the pit, bring them out while you measure."
        ),
        "practice of this house",
    ),
    "X4": Caution(
        N_("STOP. In danger? Get out, do not go in after them. %(emergency)s"),
        N_(
            "STOP. I did not understand your message but it has a danger word. If anyone is hurt or gas, crack or fire "
            "is there: all out, nobody goes in after them, call for help by voice. %(emergency)s This bot can be slow "
            "and is not a rescue service. Then send HELP."
        ),
        "practice of this house",
    ),
    "X5": Caution(
        N_("Approval %(release)s no longer valid (new reading or too old). Ask for a new check."),
        N_(
            "Approval %(release)s was for reading %(reading)s at %(time)s. Something changed since then, so it does "
            "not count any more. Do not go on with %(stage)s. Ask your supervisor for a new check. The bot will tell "
            "you when it is given."
        ),
        "29 CFR 1926.651(k)(1); ILO 1972 31.1.6; the rest practice of this house",
    ),
}

AT_LEVEL = {  # where a rule is said at another level than its text above
    ("E1", "warn"): Caution(
        N_("Pit 1.2 m or deeper and no ladder reported. Put one in before anyone goes down."),
        N_(
            "At 1.2 m or deeper everyone needs a fixed way out. Put in a strong ladder or cut steps before anyone goes "
            "down. Rope, pole or a lift by hand does not count. When it stands and is tied send LADDER and the cm "
            "above the edge."
        ),
        CAUTIONS["E1"].source,
    ),
    ("E4", "warn"): Caution(
        N_("Side steeper than this soil allows. Cut it back from the top before you dig deeper."),
        N_(
            "Reported: %(deepest_m)s deep, side goes back %(slope_run_m)s. For soil type %(soil_class)s it should go "
            "back %(slope_need_m)s from the floor edge. Cut it back from the top, never from below, before anyone digs "
            "deeper."
        ),
        CAUTIONS["E4"].source,
    ),
    ("E8", "warn"): Caution(
        N_("Water in the pit: nobody goes in. Drain it from outside, then have the sides checked."),
        N_(
            "Water in the pit makes sides soft and can hide a deep spot. Nobody goes in. Lead rain water away from the "
            "edge and drain from a side sump, pump standing on the ground outside. After draining, a competent person "
            "must check before work goes on."
        ),
        CAUTIONS["E8"].source,
    ),
    ("E9", "stop"): Caution(
        N_("STOP. Old check no longer counts (rain, new day or deeper). Come out. Check from above."),
        N_(
            "STOP. The last pit check is no longer valid: a new shift started, it rained, or the pit changed. Come "
            "out. Nobody goes in until the sides, edge, water, ladder and support are looked at again from above. Then "
            "send CHECK with today's readings."
        ),
        CAUTIONS["E9"].source,
    ),
    ("E10", "warn"): Caution(
        N_("Soil heap near the edge, or not reported. Foot of it 1.5 m or half the depth away."),
        N_(
            "The soil heap is near the edge, or its distance was not sent. Put the foot of the heap at least 1.5 m "
            "back, or half the pit depth if that is more. Nobody in the pit while it is moved. Measure from the edge "
            "to the foot of the heap and send it."
        ),
        CAUTIONS["E10"].source,
    ),
    ("E10", "note"): Caution(
        N_("Soil heap: better 1.5 m from the edge or half the pit depth, whichever is more."),
        N_(
            "Put new soil further back. The foot of the heap belongs 1.5 m from the edge, or half the pit depth if "
            "that is more. Its weight breaks the edge. Measure from the edge to the foot of the heap."
        ),
        CAUTIONS["E10"].source,
    ),
    ("E11", "stop"): Caution(
        N_("STOP. Vehicle near the pit with people in it. All out first, then move it back."),
        N_(
            "STOP. A vehicle near the edge can push the side in on people. Everyone out of the pit. Then drive it back "
            "by at least the depth of the pit, and never less than 1.5 m. No vehicle may come close while a person is "
            "in the pit."
        ),
        CAUTIONS["E11"].source,
    ),
    ("C1", "warn"): Caution(
        N_("Wet cement on skin: wash off now, change wet clothes. Deep sore or burn: health post."),
        N_(
            "Wet cement eats skin and may not hurt until late. Wash it off now with clean water and change wet "
            "clothes. Do not kneel in it. Waterproof gloves, boots, long trousers, knee boards before you go on. Deep "
            "sore or burn: health post."
        ),
        CAUTIONS["C1"].source,
    ),
    ("D2", "stop"): Caution(
        N_("STOP. Under 5 C: do not cast. Fresh concrete that freezes is lost."),
        N_(
            "STOP. Temperature: %(least_temp_c)s. Under 5 C do not cast; fresh concrete that freezes is lost. Cover "
            "what is cast already with dry sacks or straw. Wait for warmer days and ask the designer how much longer "
            "the form must stay."
        ),
        CAUTIONS["D2"].source,
    ),
    ("I1", "stop"): Caution(
        N_("STOP. Out of the dome until two openings are open and a watcher stands outside."),
        N_(
            "STOP. A closed dome holds bad air even when new. Come out. Open inlet, manhole and gas pipe and blow "
            "fresh air in. A watcher stays outside all the time and never goes in. Battery lamp only, short turns. "
            "Headache, dizzy or sleepy: out at once."
        ),
        CAUTIONS["I1"].source,
    ),
    ("L1", "stop"): Caution(
        N_("STOP. Slab about %(slab_kg)s: nobody lifts it by hand. Bars, rollers or tripod. Stand back."),
        N_(
            "STOP. Slab %(slab_length_m)s x %(slab_width_m)s x %(slab_thickness_m)s weighs about %(slab_kg)s. Nobody "
            "lifts that by hand. Cast smaller pieces, or slide it on planks with bars and rollers. Nobody in the hole "
            "below. No fingers under it."
        ),
        CAUTIONS["L1"].source,
    ),
    ("L2", "warn"): Caution(
        N_("Covers not reported. Look now: inlet, outlet and manhole shut so no child can open them."),
        N_(
            "No report says that every opening is covered. Look now. Inlet, outlet, manhole and turret each need a "
            "slab or a strong cover that a child cannot move. If one is open or broken, stand guard until it is shut, "
            "and fence it."
        ),
        CAUTIONS["L2"].source,
    ),
    ("T2", "warn"): Caution(
        N_("%(test_head_m)s is near the limit %(head_limit_m)s. Press no more. Watch the tube."),
        N_(
            "Pressure of %(test_head_m)s water is near the plant limit of %(head_limit_m)s. Stop pressing. One person "
            "watches the tube all the time and opens the valve slowly if it rises: sun warms the dome and lifts the "
            "pressure. Nobody on the dome."
        ),
        CAUTIONS["T2"].source,
    ),
    ("T4", "warn"): Caution(
        N_("Test running: keep everybody off the dome and the openings. Report who is on it."),
        N_(
            "While the plant is under test pressure nobody stands on the dome, leans over an opening or works in the "
            "outlet. 1 m of water under a 2.5 m dome pushes up with about 5 tonnes. Read the tube from the side. "
            "Report that nobody is on it."
        ),
        CAUTIONS["T4"].source,
    ),
    ("G5", "warn"): Caution(
        N_("Bad flame: close the gas, open doors. Do not cook until a gas fitter has checked."),
        N_(
            "A yellow, sooty or jumping flame burns badly and makes carbon monoxide. Close the gas and open doors. "
            "Headache, weak or sick: all go outside and get medical help. Do not use the stove again until a gas "
            "fitter has checked it. %(emergency)s"
        ),
        CAUTIONS["G5"].source,
    ),
    ("G7", "warn"): Caution(
        N_("Gas pressure near the plant limit, or no limit on record. Use gas. Tell the fitter."),
        N_(
            "Gas pressure %(gas_head_m)s is near the plant limit, or the plant has no limit on record. Cook to use it, "
            "or let gas off outdoors at the pipe end with no flame or engine within 10 m. Feed less. Check that the "
            "outlet is free. Tell the fitter."
        ),
        CAUTIONS["G7"].source,
    ),
    ("V1", "stop"): Caution(
        N_("STOP. Heat far over the limit for this work. Shade and water now. No work without a plan."),
        N_(
            "STOP. Heat of %(wbgt_c)s WBGT is far over the limit %(wbgt_limit_c)s for this work (%(work)s). Into the "
            "shade, a cup of water each 15 to 20 minutes. No work before the supervisor has set work and rest times. "
            "Confused or falls down: cool with water, get help. %(emergency)s"
        ),
        CAUTIONS["V1"].source,
    ),
    ("V2", "stop"): Caution(
        N_("STOP. No heavy work now. Shade, wet the skin, a cup of water each 15-20 min."),
        N_(
            "STOP. It is far too hot for digging and mixing. Into the shade, wet the skin, drink a cup of water each "
            "15 to 20 minutes, watch each other. A pit has no wind and is hotter than the air reading. Dizzy or "
            "confused: cool with water, get help. %(emergency)s"
        ),
        CAUTIONS["V2"].source,
    ),
    ("V2", "note"): Caution(
        N_("Hot: a cup of water each 15-20 min, rest in shade, heavy work early or late."),
        N_(
            "It is getting hot for digging and mixing. Drink a cup of water each 15 to 20 minutes, rest in shade, do "
            "heavy work early or late, watch each other. A pit has no wind and is hotter than the air reading."
        ),
        CAUTIONS["V2"].source,
    ),
}

_DIG = N_(
    "Before DIG: pipes/cables asked? Ladder at 1.2 m. No entry at 1.5 m or deeper without signed slope or support. "
    "Soil heap 1.5 m back. Fence. Watcher."
)
_WALL = N_(
    "WALL: check pit sides each shift and after rain. Rail at 2 m. Nobody under a load. Backfill thin and even. "
    "Gloves, boots, water for eyes."
)
_DOME = N_(
    "DOME: keep off it. Wet every day as told. Form stays 14 full days unless design sheet says other. Crack = all out. Cover holes."
)
_INSIDE = N_(
    "INSIDE: both holes open, ladder, watcher outside, battery lamp, water-based coat only, no engine, no flame. Headache or dizzy = out."
)
_TEST = N_(
    "TEST: limit from plant record only. Hand pump and open water tube. No compressor. Nobody on dome. Same hour, same "
    "temperature. No flame."
)
_START = N_(
    "START: from today nobody ever goes in. First gas off outside, no flame. Light only at the stove. Covers on, fence "
    "up, valve shut at night."
)
_USE = N_(
    "USE: gas smell = no flame, no switch, valve shut, all out. Blue flame only. Room with two vents. Covers on. "
    "Nobody inside, ever. Wash hands."
)
_PIPE = N_(
    "PIPE: only the gas fitter fits, soap-tests and signs. Main valve shut until then. Trap at the lowest point, cock at each "
    "stove. No flame. Smell = all out."
)
CARDS = {  # stage -> what its first message says, in one SMS
    "pit": _DIG,
    "wall": _WALL,
    "backfill": _WALL,
    "dome": _DOME,
    "plaster": _INSIDE,
    "water_test": _TEST,
    "gas_test": _TEST,
    "pipe": _PIPE,
    "first_fill": _START,
    "first_gas": _START,
    "handover": _USE,
    "use": _USE,
}

REFUSALS = {  # what the bot is asked and hands over
    "shoring": N_("No shoring advice from the bot. A competent person or engineer chooses and signs it."),
    "soil_strength": N_("The bot cannot judge soil strength. Ask an engineer or soil test."),
    "soil_type": N_("The bot cannot tell the soil type. Until tested it counts as type C."),
    "dome_shape": N_("Dome shape and thickness are structure. No change by SMS. Ask the designer."),
    "mask": N_("No mask advice for entry. Dust masks do not stop gas. Nobody goes in."),
    "gas_fitting": CAUTIONS["G4"].short,
    "bottling": N_("Never put biogas in bottles or tubes."),
    "electric": CAUTIONS["V5"].short,
    "call": N_("The bot rings nobody: phone your supervisor now. Danger: send it in words, then he gets an alert."),
    "distances": N_("Local rules set distances. Ask the health or building office."),
    "test_pressure": N_("The bot gives no test pressure of its own. The designer's figure must be on record."),
    "medicine": N_("Go to a health post. %(emergency)s"),
    "other_trade": N_("Not for this bot. Stop and ask your supervisor."),
    "go_ahead": N_("The bot cannot give a go-ahead. It lists what is missing: %(fact)s."),
}
