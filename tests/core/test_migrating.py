"""A step that alters a table waits seconds for its lock; what comes after waits as ever."""
import pytest
from django.db import connection

from core.migrating import wait_as_ever, wait_briefly

pytestmark = [pytest.mark.django_db, pytest.mark.skipif(
    connection.vendor != "postgresql", reason="SQLite has one writer and no such setting")]


def lock_timeout():
    with connection.cursor() as cursor:
        cursor.execute("SHOW lock_timeout")
        return cursor.fetchone()[0]


def test_while_tables_are_altered_a_lock_is_waited_for_briefly():
    before = lock_timeout()
    wait_briefly()
    assert lock_timeout() == "4s"
    wait_as_ever()
    assert lock_timeout() == before
