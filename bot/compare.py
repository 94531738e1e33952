"""What loading a programme file changes in a book: how it stands before and after, laid side by side."""

from decimal import Decimal


def stands(page):
    """(what, of which) -> value of everything that a programme file may change."""
    found = {("setting", name): value for name, value in _flat(page.rules()) if name != "programme"}
    for code in page.codes():
        site = page.site(code)
        own = {"name": site.name, "plan": site.plan, "released_by": site.planned_by, "stage": site.started_at, "soil": site.rules.soil}
        found |= {(f"site {code}", name): value for name, value in _flat(own)}
    for person in page.people():
        own = {name: getattr(person, name) for name in ("name", "number", "language", "units")}
        own |= {"roles": ", ".join(f"{role} {code}" for code, role in person.roles)}
        found |= {(f"person {person.short}", name): value for name, value in own.items()}
    return found


def differences(before, after):
    """Yield what is new, gone or changed, one sentence each; a site or person that is new as a whole is one."""
    whole = {what for what, _ in after} - {what for what, _ in before} - {"setting"}
    for what in sorted(whole):
        yield f"new {what}: " + ", ".join(f"{name} {value}" for (of, name), value in after.items() if of == what)
    for key in sorted((before.keys() | after.keys()), key=str):
        old, new = before.get(key), after.get(key)
        if old != new and key[0] not in whole:
            yield f"{' '.join(key)}: {_written(old)} -> {_written(new)}"


def _written(value):
    return "none" if value is None or value == "" else str(value)


def _flat(rules, way=""):
    """(name, value) of every single setting; a row of a list goes by what it is about."""
    for name, value in rules.items():
        if isinstance(value, dict):
            yield from _flat(value, f"{way}{name}.")
        elif isinstance(value, list) and value and isinstance(value[0], dict):
            for place, row in enumerate(value):
                yield f"{way}{name}.{row.get('item', place)}.{row.get('supplier', '')}".rstrip("."), _row(row)
        elif value is not None:
            yield way + name, value


def _row(row):
    return ", ".join(f"{Decimal(value).normalize():f}" if name == "price" else str(value) for name, value in row.items() if name != "item")
