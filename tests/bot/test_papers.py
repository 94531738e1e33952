"""Files on their way: ordered by an answer, made by a child process, gone once they are sent."""

import os
from datetime import timedelta
from types import SimpleNamespace

import pytest

from bot import papers
from bot.channels import Inbound
from bot.forms import Answer
from bot.inbox import take
from bot.papers import MARK, Order, Papers
from bot.phrases import T_, Reader
from bot.reading.words import vocabulary
from tests.conftest import NOON

pytestmark = pytest.mark.asyncio


@pytest.fixture
def written(book):
    """written(text, **more) -> [(text, file)] that a message of Bholu's by a channel with files leaves."""

    def sent(text, files=True):
        wire = f"w{text}"
        take(Inbound("terminal", wire, "+254700000107", text, NOON, files=files), book, vocabulary(), NOON)
        with book.page() as page:
            return [(row["text"], row["file"]) for row in page.queued("terminal", wire)]

    return sent


async def test_where_the_channel_carries_files_one_is_ordered_and_nothing_is_said_of_it(written):
    (row,) = written("draw pegs")
    assert "Pictures go by Telegram" not in row[0]
    assert row[1] == f"{MARK}pegs TB07 0 en metric {NOON.isoformat()}"


async def test_where_it_carries_none_that_is_said_and_none_is_ordered(written):
    (row,) = written("draw pegs", files=False)
    assert row[0].endswith("Pictures go by Telegram.") and row[1] is None


async def test_the_record_goes_along_with_the_last_of_its_texts(written):
    files = [file for _, file in written("record")]
    assert files[:-1] == [None] * (len(files) - 1) and files[-1].startswith(f"{MARK}record TB07 0 en metric ")


async def test_what_is_refused_orders_nothing(written):
    assert written("draw gas") == [("TB07: when does the family cook? Send: cook nn to nn, nn to nn, n stoves.", None)]


async def test_an_order_counts_the_entries_of_its_own_answer():
    site = SimpleNamespace(code="TB07", next_number=8)
    answers = [Answer(T_("x"), entries=(1, 2)), Answer(T_("y"), paper="record")]
    assert papers.ordered(answers, site, Reader("sw", "feet"), NOON).split()[:5] == [f"{MARK}record", "TB07", "9", "sw", "feet"]
    assert papers.ordered(answers[:1], site, Reader(), NOON) is None


@pytest.mark.parametrize("what,begins", [("section", b"\x89PNG"), ("record", b"%PDF")])
async def test_it_is_made_for_as_long_as_it_is_sent(book, what, begins):
    made, order = Papers(book.url), Order(what, "TB07", "0", "hi", "feet", NOON.isoformat())
    async with made.made(MARK + " ".join(order), "text") as (file, text):
        assert text == "text" and os.path.basename(file) == f"TB07-{what}.{'pdf' if what == 'record' else 'png'}"
        with open(file, "rb") as body:
            assert body.read().startswith(begins)
    assert not os.path.exists(file) and list(made.folder.iterdir()) == []


async def test_a_file_of_somebodys_own_is_left_alone(book, tmp_path):
    path = tmp_path / "own.png"
    path.write_bytes(b"x")
    async with Papers(book.url).made(str(path), "text") as found:
        assert found == (str(path), "text")
    async with Papers(book.url).made(None, "text") as found:
        assert found == (None, "text")
    assert path.exists()


async def test_where_none_can_be_made_the_text_goes_and_says_so(book, caplog):
    made = Papers(book.url)
    async with made.made(f"{MARK}section KV12 0 en metric {NOON.isoformat()}", "KV12.") as (file, text):  # which has no plan
        assert (file, text) == (None, "KV12. The picture could not be made. Ask again later.")
    assert "the section of KV12 could not be made" in caplog.text
    assert list(made.folder.iterdir()) == []


async def test_a_file_is_thrown_away_where_the_sending_breaks_off(book):
    made = Papers(book.url)
    with pytest.raises(OSError, match="cut"):
        async with made.made(f"{MARK}plan TB07 0 en metric {NOON.isoformat()}", "") as (file, _):
            raise OSError("cut")
    assert not os.path.exists(file)


async def test_what_a_killed_process_left_goes_after_a_day(book):
    made = Papers(book.url)
    made.sweep(NOON)  # where there is no folder there is nothing to do
    for name, age in (("old", timedelta(hours=25)), ("new", timedelta(hours=23))):
        (made.folder / name).mkdir(parents=True)
        (made.folder / name / "TB07-plan.png").write_bytes(b"x")
        moment = (NOON - age).timestamp()
        os.utime(made.folder / name, (moment, moment))
    made.sweep(NOON)
    assert [folder.name for folder in made.folder.iterdir()] == ["new"]
