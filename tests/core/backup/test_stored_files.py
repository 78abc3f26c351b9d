"""Folders are walked here; a bucket is listed in tests/core/backup/test_buckets.py."""
import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import storages

from core.backup.stored_files import copy_out, private_storages, stored_files


@pytest.fixture
def stored():
    storages["originals"].save("ab/abc", ContentFile(b"pixels"))
    return storages["originals"]


def test_all_storages_but_the_static_files_are_kept():
    assert "originals" in private_storages() and "staticfiles" not in private_storages()


def test_a_file_is_listed_with_size_and_date_and_one_being_written_is_not(stored, tmp_path):
    (tmp_path / "originals" / "ab" / ".half").write_bytes(b"x")
    file, = stored_files()
    assert (file.alias, file.name, file.size) == ("originals", "ab/abc", 6)
    assert file.path == "data/storages/originals/ab/abc"


def test_a_copy_tells_its_digest_and_a_file_that_went_away_is_none(stored, tmp_path):
    file, = stored_files()
    # SHA-256 of "pixels", by sha256sum
    assert copy_out(file, tmp_path / "a" / "copy") == DIGEST
    stored.delete(file.name)
    assert copy_out(file, tmp_path / "b") is None and not (tmp_path / "b").exists()


DIGEST = "6ec9c2b0eb14010746c8bce8939303b382344b296206612eb8a907a37b2b2f37"
