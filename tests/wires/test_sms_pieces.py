"""Pieces of long texts and delivery reports, as the book keeps them."""

import itertools
from datetime import timedelta

import pytest
import sqlalchemy as sa

from bot import lone
from bot.channels import Inbound, Part, assembled, halves_kept
from bot.inbox import take
from bot.reading.words import vocabulary
from bot.tables import inbound, outgoing, part
from tests.conftest import NOON

MASON = "+254700000107"
SMILE = "\N{GRINNING FACE}"


# ---- pieces


LONG = ("got 10 bags ", "cement and 200 ", "bricks")


def pieces(texts=LONG, ref=7, sender=MASON, receiver="+2020"):
    total = len(texts)
    return [
        Inbound("sms", f"{sender}-{receiver}-{at}", sender, text, NOON, Part(receiver, ref, total, at)) for at, text in enumerate(texts, 1)
    ]


def arrive(book, *messages, now=NOON):
    for message in messages:
        take(message, book, vocabulary(), now)


def went(book, number=MASON):
    with book.engine.connect() as connection:
        return list(connection.execute(sa.select(outgoing.c.text).where(outgoing.c.number == number).order_by(outgoing.c.id)).scalars())


def left(book):
    with book.engine.connect() as connection:
        return connection.execute(sa.select(sa.func.count()).select_from(part).where(part.c.place > 0)).scalar_one()


@pytest.mark.parametrize("order", list(itertools.permutations(range(3))))
def test_pieces_in_any_order_are_one_text(book, order):
    arrive(book, *(pieces()[at] for at in order))
    (reply,) = went(book)
    assert reply.startswith("TB07 #1 STOCK: ") and "10 bags" in reply and "200 bricks" in reply
    assert left(book) == 0


def test_a_piece_that_comes_twice_counts_once(book):
    first, second, third = pieces()
    again = Inbound("sms", "another id", MASON, first.text, NOON, first.part)
    arrive(book, first, again, second, second, third)
    assert len(went(book)) == 1


def test_a_piece_brought_once_more_after_the_whole_is_no_half_of_another(book):
    arrive(book, *pieces())
    for at, piece in enumerate(pieces()):
        arrive(book, Inbound("sms", f"late-{at}", MASON, piece.text, NOON, piece.part))
    lone.look(book, vocabulary(), timedelta(minutes=10), NOON + timedelta(hours=1))
    assert len(went(book)) == 1
    with book.engine.connect() as connection:
        assert connection.execute(sa.select(sa.func.count()).select_from(part)).scalar_one() == 0, "nothing stays for ever"


def test_a_mark_used_again_after_the_whole_begins_a_new_text(book):
    arrive(book, *pieces())
    later = pieces(("got 5 bags ", "cement", " and 9 bricks"))
    arrive(book, *(Inbound("sms", f"later-{at}", MASON, each.text, NOON, each.part) for at, each in enumerate(later)))
    assert len(went(book)) == 2


def test_pieces_of_two_people_and_two_receivers_are_not_mixed(book):
    mine, other, elsewhere = pieces(), pieces(sender="+254700000108"), pieces(receiver="+3030")
    arrive(book, mine[0], other[1], elsewhere[2], other[0], mine[1])
    assert went(book) == []
    arrive(book, mine[2])
    assert len(went(book)) == 1


def test_a_mark_used_again_begins_a_new_text(book):
    old, new = pieces(("got 99 bags cement ", "and 5 bricks")), pieces(("got 10 bags ", "cement"))
    new = [Inbound("sms", f"new-{at}", MASON, each.text, NOON, each.part) for at, each in enumerate(new)]
    arrive(book, old[0], *new)
    (reply,) = went(book)
    assert "10 bags" in reply and "99" not in reply


def test_pieces_without_a_text_count_too(book):
    arrive(book, *pieces(("", "got 10 bags ", "cement")))
    (reply,) = went(book)
    assert "10 bags" in reply


@pytest.mark.parametrize("cut", range(1, 8))
def test_a_pair_cut_between_two_pieces_is_whole_again(book, cut):
    raw = f"ab{SMILE}{SMILE}c".encode("utf-16-be")
    assert assembled((halves_kept(raw[: 2 * cut]), halves_kept(raw[2 * cut :]))) == f"ab{SMILE}{SMILE}c"


def test_a_text_of_which_a_piece_is_missing_is_told_once_after_the_wait(book):
    first, _, third = pieces()
    arrive(book, first)
    arrive(book, third, now=NOON + timedelta(minutes=9))
    wait = timedelta(minutes=10)
    for minutes, told in ((10, 0), (18, 0), (19.1, 1), (40, 1)):
        now = NOON + timedelta(minutes=minutes)
        lone.look(book, vocabulary(), wait, now)
        assert len(went(book)) == told, minutes
    assert went(book)[0].startswith("Only a part of your long message came. Nothing saved.")
    assert left(book) == 0


