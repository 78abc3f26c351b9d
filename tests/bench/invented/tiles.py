"""Units multiplied inside the database: what lists and searches read of each, and a page of none.

A hundred times as quick as to write each from here. A copy has the document of nobody, no board
that it is like and no part that a library knows; its words are those of the unit it was copied of.
"""
from __future__ import annotations

from collections.abc import Mapping

from django.db import connection
from django.db.models import Max, Model

from teardowns.models import ListedUnit, Publication, SearchText, Unit
from teardowns.models.search_texts import KINDS, Findable

from .tables import count_on

RANDOM_UID = {"sqlite": "lower(hex(randomblob(16)))", "postgresql": "gen_random_uuid()"}


def multiply(times: int) -> None:
    """So many copies of every unit that is there."""
    stride = max(model.objects.aggregate(most=Max("pk"))["most"]
                 for model in (Unit, Publication)) + 1
    with connection.cursor() as cursor:
        _look_up_nothing(cursor)
        for tile in range(1, times + 1):
            _copy(cursor, tile * stride, stride)
    count_on(Unit, Publication)


def _copy(cursor, by, below):
    own = {"id": f"id + {by}", "unit_id": f"unit_id + {by}",
           "publication_id": f"publication_id + {by}", "uid": RANDOM_UID[connection.vendor],
           "document": "'{}'", "frozen": "'{}'", "words": "''", "correction_id": "NULL"}
    _insert(cursor, Unit, own, f"id < {below}")
    # Older versions stay with the first.
    _insert(cursor, Publication, own, f"id < {below} AND id IN (SELECT publication_id FROM "
                                      f"{_quoted(Unit._meta.db_table)} WHERE id < {below})")
    _insert(cursor, ListedUnit, own, f"unit_id < {below}")
    _insert(cursor, SearchText, {"id": f"id + {KINDS * by}"},
            f"id < {KINDS * below} AND id % {KINDS} = {Findable.UNIT.value}")


def _insert(cursor, model: type[Model], own: Mapping[str, str], where: str) -> None:
    columns = [field.column for field in model._meta.concrete_fields]
    names, table = ", ".join(map(_quoted, columns)), _quoted(model._meta.db_table)
    found = ", ".join(own.get(column, _quoted(column)) for column in columns)
    cursor.execute(f"INSERT INTO {table} ({names}) SELECT {found} FROM {table} WHERE {where}")


def _quoted(name):
    return connection.ops.quote_name(name)


def _look_up_nothing(cursor):
    """What the copies name is there: PostgreSQL need not look, where it can be told so."""
    if connection.vendor == "postgresql":
        cursor.execute("SELECT rolsuper FROM pg_roles WHERE rolname = current_user")
        if cursor.fetchone()[0]:
            cursor.execute("SET LOCAL session_replication_role = replica")
