"""What the office takes out as files: the record and the card read back by another library, the tables by the csv module."""

import csv
import json
import re
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from pypdf import PdfReader

from bot import card, record
from bot.__main__ import main
from bot.forms import Understood
from bot.kinds import KINDS
from bot.phrases import Reader
from bot.reading.read import read
from bot.reading.things import Hints
from bot.reading.words import vocabulary
from bot.site import Logged
from bot.tongue import LANGUAGES, NEXT
from calc.sources import EDITION
from tests.conftest import NOON

TEAM = [("supervisor", "Asha"), ("mason", "Bholu"), ("farmer", "Kamla")]
KENYA = Reader(zone="Africa/Nairobi")
DANGER = {"sw": "HATARI", "hi": "KHATRA", "hi-Latn": "KHATRA"}  # Devanagari is printed in Latin letters


@pytest.fixture
def lived(send, book):
    """TB07 after a dig, its sides signed, a photo, an entry taken back."""
    send("mason", "pit 3.12 3.08 3.10 deep 1.83")
    send("supervisor", "release tb07 support 1.83 m", NOON + timedelta(hours=1))
    send("mason", "came 10 bags cement", NOON + timedelta(hours=2))
    send("mason", "undo", NOON + timedelta(hours=3))
    with book.page() as page:
        site = page.site("TB07")
    photo = Logged(5, "photo", NOON + timedelta(hours=4), 1, "Bholu", {"photo": "AgACphoto", "channel": "telegram", "at_stage": "pit"})
    return replace(site, log=(*site.log, photo))


def pages(path):
    return [re.sub(r"\s+", " ", page.extract_text()).strip() for page in PdfReader(path).pages]


def written(tmp_path, site, reader=KENYA):
    path = tmp_path / "record.pdf"
    record.document(path, site, TEAM, reader, NOON + timedelta(days=1))
    return " ".join(pages(path))


def test_the_record_tells_who_what_when_and_how_it_stood(lived, tmp_path):
    text = written(tmp_path, lived)
    assert "TB07: record of the plant Kamla Sunbird Dairy Co-op" in text
    for told in ("Supervisor Asha", "Mason Bholu", "Farmer Kamla", "Released by Asha, supervisor."):
        assert told in text
    assert "A inside wide 2.60 m" in text and "K pit wide 3.05 m" in text and "3 zero line -48 cm" in text
    # 9:00 in UTC is 12:00 in Nairobi
    assert "1 2026-03-02 12:00 Bholu pit Deep 1.83 m; Wide 3.12 m, 3.08 m, 3.10 m within" in text
    assert "3 2026-03-02 14:00 Bholu stock" in text and "taken back" in text
    assert "4 2026-03-02 15:00 Bholu undo #3" in text


def test_the_record_tells_releases_photos_cautions_and_the_edition_of_the_figures(lived, tmp_path):
    text = written(tmp_path, lived)
    assert "2 2026-03-02 13:00 Asha sides, released, on entry #1, protection support; value 1.83 m, until 2026-03-03 01:00" in text
    assert "5 2026-03-02 16:00 pit telegram: AgACphoto" in text
    assert "E4 STOP." in text and "#1" in text
    assert f"Edition of the figures: {EDITION}." in text
    assert "pit not done; hold" in text and "site before this log began" in text


def test_a_pressure_is_told_only_where_somebody_stands_for_the_plan(lived, tmp_path):
    # greatest head 1.75 m less the lowest level, 75 cm of water as for the message
    assert "Gas never above 75 cm water." in written(tmp_path, lived)
    nobody = written(tmp_path, replace(lived, planned_by=None))
    assert "cm water" not in nobody and "Nobody stands for this plan." in nobody


def test_a_record_without_plan_and_log_says_so(book, tmp_path):
    with book.page() as page:
        text = written(tmp_path, page.site("KV12"))
    assert "No plan yet." in text and "The log is empty." in text and text.count("None.") == 3


def test_a_long_log_goes_over_pages_with_their_numbers_and_loses_no_entry(lived, tmp_path):
    many = tuple(Logged(n, "pit", NOON, 1, "Bholu", {"pit_depth_m": [1.0 + n / 1000]}, "within") for n in range(1, 101))
    path = tmp_path / "long.pdf"
    record.document(path, replace(lived, log=many), TEAM, KENYA, NOON)
    found = pages(path)
    assert len(found) > 3 and all(text.endswith(f" - {at}") for at, text in enumerate(found, 1))
    text = " ".join(found)
    assert all(f"{n} 2026-03-02 12:00 Bholu pit" in text for n in range(1, 101))


