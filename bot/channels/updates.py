"""What an update of Telegram says, as an Inbound. It is read from its plain JSON: what is new in it stops nothing that is known."""

import re
from datetime import UTC, datetime

from bot.channels import Inbound

NAME = "telegram"
WANTED = ("message", "edited_message", "callback_query")
_COMMAND = re.compile(r"/(\w+)(?:@\w+)?(?:\s+(.*))?", re.DOTALL)
_PRESSED = re.compile(r"(\d{1,12}):(.+)", re.DOTALL)


class NotYet(Exception):
    """The bot does not know its own name yet, so that it cannot tell who is addressed."""


def inbound(update, me, name):
    """Return the Inbound of an update, or None where nobody is to be answered; `me` and `name` are the bot's own id and name.

    An edited text is a message of its own. In a group only what names the bot, or answers it, is for it.
    """
    press, edited = update.get("callback_query"), update.get("edited_message")
    who = (press or edited or update.get("message") or {}).get("from")
    if who is None or who.get("is_bot"):
        return None
    said = _said_where(press, who) if press else edited or update["message"]
    group = said["chat"]["id"] != who["id"]  # a private chat has the number of its person
    text, pressed = _pressed(press["data"]) if press else (said.get("text") or said.get("caption") or "", None)
    if not press:
        text = _addressed(text, said, me, name) if group else text
        if text is None:
            return None
    return Inbound(
        NAME,
        str(update["update_id"]),
        f"tg:{int(who['id'])}",
        _command(_clean(text).strip()),
        _moment(said) if not press else None,
        chat=f"tg:{int(said['chat']['id'])}" if group else None,
        photo=None if press else _photo(said),
        edited=edited is not None,
        pressed=pressed,
        files=True,
    )


def button(text_id, word):
    """What a button carries: the answer, and of which text it is the answer."""
    return f"{text_id}:{word}"


def _said_where(press, who):
    """The message under which a button was pressed; of an old one nothing is told, and the answer goes to the person."""
    return press.get("message") or {"chat": {"id": who["id"]}}


def _pressed(data):
    found = _PRESSED.fullmatch(data)
    return (found[2], int(found[1])) if found else (data, None)


def _addressed(text, said, me, name):
    """What a text of a group says to the bot, or None where it is not for the bot."""
    if name is None:
        raise NotYet
    mine = re.compile(rf"(?<![\w@])@{re.escape(name)}\b", re.IGNORECASE)
    command = re.match(r"/\w+@(\w+)", text)
    if command:
        return text if command[1].casefold() == name.casefold() else None
    if name and mine.search(text):
        return mine.sub(" ", text).strip(" ,:;")
    answered = (said.get("reply_to_message") or {}).get("from") or {}
    return text if me is not None and answered.get("id") == me else None


def _command(text):
    """A command as the words it stands for: /gas_test 12 as gas test 12. A bare /start asks for help, what it brings is said."""
    found = _COMMAND.fullmatch(text)
    if not found:
        return text
    first, rest = found[1].casefold(), found[2] or ""
    if first == "start":
        return rest.replace("_", " ") or "help"
    return f"{first.replace('_', ' ')} {rest}".strip()


def _clean(text):
    """A text that any database can keep: no NUL, no half of a pair."""
    return text.replace("\0", "").encode("utf-16-le", "surrogatepass").decode("utf-16-le", "replace")


def _moment(said):
    seconds = said.get("edit_date") or said.get("date")
    return datetime.fromtimestamp(seconds, UTC) if seconds else None


def _photo(said):
    """The id under which Telegram keeps the picture of a message, the largest size of it, or None."""
    sizes, sheet = said.get("photo"), said.get("document") or {}
    if sizes:
        return max(sizes, key=lambda size: size.get("width", 0) * size.get("height", 0))["file_id"]
    return sheet["file_id"] if (sheet.get("mime_type") or "").startswith("image/") else None
