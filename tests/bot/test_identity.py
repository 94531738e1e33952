"""Who is who: a second number by a code, a newcomer by a code, a release by SMS confirmed to the bound number, a loop cut short."""

import re
from datetime import timedelta
from types import SimpleNamespace

import pytest
import sqlalchemy as sa

from bot import programme
from bot.channels import Inbound
from bot.channels.numbers import e164
from bot.inbox import take
from bot.quiet import ANSWERS
from bot.reading.words import vocabulary
from bot.tables import inbound, one_time
from tests.conftest import DEMO, NOON

MASON, SUPERVISOR, OTHER = "+254700000107", "+254700000200", "+254711222333"
MINUTE = timedelta(minutes=1)
MOST = 12  # answers in an hour, in the tests of a loop


def code_in(text):
    return re.search(r"\b\d{6}\b", text).group()


@pytest.fixture
def sms(book):
    """sms(number, text) -> what went out for a message over a wire that does not prove its sender."""
    count = iter(range(10**6))

    def sent(number, text, now=NOON, broken=False):
        message = Inbound("sms", f"w{next(count)}", number, text, now, proven=False, broken=broken)
        taken = take(message, book, vocabulary(), now)
        with book.page() as page:
            rows = page.queued("sms", message.wire_id)
            page.mark([row["id"] for row in rows], "sent")
        return SimpleNamespace(taken=taken, told=[(row["number"], row["text"]) for row in rows], reply=rows[0]["text"] if rows else "")

    return sent


def entries(book, code="TB07"):
    with book.page() as page:
        return [(entry.kind, entry.by) for entry in page.site(code).log]


# ---- a second number


def test_a_second_number_is_linked_by_the_code_and_both_hear(send, book):
    code = code_in(send("mason", "link").reply)
    linked = send(OTHER, f"link {code}")
    assert [(row.to, row.text.partition(".")[0].partition(":")[0]) for row in linked.rows] == [
        (OTHER, "Linked"), (MASON, f"From now on {OTHER} is you too"),
    ]  # fmt: skip
    with book.page() as page:
        assert page.person(number=OTHER).number == MASON
    assert "TB07 #1 BASE" in send(OTHER, "base 10.5 11 11 cm").reply


def test_the_known_number_hears_of_it_also_where_delivery_picks_the_way(send, book):
    """The newest way to a person is preferred; of a new one he hears by the ways he had before."""
    ways = []

    class Post:
        def route(self, page, person, message, number):
            found = number or next(iter(page.links(person.id)), (None, person.number))[1]
            ways.append(found)
            return message.channel, found

        def hand_over(self, *told):
            pass

    code = code_in(send("mason", "link").reply)
    book.post = Post()
    send(OTHER, f"link {code}")
    assert ways == [OTHER, MASON]


@pytest.mark.parametrize("wait, good", [(29, True), (31, False)])
def test_a_link_code_lives_half_an_hour(wait, good, send):
    code = code_in(send("mason", "link").reply)
    assert send(OTHER, f"link {code}", NOON + wait * MINUTE).reply.startswith("Linked" if good else "That code is wrong, used or too old")


def test_a_code_counts_once_and_the_newest_only(send):
    old, new = code_in(send("mason", "link").reply), code_in(send("mason", "link").reply)
    assert send(OTHER, f"link {old}").reply.startswith("That code")
    assert send(OTHER, f"link {new}").reply.startswith("Linked")
    assert send("+254711222444", f"link {new}").reply.startswith("That code")


def wrong(code, n):
    return f"{(int(code) + 1 + n) % 10**6:06d}"


@pytest.mark.parametrize("tries, good", [(49, True), (50, False)])
def test_wrong_codes_of_many_numbers_kill_the_right_one(tries, good, send):
    """Five from each of ten numbers: one in 18,000 that one of them was right."""
    code = code_in(send("mason", "link").reply)
    for n in range(tries):
        send(f"+25471122{n // 5:04d}", f"link {wrong(code, n)}")
    assert send(OTHER, f"link {code}").reply.startswith("Linked" if good else "That code")


