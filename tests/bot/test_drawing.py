"""Pictures: for a small phone, nothing on top of anything, and the numbers of the plan."""

import re
import string
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from PIL import Image, ImageFont

from bot import drawing, phrases
from bot.drawing.board import DOTS, LETTERS, SMALL, WIDTH, Board, Box, Crowded
from bot.drawing.gas import course
from bot.drawing.progress import rows
from bot.phrases import Reader
from bot.site import Logged, Rules, Site
from bot.tongue import catalogue
from calc.gas_use import Session
from tests.conftest import NOON

SUNBIRD = {
    "radius_m": 1.30, "wall_height_m": 1.10, "dome_rise_m": 0.55, "bottom": "flat", "zero_line_m": 1.22, "chamber_length_m": 1.65,
    "chamber_width_m": 1.25, "chamber_depth_m": 0.53, "pit_diameter_m": 3.05, "pit_depth_m": 1.80, "dung_kg_per_day": 55.0,
    "gas_m3_per_day": 1.8,
}  # fmt: skip
PLANS = {
    "drawn": SUNBIRD,
    "bowl": {"gas_m3_per_day": 2.0, "dome": "ferrocement"},
    "small bowl": {"volume_m3": 1.5},
    "great bowl": {"volume_m3": 20.0},
    "cylinder on a floor": {"volume_m3": 8.0, "shape": "cylinder_cap", "bottom": "flat", "dome": "concrete"},
    "cylinder on a bowl": {"volume_m3": 6.0, "shape": "cylinder_cap", "dome": "concrete"},
    "great cylinder on a cone": {"volume_m3": 24.0, "shape": "cylinder_cap", "bottom": "cone"},
}


def entry(number, kind, days, verdict=None, **fields):
    return Logged(number, kind, NOON + timedelta(days=days), 2, "Asha", fields, verdict)


LOG = (
    entry(1, "stage", -20, "recorded", stage="pit", state="done"),
    entry(2, "release", -19, "released", stage="pit"),
    entry(3, "stage", -15, "recorded", stage="base", state="done"),
    entry(4, "levels", -15, string_m=0.30),
    entry(5, "use", -3, start_h=[6, 12, 18], hours_h=[2, 1, 2], stoves=[1, 1, 1]),
)
RULES = Rules(zone="Africa/Nairobi", mean_temp_c=22.0, cement="opc", crew_masons=1, crew_labourers=2)


def site(plan="drawn", log=LOG):
    return Site("TB07", "Kamla", RULES, PLANS[plan], "Asha", "pit", log)


def board(what, plan="drawn", units="metric", log=LOG):
    return drawing.PICTURES[what](site(plan, log), Reader(units=units, zone="Africa/Nairobi"), NOON)


def value(made, title):
    """The number printed behind a title, on its line."""
    (at,) = [box for box in made.boxes if box.text == title]
    line = [box for box in made.boxes if box.left > at.right and abs(box.top + box.bottom - at.top - at.bottom) < 8]
    return min(line, key=lambda box: box.left).text


def faults(made):
    """Texts that lie on each other or reach out of the picture."""
    boxes = made.boxes
    out = [box.text for box in boxes if box.left < 0 or box.top < 0 or box.right > WIDTH or box.bottom > made.height]
    return out + [(one.text, two.text) for at, one in enumerate(boxes) for two in boxes[at + 1 :] if one.meets(two)]


