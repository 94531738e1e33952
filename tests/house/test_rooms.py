"""Who may import whom, which library has which door, how long a file and a function may be."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FILES = sorted(path for folder in ("bot", "calc") for path in (ROOT / folder).rglob("*.py"))
TABLES = {"calc/sources.py", "bot/cautions.py"}  # data, not code

MAY = {  # module or package -> what of ours it may import
    "calc": {"calc"},
    "bot.people": set(),
    "bot.config": set(),
    "bot.cautions": set(),
    "bot.stock": set(),
    "bot.channels": {"bot.channels", "bot.letters"},
    "bot.letters": set(),
    "bot.tongue": set(),
    "bot.phrases": {"calc.units", "bot.letters", "bot.tongue"},
    "bot.tape": {"calc.units", "bot.phrases", "bot.tongue"},
    "bot.forms": {"bot.people", "bot.phrases"},
    "bot.titles": {"bot.phrases"},
    "bot.faults": {"bot.phrases"},
    "bot.money": {"calc", "bot.days", "bot.phrases", "bot.titles"},
    "bot.reading": {"calc.units", "bot.forms", "bot.reading"},
    "bot.questions": {"bot.forms", "bot.phrases", "bot.reading", "bot.titles"},
    "bot.site": {"calc"},
    "bot.stages": {"calc", "bot.phrases"},
    "bot.days": {"calc"},
    "bot.draw": set(),
    "bot.extra": {"calc", "bot.days", "bot.draw", "bot.phrases", "bot.stages"},
    "bot.oddness": {"calc", "bot.days", "bot.stages", "bot.standing", "bot.stock", "bot.timeline"},
    "bot.standing": {"calc", "bot.days", "bot.extra", "bot.stages"},
    "bot.timeline": {"calc", "bot.days", "bot.stages", "bot.standing"},
    "bot.stops": {"calc", "bot.cautions", "bot.forms", "bot.phrases", "bot.site", "bot.standing", "bot.titles"},
    "bot.foreman": {"calc", "bot.extra", "bot.forms", "bot.phrases", "bot.tape", "bot.stages", "bot.standing", "bot.stops", "bot.titles"},
    "bot.kinds": {
        "calc",
        "bot.people",
        "bot.phrases",
        "bot.tape",
        "bot.forms",
        "bot.days",
        "bot.duty",
        "bot.items",
        "bot.draw",
        "bot.oddness",
        "bot.stages",
        "bot.standing",
        "bot.cautions",
        "bot.site",
        "bot.stock",
        "bot.stops",
        "bot.foreman",
        "bot.titles",
        "bot.faults",
        "bot.timeline",
        "bot.money",
        "bot.kinds",
    },  # fmt: skip
    "bot.tables": set(),
    "bot.mailbook": {"bot.tables"},
    "bot.timerbook": {"bot.tables"},
    "bot.codebook": {"bot.tables"},
    "bot.rolebook": {"bot.tables"},
    "bot.quick": set(),
    "bot.shelf": set(),
    "bot.sitebook": {"bot.site", "bot.tables"},
    "bot.addresses": {"bot.people", "bot.tables"},
    "bot.roster": {"bot.channels", "bot.people", "bot.tongue"},
    "bot.changes": {"calc.sources", "bot.forms", "bot.outbox", "bot.people", "bot.phrases", "bot.titles"},
    "bot.who": {"bot.people", "bot.phrases", "bot.forms", "bot.kinds", "bot.questions", "bot.reading", "bot.site"},
    "bot.alarms": {"bot.forms", "bot.kinds", "bot.people"},
    "bot.proof": {"bot.forms", "bot.kinds", "bot.people", "bot.phrases", "bot.questions", "bot.refusals", "bot.titles"},
    "bot.strangers": {"bot.beside", "bot.forms", "bot.kinds", "bot.phrases", "bot.proof"},
    "bot.quiet": {"bot.outbox", "bot.phrases"},
    "bot.logbook": {
        "bot.people",
        "bot.quick",
        "bot.shelf",
        "bot.tables",
        "bot.sitebook",
        "bot.mailbook",
        "bot.timerbook",
        "bot.codebook",
        "bot.addresses",
        "bot.rolebook",
    },
    "bot.migrations": {"bot.logbook", "bot.tables"},
    "bot.places": set(),
    "bot.ownwords": {"bot.letters", "bot.reading", "bot.roster", "bot.tongue"},
    "bot.contacts": {"bot.phrases"},
    "bot.programme": {
        "calc",
        "bot.duty",
        "bot.ownwords",
        "bot.letters",
        "bot.tongue",
        "bot.places",
        "bot.stages",
        "bot.site",
        "bot.roster",
    },  # fmt: skip
    "bot.compare": set(),
    "bot.loading": {"bot.compare", "bot.desk", "bot.logbook", "bot.programme"},
    "bot.order": {"bot.programme", "bot.logbook", "bot.channels", "bot.web"},
    "bot.outbox": {"calc.sources", "bot.letters", "bot.people", "bot.phrases", "bot.tongue"},
    "bot.beside": {"bot.forms", "bot.kinds", "bot.phrases", "bot.standing"},
    "bot.refusals": {"bot.forms", "bot.phrases", "bot.titles"},
    "bot.menu": {"bot.kinds", "bot.phrases", "bot.reading"},
    "bot.desk": {"bot.visits", "bot.channels", "bot.reading", "bot.serve", "bot.office", "bot.journal", "bot.engine"},
    "bot.visits": {"calc.sources", "bot.channels", "bot.desk", "bot.forms", "bot.kinds"},
    "bot.journal": {"bot.channels"},
    "bot.engine": {"bot.quick"},
    "bot.timers": {"bot.engine", "bot.outbox"},
    "bot.duty": {"bot.stages"},
    "bot.items": {"bot.letters", "bot.phrases"},
    "bot.notices": {"bot.channels", "bot.duty", "bot.forms", "bot.kinds", "bot.letters", "bot.outbox", "bot.people", "bot.phrases"},
    "bot.cases": {"calc", "bot.duty", "bot.forms", "bot.kinds", "bot.notices", "bot.outbox", "bot.people", "bot.phrases", "bot.stops"},
    "bot.reminders": {"bot.days", "bot.duty", "bot.foreman", "bot.notices", "bot.outbox", "bot.phrases", "bot.stages", "bot.standing"},
    "bot.roundup": {
        "calc",
        "bot.cases",
        "bot.duty",
        "bot.items",
        "bot.kinds",
        "bot.notices",
        "bot.outbox",
        "bot.phrases",
        "bot.reminders",
        "bot.stages",
        "bot.standing",
        "bot.stock",
        "bot.titles",
    },  # fmt: skip
    "bot.watch": {
        "calc",
        "bot.cases",
        "bot.contacts",
        "bot.duty",
        "bot.forms",
        "bot.kinds",
        "bot.notices",
        "bot.outbox",
        "bot.people",
        "bot.phrases",
        "bot.reminders",
        "bot.roundup",
        "bot.stages",
        "bot.titles",
    },  # fmt: skip
    "bot.mishap": {"bot.outbox", "bot.phrases"},
    "bot.lone": {"bot.channels", "bot.inbox", "bot.kinds", "bot.reading"},
    "bot.astray": {"bot.channels", "bot.outbox", "bot.phrases"},
    "bot.office": {"bot.channels", "bot.engine", "bot.outbox", "bot.people"},
    "bot.delivery": {"bot.astray", "bot.channels", "bot.engine", "bot.mailbook", "bot.outbox", "bot.papers", "bot.timers"},
    "bot.web": {"bot.tongue"},
    "bot.serve": {"bot.inbox", "bot.lone", "bot.watch", "bot.astray", "bot.delivery", "bot.channels", "bot.reading", "bot.web", "bot.menu"},
    "bot.sheet": {"calc"},
    "bot.papers": {"bot.phrases"},
    "bot.pages": set(),
    "bot.drawing": {
        "calc",
        "bot.phrases",
        "bot.tape",
        "bot.days",
        "bot.stages",
        "bot.standing",
        "bot.timeline",
        "bot.kinds",
        "bot.drawing",
    },  # fmt: skip
    "bot.card": {"bot.pages", "bot.phrases", "bot.titles"},
    "bot.record": {
        "calc.sources",
        "bot.phrases",
        "bot.cautions",
        "bot.stages",
        "bot.standing",
        "bot.stops",
        "bot.titles",
        "bot.drawing",
        "bot.pages",
    },  # fmt: skip
    "bot.clerk": {"bot.phrases", "bot.site", "bot.tongue", "bot.desk", "bot.kinds", "bot.drawing", "bot.record", "bot.card"},
    "bot.inbox": {
        "calc",
        "bot.codebook",
        "bot.channels",
        "bot.letters",
        "bot.people",
        "bot.phrases",
        "bot.forms",
        "bot.stages",
        "bot.site",
        "bot.kinds",
        "bot.reading",
        "bot.strangers",
        "bot.questions",
        "bot.logbook",
        "bot.outbox",
        "bot.mishap",
        "bot.changes",
        "bot.contacts",
        "bot.proof",
        "bot.alarms",
        "bot.quiet",
        "bot.beside",
        "bot.refusals",
        "bot.watch",
        "bot.who",
        "bot.papers",
    },  # fmt: skip
    "bot.talk": {"bot.channels", "bot.inbox", "bot.timers", "bot.watch"},
}
DOORS = {  # library -> the files that may import it
    "pint": {"calc/units.py"},
    "sqlalchemy": {
        "bot/addresses.py",
        "bot/codebook.py",
        "bot/sitebook.py",
        "bot/logbook.py",
        "bot/rolebook.py",
        "bot/mailbook.py",
        "bot/timerbook.py",
        "bot/tables.py",
        "bot/migrations",
        "bot/quick.py",
    },
    "dbos": {"bot/engine.py"},
    "aiolimiter": {"bot/delivery.py"},
    "httpcore": {"bot/channels/sms.py"},
    "telegram": {"bot/channels/telegram.py"},
    "phonenumbers": {"bot/channels/numbers.py"},
    "structlog": {"bot/journal.py"},
    "uvicorn": {"bot/web.py"},
    "starlette": {"bot/web.py", "bot/channels"},
    "prometheus_client": {"bot/web.py"},
    "alembic": {"bot/logbook.py", "bot/migrations"},
    "pydantic": {"bot/programme.py", "bot/places.py", "bot/ownwords.py", "bot/roster.py", "bot/config.py", "bot/duty.py"},
    "pydantic_settings": {"bot/config.py"},
    "PIL": {"bot/drawing/board.py"},
    "reportlab": {"bot/pages.py"},
    "gsm0338": {"bot/letters.py"},
    "babel": {"bot/tongue.py"},
    "rapidfuzz": {"bot/reading/slips.py"},
}


def place(path):
    return path.relative_to(ROOT).as_posix()


def module(path):
    name = place(path).removesuffix(".py").replace("/", ".")
    return name.removesuffix(".__init__")


def imports(path):
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield node.module
            yield from (f"{node.module}.{alias.name}" for alias in node.names if node.module in ("bot", "calc"))


def within(name, allowed):
    return any(name == room or name.startswith(room + ".") for room in allowed)


@pytest.mark.parametrize("path", FILES, ids=place)
def test_a_room_imports_only_what_it_may(path):
    name = module(path)
    rule = next((MAY[room] for room in sorted(MAY, key=len, reverse=True) if within(name, {room})), None)
    if rule is None:
        assert name in ("bot", "bot.__main__"), f"{name} has no rule"
        return
    ours = {found for found in imports(path) if found.split(".")[0] in ("bot", "calc") and found not in ("bot", "calc")}
    wrong = {found for found in ours if not within(found, rule)}
    assert not wrong, f"{name} imports {sorted(wrong)}"


@pytest.mark.parametrize("path", FILES, ids=place)
def test_a_library_is_imported_at_its_door(path):
    for found in imports(path):
        doors = DOORS.get(found.split(".")[0])
        assert doors is None or any(place(path).startswith(door) for door in doors), f"{place(path)} imports {found}"


@pytest.mark.parametrize("path", FILES, ids=place)
def test_a_file_is_not_over_300_lines(path):
    assert place(path) in TABLES or len(path.read_text().splitlines()) <= 300


def functions(path):
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.FunctionDef):
            documented = ast.get_docstring(node, clean=False)
            yield node.name, node.end_lineno - node.lineno + 1 - (documented.count("\n") + 1 if documented else 0)


def test_nine_functions_in_ten_are_under_25_lines():
    lengths = [length for path in FILES for _, length in functions(path)]
    assert sum(length < 25 for length in lengths) >= 0.9 * len(lengths)


def test_no_function_is_over_60_lines():
    long = [(place(path), name, length) for path in FILES for name, length in functions(path) if length > 60]
    assert not [each for each in long if each[0] != "bot/migrations/versions/0001_first.py"]
