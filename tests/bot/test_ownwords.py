"""What a programme has of its own: whom to call, words that mean danger, the languages it answers in; refused where it is wrong."""

from datetime import timedelta

import pytest

from bot import programme
from bot.channels import Inbound, Part
from bot.inbox import take
from bot.lone import look
from bot.outbox import ended, fitted
from bot.phrases import T_, Reader
from bot.reading.own import added
from bot.reading.words import vocabulary
from tests.bot.test_programme import changed, refused
from tests.conftest import NOON

CALL = "Gas fitter: Mwangi, 0700 000 401."


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('does = "engineer"', 'does = "painter"', "contact"),
        ('number = "0700 000 402"', 'number = "soon"', "number"),
        ('name = "Wambui"', 'name = "Wambûi"', "name"),
        ('name = "Wambui"', 'name = "Wambui"\nsites = ["ZZ09"]', "contact Wambui: no site ZZ09"),
        ('gas = ["harufu ya mayai mabovu"]', 'smoke = ["harufu ya mayai mabovu"]', "danger_words"),
        ('gas = ["harufu ya mayai mabovu"]', 'gas = ["base"]', "base means part.base already"),
        ('gas = ["harufu ya mayai mabovu"]', 'gas = ["10 12"]', "one of them with three letters"),
        ('gas = ["harufu ya mayai mabovu"]', 'gas = ["a very long phrase of many small words here"]', "one to 6 words"),
        ("[danger_words.sw]", "[danger_words.xx]", "danger_words"),
        ('languages = ["en", ', 'languages = ["tlh", ', "languages"),
        ('languages = ["en", "sw", "hi", "hi-Latn", "fr"]', 'languages = ["sw"]', "Bholu: language en is none of sw"),
        ('draw_seed = "sunbird lots 28960"', 'draw_seed = "1234567"', "draw_seed"),
        ("audit_share = 0.07", "audit_share = 0.04", "audit_share"),
        ("extra_share = 0.10", "extra_share = 1.1", "extra_share"),
    ],
)
def test_what_is_wrong_is_refused(old, new, said, tmp_path):
    assert said in refused(changed(tmp_path, (old, new)))


# ---- whom to call


def test_a_text_that_calls_for_the_fitter_names_him(send):
    assert send("farmer", "phase 4").reply.endswith(CALL)
    assert CALL not in send("farmer", "phase 1").reply


def test_an_alert_that_calls_for_an_engineer_names_him(send):
    told = send("mason", "pit deep 5 m")
    (alert,) = [row.text for row in told.rows if row.to == "+254700000200"]
    assert "An engineer must decide." in alert and alert.endswith("Engineer: Wambui, 0700 000 402.")


def test_one_for_some_sites_is_named_there_only(send, book, tmp_path):
    path = changed(tmp_path, ('name = "Mwangi"', 'name = "Mwangi"\nsites = ["KV12"]'))
    with book.page() as page:
        programme.store(page, *programme.read(path), NOON)
    assert CALL not in send("farmer", "phase 4").reply


def test_what_may_be_left_away_is_where_there_is_no_room():
    more = T_("Gas fitter: %(name)s, %(number)s.", name="Mwangi", number="0700 000 401")
    for length, told in ((306 - len(CALL) - 1, True), (306 - len(CALL), False)):
        assert ended("x" * length, more, Reader()).endswith(CALL) is told
        assert fitted(T_("%(text)s", text="x" * length), Reader(), more).endswith(CALL) is told


# ---- words of danger


def test_a_phrase_of_the_programme_is_a_danger_at_once(send):
    told = send("mason", "sides are talking")
    assert told.reply.startswith("STOP. Ground crack or movement.") and "E7" in next(
        row.text for row in told.rows if row.to == "+254700000200"
    )


def test_a_no_takes_it_back_as_of_any_danger(send):
    for text in ("no crack", "no sides are talking"):
        assert not any(row.to == "+254700000200" for row in send("mason", text).rows), text


def test_without_it_the_phrase_is_none(send, book, tmp_path):
    path = changed(tmp_path, ('crack = ["sides are talking"]', ""))
    with book.page() as page:
        programme.store(page, *programme.read(path), NOON)
    assert not send("mason", "sides are talking").reply.startswith("STOP")


def test_the_house_words_stay_as_they_are():
    assert added(vocabulary(), ()) is vocabulary() and added(vocabulary(), None) is vocabulary()
    more = added(vocabulary(), [["en", "crack", "sides are talking"]])
    assert more is added(vocabulary(), [["en", "crack", "sides are talking"]])
    assert set(more.phrases) - set(vocabulary().phrases) == {("sides", "are", "talking")}


def test_it_is_heard_in_a_long_text_of_which_a_piece_is_missing(book):
    part = Part("+254700000000", 7, 2, 1)
    take(Inbound("sms", "p1", "+254700000107", "at tb07 sides are talking", NOON, part=part), book, vocabulary(), NOON)
    look(book, vocabulary(), timedelta(minutes=10), NOON + timedelta(seconds=40))
    with book.page() as page:
        assert any(row["text"].startswith("STOP. Ground crack") for row in page.queued("sms", "lone:p1"))


# ---- languages


def test_a_language_the_programme_does_not_answer_in_is_not_taken(send, book, tmp_path):
    path = changed(tmp_path, ('languages = ["en", "sw", "hi", "hi-Latn", "fr"]', 'languages = ["en", "sw"]'))
    with book.page() as page:
        programme.store(page, *programme.read(path), NOON)
    assert send("mason", "language french").reply == "Here: English, Kiswahili. Nothing changed."
    with book.page() as page:
        assert page.person(short="mason").language == "en"
    send("mason", "language swahili")
    with book.page() as page:
        assert page.person(short="mason").language == "sw"
