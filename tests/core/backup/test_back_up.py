"""What one backup does beside another, and with what went away meanwhile."""
import fcntl

import pytest

from core.backup import back_up as making
from core.backup.back_up import Busy, _linked, back_up
from core.backup.stored_files import Stored


def test_two_backups_into_one_folder_do_not_run_at_once(tmp_path):
    with (tmp_path / ".lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        with pytest.raises(Busy, match="Another backup"):
            back_up(tmp_path, lambda *_: None)


def test_what_a_backup_that_was_broken_off_left_goes(tmp_path):
    (tmp_path / ".2026-03-07T101500Z.part" / "data").mkdir(parents=True)
    making._drop_unfinished(tmp_path)
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("change", [{"size": 7}, {"modified": "2"}, {"name": "other"}])
def test_a_file_that_changed_is_read_anew(tmp_path, change):
    was = {"alias": "originals", "name": "a", "size": 6, "modified": "1"}
    old, new = tmp_path / "old", tmp_path / "new"
    (old / "data/storages/originals").mkdir(parents=True)
    (old / Stored(**was).path).write_bytes(b"pixels")
    known = {making._line(Stored(**was)): "digest"}
    assert _linked(Stored(**was | change), new, old, known) is None
    assert _linked(Stored(**was), new, old, known) == "digest"
    assert (new / Stored(**was).path).read_bytes() == b"pixels"


def test_where_the_link_cannot_be_made_the_file_is_read(tmp_path):
    file = Stored("originals", "gone", 6, "1")
    assert _linked(file, tmp_path / "new", tmp_path / "old", {making._line(file): "x"}) is None
