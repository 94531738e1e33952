"""The books, and every figure taken from them.

A Figure is a number that remembers its unit, what it is, the book and the place, and how well it is known:
FOUND read in the text named; MEMORY recalled, still to be confirmed in print; PRACTICE a choice of this house
or common practice without a source. A figure from a new edition is one line here and nowhere else.
"""

EDITION = "2026-11"

FOUND, MEMORY, PRACTICE = "found", "memory", "practice"

BOOKS = {
    "BP88": "Sasse, Biogas Plants, GATE/GTZ 1988",
    "AH89": "Werner, Stoehr, Hees, Biogas Plants in Animal Husbandry, GATE/GTZ 1989",
    "BD2": "Biogas Digest vol. II, ISAT/GTZ about 1999",
    "CR93": "Criteria for the Dissemination of Biogas Plants, GTZ 1993",
    "GGC": "Construction Manual for GGC 2047 Model Biogas Plant, Biogas Support Programme, Nepal 1994",
    "DS10": "ter Heegde, Domestic biogas plants: sizes and dimensions, SNV 2010",
    "FU17": "Fulford, design notes on domes and bowls, 2017-18",
    "CN02": "Guangxi study quoting GB/T 4750-2002 for round household digesters",
    "CNP": "Chinese rural guidance notes on household digesters",
    "B1B4": "GATE/ISAT information tables B1 and B4 (GTZ series 97)",
    "IN20": "Indian teaching text with a six-person sizing example",
    "EA19": "Eawag/SSWM factsheet Biogas combustion, 2019",
    "KB11": "Biogas Plant Construction Manual, fixed-dome 4-20 m3, Kabul 2011, materials",
    "KE": "Kenyan guide, Excavation and layout of a fixed-dome system",
    "CPWD": "CPWD Delhi Schedule of Rates 2018, coefficients for cement consumption",
    "CSR10": "Common Schedule of Rates 2010, ch. 27 quantities of materials, p. 280",
    "NHBC": "NHBC Standards 2025, 3.1.4 site-mixed concrete, after BS 8500-2",
    "IS456": "IS 456:2000",
    "ASTM": "ASTM C1074, digest",
    "GB50204": "GB 50204 appendix D, digest",
    "LAB": "Indian labour-constant sheet",
    "ISO4217": "ISO 4217, codes for currencies",
    "SWELL": "swell table, engineering reference, and earthwork help page",
    "29CFR": "29 CFR 1926 subpart P (2024)",
    "NO21": "Norway, Regulations concerning the performance of work, 21-4 and 21-5",
    "HSE": "HSE (UK) web page Excavations",
    "WHO17": "WHO, Preventing drowning: an implementation guide, 2017",
    "ILO72": "ILO, Safety and health in building and civil engineering work, 1972",
    "NIOSH": "NIOSH Alert 90-103 and FACE 92-28",
    "29CFRX": "29 CFR 1926 subpart X, ladders",
    "IS3764": "IS 3764:1992, safety of excavation work",
    "CPWDS": "CPWD (India), safety code in contractors' conditions",
    "QC": "Quebec, Safety Code for the construction industry",
    "IS3696": "IS 3696-2:1991, ladders",
    "ILO92": "ILO code of practice, Safety and health in construction, 1992",
    "C182": "ILO Convention 182 and Recommendation 190",
    "L23": "HSE (UK) L23 and INDG143, manual handling",
    "IS7861": "IS 7861-1 and -2, concreting in hot and cold weather",
    "NIOSH16": "NIOSH 2016-106, occupational exposure to heat",
    "NIOSH14": "NIOSH poster on getting used to heat, 2014",
    "OSHAHI": "OSHA, Using the heat index: a guide for employers",
    "FS3863": "OSHA/NOAA FS-3863, Lightning safety when working outdoors",
    "BCD": "Bihar schedule, analysis of rates (BCD) for mortar and 12 mm plaster",
    "DRYV": "worked estimates of 1 m3 of 1:2:4 by the dry-volume factor (Indian practice)",
    "NAVY": "US Navy training course 14070, concrete, absolute-volume example",
    "UNI": "university lectures after ACI 211.1, sample problems",
    "ACI211": "table after ACI 211.1, metric",
    "IS10262": "IS 10262, water for 50 mm slump, digest",
    "BULK": "pages on bulking of sand and reinforced-concrete works",
    "PLR": "Indian rate analyses of plaster, 100 m2",
    "COBA": "CPWD brick-bat coba clause, waterproof slurry",
    "TANK": "Principles of construction, material and design of ferrocement tank, app. II",
    "BWR": "rate analyses of brickwork, 190 x 90 x 90 mm bricks",
    "IS1786": "IS 1786:2008, table 1, digest",
    "DETAIL": "summaries of IS 456 slab detailing",
    "CIVB14": "civilblog.org, How to store cement on site, 13 Nov 2014",
    "STORE": "pages on the strength of stored cement",
    "NHBC15": "NHBC Standards 2025, 3.1.15 curing",
    "MORTAR": "page on cement mortar after Indian practice",
    "CTM": "Civil Today, Precautions required while using mortar mix in construction",
    "IS269": "setting times of IS 269, 455 and 1489, in tables of cement makers",
    "WMO100": "WMO-No. 100, Guide to climatological practices",
    "FORMS": "answer after ACI 347 on backfilling new walls",
    "PLAN": "planning rate lists, hand excavation",
    "EXAM": "Indian handbook, output of labour",
    "SI": "SI brochure, 9th edition 2019",
    "-": "no book",
}


class Figure(float):
    """A float [unit] with its origin; in a formula it is an ordinary number."""

    def __new__(cls, value, unit, what, book="-", place="", mark=PRACTICE):
        self = super().__new__(cls, value)
        if book not in BOOKS:
            raise KeyError(book)
        self.unit, self.what, self.book, self.place, self.mark = unit, what, book, place, mark
        return self

    @property
    def source(self):
        """The book and place in one line; of a house choice, that it is one."""
        if self.mark == PRACTICE:
            return "practice value, no source"
        place = f", {self.place}" if self.place else ""
        return BOOKS[self.book] + place + (" (from memory)" if self.mark == MEMORY else "")


_f = Figure

# ---- physics
GRAVITY_M_S2 = _f(9.80665, "m/s2", "standard acceleration of free fall", "SI", "CGPM 1901", FOUND)
WATER_KG_M3 = _f(1000, "kg/m3", "slurry, volume to mass and pressure", "DS10", "1 l feed = 1 kg", FOUND)
SLURRY_LOAD_KG_M3 = _f(1050, "kg/m3", "slurry where its weight is a load (measured 1050-1090)", "IN20", "1090", PRACTICE)

# ---- feed: fresh dung a day and animal, as (low, design, high) [kg/d]
DUNG = {
    "local_cow": (
        _f(5, "kg/d", "zebu, Orissa", "CR93", "3", FOUND),
        _f(8, "kg/d", "local cow, design"),
        _f(10, "kg/d", "cow", "IN20", "", FOUND),
    ),
    "cow": (
        _f(12, "kg/d", "improved cow", "CR93", "", MEMORY),
        _f(15, "kg/d", "zebu x Friesian, Java", "CR93", "3", FOUND),
        _f(20, "kg/d", "improved cow", "-", "", MEMORY),
    ),
    "bullock": (
        _f(10, "kg/d", "bullock", "-", "", MEMORY),
        _f(12, "kg/d", "bullock, design"),
        _f(14, "kg/d", "bullock", "IN20", "", FOUND),
    ),
    "buffalo": (
        _f(12, "kg/d", "buffalo", "-", "", MEMORY),
        _f(15, "kg/d", "buffalo", "IN20", "", FOUND),
        _f(20, "kg/d", "buffalo", "-", "", MEMORY),
    ),
    "calf": (_f(2, "kg/d", "calf under 1 year", "-", "", MEMORY), _f(4, "kg/d", "calf, design"), _f(6, "kg/d", "calf", "-", "", MEMORY)),
    "pig": (
        _f(1.2, "kg/d", "growing pig", "-", "", MEMORY),
        _f(2, "kg/d", "growing pig", "-", "", MEMORY),
        _f(3, "kg/d", "growing pig", "-", "", MEMORY),
    ),
    "goat": (_f(0.5, "kg/d", "goat or sheep", "-", "", MEMORY), _f(1, "kg/d", "goat, design"), _f(1.5, "kg/d", "goat", "-", "", MEMORY)),
    "hen": (
        _f(0.08, "kg/d", "layer", "-", "", MEMORY),
        _f(0.1, "kg/d", "layer", "-", "", MEMORY),
        _f(0.15, "kg/d", "layer", "-", "", MEMORY),
    ),
}
COLLECTED = {
    "stabled": _f(1.0, "1", "share of dung collected, stabled all day", "CR93", "3", FOUND),
    "night": _f(0.5, "1", "share collected, stabled at night", "CR93", "3", FOUND),
}
GOAT_COLLECTED = _f(0.5, "1", "goat dung: at most half can be collected", "-", "", MEMORY)
WATER_PER_DUNG = {  # litres of water to 1 kg of fresh dung
    "cattle": _f(1.0, "l/kg", "fresh cattle dung, every programme", "GGC", "table 1", FOUND),
    "pig": _f(2.0, "l/kg", "pig dung", "DS10", "1:2", FOUND),
    "hen": _f(5.0, "l/kg", "chicken dung, 1:4 to 1:6", "AH89", "table 5.8", FOUND),
}
LEAST_DUNG_KG_D = _f(20, "kg/d", "least collectable cattle dung for a household plant")

