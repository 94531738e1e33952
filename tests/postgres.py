"""A PostgreSQL server of the tests' own: on loopback, in a folder of its own, ended by its process id."""

import os
import shutil
import signal
import socket
import subprocess
import time
from pathlib import Path

import psycopg

USER = "pegline"


def free_port():
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        return taken.getsockname()[1]


class Postgres:
    """Started by `with`; `made(name, template)` is the address of a new database."""

    def __init__(self, folder, durable=False):
        found = sorted(Path("/usr/lib/postgresql").glob("*/bin"), key=lambda path: int(path.parent.name))
        if not found:
            raise RuntimeError("no PostgreSQL: deploy/test installs it (package postgresql)")
        self._bin, self._folder, self._port = found[-1], Path(folder), None
        self._settings = {"fsync": "on", "synchronous_commit": "on"} if durable else {"fsync": "off"}
        self._as = {"user": "postgres", "group": "postgres", "extra_groups": []} if os.geteuid() == 0 else {}

    def __enter__(self):
        self._folder.mkdir(parents=True)
        if self._as:  # the server refuses to be run by root
            shutil.chown(self._folder, "postgres", "postgres")
            for above in self._folder.parents[:-2]:
                above.chmod(above.stat().st_mode | 0o011)
        data = self._folder / "data"
        made = [self._bin / "initdb", "-D", data, "-U", USER, "-A", "trust", "-E", "UTF8", "--locale=C", "--no-sync"]
        done = subprocess.run(made, capture_output=True, text=True, cwd=self._folder, **self._as)
        if done.returncode:
            raise RuntimeError(done.stderr)
        for _ in range(5):  # a free port may be somebody else's a moment later
            self._port = free_port()
            if self._listens(data):
                return self
        raise RuntimeError((self._folder / "log").read_text())

    def _listens(self, data):
        """Start it; True once it answers, False where it ended instead."""
        more = {"listen_addresses": "127.0.0.1", "port": self._port, "unix_socket_directories": "", "max_connections": 120}
        options = [part for name, value in (more | self._settings).items() for part in ("-c", f"{name}={value}")]
        with (self._folder / "log").open("a") as written:
            command = [self._bin / "postgres", "-D", data, *options]
            self._server = subprocess.Popen(command, stdout=written, stderr=written, cwd=self._folder, **self._as)
        end = time.monotonic() + 60
        while self._server.poll() is None and time.monotonic() < end:
            try:
                psycopg.connect(self.url("postgres"), connect_timeout=2).close()
                return True
            except psycopg.OperationalError:
                time.sleep(0.05)
        return False

    def url(self, name):
        return f"postgresql://{USER}@127.0.0.1:{self._port}/{name}"

    def made(self, name, template="template0"):
        with psycopg.connect(self.url("postgres"), autocommit=True) as admin:
            admin.execute(f"CREATE DATABASE {name} TEMPLATE {template}")
        return self.url(name)

    def __exit__(self, *fault):
        self._server.send_signal(signal.SIGINT)  # its fast end: connections are cut
        self._server.wait(120)