def test_letters_that_a_page_does_not_have_are_marked_and_stop_nothing(lived, tmp_path):
    text = written(tmp_path, replace(lived, name="\u0915\u092e\u0932\u093e \u00e9t\u00e9"))
    assert "???? \u00e9t\u00e9" in text


def test_the_record_in_feet(lived, tmp_path):
    # 2.60 m are 102.36 in, to the half inch 8 ft 6 1/2 in
    assert "A inside wide 8 ft 6 1/2 in" in written(tmp_path, lived, Reader(units="feet", zone="Africa/Nairobi"))


# ---- tables


def table(path):
    return list(csv.DictReader(path.read_text(encoding="utf-8").splitlines()))


def test_the_log_as_a_table_keeps_numbers_in_si_under_their_names(lived, tmp_path):
    record.write(tmp_path / "log.csv", record.LOG, record.log_rows(lived))
    rows = table(tmp_path / "log.csv")
    assert [row["entry"] for row in rows] == ["1", "2", "3", "4", "5"]
    assert json.loads(rows[0]["fields_si"]) == {"pit_depth_m": [1.83], "pit_dia_m": [3.12, 3.08, 3.10]}
    assert (rows[0]["at"], rows[0]["verdict"], rows[0]["by"]) == ("2026-03-02T12:00:00+03:00", "within", "Bholu")
    assert [row["counts"] for row in rows] == ["yes", "yes", "no", "no", "yes"]
    assert rows[3]["refers"] == "3" and "E4" in rows[0]["cautions"].split()


def test_what_a_spreadsheet_would_reckon_is_quoted(lived, tmp_path):
    odd = replace(lived.log[0], name="=1+1")
    record.write(tmp_path / "log.csv", record.LOG, record.log_rows(replace(lived, log=(odd,))))
    assert table(tmp_path / "log.csv")[0]["by"] == "'=1+1"


def test_a_site_is_one_row_with_what_waits_and_what_stops(send, book):
    send("mason", "pit 3.12 3.08 3.10 deep 1.83")
    with book.page() as page:
        row = dict(zip(record.SITES, record.site_row(page.site("TB07"), TEAM, NOON), strict=True))
    assert (row["site"], row["at_stage"], row["done"], row["stages"], row["entries"]) == ("TB07", "pit", 2, 17, 1)
    assert "E4" in row["stops"].split()
    assert (row["supervisor"], row["mason"], row["farmer"], row["gas_m3_per_day"]) == ("Asha", "Bholu", "Kamla", "1.8")
    # 7.39 by hand: pi 1.3^2 1.10 = 5.840 and under the cap pi 0.55 / 6 (3 x 1.3^2 + 0.55^2) = 1.547
    assert row["plan_m3"] == "7.39"


# ---- the pocket card


MEASURED = {  # what a mason may have measured, in the order of the lines he fills
    ("pit", "metric"): (312, 308, 310, 183), ("pit", "feet"): (10, 3, 10, 1, 10, 2, 6, 0), ("base", "metric"): (10, 11, 10),
    ("base", "feet"): (4, 4, 4), ("dome", "metric"): (181, 182, 181), ("dome", "feet"): (5, 11, 6, 0, 5, 11), ("mix", None): (2,),
    ("stock", None): (10,),
}  # fmt: skip


def filled(kind, text, units):
    numbers = iter(MEASURED.get((kind, units)) or MEASURED.get((kind, None)) or ())
    whole = re.sub(r"\bn+\b", lambda _: str(next(numbers)), text)
    assert next(numbers, None) is None, "a number was left over"
    return whole


def understood(kind, text, units):
    return read(filled(kind, text, units), KINDS, vocabulary(), Hints(frozenset({"TB07"}), frozenset(), 50.0, {}))


@pytest.mark.parametrize("units", ["metric", "feet"])
@pytest.mark.parametrize("language", ["en", "sw", "hi", "hi-Latn", "fr"])
def test_each_of_the_eight_texts_is_read_as_what_it_is_meant_for(language, units):
    texts = card.texts(language, units)
    assert len(texts) == len({kind for kind, _ in texts}) == 8
    for kind, text in texts:
        outcome = understood(kind, text, units)
        assert isinstance(outcome, Understood), (text, outcome)
        assert [form.kind for form in outcome.forms] == [kind], text
        assert not outcome.alarm


