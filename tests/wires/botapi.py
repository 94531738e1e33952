"""A Bot API server on loopback, as far as a bot can see one: true offsets, long poll, webhooks repeated until they are taken.

What people do is told to it from the test (`say`, `press`, `edit`, `photo`, `group`); what the bot sent is read from `sent`.
Faults are set for one chat or all: `api.fault(429, chat=7, times=2, retry_after=1)`. What others of its kind leave out can be
left out by this one too: methods it does not have (`lacks`), fields of answers (`brief`), waiting and offsets (`hasty`).
"""

import asyncio
import itertools
import json
import re
import threading
import time
from email.parser import BytesParser
from email.policy import HTTP
from types import SimpleNamespace
from urllib.parse import parse_qsl

import httpx
import uvicorn
from starlette.applications import Starlette
from starlette.responses import JSONResponse, PlainTextResponse, Response
from starlette.routing import Route

TOKEN = "42:loopback"
ME = {"id": 42, "is_bot": True, "first_name": "Pegline", "username": "pegline_bot"}
KINDS = ("message", "edited_message", "callback_query")


class Refusal(Exception):
    """An answer that is not ok."""

    def __init__(self, code, description, **parameters):
        self.code, self.body = code, {"ok": False, "error_code": code, "description": description}
        if parameters:
            self.body["parameters"] = parameters