# ---- gas
YIELD_TEMPS_C = (15, 20, 25, 27, 30, 33)
YIELD_DAYS = (30, 40, 50, 60, 80, 100)
YIELD_L_KG = (  # l gas per kg fresh cattle dung at 1:1; corners (20 C, 30 d) and (33 C, 100 d) printed in BP88 4.3, rest practice
    (8, 10, 13, 15, 19, 22),
    (15, 18, 21, 24, 28, 31),
    (22, 26, 30, 33, 37, 40),
    (24, 29, 33, 36, 40, 43),
    (29, 34, 39, 42, 46, 49),
    (34, 40, 45, 48, 52, 54),
)
YIELD_SOURCE = "Sasse 1988 4.3 at (20 C, 30 d) and (33 C, 100 d); between them practice values"
NOMINAL_YIELD_M3_KG = _f(0.040, "m3/kg", "nominal gas from fresh cattle dung", "CR93", "3; also DS10", FOUND)
NOMINAL_PIG_YIELD_M3_KG = _f(0.060, "m3/kg", "nominal gas from pig dung", "CR93", "3", FOUND)
NOMINAL_HEN_YIELD_M3_KG = _f(0.065, "m3/kg", "gas from poultry dung, low end", "-", "", MEMORY)
SOLIDS_SHARE = _f(0.08, "kg/kg", "volatile solids in fresh cattle dung, sizing example", "AH89", "p. 38", FOUND)
SOLIDS_YIELD_M3_KG = _f(0.25, "m3/kg", "gas per kg volatile solids at 25 C, 60 d", "AH89", "p. 38", FOUND)
ANIMAL_YIELD_M3_D = _f(0.35, "m3/d", "gas per head of cattle at 25 C, 60 d", "AH89", "p. 38", FOUND)
EXAMPLE_TEMP_C = _f(25, "C", "digester temperature of the handbook's yields", "AH89", "p. 38", FOUND)
EXAMPLE_RETENTION_D = _f(60, "d", "retention of the handbook's yields", "AH89", "p. 38", FOUND)
NOMINAL_RETENTION_D = _f(40, "d", "retention where dung gives its nominal gas", "DS10", "range 40-60", FOUND)

# ---- retention by mean air temperature: (warmer than [C], days)
RETENTION = (
    (25, _f(40, "d", "above 25 C", "DS10", "40-60", FOUND)),
    (20, _f(50, "d", "20-25 C; 50 at 21 C in Egypt", "-", "", PRACTICE)),
    (15, _f(60, "d", "15-20 C; 60 in the handbook's example", "AH89", "p. 38", FOUND)),
    (10, _f(80, "d", "10-15 C; 80 in the handbook's examples", "BP88", "4.2", FOUND)),
)
COLDEST_C = _f(12, "C", "below this mean a plant needs an engineer")

# ---- storage and use
STORE_SHARE = _f(0.60, "1", "gas store as a share of a day's gas", "DS10", "60 %", FOUND)
DEAD_SHARE = _f(0.20, "1", "dead volume as a share of digester and store", "DS10", "20 % addition", FOUND)
PERSON_GAS_M3_D = (
    _f(0.24, "m3/d", "cooking gas a person and day, old Indian rule 8 cubic feet", "-", "", MEMORY),
    _f(0.40, "m3/d", "cooking gas a person and day, design", "IN20", "350-450 l", FOUND),
)
STOVE_GAS_M3_H = (
    _f(0.30, "m3/h", "household stove", "CR93", "", FOUND),
    _f(0.40, "m3/h", "household stove, for pipes", "EA19", "300-400 l/h measured", FOUND),
)
MIXING_TANK_DAYS = (
    _f(1.5, "1", "useful volume of the mixing tank per daily feed", "AH89", "p. 92", FOUND),
    _f(2.0, "1", "the same, upper", "AH89", "p. 92", FOUND),
)

# ---- shape of a plant
DOME_RADIUS_STANDARD_M = _f(1.275, "m", "hemisphere on a bowl, 2 m3 a day, dome radius", "FU17", "", FOUND)
BOWL_SPHERE_STANDARD_M = _f(2.015, "m", "the same, sphere radius of the bowl", "FU17", "", FOUND)
ROUND_CAP_RISE = _f(1 / 5, "1", "round digester: rise of the top over its diameter", "CN02", "f1 = D/5", FOUND)
ROUND_BOWL_DEPTH = _f(1 / 8, "1", "round digester: depth of the bottom over its diameter", "CN02", "f2 = D/8", FOUND)
ROUND_WALL_M = _f(1.0, "m", "round digester: wall height", "CN02", "H", FOUND)
CHAMBER_ASPECT = _f(1.3, "1", "outlet chamber length over breadth (GGC 8: 1.7/1.3)", "-", "", MEMORY)
CHAMBER_LEAST_DEPTH_M = _f(0.30, "m", "least depth of the outlet chamber below its overflow")
OVERFLOW_ABOVE_GROUND_M = _f(0.05, "m", "overflow lip above finished ground, 5-10 cm", "-", "", MEMORY)
BASE_THICKNESS_M = _f(0.10, "m", "base concrete, 75-100 mm")
OUTSIDE_PLASTER_M = _f(0.015, "m", "outside plaster of wall and dome, 12-15 mm", "-", "", MEMORY)
BRICK_M = (  # common Indian brick, length, breadth, height
    _f(0.230, "m", "brick length", "CPWD", "434 bricks/m3", FOUND),
    _f(0.110, "m", "brick breadth", "CPWD", "434 bricks/m3", FOUND),
    _f(0.070, "m", "brick height", "CPWD", "434 bricks/m3", FOUND),
)
FERROCEMENT_DOME_M = _f(0.030, "m", "ferrocement dome, 20-30 mm", "-", "", MEMORY)
CONCRETE_DOME_M = _f(0.075, "m", "concrete dome at the crown", "-", "", MEMORY)
LEAST_PLANT_M3 = _f(1.0, "m3", "smallest inside volume covered")
GREATEST_PLANT_M3 = _f(25.0, "m3", "greatest inside volume covered; above 20 m3 an engineer")
WORKING_SPACE_M = _f(
    0.10, "m", "pit wider than the outer face all round (GGC footing)", "KE", "10 cm footing; 40-45 cm where plastered outside", FOUND
)
PASSAGE_LEAST_M = _f(0.30, "m", "least height of the passage from digester to outlet over the edge of the floor")
SEAL_M = _f(0.05, "m", "lowest slurry level at least this above the top of the passage")
HEADROOM_M = _f(0.25, "m", "crown at least this above the zero line")
INLET_ABOVE_OVERFLOW_M = _f(0.15, "m", "mixing tank floor at least this above the overflow; practice 10-20 cm", "-", "", MEMORY)

# ---- pressure
WORKING_HEAD_M = _f(0.80, "m", "head at full store the levels are set for: normal working pressure 8 kPa", "CN02", "8 kPa", FOUND)
PRESSURE_WARN_PA = _f(10_000, "Pa", "greatest pressure of a new design without a warning")
PRESSURE_LIMIT_PA = _f(12_000, "Pa", "greatest pressure of any design here")
COVER_LEAST_M = _f(0.60, "m", "soil over the crown; 0.40-0.60 usual", "-", "", MEMORY)
SOIL_LOOSE_N_M3 = _f(15_000, "N/m3", "loose soil as a counterweight")
SHELL_N_M3 = _f(24_000, "N/m3", "concrete, and the mortar of a ferrocement dome", "-", "", MEMORY)
BRICKWORK_N_M3 = _f(18_000, "N/m3", "brickwork as a counterweight, low end; 18.85 and more in IS 875-1", "-", "", MEMORY)
UPLIFT_FACTOR = _f(1.2, "1", "dead weight over uplift")
WATER_N_M3 = _f(9_810, "N/m3", "water", "BD2", "underground water", FOUND)
SLAB_KG_M3 = _f(2500, "kg/m3", "reinforced concrete, IS 875-1", "-", "", MEMORY)

