"""A number or chat taken off again: by whom, what it may do then, where what waited for it goes."""

import re
from datetime import timedelta

import pytest

from bot import outbox
from bot.__main__ import main
from bot.channels import Inbound
from bot.inbox import take
from bot.letters import segments
from bot.office import again, unlinked
from bot.people import channel_of
from bot.reading.words import vocabulary
from tests.conftest import NOON

MASON, FARMER, OTHER = "+254700000107", "+254700000307", "+254711222333"


@pytest.fixture
def linked(book):
    """The mason has a second number and a chat, which is the newer."""
    with book.page() as page:
        mason = page.person(short="mason")
        page.link(mason.id, "sms", OTHER, NOON)
        page.link(mason.id, "telegram", "tg:98765", NOON + timedelta(hours=1))


def numbers(book, short="mason"):
    with book.page() as page:
        return [number for _, number in page.ways(page.person(short=short))]


def test_of_several_it_is_asked_which(linked, send, book):
    assert (
        send("mason", "unlink").reply == "Which: 1) Telegram *765, 2) SMS *333? Nothing changed. Send: unlink, and its place in this list."
    )
    assert send("mason", "unlink 3").reply.startswith("Which:")
    assert len(numbers(book)) == 3
    assert send("mason", "unlink 2").reply.startswith("SMS *333 is not you any more.")
    assert numbers(book) == ["tg:98765", MASON]
    assert send(OTHER, "base 10.5 11 11 cm").reply.startswith("This number is not known here")


@pytest.mark.parametrize("number", [OTHER, "tg:98765"])
def test_who_found_the_second_phone_cannot_cut_off_the_first(number, linked, send, book):
    assert send(number, "unlink 1").reply.startswith("Only from the number that was known first")
    assert len(numbers(book)) == 3


def test_what_is_linked_once_more_is_so(linked, send, book):
    send("mason", "unlink 1")
    code = re.search(r"\d{6}", send("mason", "link").reply).group()
    assert send("tg:98765", f"link {code}").reply.startswith("Linked: you are Bholu here too")


# ---- a lost phone


def test_in_place_of_a_lost_first_number_comes_the_newest(linked, send, book):
    asked = send("supervisor", "unlink bholu tb07").reply
    assert asked == ("TB07 Bholu: 1) Telegram *765, 2) SMS *333, 3) SMS *107? Nothing changed. Send: unlink Bholu TB07, and the place.")
    told = send("supervisor", "unlink bholu tb07 3")
    assert "Bholu at SMS *107, by Asha." in told.reply and "Nothing reaches" not in told.reply
    assert numbers(book) == [OTHER, "tg:98765"]
    (row,) = [row for row in told.rows if row.to == "tg:98765"]
    assert row.text == "Your supervisor Asha took a number off you here: *107. If it is not lost, call him."
    assert send(MASON, "status").reply.startswith("This number is not known here")


def test_who_has_no_number_left_is_told_nothing_and_keeps_his_log(send, book):
    send("mason", "base 10.5 11 11 cm")
    assert "Nothing reaches Bholu before a new phone" in send("supervisor", "unlink bholu tb07").reply
    assert numbers(book) == []
    assert all(row.to != MASON and not row.to.startswith("off") for row in send("farmer", "man fell in the pit").rows)
    assert all(row.to != MASON and not row.to.startswith("off") for row in send("supervisor", "refuse tb07 base crooked").rows)
    with book.page() as page:
        assert [(entry.kind, entry.name) for entry in page.site("TB07").log][0] == ("base", "Bholu")


def code_in(text):
    return re.search(r"\b\d{6}\b", text).group()


@pytest.mark.parametrize("by_the_office", [False, True])
def test_a_code_drawn_on_a_lost_phone_does_not_link_it_again(by_the_office, send, book):
    code = code_in(send("mason", "link").reply)
    if by_the_office:
        with book.page() as page:
            mason = page.person(short="mason")
        unlinked(book, mason, MASON, NOON)
    else:
        assert "UNLINKED" in send("supervisor", "unlink bholu tb07").reply
    assert send(MASON, f"link {code}").reply.startswith("That code is wrong, used or too old")
    assert numbers(book) == []


def test_a_join_code_drawn_on_a_lost_phone_admits_nobody_and_those_of_others_do(send, book):
    with book.page() as page:
        page.give_role(page.person(short="baraka").id, "TB07", "supervisor")
        page.link(page.person(short="supervisor").id, "sms", OTHER, NOON)
    lost, good = code_in(send(OTHER, "code tb07 mason").reply), code_in(send("baraka", "code tb07 mason").reply)
    assert "UNLINKED" in send("baraka", "unlink asha tb07 1").reply
    assert send("+254711222444", f"join tb07 mason juma {lost}").reply.startswith("That code")
    assert "its mason now" in send("+254711222444", f"join tb07 mason juma {good}").reply


@pytest.mark.parametrize("sender", ["mason", "farmer"])
def test_only_a_supervisor_takes_anothers_phone_off(sender, send, book):
    assert send(sender, "unlink kamla tb07").reply.startswith("TB07: only the supervisor")
    assert numbers(book, "farmer") == [FARMER]


def test_a_supervisor_by_sms_confirms_it(sms, book):
    asked = sms("+254700000200", "unlink kamla tb07")
    assert asked.startswith("TB07: nothing recorded yet.") and numbers(book, "farmer") == [FARMER]
    sms("+254700000200", f"confirm {code_in(asked)}")
    assert numbers(book, "farmer") == []


