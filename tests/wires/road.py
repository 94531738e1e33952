"""The whole road of an SMS as the tests see it: the air on one side, the books of the bot on the other."""

import threading
from collections import Counter
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime

from bot.logbook import Book
from bot.office import single
from tests.conftest import DEMO
from tests.wires.centre import Centre
from tests.wires.running import Gateway, Serving, free_ports, until

MASON, SUPERVISOR = "+254700000107", "+254700000200"
CREW = [f"+25471100{at:04}" for at in range(16)]  # masons of these tests, each with a few messages only
UNSURE_S = 5  # for a report where the gateway's answer was lost
QUICK = {"PEGLINE_SMS_TIMEOUT_S": "1", "PEGLINE_SMS_PIECES_S": "2", "PEGLINE_UNSURE_S": str(UNSURE_S)}


def programme(folder, crew=CREW, sites=("TB07",)):
    """The demo programme with a crew, each at one of the sites in turn; those that the programme has not are added."""
    rows = [f'[[site]]\ncode = "{code}"\nname = "Otieno"\nstage = "pit"\n' for code in sites if code != "TB07"]
    if rows:
        led = ", ".join(f'"supervisor {code}"' for code in sites)
        rows.append(f'[[person]]\nshort = "head"\nname = "Achieng"\nnumber = "+254711999999"\nroles = [{led}]\n')
    for at, number in enumerate(crew):
        named = f'short = "crew{at}"\nname = "Ouma {chr(65 + at % 26)}"\nnumber = "{number}"'
        rows.append(f'[[person]]\n{named}\nroles = ["mason {sites[at % len(sites)]}"]\n')
    path = folder / "programme.toml"
    path.write_text("\n".join([DEMO.read_text(), *rows]))
    return path


@dataclass
class Road:
    """`carrier` has the air: a test centre or a modem."""

    carrier: object
    gateway: Gateway
    bot: Serving

    def listen(self, numbers=(MASON, SUPERVISOR, *CREW)):
        """heard(number, count) -> the texts that reached a number from now on, once there are so many."""
        before = {number: len(self.carrier.heard(number)) for number in numbers}

        def heard(number, count=1):
            def new():
                return self.carrier.heard(number)[before[number] :]

            until(lambda: len(new()) >= count, lambda: f"{number} heard {new()}, not {count} texts")
            return new()

        return heard

    def send(self, number, text):
        """Queue one text for a number from this process, as pegline send-test does from its own."""
        book = Book(self.bot.env["PEGLINE_DATABASE_URL"])
        single(book, "sms", number, text, datetime.now(UTC))
        book.engine.dispose()

    def state(self, text):
        """(state, receipt) of the newest outgoing row with a text, or None."""
        rows = self.bot.rows("SELECT state, receipt FROM outgoing WHERE text = ? ORDER BY id DESC LIMIT 1", text)
        return rows[0] if rows else None

    def comes_to(self, text, *wanted):
        """Wait until the row of a text stands so."""
        until(lambda: (self.state(text) or ())[: len(wanted)] == wanted, lambda: f"{text}: {self.state(text)}, not {wanted}")

    def over(self, text):
        """Wait until the engine is done with the row of a text: after that it cannot go out again."""
        query = (
            "SELECT 1 FROM workflow_status w JOIN outgoing o ON w.workflow_uuid = 'text:' || o.id WHERE o.text = ? AND w.status = 'SUCCESS'"
        )
        until(lambda: self.bot.rows(query, text), f"the end of {text}")

    def entries(self):
        """How often each message became an entry of the log, by (sender, text)."""
        query = "SELECT i.sender, i.text FROM entry e JOIN inbound i ON e.channel = i.channel AND e.wire_id = i.wire_id"
        return Counter(self.bot.rows(query))

    # ---- many messages at once
    def load(self, senders, each, first):
        """Messages of several people in turn, in a thread; (the thread, what is sent by whom)."""
        said = {sender: [f"got {at} bags cement" for at in range(first, first + each)] for sender in senders}

        def run():
            for texts in zip(*said.values(), strict=True):
                for sender, text in zip(said, texts, strict=True):
                    self.carrier.say(sender, text)

        thread = threading.Thread(target=run)
        thread.start()
        return thread, said

    def settled(self, said, heard):
        """Check the books after a load: all there, none twice, in order; return how many texts reached a phone twice.

        The order is that of the answers: the gateway does not keep the order of what it has to bring a second time.
        """
        doubles = 0
        for sender, texts in said.items():
            until(lambda s=sender, t=texts: all(self.entries()[s, text] for text in t), f"the entries of {sender}")
            assert [self.entries()[sender, text] for text in texts] == [1] * len(texts), "an entry is double"
            newest = "SELECT text FROM outgoing WHERE number = ? ORDER BY id DESC LIMIT ?"
            answers = [text for (text,) in reversed(self.bot.rows(newest, sender, len(texts)))]
            assert {count(answer) for answer in answers} == {text.split()[1] for text in texts}
            until(lambda s=sender, a=answers: set(a) <= set(heard(s)), f"the answers to {sender}")
            got = heard(sender)
            assert list(dict.fromkeys(got)) == answers, "on the air out of order"
            doubles += len(got) - len(answers)
        return doubles


@contextmanager
def joined(folder, carrier, kind, bot_port, told, **values):
    """The Road from a carrier through the gateway to the bot of a programme file; all of it runs."""
    gateway = Gateway(folder, kind, bot_port, **values)
    bot = Serving(folder, bot_port, gateway.url, told, **QUICK)
    try:
        gateway.start()
        bot.start()
        yield Road(carrier, gateway, bot)
    finally:
        bot.stop()
        gateway.stop()


@contextmanager
def aggregator(folder, *people):
    """The Road from a test centre."""
    centre_port, bot_port = free_ports(2)
    centre = Centre(centre_port).start()
    account = {"GATEWAY_HOST": "127.0.0.1", "GATEWAY_PORT": str(centre_port), "GATEWAY_USER": "pegline", "GATEWAY_PASSWORD": "secret"}
    try:
        with joined(folder, centre, "aggregator", bot_port, programme(folder, *people), **account) as road:
            yield road
    finally:
        centre.stop()


def count(answer):
    """How many bags an answer says that came."""
    return answer.split("Came: ")[1].split()[0]
