"""A modem on a pseudo-terminal, in PDU mode, with a SIM of few places and the network behind it.

Commands and answers by 3GPP TS 27.005 and 27.007, messages by 23.040; what it does not know it answers with ERROR. What
it has to say by itself waits until a command has its answer, and nothing is said by itself that was not switched on.
"""

import os
import pty
import re
import select
import threading
import time
import tty
from contextlib import suppress

PLACES = 3  # of the SIM
STAMP = "62302090000021"  # 2026-03-02 09:00:00, three hours east of UTC, digits in pairs the other way round
CTRL_Z = b"\x1a"


def packed(septets):
    """Septets as octets, 8 in 7 (23.038, 6.1.2.1)."""
    bits = sum(value << 7 * at for at, value in enumerate(septets))
    return bits.to_bytes((len(septets) * 7 + 7) // 8, "little")


def unpacked(octets, count):
    bits = int.from_bytes(octets, "little")
    return bytes(bits >> 7 * at & 127 for at in range(count))


def address(number):
    """A number as it stands in a message: how many digits, its type, its digits in pairs the other way round."""
    digits = number.lstrip("+")
    padded = digits + "F" * (len(digits) % 2)
    swapped = "".join(padded[at + 1] + padded[at] for at in range(0, len(padded), 2))
    return f"{len(digits):02X}{'91' if number.startswith('+') else '81'}{swapped}"


def deliver(sender, text, wide=False, header=b""):
    """An SMS-DELIVER in hexadecimal, with a centre of length 0 before it."""
    head = bytes([len(header), *header]) if header else b""
    if wide:
        body = head + text.encode("utf-16-be")
        size = len(body)
    else:
        filled = -(-len(head) * 8 // 7)  # the header takes whole septets
        septets = text.encode("gsm03.38")
        bits = int.from_bytes(packed(septets), "little") << filled * 7 | int.from_bytes(head, "little")
        size = filled + len(septets)
        body = bits.to_bytes((size * 7 + 7) // 8, "little")
    first = 0x04 | (0x40 if header else 0)
    return f"00{first:02X}{address(sender)}00{'08' if wide else '00'}{STAMP}{size:02X}{body.hex().upper()}"


def submitted(pdu):
    """(number, text, wants a report) of an SMS-SUBMIT in hexadecimal; the text of a piece is without its header."""
    raw = bytes.fromhex(pdu)
    at = raw[0] + 1
    first, digits = raw[at], raw[at + 2]
    at += 4
    number = "".join(f"{octet & 15:X}{octet >> 4:X}" for octet in raw[at : at + (digits + 1) // 2])[:digits]
    at += (digits + 1) // 2
    coding = raw[at + 1]
    at += 2 + {0: 0, 2: 1, 1: 7, 3: 7}[first >> 3 & 3]
    size, body = raw[at], raw[at + 1 :]
    skip = body[0] + 1 if first & 0x40 else 0
    if coding & 0x0C == 0x08:
        return number, body[skip:size].decode("utf-16-be"), bool(first & 0x20)
    return number, unpacked(body, size)[-(-skip * 8 // 7) :].decode("gsm03.38"), bool(first & 0x20)


class Modem:
    """`say` brings a text from the network; `air` is what was sent, as (number, text); `idle` while it is only asked whether it lives."""

    def __init__(self, link):
        self.link, self.air, self.idle = link, [], False
        self._sim, self._network, self._reference = {}, [], 0
        self._lock = threading.RLock()
        self.plug()

    # ---- the cable
    def plug(self):
        self._master, slave = pty.openpty()
        tty.setraw(slave)
        with suppress(FileNotFoundError):
            self.link.unlink()
        self.link.symlink_to(os.ttyname(slave))
        os.close(slave)
        self._echo, self._told, self._reports, self._later, self._open = True, False, False, [], True
        self._thread = threading.Thread(target=self._read, args=(self._master,), daemon=True)
        self._thread.start()

    def unplug(self):
        self._open = False
        self.link.unlink()
        self._thread.join(5)
        os.close(self._master)

    # ---- the network
    def say(self, sender, text, wide=False, header=b""):
        """A text for this number: the network keeps it while the SIM is full."""
        with self._lock:
            self._network.append(deliver(sender, text, wide, header))
            self._fill()

    @property
    def stored(self):
        """How many texts lie in the SIM or wait in the network."""
        with self._lock:
            return len(self._sim) + len(self._network)

    def heard(self, number):
        return [text for to, text in self.air if to == number.removeprefix("+")]

    def _fill(self):
        while self._network and len(self._sim) < PLACES:
            place = min(set(range(1, PLACES + 1)) - set(self._sim))
            self._sim[place] = self._network.pop(0)
            if self._told:
                self._by_itself(f'+CMTI: "SM",{place}')

    # ---- the line
    def _read(self, master):
        waiting, prompt = b"", None
        while self._open:
            try:
                if select.select([master], [], [], 0.05)[0]:
                    waiting += os.read(master, 4096)
            except OSError:  # nobody has the device open: a text half written is given up, as a modem does when DTR falls
                waiting, prompt = b"", None
                time.sleep(0.02)
            while (end := re.search(rb"\x1a" if prompt else rb"\r", waiting)) is not None:
                line, waiting = waiting[: end.start()], waiting[end.end() :]
                with self._lock, suppress(OSError):
                    prompt = self._line(line.strip(b"\n"), prompt)

    def _line(self, line, prompt):
        if prompt:
            self._sent(line.decode())
            return None
        if self._echo:
            os.write(self._master, line + b"\r")
        command = line.decode("ascii", "replace").strip().upper()
        self.idle = False
        if command.startswith("AT+CMGS="):
            os.write(self._master, b"\r\n> ")
            return True
        if command:
            lines = self._answer(command.removeprefix("AT"))
            self._write(*(lines if lines is not None else ("ERROR",)))
        self.idle = command == "AT"
        return None

    def _write(self, *lines):
        os.write(self._master, "".join(f"\r\n{line}\r\n" for line in lines).encode())
        later, self._later = self._later, []
        for line in later:
            os.write(self._master, f"\r\n{line}\r\n".encode())

    def _by_itself(self, line):
        self._later.append(line)
        if threading.current_thread() is not self._thread:  # no command is being answered
            self._write()

    # ---- the commands
    def _answer(self, command):
        """The lines that answer a command, or None for one that is not known."""
        for pattern, answer in self._COMMANDS:
            found = re.fullmatch(pattern, command)
            if found:
                lines = answer(self, *found.groups())
                return None if lines is None else (*lines, "OK")
        return None

    def _echoes(self, on):
        self._echo = on == "1"
        return ()

    def _stores(self, *names):
        used = f"{len(self._sim)},{PLACES}"
        return (f"+CPMS: {used},{used},{used}",)

    def _asked_stores(self):
        used = f'"SM",{len(self._sim)},{PLACES}'
        return (f"+CPMS: {used},{used},{used}",)

    def _tells(self, told, reports):
        self._told, self._reports = told != "0", reports == "1"
        return ()

    def _read_one(self, place):
        pdu = self._sim.get(int(place))
        return (f"+CMGR: 0,,{len(pdu) // 2 - 1}\r\n{pdu}",) if pdu else ()

    def _list(self, which):
        return tuple(f"+CMGL: {place},0,,{len(pdu) // 2 - 1}\r\n{pdu}" for place, pdu in sorted(self._sim.items()))

    def _deleted(self, place):
        self._sim.pop(int(place), None)
        self._fill()
        return ()

    _COMMANDS = (
        (r"|Z|&F|H0?|\+CMEE=\d|\+CMGF=0|\+CNMA|\+IFC=.*|\+IPR=.*|\+CSMS=0|&D\d|V1|Q0", lambda self: ()),
        (r"E([01])", _echoes),
        (r"\+CPIN\?", lambda self: ("+CPIN: READY",)),
        (r"\+CSMS=\?", lambda self: ("+CSMS: (0)",)),
        (r"\+CPMS\?", _asked_stores),
        (r'\+CPMS="SM"(?:,"SM")*', _stores),
        (r"\+CNMI=\d,(\d),\d,(\d)(?:,\d)?", _tells),
        (r"\+CMGR=(\d+)", _read_one),
        (r"\+CMGL=(\d)", _list),
        (r"\+CMGD=(\d+)", _deleted),
    )

    def _sent(self, pdu):
        number, text, report = submitted(pdu)
        self._reference = (self._reference + 1) % 256
        told = f"+CMGS: {self._reference}"
        self.air.append((number, text))
        if not (report and self._reports):
            self._write(told, "OK")
            return
        status = f"0006{self._reference:02X}{address('+' + number)}{STAMP}{STAMP}00"
        cds = f"+CDS: {len(status) // 2 - 1}\r\n{status}"
        self._later.append(cds)
        self._write(told, "OK")
