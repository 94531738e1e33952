"""Files on their way: ordered by an answer, made by a child process, gone once they are sent."""

import os
import subprocess
from datetime import timedelta
from pathlib import Path
from types import SimpleNamespace

import pytest
import sqlalchemy as sa

from bot import papers
from bot.channels import Inbound
from bot.forms import Answer
from bot.inbox import take
from bot.papers import MARK, Order, Papers
from bot.phrases import T_, Reader
from bot.reading.words import vocabulary
from tests.conftest import NOON

FILES = Inbound("telegram", "1", "tg:7", "", files=True)
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
    assert papers.ordered(answers, site, Reader("sw", "feet"), FILES, NOON).split()[:5] == [f"{MARK}record", "TB07", "9", "sw", "feet"]
    assert papers.ordered(answers[:1], site, Reader(), FILES, NOON) is None


def order(what, site="TB07"):
    return MARK + " ".join(Order(what, site, "0", "hi", "feet", NOON.isoformat()))


@pytest.mark.parametrize("what,name,begins", [("section", "TB07-section.png", b"\x89PNG"), ("record", "TB07-record.pdf", b"%PDF")])
async def test_it_is_made_once_and_kept_until_it_is_over(book, monkeypatch, what, name, begins):
    papers = Papers(book.url)
    file, text = await papers.made(7, order(what), "text")
    path = Path(file)
    assert (path.name, text) == (name, "text") and path.read_bytes().startswith(begins)
    monkeypatch.setattr(papers, "_run", None)  # a second try finds it
    assert await papers.made(7, order(what), "text") == (file, "text")
    await papers.over(7, order(what))
    assert list(papers.folder.iterdir()) == []


async def test_a_file_of_somebodys_own_is_left_alone(book, tmp_path):
    path, papers = tmp_path / "own.png", Papers(book.url)
    path.write_bytes(b"x")
    assert await papers.made(7, str(path), "text") == (str(path), "text")
    assert await papers.made(7, None, "text") == (None, "text")
    await papers.over(7, str(path))
    await papers.over(7, None)
    assert path.exists()


async def test_where_none_can_be_made_the_text_goes_and_says_so(book, caplog):
    papers = Papers(book.url)
    file, text = await papers.made(7, order("section", "KV12"), "KV12.")  # which has no plan
    assert file is None and text.startswith("KV12. ") and text != "KV12. "
    assert "the section of KV12 could not be made" in caplog.text


async def test_a_child_that_is_cut_off_leaves_no_half_of_a_picture(book, monkeypatch):
    papers = Papers(book.url)

    def cut(arguments):
        Path(arguments[arguments.index("--to") + 1]).write_bytes(b"\x89PNG half")
        raise subprocess.TimeoutExpired("draw", 60)

    monkeypatch.setattr(papers, "_run", cut)
    assert (await papers.made(7, order("plan"), "text"))[0] is None
    monkeypatch.undo()
    file, _ = await papers.made(7, order("plan"), "text")
    assert not Path(file).read_bytes().endswith(b"half")


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


async def test_its_folder_lies_beside_the_book_or_in_the_working_folder(book, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert Papers(book.url).folder == tmp_path / "papers"
    assert Papers(sa.make_url("postgresql+psycopg://pegline:secret@db/pegline")).folder == tmp_path / ".pegline" / "papers"