def test_a_piece_of_nobody_known_is_forgotten_without_a_word(book):
    arrive(book, pieces(sender="+254799999999")[0])
    lone.look(book, vocabulary(), timedelta(0), NOON + timedelta(minutes=1))
    assert (went(book, "+254799999999"), left(book)) == ([], 0)


GRAVE = ("got 10 bags cement, ", "but a man fell in", " the pit just now")
SUPERVISOR = "+254700000200"


def looked(book, seconds):
    lone.look(book, vocabulary(), timedelta(minutes=10), NOON + timedelta(seconds=seconds))


@pytest.mark.parametrize("came", [(2, 3), (3, 2), (1, 2)])
def test_a_danger_in_what_came_is_answered_after_half_a_minute(book, came):
    arrive(book, *(pieces(GRAVE)[at - 1] for at in came))
    for seconds, count in ((29, 0), (31, 2), (32, 2), (700, 2)):
        looked(book, seconds)
        assert len(went(book)) == count, seconds
    assert went(book)[0].startswith("STOP. DO NOT GO IN.") and went(book)[1].startswith("Only a part of your long message came.")
    (alert,) = went(book, SUPERVISOR)
    assert alert.startswith("ALERT TB07")
    with book.page() as page:
        assert [entry.kind for entry in page.site("TB07").log] == ["danger"], "the cement is not recorded from half a text"


def test_the_rest_that_comes_after_the_alarm_is_half_a_text_itself(book):
    arrive(book, *pieces(GRAVE)[1:])
    looked(book, 31)
    arrive(book, pieces(GRAVE)[0], now=NOON + timedelta(seconds=40))
    looked(book, 700)
    assert [text[:4] for text in went(book)] == ["STOP", "Only", "Only"]


def test_a_danger_of_somebody_unknown_is_answered_too(book):
    arrive(book, *pieces(GRAVE, sender="+254799999999")[1:])
    looked(book, 31)
    assert went(book, "+254799999999")[0].startswith("STOP. DO NOT GO IN.")


def test_a_code_in_half_a_text_does_nothing(book):
    arrive(book, pieces(("link 123456 ", "and more"))[0])
    looked(book, 700)
    assert [text[:4] for text in went(book)] == ["Only"]


def test_of_half_a_text_from_a_shared_number_nobody_is_asked_who_wrote_it(book):
    with book.page() as page:
        page.give_role(page.save_person(name="Juma", short="juma", number=MASON), "TB07", "farmer")
    arrive(book, pieces()[0])
    looked(book, 700)
    assert [text[:4] for text in went(book)] == ["Only"]


# ---- reports


@pytest.mark.parametrize(
    "words, state, kept",
    [
        (("accepted", "delivered"), "delivered", "delivered"),
        (("delivered", "accepted"), "delivered", "delivered"),
        (("delivered", "delivered", "accepted", "buffered"), "delivered", "delivered"),
        (("accepted", "buffered", "failed"), "failed", "failed"),
        (("failed", "delivered"), "delivered", "delivered"),  # it did arrive, whatever was thought before
        (("rejected",), "refused", "rejected"),
        (("accepted",), "sent", "accepted"),
    ],
)
def test_reports_doubled_and_out_of_order_leave_the_last_that_counts(book, words, state, kept):
    arrive(book, Inbound("sms", "w-1", MASON, "stock", NOON))
    with book.page() as page:
        (row,) = page.queued("sms", "w-1")
        page.mark([row["id"]], "sent")
        for word in words:
            assert page.receipt(row["id"], word, "g-1", NOON)
        after = page.out(row["id"])
    assert (after["state"], after["receipt"], after["gateway_id"]) == (state, kept, "g-1")
    assert after["sent_at"] == (None if words == ("rejected",) else NOON)


def test_a_report_on_a_text_that_is_not_there_changes_nothing(book):
    with book.page() as page:
        assert not page.receipt(4711, "delivered", None, NOON)


def test_a_sender_that_is_never_answered_is_kept_all_the_same(book):
    arrive(book, Inbound("sms", "w-1", "Brand-Info", "buy now", NOON, mute=True))
    with book.engine.connect() as connection:
        assert connection.execute(sa.select(inbound.c.state, inbound.c.text)).all() == [("mute", "buy now")]
        assert connection.execute(sa.select(sa.func.count()).select_from(outgoing)).scalar_one() == 0
