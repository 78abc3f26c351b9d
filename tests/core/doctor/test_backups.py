from datetime import timedelta

import pytest
from django.db import connection
from django.utils import timezone

from core.backup.bags import TAGS, bag_name
from core.doctor import backups as checks
from tests.core.doctor.found import bad, found


@pytest.fixture
def backups(settings, tmp_path):
    settings.BACKUPS = tmp_path / "backups"
    return settings.BACKUPS


pytestmark = pytest.mark.django_db


def made(folder, hours_ago):
    bag = folder / bag_name(timezone.now() - timedelta(hours=hours_ago))
    bag.mkdir(parents=True)
    (bag / TAGS).touch()


def test_nobody_looks_where_no_place_is_stated(settings):
    settings.BACKUPS = None
    assert [level for level, _ in found("backups")] == ["note"]


def test_no_backup_is_a_fault_and_an_old_one_a_warning(backups):
    assert "no whole backup" in bad("backups")
    made(backups, 30)
    assert "30 hours old" in bad("backups")
    made(backups, 2)
    assert bad("backups") == ""


@pytest.mark.skipif(connection.vendor == "sqlite", reason="its backup needs no program")
@pytest.mark.parametrize("release, words", [(None, "not installed"), (9, "of release 9")])
def test_a_program_that_cannot_read_the_server_is_said(monkeypatch, backups, release, words):
    made(backups, 2)
    assert checks.release_of("pg_dump") and bad("backups") == ""
    monkeypatch.setattr(checks, "release_of", lambda program: release)
    assert words in bad("backups")


def test_the_release_of_a_program_that_is_not_there_is_unknown():
    assert checks.release_of("no-such-program") is None
