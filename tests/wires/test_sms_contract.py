"""What the SMS gateway and the bot say to each other over HTTP, each side by itself, and how pieces and reports are kept.

The bytes of headers are those of 3GPP TS 23.040, 9.2.3.24; the queries are as Kannel 1.4.5 wrote them on our own link.
"""

import itertools
from datetime import UTC, datetime, timedelta
from urllib.parse import quote_from_bytes, urlsplit

import httpx
import pytest
import sqlalchemy as sa
from starlette.applications import Starlette

from bot import mishap
from bot.channels import Inbound, Later, Outbound, Part, Refused, Sent, Unsure, halves_kept, joined
from bot.channels.sms import Sms
from bot.config import Settings
from bot.inbox import take
from bot.reading.words import vocabulary
from bot.tables import inbound, outgoing, part
from tests.conftest import NOON
from tests.wires.sendsms import CUT, sendsms

MASON = "+254700000107"
SMILE = "\N{GRINNING FACE}"


def wire(url="http://127.0.0.1:9/none", **more):
    values = {"sms_url": url, "sms_key": "k&%25 y", "sms_user": "pegline", "sms_password": "p", "sms_timeout_s": 0.5, "port": 8200}
    return Sms(Settings(_env_file=None, **values, **more))


def given(**fields):
    """A query of the gateway: bytes are written as they are."""
    usual = {
        "key": "k&%25 y",
        "id": "w-1",
        "from": MASON,
        "to": "+2020",
        "ts": "1772442000",
        "charset": "UTF-8",
        "udh": "",
        "text": "stock",
    }
    raw = {name: value if isinstance(value, bytes) else value.encode() for name, value in (usual | fields).items()}
    return "&".join(f"{name}={quote_from_bytes(value, safe='')}" for name, value in raw.items())


async def asked(sms, path, query, take=None, receipt=None):
    """The answer of a route and what it handed on."""
    handed = []

    async def keep(*values):
        handed.append(values if len(values) > 1 else values[0])

    app = Starlette(routes=sms.routes(take or keep, receipt or keep))
    async with httpx.AsyncClient(transport=httpx.ASGITransport(app), base_url="http://bot") as client:
        answer = await client.get(f"{path}?{query}")
    await sms.close()
    return answer, handed


@pytest.mark.asyncio
async def test_a_text_is_handed_on_with_its_sender_and_its_time():
    answer, (message,) = await asked(wire(), "/sms/mo", given(text="got 10 bags"))
    assert (answer.status_code, answer.text) == (200, "ACCEPTED")
    assert message == Inbound("sms", "w-1", MASON, "got 10 bags", datetime(2026, 3, 2, 9, 0, tzinfo=UTC))


@pytest.mark.asyncio
@pytest.mark.parametrize(
    "written, sender, mute",
    [
        ("+254700000107", MASON, False),
        ("254700000107", MASON, False),
        ("0700000107", MASON, False),
        ("00254700000107", MASON, False),
        ("+255712345678", "+255712345678", False),
        ("Brand-Info", "Brand-Info", True),
        ("2020", "2020", True),
        ("+2020", "+2020", True),
        ("", "", True),
    ],
)
async def test_a_number_is_kept_in_one_form_and_what_is_none_is_not_answered(written, sender, mute):
    _, (message,) = await asked(wire(), "/sms/mo", given(**{"from": written}))
    assert (message.sender, message.mute) == (sender, mute)


@pytest.mark.asyncio
@pytest.mark.parametrize(
    "charset, raw, text",
    [
        ("UTF-8", "नमस्ते {}€".encode(), "नमस्ते {}€"),
        ("UTF-16BE", f"नम {SMILE}".encode("utf-16-be"), f"नम {SMILE}"),
        ("UTF-16BE", f"a{SMILE}".encode("utf-16-be")[:-2], "a\N{REPLACEMENT CHARACTER}"),
        ("UTF-8", b"a\xffb", "a\N{REPLACEMENT CHARACTER}b"),
        ("UTF-8", b"a\0b", "a\N{REPLACEMENT CHARACTER}b"),
        ("8-BIT", b"\x01\x02\xff", ""),
        ("UTF-8", b"", ""),
    ],
)
async def test_bytes_become_text_that_any_database_takes(charset, raw, text):
    _, (message,) = await asked(wire(), "/sms/mo", given(charset=charset, text=raw))
    assert message.text == text