@pytest.mark.parametrize("tries, reply", [(4, "Linked"), (5, ""), (9, "")])
def test_a_stranger_has_five_tries_a_day_over_all_codes_and_is_then_met_with_silence(tries, reply, send):
    code, given = code_in(send("mason", "link").reply), code_in(send("supervisor", "code TB07 mason").reply)
    for n in range(tries):
        said = send(OTHER, f"link {wrong(code, n)}" if n % 2 else f"join TB07 mason juma {wrong(given, n)}").reply
        assert said.startswith("That code") if n < 5 else said == ""
    assert send(OTHER, f"link {code}").reply[:6] == reply
    assert send(OTHER, "man fell in the pit").reply.startswith("STOP"), "a danger is always answered"


def test_the_stranger_has_killed_nobodys_code_and_may_try_the_next_day(send):
    code = code_in(send("mason", "link").reply)
    for n in range(9):
        send("+254711222444", f"link {wrong(code, n)}")
    assert send(OTHER, f"link {code}").reply.startswith("Linked")
    day = NOON + timedelta(days=1, minutes=1)
    code = code_in(send("mason", "link", day).reply)
    assert send("+254711222444", f"link {code}", day).reply.startswith("Linked")


@pytest.mark.parametrize("tries, good", [(4, True), (5, False)])
def test_a_confirmation_dies_of_five_wrong_ones_of_its_owner(tries, good, send, sms):
    to_release(send)
    code = code_in(sms(SUPERVISOR, RELEASE).reply)
    for n in range(9):
        sms(OTHER, f"confirm {wrong(code, n)}")
    for n in range(tries):
        assert sms(SUPERVISOR, f"confirm {wrong(code, n)}").reply.startswith("That code")
    assert ("RELEASE: sides" in sms(SUPERVISOR, f"confirm {code}").reply) is good


@pytest.mark.parametrize("tries, good", [(9, True), (10, False)])
def test_somebody_known_has_ten_wrong_ones_a_day(tries, good, send, sms):
    """Who feigns his number may ask for a new code each time: the tries of a day are counted all the same."""
    to_release(send)
    for n in range(tries):
        sms(SUPERVISOR, f"confirm {wrong(code_in(sms(SUPERVISOR, RELEASE).reply), n)}")
    assert ("RELEASE: sides" in sms(SUPERVISOR, f"confirm {code_in(sms(SUPERVISOR, RELEASE).reply)}").reply) is good


def test_the_book_keeps_no_code(send, book):
    code = code_in(send("mason", "link").reply)
    with book.engine.connect() as connection:
        rows = connection.execute(sa.select(one_time)).all()
    assert len(rows) == 1 and code not in str(rows)


def test_a_number_that_is_somebody_is_not_linked_to_another(send):
    code = code_in(send("mason", "link").reply)
    assert send("farmer", f"link {code}").reply == "This number is on the list already, as Kamla. Nothing changed."


def test_a_stranger_gets_no_code(send):
    assert send(OTHER, "link").reply.startswith("This number is not known here")


# ---- a newcomer


@pytest.fixture
def given(send):
    return code_in(send("supervisor", "code TB07 mason").reply)


def test_who_brings_the_code_is_in_at_once_and_the_supervisor_hears(given, send):
    came = send(OTHER, f"join TB07 mason juma {given}")
    assert came.rows[0].text == "TB07: you are its mason now, Juma. Send HELP for what to write."
    assert (came.rows[1].to, came.rows[1].text) == (SUPERVISOR, f"TB07: Juma ({OTHER}) is its mason now, by your code.")
    assert "#3 BASE" in send(OTHER, "base 10.5 11 11 cm").reply
    assert send("+254711222444", f"join TB07 mason otto {given}").reply.startswith("That code is wrong, used or too old")


def test_the_code_gives_the_role_it_was_made_for(send):
    code = code_in(send("supervisor", "code TB07 farmer").reply)
    assert "its farmer now" in send(OTHER, f"join TB07 mason juma {code}").reply


@pytest.mark.parametrize("site, days, good", [("TB07", 6.9, True), ("TB07", 7.1, False), ("TB11", 1, False)])
def test_a_join_code_is_of_one_site_and_one_week(site, days, good, given, send):
    reply = send(OTHER, f"join {site} mason juma {given}", NOON + timedelta(days=days)).reply
    assert ("you are its mason now" in reply) is good


def test_a_site_may_have_several_open_codes(given, send):
    other = code_in(send("supervisor", "code TB07 mason").reply)
    assert "its mason now" in send(OTHER, f"join TB07 mason juma {given}").reply
    assert "its mason now" in send("+254711222444", f"join TB07 mason otto {other}").reply


