"""What an update of Telegram says. Field names and shapes are those of the Bot API's own pages."""

import json
from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.channels import Inbound
from bot.channels.updates import NotYet, button, inbound
from bot.config import Settings

ME, NAME = 42, "pegline_bot"
MUSA = {"id": 7, "is_bot": False, "first_name": "Musa"}
PRIVATE, GROUP = {"id": 7, "type": "private"}, {"id": -1001234567890, "type": "supergroup"}


def said(text=None, chat=PRIVATE, kind="message", **more):
    body = {"message_id": 5, "from": MUSA, "chat": chat, "date": 1772442000, **({"text": text} if text is not None else {}), **more}
    return {"update_id": 900, kind: body}


def read(update):
    return inbound(update, ME, NAME)


def test_a_text_in_private():
    assert read(said("pit deep 1.8 m")) == Inbound(
        "telegram", "900", "tg:7", "pit deep 1.8 m", datetime(2026, 3, 2, 9, 0, tzinfo=UTC), files=True
    )


@pytest.mark.parametrize(
    "text,words",
    [
        ("/status", "status"),
        ("/Status", "status"),
        ("/gas_test 12 cm", "gas test 12 cm"),
        ("/help@pegline_bot pit", "help pit"),
        ("/start", "help"),
        ("/start link_4821", "link 4821"),
        ("/", "/"),
        ("/ status", "/ status"),
        ("1/2 bag", "1/2 bag"),
        ("  status  ", "status"),
        ("line one\nline two", "line one\nline two"),
        ("a\0b", "ab"),
        ("\ud83d", "\ufffd"),
        ("\U0001f9f1", "\U0001f9f1"),
    ],
)
def test_a_command_is_the_words_it_stands_for_and_odd_letters_can_be_kept(text, words):
    assert read(said(text)).text == words


@pytest.mark.parametrize(
    "text,words",
    [
        ("@pegline_bot status", "status"),
        ("status @Pegline_Bot", "status"),
        ("@pegline_bot, status", "status"),
        ("/status@PEGLINE_BOT", "status"),
        ("@pegline_bot /status", "status"),
        ("status", None),
        ("/status", None),
        ("/status@other_bot", None),
        ("/status@other_bot @pegline_bot", None),
        ("@pegline_bot2 status", None),
        ("write to a@pegline_bot", None),
        ("", None),
    ],
)
def test_in_a_group_only_what_names_the_bot_is_for_it(text, words):
    found = read(said(text, GROUP))
    assert (found and found.text) == words
    assert found is None or (found.chat, found.back, found.sender) == ("tg:-1001234567890", "tg:-1001234567890", "tg:7")


def test_in_a_group_an_answer_to_the_bot_is_for_it_and_one_to_somebody_else_is_not():
    assert read(said("1", GROUP, reply_to_message={"from": {"id": ME, "is_bot": True}})).text == "1"
    assert read(said("1", GROUP, reply_to_message={"from": MUSA})) is None


def test_a_caption_is_the_text_of_a_picture_and_the_largest_size_is_kept():
    sizes = [{"file_id": "L", "width": 1280, "height": 960}, {"file_id": "S", "width": 90, "height": 60}]
    found = read(said(photo=sizes, caption="pit deep 1.8 m"))
    assert (found.text, found.photo) == ("pit deep 1.8 m", "L")
    assert read(said(photo=sizes)).text == ""
    assert read(said(photo=sizes, chat=GROUP)) is None
    assert read(said(document={"file_id": "D", "mime_type": "image/jpeg"})).photo == "D"
    assert read(said(document={"file_id": "D", "mime_type": "application/pdf"})).photo is None
    assert read(said(voice={"file_id": "V"})).text == ""


def test_an_edit_is_a_message_of_its_own():
    found = read(said("pit deep 1.9 m", kind="edited_message", edit_date=1772442060))
    assert (found.edited, found.wire_id, found.sent_at) == (True, "900", datetime(2026, 3, 2, 9, 1, tzinfo=UTC))
    assert not read(said("pit deep 1.9 m")).edited


def press(data, chat=PRIVATE):
    question = {"message_id": 5, "from": {"id": ME, "is_bot": True}, "chat": chat, "date": 1, "text": "1 or 2?"}
    return {"update_id": 901, "callback_query": {"id": "q", "from": MUSA, "message": question, "chat_instance": "1", "data": data}}


def test_a_pressed_button_is_its_word_and_knows_its_question():
    found = read(press(button(17, "YES")))
    assert (found.text, found.pressed, found.sender, found.chat) == ("YES", 17, "tg:7", None)
    assert read(press(button(17, "1"), GROUP)).chat == "tg:-1001234567890"
    assert (read(press("YES")).text, read(press("YES")).pressed) == ("YES", None)


@given(st.integers(1, 10**12 - 1), st.sampled_from(["YES", "NO", "1", "TB07", "CAME"]))
def test_what_a_button_carries_is_read_back_and_short_enough(text_id, word):
    assert len(button(text_id, word).encode()) <= 64
    assert (read(press(button(text_id, word))).pressed, read(press(button(text_id, word))).text) == (text_id, word)


def test_of_bots_channels_and_other_updates_nothing_is_answered():
    assert read(said("hello") | {"message": said("hello")["message"] | {"from": MUSA | {"is_bot": True}}}) is None
    assert read({"update_id": 1}) is None
    assert read({"update_id": 1, "channel_post": said("x")["message"]}) is None
    assert read({"update_id": 1, "message": None}) is None


def test_without_its_own_name_the_bot_cannot_tell_and_says_so():
    with pytest.raises(NotYet):
        inbound(said("@pegline_bot status", GROUP), ME, None)
    assert inbound(said("status"), ME, None).text == "status"


@given(st.text(max_size=200), st.sampled_from([PRIVATE, GROUP]))
def test_whatever_is_written_can_be_kept(text, chat):
    update = json.loads(json.dumps(said(f"@{NAME} {text}", chat)))
    found = read(update)
    found.text.encode("utf-8")
    assert "\0" not in found.text


@pytest.mark.parametrize("secret", ["with space", "k\u00fc", "a" * 257, ""])
def test_a_secret_that_telegram_would_not_take_is_refused_at_once(secret):
    with pytest.raises(ValueError, match="telegram_secret|telegram_webhook needs"):
        Settings(_env_file=None, telegram_token="42:x", telegram_webhook="https://pegline.test", telegram_secret=secret)
