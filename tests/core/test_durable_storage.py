import os
import stat
from pathlib import Path

import pytest
from django.core.exceptions import SuspiciousFileOperation
from django.core.files.base import ContentFile

from core.durable_storage import DurableStorage


@pytest.fixture
def store(tmp_path):
    return DurableStorage(location=tmp_path / "kept", base_url=None)


class Broken(ContentFile):
    """Gives its first bytes and breaks off."""

    def chunks(self, chunk_size=None):
        yield b"the first half"
        raise OSError("The cable was pulled.")


def files(store):
    return [path for path in Path(store.location).rglob("*") if path.is_file()]


def content_of(store, name):
    with store.open(name) as kept:
        return kept.read()


def test_a_file_comes_back_as_it_was_put(store):
    assert store.save("ab/abc", ContentFile(b"picture")) == "ab/abc"
    assert content_of(store, "ab/abc") == b"picture"


def test_a_write_that_breaks_leaves_nothing(store):
    with pytest.raises(OSError, match="pulled"):
        store.save("ab/abc", Broken(b""))
    assert not files(store) and not store.exists("ab/abc")


def test_a_write_that_breaks_leaves_the_file_that_was_there(store):
    store.save("ab/abc", ContentFile(b"picture"))
    with pytest.raises(OSError, match="pulled"):
        store._save("ab/abc", Broken(b""))
    assert content_of(store, "ab/abc") == b"picture" and len(files(store)) == 1


def test_a_file_that_cannot_reach_the_disk_leaves_nothing(store, monkeypatch):
    def full(descriptor):
        raise OSError("No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        store.save("ab/abc", ContentFile(b"picture"))
    assert not files(store)


def test_a_name_that_is_written_again_is_replaced_whole(store):
    store.save("ab/abc", ContentFile(b"a long first picture"))
    store._save("ab/abc", ContentFile(b"short"))
    assert content_of(store, "ab/abc") == b"short" and len(files(store)) == 1


def test_the_file_is_on_the_disk_before_it_has_its_name(store, monkeypatch):
    seen, sync, replace = [], os.fsync, os.replace
    monkeypatch.setattr(os, "fsync", lambda each: seen.append("sync") or sync(each))
    monkeypatch.setattr(os, "replace", lambda *names: seen.append("name") or replace(*names))
    store.save("ab/abc", ContentFile(b"picture"))
    assert seen == ["sync", "name", "sync"]          # the file, its name, the folder's entry


def test_only_the_site_may_read_a_file(store):
    store.save("ab/abc", ContentFile(b"picture"))
    assert stat.S_IMODE(os.stat(store.path("ab/abc")).st_mode) == 0o600


@pytest.mark.parametrize("name", ["../out", "/etc/out", "ab/../../out"])
def test_a_name_that_leads_out_of_the_folder_is_refused(store, name):
    with pytest.raises(SuspiciousFileOperation):
        store.save(name, ContentFile(b"picture"))
    assert not files(store)
