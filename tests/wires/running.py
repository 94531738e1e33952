"""What the tests of the wires run as real processes on loopback: the SMS gateway and the bot. Each is stopped by its pid."""

import os
import signal
import socket
import socketserver
import sqlite3
import subprocess
import threading
import time
import urllib.request
from contextlib import closing, suppress
from pathlib import Path
from shutil import which

from tests import warm
from tests.conftest import DEMO, ROOT

KEY, PASSWORD = "shared-key", "send & more"
LONG_S = 120  # costs nothing where all goes well, and slow machines need it
FOUND = f"{os.environ['PATH']}:/usr/sbin:/sbin"  # the gateway's boxes lie where only root looks


def free_ports(count):
    """Ports nobody listens on now."""
    with suppress(OSError):
        held = [socket.create_server(("127.0.0.1", 0)) for _ in range(count)]
    ports = [each.getsockname()[1] for each in held]
    for each in held:
        each.close()
    return ports


def until(true, what, seconds=LONG_S):
    """Wait until `true()` is, and return what it gave; fail with `what` after so many seconds."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        found = true()
        if found:
            return found
        time.sleep(0.02)
    raise AssertionError(f"{what() if callable(what) else what}: not within {seconds} s")


def get(url, seconds=20):
    """(status, body) of an address."""
    try:
        with urllib.request.urlopen(url, timeout=seconds) as answer:
            return answer.status, answer.read().decode()
    except urllib.error.HTTPError as fault:
        with fault:
            return fault.code, fault.read().decode()


class Process:
    """One process with its output in a file; `begin(file)` starts it."""

    def __init__(self, begin, log):
        with open(log, "ab") as out:
            self._made = begin(out)
        self.log = log

    @property
    def ended(self):
        return self._made.poll() is not None

    def tell(self, number):
        if not self.ended:
            self._made.send_signal(number)

    def end(self, number=signal.SIGTERM, seconds=10.0):
        """Send a signal and wait; kill what does not go. Return the exit status."""
        self.tell(number)
        try:
            return self._made.wait(seconds)
        except subprocess.TimeoutExpired:
            self._made.kill()
            return self._made.wait(LONG_S)


class Relay:
    """Between bot and sendsms: passes one request and its answer, or loses the answer on its way back."""

    def __init__(self, port, behind):
        self.hold_s, self.loses, self.lost = 0.0, False, 0
        relay = self

        class Handler(socketserver.BaseRequestHandler):
            def handle(self):
                asked = self.request.recv(65536)
                while asked and b"\r\n\r\n" not in asked:
                    asked += self.request.recv(65536)
                with socket.create_connection(("127.0.0.1", behind), 10) as box:
                    box.sendall(asked.replace(b"\r\n\r\n", b"\r\nConnection: close\r\n\r\n"))
                    answer = b"".join(iter(lambda: box.recv(65536), b""))
                time.sleep(relay.hold_s)
                relay.lost += relay.loses or relay.hold_s > 0
                if not relay.loses:
                    with suppress(OSError):
                        self.request.sendall(answer)

            def finish(self):
                self.request.close()

        class Server(socketserver.ThreadingTCPServer):
            allow_reuse_address = daemon_threads = True

            def handle_error(self, request, address):
                """The gateway was killed meanwhile: the bot sees a connection that ends."""

        self._server = Server(("127.0.0.1", port), Handler)
        self._thread = threading.Thread(target=self._server.serve_forever, args=(0.02,), daemon=True)
        self._thread.start()

    def close(self):
        self._server.shutdown()
        self._server.server_close()
        self._thread.join(5)


class Gateway:
    """Kannel with a configuration of deploy/gateway, all of it in one folder; the bot reaches it through a Relay."""

    def __init__(self, folder, kind, bot_port, **values):
        self.folder, self.relay = folder, None
        self.admin, box, self._behind, inward, self.send = free_ports(5)
        env = {
            "PATH": FOUND,
            "PEGLINE_SMS_KEY": KEY,
            "PEGLINE_SMS_PASSWORD": PASSWORD,
            "PEGLINE_SMS_FROM": "2020",
            "PEGLINE_OWN_URL": f"http://127.0.0.1:{bot_port}",
            "GATEWAY_ADMIN_PASSWORD": "admin",
            "GATEWAY_ADMIN_PORT": str(self.admin),
            "GATEWAY_BOX_PORT": str(box),
            "GATEWAY_SEND_PORT": str(self._behind),
            "GATEWAY_IN_PORT": str(inward),
            "GATEWAY_RETRY_S": "1",
            "GATEWAY_HTTP_TIMEOUT_S": "2",
            **values,
        }
        command = ["sh", str(ROOT / "deploy" / "gateway"), "render", kind, str(folder)]
        done = subprocess.run(command, env=env, capture_output=True, text=True, stdin=subprocess.DEVNULL)
        assert done.returncode == 0, done.stderr
        self.conf = done.stdout.strip()
        self.boxes = {}

    @property
    def url(self):
        return f"http://127.0.0.1:{self.send}/cgi-bin/sendsms"

    def start(self):
        for name in ("bearerbox", "smsbox"):
            self._box(name)
        until(lambda: self.status().count("(online") >= 2 and "on-line" in self.status(), lambda: f"gateway\n{self.status()}")
        self.relay = Relay(self.send, self._behind)
        return self

    def _box(self, name):
        path = which(name, path=FOUND)
        assert path, f"{name} is missing: run deploy/test as root, or install the package kannel"
        more = {"stderr": subprocess.STDOUT, "stdin": subprocess.DEVNULL, "cwd": self.folder}
        self.boxes[name] = Process(lambda out: subprocess.Popen([path, self.conf], stdout=out, **more), self.folder / f"{name}.out")
        if name == "bearerbox":
            until(lambda: self.status(), "bearerbox")

    def status(self):
        try:
            return get(f"http://127.0.0.1:{self.admin}/status.txt?password=admin", 2)[1]
        except OSError:
            return ""

    def kill(self):
        """As a cut of power: both boxes are gone at once."""
        self._unplug()
        for box in self.boxes.values():
            box.end(signal.SIGKILL)

    def _unplug(self):
        if self.relay is not None:
            self.relay.close()
            self.relay = None

    def stop(self):
        self._unplug()
        for box in self.boxes.values():
            box.tell(signal.SIGCONT)
            box.end(signal.SIGTERM, 1.0)


class Serving:
    """pegline serve over a book in a folder."""

    def __init__(self, folder, port, sms_url, programme=DEMO, **values):
        self.folder, self.port, self.file, self.process = folder, port, folder / "book.sqlite", None
        self.env = {
            **os.environ,
            "PYTHONPATH": str(ROOT),
            "PEGLINE_DATABASE_URL": f"sqlite:///{self.file}",
            "PEGLINE_PROGRAMME": str(programme),
            "PEGLINE_PORT": str(port),
            "PEGLINE_SMS_URL": sms_url,
            "PEGLINE_SMS_USER": "pegline",
            "PEGLINE_SMS_PASSWORD": PASSWORD,
            "PEGLINE_SMS_KEY": KEY,
            "PEGLINE_SMS_RATE": "200",
            **values,
        }

    def start(self):
        self.process = Process(lambda out: warm.Child(["serve"], self.env, out=out), self.folder / "bot.out")
        until(self._ready, lambda: f"bot\n{Path(self.process.log).read_text()}")
        return self

    def _ready(self):
        assert not self.process.ended, Path(self.process.log).read_text()
        try:
            return get(f"http://127.0.0.1:{self.port}/readyz")[0] == 200
        except OSError:
            return False

    def stop(self):
        return self.process and self.process.end(signal.SIGTERM, LONG_S)

    def kill(self):
        self.process.end(signal.SIGKILL)

    def command(self, *words):
        """One command of pegline on the same book; its output."""
        done = warm.run(words, self.env)
        assert done.returncode == 0, done.stderr
        return done.stdout

    def rows(self, query, *values):
        """What the book says, as tuples."""
        with closing(sqlite3.connect(self.file, timeout=30)) as book:
            return book.execute(query, values).fetchall()

    def write(self, statement):
        with closing(sqlite3.connect(self.file, timeout=30)) as book:
            book.execute(statement)
            book.commit()
