"""Pictures and documents on their way: asked for in the answer's own transaction, made by a child process when they are sent.

What is queued is the order, in one line; so a restart loses none, and the memory that drawing takes is the child's.
"""

import asyncio
import logging
import os
import shutil
import subprocess
import sys
from datetime import timedelta
from pathlib import Path
from threading import Lock
from typing import NamedTuple

from bot.phrases import T_, Reader, word

log = logging.getLogger("pegline")
MARK = "paper:"  # what an order begins with; other files are paths
MADE_S = 60  # a child that takes longer is given up
KEPT = timedelta(hours=24)  # of what a process left that was killed
ROOT = Path(__file__).parent.parent
DOCUMENTS = {"record": ("--pdf", "pdf")}  # option and ending of those that have a command of their own; all else is drawn


class Order(NamedTuple):
    """What is wanted of which site, its log up to an entry, as of a moment, in a language and units."""

    what: str
    site: str
    until: str
    language: str
    units: str
    at: str

    @property
    def ending(self):
        """The ending of its name."""
        return DOCUMENTS[self.what][1] if self.what in DOCUMENTS else "png"

    def command(self, path):
        """The arguments of the command line that makes it at a path."""
        option, _ = DOCUMENTS.get(self.what, ("", ""))
        how = ["--lang", self.language, "--units", self.units, "--until", self.until, "--at", self.at]
        return [self.what, self.site, option, str(path), *how] if option else ["draw", self.site, self.what, "--to", str(path), *how]


def ordered(answers, site, reader, message, now):
    """The order for what goes along with the answers to a message, or None; a channel that carries no files gets none."""
    what = next((answer.paper for answer in answers if answer.paper and message.files), None)
    if what is None:
        return None
    until = site.next_number - 1 + sum(len(answer.entries) for answer in answers)
    return MARK + " ".join(Order(what, site.code, str(until), reader.language, reader.units, now.isoformat()))


class Papers:
    """Makes what is ordered from a book, one at a time, in a folder of its own."""

    def __init__(self, url):
        self._url, self._turn = url, Lock()
        here = Path(url.database).parent if url.get_backend_name() == "sqlite" and url.database else Path(".pegline")
        self.folder = here.resolve() / "papers"

    async def made(self, text_id, file, told):
        """(the file that goes with a text, the text): made where it is an order, and kept until it is `over`; a path stays as it is."""
        if file is None or not file.startswith(MARK):
            return file, told
        order = Order(*file.removeprefix(MARK).split())
        path = await asyncio.to_thread(self._made, self.folder / str(text_id), order)
        return (str(path), told) if path else (None, f"{told} {_failed(order)}")

    async def over(self, text_id, file):
        """Throw away what was made for a text."""
        if file is not None and file.startswith(MARK):
            await asyncio.to_thread(shutil.rmtree, self.folder / str(text_id), ignore_errors=True)

    def _made(self, folder, order):
        """The file of an order in its folder, whole or not at all; None where it could not be made."""
        path = folder / f"{order.site}-{order.what}.{order.ending}"
        if path.exists():  # a try before this one was not taken
            return path
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        try:
            with self._turn:
                self._run(order.command(folder / f"new.{order.ending}"))
            return (folder / f"new.{order.ending}").replace(path)
        except (OSError, subprocess.SubprocessError) as fault:
            log.error("the %s of %s could not be made: %s", order.what, order.site, type(fault).__name__)
            return None

    def _run(self, arguments):
        """The command line in a child process, on the same book."""
        paths = os.pathsep.join(filter(None, (str(ROOT), os.environ.get("PYTHONPATH"))))
        around = os.environ | {"PEGLINE_DATABASE_URL": self._url.render_as_string(hide_password=False), "PYTHONPATH": paths}
        subprocess.run([sys.executable, "-m", "bot", *arguments], env=around, timeout=MADE_S, check=True, capture_output=True)

    def sweep(self, now):
        """Throw away what a process left behind that ended while it was sent."""
        for folder in self.folder.glob("*") if self.folder.is_dir() else ():
            if folder.is_dir() and folder.stat().st_mtime < (now - KEPT).timestamp():
                shutil.rmtree(folder, ignore_errors=True)


def _failed(order):
    return word(T_("The picture could not be made. Ask again later."), Reader(order.language))