def test_only_a_supervisor_gives_codes(send):
    assert send("mason", "code TB07 mason").reply == "TB07: only the supervisor may send that. Nothing saved."


def test_without_a_code_the_supervisor_is_asked_as_ever(send):
    assert "asked your supervisor" in send(OTHER, "join TB07 mason juma").reply


@pytest.mark.parametrize("text", ["join TB07 mason juma", "join TB07 mason juma {given}", "link {link}"])
def test_the_half_of_a_text_takes_nobody_in(text, given, send, sms, book):
    link, before = code_in(send("mason", "link").reply), entries(book)
    told = sms(OTHER, text.format(given=given, link=link), broken=True).told
    assert [(number, said[:39]) for number, said in told] == [(OTHER, "Only a part of your long message came. ")]
    assert entries(book) == before
    with book.page() as page:
        assert page.person(number=OTHER) is None and not page.asking("TB07")
    assert sms(OTHER, text.format(given=given, link=link)).reply[:6] in ("TB07: ", "Linked"), "no code is spent"


def test_the_half_of_a_strangers_text_is_heard_for_dangers(sms):
    assert sms(OTHER, "join TB07 man fell in the pit", broken=True).reply.startswith("STOP.")


# ---- what a number alone does not prove


def to_release(send):
    send("mason", "pit 3.12 3.08 3.10 deep 1.83")


RELEASE = "release tb07 support 1.83 m"


def test_a_release_by_sms_waits_for_the_code_sent_to_the_bound_number(send, sms, book):
    to_release(send)
    before = entries(book)
    asked = sms(SUPERVISOR, RELEASE)
    assert [number for number, _ in asked.told] == [SUPERVISOR]
    assert asked.reply.startswith("TB07: nothing recorded yet. To confirm send: confirm ")
    assert entries(book) == before
    done = sms(SUPERVISOR, f"confirm {code_in(asked.reply)}")
    assert {MASON, SUPERVISOR} == {number for number, _ in done.told}
    assert "RELEASE: sides with support" in done.reply
    assert [kind for kind, _ in entries(book)] == [*(kind for kind, _ in before), "release"]


def test_where_the_wire_proves_the_sender_no_code_is_asked_for(send):
    to_release(send)
    assert "RELEASE: sides with support" in send("supervisor", RELEASE).reply


def test_a_programme_may_do_without(sms, send, book):
    with book.page() as page:
        page.save_programme("other", page.rules() | {"confirm_by_sms": False}, NOON)
    to_release(send)
    assert "RELEASE: sides with support" in sms(SUPERVISOR, RELEASE).reply


@pytest.mark.parametrize("minutes, good", [(14, True), (16, False)])
def test_a_confirmation_comes_within_a_quarter_of_an_hour(minutes, good, send, sms):
    to_release(send)
    code = code_in(sms(SUPERVISOR, RELEASE).reply)
    reply = sms(SUPERVISOR, f"confirm {code}", NOON + minutes * MINUTE).reply
    assert ("RELEASE: sides with support" in reply) is good
    assert reply.startswith("That code is wrong, used or too old") is not good


def test_another_person_cannot_confirm(send, sms, book):
    to_release(send)
    code = code_in(sms(SUPERVISOR, RELEASE).reply)
    for number in (MASON, OTHER):
        sms(number, f"confirm {code}")
    assert "release" not in [kind for kind, _ in entries(book)]


def test_a_release_is_judged_when_it_is_confirmed(send, sms, book):
    to_release(send)
    code = code_in(sms(SUPERVISOR, RELEASE).reply)
    send("mason", "pit deep 1.84")
    send("mason", "pit deep 2.0")
    assert "Nothing recorded" in sms(SUPERVISOR, f"confirm {code}").reply
    assert "release" not in [kind for kind, _ in entries(book)]


def test_a_release_over_a_crack_is_confirmed_with_what_was_looked_at(send, sms, book):
    to_release(send)
    code = code_in(sms(SUPERVISOR, RELEASE).reply)
    send("farmer", "crack in the pit")
    assert "Kamla stands. Nothing recorded." in sms(SUPERVISOR, f"confirm {code}").reply
    code = code_in(sms(SUPERVISOR, f"{RELEASE} crack checked").reply)
    assert "Looked at: crack #" in sms(SUPERVISOR, f"confirm {code}").reply
    assert [kind for kind, _ in entries(book)][-2:] == ["danger", "release"]


