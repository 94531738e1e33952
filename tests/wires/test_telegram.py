"""Telegram as people meet it, by polling, through a Bot API server of our own: faults, files, buttons, edits, groups."""

import asyncio
import re
from pathlib import Path

import httpx
import pytest
import pytest_asyncio
import sqlalchemy as sa

from bot.kinds import BY_NAME, KINDS
from bot.menu import menu
from bot.office import again, single
from bot.reading.label import label
from bot.reading.read import read
from bot.reading.things import Hints
from bot.reading.words import vocabulary
from bot.tables import entry, inbound, outgoing
from bot.tables import offset as offsets
from tests.wires.chats import DIG, TALKS, broken, private, until, working

pytestmark = pytest.mark.asyncio(loop_scope="module")


@pytest_asyncio.fixture(scope="module", loop_scope="module")
async def bot(tmp_path_factory):
    async with working(tmp_path_factory.mktemp("polled")) as office:
        yield office


@pytest_asyncio.fixture(loop_scope="module")
async def polled(bot):
    yield bot
    bot.api.heal()
    bot.api.pending.clear()
    await bot.quiet()
    bot.wipe()


# ---- in and out


async def test_a_polled_text_is_answered_and_its_offset_kept(polled):
    reply = await polled.asked("mason", DIG)
    assert reply.startswith("STOP.") and "TB07 #1 PIT" in reply
    assert polled.texts("supervisor")[0].startswith("ALERT TB07")
    assert polled.books == (1, 1, 2)
    await until(lambda: polled.rows(offsets.c.account, offsets.c.value) == [("telegram:42", polled.first + 1)])
    assert polled.rows(inbound.c.channel, inbound.c.wire_id, inbound.c.sender) == [
        ("telegram", str(polled.first), f"tg:{polled.chat['mason']}")
    ]
    sent = polled.api.last(polled.chat["mason"])
    assert (str(sent["message_id"]), "sent") in polled.rows(outgoing.c.gateway_id, outgoing.c.state)


# ---- one update that cannot be taken


async def test_an_update_of_a_strange_shape_holds_nobody_up(polled, caplog):
    for strange in ({"message": {"from": 5}}, {"message": "text"}, {"callback_query": {}}, {"poll_answer": {}}, {"message": None}):
        polled.api.raw(strange)
    assert "TB07 #1" in await polled.asked("mason", DIG)
    assert polled.count(inbound) == 1
    assert f"update {polled.first} cannot be read" in caplog.text


async def test_one_update_that_can_never_be_stored_is_given_up_after_some_tries_and_only_it(polled, monkeypatch):
    monkeypatch.setattr("bot.serve.inbox.take", broken(1000, of="poison"))
    polled.say("mason", "poison")
    assert "TB07 #1" in await polled.asked("mason", DIG)
    assert polled.rows(inbound.c.wire_id, inbound.c.text, inbound.c.state) == [
        (str(polled.first), "", "mute"),
        (str(polled.first + 1), DIG, "answered"),
    ]


async def test_while_nothing_can_be_stored_nothing_is_given_up(polled, monkeypatch):
    run, left = polled.bot._run, [12]

    async def refused(work, *args):
        if left[0] and work != polled.bot._read_offset:
            left[0] -= 1
            raise OSError("no room")
        return await run(work, *args)

    monkeypatch.setattr(polled.bot, "_run", refused)
    assert "TB07 #1" in await polled.asked("mason", DIG)
    assert polled.rows(inbound.c.text, inbound.c.state) == [(DIG, "answered")]


async def test_half_a_letter_and_a_nul_are_stored_as_what_can_be_stored(polled):
    polled.api.raw({"message": private(polled.chat["mason"], "stat\0us \ud83d")})
    await until(lambda: polled.texts("mason"))
    assert polled.rows(inbound.c.text) == [("status \ufffd",)]


# ---- faults on the way out


