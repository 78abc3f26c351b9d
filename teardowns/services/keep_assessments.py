"""Write many assessments at one statement."""
from __future__ import annotations

from typing import Any

from django.db import connection
from django.utils import timezone

from teardowns.models import Assessment

from .assess_units import list_columns
from .foresee_assessments import Asked, Foresight, stored_assessments

FIELDS: list[Any] = [field for field in Assessment._meta.concrete_fields if not field.primary_key]


def keep_assessments(ahead: Foresight) -> None:
    """Those of a foresight that are not stored yet; their units are locked.

    A report is JSON already, and is not made into it again for each row that has it.
    """
    wanted = ahead.wanted
    stored = stored_assessments(wanted, ahead.seen.rules)
    rows = [_row(asked, ahead) for asked in wanted if asked not in stored]
    if not rows:
        return
    quote = connection.ops.quote_name
    columns = ", ".join(quote(field.column) for field in FIELDS)
    places = ", ".join(["%s"] * len(FIELDS))
    with connection.cursor() as cursor:
        cursor.executemany(f"INSERT INTO {quote(Assessment._meta.db_table)} ({columns}) "
                           f"VALUES ({places})", rows)


def _row(asked: Asked, ahead: Foresight):
    made = Assessment(
        unit_id=asked.unit, rulebook=ahead.seen.rules, evidence_digest=asked.digest,
        confirmed_only=asked.confirmed_only, created_at=timezone.now(),
        **list_columns(ahead.reports[asked.key]))
    return [ahead.texts[asked.key] if field.name == "payload"
            else field.get_db_prep_save(getattr(made, field.attname), connection)
            for field in FIELDS]
