"""Who asks to be taken in, and whom the supervisor's word takes in: one person, told apart from others of his name and number."""

import pytest

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
