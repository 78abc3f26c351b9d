"""A server's settings, some of which no session can change: those are answered for it."""
import pytest
from django.conf import settings as site
from django.db import connection

from core.doctor import postgresql
from tests.core.doctor.found import bad, found

pytestmark = [pytest.mark.django_db, pytest.mark.skipif(
    "sqlite" in site.DATABASES["default"]["ENGINE"], reason="PostgreSQL alone has these settings")]


def test_commits_that_do_not_wait_for_the_disk_are_a_fault():
    assert "acknowledged" not in bad("postgresql")
    with connection.cursor() as cursor:
        cursor.execute("SET LOCAL synchronous_commit = off")
    assert "synchronous_commit is off" in bad("postgresql")


@pytest.mark.parametrize("name, value, words", [
    ("fsync", "off", "can destroy the database"),
    ("full_page_writes", "off", "half-written pages"),
    ("data_checksums", "off", "keeps no checksums"),
    ("server_encoding", "LATIN1", "stores text as LATIN1"),
    ("max_connections", "1", "of 1 connections")])
def test_each_setting_of_the_server_that_loses_something_is_named(monkeypatch, name, value, words):
    asked = postgresql.setting
    monkeypatch.setattr(postgresql, "setting", lambda each: value if each == name else asked(each))
    assert words in bad("postgresql")


def test_a_server_that_is_too_old_is_a_fault(monkeypatch):
    monkeypatch.setattr(connection, "get_database_version", lambda: (13, 9))
    assert "older than 14" in bad("postgresql")


def test_what_the_account_may_do_is_said():
    said = " ".join(words for _, words in found("postgresql"))
    assert "superuser" in said or "owns the tables" in said or "neither the schema" in said