@pytest.mark.parametrize("text", ["refuse tb07 pit crooked", "fix tb07 gas 2 m3", RELEASE])
def test_every_decision_is_confirmed(text, send, sms, book):
    to_release(send)
    send("farmer", "size 4 cows 5 people")
    before = entries(book)
    assert "nothing recorded yet" in sms(SUPERVISOR, text).reply
    assert entries(book) == before


def test_an_admission_is_confirmed(send, sms, book):
    send(OTHER, "join tb07 mason juma")
    asked = sms(SUPERVISOR, "admit juma tb07")
    assert asked.reply.startswith("TB07: nothing recorded yet.") and "You sent no admit?" in asked.reply
    assert [number for number, _ in asked.told] == [SUPERVISOR]
    with book.page() as page:
        assert not page.person(number=OTHER).roles
    sms(SUPERVISOR, f"confirm {code_in(asked.reply)}")
    with book.page() as page:
        assert page.person(number=OTHER).roles == (("TB07", "mason"),)


def test_a_plan_is_not_taken_back_by_a_number_alone(send, sms, book):
    send("farmer", "size 4 cows 5 people")
    send("supervisor", "fix tb07 gas 2 m3")
    before = entries(book)
    asked = sms(SUPERVISOR, "tb07 undo")
    assert asked.reply.startswith("TB07: nothing recorded yet.") and entries(book) == before
    sms(SUPERVISOR, f"confirm {code_in(asked.reply)}")
    assert [kind for kind, _ in entries(book)] == [*(kind for kind, _ in before), "undo"]


def test_a_reading_is_taken_back_without_a_code(sms):
    sms(MASON, "base 10.5 11 11 cm")
    assert "does not count any more" in sms(MASON, "undo").reply


def test_a_release_that_is_refused_anyway_needs_no_code(sms):
    assert sms(SUPERVISOR, "release tb07 dome").reply == "TB07 dome is not reported done. Nothing to release."


def test_the_site_of_a_release_is_that_of_the_moment_it_was_sent(send, sms, book):
    to_release(send)
    send("supervisor", "site tb07")
    code = code_in(sms(SUPERVISOR, "release support 1.83 m").reply)
    send("supervisor", "site tb11")
    assert "TB07" in sms(SUPERVISOR, f"confirm {code}").reply


def test_a_release_in_two_texts_is_confirmed_whole(send, sms, book):
    to_release(send)
    assert sms(SUPERVISOR, "release support 1.83 m").reply.startswith("Which site: ")
    asked = sms(SUPERVISOR, "TB07")
    assert asked.reply.startswith("TB07: nothing recorded yet.")
    assert "RELEASE: sides with support" in sms(SUPERVISOR, f"confirm {code_in(asked.reply)}").reply
    assert entries(book)[-1][0] == "release"


def test_what_answers_another_question_meanwhile_is_not_what_a_code_confirms(send, sms, book):
    to_release(send)
    sms(SUPERVISOR, "release support 1.83 m")
    code = code_in(sms(SUPERVISOR, "TB07").reply)
    assert sms(SUPERVISOR, "tb07 pit deep 3.8 m").reply.endswith("send: YES and the number with its unit.")
    assert "RELEASE: sides with support" in sms(SUPERVISOR, f"confirm {code}").reply
    assert [kind for kind, _ in entries(book)] == ["pit", "release"]


@pytest.mark.parametrize("first, answer, kind", [("tb07 refuse", "pit", "refuse"), ("fix gas 2 m3", "tb07", "fix")])
def test_a_decision_made_by_an_answer_is_confirmed(first, answer, kind, send, sms, book):
    to_release(send)
    send("farmer", "size 4 cows 5 people")
    sms(SUPERVISOR, first)
    asked = sms(SUPERVISOR, answer)
    assert "nothing recorded yet" in asked.reply
    sms(SUPERVISOR, f"confirm {code_in(asked.reply)}")
    assert entries(book)[-1][0] == kind


def test_readings_and_dangers_by_sms_need_no_code(sms):
    assert "TB07 #1 BASE" in sms(MASON, "base 10.5 11 11 cm").reply
    assert sms(MASON, "man fell in the pit").reply.startswith("STOP")


