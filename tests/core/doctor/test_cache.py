import pytest
from django.db import connection

from tests.core.doctor.found import bad

pytestmark = pytest.mark.django_db


def test_a_table_that_keeps_is_fine():
    assert bad("cache") == ""


def test_a_table_that_is_gone_is_a_fault():
    with connection.cursor() as cursor:
        cursor.execute("ALTER TABLE cache RENAME TO cache_away")
        try:
            assert "cannot be counted" in bad("cache")
        finally:
            connection.needs_rollback = False
            if connection.vendor == "sqlite":
                cursor.execute("ALTER TABLE cache_away RENAME TO cache")
