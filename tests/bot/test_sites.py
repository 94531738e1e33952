"""Sites and roles by message and by file: a site opened and confirmed, a role that ends, what a file gives it also takes."""

import re

import pytest

from bot import compare, programme
from bot.tables import role
from tests.conftest import DEMO, NOON

SUPERVISOR = "+254700000200"


def code_in(text):
    return re.search(r"\b\d{6}\b", text).group()


# ---- a new site


def test_a_site_opened_by_sms_stands_once_it_is_confirmed(sms, book):
    asked = sms(SUPERVISOR, "new site zz01 Otto")
    assert asked.startswith("Nothing changed yet.") and "You sent no new site?" in asked
    with book.page() as page:
        assert page.site("ZZ01") is None
    assert sms(SUPERVISOR, f"confirm {code_in(asked)}").startswith("ZZ01 Otto is a new site, its supervisor is Asha.")
    with book.page() as page:
        site = page.site("ZZ01")
        assert (site.name, site.plan, site.started_at) == ("Otto", None, "site")
        assert [(entry.number, entry.kind, entry.name) for entry in site.log] == [(1, "newsite", "Asha")]
        assert "supervisor" in page.person(short="supervisor").at("ZZ01") and "ZZ01" in page.codes()


def test_a_code_that_was_taken_while_it_waited_is_refused(sms, send, book):
    asked = sms(SUPERVISOR, "new site zz01 Otto")
    send("supervisor", "new site zz01 Tano")
    assert sms(SUPERVISOR, f"confirm {code_in(asked)}").startswith("ZZ01 is a site already.")
    with book.page() as page:
        assert page.site("ZZ01").name == "Tano" and len(page.site("ZZ01").log) == 1


@pytest.mark.parametrize("text", ["new site zz01", "new site otto", "new site"])
def test_without_code_or_name_nothing_is_opened(text, send, book):
    assert "New site: two letters and two digits" in send("supervisor", text).reply
    with book.page() as page:
        assert len(page.codes()) == 6


@pytest.mark.parametrize("sender", ["mason", "farmer", "+254799999999"])
def test_nobody_else_opens_one(sender, send, book):
    send(sender, "new site zz01 otto")
    with book.page() as page:
        assert page.site("ZZ01") is None


def test_a_site_read_before_is_known_at_once(send, book):
    """What a book keeps at hand of the codes is read again: "zz 01" apart is a code only where one is known."""
    send("supervisor", "status tb07")
    send("supervisor", "new site zz01 otto")
    assert send("supervisor", "zz 01 status").reply.startswith("ZZ01 Otto: 0 of")


# ---- a role that ends


def roles(book, short):
    with book.page() as page:
        return page.person(short=short).roles


def loaded(book, change=lambda text: text, back=()):
    """Load the demo programme, changed; return what that changes in the book."""
    path = book.url.database + ".toml"
    with open(path, "w") as file:
        file.write(change(DEMO.read_text()))
    with book.page() as page:
        before = compare.stands(page)
        programme.store(page, *programme.read(path), NOON, back)
        return list(compare.differences(before, compare.stands(page)))


def without_bholu(text):
    return text.replace('roles = ["mason TB07"]', "roles = []")


def test_a_role_that_the_file_no_longer_gives_ends(book):
    assert loaded(book, without_bholu) == ["person mason roles: mason TB07 -> none"]
    assert roles(book, "mason") == ()
    assert loaded(book) == ["person mason roles: none -> mason TB07"]


def test_roles_of_somebody_who_is_not_in_the_file_any_more_end(book):
    gone = loaded(book, lambda text: re.sub(r'\[\[person\]\]\nshort = "baraka".*?\n\n', "", text, flags=re.S))
    assert gone == ["person baraka roles: mason TB11 -> none"]


def test_a_role_given_by_message_stays(send, book):
    send("+254711222333", "join tb07 mason juma")
    send("supervisor", "admit juma tb07")
    assert loaded(book) == [] and loaded(book, without_bholu) == ["person mason roles: mason TB07 -> none"]
    with book.page() as page:
        assert [person.name for person in page.team("TB07", "mason")] == ["Juma"]


def test_a_role_of_before_the_step_ends_only_once_a_file_has_named_it(book):
    with book.engine.begin() as connection:
        connection.execute(role.update().values(origin=None))
    assert loaded(book, without_bholu) == []
    loaded(book)
    assert loaded(book, without_bholu) == ["person mason roles: mason TB07 -> none"]


def test_a_role_that_was_taken_off_stays_off_however_often_the_file_is_loaded(send, book):
    assert "is not its mason any more, by Asha" in send("supervisor", "remove bholu tb07").reply
    assert roles(book, "mason") == () and loaded(book) == []
    assert loaded(book, back=("mason",)) == ["person mason roles: none -> mason TB07"]


def test_a_role_that_was_taken_off_comes_back_by_joining(send, book):
    send("supervisor", "remove bholu tb07")
    send("mason", "join tb07 mason bholu")
    send("supervisor", "admit bholu tb07")
    assert roles(book, "mason") == (("TB07", "mason"),) and loaded(book, without_bholu) == []


def test_who_is_taken_off_hears_of_it_and_saves_nothing_more(send, book):
    told = send("supervisor", "remove bholu tb07")
    assert [row.text for row in told.rows if row.to == "+254700000107"] == [
        "TB07: you are not its mason any more, says Asha. Wrong? Call him."
    ]
    send("mason", "tb07 base 11 11 11 cm")
    with book.page() as page:
        assert [entry.kind for entry in page.site("TB07").log] == ["remove"]


def test_a_removal_by_sms_is_confirmed(sms, book):
    asked = sms(SUPERVISOR, "remove bholu tb07")
    assert asked.startswith("TB07: nothing recorded yet.") and "You sent no remove?" in asked and roles(book, "mason")
    assert "REMOVED" in sms(SUPERVISOR, f"confirm {code_in(asked)}") and not roles(book, "mason")


@pytest.mark.parametrize("sender", ["mason", "farmer", "zuberi"])
def test_only_a_supervisor_takes_anybody_off(sender, send, book):
    send(sender, "remove bholu tb07")
    assert roles(book, "mason") == (("TB07", "mason"),)


def test_of_two_roles_one_is_named(send, book):
    with book.page() as page:
        page.give_role(page.person(short="mason").id, "TB07", "farmer")
    send("supervisor", "remove farmer bholu tb07")
    assert roles(book, "mason") == (("TB07", "mason"),)


def test_one_who_is_supervisor_too_stays_that(send, book):
    with book.page() as page:
        page.give_role(page.person(short="mason").id, "TB07", "supervisor")
    assert "Supervisors are named" in send("supervisor", "remove supervisor bholu tb07").reply
    send("supervisor", "remove bholu tb07")
    assert roles(book, "mason") == (("TB07", "supervisor"),)
