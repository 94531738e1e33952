"""Telegram: updates come by webhook or by our own polling, texts go out by the Bot client.

Either way an update is confirmed only after its commit: by the answer 200, or by the offset of the next poll.
"""

import asyncio
import json
import logging
import os
import time
from dataclasses import replace
from hmac import compare_digest
from http import HTTPStatus
from pathlib import Path

from starlette.requests import ClientDisconnect
from starlette.responses import PlainTextResponse
from starlette.routing import Route
from telegram import Bot, InlineKeyboardButton, InlineKeyboardMarkup, InputFile
from telegram.error import BadRequest, ChatMigrated, Conflict, Forbidden, RetryAfter, TelegramError
from telegram.request import HTTPXRequest

from bot.channels import Later, Refused, Sent
from bot.channels.updates import NAME, WANTED, NotYet, button, inbound

POLL_S = 25
ANSWER_S = 30  # for an answer: no receipt tells of a text whose answer came too late, so it would go again
BREAK_S = 3.0  # between two tries of what failed
EMPTY_S = 0.5  # between two polls, where a server says at once that there is nothing new
TRIES = 3  # of one update that cannot be stored while others can
LOOK_S = 3.0  # for a look whether it answers
LONGEST, BODY_S = 256 * 1024, 10  # bytes of an update, and how long they may take to come
ACROSS = 3  # buttons side by side
PICTURES = (".png", ".jpg", ".jpeg")
log = logging.getLogger("pegline")
os.environ.setdefault("PTB_TIMEDELTA", "true")  # the library warns of seconds as plain numbers, which it will give up