# ---- concrete and mortar
LITRES_PER_M3 = _f(1000, "l/m3", "litres in a cubic metre", "SI", "1 l = 1 dm3", FOUND)
ML_PER_L = _f(1000, "ml/l", "millilitres in a litre", "SI", "", FOUND)
BAG_KG = _f(50, "kg", "bag of cement in the Indian tables", "CSR10", "1 bag = 50 kg", FOUND)
CEMENT_BULK_KG_M3 = _f(1440, "kg/m3", "cement as filled in a gauge box", "CSR10", "50 kg = 0.03472 m3", FOUND)
CEMENT_LOOSE_KG_M3 = (  # outside these a count of buckets a bag is not believed
    _f(1000, "kg/m3", "cement tipped loose, least"),
    _f(1550, "kg/m3", "cement packed, greatest; 94 lb in 1 cubic foot are 1506, 50 kg in 33 l 1515"),
)
CONTAINER_L = {  # container -> (least, greatest) litres that are believed of it, struck level
    "bucket": (_f(4, "l", "small bucket"), _f(30, "l", "large bucket; 10-20 usual", "-", "", MEMORY)),
    "pan": (_f(5, "l", "small pan; 10-14 usual", "-", "", MEMORY), _f(30, "l", "large pan; 17 in one country")),
    "tin": (_f(0.5, "l", "small tin"), _f(30, "l", "large tin")),
    "debe": (_f(10, "l", "small debe"), _f(30, "l", "large debe; 18-20 usual", "-", "", MEMORY)),
    "jerrycan": (_f(3, "l", "small jerrycan"), _f(30, "l", "large jerrycan")),
    "box": (_f(5, "l", "small gauge box"), _f(120, "l", "box of three bags")),
    "barrow": (_f(25, "l", "small barrow, 28 in one handbook"), _f(150, "l", "large barrow; 65-100 usual")),
    "cart": (_f(100, "l", "hand cart"), _f(3000, "l", "ox cart")),
    "trolley": (_f(500, "l", "small trolley"), _f(8000, "l", "tractor trolley")),
    "tipper": (_f(1000, "l", "small truck"), _f(20000, "l", "large truck")),
}
CEMENT_SOLID_KG_M3 = _f(3150, "kg/m3", "cement grains", "NAVY", "3.15", FOUND)
SAND_SOLID_KG_M3 = _f(2650, "kg/m3", "sand grains", "NAVY", "2.65", FOUND)
STONE_SOLID_KG_M3 = _f(2700, "kg/m3", "stone, solid", "UNI", "2.70; NAVY 2.60", FOUND)
SAND_BULK_KG_M3 = _f(1600, "kg/m3", "dry sand, loose", "-", "", MEMORY)
STONE_BULK_KG_M3 = _f(1500, "kg/m3", "20 mm stone, loose", "-", "", MEMORY)
AIR_SHARE = _f(0.02, "1", "air left in hand-compacted concrete, 20 mm stone", "ACI211", "2 % at 20 mm", FOUND)
AIR_GREATEST = _f(0.10, "1", "more air than this is no concrete of these tables; air-entrained mixes have 4-8 %")
DRY_VOLUME = _f(1.54, "1", "loose dry materials to 1 of concrete", "DRYV", "1.54; others 1.52-1.57", FOUND)
DRY_VOLUME_BUYING = _f(1.57, "1", "the same for buying: upper end of print", "DRYV", "1.52-1.57", FOUND)
CONCRETE_SAND = (1, 6)  # parts to 1 of cement that the tables below cover
CONCRETE_STONE = (2, 12)
CPWD_KG_M3 = {  # (sand, stone) to 1 of cement -> cement [kg/m3]
    (1.5, 3): _f(400, "kg/m3", "1:1.5:3", "CPWD", "4.1.2", FOUND),
    (2, 4): _f(320, "kg/m3", "1:2:4", "CPWD", "5.1.3", FOUND),
    (3, 6): _f(220, "kg/m3", "1:3:6", "CPWD", "", MEMORY),
    (4, 8): _f(170, "kg/m3", "1:4:8, 3.4 bags", "CPWD", "coefficient list", FOUND),
    (5, 10): _f(130, "kg/m3", "1:5:10, 2.6 bags", "CPWD", "coefficient list", FOUND),
}
CSR10_BAGS_M3 = {
    (1.65, 3.26): _f(7.50, "1/m3", "bags, called M20; 0.43 and 0.85 m3", "CSR10", "", FOUND),
    (2, 4): _f(6.50, "1/m3", "bags, 1:2:4", "CSR10", "", FOUND),
    (2.5, 5): _f(5.30, "1/m3", "bags, 1:2.5:5", "CSR10", "", FOUND),
    (3, 6): _f(4.50, "1/m3", "bags, 1:3:6", "CSR10", "", FOUND),
    (4, 8): _f(3.50, "1/m3", "bags, 1:4:8", "CSR10", "", FOUND),
    (5, 10): _f(2.80, "1/m3", "bags, 1:5:10", "CSR10", "", FOUND),
    (6, 12): _f(2.35, "1/m3", "bags, 1:6:12", "CSR10", "", FOUND),
}
MORTAR_SAND = (1, 8)  # parts of sand to 1 of cement that the mortar rule covers; 7 and 8 by its constant sand
MORTAR_SAND_M3 = _f(1.07, "1", "loose sand to 1 of mortar, 1:3 and leaner", "BCD", "1:3 to 1:5", FOUND)
MORTAR_DRY_GREATEST = _f(1.42, "1", "dry volume to 1 of mortar, 1:2 and richer", "CPWD", "so that 3.1 and 3.2 come out", PRACTICE)
HAND_MIXING = _f(1.10, "1", "cement to add when mixed by hand", "NHBC", "extra 10 %", FOUND)
MIXES = {  # element -> (sand, stone, greatest water to cement by mass)
    "base": (2, 4, _f(0.55, "kg/kg", "base concrete; 0.53-0.73 in print")),
    "concrete": (1.5, 3, _f(0.50, "kg/kg", "tight and reinforced concrete", "IS456", "table 5, moderate", FOUND)),
    "blinding": (3, 6, _f(0.65, "kg/kg", "blinding, 0.60-0.65")),
    "wall": (4, 0, _f(0.75, "kg/kg", "1:4 mortar, 0.65-0.75", "-", "", MEMORY)),
    "dome_brick": (3, 0, _f(0.60, "kg/kg", "1:3 mortar, 0.5-0.6", "-", "", MEMORY)),
    "ferrocement": (2, 0, _f(0.45, "kg/kg", "ferrocement mortar, 0.40 aimed at", "TANK", "w/c", FOUND)),
    "plaster": (3, 0, _f(0.50, "kg/kg", "tight inside plaster, 0.45-0.50")),
    "outside_plaster": (4, 0, _f(0.75, "kg/kg", "1:4 mortar, 0.65-0.75", "-", "", MEMORY)),
    "outlet": (4, 0, _f(0.75, "kg/kg", "walls that hold slurry: 1:4 as tank walls; 1:6 also used", "-", "", MEMORY)),
}
MORTAR_WATER = (  # parts of sand -> greatest water to cement by mass, upper ends
    (1, _f(0.50, "kg/kg", "1:1 to 1:2 mortar, tight coats 0.45-0.50", "-", "", MEMORY)),
    (3, _f(0.60, "kg/kg", "1:3 mortar, 0.5-0.6", "-", "", MEMORY)),
    (4, _f(0.75, "kg/kg", "1:4 mortar, 0.65-0.75", "-", "", MEMORY)),
    (6, _f(1.10, "kg/kg", "1:6 mortar, 0.9-1.1", "-", "", MEMORY)),
)
STONE_SIZE_M = _f(0.020, "m", "greatest stone, where nothing else is said: 20 mm")
WATER_CEMENT = (_f(0.25, "kg/kg", "least water to cement of a mix by hand"), _f(1.2, "kg/kg", "greatest, of lean mortar"))
WATER_NEEDED_KG_M3 = {  # greatest stone [m] -> water [kg/m3]
    0.010: _f(208, "kg/m3", "50 mm slump, crushed stone, 10 mm", "IS10262", "", FOUND),
    0.020: _f(186, "kg/m3", "50 mm slump, crushed stone, 20 mm", "IS10262", "", FOUND),
    0.040: _f(165, "kg/m3", "50 mm slump, crushed stone, 40 mm", "IS10262", "", FOUND),
}
SLUMP_M = (0.025, _f(0.050, "m", "slump the water table is for", "IS10262", "25-50 mm", FOUND), 0.210)
SLUMP_WATER = _f(0.03 / 0.025, "1/m", "more water for each m of slump: 3 % each 25 mm", "IS10262", "186 to 191.58", FOUND)
MEASURE_STEPS = (_f(0.5, "1", "parts of a measure told to a mason"), _f(0.25, "1", "finer, where halves lose too much"))
WATER_STEP_L = _f(0.5, "l", "step of water told to a mason")
LOST_GREATEST = _f(0.10, "1", "share of the aggregate that rounding down may take")
SAND_SHARE = (
    _f(0.30, "1", "sand in sand and stone, least: under it a mix is harsh"),
    _f(0.42, "1", "sand in sand and stone, greatest; ST3 is 40 to 55"),
)
YIELD_BAND = _f(0.95, "1", "low yield over yield: bulk densities move it 5 %")
BULKING_GREATEST = _f(0.30, "1", "bulking used without a jar test", "BULK", "15-30 %", FOUND)
BULKING_JAR_GREATEST = _f(0.40, "1", "bulking believed from a jar test", "BULK", "20-40 %", FOUND)
BULKING_AT = (  # moisture by dry mass -> bulking, medium sand
    (0.0, _f(0.0, "1", "dry", "BULK", "", FOUND)),
    (0.01, _f(0.08, "1", "medium sand", "-", "", MEMORY)),
    (0.02, _f(0.15, "1", "medium sand", "BULK", "2 %", FOUND)),
    (0.03, _f(0.20, "1", "medium sand", "-", "", MEMORY)),
    (0.04, _f(0.25, "1", "medium sand", "BULK", "4 %", FOUND)),
    (0.05, _f(0.30, "1", "medium sand", "BULK", "5 %", FOUND)),
    (0.06, _f(0.30, "1", "medium sand", "-", "", MEMORY)),
    (0.08, _f(0.25, "1", "medium sand", "-", "", MEMORY)),
    (0.10, _f(0.20, "1", "medium sand", "-", "", MEMORY)),
    (0.15, _f(0.08, "1", "medium sand", "-", "", MEMORY)),
    (0.20, _f(0.0, "1", "flooded", "BULK", "flooded equals dry", FOUND)),
)
SILT_GREATEST = _f(0.03, "1", "silt on the sand in the bottle test, by volume; more is washed", "KB11", "materials: sand", FOUND)
SAND_MOISTURE = {  # the wetter figure of each class: it takes more from the water
    "dry": _f(0.0, "kg/kg", "dry sand"),
    "damp": _f(0.025, "kg/kg", "moist sand, IS 456 table 10", "-", "", MEMORY),
    "wet": _f(0.05, "kg/kg", "moderately wet sand, IS 456 table 10", "-", "", MEMORY),
    "dripping": _f(0.075, "kg/kg", "very wet sand, IS 456 table 10", "-", "", MEMORY),
}
SAND_BULKING = {  # the smaller figure of each class; dripping sand needs a jar test
    "dry": _f(0.0, "1", "dry sand"),
    "damp": _f(0.15, "1", "damp sand", "BULK", "2 %", FOUND),
    "wet": _f(0.25, "1", "wet sand", "BULK", "4 %", FOUND),
}
ADDITIVE_SHARE = (  # of the mass of cement
    _f(0.002, "kg/kg", "least waterproofer; 150-250 ml a bag in print", "-", "", MEMORY),
    _f(0.03, "kg/kg", "greatest waterproofer, IS 2645", "-", "", MEMORY),
)
ADDITIVE_KG_L = _f(1.0, "kg/l", "liquid waterproofer; the label rules")
PLASTER_EXTRA_M = {
    "smooth": _f(0.0, "m", "plaster or concrete face: no joints to fill"),
    "brick": _f(0.0024, "m", "joints and unevenness: 12 mm takes 14.4, 20 mm takes 22.4", "PLR", "1.44 and 2.24 m3", FOUND),
    "rubble": _f(0.005, "m", "the same on rubble", "-", "", MEMORY),
}
WASH_KG_M2 = _f(2.75, "kg/m2", "neat cement in one slurry wash, for buying", "COBA", "", FOUND)

