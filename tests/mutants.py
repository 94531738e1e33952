"""Labelled messages changed as people change them, with what each must then mean: a generator, seeded.

Nineteen ways, numbered as the brief's list of mutators: the first fourteen keep the label, the rest change it. What a keyword may
be swapped for comes from the table in this file, which is written by hand and not read from the bot's own lists.
"""

import random
import re
from dataclasses import dataclass, replace

from bot.reading.score import Row, language

GREETINGS = (
    "hello sir", "hi boss", "good morning", "pls", "namaste ji", "ram ram bhai", "bhai ji", "habari mzee", "shikamoo", "salaam",
    "bonjour chef", "नमस्ते जी", "thanks", "asante", "merci", "ji",
)  # fmt: skip
PADDING = "good morning sir i hope you are well and your family is well also thank you very much for all your help with our work here sir "
DIGITS = [str.maketrans("0123456789", digits) for digits in ("०१२३४५६७८९", "٠١٢٣٤٥٦٧٨٩", "۰۱۲۳۴۵۶۷۸۹")]
QUOTED = "TB07 #14 PIT: Deep 1.85 m (185 cm): within plan 1.80-1.85 m. Send: pit done."
KEYS = ("abc", "def", "ghi", "jkl", "mno", "pqrs", "tuv", "wxyz")
ROWS = ("qwertyuiop", "asdfghjkl", "zxcvbnm")
SYNONYMS = [  # one thing in five ways of writing
    "pit hole gaddha gadda khadda shimo fosse fouille trou गड्ढा",
    "depth deep dpth gehrai gahrai kina profondeur prof गहराई",
    "width wide chaudai upana largeur diameter dia vyas kipenyo diametre चौड़ाई व्यास",
    "thickness thick motai unene epaisseur मोटाई",
    "height unchai uchai kimo hauteur ऊँचाई",
    "floor farsh neev sakafu msingi radier फर्श",
    "wall deewar diwar ukuta mur दीवार",
    "dome gumbad kuba coupole गुंबद",
    "plaster plasta lipu enduit crepi प्लास्टर",
    "cement siment saruji simenti ciment सीमेंट",
    "sand ret balu mchanga sable रेत",
    "gravel gitti kokoto gravier गिट्टी",
    "bricks eent matofali briques ईंट",
    "bags bori katta sacs बोरी",
    "cows gai vaches गाय",
    "buffalo bhains buffles भैंस",
    "people log personnes लोग",
    "coat parat couche",
    "curing tarai kukomaza cure तराई",
    "inch inches इंच pouces",
    "ft feet fut फुट pieds",
    "day days din jours दिन",
    "arrived came aaya recu आया",
    "used laga utilise लगा",
    "done finished khatam tayari imeisha fini termine",
    "undo hatao futa effacer हटाओ",
    "status hali etat",
    "radius trijya rayon",
    "mix masala mchanganyiko melange मसाला",
]
TWINS = {  # the same keys on a telephone with twelve of them
    "dome": "done", "food": "dome", "pit": "sit", "sand": "same", "used": "tree", "cow": "any", "base": "care", "rad": "sad", "in": "go",
    "cm": "an",
}  # fmt: skip
NOT_DONE = {
    "en": ("{stage} not done", "{stage} not yet done", "{stage} isnt finished", "{stage} nt done"),
    "hi-Latn": ("{stage} nahi hua", "{stage} abhi nahi hua", "{stage} nai hua", "{stage} nhi hui"),
    "hi": ("{stage} नहीं हुआ", "{stage} अभी नहीं हुआ"),
    "sw": ("{stage} bado", "{stage} haijaisha", "{stage} haijakamilika", "{stage} bado haijaisha"),
    "fr": ("{stage} pas fini", "{stage} pas encore fini", "{stage} pas termine", "{stage} n'est pas fini"),
}
STAGES = {
    "dig": "pit gaddha shimo fosse गड्ढा",
    "base": "base farsh sakafu radier फर्श",
    "wall": "wall deewar ukuta mur दीवार",
    "dome": "dome gumbad kuba coupole गुंबद",
    "plaster": "plaster palaster plasta enduit प्लास्टर",
}
RANGED = ("pit_depth_m", "pit_dia_m", "base_thick_m", "dome_height_m", "dome_radius_m", "wall_height_m", "coat_thick_m")
NUMBER = r"\d+(?:[.,]\d+)?"
UNIT = r"(?:cm|mm|mtr|meter|metres|metre|m|inch|inches|in|ft|fut|feet)"
BAD_TYPO = re.compile(  # words whose slip is another word, a number or a denial: a question may follow
    r"^(seven|eight|three|forty|fifty|sixty|seventy|eighty|ninety|hundred|twenty|thirty|point|quarter|half|bitta|shubiri|mikono|coudees"
    r"|quatre|trois|paanch|saadhe|paune|dedh|adhai|wanne|watano|miwili|mbili|tatu|kasoro|mmoja)$"
)


