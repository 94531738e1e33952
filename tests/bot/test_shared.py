"""Several people on one number: whose a message is, what is asked, what waits, and what one may not decide for the other."""

from datetime import timedelta

import pytest

from bot import programme
from bot.channels import Inbound, Part
from bot.inbox import take
from bot.reading.words import vocabulary
from tests.conftest import DEMO, NOON

BOTH, FARMER, SUPERVISOR = "+254700000107", "+254700000307", "+254700000200"
MINUTE, HOUR = timedelta(minutes=1), timedelta(hours=1)
ASKED = "Who writes: 1) Bholu, 2) Kamla? Nothing saved yet."


def shared(tmp_path, number=FARMER, name="Kamla"):
    """The demo programme, the farmer on the mason's number."""
    path = tmp_path / "shared.toml"
    path.write_text(DEMO.read_text().replace(f'"{number}"', f'"{BOTH}"').replace('name = "Kamla"\nnumber', f'name = "{name}"\nnumber'))
    return path


def load(book, path):
    with book.page() as page:
        programme.store(page, *programme.read(path), NOON)


@pytest.fixture
def book(book, tmp_path):
    load(book, shared(tmp_path))
    return book


def entries(book, code="TB07"):
    with book.page() as page:
        return [(entry.kind, entry.name) for entry in page.site(code).log]


def test_of_a_text_without_a_name_it_is_asked_and_the_answer_carries_it_out(send, book):
    assert send(BOTH, "got 8 bags cement").reply.startswith(ASKED)
    assert entries(book) == []
    assert send(BOTH, "2").reply.startswith("Kamla: TB07 #1 STOCK")
    assert entries(book) == [("stock", "Kamla")]


def test_nothing_is_lost_while_it_is_asked(send, book):
    for text in ("got 8 bags cement", "used 2 bags cement"):
        assert send(BOTH, text).reply.startswith(ASKED)
    replies = send(BOTH, "bholu").replies
    assert [reply[:19] for reply in replies] == ["Bholu: TB07 #1 STOC", "Bholu: TB07 #2 STOC"]
    assert entries(book) == [("stock", "Bholu")] * 2


@pytest.mark.parametrize(
    "text", ["kamla got 8 bags cement", "Kamla: got 8 bags cement", "got 8 bags cement - KAMLA", "got 8 bags cement, kamla."]
)
def test_a_name_at_either_end_says_it(text, send, book):
    assert send(BOTH, text).reply.startswith("Kamla: TB07 #1 STOCK: Came: 8 bags")
    assert entries(book) == [("stock", "Kamla")]


def test_a_name_within_a_text_says_nothing(send):
    assert send(BOTH, "got 8 kamla bags cement").reply.startswith(ASKED)


@pytest.mark.parametrize("text", ["i am kamla", "I'm Kamla", "this is kamla.", "mimi ni Kamla", "je suis kamla"])
def test_who_says_i_am_writes_for_a_shift(text, send, book):
    assert send(BOTH, text).reply.startswith("Kamla: You write as Kamla.")
    assert send(BOTH, "got 8 bags cement", NOON + 11.9 * HOUR).reply.startswith("Kamla: TB07")
    assert send(BOTH, "got 8 bags cement", NOON + 12.1 * HOUR).reply.startswith(ASKED)


@pytest.mark.parametrize("minutes, whose", [(14, "Bholu: TB07"), (16, ASKED)])
def test_a_name_holds_for_the_talk(minutes, whose, send):
    send(BOTH, "bholu status")
    assert send(BOTH, "status", NOON + minutes * MINUTE).reply.startswith(whose)


def test_the_own_name_does_not_shorten_the_shift_and_another_ends_it(send):
    send(BOTH, "i am bholu")
    send(BOTH, "bholu status", NOON + HOUR)
    assert send(BOTH, "status", NOON + 2 * HOUR).reply.startswith("Bholu:")
    send(BOTH, "kamla status", NOON + 3 * HOUR)
    assert send(BOTH, "status", NOON + 4 * HOUR).reply.startswith(ASKED)


def test_a_question_of_the_bot_is_answered_without_a_name(send, book):
    assert "If it is right send: YES" in send(BOTH, "bholu pit deep 3.8 m").reply
    send(BOTH, "yes 3.8 m", NOON + MINUTE)
    assert entries(book) == [("pit", "Bholu")]


def test_one_of_a_number_has_the_rights_of_one(send, book):
    assert "only the" in send(BOTH, "kamla pit 3.12 3.08 3.10 deep 1.5").reply
    assert entries(book) == []


def test_a_danger_waits_for_no_name_and_is_nobodys_alone(send, book):
    heard = send(BOTH, "man fell in the pit")
    assert heard.reply.startswith("STOP. DO NOT GO IN.")
    (alert,) = [row for row in heard.rows if row.to == SUPERVISOR]
    assert "by Bholu or Kamla" in alert.text
    assert entries(book) == [("danger", "")]
    assert send(BOTH, "1").reply.startswith(ASKED), "it was answered: nothing waits for a name"