# ---- masonry and ferrocement
JOINT_M = _f(0.010, "m", "mortar joint", "BWR", "10 mm", FOUND)
JOINT_RANGE_M = (_f(0.003, "m", "thinnest joint covered"), _f(0.025, "m", "thickest joint covered"))
SINGLE_LEAF_MORTAR = _f(1.5, "1", "mortar to buy over the gaps between bricks, one leaf", "CSR10", "55 bricks, 0.0286 m3 sand/m2", PRACTICE)
WEDGE_FACE = _f(0.25, "1", "least inside face of a brick cut to a wedge, of its length: a quarter bat")
WEDGE_JOINT_M = _f(0.020, "m", "outer joint above which bricks are cut or turned")
STEEL_KG_M3 = _f(7850, "kg/m3", "steel", "IS1786", "7850", FOUND)
FERROCEMENT_STEEL = (  # what ACI 549.1R asks where liquid is held
    _f(0.035, "1", "volume of mesh wire in that of the skin, least", "-", "", MEMORY),
    _f(160, "m2/m3", "surface of the wire in the volume of the skin, least", "-", "", MEMORY),
)
MESH_LAPS = _f(1.15, "1", "mesh to buy over area, laps of 100 mm", "-", "", MEMORY)
FERROCEMENT_MORTAR = _f(1.15, "1", "mortar to buy over the volume of the skin", "-", "", MEMORY)
BAR_SPACING_M = _f(0.300, "m", "greatest spacing of bars in a slab", "DETAIL", "3d or 300", FOUND)
BAR_COVER_M = _f(0.020, "m", "least cover to bars, mild exposure; 25 mm for thin covers", "DETAIL", "mild 20", FOUND)
BAR_SIZE_M = (0.004, _f(0.032, "m", "greatest bar of the printed lists", "IS1786", "", FOUND))

# ---- the bill: how parts are built where a drawing does not say, waste, and how things are sold
FORM_WASTE = _f(0.05, "1", "mortar and concrete left, spilt or in forms; share of the volume")
SOIL_WASTE = _f(1.10, "1", "concrete on soil, bought over what is in place", "DRYV", "10 %", FOUND)
WASTE = {  # what is bought over what is used
    "cement_kg": _f(1.03, "1", "bags torn and spilt", "-", "", MEMORY),
    "sand_m3": _f(1.10, "1", "sand", "-", "", MEMORY),
    "gravel_m3": _f(1.05, "1", "stone", "-", "", MEMORY),
    "bricks": _f(1.10, "1", "bricks cut in curved work", "-", "", MEMORY),
    "bar_m": _f(1.05, "1", "bars cut", "-", "", MEMORY),
}
PACKS = {  # item -> (usual pack in its unit)
    "cement_kg": BAG_KG,
    "sand_m3": _f(0.5, "m3", "half a cubic metre"),
    "gravel_m3": _f(0.5, "m3", "half a cubic metre"),
    "bricks": _f(50, "1", "fifty bricks"),
    "mesh_m2": _f(1, "m2", "mesh from the roll"),
    "bar_m": _f(12, "m", "a bar", "-", "", MEMORY),
    "waterproofer_l": _f(1, "l", "a can"),
    "pipe_m": _f(3, "m", "a length of 110 mm pipe", "-", "", MEMORY),
    "gas_pipe": _f(1, "1", "a piece"),
    "valve": _f(1, "1", "a piece"),
}
INSIDE_COATS = 3  # mortar coats of the tight inside plaster, with a cement wash before, between and after
WASHES = 4
TIGHT_COAT_M = _f(0.010, "m", "each mortar coat of the tight plaster", "-", "", MEMORY)
WATER_COAT_M = _f(0.012, "m", "plaster below the slurry, 12-15 mm", "-", "", MEMORY)
THIN_WASH_KG_M2 = _f(1.5, "kg/m2", "cement in one brushed wash between tight coats, 1.0-1.5", "-", "", MEMORY)
TIGHT_BAND_M = _f(0.10, "m", "tight plaster reaches at least this far below the lowest slurry")
WATERPROOFER_L_KG = _f(
    0.250 / 50, "l/kg", "liquid waterproofer, 250 ml to a bag", "-", "maker's figure quoted in a plastering page", MEMORY
)
SHAFT_M = _f(0.60, "m", "side of the shaft from the passage up to the outlet chamber", "GGC", "60 x 60 cm", FOUND)
TANK_DEPTH_M = _f(0.60, "m", "depth of the mixing tank")
SLAB_THICK_M = _f(0.075, "m", "chamber floor and cover slabs, 60-75 mm", "-", "", MEMORY)
SLAB_BAR_M = _f(0.008, "m", "bars of cover slabs", "-", "", MEMORY)
SLAB_SPACING_M = _f(0.150, "m", "spacing of the bars, both ways", "-", "", MEMORY)
SLAB_COVER_M = _f(0.025, "m", "concrete over the bars of thin covers")
COVER_THICK_M = (_f(0.060, "m", "thinnest cover slab", "-", "", MEMORY), _f(0.150, "m", "thickest cover slab"))
COVER_LIFTERS = 3  # people who lift a cover slab where nobody says how many
COVER_WIDTH_LEAST_M = _f(0.10, "m", "narrowest slab that takes two 8 mm bars with their cover, 34 mm between them for the concrete")
RINGS = {  # the two rings under a dome: loose volumes of the weak one, courses, width and bars of the strong one
    "weak": {
        "cement": _f(1, "1", "weak ring, cement", "BD2", "p. 29, sand : lime : cement 15:3:1", FOUND),
        "lime": _f(3, "1", "weak ring, lime", "BD2", "p. 29, sand : lime : cement 15:3:1", FOUND),
        "sand": _f(15, "1", "weak ring, sand", "BD2", "p. 29, sand : lime : cement 15:3:1", FOUND),
    },
    "strong": {
        "rows": _f(1, "1", "strong ring, rows of header bricks", "BD2", "p. 29", FOUND),
        "width": _f(3, "1", "strong ring, its bricks over the thickness of the dome above", "BD2", "p. 29, about three times", FOUND),
        "bars": _f(1, "1", "strong ring, bars in its concrete in soft or uncertain ground", "BD2", "p. 29, may", FOUND),
    },
}
MESH_LAYERS = 2
MESH_WIRE_M = _f(0.001, "m", "wire of light square mesh")
MESH_SPACING_M = _f(0.0127, "m", "half-inch mesh")
SKELETON_SPACING_M = _f(0.150, "m", "skeletal bars of a ferrocement dome, both ways", "-", "", MEMORY)
INLET_SLOPE = _f(0.866, "1", "sine of the inlet pipe's slope, 60 degrees preferred", "-", "", MEMORY)
INLET_END_M = _f(0.40, "m", "lower end of the inlet pipe over the floor, 0.30-0.50")

