"""The Bot API server of the tests is as honest as the real one: it loses nothing that was not confirmed and takes nothing that is wrong."""

import httpx
import pytest
import pytest_asyncio
from telegram import Bot, InlineKeyboardButton, InlineKeyboardMarkup
from telegram.error import BadRequest, Conflict, Forbidden, NetworkError, RetryAfter

from tests.wires.botapi import TOKEN

pytestmark = pytest.mark.asyncio


@pytest_asyncio.fixture
async def bot(api):
    async with Bot(TOKEN, base_url=f"{api.url}/bot", base_file_url=f"{api.url}/file/bot") as made:
        yield made


async def test_updates_stay_until_a_higher_offset_confirms_them(api, bot):
    for text in "abc":
        api.say(7, text)
    first = await bot.get_updates()
    assert [each.message.text for each in first] == ["a", "b", "c"]
    assert [each.update_id for each in await bot.get_updates()] == [each.update_id for each in first], "nothing was confirmed"
    assert [each.message.text for each in await bot.get_updates(limit=1)] == ["a"]
    assert [each.message.text for each in await bot.get_updates(offset=first[1].update_id)] == ["b", "c"]
    assert [each.message.text for each in await bot.get_updates(offset=-1)] == ["c"]
    assert not await bot.get_updates(offset=first[2].update_id + 1)
    assert not api.pending


async def test_the_library_reads_everything_the_server_says(api, bot):
    said = api.say(7, "/status@pegline_bot x")
    api.edit(said, "status")
    api.photo(7, "a pit")
    api.say(7, "@pegline_bot hi", chat=-100)
    keys = InlineKeyboardMarkup([[InlineKeyboardButton("YES", callback_data="1:YES")]])
    asked = await bot.send_message(7, "Sure?", reply_markup=keys)
    api.press(7, asked.message_id, "YES")
    command, edited, photo, group, press = await bot.get_updates()
    assert list(command.message.parse_entities().values()) == ["/status@pegline_bot"]
    assert edited.edited_message.text == "status" and edited.edited_message.edit_date
    assert photo.message.photo[-1].width == 1280 and photo.message.caption == "a pit"
    assert group.message.chat.type == "supergroup" and list(group.message.parse_entities().values()) == ["@pegline_bot"]
    assert press.callback_query.data == "1:YES" and press.callback_query.message.message_id == asked.message_id
    assert await bot.answer_callback_query(press.callback_query.id)
    with pytest.raises(BadRequest, match="Query is too old"):
        await bot.answer_callback_query(press.callback_query.id)
    assert (await bot.edit_message_text("Sure.", 7, asked.message_id)).text == "Sure."
    with pytest.raises(BadRequest, match="not modified"):
        await bot.edit_message_text("Sure.", 7, asked.message_id)
    assert (await bot.get_webhook_info()).pending_update_count == 5


async def test_files_go_up_and_come_back_as_they_were(api, bot):
    api.meet(7)
    body = bytes(range(256)) + b"\r\n\n\r--boundary\r\n"
    sent = await bot.send_document(7, body, filename="plan.pdf", caption="The plan")
    assert bytes(await (await bot.get_file(sent.document.file_id)).download_as_bytearray()) == body
    again = await bot.send_document(7, sent.document.file_id)
    assert again.document.file_id == sent.document.file_id
    with pytest.raises(BadRequest, match="Wrong file_id"):
        await bot.get_file("nothing")


async def test_what_is_wrong_is_refused(api, bot):
    api.meet(7)
    for text, why in (("x" * 4097, "too long"), (" ", "text is empty"), ("\U0001f9f1" * 2049, "too long")):
        with pytest.raises(BadRequest, match=f"(?i){why}"):
            await bot.send_message(7, text)
    with pytest.raises(BadRequest, match="Chat not found"):
        await bot.send_message(8, "hello")
    with pytest.raises(BadRequest, match="(?i)button_data_invalid"):
        await bot.send_message(7, "?", reply_markup=InlineKeyboardMarkup([[InlineKeyboardButton("A", callback_data="x" * 65)]]))
    with pytest.raises(BadRequest, match="(?i)command_invalid"):
        await bot.set_my_commands([("Status", "how far")])
    async with httpx.AsyncClient(verify=False) as client:
        assert (await client.get(f"{api.url}/bot43:other/getMe")).status_code == 401
        assert (await client.get(f"{api.url}/bot{TOKEN}/sendNothing")).status_code == 404
        assert (await client.post(f"{api.url}/bot{TOKEN}/SENDMESSAGE", json={"chat_id": 7, "text": "hello"})).json()["ok"]
    await bot.set_webhook("http://127.0.0.1:9/")
    with pytest.raises(Conflict, match="(?i)webhook is active"):
        await bot.get_updates()


async def test_faults_come_as_often_as_they_were_set(api, bot, monkeypatch):
    monkeypatch.setenv("PTB_TIMEDELTA", "true")
    api.meet(7)
    api.meet(8)
    api.fault(403, chat=7)
    api.fault(502, chat=7)
    with pytest.raises(Forbidden):
        await bot.send_message(7, "one")
    await bot.send_message(8, "meanwhile")
    with pytest.raises(NetworkError):
        await bot.send_message(7, "two")
    api.fault(429, retry_after=3)
    with pytest.raises(RetryAfter, match="3"):
        await bot.send_message(8, "three")
    await bot.send_message(7, "four")
    assert (api.texts(7), api.texts(8)) == (["four"], ["meanwhile"])