DEEP = "pit 3.12 3.08 3.10 deep 1.83"
NOBODY_IN = "STOP. 1.5 m or deeper with no slope or support. Nobody in. Call your supervisor."


def test_a_stop_waits_for_no_name(send, book):
    heard = send(BOTH, DEEP)
    assert heard.replies == [f"{NOBODY_IN} {ASKED} Send the number. For half a day send: i am, and the name."]
    (alert,) = [row for row in heard.rows if row.to == SUPERVISOR]
    assert alert.text.startswith("ALERT TB07 ") and f"by Bholu or Kamla. {NOBODY_IN}" in alert.text
    assert entries(book) == []
    assert send(BOTH, "1").reply.startswith(f"Bholu: {NOBODY_IN}")
    assert entries(book) == [("pit", "Bholu")]


def test_it_is_the_stop_of_whoever_of_them_may_send_it_where_he_is(send, book, tmp_path):
    """The farmer of one site and the mason of another: she may not send it, he stands at his."""
    path = tmp_path / "two.toml"
    path.write_text(DEMO.read_text().replace("+254700000111", FARMER))
    load(book, path)
    heard = send(FARMER, DEEP)
    assert heard.reply.startswith(f"{NOBODY_IN} Who writes: 1) Kamla, 2) Baraka?")
    assert [row.text[:10] for row in heard.rows if row.to == SUPERVISOR] == ["ALERT TB11"]
    assert entries(book) == entries(book, "TB11") == []


@pytest.mark.parametrize("text", ["pit 3.12 3.08 3.10 deep 1.1", "status", "link", "confirm 123456", "undo", "yes"])
def test_what_is_no_stop_is_asked_about_alone(text, send):
    heard = send(BOTH, text)
    assert heard.reply.startswith(ASKED) and len(heard.rows) == 1


def test_readings_beside_a_danger_are_asked_for_again(send, book):
    assert send(BOTH, "base 10.5 11 11 cm, gas smell in kitchen").reply.endswith(
        "If you sent readings too, send them again, first your name and a colon."
    )
    assert [kind for kind, _ in entries(book)] == ["danger"]


@pytest.mark.parametrize("text", ["kamla fell in the pit", "man fell in the pit call kamla", "Kamla is in the digester"])
def test_a_name_in_a_danger_may_be_that_of_who_is_in_it(text, send, book):
    heard = send(BOTH, text)
    assert heard.reply.startswith("STOP.")
    assert entries(book) == [("danger", "")]


def test_a_name_with_a_mark_behind_it_says_who_reports_a_danger(send, book):
    assert send(BOTH, "bholu: pit deep 1.1 m, water in the pit").reply.startswith("Bholu: STOP")
    assert ("pit", "Bholu") in entries(book)


def test_what_goes_to_one_of_a_number_has_his_name_in_front(send):
    send(BOTH, "bholu pit 3.12 3.08 3.10 m deep 1.83 m soil b ladder 100 cm watcher yes heap 1.6 m")
    told = send(BOTH, "bholu pit done").rows
    assert [row.text[:13] for row in told if row.to == BOTH] == ["Bholu: TB07 #", "Kamla: TB07: "]
    released = send("supervisor", "release tb07 support 1.83 m").rows
    assert [row.text.split(":")[0] for row in released] == ["TB07 #3 RELEASE", "Bholu"]


def test_a_fault_is_told_to_the_number_and_for_each_site(send, book, monkeypatch):
    monkeypatch.setattr("bot.who.writes", lambda *args: 1 / 0)
    told = send(BOTH, "status").rows
    assert told[0].text.startswith("STOP. The bot could not check this.")
    assert [row.text.split(" could")[0] for row in told[1:]] == ["TB07: a message of Bholu"]


def test_an_answer_that_comes_too_late_is_none(send, book):
    send(BOTH, "got 8 bags cement")
    assert send(BOTH, "1", NOON + 13 * HOUR).reply.startswith(ASKED)
    assert entries(book) == []


def test_pieces_of_a_long_text_are_asked_about_as_one(book, send):
    for place, text in enumerate(("got 8 bags ", "cement"), 1):
        take(Inbound("sms", f"p{place}", BOTH, text, NOON, Part("2020", 7, 2, place)), book, vocabulary(), NOON)
    assert send(BOTH, "1").reply.startswith("Bholu: TB07 #1 STOCK: Came: 8 bags")


# ---- coming to share a number


@pytest.mark.parametrize("name, another", [("otto", True), ("zuberi", False), ("zuberi ali", False)])
def test_who_joins_from_a_known_number_by_another_name_is_another(name, another, send, book):
    assert "asked your supervisor" in send("zuberi", f"join tb11 mason {name}").reply
    with book.page() as page:
        ((person_id, *_),) = page.asking("TB11")
        assert (person_id != page.person(short="zuberi").id) is another


