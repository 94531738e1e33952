"""Who asks to be taken in, and whom the supervisor's word takes in: one person, told apart from others of his name and number."""

import re
from datetime import timedelta

import pytest

from bot.letters import segments
from bot.people import same_name
from tests.conftest import NOON

ONE, TWO, SUPERVISOR = "+254711222765", "+254711222333", "+254700000200"


def roles(book, number):
    with book.page() as page:
        return [person.roles for person in page.people_at(number)]


def log(book, code="TB07"):
    with book.page() as page:
        return [entry.kind for entry in page.site(code).log]


MASON = [(("TB07", "mason"),)]


# ---- two of one name


@pytest.fixture
def two(send):
    for number in (ONE, TWO):
        told = send(number, "join tb07 mason Ramu")
    return told


def test_of_two_of_one_name_it_is_asked_which(two, send, book):
    asked = send("supervisor", "admit ramu tb07").reply
    assert asked == (
        "TB07: Ramu who? By the end of the number: *765 mason, *333 mason. Nothing recorded. Send: admit Ramu, those digits, TB07."
    )
    assert roles(book, ONE) == roles(book, TWO) == [()]
    assert log(book) == ["join", "join"]


@pytest.mark.parametrize("text", ["admit ramu 765 tb07", "admit Ramu, 765, TB07", "tb07 admit ramu *765", "admit ramu 2765 tb07"])
def test_the_end_of_the_number_says_which(text, two, send, book):
    assert "ADMITTED" in send("supervisor", text).reply
    assert (roles(book, ONE), roles(book, TWO)) == (MASON, [()])
    assert "ADMITTED" in send("supervisor", "admit ramu tb07").reply, "one is left"
    assert roles(book, TWO) == MASON


@pytest.mark.parametrize("end", ["764", "5", "65"])
def test_a_wrong_end_or_fewer_than_three_digits_admit_nobody(end, two, send, book):
    assert "who?" in send("supervisor", f"admit ramu {end} tb07").reply
    assert log(book) == ["join", "join"]


def test_what_the_supervisor_is_told_to_send_takes_in_the_one_it_is_about(two, send, book):
    (alert,) = [row.text for row in two.rows if row.to == SUPERVISOR]
    assert alert.endswith("Send: admit Ramu 333 TB07.")
    assert "ADMITTED" in send("supervisor", "admit Ramu 333 TB07.").reply
    assert (roles(book, ONE), roles(book, TWO)) == ([()], MASON)


def test_more_digits_where_three_are_alike_and_eight_at_the_most_in_two_messages(send):
    for n in range(12):
        send(f"+2547112{n:02d}765", "join tb07 mason Ramu")
    asked = send("supervisor", "admit ramu tb07").reply
    assert "*00765 mason" in asked and asked.count("*") == 8
    assert segments(asked)[0] <= 2


def test_one_who_waits_for_two_roles_gets_both(send, book):
    send(ONE, "join tb07 mason Ramu")
    send(ONE, "join tb07 farmer Ramu")
    assert "ADMITTED" in send("supervisor", "admit ramu tb07").reply
    assert roles(book, ONE) == [(("TB07", "farmer"), ("TB07", "mason"))]


# ---- two of one number


def test_one_common_word_does_not_make_two_people_one(send, book):
    with book.page() as page:
        page.save_person("Ravi Kumar", "ravi", ONE)
        page.give_role(page.person(short="ravi").id, "TB11", "mason")
    code = re.search(r"\d{6}", send("supervisor", "code tb07 farmer").reply).group()
    told = send(ONE, f"join tb07 farmer Anil Kumar {code}")
    assert "Anil Kumar is its farmer now, on this number too." in told.reply
    with book.page() as page:
        assert [(person.name, person.roles) for person in page.people_at(ONE)] == [
            ("Ravi Kumar", (("TB11", "mason"),)), ("Anil Kumar", (("TB07", "farmer"),)),
        ]  # fmt: skip