@pytest.mark.asyncio
@pytest.mark.parametrize("stamp", ["", "soon", "2026-03-02", "99999999999999999999"])
async def test_a_time_stamp_that_is_none_is_left_out(stamp):
    _, (message,) = await asked(wire(), "/sms/mo", given(ts=stamp))
    assert message.sent_at is None


@pytest.mark.asyncio
@pytest.mark.parametrize(
    "header, piece",
    [
        (b"\x05\x00\x03\xa7\x02\x01", Part("+2020", 0xA7, 2, 1)),
        (b"\x06\x08\x04\x12\x34\x03\x02", Part("+2020", 0x1234, 3, 2)),
        (b"\x0b\x05\x04\x0b\x84\x23\xf0\x00\x03\x03\x02\x02", Part("+2020", 3, 2, 2)),  # behind an element of ports
        (b"\x06\x05\x04\x0b\x84\x23\xf0", None),
        (b"\x05\x00\x03\xa7\x02\x00", None),  # no piece 0
        (b"\x05\x00\x03\xa7\x02\x03", None),  # 3 of 2
        (b"\x05\x00\x03\xa7\x01\x01", None),  # whole
        (b"\x05\x00\x03\xa7", None),
        (b"\x05", None),
        (b"", None),
    ],
)
async def test_the_header_of_a_piece_is_read(header, piece):
    _, (message,) = await asked(wire(), "/sms/mo", given(udh=header))
    assert message.part == piece


@pytest.mark.asyncio
@pytest.mark.parametrize("fault", [{"key": "wrong"}, {"key": ""}, {"id": ""}, {"id": "x" * 81}, {"text": "x" * 9000}])
async def test_what_is_not_of_the_gateway_is_told_to_come_again_and_goes_nowhere(fault):
    answer, handed = await asked(wire(), "/sms/mo", given(**fault))
    assert (answer.status_code, answer.text, handed) == (200, "BUSY", [])


@pytest.mark.asyncio
async def test_what_cannot_be_stored_is_told_to_come_again():
    async def broken(message):
        raise OSError("disk full")

    answer, _ = await asked(wire(), "/sms/mo", given(), take=broken)
    assert (answer.status_code, answer.text) == (200, "BUSY")


# ---- out


def text(text="ok", encoding="GSM-7"):
    return Outbound(MASON, "mason", "sms", text, 1, encoding, NOON, id=42)


async def sent(desk_url, out):
    sms = wire(desk_url, sms_from="2020")
    outcome = await sms.send(out)
    await sms.close()
    return outcome


@pytest.mark.asyncio
@pytest.mark.parametrize("said, encoding, coding", [("12 m3 & more?", "GSM-7", "0"), ("नमस्ते", "UCS-2", "2")])
async def test_a_text_goes_out_in_its_coding_and_asks_for_reports(said, encoding, coding):
    with sendsms() as (desk, url):
        assert await sent(url, text(said, encoding)) == Sent()
        (got,) = desk.got
    assert (got["to"], got["from"], got["text"], got["charset"], got["coding"]) == (MASON, "2020", said, "UTF-8", coding)
    assert (got["username"], got["password"], got["dlr-mask"]) == ("pegline", "p", "31")


async def report(sms, url, status, foreign="f%261"):
    """What the gateway does with a report address: it puts its own values in and asks."""
    query = urlsplit(url.replace("%d", str(status)).replace("%F", foreign)).query
    return await asked(sms, "/sms/dlr", query)


