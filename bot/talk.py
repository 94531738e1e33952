"""A conversation script on a fresh book: who says what when, and what must come back.

`mason > text` is sent; `mason < text` is a text that must have gone to him, `...` standing for anything;
`CODE` in what is sent stands for the last one-time code that went out;
`@ +7 days` and `@ 2026-12-01 09:00` move the clock, and what is due until then goes out; `#` begins a remark.
"""

import re
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from bot import watch
from bot.channels import terminal
from bot.inbox import take
from bot.timers import ring_due

_LINE = re.compile(r"(\S+) ([<>]) ?(.*)")
_CODE = re.compile(r"(?<=code )\d{6}\b|(?<=code: )\d{6}\b|(?<=confirm )\d{6}\b")
_STEP = re.compile(r"@ \+(\d+(?:\.\d+)?) (min|h|days?)")
_UNITS = {"min": "minutes", "h": "hours", "day": "days", "days": "days"}
START = "2026-03-02 08:00"


class Broken(ValueError):
    """A line of a script that is none."""


def run(script, book, words, numbers, zone):
    """Run a script and yield (line as it went, fault or None); `numbers` gives the number of a short name."""
    now = datetime.fromisoformat(START).replace(tzinfo=ZoneInfo(zone))
    code = None
    names = {number: name for name, number in numbers.items()}
    unseen = []
    with book.page() as page:
        watch.begin(page, now)
    for at, line in enumerate(script.splitlines(), 1):
        line = line.strip()
        if not line or line.startswith("#"):
            continue
        if line.startswith("@"):
            now = _moved(line, now, zone, at)
            yield f"@ {now:%a %d %b %H:%M}", None
            unseen = _rung(book, now)
            for sent in unseen:
                yield f"    {names.get(sent.to, sent.to)} < {sent.text}", None
            continue
        match = _LINE.fullmatch(line)
        if not match or match.group(1) not in numbers:
            raise Broken(f"line {at}: {line}")
        name, way, text = match.groups()
        if way == "<":
            went = [sent.text for sent in unseen if sent.to == numbers[name]]
            yield f"{name} < {text}", _missed(text, went, at)
            continue
        now += timedelta(seconds=5)
        text = text.replace("CODE", code or "CODE")
        unseen = _sent(numbers[name], text, book, words, now, f"line-{at}")
        code = next((found.group() for sent in unseen for found in [_CODE.search(sent.text)] if found), code)
        yield f"{name} > {text}", None
        for sent in unseen:
            yield f"    {names.get(sent.to, sent.to)} < {sent.text}", None


def _sent(number, text, book, words, now, wire_id):
    take(terminal.inbound(number, text, now, wire_id), book, words, now)
    with book.page() as page:
        return list(terminal.outgoing(page, wire_id))


def _rung(book, now):
    """What went out because its moment came."""
    ring_due(book, watch.RINGS, now)
    with book.page() as page:
        return list(terminal.unasked(page))


def _moved(line, now, zone, at):
    step = _STEP.fullmatch(line)
    if step:
        return now + timedelta(**{_UNITS[step.group(2)]: float(step.group(1))})
    try:
        return datetime.fromisoformat(line[1:].strip()).replace(tzinfo=ZoneInfo(zone))
    except ValueError:
        raise Broken(f"line {at}: {line}") from None


def _missed(text, went, at):
    """None where a text like this went out, else what is wrong; "(nothing)" means that nothing may have."""
    if text == "(nothing)":
        return f"line {at}: went out: {went[0]}" if went else None
    pattern = ".*".join(re.escape(part) for part in text.split("..."))
    if any(re.fullmatch(pattern, sent, re.S) for sent in went):
        return None
    return f"line {at}: expected {text}\n    went out: {went or 'nothing'}"