class BotApi:
    """The server and, in the same process, the people who use it. `start` and `stop` may follow each other: the network."""

    def __init__(self):
        self._lock = threading.RLock()
        self._ids, self.next_update = itertools.count(100), 5001
        self.pending, self.sent, self.calls, self.pushed, self.menus = [], [], [], [], {}
        self.messages, self.chats, self.files, self._faults, self._queries = {}, {}, {}, [], set()
        self.hook = {"url": "", "secret_token": None, "allowed_updates": None, "last_error_message": None}
        self._polls, self.port = 0, 0
        self.me, self.lacks, self.brief, self.hasty, self.always_200 = ME, set(), False, False, False

    # ---- the server
    def start(self):
        routes = [Route("/bot{token}/{method}", self._method, methods=["GET", "POST"]), Route("/file/bot{token}/{path:path}", self._file)]
        config = uvicorn.Config(Starlette(routes=routes), host="127.0.0.1", port=self.port, log_config=None, timeout_graceful_shutdown=1)
        self._server, self._stop = uvicorn.Server(config), threading.Event()
        self._thread = threading.Thread(target=lambda: asyncio.run(self._life()), daemon=True)
        self._thread.start()
        while not self._server.started:
            assert self._thread.is_alive(), "the server cannot start"
            time.sleep(0.005)
        self.port = self._server.servers[0].sockets[0].getsockname()[1]
        self.url = f"http://127.0.0.1:{self.port}"
        return self

    async def _life(self):
        push = asyncio.create_task(self._push())
        await self._server.serve()
        push.cancel()

    def stop(self):
        self._stop.set()
        self._server.should_exit = True
        self._thread.join(10)
        assert not self._thread.is_alive()

    # ---- what people do
    def say(self, user, text, chat=None, **more):
        """A text of a person, in private or in a group; returns its message."""
        return self._came("message", self._message(user, chat, text=text, entities=_entities(text), **more))

    def photo(self, user, caption=None, chat=None):
        sizes = [{"file_id": f"small{next(self._ids)}", "file_unique_id": "s", "width": 90, "height": 60, "file_size": 900}]
        sizes.append({"file_id": f"large{next(self._ids)}", "file_unique_id": "l", "width": 1280, "height": 960, "file_size": 90000})
        return self._came("message", self._message(user, chat, photo=sizes, caption=caption))

    def edit(self, message, text):
        """Change a text that was sent before."""
        return self._came("edited_message", message | {"text": text, "edit_date": int(time.time())})

    def press(self, user, message_id, word, chat=None):
        """Press the button with this word under a text of the bot."""
        with self._lock:
            said = self.messages[(chat or user, message_id)]
            rows = said["reply_markup"]["inline_keyboard"]
            data = next(key["callback_data"] for row in rows for key in row if key["text"] == word)
            query = str(next(self._ids))
            self._queries.add(query)
        made = {"id": query, "from": _user(user), "message": said, "chat_instance": "1", "data": data}
        return self._came("callback_query", made)

    def meet(self, user):
        """Let the bot write to somebody who has opened it and said nothing yet."""
        self.chats.setdefault(user, _private(user))

    def _message(self, user, chat, **what):
        with self._lock:
            where = self.chats.setdefault(chat or user, _group(chat) if chat else _private(user))
            what = {name: value for name, value in what.items() if value is not None}
            return {"message_id": next(self._ids), "from": _user(user), "chat": where, "date": int(time.time()), **what}

    def _came(self, kind, body):
        self.raw({kind: body})
        return body

    def raw(self, update):
        """An update as it is."""
        with self._lock:
            self.pending.append({"update_id": self.next_update, **update})
            self.next_update += 1

    # ---- what the bot did
    def texts(self, chat):
        """The texts a chat got, in order."""
        with self._lock:
            return [each.get("text") or each.get("caption") for each in self.sent if each["chat"]["id"] == chat]

    def last(self, chat):
        with self._lock:
            return next(each for each in reversed(self.sent) if each["chat"]["id"] == chat)

    def called(self, method):
        """The parameters of every call of a method."""
        with self._lock:
            return [parameters for name, parameters in self.calls if name == method.lower()]

    def forget(self):
        """As if nothing had been said in any chat."""
        with self._lock:
            for kept in (self.pending, self.sent, self.pushed, self.messages, self._faults, self._queries):
                kept.clear()

    # ---- faults
    def fault(self, code, chat=None, times=1, retry_after=None, delay_s=0.0, after=False, method=None, moved=None):
        """Answer the next calls for a chat (or all) with an error, after a delay; `after` does what was asked all the same."""
        self._faults.append(SimpleNamespace(**{k: v for k, v in locals().items() if k != "self"}))

    def heal(self):
        self._faults.clear()

    def _due(self, method, parameters):
        with self._lock:
            for each in self._faults:
                mine = each.method is None and method.startswith("send") or each.method == method
                if mine and each.times > 0 and each.chat in (None, _whole(parameters.get("chat_id"))):
                    each.times -= 1
                    return each
        return None

    # ---- the wire
    async def _method(self, request):
        method = request.path_params["method"].lower()
        try:
            if request.path_params["token"] != TOKEN:
                raise Refusal(401, "Unauthorized")
            parameters = await _parameters(request)
            with self._lock:
                self.calls.append((method, parameters))
            made = {"ok": True, "result": await self._answer(method, parameters)}
            if self.brief and isinstance(made["result"], dict):
                made["result"] = {name: value for name, value in made["result"].items() if name in ("id", "message_id", "username")}
            return Response(json.dumps(made), media_type="application/json")
        except Refusal as refusal:
            return JSONResponse(refusal.body, 200 if self.always_200 else refusal.code)

    async def _answer(self, method, parameters):
        due = self._due(method, parameters)
        if due is not None:
            await asyncio.sleep(due.delay_s)
            if due.after:
                getattr(self, f"_on_{method}")(parameters)
            if due.code:
                _refuse(due)
        if method == "getupdates":
            return await self._get_updates(parameters)
        run = getattr(self, f"_on_{method}", None)
        if run is None or method in self.lacks:
            raise Refusal(404, "Not Found")
        with self._lock:
            return run(parameters)

    async def _get_updates(self, parameters):
        if self.hook["url"]:
            raise Refusal(
                409, "Conflict: can't use getUpdates method while webhook is active; use deleteWebhook to delete the webhook first"
            )
        self._polls += 1
        mine, end = self._polls, time.monotonic() + int(parameters.get("timeout", 0))
        offset, limit = int(parameters.get("offset", 0)), int(parameters.get("limit", 100))
        if self.hasty:
            return list(self.pending)[:limit]
        wanted = parameters.get("allowed_updates") or KINDS
        while True:
            if mine != self._polls:
                raise Refusal(409, "Conflict: terminated by other getUpdates request; make sure that only one bot instance is running")
            with self._lock:
                if offset < 0:
                    self.pending = self.pending[offset:]
                self.pending = [each for each in self.pending if offset <= 0 or each["update_id"] >= offset]
                found = [each for each in self.pending if set(each) & set(wanted)][:limit]
            if found or time.monotonic() >= end or self._stop.is_set():
                return found
            await asyncio.sleep(0.01)

    async def _push(self):
        """Give the webhook one update at a time, the same again and again until it answers 2xx."""
        pause = 0.05
        async with httpx.AsyncClient(timeout=10, verify=False) as client:
            while True:
                await asyncio.sleep(0.005)
                with self._lock:
                    update = self.pending[0] if self.hook["url"] and self.pending else None
                    hook = dict(self.hook)
                if update is None:
                    continue
                if hook["allowed_updates"] and not set(update) & set(hook["allowed_updates"]):
                    self._confirm(update)
                    continue
                secret = {"X-Telegram-Bot-Api-Secret-Token": hook["secret_token"]} if hook["secret_token"] else {}
                try:
                    answer = await client.post(hook["url"], content=json.dumps(update), headers=secret)
                    fault = None if answer.is_success else f"Wrong response from the webhook: {answer.status_code}"
                except httpx.HTTPError as lost:
                    fault = f"Connection failed: {type(lost).__name__}"
                self.pushed.append((update["update_id"], fault))
                self.hook["last_error_message"] = fault or self.hook["last_error_message"]
                if fault is None:
                    self._confirm(update)
                    pause = 0.05
                else:
                    await asyncio.sleep(pause)
                    pause = min(2 * pause, 1.0)

    def _confirm(self, update):
        with self._lock:
            self.pending.remove(update)

    async def _file(self, request):
        found = self.files.get(request.path_params["path"].removeprefix("files/"))
        return Response(found[1]) if found else PlainTextResponse("Not Found", 404)

    # ---- methods
    def _on_getme(self, parameters):
        return self.me | {"can_join_groups": True, "can_read_all_group_messages": False, "supports_inline_queries": False}

    def _on_setwebhook(self, parameters):
        secret = parameters.get("secret_token")
        if secret and not re.fullmatch(r"[A-Za-z0-9_-]{1,256}", secret):
            raise Refusal(400, "Bad Request: secret token contains unallowed characters")
        self.hook.update(url=parameters.get("url", ""), secret_token=secret, allowed_updates=parameters.get("allowed_updates"))
        return True

    def _on_deletewebhook(self, parameters):
        self.hook.update(url="", secret_token=None)
        return True

    def _on_getwebhookinfo(self, parameters):
        shown = {"url": self.hook["url"], "has_custom_certificate": False, "pending_update_count": len(self.pending)}
        return shown | ({"last_error_message": self.hook["last_error_message"]} if self.hook["last_error_message"] else {})

    def _on_sendmessage(self, parameters):
        return self._out(parameters, text=_text(parameters.get("text", "")), **_markup(parameters))

    def _on_sendphoto(self, parameters):
        stored = self._stored(parameters, "photo")
        return self._out(parameters, photo=[{**stored, "width": 1, "height": 1}], **_caption(parameters), **_markup(parameters))

    def _on_senddocument(self, parameters):
        return self._out(parameters, document=self._stored(parameters, "document"), **_caption(parameters), **_markup(parameters))

    def _on_editmessagetext(self, parameters):
        return self._edited(parameters, text=_text(parameters.get("text", "")), **_markup(parameters))

    def _on_editmessagereplymarkup(self, parameters):
        return self._edited(parameters, **({"reply_markup": None} | _markup(parameters)))

    def _on_answercallbackquery(self, parameters):
        if parameters.get("callback_query_id") not in self._queries:
            raise Refusal(400, "Bad Request: query is too old and response timeout expired or query ID is invalid")
        self._queries.remove(parameters["callback_query_id"])
        return True

    @property
    def commands(self):
        """The menu of everybody whose language has none of its own."""
        return self.menus.get(None, [])

    def _on_setmycommands(self, parameters):
        commands = parameters.get("commands", [])
        for each in commands:
            if not re.fullmatch(r"[a-z0-9_]{1,32}", each["command"]):
                raise Refusal(400, "Bad Request: BOT_COMMAND_INVALID")
            if not 1 <= len(each["description"]) <= 256:
                raise Refusal(400, "Bad Request: BOT_COMMAND_DESCRIPTION_INVALID")
        if len(commands) > 100:
            raise Refusal(400, "Bad Request: BOT_COMMANDS_TOO_MUCH")
        self.menus[parameters.get("language_code") or None] = commands
        return True

    def _on_getfile(self, parameters):
        name = parameters.get("file_id")
        if name not in self.files:
            raise Refusal(400, "Bad Request: wrong file_id or the file is temporarily unavailable")
        return {"file_id": name, "file_unique_id": name, "file_size": len(self.files[name][1]), "file_path": f"files/{name}"}

    def _stored(self, parameters, name):
        """The file of a message: one uploaded now, or one known by its id."""
        given = parameters.get(name)
        if isinstance(given, str) and given.startswith("attach://"):
            given = parameters.get(given.removeprefix("attach://"))
        if isinstance(given, tuple):
            file_id = f"file{next(self._ids)}"
            self.files[file_id] = given
        elif given in self.files:
            file_id = given
        else:
            raise Refusal(400, f"Bad Request: there is no {name} in the request")
        title, body = self.files[file_id]
        return {"file_id": file_id, "file_unique_id": file_id, "file_size": len(body), "file_name": title}

    def _out(self, parameters, **what):
        chat = self._chat(parameters)
        made = {"message_id": next(self._ids), "from": ME, "chat": chat, "date": int(time.time()), **what}
        self.messages[(chat["id"], made["message_id"])] = made
        self.sent.append(made)
        return made

    def _edited(self, parameters, **what):
        key = (self._chat(parameters)["id"], int(parameters.get("message_id", 0)))
        if key not in self.messages:
            raise Refusal(400, "Bad Request: message to edit not found")
        said = self.messages[key]
        if all(said.get(name) == value for name, value in what.items()):
            raise Refusal(400, "Bad Request: message is not modified: specified new message content and reply markup are exactly the same")
        said.update(what)
        return {name: value for name, value in said.items() if value is not None}

    def _chat(self, parameters):
        chat = self.chats.get(_whole(parameters.get("chat_id")))
        if chat is None:
            raise Refusal(400, "Bad Request: chat not found")
        return chat