@pytest.fixture
def longwinded(monkeypatch):
    """A language in which every longer word is half as long again."""

    def longer(sentence):
        return re.sub(r"(?<![%(\w])([A-Za-z]{4,})(?![\w)])", lambda found: found[1] + found[1][: len(found[1]) // 2], sentence)

    monkeypatch.setattr(phrases, "sentence", lambda text, language: longer(text))


@pytest.mark.parametrize("units", ["metric", "feet"])
@pytest.mark.parametrize("plan", PLANS)
@pytest.mark.parametrize("what", drawing.PICTURES)
def test_no_text_lies_on_another_or_reaches_out(what, plan, units):
    assert faults(board(what, plan, units)) == []


@pytest.mark.parametrize("plan", ["drawn", "great cylinder on a cone"])
@pytest.mark.parametrize("what", drawing.PICTURES)
def test_nor_do_they_in_a_language_of_longer_words(what, plan, longwinded):
    assert faults(board(what, plan, "feet")) == []


@pytest.mark.parametrize("what", drawing.PICTURES)
def test_a_picture_is_a_png_for_a_phone_360_points_wide_and_not_blank(what, tmp_path):
    path = tmp_path / "picture.png"
    drawing.draw(what, site(), Reader(), NOON, path)
    with Image.open(path) as image:
        assert (image.format, image.width) == ("PNG", 360 * DOTS)
        assert 250 * DOTS <= image.height <= 700 * DOTS
        darkness = image.convert("L").point(lambda grey: grey < 128).histogram()
    assert 0.005 < darkness[1] / sum(darkness) < 0.25
    assert path.stat().st_size < 200_000


@pytest.mark.parametrize("language", ["en", "fr", "sw", "hi-Latn"])
def test_every_letter_of_a_language_is_there(language):
    font = ImageFont.truetype(LETTERS, 30)
    missing = bytes(font.getmask("\U0010ffff"))
    said = {letter for found in catalogue(language)._catalog.values() for letter in found} if language != "en" else set(string.printable)
    lacking = {letter for letter in said - set(string.whitespace) if bytes(font.getmask(letter)) == missing}
    assert not lacking and said


def test_letters_are_as_high_as_on_a_page():
    """10 points: capitals of over 7, 1.1 mm on a phone of 160 points an inch."""
    high = [box.bottom - box.top for what in drawing.PICTURES for box in board(what).boxes if re.search("[A-Z]", box.text)]
    assert SMALL >= 10 and min(high) >= 2 + 7  # with a point of room above and below


@pytest.mark.parametrize(
    "title,printed",
    [
        ("inside wide", "2.60 m"), ("wall high", "1.10 m"), ("dome rise", "55 cm"),
        ("dome string", "1.81 m"),  # (1.30^2 + 0.55^2) / (2 x 0.55) = 1.811
        ("base thick", "10 cm"), ("pit wide", "3.05 m"), ("pit deep", "1.80 m"), ("chamber long", "1.65 m"), ("chamber wide", "1.25 m"),
        ("chamber deep", "53 cm"),
        # the ground lies 5 cm under the overflow, which is 1.22 + 0.53 = 1.75 over the floor: at 1.70
        ("overflow", "5 cm"), ("zero line", "-48 cm"), ("crown inside", "-5 cm"), ("dome start", "-60 cm"), ("floor middle", "-1.70 m"),
        ("inlet floor", "20 cm"), ("inlet pipe end", "-1.30 m"),
    ],
)  # fmt: skip
def test_the_section_tells_the_numbers_of_the_plan(title, printed):
    assert value(board("section"), title) == printed


def test_on_the_drawing_itself_stand_the_widths_and_every_letter_of_the_list():
    texts = [box.text for box in board("section", "cylinder on a bowl").boxes]
    assert {"A 2.34 m", "K 2.79 m"} <= set(texts)
    for letter in "BCDEFGHJLN123456789":
        assert texts.count(letter) >= 2, letter


def test_the_plan_from_above_tells_its_numbers():
    made = board("plan")
    found = {title: value(made, title) for title in ("inside wide", "pit wide", "chamber long", "chamber wide", "its diagonal")}
    # the diagonal of 1.65 x 1.25: root of 2.7225 + 1.5625 = 2.070
    assert list(found.values()) == ["2.60 m", "3.05 m", "1.65 m", "1.25 m", "2.07 m"]


def test_the_setting_out_sheet_counts_down_from_the_peg_string():
    made = board("pegs")
    assert "Below the peg string, 30 cm over the ground:" in [box.text for box in made.boxes]
    found = [
        value(made, title) for title in ("string, pit edge", "string, inside", "both diagonals", "overflow", "floor middle", "pit edge")
    ]
    # the string hangs at 1.70 + 0.30 = 2.00 over the floor, the pit's edge 10 cm of base under it
    assert found == ["152.5 cm", "130 cm", "207 cm", "25 cm", "200 cm", "210 cm"]


def test_without_a_peg_string_levels_are_told_from_the_ground():
    made = board("pegs", log=LOG[:3])
    assert "Below the ground (- is over it), peg string not told:" in [box.text for box in made.boxes]
    assert (value(made, "overflow"), value(made, "floor middle")) == ("-5 cm", "170 cm")


def test_the_string_card_has_the_rise_at_several_places():
    texts = [box.text for box in board("string").boxes]
    assert "String 181.1 cm to the inside of the dome." in texts
    assert "Centre 16.1 cm under the floor: cut a template." in texts  # 1.811 - 0.55 - 1.10 = 0.161
    # at 60 cm: root of 1.811^2 - 0.60^2 = 1.709, less 1.261 = 0.448
    assert texts[texts.index("60") + 1] == "44.8"


def test_the_string_card_of_a_bowl_has_its_floor_too():
    texts = [box.text for box in board("string", "bowl").boxes]
    at = texts.index("60")
    # a hemisphere of 1.326 m: root of 1.326^2 - 0.60^2 = 1.182
    assert texts[at + 1] == "118.2" and float(texts[at + 2]) == pytest.approx(38.5, abs=0.1)


def test_the_progress_sets_the_reports_against_the_plan_of_the_first_day():
    held = {row.stage.name: row for row in rows(site(), NOON)}
    assert "site" not in held and "layout" not in held, "they were over before the log began"
    begun = LOG[0].at
    assert held["pit"].begins == begun and held["pit"].done == begun and held["base"].done == NOON - timedelta(days=15)
    assert held["base"].begins >= held["pit"].ends
    assert held["dome"].done is None and held["dome"].stands > NOON > held["dome"].begins


def test_a_crew_that_grows_shortens_the_plan():
    more = replace(site(), log=(replace(LOG[0], kind="crew", fields={"masons": 3, "labourers": 6}), *LOG[1:]))
    few, many = ({row.stage.name: row for row in rows(each, NOON)}["handover"].ends for each in (site(), more))
    assert many < few


def test_the_gas_of_a_day_by_hand():
    # store 1.0, 2.4 a day = 0.1 an hour, 0.5 an hour burnt from 18 to 20: full all day, 0.8 less at 20, full again 8 hours later
    points = course(1.0, 2.4, [Session(18, 2, 0.5)])
    wanted = [(0.0, 0.6), (4.0, 1.0), (18.0, 1.0), (20.0, 0.2), (24.0, 0.6)]
    assert [point for at, point in enumerate(points) if point not in points[:at]] == [pytest.approx(each) for each in wanted]


def test_a_store_that_runs_empty_does_so_at_its_hour():
    # 0.1 an hour comes, 0.6 an hour is wanted from 12 on; 12 hours hold 1.2 of at most 0.5, empty one hour after 12
    assert (13.0, 0.0) in [pytest.approx(each) for each in course(0.5, 2.4, [Session(12, 12, 0.6)])]


def test_the_gas_picture_tells_what_is_made_asked_missing_and_lost():
    made = board("gas")
    assert value(made, "made a day") == "1.8 m3"
    assert value(made, "asked a day") == "1.5-2 m3"  # five hours at 0.3 and at 0.4 m3
    assert "store full: 1.09 m3" in [box.text for box in made.boxes]  # 1.65 x 1.25 x 0.53


def test_where_there_is_no_room_nothing_is_drawn_over_anything():
    made = Board(60)
    made.text(180, 30, "in the way", anchor="m")
    with pytest.raises(Crowded):
        made.label([(180, 30, "m")], ["more", "m"])
    made.label([(180, 30, "m"), (20, 30, "l")], ["more"])
    assert not Box(0, 0, 2, 2).meets(Box(2, 0, 4, 2)) and Box(0, 0, 2, 2).meets(Box(1, 1, 4, 2))


def test_what_the_moment_is_makes_no_other_plan():
    later = datetime(2026, 4, 1, tzinfo=UTC)
    assert [row.ends for row in rows(site(), NOON)] == [row.ends for row in rows(site(), later)]