async def test_told_to_slow_down_the_bot_waits_as_long_as_it_is_told(polled):
    chat = polled.chat["mason"]
    polled.api.fault(429, chat=chat, times=1, retry_after=1)
    begun = asyncio.get_running_loop().time()
    polled.say("mason", "status")
    polled.say("baraka", "status")
    await until(lambda: polled.texts("baraka"))
    assert not polled.texts("mason"), "others do not wait with him"
    await until(lambda: polled.texts("mason"))
    assert asyncio.get_running_loop().time() - begun >= 1.0
    await polled.quiet()
    assert len(polled.texts("mason")) == 1
    assert ("sent", 2) in polled.rows(outgoing.c.state, outgoing.c.tries)


async def test_a_bot_that_is_blocked_tells_the_supervisors_once_a_day(polled):
    polled.api.fault(403, chat=polled.chat["mason"], times=100)
    for _ in range(3):
        polled.say("mason", "status")
    await polled.quiet()
    told = [text for text in polled.texts("supervisor") if "no text reaches" in text]
    assert told == ["TB07: no text reaches Bholu: Forbidden: bot was blocked by the user. Call him."]
    assert sorted(row.state for row in polled.rows(outgoing.c.state, outgoing.c.id)) == ["refused", "refused", "refused", "sent"]
    polled.clock.now = polled.clock.now.replace(day=polled.clock.now.day + 1)
    polled.say("mason", "status")
    await polled.quiet()
    assert len([text for text in polled.texts("supervisor") if "no text reaches" in text]) == 2
    polled.api.heal()
    refused = next(row.id for row in polled.rows(outgoing.c.id, outgoing.c.state) if row.state == "refused")
    assert await asyncio.to_thread(again, polled.book, refused, polled.clock())
    await polled.quiet()
    assert len(polled.texts("mason")) == 1


async def test_a_text_that_is_no_good_is_refused_and_those_after_it_go(polled):
    polled.api.fault(400, chat=polled.chat["mason"], times=1)
    polled.say("mason", "status")
    await polled.quiet()
    assert await polled.asked("mason", "log") == "TB07: the log is empty."
    assert sorted(row.state for row in polled.rows(outgoing.c.state, outgoing.c.id)) == ["refused", "sent", "sent"]


async def test_where_the_answer_of_the_gateway_is_lost_the_text_goes_once_more(polled):
    polled.api.fault(502, chat=polled.chat["mason"], after=True)
    await polled.asked("mason", DIG)
    first, second = polled.texts("mason")
    assert first == second and "#1 PIT" in first, "what comes twice carries the number of its entry"
    assert polled.count(entry) == 1


# ---- pictures and files


async def test_a_picture_alone_is_kept_with_site_stage_and_time_and_answered_shortly(polled):
    photo = polled.api.photo(polled.chat["mason"])
    await polled.quiet()
    assert polled.texts("mason") == ["TB07 #1 PHOTO: kept with the pit. The bot does not look at it: nothing is checked. Send readings."]
    (row,) = polled.rows(entry.c.site, entry.c.kind, entry.c.fields, entry.c.at, entry.c.wire_id)
    kept = {"photo": photo["photo"][1]["file_id"], "channel": "telegram", "at_stage": "pit"}
    assert (row.site, row.kind, row.fields, row.wire_id) == ("TB07", "photo", kept, str(polled.first))
    assert row.at == polled.rows(inbound.c.received_at)[0][0]
    assert "#1 photo" in await polled.asked("mason", "log")


async def test_a_picture_with_words_is_read_and_kept(polled):
    polled.api.photo(polled.chat["mason"], DIG)
    await polled.quiet()
    assert polled.texts("mason")[0].startswith("STOP.")
    assert polled.texts("mason")[-1].endswith("The photo is kept as #2.")
    assert polled.rows(entry.c.kind) == [("pit",), ("photo",)]
    polled.say("mason", "undo")
    await polled.quiet()
    assert "#1 pit does not count" in polled.texts("mason")[-1], "the picture is no reading"