def test_ones_own_chat_is_not_taken_off_by_a_number_that_may_be_feigned(book, sms):
    """The supervisor is at several sites: it is of none of them."""
    with book.page() as page:
        page.link(page.person(short="supervisor").id, "telegram", "tg:98765", NOON)
    asked = sms("+254700000200", "unlink")
    assert asked.startswith("Nothing changed yet. To confirm send: confirm ") and "You sent no unlink?" in asked
    assert numbers(book, "supervisor") == ["tg:98765", "+254700000200"]
    assert sms("+254700000200", f"confirm {code_in(asked)}").startswith("Telegram *765 is not you any more.")
    assert numbers(book, "supervisor") == ["+254700000200"]


def test_the_place_in_the_list_is_kept_until_it_is_confirmed(linked, sms, book):
    asked = sms(MASON, "unlink 2")
    assert len(numbers(book)) == 3
    assert sms(MASON, f"confirm {code_in(asked)}").startswith("SMS *333 is not you any more.")
    assert numbers(book) == ["tg:98765", MASON]


def test_a_programme_may_do_without(book, sms, linked):
    with book.page() as page:
        page.save_programme("other", page.rules() | {"confirm_by_sms": False}, NOON)
    assert sms(MASON, "unlink 2").startswith("SMS *333 is not you any more.")


def test_the_operator_takes_a_number_off(linked, book, monkeypatch, capsys):
    monkeypatch.setenv("PEGLINE_DATABASE_URL", book.url.render_as_string())
    assert main(["unlink", "mason", FARMER]) == 2
    assert main(["unlink", "mason", MASON]) == 0
    assert "is not mason any more" in capsys.readouterr().out
    assert numbers(book) == [OTHER, "tg:98765"]


# ---- nobody is left without a supervisor

SUPERVISOR = "+254700000200"


def test_nobody_takes_his_own_only_number_off(send, book):
    told = send("supervisor", "unlink asha tb07")
    assert told.reply.startswith("SMS *200 is the only number you are reached by. Nothing changed.")
    assert numbers(book, "supervisor") == [SUPERVISOR]
    assert SUPERVISOR in [row.to for row in send("mason", "man fell in the pit").rows]


@pytest.mark.parametrize("sites", [("TB07",), ("TB07", "TB11", "KV03", "KV12", "BD03", "BD09")])
def test_the_last_number_of_a_sites_last_supervisor_is_the_offices_to_take(sites, send, book, monkeypatch, capsys):
    with book.page() as page:
        for code in sites:
            page.give_role(page.person(short="baraka").id, code, "supervisor")
    told = send("baraka", "unlink asha tb07").reply
    if len(sites) == 6:
        assert "UNLINKED" in told and numbers(book, "supervisor") == []
        return
    assert told == (
        "SMS *200 is the last number of Asha, and BD03, BD09, KV03, KV12, TB11 would have no supervisor. Nothing changed. "
        "Lost: call your office at once."
    )
    assert numbers(book, "supervisor") == [SUPERVISOR]
    monkeypatch.setenv("PEGLINE_DATABASE_URL", book.url.render_as_string())
    assert main(["unlink", "supervisor", SUPERVISOR]) == 0
    assert "WARNING: no supervisor of BD03, BD09, KV03, KV12, TB11 is reached now" in capsys.readouterr().out
    assert numbers(book, "supervisor") == []


def test_a_supervisor_without_a_number_is_none(send, book):
    with book.page() as page:
        baraka = page.person(short="baraka")
        page.give_role(baraka.id, "TB07", "supervisor")
        assert page.lone(page.person(short="supervisor")) == ("BD03", "BD09", "KV03", "KV12", "TB11")
        page.unlink(baraka.id, baraka.number)
        assert page.lone(page.person(short="supervisor")) == ("BD03", "BD09", "KV03", "KV12", "TB07", "TB11")


def test_who_takes_off_the_number_he_writes_from_hears_of_it_there(book):
    with book.page() as page:
        page.link(page.person(short="supervisor").id, "sms", OTHER, NOON)
    take(Inbound("sms", "a", SUPERVISOR, "unlink asha tb07 2", NOON), book, vocabulary(), NOON)
    with book.page() as page:
        rows = page.queued("sms", "a")
    assert numbers(book, "supervisor") == [OTHER]
    assert [(row["number"], row["text"][:17]) for row in rows] == [(SUPERVISOR, "TB07 #1 UNLINKED:")]


@pytest.mark.parametrize("number, good", [("tg:98765", False), (MASON, True)])
def test_a_refused_text_is_not_sent_again_to_a_number_that_was_taken_off(number, good, linked, book, monkeypatch, capsys):
    with book.page() as page:
        mason = page.person(short="mason")
        outbox.say(page, "one", number, mason, "mason", Inbound(channel_of(number), "w", number, ""), NOON)
        text_id = page.queued(channel_of(number), "w")[0]["id"]
        page.mark([text_id], "refused")
    unlinked(book, mason, "tg:98765", NOON)
    monkeypatch.setenv("PEGLINE_DATABASE_URL", book.url.render_as_string())
    assert main(["resend", str(text_id)]) == (0 if good else 2)
    assert ("text 1 was for tg:98765, which was taken off mason" in capsys.readouterr().err) is not good
    with book.page() as page:
        assert page.out(text_id)["state"] == ("queued" if good else "refused")
    assert again(book, text_id, NOON) is False, "queued by now, or its number is not his"


def test_of_many_ways_eight_are_listed_in_two_messages_and_the_places_go_on(send, book):
    with book.page() as page:
        for n in range(14):
            page.link(page.person(short="mason").id, "telegram", f"tg:987{n:03d}", NOON + n * timedelta(minutes=1))
    for asked in (send("mason", "unlink").reply, send("supervisor", "unlink bholu tb07").reply):
        assert "8) Telegram *006?" in asked and segments(asked)[0] <= 2
    assert send("mason", "unlink 14").reply.startswith("Telegram *000 is not you any more.")
