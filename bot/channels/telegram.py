"""Telegram: updates come by webhook or by our own polling, texts go out by the Bot client.

Either way an update is confirmed only after its commit: by the answer 200, or by the offset of the next poll.
"""

import asyncio
import json
import logging
from datetime import UTC
from hmac import compare_digest

from starlette.responses import PlainTextResponse
from starlette.routing import Route
from telegram import Bot, InlineKeyboardButton, InlineKeyboardMarkup, Update
from telegram.error import BadRequest, Forbidden, InvalidToken, NetworkError, RetryAfter, TelegramError, TimedOut
from telegram.request import HTTPXRequest

from bot.channels import Inbound, Later, Refused, Sent, Unsure

NAME = "telegram"
WANTED = ("message", "edited_message", "callback_query")
POLL_S = 25
BREAK_S = 3.0  # between two tries of a poll that failed
LOOK_S = 3.0  # for a look whether it answers
LONGEST = 256 * 1024  # bytes of an update
log = logging.getLogger("pegline")


class Telegram:
    """One bot account: `send` gives it a text, `routes` and `poll` take what it brings."""

    name = NAME

    def __init__(self, settings):
        self.rate, self._settings = settings.telegram_rate, settings
        base = settings.telegram_api.rstrip("/")
        self._bot = Bot(
            settings.telegram_token,
            base_url=f"{base}/bot",
            base_file_url=f"{base}/file/bot",
            request=HTTPXRequest(connection_pool_size=64, read_timeout=10),
            get_updates_request=HTTPXRequest(connection_pool_size=2, read_timeout=POLL_S + 10),
        )
        self.polls = settings.telegram_webhook is None

    async def start(self):
        """Log in, and say where updates are to go. A network that is down now is tried again by every later call."""
        await self._bot.initialize()
        if self.polls:
            await self._bot.delete_webhook()
        else:
            where = f"{self._settings.telegram_webhook.rstrip('/')}/telegram"
            await self._bot.set_webhook(where, secret_token=self._settings.telegram_secret, allowed_updates=WANTED)

    async def close(self):
        await self._bot.shutdown()

    async def fault(self):
        """What keeps texts from the account now, or None where it answers."""
        try:
            await self._bot.get_me(connect_timeout=LOOK_S, read_timeout=LOOK_S)
        except TelegramError as fault:
            return f"telegram: {type(fault).__name__}"
        return None

    # ---- out
    async def send(self, out):
        """Give one text to the account and return what became of it."""
        try:
            message = await self._bot.send_message(int(out.to.removeprefix("tg:")), out.text, reply_markup=_buttons(out.buttons))
        except RetryAfter as fault:
            return Later("told to slow down", float(_seconds(fault.retry_after)))
        except (Forbidden, InvalidToken) as fault:
            return Refused(fault.message)
        except BadRequest as fault:  # a kind of NetworkError, but no fault of the network
            return Refused(fault.message)
        except TimedOut as fault:
            return Unsure(fault.message)
        except NetworkError as fault:
            return Later(fault.message)
        except TelegramError as fault:
            return Later(fault.message)
        return Sent(str(message.message_id))

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
            try:
                made = Update.de_json(json.loads(body), self._bot)
            except (ValueError, KeyError, TypeError):
                log.warning("an update that cannot be read: %d bytes", len(body))
                return PlainTextResponse("", 200)  # it would come for ever
            await self._taken(made, take)
            return PlainTextResponse("", 200)

        return [Route("/telegram", update, methods=["POST"])]

    async def poll(self, take, offset, advance):
        """Fetch updates for ever; the offset moves on only after each commit."""
        while True:
            try:
                updates = await self._bot.get_updates(offset=await offset(), timeout=POLL_S, allowed_updates=WANTED)
                for made in updates:
                    await self._taken(made, take)
                    await advance(made.update_id + 1)
            except asyncio.CancelledError:
                raise
            except RetryAfter as fault:
                await asyncio.sleep(_seconds(fault.retry_after))
            except Exception as fault:
                log.warning("telegram poll failed: %s", type(fault).__name__)
                await asyncio.sleep(BREAK_S)

    async def _taken(self, made, take):
        message = self._message(made)
        if message is not None:
            await take(message)
        if made.callback_query is not None:
            await self._quiet(made.callback_query.answer())

    async def _quiet(self, call):
        """A courtesy to the phone: where it fails nothing is lost."""
        try:
            await call
        except TelegramError as fault:
            log.info("telegram: %s", type(fault).__name__)

    def _message(self, made):
        """The Inbound of an update, or None where nobody is to be answered."""
        pressed, said = made.callback_query, made.effective_message
        who = made.effective_user
        if who is None or who.is_bot or said is None:
            return None
        text = pressed.data if pressed is not None else said.text or said.caption or ""
        group = said.chat.type != "private"
        if group and pressed is None:
            text = self._addressed(text)
            if text is None:
                return None
        return Inbound(
            NAME,
            str(made.update_id),
            f"tg:{who.id}",
            text.removeprefix("/").replace("\0", ""),
            said.date.astimezone(UTC) if said.date else None,
            chat=f"tg:{said.chat.id}" if group else None,
        )

    def _addressed(self, text):
        """What a text of a group says to the bot, or None where it does not name it."""
        name = f"@{self._bot.username}"
        first, _, rest = text.partition(" ")
        if first.casefold() == name.casefold():
            return rest
        if first.startswith("/") and first.casefold().endswith(name.casefold()):
            return f"{first[: -len(name)]} {rest}".strip()
        return None


async def _body(request):
    """The body of a request, or None where it is too long."""
    got = bytearray()
    async for piece in request.stream():
        got += piece
        if len(got) > LONGEST:
            return None
    return bytes(got)


def _buttons(words):
    rows = [[InlineKeyboardButton(word, callback_data=word)] for word in words]
    return InlineKeyboardMarkup(rows) if rows else None


def _seconds(wait):
    return wait.total_seconds() if hasattr(wait, "total_seconds") else wait