@dataclass(frozen=True)
class Mutant:
    """A changed message: the way it was changed, what was sent, the label it has now."""

    way: str
    row: Row
    exact: bool = True  # False where a question is as right as the reading

    @property
    def text(self):
        return self.row.text


# ---- the dress: the label stays


def case(chance, row):
    return chance.choice((str.lower, str.upper, str.title))(row.text)


def trailing(chance, row):
    return row.text + chance.choice((".", "..", "!", " .", "\n", "!!"))


def greeting(chance, row):
    said = chance.choice(GREETINGS)
    return chance.choice((f"{said} {row.text}", f"{said}, {row.text}", f"{row.text} {said}"))


def glued(chance, row):
    return re.sub(r"(?<=[a-z]) (?=\d)|(?<=\d) (?=[a-z])", "", row.text)


def spaced(chance, row):
    if chance.random() < 0.5:
        return row.text.replace(" ", "  ")
    return re.sub(r"(?<=\d)(c|m|k)(m|g)\b", r" \1 \2", row.text)


def comma(chance, row):
    return re.sub(r"(?<![\d.:])(\d+)\.(\d{1,2})(?![\d.:])", r"\1,\2", row.text)


def digits(chance, row):
    return row.text.translate(chance.choice(DIGITS))


def swapped(chance, row):
    """Two fields with their readings in the other order."""
    for pattern in (
        rf"([^\W\d]+ {NUMBER} ?{UNIT}) ([^\W\d]+ {NUMBER} ?{UNIT})",
        rf"({NUMBER} ?{UNIT} [^\W\d]+) ({NUMBER} ?{UNIT} [^\W\d]+)",
    ):
        found = re.search(rf"(?<![\w.,]){pattern}$", row.text)
        measures = {word for group in SYNONYMS[1:5] for word in group.split()} | {"wide", "high", "thick", "dep", "ht"}
        if found and row.family in ("pit", "check") and all(measures & set(half.lower().split()) for half in found.groups()):
            return row.text[: found.start()] + f"{found[2]} {found[1]}"
    found = re.fullmatch(r"(\D*?)(\d+ [a-z]+) (\d+ [a-z]+)", row.text)
    return f"{found[1]}{found[3]} {found[2]}" if found and row.family == "size" else row.text


def synonym(chance, row):
    """One keyword in another language."""
    places = [(found, group.split()) for group in SYNONYMS for found in _words(row.text, group.split())]
    if not places:
        return row.text
    found, group = chance.choice(places)
    return row.text[: found.start()] + chance.choice([word for word in group if word != found.group().lower()]) + row.text[found.end() :]


def typo(chance, row):
    """One slip in a word of five letters or more."""
    places = [each for each in re.finditer(r"[a-z]{5,}", row.text) if not BAD_TYPO.match(each.group())]
    if not places or row.family in ("join", "lang"):
        return row.text
    found = chance.choice(places)
    word = found.group()
    at = chance.randrange(1, len(word))
    vowels = [place for place, letter in enumerate(word) if place and letter in "aeiou"]
    slips = [word[:at] + word[at] + word[at:], word[: at - 1] + word[at] + word[at - 1] + word[at + 1 :] if at > 1 else word]
    slips += [word[:at] + _neighbour(chance, word[at]) + word[at + 1 :]]
    slips += [word[:place] + word[place + 1 :] for place in vowels[:2]]
    return row.text[: found.start()] + chance.choice(slips) + row.text[found.end() :]


