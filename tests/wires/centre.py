"""A short message centre on loopback: an SMPP server that delivers texts of people to the gateway and takes those for them.

Like a real one it keeps a text until the gateway has acknowledged it, and tells a text's fate by a delivery receipt.
"""

import asyncio
import threading
import time
from dataclasses import dataclass

import gsm0338  # noqa: F401 - registers the codec
import smpp34

CONCATENATED = 0x40  # esm_class: the body begins with a user data header
RECEIPT = 0x04
WIDE, RAW = 8, 4  # data_coding of UCS-2 and of bytes
INTERNATIONAL, NATIONAL, UNKNOWN, LETTERS = 1, 2, 0, 5  # type of number
ANSWER_S, PHONE_S = 3, 0.2


@dataclass(frozen=True)
class Submitted:
    """One short message as it went on the air."""

    id: str
    sender: str
    to: str
    body: bytes
    coding: int
    header: bytes

    @property
    def text(self):
        return self.body.decode("utf-16-be" if self.coding == WIDE else "gsm03.38")


class Centre:
    """`say` hands a text in; `air` is all that came out, in order; `fate` is told of each text that asks for a receipt."""

    def __init__(self, port):
        self.air, self.port = [], port
        self.fate = ("DELIVRD",)  # one receipt for each; none where it is empty
        self.refusal = None  # a command_status with which all texts are refused
        self._sessions, self._loop = {}, asyncio.new_event_loop()
        self._thread = threading.Thread(target=self._loop.run_forever, daemon=True)

    def start(self):
        self._thread.start()
        self._server = smpp34.Server("127.0.0.1", self.port)
        self._call(self._begin())
        return self

    def stop(self):
        self._call(self._end())
        self._loop.call_soon_threadsafe(self._loop.stop)
        self._thread.join(5)
        self._loop.close()

    def say(self, sender, text, ton=INTERNATIONAL, coding=0, header=b"", to="2020"):
        """Deliver one short message, again and again until the gateway has acknowledged it."""
        body = text if isinstance(text, bytes) else text.encode("utf-16-be" if coding == WIDE else "gsm03.38")
        body = bytes([len(header), *header]) + body if header else body
        more = {"source_addr_ton": ton, "source_addr_npi": 1, "data_coding": coding, "esm_class": CONCATENATED if header else 0}
        self._call(self._deliver(to, body, source_addr=sender.removeprefix("+"), **more), 60)

    def heard(self, number):
        """The texts that reached a number, pieces of long ones put together as a phone does."""
        texts, pieces = [], {}
        for sent in [sent for sent in self.air if sent.to == number.removeprefix("+")]:
            if not sent.header:
                texts.append(sent.text)
                continue
            ref, total, place = sent.header[2:]
            kept = pieces.setdefault(ref, {})
            kept[place] = sent.text
            if len(kept) == total:
                texts.append("".join(text for _, text in sorted(pieces.pop(ref).items())))
        return texts

    # ---- inside, in the loop
    def _call(self, work, seconds=20):
        return asyncio.run_coroutine_threadsafe(work, self._loop).result(seconds)

    async def _begin(self):
        await self._server.start()
        self._serving = asyncio.create_task(self._serve())

    async def _end(self):
        self._serving.cancel()
        await asyncio.gather(self._serving, return_exceptions=True)
        await self._server.stop()

    async def _serve(self):
        while True:
            event = await self._server.next()
            if isinstance(event, smpp34.Esme):
                self._sessions[event.session_id] = event
            elif isinstance(event, smpp34.Unbound):
                self._sessions.pop(event.session_id, None)
            elif self.refusal is not None:
                event.reject(self.refusal)
            else:
                self._take(event)

    def _take(self, event):
        made = f"{time.time_ns():x}"
        body, size = event.short_message, event.short_message[0] + 1 if event.esm_class & CONCATENATED else 0
        taken = Submitted(made, event.source_addr, event.destination_addr, body[size:], event.data_coding, body[1:size])
        self.air.append(taken)
        event.accept(made)
        if event.registered_delivery & 1:
            for word in self.fate:
                self._loop.create_task(self._receipt(taken, word))

    async def _receipt(self, taken, word):
        """SMPP 3.4, appendix B: the text of a receipt. A phone takes its time; one at once would find the gateway not ready for it."""
        await asyncio.sleep(PHONE_S)
        body = f"id:{taken.id} sub:001 dlvrd:001 submit date:2603020900 done date:2603020900 stat:{word} err:000 text:"
        await self._deliver(taken.sender, body.encode(), source_addr=taken.to, source_addr_ton=1, source_addr_npi=1, esm_class=RECEIPT)

    async def _deliver(self, to, body, **more):
        while True:
            for session_id, session in list(self._sessions.items()):
                try:
                    answer = await asyncio.wait_for(session.deliver_sm(to, body, **more), ANSWER_S)
                    if answer.is_success:
                        return
                except (smpp34.SmppError, TimeoutError):
                    self._sessions.pop(session_id, None)
            await asyncio.sleep(0.05)
