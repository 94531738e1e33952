"""Other servers of the Bot API than Telegram's own: the one of an office, of a test. What they leave out holds up no message."""

import asyncio
from contextlib import asynccontextmanager

import pytest
import pytest_asyncio

from bot.tables import entry, inbound, offset, outgoing
from tests.wires.botapi import ME, BotApi
from tests.wires.chats import DIG, Office, hurry, until

pytestmark = pytest.mark.asyncio
COURTESIES = {"deletewebhook", "setmycommands", "answercallbackquery", "editmessagereplymarkup", "getwebhookinfo"}


@pytest_asyncio.fixture
async def api():
    made = BotApi().start()
    yield made
    await asyncio.to_thread(made.stop)


@pytest.fixture
def at_work(tmp_path, api, monkeypatch):
    """The bot at work on the server as it is by then."""
    hurry(monkeypatch)

    @asynccontextmanager
    async def begun():
        office = Office(tmp_path / "book.sqlite", api)
        async with office.running():
            yield office

    return begun


async def test_where_only_what_is_needed_is_there_messages_are_answered(api, at_work):
    api.lacks = COURTESIES
    async with at_work() as office:
        assert "TB07 #1 PIT" in await office.asked("mason", DIG)


@pytest.mark.parametrize("token", ["loopback", "12:loopback"])
async def test_the_account_is_the_one_that_the_server_names_whatever_its_token_looks_like(at_work, monkeypatch, token):
    for module in ("botapi", "chats"):
        monkeypatch.setattr(f"tests.wires.{module}.TOKEN", token)
    async with at_work() as office:
        assert "TB07 #1 PIT" in await office.asked("mason", DIG)
        await until(lambda: office.rows(offset.c.account) == [("telegram:42",)])


async def test_answers_with_few_fields_are_enough_and_nothing_goes_twice(api, at_work):
    api.brief = True
    async with at_work() as office:
        assert "TB07 #1 PIT" in await office.asked("mason", DIG)
        (said,) = [each for each in api.sent if each["chat"]["id"] == office.chat["mason"]]
        assert (str(said["message_id"]), "sent", 1) in office.rows(outgoing.c.gateway_id, outgoing.c.state, outgoing.c.tries)
        assert await office.bot.faults() == []


async def test_a_picture_and_a_document_go_where_little_is_told_of_them(api, at_work, tmp_path):
    from bot.office import single

    api.brief = True
    async with at_work() as office:
        for name in ("plan.png", "plan.pdf"):
            (tmp_path / name).write_bytes(name.encode())
            chat = f"tg:{office.chat['mason']}"
            await asyncio.to_thread(single, office.book, "telegram", chat, name, office.clock(), str(tmp_path / name))
        await office.quiet()
        kinds = [sorted({"photo", "document"} & set(each)) for each in api.sent]
        assert kinds == [["photo"], ["document"]]
        assert sorted(body for _, body in api.files.values()) == [b"plan.pdf", b"plan.png"]


async def test_a_refusal_with_status_200_is_one(api, at_work):
    api.always_200 = True
    async with at_work() as office:
        api.fault(403, chat=office.chat["mason"], times=1)
        api.fault(429, chat=office.chat["mason"], times=1, retry_after=0.5)
        office.say("mason", "status")
        office.say("mason", "status")
        await until(lambda: office.texts("mason"))
        await office.quiet()
        assert office.rows(outgoing.c.state, outgoing.c.tries)[:2] == [("refused", 1), ("sent", 2)]
        assert len(office.texts("mason")) == 1


async def test_a_bot_without_a_name_answers_in_private_and_where_it_is_answered(api, at_work):
    api.me = {name: value for name, value in ME.items() if name != "username"}
    async with at_work() as office:
        first = office.say("mason", "status", chat=-70)
        office.say("mason", "/status@pegline_bot", chat=-70)
        office.say("mason", "@ status", chat=-70)
        office.say("mason", "status", chat=-70, reply_to_message=first | {"from": ME})
        await office.quiet()
        assert office.count(inbound) == 1, "the one that answers the bot"
        assert len(api.texts(-70)) == 1
        assert "TB07 #1 PIT" in await office.asked("mason", DIG)


async def test_a_server_that_waits_for_nothing_and_keeps_no_offset_is_not_asked_without_pause(api, at_work):
    api.hasty = True
    async with at_work() as office:
        office.say("mason", DIG)
        await until(lambda: office.texts("mason"))
        since, before = asyncio.get_running_loop().time(), len(api.called("getUpdates"))
        await asyncio.sleep(1.2)
        asked, seconds = len(api.called("getUpdates")) - before, asyncio.get_running_loop().time() - since
        assert 1 <= asked <= 2 * seconds + 1
        assert (office.count(inbound), office.count(entry), len(office.texts("mason"))) == (1, 1, 1)
        api.pending.clear()


async def test_a_webhook_left_from_before_is_taken_away_when_the_poll_is_told_of_it(api, at_work):
    api.hook["url"] = "https://example.org/telegram"
    api.fault(502, method="deletewebhook", times=1)
    async with at_work() as office:
        office.say("mason", DIG)
        await until(lambda: office.texts("mason"), 15)
        assert len(api.called("deleteWebhook")) == 2


async def test_a_button_under_a_message_of_which_nothing_is_told_any_more_counts(api, at_work):
    async with at_work() as office:
        chat = office.chat["zuberi"]
        await office.asked("zuberi", "status")
        asked = api.last(chat)
        data = asked["reply_markup"]["inline_keyboard"][0][1]["callback_data"]
        press = {"id": "1", "from": {"id": chat, "is_bot": False, "first_name": "P"}, "chat_instance": "1", "data": data}
        api.raw({"callback_query": press})
        await until(lambda: office.count(inbound) == 2)
        await office.quiet()
        assert office.texts("zuberi")[-1].startswith("KV12 Njoroge:")
        gone = {"chat": {"id": chat, "type": "private"}, "message_id": asked["message_id"], "date": 0}
        api.raw({"callback_query": press | {"message": gone}})
        await until(lambda: office.count(inbound) == 3)
        await office.quiet()
        assert office.texts("zuberi")[-1].startswith("That question is over.")
