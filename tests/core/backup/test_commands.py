"""What is asked wrongly is answered in words."""
import pytest
from django.core.management import CommandError, call_command

from core.backup.back_up import Busy
from core.management.commands import backup


def test_a_number_of_bags_that_keeps_none_is_refused(tmp_path):
    with pytest.raises(CommandError, match="1 or more"):
        call_command("backup", str(tmp_path), keep=0)


def test_a_backup_that_could_not_be_made_says_so(monkeypatch, tmp_path):
    def fails(*args, **more):
        raise Busy("Another one is running.")

    monkeypatch.setattr(backup, "back_up", fails)
    with pytest.raises(CommandError, match="No backup was made. Another one"):
        call_command("backup", str(tmp_path))


def test_a_folder_that_is_not_there_is_named(tmp_path):
    with pytest.raises(CommandError, match="There is no folder .*nowhere"):
        call_command("check_backup", str(tmp_path / "nowhere"))


def test_a_folder_that_is_no_backup_is_named(tmp_path):
    with pytest.raises(CommandError, match="tagmanifest-sha256.txt cannot be read"):
        call_command("check_backup", str(tmp_path))
