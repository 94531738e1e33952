"""SMS over the real gateway: Kannel from Debian between a test centre (SMPP) and `pegline serve`, all on loopback.

One centre, one gateway and one bot serve all tests of this file; a test that stops one of them starts it again.
"""

import itertools
import sqlite3
import time
from contextlib import closing

import pytest
import smpp34

from tests.wires.centre import LETTERS, NATIONAL, RAW, UNKNOWN, WIDE
from tests.wires.road import CREW, MASON, SUPERVISOR, aggregator, count
from tests.wires.running import KEY, get, until

fresh = itertools.count(1)  # a number for each message that must be told from others


@pytest.fixture(scope="module")
def road(tmp_path_factory):
    with aggregator(tmp_path_factory.mktemp("gateway")) as made:
        yield made


# ---- what people send


def test_a_message_is_recorded_and_answered_on_the_air_and_the_fate_of_the_answer_is_kept(road, heard):
    road.carrier.say(MASON, "got 10 bags cement")
    (reply,) = heard(MASON)
    assert reply.startswith("TB07 #1 STOCK: Came: 10 bags (500 kg) cement")
    assert (road.carrier.air[-1].coding, road.carrier.air[-1].sender) == (0, "2020")
    assert road.entries() == {(MASON, "got 10 bags cement"): 1}
    road.comes_to(reply, "delivered", "delivered")
    (sent_at,) = road.bot.rows("SELECT sent_at FROM inbound WHERE text = 'got 10 bags cement'")[0]
    assert sent_at is not None


@pytest.mark.parametrize(
    "sender, kind", [("254700000107", UNKNOWN), ("0700000107", NATIONAL), ("00254700000107", UNKNOWN), ("+254700000107", 1)]
)
def test_a_number_is_the_same_person_in_every_form(road, heard, sender, kind):
    road.carrier.say(sender, "stock", ton=kind)
    assert heard(MASON)[0].startswith("TB07 STOCK")


def test_a_brand_and_a_short_code_are_kept_and_never_answered(road, heard):
    before = len(road.carrier.air)
    for sender, kind in (("Brand-Info", LETTERS), ("2020", 3), ("15555", UNKNOWN)):
        road.carrier.say(sender, "got 5 bags cement", ton=kind)
    road.carrier.say(MASON, "stock")
    heard(MASON)
    assert len(road.carrier.air) == before + 1, "only the mason was answered"
    assert road.bot.rows("SELECT state FROM inbound WHERE text = 'got 5 bags cement'") == [("mute",)] * 3


@pytest.mark.parametrize("body, coding", [(b"\x01\x02\xff", RAW), (b"", 0), (b"", WIDE)])
def test_bytes_and_nothing_are_answered_as_not_understood(road, heard, body, coding):
    road.carrier.say(MASON, body, coding=coding)
    assert heard(MASON)[0].startswith("Not understood.")


def test_a_text_of_another_script_goes_out_in_a_coding_that_has_it(road, heard):
    devanagari = "नमस्ते " * 12
    road.bot.command("send-test", "sms", CREW[15], devanagari)
    assert heard(CREW[15]) == [devanagari]
    codings = {(sent.coding, sent.header[2:4]) for sent in road.carrier.air if sent.to == CREW[15].lstrip("+")}
    assert {coding for coding, _ in codings} == {WIDE}
    assert len(codings) == 1 and len(devanagari) > 70, "two pieces of one text"


EIGHT, SIXTEEN = (lambda ref, total, at: bytes([0, 3, ref, total, at])), (lambda ref, total, at: bytes([8, 4, 1, ref, total, at]))


@pytest.mark.parametrize("header, order", [(EIGHT, (1, 2, 3)), (SIXTEEN, (3, 1, 2)), (EIGHT, (2, 2, 3, 2, 1))])
def test_a_long_text_is_one_message_in_whatever_order_its_pieces_come(road, heard, header, order):
    number = next(fresh)
    pieces = {1: f"got {number} bags ", 2: "cement and ", 3: "200 bricks"}
    for at in order:
        road.carrier.say(CREW[0], pieces[at], header=header(number, 3, at))
    (reply,) = heard(CREW[0])
    assert f"Came: {number} bag" in reply and "200 bricks" in reply


def test_a_sign_cut_in_half_between_two_pieces_is_whole_again(road, heard):
    whole = "got 12 bags cement \N{THUMBS UP SIGN} नमस्ते".encode("utf-16-be")
    cut = whole.index(b"\xd8\x3d") + 2
    road.carrier.say(CREW[1], whole[:cut], coding=WIDE, header=EIGHT(77, 2, 1))
    road.carrier.say(CREW[1], whole[cut:], coding=WIDE, header=EIGHT(77, 2, 2))
    assert "12 bags" in heard(CREW[1])[0]


def test_a_text_of_which_a_piece_never_comes_is_told_after_the_wait(road, heard):
    road.carrier.say(CREW[2], "got 11 bags ", header=EIGHT(78, 2, 1))
    (told,) = heard(CREW[2])
    assert told.startswith("Only a part of your long message came. Nothing saved.")
    assert road.bot.rows("SELECT count(*) FROM part WHERE place > 0") == [(0,)]


def test_without_the_shared_key_nothing_is_taken(road):
    base = f"http://127.0.0.1:{road.bot.port}"
    before = road.bot.rows("SELECT count(*) FROM inbound")
    for key in ("wrong", "", KEY + "x"):
        status, body = get(f"{base}/sms/mo?key={key}&id=forged-1&from=%2B254700000107&text=got+9+bags+cement&charset=UTF-8")
        assert (status, body) == (200, "BUSY")
    assert get(f"{base}/sms/dlr?mid=1&status=2&sign={KEY}")[0] == 403
    assert road.bot.rows("SELECT count(*) FROM inbound") == before


