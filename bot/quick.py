"""Statements that are asked again and again: put together once, then run by the driver itself.

SQLAlchemy's own way takes five times as long, most of it to find out each time that it knows the statement already.
"""

from importlib import import_module

import sqlalchemy as sa
from sqlalchemy.engine import IteratorResult
from sqlalchemy.engine.result import SimpleResultMetaData


class Quick:
    """The statements of one database, each put together when it is first asked with these names of values."""

    def __init__(self, dialect):
        self._dialect, self._made = dialect, {}

    def run(self, connection, statement, values):
        """Run a statement, which must be one that stays, on a connection of the driver; return the Result, all of it read."""
        key = (statement, *values)
        made = self._made.get(key)
        if made is None:
            made = self._made[key] = Made(statement, self._dialect, list(values))
        return made.run(connection, values)


class Made:
    """One statement as its driver takes it, and what turns values of ours into its values and back."""

    def __init__(self, statement, dialect, names):
        made, columns = statement.compile(dialect=dialect, column_keys=names), statement.exported_columns
        self._sql, self._places, self._fixed = str(made), made.positiontup, made.params
        self._into = _converters(((name, bind.type) for name, bind in made.binds.items()), dialect, "bind_processor")
        self._back = _converters(enumerate(column.type for column in columns), dialect, "result_processor", None)
        self._shape = SimpleResultMetaData(columns.keys())

    def run(self, connection, values):
        given = self._fixed | values
        given |= {name: convert(given[name]) for name, convert in self._into.items()}
        cursor = connection.execute(self._sql, given if self._places is None else [given[name] for name in self._places])
        rows = cursor.fetchall() if cursor.description else []
        cursor.close()
        return IteratorResult(self._shape, iter([self._ours(row) for row in rows] if self._back else rows))

    def _ours(self, row):
        row = list(row)
        for place, convert in self._back.items():
            row[place] = convert(row[place])
        return tuple(row)


class Pattern:
    """A row that another program wrote, found by its `workflow_uuid`: more like it are written without that program."""

    def __init__(self, connection, table, schema, key, left_out):
        found = sa.table(table, sa.column("workflow_uuid"), schema=schema)
        asked = sa.select(sa.text("*")).select_from(found).where(found.c.workflow_uuid == key)
        row = connection.execute(asked).mappings().one()
        self._row = {name: value for name, value in row.items() if value is not None and name not in left_out}
        insert = import_module(f"sqlalchemy.dialects.{connection.dialect.name}").insert
        self._statement = insert(sa.table(table, *map(sa.column, self._row), schema=schema)).on_conflict_do_nothing()

    def like(self, own):
        """(statement, values) of one more row with values of its own; nothing happens where its key is there already."""
        return self._statement, {name: own.get(name, value) for name, value in self._row.items()}


def _converters(types, dialect, which, *more):
    """{name or place: function} where a type has something to convert."""
    found = {at: getattr(kind.dialect_impl(dialect), which)(dialect, *more) for at, kind in types}
    return {at: convert for at, convert in found.items() if convert}