def lookalike(chance, row):
    """The letters o and l for 0 and 1 beside a digit."""
    text = re.sub(r"(?<=\d)0", chance.choice("Oo"), row.text)
    return re.sub(r"(?<![\w.,:])1(?=[.,]\d|\d)", "l", text) if chance.random() < 0.5 else text


def restyled(chance, row):
    """One length in another unit, of the same size."""
    if row.family not in ("pit", "base", "check") or any(key.startswith(("gauge", "leg")) for key in row.label):
        return row.text
    if row.label.get("ask") == "list_or_decimal":
        return row.text  # it is no one length
    found = [
        each for each in re.finditer(rf"(?<![\w.,:'/\-])({NUMBER}) ?(cm|m|mtr|meter)(?![\w]| ?\d)", row.text) if _alone(row.text, each)
    ]
    if not found:
        return _feet(chance, row.text)
    each = chance.choice(found)
    millimetres = round(float(each[1].replace(",", ".")) * (10 if each[2] == "cm" else 1000), 3)
    forms = [f"{millimetres / 10:g} cm", f"{millimetres / 10:g}cm", f"{millimetres:g} mm", f"{millimetres / 1000:g} m"]
    if millimetres > 1000 and millimetres % 10 == 0 and millimetres % 1000:
        forms += [f"{int(millimetres // 1000)}m{int(millimetres % 1000 // 10):02d}"]
    return row.text[: each.start()] + chance.choice(forms) + row.text[each.end() :]


def _feet(chance, text):
    found = re.search(r"(?<![\w.,:'/\-])(\d+) ?(?:ft|fut|feet|foot) ?(\d+) ?(?:inch|inches|in)\b(?! \d)", text)
    if not found:
        return text
    feet, inches = found[1], found[2]
    forms = (
        f"{feet}ft{inches}in",
        f"{feet} feet {inches} inches",
        f"{feet}'{inches}\"",
        f"{feet} fut {inches} inch",
        f"{feet}ft {inches}in",
        f"{12 * int(feet) + int(inches)} inch",
    )
    return text[: found.start()] + chance.choice(forms) + text[found.end() :]


def quoted(chance, row):
    return chance.choice((f"{row.text}\n{QUOTED}", f"{row.text} > {QUOTED}", f"> {QUOTED}\n{row.text}"))


def padded(chance, row):
    return PADDING + row.text


# ---- what changes the label


def unitless(chance, row):
    """No unit: the same where one only is possible, else a question; never another size."""
    text = re.sub(rf"(?<=\d) ?{UNIT}(?!\w)", "", row.text)
    whole = row.family in ("pit", "base", "check") and text != row.text and not re.search(r"\d ?(?:soot|['\"])|\d+ \d", text)
    return (text, row.label | {"expect": "infer"}) if whole else None


def twin(chance, row):
    """The keyword that begins a message replaced by the word on the same keys."""
    places = [(each, TWINS[each.group().lower()]) for each in _words(row.text, TWINS) if not each.start()]
    if not places or row.label["expect"] not in ("parse", "infer") or row.family == "buy" or "also" in row.label:
        return None
    each, other = places[0]
    return row.text[: each.start()] + other + row.text[each.end() :], row.label | {"expect": "infer"}


def tenfold(chance, row):
    """A reading ten times as large."""
    fields = [key for key in row.label if key in RANGED]
    found = list(re.finditer(rf"(?<![\w.,:/'\-])({NUMBER})(?= ?(?:cm|mm|mtr|meter|metre|m)(?!\w))", row.text))
    if len(fields) != 1 or "," in row.label[fields[0]] or len(found) != 1 or row.label["expect"] != "parse" or row.family == "mix":
        return None
    value = f"{float(found[0][1].replace(',', '.')) * 10:g}"
    return row.text[: found[0].start()] + value + row.text[found[0].end() :], {"expect": "confirm", "intent": row.label["intent"]}