def test_a_wire_id_that_comes_again_is_acknowledged_and_not_answered_again(road, heard):
    url = f"http://127.0.0.1:{road.bot.port}/sms/mo?key={KEY}&id=again-1&from=%2B254711000003&to=2020&text=got+3+bags+cement&charset=UTF-8"
    assert [get(url) for _ in range(5)] == [(200, "ACCEPTED")] * 5
    assert len(heard(CREW[3])) == 1
    assert road.entries()[CREW[3], "got 3 bags cement"] == 1


# ---- reports


@pytest.mark.parametrize(
    "fate, crew, after",
    [
        ((), CREW[4], ("sent", "accepted")),  # lost: it was taken, more is not known
        (("DELIVRD", "DELIVRD"), CREW[5], ("delivered", "delivered")),
        (("UNDELIV",), CREW[6], ("failed", "failed")),
    ],
)
def test_a_report_lost_doubled_or_bad(road, heard, fate, crew, after):
    road.carrier.fate = fate
    try:
        road.carrier.say(crew, f"got {next(fresh)} bags cement")
        (reply,) = heard(crew)
        road.comes_to(reply, *after)
    finally:
        road.carrier.fate = ("DELIVRD",)
    assert len(heard(crew)) == 1, "it is not sent again for that"


def test_a_number_that_the_network_refuses_is_told_to_the_supervisor(road, heard):
    road.carrier.refusal = smpp34.ESME_RINVDSTADR
    try:
        road.send(CREW[7], "a test for nobody")
        road.comes_to("a test for nobody", "refused", "rejected")
    finally:
        road.carrier.refusal = None
    texts = until(lambda: [text for text in heard(SUPERVISOR) if "Ouma H" in text], "the supervisor")
    assert texts == ["TB07: no text reaches Ouma H: the network says rejected. Call him."]


# ---- faults


def test_the_bot_is_down_and_comes_back(road, heard):
    assert road.bot.stop() == 0
    sent = [f"got {next(fresh)} bags cement" for _ in range(4)]
    for text in sent:
        road.carrier.say(CREW[8], text)
    road.bot.start()
    replies = heard(CREW[8], 4)
    # the gateway does not keep the order of what it has to bring a second time
    assert {text.split()[1] for text in sent} == {count(reply) for reply in replies}
    assert all(road.entries()[CREW[8], text] == 1 for text in sent)


def test_what_the_book_refuses_comes_again_until_it_is_taken(road, heard):
    road.bot.write("CREATE TRIGGER full BEFORE INSERT ON inbound BEGIN SELECT RAISE(ABORT, 'full'); END")
    try:
        road.carrier.say(CREW[9], "got 41 bags cement")
        until(lambda: "could not be stored" in (road.bot.folder / "bot.out").read_text(), "a BUSY")
    finally:
        road.bot.write("DROP TRIGGER full")
    assert "41 bags" in heard(CREW[9])[0]
    assert road.entries()[CREW[9], "got 41 bags cement"] == 1


def test_a_book_locked_for_longer_than_the_gateway_waits(road, heard):
    with closing(sqlite3.connect(road.bot.file, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        road.carrier.say(CREW[9], "got 42 bags cement")
        time.sleep(2.5)  # the gateway gives up after 2 and asks again
        other.execute("ROLLBACK")
    assert len(heard(CREW[9])) == 1
    assert road.entries()[CREW[9], "got 42 bags cement"] == 1


def test_the_gateway_is_down_and_comes_back(road, heard):
    road.gateway.kill()
    road.send(CREW[10], "while you were away")
    road.comes_to("while you were away", "trying")
    road.gateway.start()
    assert heard(CREW[10]) == ["while you were away"]


@pytest.mark.parametrize("fault, crew", [("loses", CREW[11]), ("slow", CREW[12])])
def test_an_answer_lost_by_a_cut_or_a_slow_gateway_is_resolved_by_the_report_and_sent_once(road, heard, fault, crew):
    road.gateway.relay.loses, road.gateway.relay.hold_s = (fault == "loses"), (2.0 if fault == "slow" else 0.0)
    try:
        road.carrier.say(crew, "got 43 bags cement")
        (reply,) = heard(crew)
        road.comes_to(reply, "delivered", "delivered")
        until(lambda: road.gateway.relay.lost, "an answer that was lost")
    finally:
        road.gateway.relay.loses, road.gateway.relay.hold_s = False, 0.0
    road.over(reply)
    assert heard(crew) == [reply], "and no second time"


def test_what_one_person_sends_is_answered_in_its_order(road, heard):
    thread, said = road.load(CREW[13:15], 8, 50)
    thread.join(60)
    for sender, texts in said.items():
        assert [count(reply) for reply in heard(sender, 8)] == [text.split()[1] for text in texts]


def test_sigterm_of_the_bot_under_load_loses_nothing_and_doubles_nothing(road, heard):
    thread, said = road.load(CREW[:6], 6, 60)
    time.sleep(0.8)
    assert road.bot.stop() == 0
    road.bot.start()
    thread.join(60)
    assert road.settled(said, heard) == 0


def test_kill_9_of_the_gateway_under_load_loses_nothing(road, heard):
    thread, said = road.load(CREW[6:12], 6, 70)
    for _ in range(3):
        time.sleep(0.6)
        road.gateway.kill()
        road.gateway.start()
    thread.join(60)
    doubles = road.settled(said, heard)
    assert doubles <= 3 * 10, "at most those in the air at a kill: the gateway has ten under way"
