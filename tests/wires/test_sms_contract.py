"""What the SMS gateway and the bot say to each other over HTTP, each side by itself, and how pieces and reports are kept.

The bytes of headers are those of 3GPP TS 23.040, 9.2.3.24; the queries are as Kannel 1.4.5 wrote them on our own link.
"""

from dataclasses import replace
from datetime import UTC, datetime
from urllib.parse import quote_from_bytes, urlsplit

import httpx
import pytest
from hypothesis import given as given_
from hypothesis import strategies as st
from starlette.applications import Starlette

from bot.channels import Inbound, Later, Outbound, Part, Refused, Sent, Unsure
from bot.channels.numbers import e164
from bot.channels.pieces import pieces
from bot.channels.sms import Sms
from bot.config import Settings
from bot.letters import segments
from tests.conftest import NOON
from tests.wires.sendsms import ACCEPTED, CUT, sendsms

MASON = "+254700000107"
BUSY = {"/sms/mo": 200, "/sms/stray": 503}  # by the gateway's link, which drops a text at any other status; by its service
SMILE = "\N{GRINNING FACE}"


def wire(url="http://127.0.0.1:9/none", **more):
    values = {
        "sms_url": url,
        "sms_key": "k&%25 y",
        "sms_user": "pegline",
        "sms_password": "p",
        "sms_timeout_s": 0.5,
        "port": 8200,
        "region": "KE",
    }
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
    for path in BUSY:
        answer, (message,) = await asked(wire(), path, given(text="got 10 bags"))
        assert (answer.status_code, answer.text) == (200, "ACCEPTED")
        assert message == Inbound("sms", "w-1", MASON, "got 10 bags", datetime(2026, 3, 2, 9, 0, tzinfo=UTC), proven=False)


@pytest.mark.asyncio
@pytest.mark.parametrize("said, stamped", [({}, False), ({"stamp": "network"}, True), ({"stamp": "own"}, False)])
async def test_a_stamp_is_the_networks_own_only_where_the_gateway_says_so(said, stamped):
    """Of a text by SMPP it knows no other time than that of its coming; one in a SIM carries the stamp of its centre."""
    _, (message,) = await asked(wire(), "/sms/mo", given(**said))
    assert message.stamped is stamped


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


@pytest.mark.parametrize("region", ["KE", "TZ", "UG", "IN", "NP", "ET", "RW", "VN", "WS"])
@pytest.mark.parametrize("written", ["100", "2020", "15555", "40404", "444888", "567678", "+15555", "MyBank", "AD-KIOSK"])
def test_a_short_code_or_a_brand_is_no_number_in_any_country(region, written):
    assert e164(written, region) is None


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
    for path, status in BUSY.items():
        answer, handed = await asked(wire(), path, given(**fault))
        assert (answer.status_code, answer.text, handed) == (status, "BUSY", [])


@pytest.mark.asyncio
async def test_what_cannot_be_stored_is_told_to_come_again():
    async def broken(message):
        raise OSError("disk full")

    for path, status in BUSY.items():
        answer, _ = await asked(wire(), path, given(), take=broken)
        assert (answer.status_code, answer.text) == (status, "BUSY")


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


LONG = "STOP. " + "Nobody in. " * 26


@pytest.mark.asyncio
async def test_a_long_text_goes_out_in_pieces_under_its_own_mark_each_time_the_same():
    """3GPP TS 23.040 9.2.3.24.1: 05 00 03, the mark, how many, which; 153 septets are left of the 140 octets of a message."""
    with sendsms() as (desk, url):
        desk.answers = [ACCEPTED, (503, "busy")]
        first = await sent(url, replace(text(LONG), segments=2))
        again = await sent(url, replace(text(LONG), segments=2))
        other = await sent(url, replace(text(LONG), segments=2, id=42 + 256 + 1))
    assert (type(first), again, other) == (Later, Sent(), Sent())
    cut = [(got["text"], got["udh"].encode("latin-1").hex()) for got in desk.asked]
    assert cut[:2] == cut[2:4] == [(LONG[:153], "0500032a0201"), (LONG[153:], "0500032a0202")]
    assert [header for _, header in cut[4:]] == ["0500032b0201", "0500032b0202"]
    assert [got["dlr-mask"] for got in desk.asked[2:4]] == ["18", "31"], "of the first only that it will not arrive"


@given_(st.text(st.sampled_from("ab{}[]\u20ac ") | st.sampled_from("\u0928\u092e\U0001f9f1"), min_size=1, max_size=700))
def test_pieces_are_the_whole_text_and_each_fits_with_its_header(said):
    count, encoding = segments(said)
    cut = pieces(replace(text(said, encoding), segments=count, id=7))
    assert "".join(piece for piece, _ in cut) == said
    for place, (piece, header) in enumerate(cut, 1):
        octets = -(-7 * len(piece.encode("gsm03.38")) // 8) if encoding == "GSM-7" else len(piece.encode("utf-16-be"))
        assert header == (bytes([5, 0, 3, 7, len(cut), place]) if count > 1 else b"")
        assert octets + len(header) <= 140


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
