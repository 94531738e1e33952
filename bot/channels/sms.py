"""SMS over the HTTP contract of a gateway: texts come by GET to our route, go out by GET to its sendsms.

The gateway is answered ACCEPTED only after the commit and BUSY where nothing could be stored. What a status other than
200 means differs: on the gateway's own link it drops the text, on its service it brings the text again.
"""

import asyncio
import hmac
import logging
from datetime import UTC, datetime
from hashlib import sha256
from hmac import compare_digest
from urllib.parse import parse_qsl, urlencode, urlsplit

import httpcore
from starlette.responses import PlainTextResponse
from starlette.routing import Route

from bot.channels import Inbound, Later, Part, Refused, Sent, Unsure, halves_kept
from bot.channels.numbers import e164
from bot.channels.pieces import pieces

NAME = "sms"
RECEIPTS = {"1": "delivered", "2": "failed", "4": "buffered", "8": "accepted", "16": "rejected"}
BAD_REQUEST = 400
CONNECTIONS = 20  # each idle one is looked at for every text
REPORTS, FAILURES = 31, 18  # every kind of delivery report; of a piece before the last only that it will not arrive
LOOK_S = 3.0  # for a look whether it listens
PORTS = {"http": 80, "https": 443}
LONGEST = 8000  # bytes of a query that is looked at
NETWORKS = "network"  # what a gateway says of a time stamp that it did not set itself
ID = 80  # characters of an id that the book keeps
log = logging.getLogger("pegline")


class Sms:
    """The SMS gateway: `send` gives it a text, `routes` take what it brings."""

    name, polls, files = NAME, False, False

    def __init__(self, settings):
        self.rate, self.order_s, self._settings = settings.sms_rate, settings.sms_order_s, settings
        self._pool = httpcore.AsyncConnectionPool(max_connections=CONNECTIONS)

    async def start(self):
        """Nothing to log in to: the gateway takes each text by itself."""

    async def close(self):
        await self._pool.aclose()

    async def fault(self):
        """What keeps texts from the gateway now, or None where somebody listens there."""
        where = urlsplit(self._settings.sms_url)
        try:
            _, writer = await asyncio.wait_for(asyncio.open_connection(where.hostname, where.port or PORTS[where.scheme]), LOOK_S)
        except OSError as fault:  # a time-out is one
            return f"sms: no gateway: {type(fault).__name__}"
        writer.close()
        return None

    # ---- out
    async def send(self, out):
        """Give one text to the gateway, piece by piece, and return what became of it."""
        *first, last = pieces(out)
        for text, header in first:
            outcome = await self._given(self._query(out, text, header, FAILURES))
            if not isinstance(outcome, Sent):
                return outcome
        return await self._given(self._query(out, *last, REPORTS))

    async def _given(self, query):
        url = f"{self._settings.sms_url}{'&' if '?' in self._settings.sms_url else '?'}{urlencode(query)}"
        limits = dict.fromkeys(("connect", "read", "write", "pool"), self._settings.sms_timeout_s)
        try:
            answer = await self._pool.request("GET", url, extensions={"timeout": limits})
        except httpcore.PoolTimeout:
            return Later("the gateway answers those before too slowly")
        except (httpcore.ConnectError, httpcore.ConnectTimeout) as fault:
            return Later(f"no gateway: {type(fault).__name__}")
        except (httpcore.NetworkError, httpcore.TimeoutException, httpcore.ProtocolError) as fault:
            return Unsure(f"answer lost: {type(fault).__name__}")
        if 200 <= answer.status < 300:
            return Sent()
        said = f"gateway says {answer.status}: {answer.content[:100].decode(errors='replace')}"
        return Refused(said) if answer.status == BAD_REQUEST else Later(said)  # all else is no fault of this text

    def _query(self, out, text, header, mask):
        back = {"mid": out.id, "sign": self._sign(str(out.id))}
        reports = f"{self._settings.own_url}/sms/dlr?{urlencode(back)}&status=%d&foreign=%F"
        query = {
            "username": self._settings.sms_user,
            "password": self._settings.sms_password,
            "to": out.to,
            "text": text,
            "charset": "UTF-8",
            "coding": 0 if out.encoding == "GSM-7" else 2,
            "dlr-mask": mask,
            "dlr-url": reports,
        }
        query |= {"udh": header} if header else {}
        return query | ({"from": self._settings.sms_from} if self._settings.sms_from else {})

    def _sign(self, mid):
        """What a report on one text must bring: the gateway keeps it on disk, where the key itself has no place."""
        return hmac.new(self._settings.sms_key.encode(), f"report {mid}".encode(), sha256).hexdigest()[:32]

    # ---- in
    def routes(self, take, receipt):
        """The addresses of the gateway: texts of people by its link, those that strayed to its service, delivery reports."""

        async def stored(request):
            query = _query(request)
            if query is None or not self._known(query):
                log.warning("sms: a request without the shared key, or too long, or without an id")
                return False
            try:
                await take(self._message(query))
            except Exception as fault:
                log.error("sms: a text could not be stored: %s", type(fault).__name__)
                return False
            return True

        async def incoming(request):
            return PlainTextResponse("ACCEPTED" if await stored(request) else "BUSY")

        async def strayed(request):
            return PlainTextResponse("ACCEPTED") if await stored(request) else PlainTextResponse("BUSY", 503)

        async def report(request):
            query = _query(request) or {}
            word, mid = RECEIPTS.get(_text(query, "status")), _text(query, "mid")
            if not compare_digest(query.get("sign", b""), self._sign(mid).encode()):
                return PlainTextResponse("REFUSED", 403)
            if word:
                await receipt(int(mid), word, _text(query, "foreign")[:ID] or None)
            return PlainTextResponse("", 200)

        return [Route("/sms/mo", incoming), Route("/sms/stray", strayed), Route("/sms/dlr", report)]

    def _known(self, query):
        given = compare_digest(query.get("key", b""), self._settings.sms_key.encode())
        return given and 0 < len(_text(query, "id")) <= ID

    def _message(self, query):
        written = _text(query, "from")
        sender = e164(written, self._settings.region)
        part = _part(query.get("udh", b""), _text(query, "to")[:24])
        return Inbound(
            NAME,
            _text(query, "id"),
            sender or written[:24],
            _body(query, part),
            _moment(_text(query, "ts")),
            part,
            mute=sender is None,
            proven=False,
            stamped=_text(query, "stamp") == NETWORKS,
        )