# ---- curing and waits
WET_TIGHT_D = _f(14, "d", "anything gas- or liquid-tight, and ferrocement", "GB50204", "impermeable concrete 14 d", FOUND)
WETTINGS_A_DAY = 3  # times a surface is wetted in a day
NO_CREDIT_BELOW_C = _f(5, "C", "a colder day counts nothing; GB 50204 has no watering below 5 C")
DAY_TEMP_C = (_f(-40, "C", "coldest daily mean believed"), _f(50, "C", "hottest daily mean believed"))
LONGEST_WAIT_D = 400  # [d] no wait is followed further: it is too cold for it to end
DATUM_C = _f(0, "C", "datum of the temperature-time rule, 0-40 C", "ASTM", "type I", FOUND)
OLD_DATUM_C = _f(-10, "C", "older datum of the temperature-time rule", "-", "", MEMORY)
REFERENCE_C = _f(20, "C", "temperature at which a day counts one day", "-", "", MEMORY)
ACTIVATION_J_MOL = _f(41_500, "J/mol", "activation energy, 40-45 kJ/mol", "ASTM", "", MEMORY)
GAS_CONSTANT_J_MOL_K = _f(8.314, "J/mol/K", "gas constant", "SI", "8.314 462", FOUND)
KELVIN_C = _f(273.15, "K", "0 C", "SI", "", FOUND)
WAIT_D = {  # event -> (ordinary Portland, blended or unknown) [d at 20 C]
    "walk on base": (_f(1, "d", "set out on the base", "-", "", MEMORY), _f(2, "d", "the same", "-", "", MEMORY)),
    "wall on base": (
        _f(3, "d", "masonry on the base; unloaded at least 4 in NHBC 3.1.15, a light load here"),
        _f(5, "d", "the same x 10/7, up; the printed 4 d unloaded are of plain ordinary cement"),
    ),
    "load base": (_f(7, "d", "heaps and full wall load", "NHBC15", "7 d", FOUND), _f(10, "d", "the same", "IS456", "13.5.1", FOUND)),
    "dome on wall": (_f(3, "d", "mould and dome on the wall"), _f(5, "d", "the same x 10/7, up")),
    "plaster on masonry": (_f(3, "d", "outside plaster", "-", "", MEMORY), _f(5, "d", "the same", "-", "", MEMORY)),
    "tight plaster on masonry": (_f(7, "d", "first tight coat", "-", "", MEMORY), _f(10, "d", "the same x 10/7")),
    "backfill wall": (_f(7, "d", "even layers", "FORMS", "7 d for full depth", FOUND), _f(10, "d", "the same x 10/7")),
    "strip vertical": (_f(1, "d", "side forms, 16-24 h", "IS456", "11.3.1", FOUND), _f(2, "d", "the same x 10/7, up")),
    "strip dome": (_f(14, "d", "mould under a dome: as an arch", "IS456", "11.3.1", FOUND), _f(20, "d", "the same x 10/7")),
    "cover dome": (_f(14, "d", "soil on the dome, after stripping"), _f(20, "d", "the same x 10/7")),
    "water test": (_f(14, "d", "filling after the last coat"), _f(14, "d", "the same: the tight coat's wet days")),
    "water test concrete": (_f(28, "d", "filling a concrete tank", "-", "", MEMORY), _f(28, "d", "the same", "-", "", MEMORY)),
    "handle cover": (_f(7, "d", "lift a precast cover", "-", "", MEMORY), _f(10, "d", "the same x 10/7")),
    "use cover": (_f(14, "d", "lay a precast cover in place", "-", "", MEMORY), _f(20, "d", "the same x 10/7")),
    "load cover": (_f(28, "d", "people, animals, carts on a cover", "-", "", MEMORY), _f(28, "d", "the same", "-", "", MEMORY)),
}
STRIP_D = {  # element -> (span it holds to [m], days), ordinary Portland cement, 15 C and warmer
    "vertical": ((None, _f(1, "d", "sides of walls and beams, 16-24 h", "IS456", "11.3.1 a", FOUND)),),
    "slab soffit": ((None, _f(3, "d", "slab soffit, props back at once", "IS456", "11.3.1 b", FOUND)),),
    "beam soffit": ((None, _f(7, "d", "beam soffit, props back at once", "IS456", "11.3.1 c", FOUND)),),
    "slab props": (
        (4.5, _f(7, "d", "span to 4.5 m", "IS456", "11.3.1 d", FOUND)),
        (None, _f(14, "d", "over 4.5 m", "IS456", "11.3.1 d", FOUND)),
    ),
    "beam props": (
        (6.0, _f(14, "d", "span to 6 m", "IS456", "11.3.1 e", FOUND)),
        (None, _f(21, "d", "over 6 m", "IS456", "11.3.1 e", FOUND)),
    ),
    "arch props": (
        (6.0, _f(14, "d", "span to 6 m", "IS456", "11.3.1 e", FOUND)),
        (None, _f(21, "d", "over 6 m", "IS456", "11.3.1 e", FOUND)),
    ),
}
CEMENT_KEEPS = (  # months in store -> share of fresh strength
    (0, _f(1.00, "1", "fresh", "STORE", "", FOUND)),
    (3, _f(0.80, "1", "3 months", "STORE", "", FOUND)),
    (6, _f(0.70, "1", "6 months", "STORE", "", FOUND)),
    (12, _f(0.60, "1", "12 months", "STORE", "", FOUND)),
    (24, _f(0.50, "1", "24 months; another print has 5 years", "STORE", "", FOUND)),
)
STORE_FLOOR_M = _f(0.15, "m", "cement bags off the floor, on planks", "CIVB14", "150 mm to 200 mm", FOUND)
STORE_WALL_M = _f(0.60, "m", "cement bags off the outer walls", "CIVB14", "600 mm; another page has 450 mm", FOUND)
STORE_BAGS = _f(10, "1", "cement bags one on the other at most", "CIVB14", "not more than 10 bags; another page has 15", FOUND)
CEMENT_TIGHT_MONTHS = _f(3, "months", "too old for tight layers and reinforced concrete", "STORE", "test after 3 months", FOUND)
CEMENT_MONTHS = _f(6, "months", "too old for anything", "-", "", MEMORY)
HOT_MIX_C = _f(30, "C", "air in which a mixing sets sooner", "NHBC15", "precautions above 30 C", FOUND)
USE_WITHIN_MIN = {  # (mixing, hot) -> use it within, from the moment water met cement
    ("concrete", False): _f(60, "min", "concrete mixed by hand, placed within 30"),
    ("concrete", True): _f(45, "min", "the same in heat"),
    ("mortar", False): _f(90, "min", "mortar; another page prints 2 h", "CTM", "cement mortar, after adding water", FOUND),
    ("mortar", True): _f(60, "min", "the same in heat"),
    ("tight", False): _f(45, "min", "mortar of tight coats, no water added again"),
    ("tight", True): _f(45, "min", "the same in heat"),
}

# ---- buying ahead and money
CEMENT_AHEAD_D = _f(30, "d", "cement bought at most this long before its last bag is used, in the wet season")
DRY_CEMENT_AHEAD_D = _f(45, "d", "the same in the dry season")
PRICE_OLD_D = _f(60, "d", "a price seen longer ago is asked for again")
ODD_POINTS = _f(3, "1", "readings of one thing that are the same to the centimetre, from so many on they are looked at")
ODD_DIGITS = _f(10, "1", "readings from which on their last digits are looked at")
ODD_SPREAD = _f(5, "1", "whole centimetres a plan must leave, else a round plan makes round readings")
ODD_CHANCE = _f(0.001, "1", "how seldom chance alone brings so many round readings, that they are looked at")
ODD_AGAIN_MIN = _f(60, "min", "a reading that comes within so soon after one outside: no work was done in between")
ODD_USED = _f(0.25, "1", "materials used, off what the finished stages take")
ODD_PACE = _f(0.5, "1", "share of the work of a stage in which nobody finishes it")
NIGHT_H = (_f(22, "h", "from this hour on no reading is taken"), _f(5, "h", "up to this hour no reading is taken"))
EXTRA_SHARE = _f(0.10, "1", "hold readings of which one more point is asked")
AUDIT_SHARE = _f(0.07, "1", "finished sites that are visited, 5 to 10 %")
USUAL_COIN_DIGITS = _f(2, "1", "digits of the smallest coin of most currencies", "ISO4217", "minor unit", MEMORY)
COIN_DIGITS = dict.fromkeys(
    ("BIF", "DJF", "GNF", "KMF", "RWF", "UGX", "VND", "XAF", "XOF"),
    _f(0, "1", "currencies without a smaller coin", "ISO4217", "minor unit", MEMORY),
)
MOST_MONEY = 10**12  # a sum above this is a slip of the pen

