"""Where in a programme file something stands that is wrong, and what to write instead.

The reader of the file gives values without lines: a line is found again by the names on the way to the value.
"""

import re
from difflib import get_close_matches
from typing import get_args

from pydantic import BaseModel

_HEAD = re.compile(r"\s*\[{1,2}\s*([^\[\]]+?)\s*\]{1,2}\s*(?:#.*)?$")
_WRITE = {  # by the sort of fault
    "missing": "write it there",
    "string_type": 'write it between quotes, "..."',
    "float_type": "write a number without quotes",
    "int_type": "write a whole number without quotes",
    "int_from_float": "write a whole number",
    "bool_type": "write true or false",
    "finite_number": "write a number",
    "date_type": "write a day as 2026-11-26",
    "list_type": "write a list, [ ... ]",
    "dict_type": "write a table",
}


def faults(text, error, model):
    """Yield every fault of a file that a model does not take, with its line; those of the file as a whole are one each."""
    for each in error.errors():
        if each["loc"]:
            yield _told(text, each, model)
        else:
            yield from (_named(text, fault) for fault in each["msg"].removeprefix("Value error, ").split("; "))


def _told(text, error, model):
    way = tuple(each for each in error["loc"] if each != "[key]")
    number, what, write = line_of(text, way), error["msg"].removeprefix("Value error, "), _WRITE.get(error["type"])
    if error["type"] == "extra_forbidden":
        known = _known(model, way[:-1])
        near = get_close_matches(str(way[-1]), known, 1)
        what, write = "no such name here", f"write {near[0]}" if near else f"known: {', '.join(sorted(known))}"
    return (f"line {number}: " if number else "") + f"{'.'.join(map(str, way))}: {what}" + (f"; {write}" if write else "")


def _known(model, way):
    """The names that a table of a file may hold."""
    for step in (each for each in way if isinstance(each, str) and each in model.model_fields):
        annotation = model.model_fields[step].annotation
        tables = [each for each in (annotation, *get_args(annotation)) if isinstance(each, type) and issubclass(each, BaseModel)]
        model = tables[0] if tables else model
    return list(model.model_fields)


def _named(text, fault):
    """A fault that names a limit, a site or a person, with the line where that stands."""
    limit = re.match(r"(tolerance) (\w+)", fault)
    number = line_of(text, limit.groups()) if limit else None
    for name in (*re.findall(r"\+[0-9]{6,}|\b[A-Z]{2}[0-9]{2}\b", fault), fault.partition(":")[0]):
        at = re.search(rf'(?m)^.*=\s*"{re.escape(name)}"', text)
        number = number or (at and text.count("\n", 0, at.start()) + 1)
    return f"line {number}: {fault}" if number else fault


def line_of(text, way):
    """The number of the line where a value of a TOML text stands, or the table it should stand in; None where neither is found.

    `way` are the names and places on the way to it: ("person", 2, "number").
    """
    lines = text.splitlines()
    best, start, depth = None, 0, 0
    for step in range(1, len(way) + 1):
        found = _table(lines, way[:step])
        if found is not None:
            best, start, depth = found, found, step
    for name in (each for each in way[depth:] if isinstance(each, str)):
        at = _key(lines, start, name)
        if at is None:
            break
        best = start = at
    return best


def _table(lines, way):
    """The line of the head of a table, `[a.b]`, or of the nth `[[a]]`."""
    wanted, nth = ".".join(each for each in way if isinstance(each, str)), way[-1] if isinstance(way[-1], int) else 0
    heads = [number for number, line in enumerate(lines, 1) if (head := _HEAD.match(line)) and head[1].replace('"', "") == wanted]
    return heads[nth] if nth < len(heads) else None


def _key(lines, start, name):
    """The line of a key in the table that begins at a line; the same line where the table stands between braces."""
    key = re.compile(rf'(?:^|[{{,])\s*"?{re.escape(name)}"?\s*=')
    for number in range(max(start, 1), len(lines) + 1):
        line = lines[number - 1]
        if number > start and _HEAD.match(line):
            return None
        if key.search(line):
            return number
    return None
