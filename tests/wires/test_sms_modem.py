"""SMS over the real gateway with one modem: Kannel from Debian, a modem on a pseudo-terminal, `pegline serve`."""

import pytest

from tests.wires.modem import PLACES, Modem, deliver, packed, submitted, unpacked
from tests.wires.road import CREW, MASON, count, joined, programme
from tests.wires.running import free_ports, until


@pytest.fixture(scope="module")
def road(tmp_path_factory):
    folder = tmp_path_factory.mktemp("modem")
    (bot_port,), modem = free_ports(1), Modem(folder / "modem")
    try:
        device = {"GATEWAY_DEVICE": str(folder / "modem"), "GATEWAY_KEEPALIVE_S": "2"}
        with joined(folder, modem, "modem", bot_port, programme(folder), **device) as made:
            yield made
    finally:
        modem.unplug()


def test_the_modem_of_these_tests_packs_letters_as_the_standard_shows():
    """3GPP TS 23.038, 6.1.2.1: eight letters fill seven octets; "hellohello" is the example found in every handbook of PDUs."""
    assert packed(b"hellohello").hex().upper() == "E8329BFD4697D9EC37"
    assert unpacked(bytes.fromhex("E8329BFD4697D9EC37"), 10) == b"hellohello"
    assert submitted("0011000A9160214365870000AA0AE8329BFD4697D9EC37") == ("0612345678", "hellohello", False)
    assert deliver("+27838890001", "hellohello").endswith("0AE8329BFD4697D9EC37")


def test_a_message_is_recorded_with_the_time_of_its_centre_answered_and_reported(road, heard):
    road.carrier.say(MASON, "got 10 bags cement")
    (reply,) = heard(MASON)
    assert reply.startswith("TB07 #1 STOCK: Came: 10 bags")
    road.comes_to(reply, "delivered", "delivered")
    assert road.entries() == {(MASON, "got 10 bags cement"): 1}
    assert road.bot.rows("SELECT sent_at FROM inbound") == [("2026-03-02 06:00:00.000000",)]
    assert road.carrier.stored == 0, "the SIM is emptied"


@pytest.mark.parametrize("text, wide", [("stock {}€é", False), ("stock नमस्ते \N{THUMBS UP SIGN}", True)])
def test_letters_of_both_alphabets_come_as_they_were_written(road, heard, text, wide):
    road.carrier.say(CREW[0], text, wide)
    heard(CREW[0])
    assert (text,) in road.bot.rows("SELECT text FROM inbound WHERE sender = ?", CREW[0])


@pytest.mark.parametrize("wide", [False, True])
def test_a_long_text_in_pieces_is_one_message_and_a_long_answer_is_one_text(road, heard, wide):
    pieces, ref = ("got 12 bags ", "cement and 200 bricks" + " \N{BRICK}" * wide), 5 + wide
    for at in (2, 1):
        road.carrier.say(CREW[1], pieces[at - 1], wide, bytes([0, 3, ref, 2, at]))
    (reply,) = heard(CREW[1])
    assert "12 bags" in reply and "200 bricks" in reply


def test_a_text_of_another_script_goes_out_in_a_coding_that_has_it(road, heard):
    devanagari = "नमस्ते " * 12
    road.send(CREW[2], devanagari)
    assert sorted(heard(CREW[2], 2)) == sorted([devanagari[:67], devanagari[67:]]), "67 letters in the first of two pieces"


def test_more_texts_than_the_sim_holds_come_after_the_gateway_was_down(road, heard):
    road.gateway.kill()
    sent = [f"got {at} bags cement" for at in range(20, 20 + PLACES + 1)]
    for text in sent:
        road.carrier.say(CREW[3], text)
    road.gateway.start()
    replies = heard(CREW[3], len(sent))
    assert {count(reply) for reply in replies} == {text.split()[1] for text in sent}
    assert all(road.entries()[CREW[3], text] == 1 for text in sent)
    until(lambda: road.carrier.stored == 0, "an empty SIM")


def test_a_text_that_the_network_brings_twice_is_recorded_and_answered_once(road, heard):
    """Both have the same stamp of the same centre; the gateway gives each an id of its own."""
    for _ in range(2):
        road.carrier.say(CREW[8], "got 7 bags cement")
    heard(CREW[8])
    came = "SELECT count(*) FROM inbound WHERE sender = ?"
    until(lambda: road.bot.rows(came, CREW[8]) == [(2,)], "both to come")
    assert sorted(road.bot.rows("SELECT state FROM inbound WHERE sender = ?", CREW[8])) == [("answered",), ("repeat",)]
    assert road.entries()[CREW[8], "got 7 bags cement"] == 1


def test_a_modem_unplugged_and_plugged_again_goes_on(road, heard):
    until(lambda: road.carrier.idle, "a gateway that waits")  # in the midst of a command it would wait long for the answer
    road.carrier.unplug()
    road.carrier.plug()
    road.carrier.say(CREW[4], "got 4 bags cement")
    heard(CREW[4])
    road.send(CREW[4], "plugged again")
    assert "plugged again" in heard(CREW[4], 2)
    assert road.entries()[CREW[4], "got 4 bags cement"] == 1


def test_kill_9_of_the_gateway_loses_no_text(road, heard):
    before = len(road.carrier.air)
    thread, said = road.load(CREW[5:7], 2, 40)
    until(lambda: len(road.carrier.air) > before, "the first answer")
    road.gateway.kill()
    road.gateway.start()
    thread.join(60)
    assert road.settled(said, heard) <= 1, "one text at a time is under way"
