"""The demo in a test's database: loaded once in each worker, and put back as it was after that.

Loading takes seconds; the rows that it left take a fraction of one.
"""
from __future__ import annotations

import io
import sqlite3
from dataclasses import dataclass, field

from django.db import connection, transaction

from teardowns.services.load_demo import DemoReport, load_demo


@dataclass
class KeptDemo:
    """What the first load left, by the table or as a whole database; empty before it."""

    report: DemoReport | None = None
    tables: dict[str, bytes] = field(default_factory=dict)
    whole: sqlite3.Connection | None = None

    def there(self) -> DemoReport:
        """The demo is in the database now, whose tables were empty."""
        if self.report is None:
            self.report = load_demo()
            self._keep()
        elif connection.vendor == "postgresql":
            self._fill()
        else:
            connection.ensure_connection()
            self.whole.backup(connection.connection)
        return self.report

    def _keep(self):
        if connection.vendor == "postgresql":
            for table in connection.introspection.table_names():
                self.tables[table] = _copied(table)
        else:
            self.whole = sqlite3.connect(":memory:", check_same_thread=False)
            connection.connection.backup(self.whole)

    def _fill(self):
        """References between tables are checked at the end, so their order does not matter."""
        with transaction.atomic(), connection.cursor() as cursor:
            cursor.execute("TRUNCATE {} CASCADE".format(", ".join(map(_quoted, self.tables))))
            for table, rows in self.tables.items():
                with cursor.copy(f"COPY {_quoted(table)} FROM STDIN") as copy:
                    copy.write(rows)
        _go_on_counting(self.tables)


def _copied(table):
    taken = io.BytesIO()
    with connection.cursor() as cursor, cursor.copy(f"COPY {_quoted(table)} TO STDOUT") as copy:
        for piece in copy:
            taken.write(piece)
    return taken.getvalue()


def _go_on_counting(tables):
    """The next key of each table comes after those that were put in."""
    with connection.cursor() as cursor:
        for table in tables:
            for column in connection.introspection.get_sequences(cursor, table):
                name = _quoted(column["column"])
                cursor.execute(
                    "SELECT setval(pg_get_serial_sequence(%s, %s), coalesce(max("
                    f"{name}), 0) + 1, false) FROM {_quoted(table)}",
                    [_quoted(table), column["column"]])


def _quoted(name):
    return connection.ops.quote_name(name)