async def test_a_picture_of_no_known_site_or_of_a_stranger_is_not_kept(polled):
    polled.api.photo(polled.chat["supervisor"])
    polled.api.photo(77)
    await polled.quiet()
    assert polled.texts("supervisor") == ["Photo of which site? Not kept. Send it again with the site code under it."]
    assert polled.api.texts(77)[0].startswith("This number is not known here.")
    polled.api.photo(polled.chat["supervisor"], "tb11")
    await polled.quiet()
    assert polled.texts("supervisor")[-1].endswith("The photo is kept as #1.")
    assert polled.rows(entry.c.site, entry.c.kind) == [("TB11", "photo")]


@pytest.mark.parametrize("name,method", [("pit.png", "photo"), ("record.pdf", "document")])
async def test_a_file_goes_out_with_its_text(polled, tmp_path, name, method):
    body = bytes(range(256)) * 20 + b"\r\n--\r\n"
    (tmp_path / name).write_bytes(body)
    chat = polled.chat["mason"]
    single(polled.book, "telegram", f"tg:{chat}", "TB07: the plan.", polled.clock(), str(tmp_path / name))
    await until(lambda: polled.texts("mason"))
    sent = polled.api.last(chat)
    found = sent["photo"][0] if method == "photo" else sent["document"]
    assert (sent["caption"], found["file_name"]) == ("TB07: the plan.", name)
    async with httpx.AsyncClient(verify=False) as client:
        where = (await client.post(f"{polled.api.url}/bot42:loopback/getFile", json={"file_id": found["file_id"]})).json()["result"]
        assert (await client.get(f"{polled.api.url}/file/bot42:loopback/{where['file_path']}")).content == body


async def test_a_file_that_is_gone_is_refused(polled, tmp_path):
    single(polled.book, "telegram", f"tg:{polled.chat['mason']}", "TB07: the plan.", polled.clock(), str(tmp_path / "gone.pdf"))
    await until(lambda: polled.texts("supervisor"))
    assert min(polled.rows(outgoing.c.id, outgoing.c.state)).state == "refused"
    assert "no text reaches Bholu: no file" in polled.texts("supervisor")[0]
    assert not polled.texts("mason")


@pytest.mark.parametrize(
    "text,method,name,begins", [("draw pegs", "photo", "TB07-pegs.png", b"\x89PNG"), ("record", "document", "TB07-record.pdf", b"%PDF")]
)
async def test_a_picture_or_a_record_that_is_asked_for_comes_as_a_file(polled, text, method, name, begins):
    polled.say("mason", text)
    await polled.quiet()
    sent = polled.api.last(polled.chat["mason"])
    found = sent["photo"][0] if method == "photo" else sent["document"]
    assert (found["file_name"], sent["caption"][:4]) == (name, "TB07")
    assert "Pictures go by Telegram" not in sent["caption"]
    async with httpx.AsyncClient(verify=False) as client:
        where = (await client.post(f"{polled.api.url}/bot42:loopback/getFile", json={"file_id": found["file_id"]})).json()["result"]
        body = (await client.get(f"{polled.api.url}/file/bot42:loopback/{where['file_path']}")).content
    assert body.startswith(begins)
    assert list(polled.bot.delivery.papers.folder.iterdir()) == []


# ---- commands


async def test_commands_are_offered_and_mean_their_words(polled):
    await until(lambda: polled.api.commands)
    names = [each["command"] for each in polled.api.commands]
    assert "help" in names and "status" in names
    for command, words in (("/help", "help"), ("/status", "status"), ("/HELP pit", "help pit"), ("/status@pegline_bot", "status")):
        assert await polled.asked("mason", command) == await polled.asked("mason", words)
    assert (await polled.asked("mason", "/start")).startswith("Send HELP and one of")
    assert await polled.asked("mason", "/start help_pit") == await polled.asked("mason", "help pit")
    polled.api.say(77, "/start")
    await polled.quiet()
    assert polled.api.texts(77)[0].startswith("This number is not known here. Send: join")


