"""The web's account changes neither the schema nor entries of the log; the backup's reads all."""
import re
from uuid import uuid4

import psycopg
import pytest
from django.conf import settings as site
from django.db import connection

from core.settings import BASE_DIR

pytestmark = [pytest.mark.django_db, pytest.mark.skipif(
    "sqlite" in site.DATABASES["default"]["ENGINE"], reason="SQLite knows no accounts")]


@pytest.fixture
def accounts():
    """The script with names of this test's own, in a transaction that is taken back."""
    text = (BASE_DIR / "fixtures" / "deploy" / "grants.sql").read_text()
    mark = f"test_{uuid4().hex[:8]}_"
    with connection.cursor() as cursor:
        cursor.execute(re.sub(r"underplate_(owner|web|backup)", rf"{mark}\1", text))
    return mark


def refused(account, sql):
    with connection.cursor() as cursor:
        cursor.execute("SAVEPOINT tried")
        try:
            cursor.execute(f"SET LOCAL ROLE {account}; {sql}")
        except Exception as error:
            return isinstance(error.__cause__, psycopg.errors.InsufficientPrivilege)
        finally:
            cursor.execute("ROLLBACK TO SAVEPOINT tried")
    return False


@pytest.mark.parametrize("sql", [
    "UPDATE audit_entry SET reason = 'x'", "DELETE FROM audit_entry", "TRUNCATE audit_entry",
    "DELETE FROM audit_head", "ALTER TABLE teardowns_unit ADD COLUMN x int",
    "DROP TABLE teardowns_unit", "CREATE TABLE public.x (y int)"])
def test_what_the_webs_account_may_not(accounts, sql):
    assert refused(f"{accounts}web", sql)


@pytest.mark.parametrize("sql", [
    "SELECT count(*) FROM audit_entry", "UPDATE audit_head SET sequence = sequence",
    "DELETE FROM teardowns_unit WHERE id = 0", "UPDATE cache SET value = value"])
def test_what_it_may(accounts, sql):
    assert not refused(f"{accounts}web", sql)


def test_what_is_written_with_the_owners_rights_goes_into_no_table_of_its_own(accounts):
    """Such a table could have a trigger, which would then act as the owner."""
    with connection.cursor() as cursor:
        cursor.execute(f"""SET LOCAL ROLE {accounts}web;
            CREATE TEMP TABLE search_words (word text PRIMARY KEY);
            GRANT ALL ON search_words TO PUBLIC;
            INSERT INTO teardowns_searchtext (id, title, body, tokens, run_together)
                VALUES (4, '', '', 'urhub', '')""")
        cursor.execute("SELECT (SELECT count(*) FROM pg_temp.search_words),"
                       " EXISTS (SELECT FROM public.search_words WHERE word = 'urhub')")
        assert cursor.fetchone() == (0, True)


def test_the_backups_account_reads_all_and_writes_nothing(accounts):
    assert not refused(f"{accounts}backup", "SELECT count(*) FROM audit_entry, teardowns_unit")
    assert refused(f"{accounts}backup", "UPDATE audit_head SET sequence = 0")


def test_it_is_safe_to_repeat(accounts):
    with connection.cursor() as cursor:
        text = (BASE_DIR / "fixtures" / "deploy" / "grants.sql").read_text()
        cursor.execute(re.sub(r"underplate_(owner|web|backup)", rf"{accounts}\1", text))
