"""kill -9 in the middle of a message: nothing half-written, and the same message sent again is answered once."""

import os
import signal

import pytest
import sqlalchemy as sa

from bot.tables import entry, inbound, outgoing
from tests import warm

TEXT = "pit 3.12 3.08 3.10 deep 1.83"


def counts(book):
    with book.engine.connect() as connection:
        return tuple(connection.scalar(sa.select(sa.func.count()).select_from(table)) for table in (inbound, entry, outgoing))


def killed(book, when, wire_id="w-1"):
    number = "+254700000107"
    words = [book.url.render_as_string(), when, wire_id, number, TEXT]
    done = warm.run(words, dict(os.environ), entry="tests.faults.die:main")
    assert done.returncode == -signal.SIGKILL, done.stderr
    return done


def test_before_the_commit_nothing_is_written_and_the_message_is_answered_when_it_comes_again(book, send):
    killed(book, "before")
    assert counts(book) == (0, 0, 0)
    again = send("mason", TEXT, wire_id="w-1")
    assert again.taken.landed
    assert again.reply.startswith("STOP")
    assert counts(book) == (1, 1, 2)


def test_after_the_commit_the_message_is_not_answered_twice(book, send):
    killed(book, "after")
    assert counts(book) == (1, 1, 2)
    again = send("mason", TEXT, wire_id="w-1")
    assert not again.taken.landed
    assert counts(book) == (1, 1, 2)
    assert len(again.rows) == 2, "what was committed and not yet printed goes out now"
    assert not send("mason", TEXT, wire_id="w-1").rows, "and only once"


@pytest.mark.parametrize("times", [5])
def test_killed_again_and_again_it_is_answered_once(book, send, times):
    for _ in range(times):
        killed(book, "before")
    killed(book, "after")
    killed(book, "after")
    assert counts(book) == (1, 1, 2)
