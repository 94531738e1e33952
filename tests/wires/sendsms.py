"""The sending side of an SMS gateway as an HTTP address: keeps what it is given and answers as it is told to."""

import threading
import time
from contextlib import contextmanager, suppress
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from urllib.parse import parse_qs, urlsplit

from tests.wires.phone import Phone

ACCEPTED = (202, "0: Accepted for delivery")
CUT = (None, "")  # the request is read, the connection closed without an answer


class Sendsms:
    """`got` is every text in order, `asked` every query; `answers` are taken from the front, then all is accepted, `accepted` told."""

    def __init__(self):
        self.got, self.asked, self.answers, self.slow_s, self._phone = [], [], [], 0.0, Phone()
        self.accepted = lambda query: None

    def take(self, path):
        self.asked.append({name: values[0] for name, values in parse_qs(urlsplit(path).query, keep_blank_values=True).items()})
        got = self._phone.take(path)
        if got is not None:
            self.got.append(got)
        time.sleep(self.slow_s)
        if self.answers:
            return self.answers.pop(0)
        if got is not None:
            self.accepted(got)
        return ACCEPTED


@contextmanager
def sendsms():
    """(the Sendsms, its address) for as long as the block lasts."""
    desk = Sendsms()

    class Handler(BaseHTTPRequestHandler):
        protocol_version = "HTTP/1.1"

        def do_GET(self):
            status, body = desk.take(self.path)
            if status is None:
                self.close_connection = True
                return
            head = f"HTTP/1.1 {status} .\r\nContent-Length: {len(body)}\r\n\r\n"
            with suppress(OSError):  # who asked may have gone
                self.wfile.write((head + body).encode())

        def log_message(self, *about):
            pass

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    server.daemon_threads = True
    thread = threading.Thread(target=server.serve_forever, args=(0.02,), daemon=True)
    thread.start()
    try:
        yield desk, f"http://127.0.0.1:{server.server_port}/cgi-bin/sendsms"
    finally:
        server.shutdown()
        server.server_close()
        thread.join(5)