# ---- earth
SWELL = {  # loose over bank, less 1
    "sand": _f(0.12, "1", "sand or gravel", "SWELL", "12 %", FOUND),
    "earth": _f(0.25, "1", "earth", "SWELL", "25 %", FOUND),
    "clay": _f(0.40, "1", "clay, clay and gravel", "SWELL", "40 %", FOUND),
    "rock": _f(0.65, "1", "rock, 50-65 %", "SWELL", "65 %", FOUND),
}
SHRINK = {  # 1 less compacted over bank; rock is no backfill
    "sand": _f(0.10, "1", "sand or gravel", "SWELL", "0.88-0.92", FOUND),
    "earth": _f(0.10, "1", "earth; loam 0.82-0.88 in one list", "SWELL", "about 0.90", FOUND),
    "clay": _f(0.15, "1", "clay", "SWELL", "0.78-0.85", FOUND),
}
SLOPE_DEPTH_M = _f(6.1, "m", "depth the slopes hold to, 20 ft", "29CFR", "app. B, table B-1", FOUND)
DIG_M3_D = {  # a person and day, to 1.5 m deep; for durations, not for prices
    "soft": _f(2.5, "m3/d", "soft soil; 2.0 soft to 1.5 m in one list", "PLAN", "2.3-3.4", PRACTICE),
    "ordinary": _f(2.0, "m3/d", "ordinary soil, 1.5-2.5", "EXAM", "2.0", FOUND),
    "hard": _f(1.5, "m3/d", "hard or dense soil", "LAB", "0.62 d/m3", PRACTICE),
    "very_hard": _f(1.0, "m3/d", "very hard soil"),
    "soft_rock": _f(0.5, "m3/d", "soft rock; 0.8 in one norm"),
}
DEEP_M = _f(1.5, "m", "depth below which soil is thrown twice", "LAB", "to 1.5 m", FOUND)
DEEP_SHARE = _f(0.67, "1", "output below that depth", "PLAN", "0.29 over 0.43", FOUND)
WET_SHARE = _f(0.5, "1", "output in water")
FILL_D_M3 = _f(0.25, "d/m3", "filling and ramming", "LAB", "0.25", FOUND)
LAYER_M = (
    _f(0.15, "m", "backfill, layer under a hand rammer, least"),
    _f(0.30, "m", "backfill, layer, greatest"),
)

# ---- tolerances and measuring: how far below and above its plan a reading may lie; every one a programme setting
PIT_DEPTH_M = (_f(0.0, "m", "pit depth below plan"), _f(0.05, "m", "pit depth above plan"))
PIT_WIDTH_M = (_f(0.0, "m", "pit width below plan"), _f(0.20, "m", "pit width above plan, 100 mm a side"))
BASE_TOLERANCE_M = (_f(0.0, "m", "base thickness below plan"), _f(0.02, "m", "base thickness above plan"))
LEVEL_TOLERANCE_M = _f(0.010, "m", "height of wall, rise and string of a dome, either way")
PLUMB_M_M = _f(0.005, "1", "wall out of plumb over its height")
COAT_TOLERANCE_M = _f(0.002, "m", "thickness of a plaster coat, either way")
COVER_TOLERANCE_M = (_f(0.0, "m", "soil over the crown below plan"), _f(0.30, "m", "soil over the crown above plan: more is a load"))
COATS = _f(7, "1", "coats of the inside plaster, mortar and cement wash in turn", "-", "", MEMORY)
TAPE_M = _f(0.005, "m", "measuring uncertainty of a tape, default")
STRING_M = _f(0.010, "m", "measuring uncertainty of a string, default")
SITING_M = _f(0.2, "m", "measuring uncertainty of a distance over ground, default")
GROUND_WATER_M = _f(0.05, "m", "measuring uncertainty of ground water below the ground: a tape in a hole, the ground not level")
DIVISION = _f(0.5, "1", "reading uncertainty of a height told as a number: half of its last place")
FINE_M = _f(0.001, "m", "measuring uncertainty of a coat gauge or rule, default")
READINGS_WANTED = {"pit_depth_m": 1, "pit_dia_m": 3, "base_thick_m": 3, "dome_radius_m": 3}
# ---- danger limits
TAPE_ALLOWANCE_M = _f(0.05, "m", "added to a depth before it is held against a limit: tape and rounding")
LADDER_FROM_M = _f(1.2, "m", "ladder in a pit from this depth; 4 ft (1.22 m) in 29 CFR 1926.651(c)(2)", "CPWDS", "ladder", MEMORY)
SOIL_ASKED_FROM_M = _f(1.2, "m", "soil type asked from this depth")
WATCHER_FROM_M = _f(1.2, "m", "watcher at the edge from this depth; Quebec 3.15.4 names no depth")
PROTECT_FROM_M = _f(1.5, "m", "slope or support from this depth; 5 ft (1.52 m) in 29 CFR 1926.652(a)(1)", "IS3764", "support", MEMORY)
HOUSEHOLD_DEPTH_M = _f(4.0, "m", "deepest pit of a household plant; engineer's design from 20 ft (6.1 m), 29 CFR 1926 app. F")
SHALLOW_FROM_M = _f(0.6, "m", "side that can bury a person who kneels")
FENCE_FROM_M = _f(0.5, "m", "open pit a small child can fall into; no depth in WHO 2017")
SLOPE_RUN = {  # level run of the side for 1 m of depth
    "rock": _f(0.0, "m/m", "stable rock: vertical", "29CFR", "app. B table B-1", FOUND),
    "A": _f(0.75, "m/m", "type A, 3/4:1, 53 degrees", "29CFR", "app. B table B-1", FOUND),
    "B": _f(1.0, "m/m", "type B, 1:1, 45 degrees", "29CFR", "app. B table B-1", FOUND),
    "C": _f(1.5, "m/m", "type C, unknown or wet, 1 1/2:1, 34 degrees", "29CFR", "app. B table B-1", FOUND),
}
LADDER_RISE_M = _f(1.0, "m", "ladder above the edge; 3 ft (0.91 m) in 29 CFR 1926.1053(b)(1)", "QC", "3.15.4", FOUND)
LADDER_TRAVEL_M = _f(7.6, "m", "way to the ladder, 25 ft", "29CFR", "1926.651(c)(2)", FOUND)
LADDER_PITCH = (
    _f(3.5, "m/m", "ladder height over foot distance, least; 4 in 29 CFR 1926.1053(b)(5)(i)"),
    _f(4.5, "m/m", "the same, greatest"),
)
CHECK_LIFE_H = _f(12, "h", "a look at the pit sides holds for one shift; daily in 29 CFR 1926.651(k)(1)")
RELEASE_LIFE_H = _f(12, "h", "a signed slope or support holds for one shift")
DEPTH_CHANGE_M = _f(0.1, "m", "digging deeper by this ends a check")
HEAP_STOP_M = _f(0.6, "m", "soil heap nearer than this: stop; 2 ft (.61 m) in 29 CFR 1926.651(j)(2)")
HEAP_WARN_M = _f(1.0, "m", "soil heap nearer than this: move it", "NO21", "21-5", FOUND)
HEAP_TARGET_M = _f(1.5, "m", "soil heap at least this away", "CPWDS", "heap", MEMORY)
HEAP_TARGET_SHARE = _f(0.5, "m/m", "or this share of the depth, the larger", "CPWDS", "heap", MEMORY)
LOAD_EDGE_M = _f(1.5, "m", "bricks, sand, animals, vehicles: at least this from the edge, and one depth")
OVERHANG_M = _f(0.05, "m", "bottom wider than top by more than this is an overhang: measuring allowance")
ENGINE_EDGE_M = _f(3.0, "m", "running engine nearer than this to an occupied pit")
OLD_PIT_M = _f(5.0, "m", "latrine, septic tank, old digester within this of a pit")
OVERHEAD_LINE_M = _f(10.0, "m", "power line within this; 10 ft (3.05 m) is the hard limit to 50 kV")
ADULT_Y = _f(18, "y", "least age for dangerous work", "C182", "R190 para 3", MEMORY)
RAIL_FROM_M = _f(2.0, "m", "platform with a rail from this height; 10 ft in 29 CFR 1926.451(g)(1)", "ILO92", "falls", MEMORY)
PLATFORM_LADDER_M = _f(1.5, "m", "platform with a ladder above this height", "IS3696", "foreword", FOUND)
BACKFILL_STEP_M = _f(0.3, "m", "greatest difference in backfill level round a fresh wall")
LIFT_ONE_KG = _f(25, "kg", "load at waist height, one man", "L23", "guideline figures", MEMORY)
TEAM_SHARE = (  # of the sum of what one, two, three can lift
    _f(1.0, "1", "one person"),
    _f(2 / 3, "1", "two people", "L23", "team handling", MEMORY),
    _f(1 / 2, "1", "three people", "L23", "team handling", MEMORY),
)
LIFT_NEVER_KG = _f(75, "kg", "slab that is not lifted by hand")
FORM_D = STRIP_D["arch props"][0][1]  # dome form or earth mould: as the props of an arch up to 6 m
FORM_FLOOR_D = _f(7, "d", "no design sheet may go below this")
DOME_LOAD_D = _f(14, "d", "people, bricks or soil on a dome; as its form")
FORM_TABLE_C = _f(15, "C", "the form times hold from this temperature", "IS456", "11.3.1", FOUND)
NO_CAST_C = _f(5, "C", "no concreting below", "IS7861", "part 2", MEMORY)
HOT_CAST_C = _f(40, "C", "no concreting from here up", "IS7861", "part 1", MEMORY)
WET_D = {  # (blended or unknown cement, hot and dry air): days kept wet
    (False, False): _f(7, "d", "ordinary cement", "IS456", "13.5.1", FOUND),
    (True, False): _f(10, "d", "blended cement", "IS456", "13.5.1", FOUND),
    (False, True): _f(10, "d", "hot dry air", "IS456", "13.5.1", FOUND),
    (True, True): _f(14, "d", "blended cement in hot dry air", "IS456", "13.5.1", FOUND),
}
DOME_OPENINGS = _f(2, "1", "openings of a new dome open while people are inside")
HEAD_CEILING_M = _f(1.5, "m", "head of water that no plant here is put under")
NEAR_LIMIT = _f(0.9, "1", "share of the limit from which pressure is called near it")
TEST_TEMP_C = _f(1.0, "C", "temperature change that spoils a pressure test: 3.7 cm of water, gas law")
STOVE_OPENINGS = _f(2, "1", "openings to outside in a room with a stove, one low, one high")
WBGT_C = {  # work: (used to heat, new to it)
    "light": (_f(30, "C", "REL", "NIOSH16", "table 5-1", FOUND), _f(28, "C", "RAL at 180 W", "NIOSH16", "8.1", FOUND)),
    "moderate": (_f(28, "C", "REL", "NIOSH16", "table 5-1", FOUND), _f(25, "C", "RAL at 300 W", "NIOSH16", "8.1", FOUND)),
    "heavy": (_f(26, "C", "REL", "NIOSH16", "table 5-1", FOUND), _f(23, "C", "RAL at 415 W", "NIOSH16", "8.1", FOUND)),
    "very_heavy": (_f(25, "C", "REL", "NIOSH16", "table 5-1", FOUND), _f(21, "C", "RAL at 520 W", "NIOSH16", "8.1", MEMORY)),
}
WBGT_STOP_C = _f(3, "C", "over the limit by this: no work without a work and rest plan")
HEAT_INDEX_C = (
    _f(33, "C", "heat index: caution, 91 F", "OSHAHI", "", FOUND),
    _f(39, "C", "heat index: high, 103 F", "OSHAHI", "", FOUND),
    _f(46, "C", "heat index: very high, 115 F", "OSHAHI", "", FOUND),
)
AIR_HEAT_C = (
    _f(32, "C", "air temperature where humidity is not known: caution"),
    _f(37, "C", "the same: high"),
    _f(42, "C", "the same: very high"),
)
NEW_WORKER_D = _f(7, "d", "days until a worker is used to the heat", "NIOSH14", "", FOUND)
THUNDER_MIN = _f(30, "min", "wait after the last thunder", "FS3863", "", FOUND)
# ---- work by hand: (mason, labourer with water carrier) in person-days
BRICKWORK_D_M3 = (
    _f(0.94, "d/m3", "mason, brickwork", "LAB", "0.94", FOUND),
    _f(2.00, "d/m3", "labourer and water carrier, brickwork, 1.80 + 0.20", "LAB", "1.80, 0.20", FOUND),
)
CONCRETE_D_M3 = (
    _f(0.10, "d/m3", "mason, mixing and placing concrete", "LAB", "0.10", FOUND),
    _f(2.33, "d/m3", "labourer and water carrier, concrete, 1.63 + 0.70", "LAB", "1.63, 0.70", FOUND),
)
SLAB_D_M3 = (
    _f(0.17, "d/m3", "mason, reinforced concrete", "LAB", "0.17", FOUND),
    _f(2.90, "d/m3", "labourer and water carrier, reinforced concrete, 2.00 + 0.90", "LAB", "2.00, 0.90", FOUND),
)
PLASTER_D_M2 = (_f(0.10, "d/m2", "mason, a coat of plaster, 10 m2 a day"), _f(0.10, "d/m2", "labourer, a coat of plaster"))
FERROCEMENT_D_M2 = (_f(0.40, "d/m2", "mason, mesh and mortar"), _f(0.40, "d/m2", "labourer, mesh and mortar"))
MOULD_D_M2 = (_f(0.05, "d/m2", "mason, earth mould or form"), _f(0.25, "d/m2", "labourer, earth mould or form"))
SMALL_D = {  # stage: (mason, labourer), with a household plant of any size
    "layout": (_f(0.5, "d", "setting out"), _f(0.5, "d", "setting out")),
    "pipe": (_f(1.0, "d", "gas fitter, pipe to the kitchen"), _f(1.0, "d", "trench")),
    "water_test": (_f(0.5, "d", "water test, reading"), _f(1.0, "d", "water test, filling")),
    "gas_test": (_f(0.5, "d", "gas test"), _f(0.5, "d", "gas test")),
    "first_fill": (_f(0.0, "d", "first fill"), _f(2.0, "d", "first fill")),
    "first_gas": (_f(0.5, "d", "first gas"), _f(0.0, "d", "first gas")),
    "handover": (_f(0.5, "d", "handover"), _f(0.0, "d", "handover")),
}

