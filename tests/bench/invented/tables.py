"""Rows written as they are: COPY on PostgreSQL, many at a statement on SQLite."""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from contextlib import contextmanager
from typing import Any

from django.core.management.color import no_style
from django.db import connection
from django.db.models import Max, Model

from teardowns.search_engines import install
from teardowns.search_engines.sqlite import TRIGGERS

SLICE = 5000


def stored(model: type[Model], **known) -> dict[str, Any]:
    """One row by the names of its columns, JSON and times as text."""
    queryset = model.objects.filter(**known)
    columns = [field.column for field in model._meta.concrete_fields]
    pk = queryset.values_list("pk", flat=True).get()
    quote = connection.ops.quote_name
    casts = ", ".join(_as_text(field) for field in model._meta.concrete_fields)
    with connection.cursor() as cursor:
        cursor.execute(f"SELECT {casts} FROM {quote(model._meta.db_table)} "
                       f"WHERE {quote(model._meta.pk.column)} = %s", [pk])
        return dict(zip(columns, cursor.fetchone(), strict=True))


def _as_text(field):
    name = connection.ops.quote_name(field.column)
    kind = field.get_internal_type()
    is_text = kind in ("JSONField", "DateTimeField", "DateField", "UUIDField", "DecimalField")
    return f"{name}::text" if is_text and connection.vendor == "postgresql" else name


def next_pk(model: type[Model]) -> int:
    return (model.objects.aggregate(most=Max("pk"))["most"] or 0) + 1


class Writer:
    """Gathers rows of several tables, which may name each other, and writes them in slices."""

    def __init__(self):
        self.rows: dict[type[Model], list[Mapping[str, Any]]] = {}

    def add(self, model: type[Model], row: Mapping[str, Any]) -> None:
        waiting = self.rows.setdefault(model, [])
        waiting.append(row)
        if len(waiting) >= SLICE:
            self.flush(model)

    def flush(self, *models: type[Model]) -> None:
        for model in models or tuple(self.rows):
            rows = self.rows.pop(model, [])
            if rows:
                columns = list(rows[0])
                write(model, columns, [[row[name] for name in columns] for row in rows])


def write(model: type[Model], columns: Sequence[str], rows: Iterable[Sequence[Any]]) -> None:
    table = connection.ops.quote_name(model._meta.db_table)
    names = ", ".join(map(connection.ops.quote_name, columns))
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            with cursor.copy(f"COPY {table} ({names}) FROM STDIN") as copy:
                for row in rows:
                    copy.write_row(row)
        else:
            marks = ", ".join(["?"] * len(columns))
            connection.connection.executemany(
                f"INSERT INTO {table} ({names}) VALUES ({marks})", rows)


def count_on(*models: type[Model]) -> None:
    """The next key of each table comes after those that were put in."""
    with connection.cursor() as cursor:
        for sql in connection.ops.sequence_reset_sql(no_style(), models):
            cursor.execute(sql)


@contextmanager
def unguarded():
    """Without a journal and without looking up what rows name, where that can be had."""
    if connection.vendor == "sqlite" and not connection.in_atomic_block:
        with connection.cursor() as cursor:
            for setting in ("journal_mode=MEMORY", "synchronous=OFF", "foreign_keys=OFF",
                            "cache_size=-400000"):
                cursor.execute(f"PRAGMA {setting}")
        yield
        connection.close()                # the next one has the settings of the site
    else:
        yield


@contextmanager
def search_index_made_after():
    """The index over search texts is made once of all, not row by row."""
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute("DROP INDEX IF EXISTS searchtext_lexemes, searchtext_pieces")
        else:
            for name in TRIGGERS:
                cursor.execute(f"DROP TRIGGER IF EXISTS {name}")
    yield
    install(connection)


def time_text(at) -> str:
    """A moment in UTC as the database stores it."""
    plain = at.strftime("%Y-%m-%d %H:%M:%S.%f")
    return f"{plain}+00" if connection.vendor == "postgresql" else plain
