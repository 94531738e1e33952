"""A whole office on loopback for tests: the bot as its own process, a gateway and a messenger's API that only take texts."""

import json
import os
import signal
import subprocess
import sys
import threading
import time
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from urllib.parse import parse_qs, urlencode, urlsplit

from tests.conftest import DEMO, ROOT
from tests.postgres import free_port
from tests.wires.phone import Phone
from tests.wires.running import LONG_S, get, until

KEY, PASSWORD, LOG_KEY = "shared-key-of-a-test", "pass word & more", "the key of the log"
TOKEN, SECRET = "1234567:AAtokenOfATestXYZ", "secret-of-a-webhook"


class Taker(BaseHTTPRequestHandler):
    """Answers a sendsms and the methods of a bot account; what it took stands in `server.took`."""

    protocol_version = "HTTP/1.1"

    def do_GET(self):
        to = parse_qs(urlsplit(self.path).query)["to"][0]
        query = self.server.phone.take(self.path)
        if query is not None:
            self.server.took.append(("sms", to, query["text"], query.get("dlr-url")))
        refused = to in self.server.refuses
        self._answer(400 if refused else 202, f"Rejected: {self.path}" if refused else "0: Accepted for delivery", "text/plain")

    def do_POST(self):
        method = urlsplit(self.path).path.rpartition("/")[2]
        body = self.rfile.read(int(self.headers["content-length"] or 0))
        given = {name: values[0] for name, values in parse_qs(body.decode()).items()}
        if method == "sendMessage":
            self.server.took.append(("telegram", given["chat_id"], given["text"], None))
        chat = {"id": int(given.get("chat_id", 1)), "type": "private"}
        results = {
            "getMe": {"id": 1234567, "is_bot": True, "first_name": "Peg", "username": "peg_bot"},
            "sendMessage": {"message_id": len(self.server.took), "date": 1772442000, "chat": chat, "text": given.get("text", "")},
        }
        self._answer(200, json.dumps({"ok": True, "result": results.get(method, True)}), "application/json")

    def _answer(self, status, text, kind):
        body = text.encode()
        self.send_response(status)
        self.send_header("content-type", kind)
        self.send_header("content-length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *told):
        pass


class Served:
    """`pegline serve` as a process."""

    def __init__(self, folder, gateway, **more):
        self.port = free_port()
        self.url = f"http://127.0.0.1:{self.port}"
        self.log, self.gateway = folder / "serve.log", gateway
        own = {name: value for name, value in os.environ.items() if not name.startswith("PEGLINE_")}
        told = {
            "DATABASE_URL": f"sqlite:///{folder}/book.sqlite", "PROGRAMME": str(DEMO), "PORT": str(self.port),
            "SMS_URL": f"http://127.0.0.1:{gateway.server_port}/cgi-bin/sendsms", "SMS_USER": "bot", "SMS_PASSWORD": PASSWORD,
            "TELEGRAM_API": f"http://127.0.0.1:{gateway.server_port}",
            "SMS_KEY": KEY, "SMS_FROM": "2020", "SMS_RATE": "200", "LOG_SECRET": LOG_KEY,
            "SMS_ORDER_S": "0",  # this gateway sends no reports
        }  # fmt: skip
        self.environment = own | {f"PEGLINE_{name}": value for name, value in (told | more).items()} | {"PYTHONPATH": str(ROOT)}
        self._made = None

    def start(self):
        with self.log.open("ab") as out:
            command = [sys.executable, "-W", "error", "-m", "bot", "serve"]
            self._made = subprocess.Popen(command, cwd=self.log.parent, env=self.environment, stdout=out, stderr=out)
        until(lambda: self._lives() or self._made.poll() is not None, "the bot lives")
        assert self._made.poll() is None, self.log.read_text()
        return self

    def _lives(self):
        try:
            return get(f"{self.url}/healthz")[0] == 200
        except OSError:
            return False

    @property
    def pid(self):
        return self._made.pid

    def stop(self):
        """SIGTERM; return (exit status, seconds it took)."""
        since = time.monotonic()
        self._made.send_signal(signal.SIGTERM)
        try:
            return self._made.wait(LONG_S), time.monotonic() - since
        except subprocess.TimeoutExpired:
            self._made.kill()
            return self._made.wait(5.0), time.monotonic() - since

    def ended(self):
        return self._made is None or self._made.poll() is not None

    def sms(self, number, text, wire_id, **more):
        """One text as the gateway brings it; return (status, body)."""
        query = {"key": KEY, "id": wire_id, "from": number, "to": "2020", "charset": "UTF-8", "text": text, "udh": "", "ts": ""} | more
        return get(f"{self.url}/sms/mo?{urlencode(query)}", LONG_S)


@contextmanager
def gateway():
    """What takes texts: `took` is what it was given, `refuses` the numbers it refuses."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), Taker)
    server.daemon_threads, server.took, server.refuses, server.phone = True, [], set(), Phone()
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05})
    thread.start()
    try:
        yield server
    finally:
        server.shutdown()
        thread.join()
        server.server_close()


@contextmanager
def served(folder, **more):
    """A running bot with its gateway."""
    with gateway() as taker:
        made = Served(folder, taker, **more)
        try:
            yield made.start()
        finally:
            if not made.ended():
                made.stop()