class Telegram:
    """One bot account: `send` gives it a text, `routes` and `poll` take what it brings."""

    name, order_s, files = NAME, 0.0, True  # what was taken is in order there

    def __init__(self, settings, menus=None):
        self.rate, self._settings, self._menus = settings.telegram_rate, settings, menus or {}
        base = settings.telegram_api.rstrip("/")
        self._lines = _Line(connection_pool_size=256, read_timeout=ANSWER_S), _Line(connection_pool_size=2, read_timeout=POLL_S + 10)
        self._bot = Bot(
            settings.telegram_token,
            base_url=f"{base}/bot",
            base_file_url=f"{base}/file/bot",
            request=self._lines[0],
            get_updates_request=self._lines[1],
        )
        self.polls = settings.telegram_webhook is None
        self._me = self._known = None  # id and name of the bot, once it is logged in
        self._courtesies = set()

    @property
    def account(self):
        """Whose updates these are, once it is logged in: updates of another bot are counted apart."""
        return f"{NAME}:{self._me}"

    async def start(self):
        """Log in, say where updates are to go and, if it is taken, which commands there are, to whose phone speaks which language."""
        me = await self._call("get_Me")
        self._me, self._known = me.get("id"), me.get("username") or ""  # without a name it is addressed by answers alone
        if self.polls:
            await _quiet(self._bot.delete_webhook())  # where one is left, the poll says so
        else:
            where = f"{self._settings.telegram_webhook.rstrip('/').removesuffix('/telegram')}/telegram"
            await self._bot.set_webhook(where, secret_token=self._settings.telegram_secret, allowed_updates=WANTED)
        for language, commands in self._menus.items():
            self._courtesy(self._bot.set_my_commands(commands, language_code=language))

    async def close(self):
        for task in self._courtesies:
            task.cancel()
        await asyncio.gather(*self._courtesies, return_exceptions=True)
        await asyncio.gather(*(line.shutdown() for line in self._lines))

    async def fault(self):
        """What keeps texts from the account now, or None where it answers."""
        try:
            await self._call("get_Me", connect_timeout=LOOK_S, read_timeout=LOOK_S)
        except TelegramError as fault:
            return f"telegram: {type(fault).__name__}"
        return None

    # ---- out
    async def send(self, out):
        """Give one text to the account and return what became of it.

        A chat sends no receipts: where the answer was lost, waiting would tell nothing, so the text goes once more.
        """
        try:
            message = await self._given(out)
        except ChatMigrated as moved:
            return await self.send(replace(out, to=f"tg:{moved.new_chat_id}"))
        except RetryAfter as fault:
            return Later("told to slow down", fault.retry_after.total_seconds())
        except (Forbidden, BadRequest) as fault:  # BadRequest is a NetworkError by class, but no fault of the network
            return Refused(fault.message)
        except FileNotFoundError:
            return Refused(f"no file {out.file}")
        except TelegramError as fault:  # network, time, gateway; a token that is not taken is mended by people, the text waits
            return Later(f"{type(fault).__name__}: {fault.message}".replace(self._settings.telegram_token, "..."))  # a url holds it
        return Sent(str(message["message_id"]) if isinstance(message, dict) and "message_id" in message else None)

    async def _given(self, out):
        asked = {"chat_id": int(out.to.removeprefix("tg:")), "reply_markup": _keyboard(out)}
        if out.file is None:
            return await self._call("send_Message", asked | {"text": out.text})
        path = Path(out.file)
        body = InputFile(await asyncio.to_thread(path.read_bytes), path.name)
        what = "Photo" if path.suffix.lower() in PICTURES else "Document"
        return await self._call(f"send_{what}", asked | {"caption": out.text, what.lower(): body})

    async def _call(self, method, asked=None, **more):
        """Call a method and return its result as plain JSON, whatever of it the library would want and does not find.

        Methods are spelt as they are since it warns of names that it has a method for.
        """
        return await self._bot.do_api_request(method, asked, **more)

    # ---- in
    def routes(self, take, receipt):
        """The address of the webhook; nothing comes there where the bot polls."""

        async def update(request):
            given = request.headers.get("x-telegram-bot-api-secret-token", "")
            if self.polls or not compare_digest(given.encode(), self._settings.telegram_secret.encode()):
                return PlainTextResponse("", 403)
            body = await _body(request)
            if body is None:
                return PlainTextResponse("", 413)
            made = _update(body)
            if made is None:
                return PlainTextResponse("", 400)
            try:
                await self._taken(made, take)
            except Exception as fault:
                log.error("update %s was not stored: %s", made["update_id"], type(fault).__name__)
                return PlainTextResponse("", 503)
            return PlainTextResponse("", 200)

        return [Route("/telegram", update, methods=["POST"])]

    async def poll(self, take, offset, advance):
        """Fetch updates for ever, one after the other; the offset moves on only after each commit."""
        while True:
            try:
                since, first = time.monotonic(), await offset()
                new = [made for made in await self._fetched(first) if first is None or made["update_id"] >= first]
                for made in new:
                    await self._settled(made, take, advance)
                    await advance(made["update_id"] + 1)
                if not new and time.monotonic() - since < EMPTY_S:
                    await asyncio.sleep(EMPTY_S)
            except RetryAfter as fault:
                await asyncio.sleep(fault.retry_after.total_seconds())
            except Conflict as fault:
                log.warning("telegram poll failed: %s", fault.message)
                await _quiet(self._bot.delete_webhook())
                await asyncio.sleep(BREAK_S)
            except Exception as fault:
                log.warning("telegram poll failed: %s", type(fault).__name__)
                await asyncio.sleep(BREAK_S)

    async def _fetched(self, offset):
        """Updates as plain JSON: one that the library cannot read would cost it the whole batch, and it logs their texts."""
        wanted = {"timeout": POLL_S, "allowed_updates": WANTED} | ({} if offset is None else {"offset": offset})
        return await self._call("get_Updates", wanted)

    async def _settled(self, made, take, advance):
        """Take an update, again and again until it is stored.

        While nothing at all can be stored, all wait. Where others could be, which writing the offset of this one shows,
        it is the update's own fault: after some tries only that it came is stored, and those behind it go on.
        """
        own, bare = 0, False
        while True:
            try:
                return await self._taken(made, take, bare)
            except Exception as fault:
                log.error("update %s was not stored: %s", made["update_id"], type(fault).__name__)
                await advance(made["update_id"])
                own += 1
            if own > TRIES:
                return None
            bare = own == TRIES
            await asyncio.sleep(BREAK_S)

    async def _taken(self, made, take, bare=False):
        message = self._read(made)
        if message is not None:
            await take(replace(message, text="", photo=None, mute=True) if bare else message)
        if made.get("callback_query"):
            self._answered(made["callback_query"])

    def _read(self, made):
        """The Inbound of an update, or None. One of an unknown shape is let go: read again it would be the same."""
        try:
            return inbound(made, self._me, self._known)
        except NotYet:
            raise
        except Exception as fault:
            log.error("update %s cannot be read: %s", made["update_id"], type(fault).__name__)
            return None

    def _answered(self, press):
        """Let the phone know that a button was taken, and take the buttons away; where that fails nothing is lost."""
        said = press.get("message") or {}
        self._courtesy(self._bot.answer_callback_query(press.get("id")))
        if "chat" in said and "message_id" in said:
            self._courtesy(self._bot.edit_message_reply_markup(chat_id=said["chat"]["id"], message_id=said["message_id"]))

    def _courtesy(self, call):
        task = asyncio.create_task(_quiet(call))
        self._courtesies.add(task)
        task.add_done_callback(self._courtesies.discard)


class _Line(HTTPXRequest):
    """What says in its body that it failed has failed, with status 200 too."""

    async def do_request(self, *args, **more):
        code, body = await super().do_request(*args, **more)
        if code == HTTPStatus.OK:
            answer = self.parse_json_payload(body)
            if not answer.get("ok", True):
                return answer.get("error_code", HTTPStatus.BAD_REQUEST), body
        return code, body


async def _quiet(call):
    try:
        await call
    except Exception as fault:
        log.info("telegram: %s", type(fault).__name__)


async def _body(request):
    """The body of a request, or None where it is too long; what does not come in time, or breaks off, is no body."""
    got = bytearray()
    try:
        async with asyncio.timeout(BODY_S):
            async for piece in request.stream():
                got += piece
                if len(got) > LONGEST:
                    return None
    except (ClientDisconnect, TimeoutError):
        return b""
    return bytes(got)


def _update(body):
    """The update in a body, or None where it is none."""
    try:
        made = json.loads(body)
    except (ValueError, RecursionError):
        return None
    return made if isinstance(made, dict) and type(made.get("update_id")) is int else None


def _keyboard(out):
    keys = [InlineKeyboardButton(word, callback_data=button(out.id, word)) for word in out.buttons]
    rows = [keys[at : at + ACROSS] for at in range(0, len(keys), ACROSS)]
    return InlineKeyboardMarkup(rows) if rows else None
