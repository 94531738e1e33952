"""The log of a running bot: one line an event, as JSON or for a console. No text of a message, no number, no secret.

The one importer of structlog. Others write with `logging`, an event in a few words and what belongs to it as `extra`;
a number stands under "who" and is masked here, once, for everybody.
"""

import logging
import re
import secrets
import sys
import traceback
from urllib.parse import quote, quote_plus

import structlog

from bot.channels.numbers import masked

LIBRARIES = ("httpx", "httpcore", "telegram", "dbos", "alembic", "uvicorn", "asyncio", "sqlalchemy")  # below a warning they write all
TOLD = ("channel", "wire_id", "outcome", "ms", "who", "text_id", "state", "tries", "segments", "where", "wires", "faults")
LEAST = 4  # letters of a secret that is looked for; a shorter one would black out half of every word
_NUMBERS = re.compile(r"\+\d{7,15}(?!\d)|tg:-?\d+|(?<![\w.-])\d{10,15}(?![\w.-])")


def begin(settings, stream=None):
    """Send what this process and its libraries log through one place, from now on."""
    scrub = Scrub(settings)
    chain = [
        structlog.stdlib.add_log_level,
        structlog.stdlib.add_logger_name,
        structlog.stdlib.ExtraAdder(allow=TOLD),
        structlog.processors.TimeStamper(fmt="iso", utc=True),
        scrub,
    ]
    shape = {"json": structlog.processors.JSONRenderer(), "console": structlog.dev.ConsoleRenderer(colors=False)}[settings.log_format]
    handler = logging.StreamHandler(stream or sys.stderr)
    handler.setFormatter(
        structlog.stdlib.ProcessorFormatter(
            foreign_pre_chain=chain, processors=[structlog.stdlib.ProcessorFormatter.remove_processors_meta, shape]
        )
    )
    logging.basicConfig(level=settings.log_level, handlers=[handler], force=True)
    logging.captureWarnings(True)
    for name in LIBRARIES:
        logging.getLogger(name).setLevel(logging.WARNING)
    engine = logging.getLogger("dbos")  # it makes a handler of its own where it finds none
    engine.handlers, engine.propagate = [handler], False


class Scrub:
    """Takes out of a line what nobody may read there: secrets, numbers, and what a fault quotes of a message."""

    def __init__(self, settings):
        self._key = settings.log_secret or secrets.token_hex(16)  # without a key of its own a run matches only itself
        self._frank = settings.log_level == "DEBUG"
        held = {written for secret in settings.secrets() for written in (secret, quote(secret, safe=""), quote_plus(secret))}
        long = sorted((each for each in held if len(each) >= LEAST), key=len, reverse=True)
        self._secret = re.compile("|".join(map(re.escape, long))) if long else None

    def __call__(self, logger, method, line):
        fault = line.pop("exc_info", None)
        line.pop("stack_info", None)
        if line["logger"] in ("asyncio", "py.warnings"):  # behind their first line they quote values
            line["event"] = line["event"].partition("\n")[0].partition("exception=")[0]
        if "who" in line:
            line["who"] = masked(line["who"], self._key)
        if fault:
            line["exception"] = _told(fault, self._frank)
        return {name: self._clean(value) if name not in ("who", "wire_id", "timestamp") else value for name, value in line.items()}

    def _clean(self, value):
        if not isinstance(value, str):
            return value
        text = self._secret.sub("***", value) if self._secret else value
        return _NUMBERS.sub(lambda match: masked(match.group(), self._key), text)


def _told(fault, frank):
    """Where a fault came from and of what kind it is. What it says may quote a message, so that is for debugging alone."""
    if frank:
        return "".join(traceback.format_exception(*fault)).rstrip()
    lines, error, seen = [], fault[1], set()
    while error is not None and id(error) not in seen:
        seen.add(id(error))
        frames = traceback.extract_tb(error.__traceback__)
        lines += [f"{type(error).__module__}.{type(error).__qualname__}", *(f"  {f.filename}:{f.lineno} {f.name}" for f in frames)]
        error = error.__cause__ or (None if error.__suppress_context__ else error.__context__)
    return "\n".join(lines)
