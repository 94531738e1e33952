"""Who asks to be taken in, and whom the supervisor's word takes in: one person, told apart from others of his name and number."""

import re

import pytest

from bot.people import same_name
from bot.phrases import segments

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


def test_the_supervisor_hears_that_another_of_the_name_waits(two):
    (alert,) = [row.text for row in two.rows if row.to == SUPERVISOR]
    assert alert.endswith("Another Ramu waits too: put *333 behind the name, without the star.")


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