def test_the_texts_hold_all_numbers_in_the_units_of_the_mason():
    def of(kind, language, units):
        return understood(kind, dict(card.texts(language, units))[kind], units).forms[0].fields

    assert of("pit", "sw", "metric") == {"pit_dia_m": (3.12, 3.08, 3.10), "pit_depth_m": (1.83,)}
    found = of("pit", "fr", "feet")
    assert found["pit_depth_m"] == pytest.approx((6 * 0.3048,))
    assert found["pit_dia_m"] == pytest.approx((3.1242, 3.0734, 3.0988))  # 10 ft are 3.048 m, an inch 0.0254
    assert of("stock", "hi", "metric")["cement_bags"] == 10


@pytest.mark.parametrize("units", ["metric", "feet"])
@pytest.mark.parametrize(
    "language,words", [("en", "pit done"), ("sw", "shimo tayari"), ("hi-Latn", "gaddha ho gaya"), ("fr", "fosse finie")]
)
def test_the_card_is_one_page_with_danger_supervisor_and_help(book, tmp_path, language, words, units):
    with book.page() as page:
        site = page.site("TB07")
    path = tmp_path / "card.pdf"
    card.document(path, site, [("Asha", "+254700000200")], replace(KENYA, language=language, units=units))
    (text,) = pages(path)
    for told in (words, DANGER.get(language, "DANGER"), "Asha +254700000200", card.HELP[language[:2]].upper()):
        assert told in text
    assert not re.search(r"\bn+\b", text)


def test_whom_to_call_in_an_emergency_is_in_his_language_or_the_houses_own(book, tmp_path):
    with book.page() as page:
        site = page.site("TB07")

    def told(language, **own):
        card.document(tmp_path / "c.pdf", replace(site, rules=replace(site.rules, **own)), [], replace(KENYA, language=language))
        return pages(tmp_path / "c.pdf")[0]

    assert "Shout for help. Call rescue by voice." in told("sw", emergency_texts={})
    assert "Piga kelele." in told("sw", emergency_texts={"sw": "Piga kelele."})
    assert "Call local rescue and your supervisor." in told("en", emergency_text=None)


# ---- the commands


@pytest.fixture
def office(book, monkeypatch, tmp_path):
    monkeypatch.setenv("PEGLINE_DATABASE_URL", book.url.render_as_string(hide_password=False))
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_the_commands_write_their_files(office, lived, capsys):
    assert main(["draw", "tb07", "pegs", "--to", "pegs.png", "--lang", "hi", "--units", "feet"]) == 0
    assert main(["record", "TB07", "--pdf", "r.pdf", "--csv", "r.csv"]) == 0
    assert main(["sites", "--csv", "sites.csv"]) == 0
    assert main(["card", "bd03", "--lang", "hi-Latn"]) == 0
    assert capsys.readouterr().out.splitlines() == ["6 sites", "BD03-card-hi-Latn.pdf"]
    assert (office / "pegs.png").read_bytes().startswith(b"\x89PNG")
    assert len((office / "sites.csv").read_text().splitlines()) == 7
    assert "___ ft ___ in" in pages(office / "BD03-card-hi-Latn.pdf")[0], "its mason reads feet"


def test_a_record_up_to_an_entry_knows_nothing_of_later_ones(office, lived):
    assert main(["record", "TB07", "--csv", "r.csv", "--until", "2"]) == 0
    assert len((office / "r.csv").read_text().splitlines()) == 3


@pytest.mark.parametrize(
    "words,told",
    [
        (["draw", "TB99", "section", "--to", "x.png"], "no site TB99"),
        (["draw", "KV12", "section", "--to", "x.png"], "no plan yet"),
        (["draw", "TB07", "gas", "--to", "x.png"], "when does the family cook"),
        (["record", "TB07"], "nothing to write"),
    ],
)
def test_what_cannot_be_written_is_said(office, words, told, capsys):
    assert main(words) == 2
    assert told in capsys.readouterr().err
    assert not list(office.glob("*.png"))


def test_every_language_of_the_card_has_letters_that_a_page_has():
    assert {NEXT.get(code, code) for code in LANGUAGES} <= {"en", "sw", "fr", "hi-Latn"}
    for language in card.TEXTS:
        for _, text in card.texts(language, "metric"):
            assert text.isascii()


def test_a_moment_stands_in_the_sites_time():
    assert record.moment(datetime(2026, 3, 1, 22, 30, tzinfo=UTC), KENYA) == "2026-03-02 01:30"
