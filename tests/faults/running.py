"""A delivery in this process, over a wire that does as it is told."""

import asyncio
from contextlib import asynccontextmanager
from datetime import timedelta

import sqlalchemy as sa

from bot import outbox
from bot.channels import Inbound, Sent
from bot.delivery import Delivery
from bot.tables import outgoing
from tests.conftest import NOON
from tests.wires.running import LONG_S

MASON, SUPERVISOR, STRANGER = "+254700000107", "+254700000200", "+254799000001"


class Clock:
    """Says NOON plus what was added."""

    def __init__(self):
        self.now = NOON

    def __call__(self):
        return self.now

    def add(self, **span):
        self.now += timedelta(**span)


class Wire:
    """Takes texts. `answers` are what becomes of the next ones to the mason: an outcome, a fault to raise, or something to await."""

    name, rate, order_s, files = "sms", 1000.0, 0.0, False

    def __init__(self, *answers):
        self.texts, self.answers = [], list(answers)

    async def send(self, out):
        self.texts.append((out.to, out.text))
        answer = self.answers.pop(0) if self.answers and out.to == MASON else Sent()
        if callable(answer):
            answer = await answer()
        if isinstance(answer, Exception):
            raise answer
        return answer

    def to(self, number):
        return [text for to, text in self.texts if to == number]


@asynccontextmanager
async def running(book, wire, clock=None, **more):
    """A Delivery that runs for the length of the block, then ends in order."""
    delivery = Delivery(book, [wire], clock or Clock(), **more)
    await delivery.start()
    try:
        yield delivery
    finally:
        await delivery.stop(3)


def say(book, text, number=MASON, lane="now", now=NOON, ref="x"):
    """Queue a text as the road does; its id."""
    with book.page() as page:
        outbox.say(page, text, number, page.person(number=number), "mason", Inbound("sms", ref, number, ""), now, lane)
        return page.queued("sms", ref)[-1]["id"]


async def until(found, seconds=LONG_S):
    """Wait for something to become true."""
    end = asyncio.get_running_loop().time() + seconds
    while not (got := found()):
        assert asyncio.get_running_loop().time() < end, "waited in vain"
        await asyncio.sleep(0.01)
    return got


def states(book):
    """{text: state} of everything that goes out."""
    with book.engine.connect() as connection:
        return dict(connection.execute(sa.select(outgoing.c.text, outgoing.c.state).order_by(outgoing.c.id)).all())


def row(book, text_id):
    with book.page(write=False) as page:
        return page.out(text_id)