async def test_who_joins_by_telegram_is_reached_there(polled):
    polled.api.say(77, "join tb07 mason Amina")
    await until(lambda: polled.texts("supervisor"))
    await polled.asked("supervisor", "admit Amina tb07")
    assert polled.api.texts(77)[-1] == "TB07: you are its mason now. Send HELP for what to write."


async def test_every_command_that_is_offered_is_understood_and_stores_nothing(send, book):
    hints = Hints(frozenset(["TB07"]), frozenset(), 50.0, {}, {})
    for name, about in menu():
        outcome = read(name, KINDS, vocabulary(), hints)
        kind = getattr(outcome, "kind", None) or outcome.forms[0].kind
        assert kind == name and about == " ".join(sentence for sentence, _ in BY_NAME[name].about.sentences)
        for who in ("mason", "supervisor", "farmer"):
            assert send(who, name).reply
    with book.page() as page:
        assert all(not page.entries(code) for code in page.codes())


async def test_each_language_with_words_has_its_own_menu(polled):
    """The bot's own words are offered to phones that speak them, described in English as long as there is no other text."""
    await until(lambda: set(polled.api.menus) == {None, "hi", "sw", "fr"})
    first = {code: [each["command"] for each in menu][:3] for code, menu in polled.api.menus.items()}
    assert first == {
        None: ["help", "status", "today"],
        "hi": ["madad", "kaha_tak_hua", "aaj"],
        "sw": ["msaada", "hali", "leo"],
        "fr": ["aide", "etat", "aujourd_hui"],
    }


@pytest.mark.parametrize("language", ["hi", "sw", "fr"])
async def test_every_command_of_a_language_is_read_like_its_english_one(language):
    """As it comes from Telegram: without the slash, a space for each _."""
    for (name, _), (called, about) in zip(menu(), menu(language), strict=True):
        assert re.fullmatch(r"[a-z0-9_]{1,32}", called) and 1 <= len(about) <= 256
        assert label(read(called.replace("_", " "), KINDS, vocabulary())) == label(read(name, KINDS, vocabulary()))


# ---- buttons


def keys(message):
    return [key["text"] for row in message["reply_markup"]["inline_keyboard"] for key in row]


ANSWERS = [
    ("depth 6.1 ft", ["1", "2"], "2"),
    ("depth 18.3 m", ["YES", "NO"], "YES"),
    ("backfill 30 cm", ["1", "2"], "1"),
    ("sand 1 brass", ["CAME", "USED"], "USED"),
    ("no gas", ["YES", "NO"], "YES"),
]


@pytest.mark.parametrize("text,words,word", ANSWERS, ids=[text for text, _, _ in ANSWERS])
async def test_a_pressed_answer_is_the_same_as_a_texted_one(polled, send, book, text, words, word):
    chat = polled.chat["mason"]
    await polled.asked("mason", text)
    question = polled.api.last(chat)
    assert keys(question) == words
    polled.api.press(chat, question["message_id"], word)
    await polled.quiet()
    send("mason", text)
    send("mason", word)
    columns = (entry.c.number, entry.c.kind, entry.c.fields, entry.c.verdict, entry.c.cautions)
    with book.engine.connect() as connection:
        texted = connection.execute(sa.select(*columns)).all()
    assert texted and polled.rows(*columns) == texted
    await until(lambda: polled.api.messages[(chat, question["message_id"])]["reply_markup"] is None)
    assert not polled.api._queries, "the phone was told"