def _refuse(due):
    if due.moved:
        raise Refusal(400, "Bad Request: group chat was upgraded to a supergroup chat", migrate_to_chat_id=due.moved)
    if due.code == 429:
        raise Refusal(429, f"Too Many Requests: retry after {due.retry_after}", retry_after=due.retry_after)
    named = {403: "Forbidden: bot was blocked by the user", 400: "Bad Request: chat not found", 502: "Bad Gateway"}
    raise Refusal(due.code, named.get(due.code, "Internal Server Error"))


async def _parameters(request):
    """The parameters of a call, however they came; what is JSON inside a field is read, a file is (name, bytes)."""
    found, kind, body = dict(request.query_params), request.headers.get("content-type", ""), await request.body()
    if kind.startswith("application/json"):
        return found | json.loads(body or b"{}")
    if kind.startswith("application/x-www-form-urlencoded"):
        found |= dict(parse_qsl(body.decode(), keep_blank_values=True))
    if kind.startswith("multipart/form-data"):
        whole = BytesParser(policy=HTTP).parsebytes(b"Content-Type: " + kind.encode() + b"\r\n\r\n" + body)
        for part in whole.iter_parts():
            name, title, content = part.get_param("name", header="content-disposition"), part.get_filename(), part.get_payload(decode=True)
            found[name] = content.decode() if title is None else (title, content)
    return {name: _inside(name, value) for name, value in found.items()}