def test_who_waits_to_be_admitted_is_not_asked_for(send, book):
    send("zuberi", "join kv12 farmer otto")
    assert send("zuberi", "kv12 status").reply.startswith("KV12")
    send("supervisor", "admit otto kv12")
    assert send("zuberi", "kv12 status").reply.startswith("Who writes: 1) Zuberi, 2) Otto?")


def test_who_is_in_is_not_put_out_by_asking_once_more(send, book):
    for text in ("join kv12 farmer otto", "zuberi join kv12 farmer otto"):
        send("zuberi", text)
        send("supervisor", "admit otto kv12")
        with book.page() as page:
            assert [person.name for person in page.people_at("+254700000112")] == ["Zuberi", "Otto"]


def test_a_stop_goes_once_to_a_phone_that_the_mason_shares(send):
    assert [(row.to, row.role) for row in send(BOTH, "kamla: crack in the pit").rows] == [(BOTH, "farmer"), (SUPERVISOR, "supervisor")]


# ---- what one may not decide for the other


@pytest.fixture
def decider(book):
    """The supervisor on the phone of the mason, as may come of somebody who joins from it."""
    with book.page() as page:
        asha = page.person(short="supervisor")
        page.save_person(name=asha.name, short=asha.short, number=BOTH)


def test_a_reading_of_the_same_phone_is_not_released_from_it(decider, book, send):
    send(BOTH, "bholu pit 3.12 3.08 3.10 m deep 1.83 m soil b ladder 100 cm watcher yes heap 1.6 m")
    send(BOTH, "bholu pit done")
    for text in ("asha release tb07 pit", "asha release tb07 support 1.83 m"):
        assert "or of this number. Another" in send(BOTH, text).reply
    assert "release" not in [kind for kind, _ in entries(book)]


SHARED = "Asha: Others write from this phone too. Nothing recorded."


@pytest.mark.parametrize("text", ["release tb11 support 1.83 m", "refuse tb11 pit crooked", "admit juma tb11"])
def test_nothing_is_decided_from_a_number_that_several_share(text, decider, book, send):
    """Nor on what somebody else has measured: whoever holds the phone may write another name before it."""
    send("+254711222333", "join tb11 mason juma")
    send("baraka", "pit 3.12 3.08 3.10 deep 1.83")
    before = entries(book, "TB11")
    assert send(BOTH, f"asha: {text}").reply.startswith(SHARED)
    assert entries(book, "TB11") == before


def test_a_decision_is_not_taken_back_from_it(decider, book, send):
    with book.page() as page:
        page.link(page.person(short="supervisor").id, "telegram", "tg:98765", NOON)
    send(BOTH, "kamla size 4 cows 5 people")
    send("tg:98765", "fix tb07 gas 2 m3")
    assert send(BOTH, "asha: tb07 undo").reply.startswith(SHARED)
    assert entries(book)[-1] == ("fix", "Asha")
    assert "does not count any more" in send("tg:98765", "tb07 undo").reply


@pytest.mark.parametrize("text", ["link", "code tb11 mason"])
def test_a_supervisor_is_given_no_code_on_it(text, decider, send):
    """By a code a telephone of the mason would be hers, or a stranger be taken in."""
    assert send(BOTH, f"asha: {text}").reply.startswith(SHARED)
    assert "Your code" in send(BOTH, "bholu: link").reply


# ---- the programme file


def test_two_of_one_name_on_one_number_do_not_load(tmp_path):
    with pytest.raises(programme.Refused, match="two people of one name on one number"):
        programme.read(shared(tmp_path, FARMER, "bholu"))


def test_a_number_of_a_supervisor_is_hers_alone(tmp_path):
    with pytest.raises(programme.Refused) as fault:
        programme.read(shared(tmp_path, SUPERVISOR, "Kamla"))
    assert f"{BOTH}: a supervisor decides from a number of his own, but Bholu has that of Asha too" in str(fault.value)


def test_more_than_five_on_one_number_do_not_load(tmp_path):
    path = tmp_path / "many.toml"
    path.write_text("\n".join(f'number = "{BOTH}"' if line.startswith("number = ") else line for line in DEMO.read_text().splitlines()))
    with pytest.raises(programme.Refused, match="10 people on one number, at most 5"):
        programme.read(path)


def test_a_person_keeps_his_log_when_file_number_or_name_change(send, book, tmp_path):
    """Known by the short name; a number that only one has is enough where that changed."""
    send(BOTH, "kamla got 8 bags cement")
    with book.page() as page:
        before = len(page.people())
    path = tmp_path / "changed.toml"
    path.write_text(DEMO.read_text().replace(FARMER, "+254700000399").replace('short = "fatuma"', 'short = "fatima"'))
    load(book, path)
    with book.page() as page:
        assert len(page.people()) == before
        assert page.person(short="farmer").number == "+254700000399" and page.person(short="fatima").name == "Fatuma"
        assert len(page.people_at(BOTH)) == 1
    assert send(BOTH, "status").reply.startswith("TB07")