TEST_DAYS = {  # calendar days a test takes whatever the crew
    "water_test": _f(2.5, "d", "water test: to soak, and two days"),
    "gas_test": _f(1.5, "d", "gas test: a day from the same hour to the same hour"),
}

# ---- setting out
DIAGONALS_M = _f(0.010, "m", "difference of diagonals, and of the third side of 3-4-5, that is allowed", "-", "", MEMORY)
DIAGONALS_SHARE = _f(1 / 500, "1", "the same, of the longer side, where that is more", "-", "", MEMORY)
TUBE_M = _f(0.003, "m", "a water tube, one set-up", "-", "", MEMORY)
LOOP_M = _f(0.005, "m", "closing error of a loop of heights, times the root of its set-ups", "-", "", MEMORY)
RADII_LEAST = _f(6, "1", "radii that show roundness")
OFF_CENTRE_SHARE = _f(0.05, "1", "centre off its peg, of the radius, up to which the linear fit of a circle holds")
OFF_CENTRE_M = _f(0.010, "m", "centre off its peg that is allowed", "-", "", MEMORY)
OUT_OF_ROUND_M = _f(0.020, "m", "out of round that is allowed", "-", "", MEMORY)
OUT_OF_ROUND_SHARE = _f(0.01, "1", "the same, of the radius, where that is more", "-", "", MEMORY)
OUTLET_LEVEL_M = (
    _f(0.005, "m", "overflow and outlet floor off their level"),
    _f(0.010, "m", "overflow and outlet floor off their level, above it the lip is rebuilt"),
)
INLET_END_RANGE_M = (
    _f(0.30, "m", "lower end of the inlet pipe over the floor, least"),
    _f(0.50, "m", "lower end of the inlet pipe over the floor, most"),
)
INLET_SLOPE_DEG = (
    _f(30, "deg", "slope of the inlet pipe, least", "-", "", MEMORY),
    _f(60, "deg", "slope of the inlet pipe, preferred", "-", "", MEMORY),
)

# ---- tests of tightness
WATER_LOSS = (
    _f(0.01, "1/d", "share of the inside volume lost in a day, above it the test is repeated"),
    _f(0.02, "1/d", "share of the inside volume lost in a day at most", "AH89", "7.5", FOUND),
)
WATER_TEST_H = _f(12, "h", "shortest time between two readings of a water test", "CNP", "12 h without a visible change", FOUND)
WATER_FALL_M = _f(0.002, "m", "measuring uncertainty of the fall of a water level, read twice at a mark on the wall")
SHAFT_SIDE_M = _f(0.60, "m", "side of the outlet passage and its shaft", "KE", "60 x 60 cm", MEMORY)
SEALED_DROP = (
    _f(0.03, "1", "corrected fall of a sealed gas test, of the pressure at the start (0.24 of 8 kPa)", "CNP", "24 h", FOUND),
    _f(0.04, "1", "corrected fall of a sealed gas test above which it is outside"),
)
SEAL_LOSS = (
    _f(0.02, "1", "gas lost in a day through a water seal at most"),
    _f(0.04, "1", "gas lost in a day through a water seal above which it is outside"),
)
SETTLE_H = _f(1, "h", "time after pumping in which a gauge is read anew, the gas cools and the reading settles")
BAROMETERS_PA = (
    _f(60000, "Pa", "barometer at 4000 m above the sea, a low one"),
    _f(106000, "Pa", "barometer at the sea, a high one"),
)
BLIND_FALL_PA = _f(2000, "Pa", "fall that is outside also without temperature and barometer")
TEST_PRESSURE_PA = _f(7500, "Pa", "least pressure of a gas test where the plant stands more")
TEST_PRESSURE_SHARE = _f(0.9, "1", "least pressure of a gas test where the plant stands less, of its greatest")
SAME_HOUR_H = _f(2, "h", "how far from the same hour of the day a gas test may be read")
LEGS_APART = _f(0.10, "1", "difference between the movements of both legs of a U-tube, of their mean")
LEGS_APART_M = _f(0.01, "m", "difference between the movements of both legs of a U-tube that two readings may have")
PIPE_TEST_PA = _f(10000, "Pa", "air pressure of a pipe test")
PIPE_TEST_SHARE = _f(1.5, "1", "air pressure of a pipe test, of the greatest of the plant, where that is more")
PIPE_TEST_FALL_PA = _f(100, "Pa", "fall of a pipe test at most")
PIPE_TEST_MIN = _f(15, "min", "time of a pipe test")
VAPOUR_PA = _f(611.2, "Pa", "Magnus formula over water, value at 0 C", "-", "", MEMORY)
VAPOUR_RISE = _f(17.62, "1", "Magnus formula over water", "-", "", MEMORY)
VAPOUR_C = _f(243.12, "C", "Magnus formula over water", "-", "", MEMORY)