def _inside(name, value):
    structured = ("reply_markup", "allowed_updates", "commands", "entities", "link_preview_options", "reply_parameters")
    return json.loads(value) if name in structured and isinstance(value, str) else value


def _text(text):
    if not text.strip():
        raise Refusal(400, "Bad Request: message text is empty")
    if len(text.encode("utf-16-le")) > 2 * 4096:
        raise Refusal(400, "Bad Request: message is too long")
    return text


def _caption(parameters):
    caption = parameters.get("caption")
    if caption and len(caption.encode("utf-16-le")) > 2 * 1024:
        raise Refusal(400, "Bad Request: message caption is too long")
    return {"caption": caption} if caption else {}


def _markup(parameters):
    markup = parameters.get("reply_markup")
    for key in (key for row in (markup or {}).get("inline_keyboard", ()) for key in row):
        if not 1 <= len(key.get("callback_data", "").encode()) <= 64:
            raise Refusal(400, "Bad Request: BUTTON_DATA_INVALID")
    return {"reply_markup": markup} if markup else {}


def _entities(text):
    """The commands and names in a text, as offsets in it."""
    found = [("bot_command", each) for each in re.finditer(r"(?<!\S)/\w+(@\w+)?", text)]
    found += [("mention", each) for each in re.finditer(r"(?<![\w@/])@\w+", text)]
    return [{"type": kind, "offset": each.start(), "length": each.end() - each.start()} for kind, each in found] or None


def _whole(value):
    return int(value) if re.fullmatch(r"-?\d+", str(value)) else value


def _user(user):
    return {"id": user, "is_bot": False, "first_name": f"Person {user}", "language_code": "en"}


def _private(user):
    return {"id": user, "type": "private", "first_name": f"Person {user}"}


def _group(chat):
    return {"id": chat, "type": "supergroup", "title": "Builders"}
