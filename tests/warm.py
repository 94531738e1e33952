"""The bot as processes of its own that need no loading: one parent has loaded everything and forks for each.

A start costs two seconds of loading, and the tests start the bot a hundred times. What is forked is `pegline` itself, its
`main` with its words and environment; it is killed, stopped and waited for like any process.
"""

import atexit
import json
import os
import signal
import socket
import subprocess
import sys
import tempfile
from contextlib import suppress
from functools import cache
from pathlib import Path
from select import select

ROOT = Path(__file__).parent.parent
ENTRY = "bot.__main__:main"
LOAD_S = 120  # for the first


class Child:
    """One forked process, with what of subprocess.Popen the tests use."""

    def __init__(self, words, env, cwd=ROOT, out=None, err=None, given=None, entry=ENTRY):
        self.returncode = None
        self._told, told = socket.socketpair(socket.AF_UNIX, socket.SOCK_SEQPACKET)
        asked = {"words": list(map(str, words)), "env": env, "cwd": str(cwd), "entry": entry}
        with told, open(os.devnull, "r+b") as nothing:
            files = (given or nothing, out or nothing, err or out or nothing)
            socket.send_fds(_parent(), [json.dumps(asked).encode()], [told.fileno(), *(file.fileno() for file in files)])
        self.pid = int(self._line(LOAD_S))

    def _line(self, seconds):
        """The next number the keeper of the child tells; None where it does not within so many seconds."""
        if not select([self._told], [], [], seconds)[0]:
            return None
        return self._told.recv(32) or b"-9"  # a keeper that is gone too

    def poll(self):
        if self.returncode is None and (line := self._line(0)) is not None:
            self.returncode = int(line)
            self._told.close()
        return self.returncode

    def wait(self, seconds=None):
        if self.returncode is None and not select([self._told], [], [], seconds)[0]:
            raise subprocess.TimeoutExpired("pegline", seconds)
        return self.poll()

    def send_signal(self, number):
        if self.poll() is None:
            with suppress(ProcessLookupError):
                os.kill(self.pid, number)

    def kill(self):
        self.send_signal(signal.SIGKILL)


def run(words, env, given="", entry=ENTRY, seconds=LOAD_S):
    """One command to its end, as subprocess.run gives it."""
    with tempfile.TemporaryFile() as read, tempfile.TemporaryFile() as out, tempfile.TemporaryFile() as err:
        read.write(given.encode())
        read.seek(0)
        child = Child(words, env, ROOT, out, err, read, entry)
        try:
            child.wait(seconds)
        finally:
            child.kill()
        out.seek(0)
        err.seek(0)
        return subprocess.CompletedProcess(words, child.wait(), out.read().decode(), err.read().decode())


@cache
def _parent():
    """A line to the parent, which ends when the line does."""
    ours, theirs = socket.socketpair(socket.AF_UNIX, socket.SOCK_SEQPACKET)
    env = os.environ | {"PYTHONPATH": str(ROOT)}
    with theirs:
        command = [sys.executable, __file__, str(theirs.fileno())]
        made = subprocess.Popen(command, pass_fds=[theirs.fileno()], env=env, cwd=ROOT, stdin=subprocess.DEVNULL)

    def end():
        ours.close()
        made.wait(30)

    atexit.register(end)
    return ours


# ---- the parent


def serve(line):
    """Fork for whatever is asked for on the line, until its other end is gone."""
    from bot import __main__, desk, order, serve  # noqa: F401 loaded once
    from bot.channels import sms, telegram  # noqa: F401
    from bot.reading.words import vocabulary

    vocabulary()
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    while True:
        asked, fds, _, _ = socket.recv_fds(line, 1 << 20, 4)
        if not asked:
            return
        if os.fork() == 0:
            line.close()
            _kept(json.loads(asked), *fds)
        for fd in fds:
            os.close(fd)


def _kept(asked, told, *files):
    """Fork the process that was asked for; tell its pid, and its exit status once it has one."""
    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    child = os.fork()
    if child == 0:
        os.close(told)
        for at, file in enumerate(files):
            os.dup2(file, at)
            os.close(file)
        os.environ.clear()
        os.environ.update(asked["env"])
        os.chdir(asked["cwd"])
        room, _, name = asked["entry"].partition(":")
        module = __import__(room, fromlist=[name])
        sys.exit(getattr(module, name)(asked["words"]))
    for file in files:
        os.close(file)
    os.write(told, b"%d" % child)
    if told in select([told, os.pidfd_open(child)], [], [])[0]:
        os.kill(child, signal.SIGKILL)  # the tests are gone
    _, status = os.waitpid(child, 0)
    with suppress(OSError):
        os.write(told, b"%d" % os.waitstatus_to_exitcode(status))
    os._exit(0)


if __name__ == "__main__":
    serve(socket.socket(fileno=int(sys.argv[1])))