def negated(chance, row):
    """A stage that is not finished, in any way of writing."""
    stage = row.label.get("stage")
    if row.label.get("state") != "done" or stage not in STAGES:
        return None
    code = chance.choice(list(NOT_DONE))
    names = dict(zip(("en", "hi-Latn", "sw", "fr", "hi"), STAGES[stage].split(), strict=True))
    text = chance.choice(NOT_DONE[code]).format(stage=names[code])
    return text, {"expect": "parse", "intent": "stage", "stage": stage, "state": "not_done"}


def denied(chance, row):
    """A not put in front of a word for done or behind the text: never done, and a question is as right as not done."""
    if row.label.get("state") != "done":
        return None
    word = chance.choice(("not", "nahi", "pas", "bado", "si", "नहीं", "never", "no"))
    text = chance.choice(
        (
            f"{word} {row.text}",
            f"{row.text} {word}",
            re.sub(r"(?i)\b(done|finish\w*|complete\w*|ho gaya|tayari|fini)\b", rf"{word} \1", row.text),
        )
    )
    return (text, {"expect": "parse", "intent": "stage", "stage": row.label["stage"], "state": "not_done"}) if text != row.text else None


SAME = {
    "01 case": case, "02 mark behind": trailing, "03 greeting": greeting, "04 glued": glued, "05 spaced": spaced, "06 decimal comma": comma,
    "07 digits": digits, "08 order": swapped, "09 synonym": synonym, "10 slip": typo, "11 look-alike": lookalike, "12 unit": restyled,
    "13 reply quoted": quoted, "14 long": padded,
}  # fmt: skip
CHANGED = {"16 no unit": unitless, "17 twin": twin, "18 tenfold": tenfold, "19 not done": negated, "19 denied": denied}
LOOSE = {"16 no unit", "17 twin", "19 denied"}


def seeds_of(rows, seed, most=75):
    """So many rows of each way of writing, at random: the languages weigh alike."""
    chance, held = random.Random(seed), {}
    for row in chance.sample(rows, len(rows)):
        held.setdefault(language(row.text), []).append(row)
    return [row for rows in held.values() for row in rows[:most]]


def mutants(seeds, seed, count):
    """Return about so many Mutants of the seeds, each way as often as it can be had, no text twice."""
    chance, found, ways = random.Random(seed), {}, list(SAME) + list(CHANGED)
    for place, way in enumerate(ways):
        share = (count - len(found)) // (len(ways) - place)
        ends = len(found) + share
        for _ in range(30 * share):
            made = _made(way, chance, chance.choice(seeds))
            if made is not None and made.text not in found:
                found[made.text] = made
            if len(found) >= ends:
                break
    return list(found.values())


def _made(way, chance, row):
    if way in SAME:
        text = SAME[way](chance, row)
        return Mutant(way, replace(row, text=text)) if text != row.text else None
    made = CHANGED[way](chance, row)
    return Mutant(way, Row(row.family, *made), exact=way not in LOOSE) if made else None


def _words(text, words):
    """Where one of the words stands alone."""
    known = {word.lower() for word in words}
    return [each for each in re.finditer(r"[^\W\d_][^\W\d_\u0900-\u0903]*[\u0900-\u097f]*", text) if each.group().lower() in known]


def _alone(text, found):
    """True where no number stands before a reading whose unit it might share."""
    joint = r"\s*(?:x|and|n|na|et|aur|with)?\s*"
    before = re.search(rf"\d[.,]?\s*(?:{UNIT})?{joint}$", text[: found.start()])
    return not before and not re.match(rf"{joint}\d", text[found.end() :])


def _neighbour(chance, letter):
    line = next((row for row in ROWS if letter in row), letter)
    at = line.index(letter)
    return chance.choice(line[max(at - 1, 0) : at] + line[at + 1 : at + 2] or letter)