# ---- start and use of a plant
INOCULUM_SHARE = {  # running slurry or cattle dung in the first fill, of its volume
    "cattle": _f(0.10, "1", "inoculum, cattle dung"),
    "pig": _f(0.20, "1", "inoculum, pig dung", "-", "", MEMORY),
    "hen": _f(0.30, "1", "inoculum, hen dung", "-", "", MEMORY),
    "person": _f(0.30, "1", "inoculum, latrine", "-", "", MEMORY),
}
FIRST_GAS_D = (  # days from the first fill until the gas burns: ((from, to) [C], (fewest, most) [d])
    (
        (_f(20, "C", "digester"), _f(25, "C", "digester")),
        (_f(20, "d", "gas that burns", "-", "", MEMORY), _f(40, "d", "gas that burns", "-", "", MEMORY)),
    ),
    (
        (_f(25, "C", "digester"), _f(30, "C", "digester")),
        (_f(10, "d", "gas that burns", "-", "", MEMORY), _f(20, "d", "gas that burns", "-", "", MEMORY)),
    ),
)
ALL_ROUND = _f(4, "1", "sides measured in one message before a fill counts as all round")
LEANER = _f(1.1, "1", "parts of a weighed mix over its recipe from which it is too lean; usual densities of loose sand lie a tenth apart")
RICHER = _f(0.5, "1", "parts of a mix over its recipe, least: with twice the cement and more it shrinks and cracks")
GROUND_WATER_NEAR_M = _f(1.0, "m", "ground water so near under the pit floor asks for an engineer")
VENTED_FILLINGS = _f(2, "1", "full fillings of gas let off outside before a flame at the stove")
DUNG_KG_L = _f(1.0, "kg/l", "fresh dung in a bucket: a litre taken as a kilogram")
VENTED_APART_H = _f(6.0, "h", "time between two fillings of gas let off: the plant must fill again")
VENTED_HEAD_M = _f(0.50, "m", "head of water that counts as a filling of gas")
FEED_KG_M3 = (
    _f(5, "kg/m3", "dung a day and volume inside, below it underfed"),
    _f(9, "kg/m3", "dung a day and volume inside, above it slurry comes out raw"),
)
# ---- gas pipe, use of the gas
GAS_KG_M3 = _f(1.15, "kg/m3", "biogas of 60 % methane, 15 C; 1.113 at 25 C by its molar mass", "-", "", MEMORY)
GAS_VISCOSITY = _f(1.27e-5, "kg/m/s", "dynamic viscosity of biogas of 60 % methane", "-", "", MEMORY)
LAMINAR = _f(64, "1", "friction factor x Reynolds number, laminar (Hagen, Poiseuille)", "-", "", MEMORY)
BLASIUS = _f(0.3164, "1", "friction factor x Reynolds number to the 1/4, smooth pipe (Blasius 1913)", "-", "", MEMORY)
PIPE_BORE_M = {  # nominal size -> inside
    "1/2": _f(0.0161, "m", "bore of 1/2 inch medium galvanised pipe, 21.3 less 2 x 2.6 mm", "-", "", MEMORY),
    "3/4": _f(0.0217, "m", "bore of 3/4 inch medium galvanised pipe, 26.9 less 2 x 2.6 mm", "-", "", MEMORY),
    "1": _f(0.0273, "m", "bore of 1 inch medium galvanised pipe, 33.7 less 2 x 3.2 mm", "-", "", MEMORY),
}
PIPE_FIT = {  # loss at 1 m3/h; it grows with the square of the flow; within 11 % of 24 printed losses, or 0.004 cm per 10 m
    "1/2": _f(0.295, "cmH2O/m", "loss of 1/2 inch pipe at 1 m3/h, fitted to the table", "AH89", "table 5.13", FOUND),
    "3/4": _f(0.041, "cmH2O/m", "loss of 3/4 inch pipe at 1 m3/h, fitted to the table", "AH89", "table 5.13", FOUND),
    "1": _f(0.009, "cmH2O/m", "loss of 1 inch pipe at 1 m3/h, fitted to the table", "AH89", "table 5.13", FOUND),
}
PIPE_FITTINGS = _f(1.3, "1", "loss with elbows, tees and cocks, of that of straight pipe")
PIPE_FLOW_M3_H = _f(2.0, "m3/h", "greatest flow of the table of losses", "AH89", "table 5.13", FOUND)
PIPE_LENGTH_M = _f(100, "m", "longest pipe of the table of bores", "BD2", "p. 50", MEMORY)
PIPE_LOSS_PA = _f(500, "Pa", "loss in the gas pipe at most, 5 mbar", "BD2", "p. 49", FOUND)
STOVE_PRESSURE_PA = _f(500, "Pa", "least pressure at the stove")
LAMP_GAS_M3_H = _f(0.15, "m3/h", "lamp, 120-150 l/h printed", "EA19", "", FOUND)
TRAP_MARGIN_M = _f(0.10, "m", "water trap deeper than the greatest head")
METHANE_J_M3 = _f(35.906e6, "J/m3", "heat of methane, water as vapour", "-", "", MEMORY)
METHANE_SHARE = _f(0.60, "1", "methane in biogas", "-", "", MEMORY)
REPLACED = {  # what 1 m3 of biogas replaces, (low, high): the low end is the saving to count on
    "firewood": (_f(3.5, "kg/m3", "firewood, Indian rule", "-", "", MEMORY), _f(5.0, "kg/m3", "firewood", "CR93", "", FOUND)),
    "charcoal": (_f(1.46, "kg/m3", "charcoal, Indian rule", "-", "", MEMORY), _f(2.0, "kg/m3", "charcoal", "CR93", "", FOUND)),
    "kerosene": (
        _f(0.50, "l/m3", "kerosene", "CR93", "", FOUND),
        _f(0.69, "l/m3", "kerosene by energy, 20 MJ at 55 % against 35.3 MJ/l at 45 %"),
    ),
    "lpg": (_f(0.40, "kg/m3", "LPG", "CR93", "", FOUND), _f(0.43, "kg/m3", "LPG, Indian rule", "-", "", MEMORY)),
}
FACT_RANGES = {  # what a reported fact can be at a household plant: (unit, low, high), None is open; common practice, no source
    "depth_m": ("m", 0.10, 10.0),
    "planned_depth_m": ("m", 0.10, 10.0),
    "bowl_m": ("m", 0, 1.5),
    "pit_top_d_m": ("m", 0.80, 10.0),
    "pit_bottom_d_m": ("m", 0.80, 10.0),
    "slope_run_m": ("m", 0, 6.0),
    "spoil_edge_m": ("m", 0, 50),
    "load_edge_m": ("m", 0, 50),
    "neighbour_m": ("m", 0, 50),
    "old_pit_m": ("m", 0, 50),
    "overhead_line_m": ("m", 0, 500),
    "engine_edge_m": ("m", 0, 50),
    "ladder_above_edge_m": ("m", 0, 3),
    "ladder_travel_m": ("m", 0, 50),
    "ladder_height_m": ("m", 0, 13),
    "ladder_foot_out_m": ("m", 0, 4),
    "water_in_pit_m": ("m", 0, 3.0),
    "depth_change_m": ("m", 0, 10.0),
    "release_h": ("h", 0, None),
    "check_h": ("h", 0, None),
    "people_in_pit": ("1", 0, 10),
    "worker_age_y": ("y", 5, 100),
    "platform_h_m": ("m", 0, 4.0),
    "wall_age_h": ("h", 0, 2160),
    "wall_least_h": ("h", 0, 24 * LONGEST_WAIT_D),
    "backfill_step_m": ("m", 0, 10.0),
    "load_kg": ("kg", 1, 200),
    "lifters": ("1", 0, 10),
    "lift_limit_kg": ("kg", 5, 25),
    "cast_h": ("h", 0, 2160),
    "form_least_d": ("d", 7, LONGEST_WAIT_D),
    "load_least_d": ("d", 7, LONGEST_WAIT_D),
    "least_temp_c": ("C", -20, 55),
    "air_c": ("C", -20, 55),
    "cured_d": ("d", 0, 90),
    "cure_least_d": ("d", 1, LONGEST_WAIT_D),
    "cure_missed_d": ("d", 0, 90),
    "openings_open": ("1", 0, 4),
    "slab_length_m": ("m", 0.20, 2.00),  # an outlet cover is 1.53 m long in one published plant
    "slab_width_m": ("m", 0.10, 1.50),
    "slab_thickness_m": ("m", 0.04, 0.15),
    "test_limit_m": ("m", 0, 1.5),
    "test_head_m": ("m", -0.2, None),
    "test_start_m": ("m", -0.2, None),
    "people_on_dome": ("1", 0, 20),
    "test_h": ("h", 0, 720),
    "test_least_h": ("h", 0, 720),
    "temp_change_c": ("C", -60, 60),
    "stove_vents": ("1", 0, 10),
    "gas_head_m": ("m", -0.2, None),
    "gas_limit_m": ("m", 0, 1.5),
    "wbgt_c": ("C", 5, 45),
    "heat_index_c": ("C", -20, 80),
    "acclimatised_d": ("d", 0, None),
    "thunder_min": ("min", 0, None),
}
