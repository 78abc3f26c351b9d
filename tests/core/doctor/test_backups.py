from datetime import timedelta

import pytest
from django.utils import timezone

from core.backup.bags import TAGS, bag_name
from tests.core.doctor.found import bad, found


@pytest.fixture
def backups(settings, tmp_path):
    settings.BACKUPS = tmp_path / "backups"
    return settings.BACKUPS


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
