"""Each setting that keeps what was acknowledged: asked of the open connection itself."""
import pytest
from django.conf import settings as site
from django.db import connection

from core.doctor import sqlite
from tests.core.doctor.found import bad

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.skipif(
    "postgresql" in site.DATABASES["default"]["ENGINE"], reason="SQLite alone has these settings")]


def test_as_shipped_nothing_is_wrong():
    assert bad("sqlite") == ""


def test_commits_that_are_not_synced_are_a_fault():
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA synchronous=NORMAL")
        try:
            assert "may be lost with the power" in bad("sqlite")
        finally:
            cursor.execute("PRAGMA synchronous=FULL")


def test_transactions_that_do_not_begin_immediate_are_a_fault(settings):
    options = settings.DATABASES["default"]["OPTIONS"]
    settings.DATABASES = {"default": settings.DATABASES["default"] | {
        "OPTIONS": options | {"transaction_mode": "DEFERRED"}}}
    assert "database is locked" in bad("sqlite")


def test_an_engine_that_can_lose_commits_is_named(monkeypatch):
    monkeypatch.setattr(sqlite.sqlite3, "sqlite_version_info", (3, 40, 1))
    assert "can lose committed data" in bad("sqlite")


@pytest.mark.parametrize("pragma, value, words", [
    ("journal_mode", "off", "The journal is off"), ("quick_check", "row 1 missing", "damaged")])
def test_a_wrong_journal_and_a_damaged_file_are_faults(monkeypatch, pragma, value, words):
    asked = sqlite.pragma
    monkeypatch.setattr(sqlite, "pragma", lambda name: value if name == pragma else asked(name))
    assert words in bad("sqlite")
