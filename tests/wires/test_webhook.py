"""Telegram by webhook: what is refused, what comes again, what comes twice and in no order."""

import asyncio
import json

import httpx
import pytest
import pytest_asyncio

from bot.tables import entry, inbound
from tests.wires.chats import DIG, SECRET, TALKS, broken, private, until, working

pytestmark = pytest.mark.asyncio(loop_scope="module")
KEY = "X-Telegram-Bot-Api-Secret-Token"


@pytest_asyncio.fixture(scope="module", loop_scope="module")
async def bot(tmp_path_factory):
    async with working(tmp_path_factory.mktemp("hooked"), webhook=True) as office:
        yield office


@pytest_asyncio.fixture(loop_scope="module")
async def hooked(bot):
    yield bot
    await bot.quiet()
    bot.wipe()


async def test_a_webhook_is_set_with_its_secret_and_answered(hooked):
    assert hooked.api.called("setWebhook") == [
        {"url": hooked.hook, "secret_token": SECRET, "allowed_updates": ["message", "edited_message", "callback_query"]}
    ]
    assert "TB07 #1 PIT" in await hooked.asked("mason", DIG)
    assert hooked.api.pushed == [(hooked.first, None)]
    assert not hooked.api.called("getUpdates")


async def post(office, body, secret=SECRET):
    async with httpx.AsyncClient(verify=False) as client:
        return (await client.post(office.hook, content=body, headers={KEY: secret} if secret is not None else {})).status_code


def update(number, chat, text):
    return json.dumps({"update_id": number, "message": private(chat, text)}).encode()


async def test_what_has_no_secret_or_is_no_update_is_refused_and_not_stored(hooked):
    good = update(7, hooked.chat["mason"], DIG)
    assert await post(hooked, good, secret=None) == 403
    assert await post(hooked, good, secret="") == 403
    assert await post(hooked, good, secret=SECRET[:-1]) == 403
    assert await post(hooked, good, secret="\u00fc".encode("latin-1")) == 403
    assert await post(hooked, b"x" * 300_000) == 413
    assert await post(hooked, b"x" * 300_000, secret="wrong") == 403
    for body in (b"", b"{", b"[]", b'{"update_id": "7"}', b'{"update_id": true}', b"\xff\xfe", b"[" * 100_000):
        assert await post(hooked, body) == 400
    assert await post(hooked, b'{"update_id": 8}') == 200
    assert await post(hooked, b'{"update_id": 9, "message": {"from": 5}}') == 200
    assert hooked.books == (0, 0, 0)
    assert await post(hooked, good) == 200
    assert hooked.books == (1, 1, 2)


async def test_doubled_and_shuffled_deliveries_are_answered_once_each(hooked):
    chats = [hooked.chat["mason"], hooked.chat["baraka"], hooked.chat["seydou"]]
    bodies = [update(100 + n, chats[n % 3], f"got {n + 1} bags cement") for n in range(12)]
    order = [5, 0, 11, 5, 2, 9, 1, 8, 0, 3, 10, 4, 7, 6, 11, 5]
    assert set(await asyncio.gather(*(post(hooked, bodies[n]) for n in order))) == {200}
    await hooked.quiet()
    assert hooked.count(inbound) == 12
    assert hooked.count(entry, entry.c.kind == "stock") == 8  # seydou has two sites and is asked which
    assert sorted(len(hooked.api.texts(chat)) for chat in chats) == [4, 4, 4]


async def test_what_could_not_be_stored_comes_again_by_webhook(hooked, monkeypatch):
    monkeypatch.setattr("bot.serve.inbox.take", broken(3))
    hooked.say("mason", DIG)
    hooked.say("mason", "status")
    await until(lambda: len(hooked.texts("mason")) == 2)
    assert [fault and fault[-3:] for _, fault in hooked.api.pushed] == ["503", "503", "503", None, None]
    assert hooked.count(inbound) == 2


async def test_texts_of_each_chat_are_answered_in_their_order(hooked):
    numbers = range(1, 8)
    for n in numbers:
        hooked.say("mason", f"got {n} bags cement")
        hooked.say("baraka", f"got {n} bricks")
    await hooked.quiet()
    for name, item in (("mason", "bag"), ("baraka", "bricks")):
        texts = hooked.texts(name)
        assert len(texts) == 7
        assert all(f"Came: {n} {item}" in text for n, text in zip(numbers, texts, strict=True))


@pytest.mark.parametrize("name", ["case_07_heap_at_edge", "water_test", "siting"])
async def test_a_conversation_goes_as_in_the_terminal(hooked, book, monkeypatch, name):
    wanted, got = await hooked.speak(TALKS / f"{name}.talk", book, monkeypatch)
    assert got == wanted
    assert any(got.values())