# ---- a loop


@pytest.fixture
def busy(sms, book):
    """The mason's hour is full."""
    with book.page() as page:
        page.save_programme("other", page.rules() | {"answers_per_hour": MOST}, NOON)
    for n in range(MOST):
        assert sms(MASON, "status", NOON + n * timedelta(seconds=1)).reply
    return NOON + MINUTE * 2


def test_a_loop_is_told_once_and_then_met_with_silence(busy, sms):
    first, second = sms(MASON, "status", busy), sms(MASON, "10 bags cement came", busy)
    assert [number for number, _ in first.told] == [MASON, SUPERVISOR]
    assert first.told[0][1].startswith("Too many messages in an hour.")
    assert first.told[1][1].startswith(f"TB07: more than {MOST} messages of Bholu in an hour.")
    assert second.told == []


def test_what_is_not_answered_is_not_recorded_and_the_book_says_so(busy, sms, book):
    sms(MASON, "10 bags cement came", busy)
    assert entries(book) == []
    with book.engine.connect() as connection:
        states = connection.execute(sa.select(inbound.c.state).where(inbound.c.text.like("10 bags%"))).scalars().all()
    assert states == ["silenced"]


@pytest.mark.parametrize("text", ["man fell in the pit", "pit 3.12 3.08 3.10 deep 1.83"])
def test_a_danger_and_a_stop_are_always_answered(text, busy, sms):
    sms(MASON, "status", busy)
    assert sms(MASON, text, busy).reply.startswith("STOP")


def test_another_person_is_not_touched_and_the_hour_passes(busy, sms):
    sms(MASON, "status", busy)
    assert sms(SUPERVISOR, "tb07 status", busy).reply.startswith("TB07")
    assert sms(MASON, "status", busy + timedelta(hours=1)).reply.startswith("TB07")


def test_where_the_programme_says_nothing_an_hour_has_its_usual_number(sms, book):
    with book.page() as page:
        page.save_programme("other", {k: v for k, v in page.rules().items() if k != "answers_per_hour"}, NOON)
        for n in range(ANSWERS - 1):
            page.land(Inbound("sms", f"before-{n}", MASON, "status"), NOON)
    replies = [sms(MASON, "status").reply for _ in range(3)]
    assert [reply.startswith("Too many") for reply in replies] == [False, True, False] and replies[2] == ""


# ---- numbers


@pytest.mark.parametrize(
    "written, region, kept",
    [
        ("0712 345678", "KE", "+254712345678"),
        ("00254712345678", "KE", "+254712345678"),
        ("00255712345678", "TZ", "+255712345678"),
        ("254712345678", "KE", "+254712345678"),
        ("+254712345678", None, "+254712345678"),
        ("\u0660\u0667\u0661\u0662\u0663\u0664\u0665\u0666\u0667\u0668", "KE", "+254712345678"),
        ("0712345678", None, None),
        ("2020", "KE", None),
        ("Brand-Info", "KE", None),
        ("", "KE", None),
        ("+000000000", "KE", None),
    ],
)
def test_a_number_is_kept_in_one_form(written, region, kept):
    assert e164(written, region) == kept


def programme_with(tmp_path, number, region='region = "KE"'):
    path = tmp_path / "changed.toml"
    text = DEMO.read_text().replace('"+254700000107"', f'"{number}"')
    path.write_text(re.sub(r'region = "KE".*', region, text))
    return path


@pytest.mark.parametrize("number", ["0700000107", "00254700000107", "254700000107", "+254 700 000107"])
def test_a_programme_file_may_write_a_number_as_it_is_dialled(number, tmp_path):
    made, _ = programme.read(programme_with(tmp_path, number))
    assert MASON in [row.number for row in made.person]


@pytest.mark.parametrize(
    "number, region, said",
    [
        ("+254799", 'region = "KE"', "+254799 is no number of a phone"),
        ("2020", 'region = "KE"', "2020 is no number of a phone"),
        ("0700000107", "", "0700000107 is no number of a phone: write it with + and the country, or set region"),
        ("0700000107", 'region = "XX"', "no country XX"),
    ],
)
def test_a_number_that_cannot_be_one_does_not_load(number, region, said, tmp_path):
    with pytest.raises(programme.Refused) as fault:
        programme.read(programme_with(tmp_path, number, region))
    assert said in str(fault.value)