async def test_yes_and_no_are_buttons_where_one_of_them_is_wanted(polled):
    chat = polled.chat["mason"]
    await polled.asked("mason", DIG)
    await polled.asked("mason", "wrong 3.06 not 3.08")
    question = polled.api.last(chat)
    assert "Send YES or NO." in question["text"] and keys(question) == ["YES", "NO"]
    polled.api.press(chat, question["message_id"], "NO")
    await polled.quiet()
    assert polled.texts("mason")[-1] == "Nothing changed."
    await polled.asked("mason", "no gas")
    question = polled.api.last(chat)
    assert keys(question) == ["YES", "NO"]
    polled.api.press(chat, question["message_id"], "NO")
    await polled.quiet()
    assert "Look 2 of" in polled.texts("mason")[-1]


async def test_the_sites_are_buttons_where_the_site_is_asked(polled):
    chat = polled.chat["zuberi"]
    await polled.asked("zuberi", "status")
    assert keys(polled.api.last(chat)) == ["KV03", "KV12"]
    polled.api.press(chat, polled.api.last(chat)["message_id"], "KV12")
    await polled.quiet()
    assert polled.texts("zuberi")[-1].startswith("KV12 Njoroge:")


async def test_a_button_of_an_older_question_answers_no_newer_one(polled):
    chat = polled.chat["mason"]
    await polled.asked("mason", "depth 6.1 ft")
    old = polled.api.last(chat)["message_id"]
    await polled.asked("mason", "sand 1 brass")
    newer = polled.api.last(chat)["message_id"]
    polled.api.press(chat, old, "1")
    await polled.quiet()
    assert polled.texts("mason")[-1] == "That question is over. Nothing saved. Send your answer as a message."
    assert polled.count(entry) == 0
    polled.api.press(chat, newer, "CAME")
    await polled.quiet()
    assert "Came: 2.83 m3 sand" in polled.texts("mason")[-1]


async def test_pressed_twice_it_counts_once(polled):
    chat = polled.chat["mason"]
    await polled.asked("mason", "sand 1 brass")
    question = dict(polled.api.last(chat))
    for _ in range(2):
        polled.api.messages[(chat, question["message_id"])] = dict(question)
        polled.api.press(chat, question["message_id"], "CAME")
    await polled.quiet()
    assert polled.count(entry) == 1
    assert polled.texts("mason")[-1].startswith("That question is over.")


# ---- edits


async def test_an_edited_text_is_a_new_reading_and_says_so(polled):
    said = polled.say("mason", "base 10.0 11 11 cm")
    await polled.quiet()
    polled.api.edit(said, "base 10.5 11 11 cm")
    await polled.quiet()
    first, second, note = (
        [row.fields["base_thick_m"] for row in polled.rows(entry.c.fields)],
        polled.texts("mason"),
        polled.texts("mason")[-1],
    )
    assert first == [[0.10, 0.11, 0.11], [0.105, 0.11, 0.11]]
    assert "TB07 #1 BASE" in second[0] and any("TB07 #2 BASE" in text for text in second)
    assert note.endswith("An edit counts as a new message: what came before it stands too. To take this one back send UNDO.")
    assert [row.wire_id for row in polled.rows(inbound.c.wire_id)] == [str(polled.first), str(polled.first + 1)]
    assert "#2 base does not count" in await polled.asked("mason", "undo")


# ---- groups

GROUP = -1009


