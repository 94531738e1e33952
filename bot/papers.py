"""Pictures and documents on their way: asked for in the answer's own transaction, made by a child process when they are sent.

What is queued is the order, in one line; so a restart loses none, and the memory that drawing takes is the child's.
"""

import asyncio
import logging
import os
import shutil
import subprocess
import sys
import tempfile
from contextlib import asynccontextmanager
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
DOCUMENTS = {"record": ("record", "--pdf", "pdf")}  # command, option and ending; all else is drawn


class Order(NamedTuple):
    """What is wanted of which site, its log up to an entry, as of a moment, in a language and units."""

    what: str
    site: str
    until: str
    language: str
    units: str
    at: str

    def command(self, folder):
        """(arguments of the command line that makes it, the file it makes)."""
        first, option, ending = DOCUMENTS.get(self.what, ("draw", "--to", "png"))
        path = Path(folder) / f"{self.site}-{self.what}.{ending}"
        named = [self.site] if self.what in DOCUMENTS else [self.site, self.what]
        how = ["--lang", self.language, "--units", self.units, "--until", self.until, "--at", self.at]
        return [first, *named, option, str(path), *how], path


def ordered(answers, site, reader, now):
    """The order for what goes along with these answers, or None."""
    what = next((answer.paper for answer in answers if answer.paper), None)
    if what is None:
        return None
    until = site.next_number - 1 + sum(len(answer.entries) for answer in answers)
    return MARK + " ".join(Order(what, site.code, str(until), reader.language, reader.units, now.isoformat()))


class Papers:
    """Makes what is ordered from a book, one at a time, in a folder of its own."""

    def __init__(self, url):
        self._url, self._turn = url, Lock()
        here = url.database if url.get_backend_name() == "sqlite" else None
        self.folder = Path(here).resolve().parent / "papers" if here else Path(tempfile.gettempdir()) / f"pegline-{os.getuid()}"

    @asynccontextmanager
    async def made(self, file, told=""):
        """The file to send and the text that goes with it, for as long as it is being sent; a path stays as it is."""
        if file is None or not file.startswith(MARK):
            yield file, told
            return
        order = Order(*file.removeprefix(MARK).split())
        path = await asyncio.to_thread(self._make, order)
        try:
            yield (str(path), told) if path else (None, f"{told} {_failed(order)}")
        finally:
            if path:
                await asyncio.to_thread(shutil.rmtree, path.parent, ignore_errors=True)

    def _make(self, order):
        """The file of an order, or None where it could not be made."""
        self.folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        folder = tempfile.mkdtemp(dir=self.folder)
        arguments, path = order.command(folder)
        around = {**os.environ, "PEGLINE_DATABASE_URL": self._url.render_as_string(hide_password=False), "PYTHONPATH": str(ROOT)}
        try:
            with self._turn:
                subprocess.run([sys.executable, "-m", "bot", *arguments], env=around, timeout=MADE_S, check=True, capture_output=True)
        except (OSError, subprocess.SubprocessError) as fault:
            log.error("the %s of %s could not be made: %s", order.what, order.site, type(fault).__name__)
            shutil.rmtree(folder, ignore_errors=True)
            return None
        return path

    def sweep(self, now):
        """Throw away what a process left behind that ended while it was sent."""
        for folder in self.folder.glob("*") if self.folder.is_dir() else ():
            if folder.is_dir() and folder.stat().st_mtime < (now - KEPT).timestamp():
                shutil.rmtree(folder, ignore_errors=True)


def _failed(order):
    return word(T_("The picture could not be made. Ask again later."), Reader(order.language))