def _query(request):
    """The query as bytes by name, or None where it is too long: a part header is no text of any charset."""
    raw = request.scope["query_string"]
    if len(raw) > LONGEST:
        return None
    pairs = parse_qsl(raw.decode("latin-1"), keep_blank_values=True, encoding="latin-1")
    return {name: value.encode("latin-1") for name, value in pairs}


def _text(query, name):
    return query.get(name, b"").decode("utf-8", "replace").replace("\0", "")


def _body(query, part):
    """The text of a message; one of raw bytes has none. Only the piece of a longer one may end in half a pair."""
    charset = _text(query, "charset").upper()
    body = query.get("text", b"")
    if charset == "8-BIT":
        return ""
    if charset.startswith("UTF-16"):
        text = halves_kept(body) if part else body.decode("utf-16-be", "replace")
    else:
        text = body.decode("utf-8", "replace")
    return text.replace("\0", "\N{REPLACEMENT CHARACTER}")


def _moment(text):
    """The time stamp of the network in seconds since 1970, or None where there is none."""
    try:
        return datetime.fromtimestamp(int(text), UTC)
    except (ValueError, OverflowError, OSError):
        return None


def _part(header, receiver):
    """The Part that a user data header tells (3GPP TS 23.040 9.2.3.24.1 and .8), or None."""
    at = 1
    while at + 1 < len(header):
        element, size = header[at], header[at + 1]
        body = header[at + 2 : at + 2 + size]
        at += 2 + size
        if (element, size, len(body)) == (0, 3, 3):
            ref, total, place = body
        elif (element, size, len(body)) == (8, 4, 4):
            ref, total, place = body[0] << 8 | body[1], body[2], body[3]
        else:
            continue
        return Part(receiver, ref, total, place) if 1 <= place <= total and total > 1 else None
    return None
