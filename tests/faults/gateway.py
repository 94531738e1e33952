"""A gateway of the tests' own, over the same HTTP contract: it writes down each text it took, and can be slow, refuse, or fall silent."""

import random
import threading
import time
from collections import Counter
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from urllib.parse import parse_qs, urlsplit

from tests.wires.phone import Phone


class Quiet(ThreadingHTTPServer):
    request_queue_size = 128

    def handle_error(self, request, client_address):
        """A bot that is killed breaks its connections off: that is what is tested."""


class Gateway:
    """Listens while the block lasts. `took` is [(message id, recipient, text), ...] in the order of arrival."""

    def __init__(self, slow_s=0.0, refuse=0.0, lose=0.0, seed=1):
        self.took, self.slow_s, self.refuse, self.lose = [], slow_s, refuse, lose
        self._lock, self._chance, self._phone = threading.Lock(), random.Random(seed), Phone()
        self._server = Quiet(("127.0.0.1", 0), self._handler())
        self._server.daemon_threads = True
        self.url = f"http://127.0.0.1:{self._server.server_port}/cgi-bin/sendsms"

    def __enter__(self):
        self._thread = threading.Thread(target=self._server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True)
        self._thread.start()
        return self

    def __exit__(self, *fault):
        self._server.shutdown()
        self._server.server_close()
        self._thread.join()

    def times(self):
        """{message id: how often it was taken}."""
        with self._lock:
            return Counter(text_id for text_id, _, _ in self.took)

    def sequence(self, number):
        """The message ids one recipient got, in order, each where it came first."""
        with self._lock:
            return list(dict.fromkeys(text_id for text_id, to, _ in self.took if to == number))

    def numbers(self):
        with self._lock:
            return sorted({to for _, to, _ in self.took})

    def _take(self, path):
        """True where the text was taken, and whether its answer gets through."""
        with self._lock:
            if self._chance.random() < self.refuse:
                return False, True
            query = self._phone.take(path)
            if query is not None:
                self.took.append((int(parse_qs(urlsplit(query["dlr-url"]).query)["mid"][0]), query["to"], query["text"]))
            return True, self._chance.random() >= self.lose

    def _handler(gateway):  # noqa: N805 the handler's own self is another
        class Handler(BaseHTTPRequestHandler):
            protocol_version = "HTTP/1.1"

            def do_GET(self):
                taken, answered = gateway._take(self.path)
                time.sleep(gateway.slow_s)
                if not answered:
                    self.close_connection = True
                    return
                body = b"0: Accepted for delivery" if taken else b"try again"
                self.send_response(202 if taken else 503)
                self.send_header("Content-Length", str(len(body)))
                self.end_headers()
                self.wfile.write(body)

            def log_message(self, *args):
                pass

        return Handler
