import shutil
from collections import namedtuple

import pytest

from core.doctor import disk
from tests.core.doctor.found import bad

Usage = namedtuple("Usage", "total used free")


@pytest.fixture(autouse=True)
def data_folder(settings, tmp_path):
    folder = settings.DATA_DIR = tmp_path / "data"
    folder.mkdir(mode=0o700)
    return folder


def test_a_private_folder_with_room_is_fine():
    assert bad("disk") == ""


@pytest.mark.parametrize("free, words", [(1_900_000_000, "1.9 GB are free"),
                                         (200_000_000, "0.2 GB are free")])
def test_little_room_is_said(monkeypatch, free, words):
    monkeypatch.setattr(shutil, "disk_usage", lambda path: Usage(10 ** 12, 0, free))
    assert words in bad("disk")


def test_too_few_names_are_said(monkeypatch):
    Files = namedtuple("Files", "f_files f_favail")
    monkeypatch.setattr(disk.os, "statvfs", lambda path: Files(1000, 10))
    assert "Only 10 more files" in bad("disk")


def test_a_folder_that_others_can_read_is_said(data_folder):
    data_folder.chmod(0o755)
    assert f"can get at {data_folder}" in bad("disk")


def test_a_folder_that_cannot_be_written_to_is_a_fault(settings, data_folder):
    """As root permissions deny nothing: a folder that is none denies everybody."""
    settings.DATA_DIR = data_folder / "file"
    settings.DATA_DIR.touch(mode=0o600)
    assert "Nothing can be written" in bad("disk")