@pytest.mark.asyncio
async def test_a_report_comes_back_with_the_id_of_its_text_and_without_the_key():
    with sendsms() as (desk, url):
        await sent(url, text())
        address = desk.got[0]["dlr-url"]
    assert "k&" not in address
    assert address.count("%") == 2, "the gateway would take any other for a mark of its own"
    for status, word in ((8, "accepted"), (1, "delivered"), (2, "failed"), (16, "rejected"), (4, "buffered")):
        answer, handed = await report(wire(), address, status)
        assert (answer.status_code, handed) == (200, [(42, word, "f&1")])
    assert (await report(wire(), address, 32))[1] == [], "a status that is none"
    for wrong in (
        address.replace("mid=42", "mid=43"),
        address.replace("sign=", "sign=0"),
        f"{urlsplit(address)._replace(query='').geturl()}?",
    ):
        answer, handed = await report(wire(), wrong, 1)
        assert (answer.status_code, handed) == (403, [])


@pytest.mark.asyncio
@pytest.mark.parametrize(
    "answer, outcome",
    [
        ((202, "0: Accepted for delivery"), Sent),
        ((202, "3: Queued for later delivery"), Sent),
        ((503, "Temporal failure, try again later."), Later),
        ((403, "Authorization failed for sendsms"), Later),
        ((404, "Unknown request."), Later),
        ((400, "Empty receiver number not allowed, rejected"), Refused),
        (CUT, Unsure),
    ],
)
async def test_each_answer_of_the_gateway_has_its_meaning(answer, outcome):
    with sendsms() as (desk, url):
        desk.answers = [answer]
        assert isinstance(await sent(url, text()), outcome)


@pytest.mark.asyncio
async def test_no_gateway_is_tried_later_and_a_slow_one_may_have_it():
    assert isinstance(await sent("http://127.0.0.1:9/cgi-bin/sendsms", text()), Later)
    with sendsms() as (desk, url):
        desk.slow_s = 0.7
        assert isinstance(await sent(url, text()), Unsure)


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
        return connection.execute(sa.select(sa.func.count()).select_from(part)).scalar_one()


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


@pytest.mark.parametrize("cut", range(1, 8))
def test_a_pair_cut_between_two_pieces_is_whole_again(book, cut):
    raw = f"ab{SMILE}{SMILE}c".encode("utf-16-be")
    assert joined((halves_kept(raw[: 2 * cut]), halves_kept(raw[2 * cut :]))) == f"ab{SMILE}{SMILE}c"


def test_a_text_of_which_a_piece_is_missing_is_told_once_after_the_wait(book):
    first, _, third = pieces()
    arrive(book, first)
    arrive(book, third, now=NOON + timedelta(minutes=9))
    wait = timedelta(minutes=10)
    for minutes, told in ((10, 0), (18, 0), (19.1, 1), (40, 1)):
        now = NOON + timedelta(minutes=minutes)
        mishap.lone(book, now - wait, now)
        assert len(went(book)) == told, minutes
    assert went(book)[0].startswith("Only a part of your long message came. Nothing saved.")
    assert left(book) == 0


def test_a_piece_of_nobody_known_is_forgotten_without_a_word(book):
    arrive(book, pieces(sender="+254799999999")[0])
    mishap.lone(book, NOON + timedelta(minutes=1), NOON + timedelta(minutes=1))
    assert (went(book, "+254799999999"), left(book)) == ([], 0)


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


def test_a_report_on_a_text_that_is_not_there_changes_nothing(book):
    with book.page() as page:
        assert not page.receipt(4711, "delivered", None, NOON)


def test_a_sender_that_is_never_answered_is_kept_all_the_same(book):
    arrive(book, Inbound("sms", "w-1", "Brand-Info", "buy now", NOON, mute=True))
    with book.engine.connect() as connection:
        assert connection.execute(sa.select(inbound.c.state, inbound.c.text)).all() == [("mute", "buy now")]
        assert connection.execute(sa.select(sa.func.count()).select_from(outgoing)).scalar_one() == 0