@pytest.mark.parametrize(
    "one, other, same",
    [
        ("Ravi Kumar", "Ravi", True),
        ("Ravi", "ravi kumar", True),
        ("Jos\u00e9 Maria", "jose maria", True),
        ("Ravi Kumar", "Anil Kumar", False),
        ("Ravi Kumar", "Kumar", False),
        ("Ravi Kumar", "Ravi Sharma", False),
        ("Ravi", "", False),
    ],
)
def test_whose_names_may_be_one_persons(one, other, same):
    assert same_name(one, other) is same_name(other, one) is same


def test_the_word_to_the_supervisor_admits_whom_it_names(send, book):
    with book.page() as page:
        page.save_person("Ravi Shankar Kumar", "ravi", ONE)
        page.give_role(page.person(short="ravi").id, "TB11", "mason")
    (alert,) = [row.text for row in send(ONE, "join tb07 farmer ravi").rows if row.to == SUPERVISOR]
    assert alert.endswith("Send: admit Ravi Shankar Kumar TB07.")
    assert "Ravi Shankar Kumar, by Asha" in send("supervisor", re.search("admit.*TB07", alert).group()).reply
    assert roles(book, ONE) == [(("TB07", "farmer"), ("TB11", "mason"))]


def test_from_a_number_where_two_wait_a_third_asks_and_they_ask_again(send, book):
    for text in ("mason Ganga", "farmer Mohan", "mason Ganga", "farmer Mohan", "farmer Ganga Devi", "mason Otto"):
        assert "TB07: asked your supervisor" in send(ONE, f"join tb07 {text}").reply
    with book.page() as page:
        assert [(name, role) for _, name, role, _ in page.asking("TB07")] == [
            ("Ganga", "farmer"), ("Ganga", "mason"), ("Mohan", "farmer"), ("Otto", "mason"),
        ]  # fmt: skip
    assert "ADMITTED" in send("supervisor", "admit mohan tb07").reply
    assert roles(book, ONE) == [(("TB07", "farmer"),)]


# ---- no more on one number than the question who writes has room for


def test_a_sixth_does_not_join_from_one_number(send, book):
    names = ("Otto", "Juma", "Rashid", "Wafula", "Kiptoo")
    for name in names:
        assert "TB07: asked your supervisor" in send(ONE, f"join tb07 mason {name}").reply
    full = "5 people write from this number: no more can be told apart. Nothing recorded. Join from another."
    assert send(ONE, "join tb07 mason Simiyu").reply == full
    assert "TB07: asked your supervisor" in send(ONE, "join tb07 farmer Juma").reply, "he is one of them"
    for name in names:
        assert "ADMITTED" in send("supervisor", f"admit {name} tb07").reply
    assert send(ONE, "i am otto").reply.startswith("Otto: You write as Otto.")
    code = re.search(r"\d{6}", send("supervisor", "code tb07 mason").reply).group()
    assert send(ONE, f"join tb07 mason Simiyu {code}").reply == f"Otto: {full}"
    assert len(roles(book, ONE)) == 5
    asked = send(ONE, "status", NOON + timedelta(days=1)).reply
    assert asked.startswith("Who writes: 1) Otto, 2) Juma") and segments(asked)[0] == 1


def test_those_who_wait_at_several_sites_are_counted_when_they_are_taken_in(send, book):
    for code, names in (("tb07", "abc"), ("tb11", "def")):
        for name in names:
            send(ONE, f"join {code} mason {name}uma")
    for code, names in (("tb07", "abc"), ("tb11", "de")):
        for name in names:
            with book.page() as page:
                (person_id,) = [each.id for each in page.people() if each.name == f"{name}uma".title()]
                page.give_role(person_id, code.upper(), "mason")
    with book.page() as page:
        page.give_role(page.save_person("Fuma", "fuma", ONE), "TB11", "mason", "pending")
    assert send("supervisor", "admit fuma tb11").reply == (
        "5 people write from this number: no more can be told apart. Nothing recorded. Fuma joins from another."
    )
    assert len(roles(book, ONE)) == 5