async def test_in_a_group_the_bot_answers_only_who_names_it_and_answers_there(polled):
    api, chat = polled.api, polled.chat["mason"]
    for text in ("status", "/status", "/status@other_bot", "mail me @pegline_bots", "x@pegline_bot"):
        api.say(chat, text, chat=GROUP)
    api.photo(chat, chat=GROUP)
    api.say(chat, "@Pegline_bot status", chat=GROUP)
    await polled.quiet()
    assert [text[:11] for text in api.texts(GROUP)] == ["TB07 Kamla:"]
    api.say(chat, "/log@pegline_bot", chat=GROUP)
    api.say(chat, "got 5 bags cement @pegline_bot", chat=GROUP)
    await until(lambda: len(api.texts(GROUP)) == 3)
    api.say(chat, "used 1 bag", chat=GROUP, reply_to_message=api.last(GROUP))
    await polled.quiet()
    assert [text.split(" On ")[0] for text in api.texts(GROUP)[1:]] == [
        "TB07: the log is empty.",
        "TB07 #1 STOCK: Came: 5 bags (250 kg) cement.",
        "TB07 #2 STOCK: Used: 1 bag (50 kg) cement.",
    ]
    assert not polled.texts("mason")
    assert polled.count(inbound) == 4, "what was not for the bot is not kept"


async def test_in_a_group_nothing_is_released_refused_fixed_or_admitted_and_alerts_stay_private(polled):
    api = polled.api
    api.say(polled.chat["mason"], f"@pegline_bot {DIG}", chat=GROUP)
    await polled.quiet()
    assert "#1 PIT" in api.texts(GROUP)[0]
    assert polled.texts("supervisor")[0].startswith("ALERT TB07")
    for text in ("release tb07 pit", "refuse tb07 pit", "fix tb07 gas 2 m3", "admit Bholu tb07", "release tb07 slope 1.83 m"):
        api.say(polled.chat["supervisor"], f"@pegline_bot {text}", chat=GROUP)
    await polled.quiet()
    assert api.texts(GROUP)[1:] == ["Not here, where others read along. Nothing recorded. Send it to me alone."] * 5
    assert polled.count(entry) == 1
    assert "RELEASE" in await polled.asked("supervisor", "release tb07 slope 1.83 m")


async def test_a_button_in_a_group_is_for_whom_it_was_asked(polled):
    api, mason, baraka = polled.api, polled.chat["mason"], polled.chat["baraka"]
    api.say(mason, "@pegline_bot sand 1 brass", chat=GROUP)
    await polled.quiet()
    question = api.last(GROUP)
    api.press(baraka, question["message_id"], "CAME", chat=GROUP)
    await polled.quiet()
    assert api.texts(GROUP)[-1].startswith("That question is over.")
    assert polled.count(entry) == 0
    api.messages[(GROUP, question["message_id"])] = question | {
        "reply_markup": {"inline_keyboard": [[{"text": "CAME", "callback_data": "1:CAME"}]]}
    }
    api.press(mason, question["message_id"], "CAME", chat=GROUP)
    await polled.quiet()
    assert "TB07 #1 STOCK: Came: 2.83 m3 sand." in api.texts(GROUP)[-1]


async def test_a_group_that_moved_is_answered_where_it_is_now(polled):
    polled.api.say(polled.chat["mason"], "hello", chat=-10099)
    polled.api.fault(400, chat=GROUP, moved=-10099)
    polled.api.say(polled.chat["mason"], "@pegline_bot status", chat=GROUP)
    await polled.quiet()
    assert not polled.api.texts(GROUP)
    assert polled.api.texts(-10099)[0].startswith("TB07 Kamla:")


# ---- conversations

SPOKEN = (
    "case_01_heap_note", "case_03_rounding", "case_04_rain_ends_release", "case_08_feet_with_a_point", "case_10_depth_out_of_range",
    "case_14_man_down", "case_16_strip_too_early", "works", "record", "questions", "build",
)  # fmt: skip


@pytest.mark.parametrize("name", SPOKEN)
async def test_a_conversation_goes_as_in_the_terminal(polled, book, monkeypatch, name):
    def blank(papers, arguments):
        """A file at once: what is in it is not looked at here."""
        Path(arguments[3]).write_bytes(b"%PDF")

    monkeypatch.setattr("bot.papers.Papers._run", blank)
    wanted, got = await polled.speak(TALKS / f"{name}.talk", book, monkeypatch)
    assert got == wanted
    assert any(got.values())
