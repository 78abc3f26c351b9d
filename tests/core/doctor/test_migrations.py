"""Tests make tables without migrations; `tests/core/backup` asks this of a real site."""
import pytest

from core.doctor import migrations
from tests.core.doctor.found import bad

pytestmark = pytest.mark.django_db


def test_what_is_not_applied_is_counted(monkeypatch):
    monkeypatch.setattr(migrations, "unapplied", lambda: ["core.0002_more", "core.0003_most"])
    monkeypatch.setattr(migrations, "unknown", lambda: [])
    assert "2 migrations are not applied, core.0002_more the first" in bad("migrations")


def test_a_database_newer_than_the_code_is_said(monkeypatch):
    monkeypatch.setattr(migrations, "unapplied", lambda: [])
    monkeypatch.setattr(migrations, "unknown", lambda: ["core.0009_later"])
    assert "newer than this code: core.0009_later" in bad("migrations")
